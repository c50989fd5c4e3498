//! Early sound: what the direct sound and the images up to third order bring to the seat, per band and with phase.
//!
//! Images give the ways; every wall reflects what it does on the whole and what its parts and pieces change of that, each by
//! its complex weight about the point of the mirror. What a wall scatters is taken out of its reflection. Left out: waves
//! that edges send into other walls, and furniture in any particular place.

mod carried;
mod first;
mod memory;
mod rows;
mod wall;
mod zone;

use glam::DVec3;
use num_complex::Complex64;

use crate::bands::Banded;
use crate::directivity::Directivity;
use crate::image_source::{Hit, ImagePath, images};
use crate::numeric::{energy_to_db, exp};
use crate::room::Room;
use crate::surface::Under;

use carried::Reader;
pub use first::{FirstBounces, Way};
use memory::Position;
pub use memory::{Cache, HIGHEST_ORDER};
use wall::Sum;
pub use zone::Zone;

/// A loudspeaker.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Source {
    /// Where it is, room axes, m.
    pub position_m: DVec3,
    /// Unit vector along its axis.
    pub axis: DVec3,
    /// How it spreads its sound.
    pub directivity: Directivity,
}

/// The sound that comes straight from a loudspeaker.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Direct {
    /// From loudspeaker to seat, m.
    pub distance_m: f64,
    /// How long it takes, s.
    pub time_s: f64,
    /// Energy re the sound on axis at 1 m.
    pub energy: Banded,
}

/// The sound of one image.
#[derive(Clone, Debug, PartialEq)]
pub struct Early {
    /// Its way.
    pub path: ImagePath,
    /// After the direct sound, s.
    pub delay_s: f64,
    /// Energy re the direct sound on axis at 1 m; never above what the way would bring over the most reflecting of surface,
    /// parts and pieces at each hit.
    pub energy: Banded,
    /// (frequency in Hz, pressure re the direct sound on axis at 1 m, without the phase of the way), ascending; without that
    /// upper limit. Empty unless it was asked for.
    pub pressure: Vec<(f64, Complex64)>,
    /// What lies under the point of each hit.
    pub under: Vec<Under>,
    /// The area that matters at 1 kHz at the hit, of first order only.
    pub zone: Option<Zone>,
}

impl Early {
    /// Level per band re the direct sound of the same loudspeaker, dB.
    #[must_use]
    pub fn level_db(&self, direct: &Direct) -> Banded {
        Banded::from_fn(|band| energy_to_db(self.energy[band] / direct.energy[band]))
    }
}

/// What one loudspeaker sends to the seat early.
#[derive(Clone, Debug, PartialEq)]
pub struct SourceEarly {
    /// Straight.
    pub direct: Direct,
    /// By images, lowest order first, as [`crate::image_source::images`] lists them.
    pub reflections: Vec<Early>,
}

/// Nearer than this the direct sound is taken as at this distance, m.
const LEAST_DISTANCE_M: f64 = 0.01;

/// Direct sound and images of every loudspeaker at the seat.
///
/// ```text
/// energy = D(leaving) / r² · exp(−m r) · exp(−S_obj r / 4V) · mean over the band of Π |R|²      D re on axis
/// ```
///
/// Furniture stands in the way of images only. The mean is over three frequencies a band up to second order, one at third.
#[must_use]
pub fn early(
    room: &Room,
    sources: &[Source],
    receiver_m: DVec3,
    cache: &mut Cache,
) -> Vec<SourceEarly> {
    followed(room, sources, receiver_m, cache, false)
}

/// As [`early`], with the pressure of every image for a response.
#[must_use]
pub fn early_with_pressure(
    room: &Room,
    sources: &[Source],
    receiver_m: DVec3,
    cache: &mut Cache,
) -> Vec<SourceEarly> {
    followed(room, sources, receiver_m, cache, true)
}

