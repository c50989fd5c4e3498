//! Early sound: the reflection that each surface sends to the seat, by the mirror image of the loudspeaker.
//!
//! Path, point, delay and direction are exact for the box. The level takes the surface at the point of the mirror; a piece
//! counts as a whole or not at all, which overstates what a small piece does at low frequencies.

use glam::DVec3;

use crate::bands::{BANDS, Banded};
use crate::geometry::Surface;
use crate::numeric::energy_to_db;
use crate::room::Room;
use crate::surface::{MOST_ABSORPTION, Under};

/// Where sound of first order goes from a source over a surface to a receiver.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Path {
    /// The surface it meets.
    pub surface: Surface,
    /// Where it meets it, room axes, m.
    pub point_m: DVec3,
    /// Length from source to receiver, m.
    pub distance_m: f64,
    /// Unit vector from the receiver towards where it comes from.
    pub direction: DVec3,
}

/// A reflection: its path, and what it carries re the direct sound of the same source.
#[derive(Clone, Debug, PartialEq)]
pub struct Reflection {
    /// The way it takes.
    pub path: Path,
    /// After the direct sound, s.
    pub delay_s: f64,
    /// Level per band re the direct sound, dB.
    pub level_db: Banded,
    /// What lies under the point.
    pub under: Under,
}

/// The path over one surface of a box.
///
/// ```text
/// image = source mirrored in the surface;   distance = |image − receiver|
/// point = receiver + (image − receiver) · d_r / (d_r + d_s)      d: distances from the surface
/// ```
///
/// # Source
/// Allen & Berkley, Image method for efficiently simulating small-room acoustics, J. Acoust. Soc. Am. 65 (1979) 943–950.
#[must_use]
pub fn first_order_path(
    size_m: DVec3,
    source_m: DVec3,
    receiver_m: DVec3,
    surface: Surface,
) -> Path {
    let axis = surface.axis();
    let wall = surface.offset_m(size_m);
    let mut image_m = source_m;
    image_m[axis] = 2.0 * wall - source_m[axis];
    let towards = image_m - receiver_m;
    let from_wall = (wall - receiver_m[axis]).abs();
    let both = from_wall + (wall - source_m[axis]).abs();
    let share = if both > 0.0 { from_wall / both } else { 0.0 };
    let mut point_m = receiver_m + towards * share;
    point_m[axis] = wall;
    Path {
        surface,
        point_m,
        distance_m: towards.length(),
        direction: towards.normalize_or_zero(),
    }
}

/// The six first-order reflections of one source at the receiver, in the order of [`Surface::ALL`].
///
/// ```text
/// level = 10 lg [(r0/r)² · exp(−m (r − r0)) · exp(−S_obj r / 4V) · (1 − α)(1 − s)]
/// ```
///
/// r0: direct distance. α and s of what lies at the point, at random incidence. Free-standing furniture stands in the way of
/// reflections with the probability of its cross-section; its place is not known here.
#[must_use]
pub fn first_order(room: &Room, source_m: DVec3, receiver_m: DVec3) -> Vec<Reflection> {
    let direct_m = source_m.distance(receiver_m);
    Surface::ALL
        .into_iter()
        .map(|surface| {
            let path = first_order_path(room.size_m, source_m, receiver_m, surface);
            let uv_m = surface.uv(path.point_m);
            Reflection {
                path,
                delay_s: (path.distance_m - direct_m) / room.air.speed_of_sound_m_per_s,
                level_db: level_db(room, &path, direct_m),
                under: room.wall(surface).under(uv_m),
            }
        })
        .collect()
}

/// Level of a reflection, see [`first_order`]; not defined where the receiver stands in the source.
fn level_db(room: &Room, path: &Path, direct_m: f64) -> Banded {
    let facing = room
        .wall(path.surface)
        .facing_at(path.surface.uv(path.point_m));
    if direct_m <= 0.0 {
        return Banded::constant(f64::NAN);
    }
    let spread = (direct_m / path.distance_m).powi(2);
    let in_the_way = (-room.furniture_hits_per_m() * path.distance_m).exp();
    let extra_m = path.distance_m - direct_m;
    let values: [f64; BANDS] = std::array::from_fn(|band| {
        let air = (-room.air.attenuation_per_m[band] * extra_m).exp();
        let reflected = 1.0 - facing.absorption[band].min(MOST_ABSORPTION);
        energy_to_db(
            spread
                * in_the_way
                * air
                * reflected
                * (1.0 - facing.scattering[band]).max(1.0 - MOST_ABSORPTION),
        )
    });
    Banded(values)
}
