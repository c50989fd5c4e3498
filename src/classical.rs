//! The classical formulas of statistical decay, beside the answer for comparison. They assume an even field.

use crate::bands::Banded;
use crate::room::Room;
use crate::surface::MOST_ABSORPTION;

/// Sabine's decay time per band, s; infinite if nothing absorbs.
///
/// ```text
/// T = 24 ln(10) V / (c (A + 4 m V)),   A = Σ S_i α_i + A_obj
/// ```
///
/// # Source
/// Sabine 1898; air term and constant as in EN 12354-6:2003, equations 1 and 5, with the speed of sound of the room's air.
#[must_use]
pub fn sabine_s(room: &Room) -> Banded {
    let walls = wall_absorption_m2(room);
    decay_times_s(room, |band| {
        walls[band] + room.furniture_absorption_m2[band]
    })
}

/// Eyring's decay time per band, s; infinite if nothing absorbs.
///
/// ```text
/// T = 24 ln(10) V / (c (−S ln(1 − ᾱ) + 4 m V)),   ᾱ = A / S
/// ```
///
/// # Source
/// Eyring, Reverberation time in "dead" rooms, J. Acoust. Soc. Am. 1 (1930) 217–241. Furniture counts in A, not in S.
#[must_use]
pub fn eyring_s(room: &Room) -> Banded {
    let walls = wall_absorption_m2(room);
    let area_m2 = room.area_m2();
    decay_times_s(room, |band| {
        let mean = (walls[band] + room.furniture_absorption_m2[band]) / area_m2;
        -area_m2 * (1.0 - mean.min(MOST_ABSORPTION)).ln()
    })
}

/// Equivalent absorption area of the six walls with their pieces, m².
fn wall_absorption_m2(room: &Room) -> Banded {
    room.walls.iter().fold(Banded::constant(0.0), |sum, wall| {
        let (building, pieces) = wall.absorption_areas_m2();
        sum + building + pieces
    })
}

/// Decay time from the effective absorption area of each band and the air.
fn decay_times_s(room: &Room, absorption_m2: impl Fn(usize) -> f64) -> Banded {
    let volume_m3 = room.volume_m3();
    let path = 24.0 * 10f64.ln() * volume_m3 / room.air.speed_of_sound_m_per_s;
    Banded::from_fn(|band| {
        path / (absorption_m2(band) + 4.0 * room.air.attenuation_per_m[band] * volume_m3)
    })
}
