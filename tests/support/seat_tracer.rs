//! What arrives at one seat from one loudspeaker in a box room: the independent check of what is said about a seat.
//!
//! Same room as `tracer`: panels at their places, Lambert scattering, furniture met at random, air. Sound that no wall
//! and no furniture has scattered comes by image sources, one by one; all the rest by random rays that cross a small
//! sphere about the seat. It leaves out phase, diffraction at edges, and absorption that depends on the angle.
//!
//! The line from source to seat is taken as free: furniture weakens reflections and never the direct sound.

use crate::support::generator::Generator;
use crate::support::tracer::TracedRoom;
use std::f64::consts::PI;

/// Width of a bin of the histogram, s: 20, 50 and 80 ms are whole numbers of it.
pub const BIN_S: f64 = 0.001;

/// Bins after the direct sound: 3 s. A ray that comes later is dropped.
const BINS: usize = 3000;

/// Largest radius of the sphere about the seat, m. Noise falls with it, and it blurs arrivals by ± 0.9 ms.
const LARGEST_RADIUS_M: f64 = 0.3;

/// Below this part of its start energy a ray goes on by the toss of a coin, with double energy if it does.
const COIN_BELOW: f64 = 0.1;

/// An image weaker than this part of its unattenuated energy counts as nothing.
const FAINTEST_IMAGE: f64 = 1e-9;

/// Rays are cut into this many blocks, each with its own random stream, so that threads do not change the result.
const BLOCKS: usize = 16;

/// A loudspeaker: a point with a main axis.
pub struct SeatSource<'a> {
    /// Place, m.
    pub position_m: [f64; 3],
    /// Main axis, of unit length.
    pub axis: [f64; 3],
    /// Energy re the axis from the cosine of the angle off it; 1 at 1.
    pub directivity: &'a (dyn Fn(f64) -> f64 + Sync),
}

/// How finely to trace.
#[derive(Clone, Copy, Debug)]
pub struct SeatTracing {
    /// Number of random rays.
    pub rays: usize,
    /// Seed of the random numbers.
    pub seed: u64,
    /// Path up to which unscattered sound is summed image by image, m; beyond it, rays carry it too.
    pub image_reach_m: f64,
    /// Threads; the result does not depend on it.
    pub threads: usize,
}

impl SeatTracing {
    /// The usual settings: C50 within 0.1 dB (standard deviation), on two threads.
    pub fn usual(seed: u64) -> Self {
        Self {
            rays: 400_000,
            seed,
            image_reach_m: 60.0,
            threads: 2,
        }
    }
}

/// Energy at the seat, re the direct sound on axis at 1 m.
#[derive(Clone, Debug, PartialEq)]
pub struct SeatEnergy {
    /// Energy of the direct sound.
    pub direct: f64,
    /// Energy of everything else, bin n from n to n + 1 times `BIN_S` after the direct sound.
    pub reflected: Vec<f64>,
}

impl SeatEnergy {
    /// Reflected energy between two times after the direct sound, s, both on the grid of bins.
    pub fn reflected_between(&self, from_s: f64, to_s: f64) -> f64 {
        let bin = |time_s: f64| ((time_s / BIN_S).round() as usize).min(self.reflected.len());
        self.reflected[bin(from_s)..bin(to_s)].iter().sum()
    }

    /// All energy.
    pub fn total(&self) -> f64 {
        self.direct + self.reflected.iter().sum::<f64>()
    }

    /// Energy up to `limit_s` after the direct sound and with it, re all that comes later, dB; infinite if nothing does.
    ///
    /// # Source
    /// ISO 3382-1:2009, A.2.3 (clause number from memory, medium).
    pub fn clarity_db(&self, limit_s: f64) -> f64 {
        let early = self.direct + self.reflected_between(0.0, limit_s);
        10.0 * (early / self.reflected_between(limit_s, f64::INFINITY)).log10()
    }

    /// Clarity with a limit of 50 ms, dB.
    pub fn c50_db(&self) -> f64 {
        self.clarity_db(0.05)
    }

    /// Clarity with a limit of 80 ms, dB.
    pub fn c80_db(&self) -> f64 {
        self.clarity_db(0.08)
    }

    /// Share of the direct sound in all energy.
    pub fn direct_share(&self) -> f64 {
        self.direct / self.total()
    }

    /// Share of the reflections within 20 ms after the direct sound.
    pub fn early_share(&self) -> f64 {
        self.reflected_between(0.0, 0.02) / self.total()
    }

    /// Share of all that comes later than 20 ms after the direct sound.
    pub fn late_share(&self) -> f64 {
        self.reflected_between(0.02, f64::INFINITY) / self.total()
    }
}

