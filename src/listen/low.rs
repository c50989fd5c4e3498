//! The bass below the limit of statistics: every note of the room rings for itself.

use std::f64::consts::{PI, TAU};

use glam::DVec3;

use super::clock::{LEAD_S, RATE_HZ};
use super::crossover::lower_pressure;
use super::head::{EARS, Pickup, RADIUS_M};
use crate::bass::coupled::Coupled;
use crate::geometry::Surface;

/// Ears as far from the middle of the head as long waves take them to be, in radii.
///
/// # Source
/// Kuhn, J. Acoust. Soc. Am. 62 (1977) 157–167: the ears' difference in time of long waves is (3a/c) sin φ.
const LONG_WAVES: f64 = 1.5;

/// One note between a loudspeaker and a seat.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ringing {
    /// Angular frequency, rad/s.
    pub omega_rad_per_s: f64,
    /// Rate at which its pressure dies away, 1/s.
    pub damping_per_s: f64,
    /// Its pressure per second at the start, re the direct sound at 1 m, at each channel.
    pub size_per_s: [f64; 2],
}

/// The notes up to an octave's half above the joining frequency between a loudspeaker and the pickup's channels, for a listener
/// who faces a wall.
///
/// ```text
/// p(t) = Σ 4π c² ψ_n(s) ψ_n(r) sin(ω_n t) e^(−δ_n t) / ω_n
/// ```
///
/// ω and δ to first order in the walls' admittance. Left out: how walls couple one note to another, which the drawing of
/// the bass has, and pressure that does not ring.
///
/// # Source
/// Kuttruff, Room Acoustics, chapter 3 (from memory).
#[must_use]
pub fn notes(
    coupled: &Coupled,
    speed_of_sound_m_per_s: f64,
    source_m: DVec3,
    (seat_m, ahead): (DVec3, Surface),
    joining_hz: f64,
    pickup: Pickup,
) -> Vec<Ringing> {
    let sent = coupled.shapes_at(source_m);
    let heard = EARS.map(|ear| {
        let beside_m = match pickup {
            Pickup::Head => ahead.from_front(ear) * (LONG_WAVES * RADIUS_M),
            Pickup::Point => DVec3::ZERO,
        };
        coupled.shapes_at(seat_m + beside_m)
    });
    let modes = coupled.modes().iter().enumerate().skip(1);
    modes
        .filter_map(|(n, mode)| {
            let kept = lower_pressure(mode.frequency_hz, joining_hz);
            let omega = TAU * mode.frequency_hz + coupled.detuning_rad_per_s(n);
            let size = 4.0 * PI * speed_of_sound_m_per_s.powi(2) * kept * sent[n] / omega;
            (kept > 0.0 && omega > 0.0).then(|| Ringing {
                omega_rad_per_s: omega,
                damping_per_s: coupled.damping_per_s(n),
                size_per_s: [size * heard[0][n], size * heard[1][n]],
            })
        })
        .collect()
}

/// The notes are followed at every so many samples: all of them lie far below half of that rate.
pub const EVERY: usize = 16;

/// Coarse samples on either side that a sample between them is made of; what passes besides is 80 dB down.
const REACH: usize = 6;

/// Coarse sample at which the sound leaves the loudspeaker.
const START: usize = (LEAD_S * RATE_HZ) as usize / EVERY;

/// Adds coarse samples of each channel, from the first sample on.
pub fn add_coarse(sum: &mut [Vec<f32>], coarse: &[Vec<f64>]) {
    let between = between();
    for (sum, coarse) in sum.iter_mut().zip(coarse) {
        let from = START - REACH;
        let blocks = sum[from * EVERY..].chunks_mut(EVERY);
        for (block, near) in blocks.zip(coarse[from + 1 - REACH..].windows(2 * REACH)) {
            let mut filled = [0.0f32; EVERY];
            for (value, weights) in near.iter().zip(&between) {
                for (filled, weight) in filled.iter_mut().zip(weights) {
                    *filled += *value as f32 * weight;
                }
            }
            block.iter_mut().zip(filled).for_each(|(x, y)| *x += y);
        }
    }
}

/// The notes at each channel at every [`EVERY`]th of so many samples, and as many beyond as it takes to fill in the last.
pub fn followed(notes: &[Ringing], channels: usize, length: usize) -> Vec<Vec<f64>> {
    let rate_hz = RATE_HZ / EVERY as f64;
    let mut sums = vec![vec![0.0; length / EVERY + 2 * REACH]; channels];
    let mut ringing = vec![0.0; sums[0].len().saturating_sub(START + 1)];
    for note in notes {
        let angle = note.omega_rad_per_s / rate_hz;
        let kept = (-note.damping_per_s / rate_hz).exp();
        // Two steps back give the next, as exact as a sine per sample: y2 = 2 r cos(ω) y1 − r² y0.
        let (turn, fall) = (2.0 * kept * angle.cos(), kept * kept);
        let (mut before, mut now) = (0.0, kept * angle.sin());
        ringing.fill_with(|| {
            let value = now;
            (before, now) = (now, turn * now - fall * before);
            value
        });
        for (sum, size_per_s) in sums.iter_mut().zip(note.size_per_s) {
            let size = size_per_s / RATE_HZ;
            let places = sum[START + 1..].iter_mut().zip(&ringing);
            places.for_each(|(place, value)| *place += size * value);
        }
    }
    sums
}

/// Weights by coarse sample of the places between two of them: a sine over its angle under a smooth window.
fn between() -> [[f32; EVERY]; 2 * REACH] {
    std::array::from_fn(|tap| {
        std::array::from_fn(|place| {
            let x = tap as f64 + 1.0 - REACH as f64 - place as f64 / EVERY as f64;
            let window = (0.5 * PI * x / REACH as f64).cos().powi(2);
            let sine = if x == 0.0 {
                1.0
            } else {
                (PI * x).sin() / (PI * x)
            };
            (window * sine) as f32
        })
    })
}
