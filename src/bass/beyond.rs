//! What the notes beyond those that are solved for add to the response: far off their pitch they follow without ringing.

use std::f64::consts::{FRAC_PI_2, PI, TAU};

use glam::DVec3;

use super::modes::{Mode, axis_shape, for_each_up_to};
use super::room::BassRoom;

/// How far beyond the solved notes the others reach, as a multiple of their frequency; they fade out on the way there, which
/// spreads the source over a small ball instead of leaving the ripple of a series cut off.
const REACH: f64 = 3.0;

/// Terms of the series over frequency; (1/1.5)^(2 · 8) leaves 0.2 %.
const TERMS: usize = 8;

/// Everything beyond between two points, as a series over the square of the wave number.
///
/// ```text
/// Σ 4π ψ(s) ψ(r) w / (k_n² − k²) = Σ_p k^(2p) Σ_n 4π ψ(s) ψ(r) w / k_n^(2p+2)
/// ```
pub(super) struct Beyond([f64; TERMS]);

impl Beyond {
    /// Of the notes above `solved_hz` between a source and a receiver.
    pub(super) fn new(room: &BassRoom, solved_hz: f64, source_m: DVec3, receiver_m: DVec3) -> Self {
        let speed = room.speed_of_sound_m_per_s;
        let shapes = AxisShapes::new(room, REACH * solved_hz, source_m, receiver_m);
        let mut terms = [0.0; TERMS];
        for_each_up_to(room.size_m, speed, REACH * solved_hz, |mode| {
            if mode.frequency_hz <= solved_hz {
                return;
            }
            let square = (TAU * mode.frequency_hz / speed).powi(2);
            let mut term = 4.0 * PI * shapes.product(mode) * fade(mode.frequency_hz / solved_hz);
            for sum in &mut terms {
                term /= square;
                *sum += term;
            }
        });
        Self(terms)
    }

    /// Pressure at a wave number.
    pub(super) fn at(&self, wave_number_per_m: f64) -> f64 {
        let square = wave_number_per_m * wave_number_per_m;
        self.0
            .iter()
            .rev()
            .fold(0.0, |sum, term| sum * square + term)
    }
}

/// From 1 at the solved notes to 0 at the reach, level at both ends.
fn fade(ratio: f64) -> f64 {
    (FRAC_PI_2 * ((ratio - 1.0) / (REACH - 1.0)).clamp(0.0, 1.0))
        .cos()
        .powi(2)
}

/// φ_n(s) φ_n(r) along each axis, made once for all notes.
struct AxisShapes([Vec<f64>; 3]);

impl AxisShapes {
    fn new(room: &BassRoom, highest_hz: f64, source_m: DVec3, receiver_m: DVec3) -> Self {
        Self([0, 1, 2].map(|axis| {
            let length_m = room.size_m[axis];
            let most = (2.0 * highest_hz * length_m / room.speed_of_sound_m_per_s) as u32;
            let both = |n| {
                axis_shape(n, source_m[axis], length_m) * axis_shape(n, receiver_m[axis], length_m)
            };
            (0..=most).map(both).collect()
        }))
    }

    fn product(&self, mode: Mode) -> f64 {
        let along = |axis: usize| self.0[axis].get(mode.n[axis] as usize);
        (0..3)
            .map(|axis| along(axis).copied().unwrap_or(0.0))
            .product()
    }
}
