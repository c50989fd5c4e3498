//! The bass below the limit of statistics: every note of the room rings for itself.

use std::f64::consts::{PI, TAU};

use glam::DVec3;

use super::clock::{LEAD_S, RATE_HZ};
use super::crossover::lower_pressure;
use super::head::{EARS, Pickup, RADIUS_M};
use crate::bass::coupled::Coupled;

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

/// The notes up to an octave's half above the joining frequency between a loudspeaker and the pickup's channels.
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
    seat_m: DVec3,
    joining_hz: f64,
    pickup: Pickup,
) -> Vec<Ringing> {
    let sent = coupled.shapes_at(source_m);
    let heard = EARS.map(|ear| {
        let beside_m = match pickup {
            Pickup::Head => ear * (LONG_WAVES * RADIUS_M),
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
const EVERY: usize = 16;

/// Coarse samples on either side that a sample between them is made of; what passes besides is 80 dB down.
const REACH: usize = 6;

/// Adds the notes to the samples of each channel.
pub fn add_notes(sum: &mut [Vec<f32>], notes: &[Ringing]) {
    let start = (LEAD_S * RATE_HZ).round() as usize;
    let between = between();
    let length = sum.iter().map(Vec::len).max().unwrap_or(0);
    let coarse = followed(notes, length / EVERY + 4 * REACH);
    for (sum, coarse) in sum.iter_mut().zip(&coarse) {
        for (n, sample) in sum[start - REACH * EVERY..].iter_mut().enumerate() {
            let taps = coarse[n / EVERY + 1..].iter().zip(&between[n % EVERY]);
            *sample += taps.map(|(value, weight)| value * weight).sum::<f64>() as f32;
        }
    }
}

/// Both channels at the coarse rate, from 2 · [`REACH`] coarse samples before the sound leaves.
fn followed(notes: &[Ringing], length: usize) -> [Vec<f64>; 2] {
    let rate_hz = RATE_HZ / EVERY as f64;
    let mut sums = [vec![0.0; length], vec![0.0; length]];
    for note in notes {
        let angle = note.omega_rad_per_s / rate_hz;
        let kept = (-note.damping_per_s / rate_hz).exp();
        // Two steps back give the next, as exact as a sine per sample: y2 = 2 r cos(ω) y1 − r² y0.
        let (turn, fall) = (2.0 * kept * angle.cos(), kept * kept);
        let [left, right] = note.size_per_s.map(|size_per_s| size_per_s / RATE_HZ);
        let (mut before, mut now) = (0.0, kept * angle.sin());
        let [to_left, to_right] = &mut sums;
        let places = to_left.iter_mut().zip(to_right).skip(2 * REACH + 1);
        for (to_left, to_right) in places {
            *to_left += left * now;
            *to_right += right * now;
            (before, now) = (now, turn * now - fall * before);
        }
    }
    sums
}

/// Weights of the coarse samples about each place between two of them: a sine over its angle under a smooth window.
fn between() -> [[f64; 2 * REACH]; EVERY] {
    std::array::from_fn(|place| {
        std::array::from_fn(|tap| {
            let x = tap as f64 + 1.0 - REACH as f64 - place as f64 / EVERY as f64;
            let window = (0.5 * PI * x / REACH as f64).cos().powi(2);
            if x == 0.0 {
                window
            } else {
                window * (PI * x).sin() / (PI * x)
            }
        })
    })
}