/// Traces what arrives at a seat.
///
/// Every ray starts with its part of the radiated energy, 4π times the directivity over the number of rays. A ray of
/// energy e that crosses the sphere of volume v along a chord l adds e l / v: the mean over the sphere of the energy per
/// area that comes from all sides.
///
/// # Units
/// - `seat_m`: m, inside the room and off its walls
/// - returns: re the direct sound on axis at 1 m
///
/// # Accuracy
/// Standard deviation over seeds with the usual settings, measured in the twelve rooms of `rooms`: C50 0.01 to 0.09 dB,
/// C80 below 0.1 dB (0.2 dB where it is 12 dB), shares up to 0.0035. It falls with the root of the rays.
///
/// # Panics
/// If source or seat is not inside the room.
pub fn trace_seat(
    room: &TracedRoom,
    source: &SeatSource,
    seat_m: [f64; 3],
    tracing: SeatTracing,
) -> SeatEnergy {
    for place_m in [source.position_m, seat_m] {
        let mut axes = place_m.iter().zip(&room.size_m);
        assert!(
            axes.all(|(at_m, size_m)| *at_m > 0.0 && at_m < size_m),
            "{place_m:?} is not inside the room"
        );
    }
    let seat = Seat::new(room, source, seat_m);
    let mut reflected = vec![0.0; BINS];
    add_images(room, source, &seat, tracing.image_reach_m, &mut reflected);
    for block in blocks(room, source, &seat, tracing) {
        for (sum, part) in reflected.iter_mut().zip(block) {
            *sum += part;
        }
    }
    let leaving = towards(source.position_m, seat_m);
    let air = (-room.air_attenuation_per_m * seat.direct_m).exp();
    let direct =
        (source.directivity)(dot(leaving, source.axis)) * air / (seat.direct_m * seat.direct_m);
    SeatEnergy { direct, reflected }
}

/// The seat and what is the same for all that arrives there.
struct Seat {
    center_m: [f64; 3],
    radius_m: f64,
    direct_m: f64,
    bin_m: f64,
    air_per_m: f64,
}

impl Seat {
    fn new(room: &TracedRoom, source: &SeatSource, center_m: [f64; 3]) -> Self {
        let to_wall = |axis: usize| center_m[axis].min(room.size_m[axis] - center_m[axis]);
        let away = difference(center_m, source.position_m);
        Self {
            center_m,
            radius_m: (0..3).map(to_wall).fold(LARGEST_RADIUS_M, f64::min),
            direct_m: dot(away, away).sqrt(),
            bin_m: BIN_S * room.speed_of_sound_m_per_s,
            air_per_m: room.air_attenuation_per_m,
        }
    }

    /// Enters energy that has come `path_m`, less what air took; nothing when the histogram has ended.
    fn enter(&self, energy: f64, path_m: f64, bins: &mut [f64]) {
        // The sphere reaches a little nearer to the source than its centre: such energy belongs to the first bin.
        let bin = ((path_m - self.direct_m) / self.bin_m).max(0.0) as usize;
        if let Some(sum) = bins.get_mut(bin) {
            *sum += energy * (-self.air_per_m * path_m).exp();
        }
    }

    /// The piece of a leg inside the sphere: its length and the way from the start of the leg to its middle, m.
    fn chord(&self, leg: &Leg) -> Option<(f64, f64)> {
        let to_center = difference(self.center_m, leg.from_m);
        let along_m = dot(to_center, leg.direction);
        let half_square = self.radius_m.powi(2) - dot(to_center, to_center) + along_m * along_m;
        if half_square <= 0.0 {
            return None;
        }
        let half_m = half_square.sqrt();
        let (start_m, end_m) = (
            (along_m - half_m).max(0.0),
            (along_m + half_m).min(leg.length_m),
        );
        (end_m > start_m).then_some((end_m - start_m, 0.5 * (start_m + end_m)))
    }
}

/// A straight piece of a path.
struct Leg {
    from_m: [f64; 3],
    direction: [f64; 3],
    length_m: f64,
}

/// A point that travels through the room.
struct Traveller {
    position_m: [f64; 3],
    direction: [f64; 3],
}

impl Traveller {
    /// Distance to the wall ahead and which it is, in the order of `TracedRoom::walls`.
    fn wall_ahead(&self, room: &TracedRoom) -> (f64, usize) {
        let mut nearest = (f64::INFINITY, 0);
        for axis in 0..3 {
            let along = self.direction[axis];
            let side = usize::from(along > 0.0);
            let plane_m = room.size_m[axis] * side as f64;
            let way_m = (plane_m - self.position_m[axis]) / along;
            // A direction along the wall gives infinity or no number, and neither is nearer.
            if along != 0.0 && way_m < nearest.0 {
                nearest = (way_m, 2 * axis + side);
            }
        }
        // Rounding may leave a point a hair outside its wall.
        (nearest.0.max(0.0), nearest.1)
    }

