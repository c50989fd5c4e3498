//! Hard pieces with a deep profile: how much of what they reflect leaves off the mirror direction, and what they absorb.
//!
//! Method: the mean of the round trips to all depths of the profile, where the wavelength lets a grating of its period send sound
//! anywhere else. Left out: lobes in single directions, the order of the depths, the width of the wells, reflections near the
//! piece, where its sections are heard one by one.

use std::f64::consts::TAU;

use num_complex::Complex64;

use crate::air::Air;
use crate::bands::{Banded, exact_hz};

/// A hard piece with a profile.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Scatterer {
    /// From the highest to the lowest point of the profile, m.
    pub depth_m: f64,
    /// After which the profile repeats, m.
    pub period_m: f64,
}

/// Octaves and absorption of a profile of wells, open to the room.
///
/// # Source
/// Cox & D'Antonio, Acoustic Absorbers and Diffusers, 3rd ed. 2017, Appendix A: seven wells a period, designed for 500 Hz; a
/// maker's measurement, as the book credits it. Taken for every depth and period, for want of more.
const ABSORPTION: [(f64, f64); 6] = [
    (125.0, 0.11),
    (250.0, 0.10),
    (500.0, 0.07),
    (1000.0, 0.08),
    (2000.0, 0.06),
    (4000.0, 0.06),
];

/// Scattering never counts as more than this, or as less. Common practice, no source.
const MOST_SCATTERING: f64 = 0.9;
const LEAST_SCATTERING: f64 = 0.05;

/// Angles in the mean over directions, and frequencies in that over a band: the onset is a step in each.
const ANGLES: u32 = 60;
const POINTS: u32 = 5;

/// Largest phase of the air in the wells that counts in the admittance, rad: beyond it the wells resonate one by one.
const MOST_DEPTH_RAD: f64 = 1.2;

impl Scatterer {
    /// Absorption at random incidence.
    #[must_use]
    pub fn absorption() -> Banded {
        Banded::interpolated(&ABSORPTION)
    }

    /// Share of the reflected energy that leaves off the mirror direction, for sound from all sides.
    ///
    /// ```text
    /// s = ∫ 2 x s(x) dx,  x = cos θ = 0 … 1,  mean over the band, held to 0.05 … 0.9
    /// s(x) = 1 − (sin(k d x) / (k d x))²   where λ < p (1 + sin θ),  else 0
    /// ```
    ///
    /// # Valid
    /// Depths spread evenly over d. Not checked against measurements of single pieces: they differ by 0.1 to 0.3 from one profile
    /// to the next of the same depth and period (common practice, no source).
    ///
    /// # Source
    /// Mean phase: Kirchhoff's approximation for a rough surface, Beckmann & Spizzichino, The Scattering of Electromagnetic Waves
    /// from Rough Surfaces (1963), chapter 5; onset: the grating equation. Joining the two: own, no source.
    #[must_use]
    pub fn scattering(&self, air: &Air) -> Banded {
        let middle = |i: u32, count: u32| (f64::from(i) + 0.5) / f64::from(count);
        Banded::from_fn(|band| {
            let at = |i| exact_hz(band) * 10f64.powf((middle(i, POINTS) - 0.5) / 10.0);
            let from_all_sides = |frequency_hz: f64| {
                let density = |i| {
                    let cosine = middle(i, ANGLES);
                    2.0 * cosine * self.scattering_at(frequency_hz, cosine, air)
                };
                (0..ANGLES).map(density).sum::<f64>() / f64::from(ANGLES)
            };
            let mean = (0..POINTS).map(|i| from_all_sides(at(i))).sum::<f64>() / f64::from(POINTS);
            mean.clamp(LEAST_SCATTERING, MOST_SCATTERING)
        })
    }

    /// Scattering at one angle.
    fn scattering_at(&self, frequency_hz: f64, cosine: f64, air: &Air) -> f64 {
        let wavelength_m = air.speed_of_sound_m_per_s / frequency_hz;
        let sine = (1.0 - cosine * cosine).sqrt();
        if wavelength_m >= self.period_m * (1.0 + sine) {
            return 0.0;
        }
        let phase = TAU / wavelength_m * self.depth_m * cosine;
        let mirrored = if phase > 1e-6 {
            phase.sin() / phase
        } else {
            1.0
        };
        1.0 - mirrored * mirrored
    }

    /// Pressure reflection factor at the plane of the highest points, all of the energy that is not absorbed counted as mirrored:
    /// what is scattered is taken off where scattering counts.
    ///
    /// ```text
    /// R = √(1 − α) exp(−j k d cos θ)
    /// ```
    ///
    /// The phase is that of the mean depth, d / 2 behind the plane.
    ///
    /// # Units
    /// - `frequency_hz`: Hz, > 0
    /// - `cosine`: of the angle of incidence, 0 … 1
    #[must_use]
    pub fn reflection(&self, frequency_hz: f64, cosine: f64, air: &Air) -> Complex64 {
        let absorbed = Self::absorption().at_hz(frequency_hz);
        let phase = TAU * frequency_hz / air.speed_of_sound_m_per_s * self.depth_m * cosine;
        Complex64::from_polar((1.0 - absorbed).sqrt(), -phase)
    }

    /// Admittance at the plane of the highest points, normal incidence, over that of air.
    ///
    /// ```text
    /// β = α / 8 + j tan(k d / 2),   k d / 2 ≤ 1.2
    /// ```
    ///
    /// Below the first resonance of the wells they are air of the mean depth; α / 8 as of a wall that absorbs little.
    #[must_use]
    pub fn admittance(&self, frequency_hz: f64, air: &Air) -> Complex64 {
        let absorbed = Self::absorption().at_hz(frequency_hz);
        let depth_rad = TAU * frequency_hz / air.speed_of_sound_m_per_s * self.depth_m / 2.0;
        Complex64::new(absorbed / 8.0, depth_rad.min(MOST_DEPTH_RAD).tan())
    }
}
