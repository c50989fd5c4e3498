//! Image sources: the ways that sound takes from a loudspeaker to the seat over one to three surfaces of the box.
//!
//! Ways, points, lengths and directions are exact for the box; what the surfaces do to the sound is told elsewhere.

use glam::DVec3;

use crate::geometry::Surface;
use crate::numeric::sort_few;

/// Where a path meets a surface.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hit {
    /// The surface.
    pub surface: Surface,
    /// The point, room axes, m.
    pub point_m: DVec3,
    /// Unit vector in which the sound travels towards the surface.
    pub travel: DVec3,
    /// Cosine of the angle of incidence.
    pub cosine: f64,
    /// Length of the path before the point, m.
    pub before_m: f64,
    /// Length of the path after the point, m.
    pub after_m: f64,
}

/// The way of one image.
#[derive(Clone, Debug, PartialEq)]
pub struct ImagePath {
    /// The surfaces in the order in which sound from the source meets them.
    pub hits: Vec<Hit>,
    /// Length from source to receiver, m.
    pub distance_m: f64,
    /// Unit vector from the receiver towards where the sound comes from.
    pub direction: DVec3,
    /// Unit vector in which the sound leaves the source.
    pub leaving: DVec3,
}

impl ImagePath {
    /// How many surfaces it meets.
    #[must_use]
    pub fn order(&self) -> usize {
        self.hits.len()
    }

    /// The surfaces in the order met from the source.
    pub fn surfaces(&self) -> impl Iterator<Item = Surface> + '_ {
        self.hits.iter().map(|hit| hit.surface)
    }

    /// The points where it meets them, room axes, m.
    pub fn points_m(&self) -> impl Iterator<Item = DVec3> + '_ {
        self.hits.iter().map(|hit| hit.point_m)
    }
}

/// The paths over 1 to `order` surfaces: 6, 24 or 62 for 1, 2, 3; by order, then by the surfaces met, as [`Surface`] lists
/// them.
///
/// ```text
/// image n of an axis of length L: at n L + x for even n, n L + (L − x) for odd n, mirrored |n| times
/// ```
///
/// # Source
/// Allen & Berkley, Image method for efficiently simulating small-room acoustics, J. Acoust. Soc. Am. 65 (1979) 943–950.
#[must_use]
pub fn images(size_m: DVec3, source_m: DVec3, receiver_m: DVec3, order: usize) -> Vec<ImagePath> {
    let most = order as i32;
    let each = -most..=most;
    let mut paths = Vec::new();
    for x in each.clone() {
        for y in each.clone() {
            for z in each.clone() {
                if (1..=most).contains(&(x.abs() + y.abs() + z.abs())) {
                    paths.push(path(size_m, source_m, receiver_m, [x, y, z]));
                }
            }
        }
    }
    sort_few(&mut paths, |a: &ImagePath, b| {
        a.order()
            .cmp(&b.order())
            .then_with(|| a.surfaces().cmp(b.surfaces()))
    });
    paths
}

/// The path of one image.
fn path(size_m: DVec3, source_m: DVec3, receiver_m: DVec3, image: [i32; 3]) -> ImagePath {
    let place = |axis: usize| {
        let (count, size, x) = (image[axis], size_m[axis], source_m[axis]);
        f64::from(count) * size + if count % 2 == 0 { x } else { size - x }
    };
    let image_m = DVec3::new(place(0), place(1), place(2));
    let towards = image_m - receiver_m;
    let line = Line {
        size_m,
        receiver_m,
        towards,
        distance_m: towards.length(),
        direction: towards.normalize_or_zero(),
    };
    let mut shares: Vec<(f64, usize, i32)> = (0..3)
        .flat_map(|axis| planes(image[axis]).map(move |plane| (axis, plane)))
        .map(|(axis, plane)| (line.share_at(axis, plane), axis, plane))
        .collect();
    sort_few(&mut shares, |a, b| b.0.total_cmp(&a.0).then(a.1.cmp(&b.1)));
    let mirrored = |axis: usize| if image[axis] % 2 == 0 { -1.0 } else { 1.0 };
    ImagePath {
        hits: shares.into_iter().map(|at| line.hit(at)).collect(),
        distance_m: line.distance_m,
        direction: line.direction,
        leaving: line.direction * DVec3::new(mirrored(0), mirrored(1), mirrored(2)),
    }
}

/// The planes between the room and an image, in multiples of the room's size.
fn planes(count: i32) -> std::ops::RangeInclusive<i32> {
    if count > 0 { 1..=count } else { count + 1..=0 }
}

/// The straight line from the receiver to an image, through mirrored rooms.
struct Line {
    size_m: DVec3,
    receiver_m: DVec3,
    towards: DVec3,
    distance_m: f64,
    direction: DVec3,
}

impl Line {
    /// Share of the line at which it crosses a plane; the middle where it lies in it.
    fn share_at(&self, axis: usize, plane: i32) -> f64 {
        let from_receiver = f64::from(plane) * self.size_m[axis] - self.receiver_m[axis];
        let share = from_receiver / self.towards[axis];
        if share.is_finite() {
            share.clamp(0.0, 1.0)
        } else {
            0.5
        }
    }

    /// What happens in the room at such a crossing.
    fn hit(&self, (share, axis, plane): (f64, usize, i32)) -> Hit {
        let surface = Surface::ALL[2 * axis + usize::from(plane % 2 != 0)];
        let unfolded_m = self.receiver_m + self.towards * share;
        let (mut point_m, mut travel) = (DVec3::ZERO, -self.direction);
        for other in 0..3 {
            let room = (unfolded_m[other] / self.size_m[other]).floor();
            let inside_m = unfolded_m[other] - room * self.size_m[other];
            let is_mirrored = room.rem_euclid(2.0) != 0.0;
            point_m[other] = if is_mirrored {
                self.size_m[other] - inside_m
            } else {
                inside_m
            };
            travel[other] = if is_mirrored {
                -travel[other]
            } else {
                travel[other]
            };
        }
        point_m[axis] = surface.offset_m(self.size_m);
        let cosine = self.direction[axis].abs();
        travel[axis] = if surface.is_far() { cosine } else { -cosine };
        Hit {
            surface,
            point_m,
            travel,
            cosine,
            before_m: self.distance_m * (1.0 - share),
            after_m: self.distance_m * share,
        }
    }
}
