//! The response at a seat, source by source, over the frequencies of the bass.

use std::f64::consts::TAU;

use glam::DVec3;
use num_complex::Complex64;

use super::beyond::Beyond;
use super::coupled::Coupled;
use super::room::BassRoom;

/// Lowest frequency of the response, Hz.
pub const LOWEST_HZ: f64 = 20.0;

/// Points per octave.
///
/// 1.45 % apart: finer than a peak of T = 1 s from 150 Hz down; the peaks of a very hard room may fall between two points.
pub const PER_OCTAVE: f64 = 48.0;

/// Pressure at one seat.
#[derive(Clone, Debug, PartialEq)]
pub struct Response {
    /// Hz, ascending by equal steps of the logarithm.
    pub frequency_hz: Vec<f64>,
    /// Per source and frequency, re the source's free field at 1 m, e^{−jkr}/r.
    pub pressure: Vec<Vec<Complex64>>,
}

impl Response {
    /// Energy of all sources playing the same, per frequency.
    #[must_use]
    pub fn energy_together(&self) -> Vec<f64> {
        let together = |i| {
            let sum: Complex64 = self.pressure.iter().map(|one| one[i]).sum();
            sum.norm_sqr()
        };
        (0..self.frequency_hz.len()).map(together).collect()
    }

    /// Energy of one source, per frequency.
    #[must_use]
    pub fn energy(&self, source: usize) -> Vec<f64> {
        self.pressure[source]
            .iter()
            .map(Complex64::norm_sqr)
            .collect()
    }
}

/// Frequencies of a response up to `highest_hz`, Hz.
#[must_use]
pub fn frequencies_hz(highest_hz: f64) -> Vec<f64> {
    (0_u32..)
        .map(|i| LOWEST_HZ * (f64::from(i) / PER_OCTAVE).exp2())
        .take_while(|&hz| hz <= highest_hz)
        .collect()
}

/// A seat, made ready to hear some sources.
pub struct Seat {
    speed_of_sound_m_per_s: f64,
    heard: Vec<f64>,
    beyond: Vec<Beyond>,
}

impl Seat {
    /// At a receiver, for sources in the order in which amplitudes will be given.
    #[must_use]
    pub fn new(room: &BassRoom, coupled: &Coupled, sources_m: &[DVec3], receiver_m: DVec3) -> Self {
        let beyond =
            |&source_m: &DVec3| Beyond::new(room, coupled.solved_hz(), source_m, receiver_m);
        Self {
            speed_of_sound_m_per_s: room.speed_of_sound_m_per_s,
            heard: coupled.shapes_at(receiver_m),
            beyond: sources_m.iter().map(beyond).collect(),
        }
    }

    /// Pressure of each source from [`Coupled::amplitudes`] at that frequency.
    #[must_use]
    pub fn pressure(&self, frequency_hz: f64, amplitudes: &[Vec<Complex64>]) -> Vec<Complex64> {
        let per_m = TAU * frequency_hz / self.speed_of_sound_m_per_s;
        let one = |(amplitudes, beyond): (&Vec<Complex64>, &Beyond)| {
            let notes = amplitudes
                .iter()
                .zip(&self.heard)
                .map(|(a, shape)| a * shape);
            notes.sum::<Complex64>() + beyond.at(per_m)
        };
        amplitudes.iter().zip(&self.beyond).map(one).collect()
    }
}