    fn go(&mut self, way_m: f64) {
        for axis in 0..3 {
            self.position_m[axis] += way_m * self.direction[axis];
        }
    }

    /// Goes to a wall and turns as at a mirror.
    fn mirror_at(&mut self, room: &TracedRoom, way_m: f64, surface: usize) {
        self.go(way_m);
        let (axis, side) = (surface / 2, surface % 2);
        self.position_m[axis] = room.size_m[axis] * side as f64;
        self.direction[axis] = inward(surface) * self.direction[axis].abs();
    }

    /// Takes a direction by Lambert's law from the wall it stands at.
    fn scatter_from(&mut self, surface: usize, random: &mut Generator) {
        let axis = surface / 2;
        let (first, second, normal) = random.lambert();
        self.direction[(axis + 1) % 3] = first;
        self.direction[(axis + 2) % 3] = second;
        self.direction[axis] = inward(surface) * normal;
    }
}

/// Sense of the normal that points into the room.
fn inward(surface: usize) -> f64 {
    1.0 - 2.0 * (surface % 2) as f64
}

/// Hits on furniture per metre of path.
fn furniture_per_m(room: &TracedRoom) -> f64 {
    room.object_surface_m2 / (4.0 * room.volume_m3())
}

/// Enters every image source within reach, each with what is left of it after all walls on its way.
fn add_images(room: &TracedRoom, source: &SeatSource, seat: &Seat, reach_m: f64, bins: &mut [f64]) {
    for image_m in images_within(room, source.position_m, seat.center_m, reach_m) {
        let away = difference(image_m, seat.center_m);
        let path_m = dot(away, away).sqrt();
        let (left, leaving) = walk_back(room, seat.center_m, away, path_m);
        let furniture = (-furniture_per_m(room) * path_m).exp();
        let radiated = (source.directivity)(dot(leaving, source.axis));
        seat.enter(radiated * left * furniture / path_m.powi(2), path_m, bins);
    }
}

/// Walks from the seat towards an image, mirrored at the walls, until it stands at the source itself.
///
/// Returns what the walls leave of the unscattered energy, and the direction in which it left the source.
fn walk_back(room: &TracedRoom, seat_m: [f64; 3], away: [f64; 3], path_m: f64) -> (f64, [f64; 3]) {
    let mut walker = Traveller {
        position_m: seat_m,
        direction: away.map(|part| part / path_m),
    };
    let (mut to_go_m, mut left) = (path_m, 1.0);
    loop {
        let (way_m, surface) = walker.wall_ahead(room);
        if way_m >= to_go_m || left < FAINTEST_IMAGE {
            return (left, walker.direction.map(|part| -part));
        }
        walker.mirror_at(room, way_m, surface);
        let finish = room.finish_at(surface, walker.position_m);
        left *= (1.0 - finish.absorption) * (1.0 - finish.scattering);
        to_go_m -= way_m;
    }
}

/// Places of all image sources within reach of the seat, without the source itself.
fn images_within(
    room: &TracedRoom,
    source_m: [f64; 3],
    seat_m: [f64; 3],
    reach_m: f64,
) -> Vec<[f64; 3]> {
    let [along_x, along_y, along_z] = [0, 1, 2]
        .map(|axis| images_on_axis(room.size_m[axis], source_m[axis], seat_m[axis], reach_m));
    let mut images_m = Vec::new();
    for &x in &along_x {
        for &y in &along_y {
            for &z in &along_z {
                let image_m = [x, y, z];
                let away = difference(image_m, seat_m);
                if image_m != source_m && dot(away, away) <= reach_m * reach_m {
                    images_m.push(image_m);
                }
            }
        }
    }
    images_m
}

/// Coordinates of the images along one axis: 2 n L ± the source's.
fn images_on_axis(length_m: f64, source_m: f64, seat_m: f64, reach_m: f64) -> Vec<f64> {
    let most = (reach_m / (2.0 * length_m)).ceil() as i32 + 1;
    (-most..=most)
        .flat_map(|n| [1.0, -1.0].map(|sign| 2.0 * f64::from(n) * length_m + sign * source_m))
        .filter(|place_m| (place_m - seat_m).abs() <= reach_m)
        .collect()
}