/// The bounces of first order of every loudspeaker off a room without kit, after the direct sound of each.
#[must_use]
pub fn first_bounces(
    room: &Room,
    sources: &[Source],
    receiver_m: DVec3,
) -> (Vec<Direct>, FirstBounces) {
    let directs = sources.iter().map(|one| direct(room, one, receiver_m));
    let directs: Vec<Direct> = directs.collect();
    let of_one = |(source, direct): (&Source, &Direct)| -> Vec<Way> {
        let paths = images(room.size_m, source.position_m, receiver_m, 1);
        let way = |path: ImagePath| {
            let (energy, image) = reflection(room, source, direct, &path);
            Way {
                delay_s: image.delay_s,
                energy: Banded::from_fn(|band| energy[band] / direct.energy[band]),
                path,
            }
        };
        paths.into_iter().map(way).collect()
    };
    let ways: Vec<Vec<Way>> = sources.iter().zip(&directs).map(of_one).collect();
    (directs, FirstBounces::new(room, &ways))
}

fn followed(
    room: &Room,
    sources: &[Source],
    receiver_m: DVec3,
    cache: &mut Cache,
    with_pressure: bool,
) -> Vec<SourceEarly> {
    let sources_m: Vec<DVec3> = sources.iter().map(|source| source.position_m).collect();
    let (position, call) = cache.position(room, &sources_m, receiver_m);
    let Position { paths, walls, .. } = position;
    let sums: Vec<&Sum> = walls
        .iter_mut()
        .zip(&room.walls)
        .map(|(memory, wall)| memory.reflected(wall, call))
        .collect();
    let mut hits = Reader::new(sums, with_pressure);
    let mut of_one = |(source, paths): (&Source, &Vec<ImagePath>)| {
        let direct = direct(room, source, receiver_m);
        let reflections = paths.iter().map(|path| {
            let (way, image) = reflection(room, source, &direct, path);
            let carried = hits.over(path);
            Early {
                energy: Banded::from_fn(|band| way[band] * carried.energy[band]),
                pressure: carried.pressure(&way),
                ..image
            }
        });
        let reflections = reflections.collect();
        SourceEarly {
            direct,
            reflections,
        }
    };
    sources.iter().zip(paths.iter()).map(&mut of_one).collect()
}

fn direct(room: &Room, source: &Source, receiver_m: DVec3) -> Direct {
    let towards = receiver_m - source.position_m;
    let distance_m = towards.length();
    let cosine = towards.normalize_or(source.axis).dot(source.axis);
    Direct {
        distance_m,
        time_s: distance_m / room.air.speed_of_sound_m_per_s,
        energy: on_the_way(room, source, distance_m, cosine, 0.0),
    }
}

/// What the way of an image brings without surfaces, and the image without what its surfaces carry.
fn reflection(room: &Room, source: &Source, direct: &Direct, path: &ImagePath) -> (Banded, Early) {
    let cosine = path.leaving.dot(source.axis);
    let way = on_the_way(
        room,
        source,
        path.distance_m,
        cosine,
        room.furniture_hits_per_m(),
    );
    let c = room.air.speed_of_sound_m_per_s;
    let under = |hit: &Hit| room.wall(hit.surface).under(hit.surface.uv(hit.point_m));
    let image = Early {
        path: path.clone(),
        delay_s: (path.distance_m - direct.distance_m) / c,
        energy: way,
        pressure: Vec::new(),
        under: path.hits.iter().map(under).collect(),
        zone: (path.order() == 1).then(|| Zone::of(&path.hits[0], c)),
    };
    (way, image)
}

/// Energy that a way brings without surfaces, re on axis at 1 m; `cosine`: of the angle off the axis at which it leaves.
#[must_use]
pub fn on_the_way(
    room: &Room,
    source: &Source,
    distance_m: f64,
    cosine: f64,
    hits_per_m: f64,
) -> Banded {
    let directed = source.directivity.pattern().energies(cosine);
    let spread = distance_m.max(LEAST_DISTANCE_M).powi(-2);
    Banded::from_fn(|band| {
        let lost_per_m = room.air.attenuation_per_m[band] + hits_per_m;
        directed[band] * spread * exp(-lost_per_m * distance_m)
    })
}
