//! The wall behind each loudspeaker: the sound that it throws back arrives in opposite phase at one low frequency.

use glam::DVec3;

use super::room::BassRoom;
use crate::geometry::Surface;

/// Nearest to its wall that a loudspeaker can be for the dip to lie among low frequencies at all, m.
const LEAST_DISTANCE_M: f64 = 0.05;

/// What the wall behind one loudspeaker takes out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Behind {
    /// Index of the loudspeaker.
    pub loudspeaker: usize,
    /// The wall behind it.
    pub wall: Surface,
    /// From the wall, m.
    pub distance_m: f64,
    /// Where direct and reflected sound cancel, Hz.
    pub dip_hz: f64,
}

/// Dip of the wall behind each loudspeaker as seen from the seat; none for one that stands at its wall.
///
/// ```text
/// f = c / (4 d)
/// ```
///
/// # Valid
/// A seat straight in front; elsewhere the dip lies a little higher.
///
/// # Source
/// Half a wave of detour, 2 d, and reflection without change of phase: first principles.
#[must_use]
pub fn behind(room: &BassRoom, sources_m: &[DVec3], receiver_m: DVec3) -> Vec<Behind> {
    let of = |(loudspeaker, &source_m): (usize, &DVec3)| {
        let wall = wall_behind(source_m - receiver_m);
        let distance_m = (source_m[wall.axis()] - wall.offset_m(room.size_m)).abs();
        (distance_m >= LEAST_DISTANCE_M).then(|| Behind {
            loudspeaker,
            wall,
            distance_m,
            dip_hz: room.speed_of_sound_m_per_s / (4.0 * distance_m),
        })
    };
    sources_m.iter().enumerate().filter_map(of).collect()
}

/// The wall that a level look from the seat past the loudspeaker meets most squarely.
fn wall_behind(away: DVec3) -> Surface {
    match (away.x.abs() > away.y.abs(), away.x > 0.0, away.y > 0.0) {
        (true, true, _) => Surface::Right,
        (true, false, _) => Surface::Left,
        (false, _, true) => Surface::Back,
        (false, _, false) => Surface::Front,
    }
}