/// Histograms of the blocks of rays.
fn blocks(
    room: &TracedRoom,
    source: &SeatSource,
    seat: &Seat,
    tracing: SeatTracing,
) -> Vec<Vec<f64>> {
    let SeatTracing { rays, seed, .. } = tracing;
    let mut histograms = vec![vec![0.0; BINS]; BLOCKS];
    let per_thread = BLOCKS.div_ceil(tracing.threads.max(1));
    let trace_block = |block: usize, bins: &mut [f64]| {
        let mut random = Generator::stream(seed, block as u64);
        let tracer = RayTracer {
            room,
            seat,
            image_reach_m: tracing.image_reach_m,
        };
        for _ in rays * block / BLOCKS..rays * (block + 1) / BLOCKS {
            let direction = random.isotropic();
            let radiated = (source.directivity)(dot(direction, source.axis));
            let energy = 4.0 * PI * radiated / rays as f64;
            tracer.follow(source.position_m, direction, energy, &mut random, bins);
        }
    };
    std::thread::scope(|scope| {
        for (thread, share) in histograms.chunks_mut(per_thread).enumerate() {
            scope.spawn(move || {
                for (n, bins) in share.iter_mut().enumerate() {
                    trace_block(thread * per_thread + n, bins);
                }
            });
        }
    });
    histograms
}

/// What does not change from ray to ray.
struct RayTracer<'a> {
    room: &'a TracedRoom,
    seat: &'a Seat,
    image_reach_m: f64,
}

/// A ray on its way.
struct Ray {
    traveller: Traveller,
    energy: f64,
    path_m: f64,
    /// Wall or furniture has sent it off its mirrored way.
    scattered: bool,
    /// It has met something at all; before that it is direct sound.
    reflected: bool,
}

impl RayTracer<'_> {
    /// Follows a ray until it is spent or the histogram ends.
    fn follow(
        &self,
        position_m: [f64; 3],
        direction: [f64; 3],
        energy: f64,
        random: &mut Generator,
        bins: &mut [f64],
    ) {
        let traveller = Traveller {
            position_m,
            direction,
        };
        let (scattered, reflected) = (false, false);
        let mut ray = Ray {
            traveller,
            energy,
            path_m: 0.0,
            scattered,
            reflected,
        };
        let coin_below = COIN_BELOW * energy;
        let end_m = self.seat.direct_m + BINS as f64 * self.seat.bin_m;
        while ray.energy > 0.0 && ray.path_m < end_m {
            self.go_on(&mut ray, random, bins);
            if ray.energy < coin_below {
                ray.energy *= if random.unit() < 0.5 { 2.0 } else { 0.0 };
            }
        }
    }

    /// Goes to whatever is met next, leaves at the seat what crosses the sphere, and turns.
    fn go_on(&self, ray: &mut Ray, random: &mut Generator, bins: &mut [f64]) {
        let (to_wall_m, surface) = ray.traveller.wall_ahead(self.room);
        // No memory is in the way between pieces of furniture, so that it can be drawn anew on each leg.
        let to_furniture_m = random.exponential() / furniture_per_m(self.room);
        let way_m = to_wall_m.min(to_furniture_m);
        self.leave_at_seat(ray, way_m, bins);
        ray.path_m += way_m;
        ray.reflected = true;
        if to_furniture_m < to_wall_m {
            ray.traveller.go(way_m);
            ray.traveller.direction = random.isotropic();
            ray.scattered = true;
            ray.energy *= 1.0 - self.room.object_absorption;
        } else {
            ray.traveller.mirror_at(self.room, way_m, surface);
            let finish = self.room.finish_at(surface, ray.traveller.position_m);
            ray.energy *= 1.0 - finish.absorption;
            if random.unit() < finish.scattering {
                ray.traveller.scatter_from(surface, random);
                ray.scattered = true;
            }
        }
    }

    /// Enters what a leg brings to the seat, but for direct sound and the images that are summed one by one.
    fn leave_at_seat(&self, ray: &Ray, length_m: f64, bins: &mut [f64]) {
        let leg = Leg {
            from_m: ray.traveller.position_m,
            direction: ray.traveller.direction,
            length_m,
        };
        let Some((chord_m, middle_m)) = self.seat.chord(&leg) else {
            return;
        };
        let path_m = ray.path_m + middle_m;
        if ray.scattered || (ray.reflected && path_m > self.image_reach_m) {
            let volume_m3 = 4.0 / 3.0 * PI * self.seat.radius_m.powi(3);
            self.seat
                .enter(ray.energy * chord_m / volume_m3, path_m, bins);
        }
    }
}

fn dot(a: [f64; 3], b: [f64; 3]) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

fn difference(a: [f64; 3], b: [f64; 3]) -> [f64; 3] {
    [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
}

/// Direction of unit length from one place to another.
fn towards(from: [f64; 3], to: [f64; 3]) -> [f64; 3] {
    let away = difference(to, from);
    let length = dot(away, away).sqrt();
    away.map(|part| part / length)
}
