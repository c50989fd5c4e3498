//! The images of a loudspeaker in a box room up to an order, wall by wall with what lies at every point that is met.
//!
//! Same room as `tracer`; no diffraction: what is at the point counts.

use crate::support::tracer::TracedRoom;

/// One image as the seat gets it.
pub struct SeatImage {
    /// Way from loudspeaker to seat, m.
    pub path_m: f64,
    /// Energy re the direct sound on axis at 1 m.
    pub energy: f64,
}

/// All images of order 1 to `highest_order`.
///
/// `directivity`: energy re the axis from the cosine of the angle off it.
pub fn seat_images(
    room: &TracedRoom,
    source_m: [f64; 3],
    axis: [f64; 3],
    directivity: impl Fn(f64) -> f64,
    seat_m: [f64; 3],
    highest_order: i32,
) -> Vec<SeatImage> {
    let reach = -highest_order..=highest_order;
    let mut images = Vec::new();
    for x in reach.clone() {
        for y in reach.clone() {
            for z in reach.clone() {
                let order = x.abs() + y.abs() + z.abs();
                if (1..=highest_order).contains(&order) {
                    images.push(image(room, source_m, axis, &directivity, seat_m, [x, y, z]));
                }
            }
        }
    }
    images
}

/// The image in one cell of the lattice.
fn image(
    room: &TracedRoom,
    source_m: [f64; 3],
    axis: [f64; 3],
    directivity: impl Fn(f64) -> f64,
    seat_m: [f64; 3],
    cell: [i32; 3],
) -> SeatImage {
    let away: [f64; 3] = std::array::from_fn(|i| {
        let size_m = room.size_m[i];
        let odd = cell[i].rem_euclid(2) == 1;
        let within_m = if odd {
            size_m - source_m[i]
        } else {
            source_m[i]
        };
        f64::from(cell[i]) * size_m + within_m - seat_m[i]
    });
    let path_m = away.iter().map(|part| part * part).sum::<f64>().sqrt();
    let cosine: f64 = (0..3)
        .map(|i| {
            let mirrored = if cell[i].rem_euclid(2) == 1 {
                1.0
            } else {
                -1.0
            };
            mirrored * away[i] / path_m * axis[i]
        })
        .sum();
    let loss_per_m = room.air_attenuation_per_m + room.object_surface_m2 / (4.0 * room.volume_m3());
    SeatImage {
        path_m,
        energy: directivity(cosine) / (path_m * path_m)
            * (-loss_per_m * path_m).exp()
            * left_by_walls(room, seat_m, away, cell),
    }
}

/// What the walls leave on the straight way from the seat to the image, which crosses their mirrored planes.
fn left_by_walls(room: &TracedRoom, seat_m: [f64; 3], away: [f64; 3], cell: [i32; 3]) -> f64 {
    let mut left = 1.0;
    for axis in 0..3 {
        let planes = if cell[axis] > 0 {
            1..=cell[axis]
        } else {
            cell[axis] + 1..=0
        };
        for plane in planes {
            let part = (f64::from(plane) * room.size_m[axis] - seat_m[axis]) / away[axis];
            let point_m = std::array::from_fn(|i| {
                let unfolded = (seat_m[i] + part * away[i]).rem_euclid(2.0 * room.size_m[i]);
                unfolded.min(2.0 * room.size_m[i] - unfolded)
            });
            let far = plane.rem_euclid(2) as usize;
            let finish = room.finish_at(2 * axis + far, point_m);
            left *= (1.0 - finish.absorption) * (1.0 - finish.scattering);
        }
    }
    left
}
