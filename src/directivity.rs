//! How much a loudspeaker sends in each direction: three generic types from an analytic model of a box with two pistons.
//!
//! A cone and a dome sit in a cabinet that shades what goes backwards once it is large against the wavelength. The pattern
//! turns round the axis; left out are the crossover's lobes between cone and dome, and every peculiarity of a real model.

use std::f64::consts::PI;
use std::sync::OnceLock;

use glam::DVec3;
use serde::Serialize;

use crate::bands::{Banded, exact_hz};
use crate::numeric::{energy_to_db, polynomial};

/// Steps of the table over the cosine, −1 … 1; interpolation in it errs by less than 0.05 dB.
const STEPS: usize = 128;

/// Frequencies per band whose energy is averaged, spread evenly over its logarithm.
const PER_BAND: usize = 5;

/// Part of the energy on axis that leaves in every direction whatever the shading: −20 dB. Edges, ports and the walls of
/// a cabinet never let a direction fall silent (common practice, no source).
const FLOOR: f64 = 0.01;

/// Speed of sound for which the tables hold, m/s; a few °C move no value visibly.
const SPEED_OF_SOUND_M_PER_S: f64 = 343.2;

/// A generic type of loudspeaker.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Directivity {
    /// A large cabinet whose treble comes from a horn.
    Narrow,
    /// A two-way loudspeaker of the size of a shelf.
    Ordinary,
    /// A small cabinet with a small cone and a flat-mounted dome.
    Wide,
}

impl Directivity {
    /// What it sends where; computed at first use.
    #[must_use]
    pub fn pattern(self) -> &'static Pattern {
        static PATTERNS: [OnceLock<Pattern>; 3] = [const { OnceLock::new() }; 3];
        PATTERNS[self as usize].get_or_init(|| {
            let cabinet = self.cabinet();
            Pattern::from_fn(|frequency_hz, cosine| cabinet.energy(frequency_hz, cosine))
        })
    }

    /// The make of the box.
    ///
    /// # Source
    /// Sizes are common practice, no source; those of the ordinary one are chosen within it so that the index is about
    /// 0.4, 1.4, 3.1, 5.1, 6.8, 7.8 dB at 125 Hz … 4 kHz, usual for measured two-way loudspeakers (no source).
    fn cabinet(self) -> Cabinet {
        match self {
            Self::Narrow => Cabinet {
                baffle_m: (0.40, 0.60),
                cone_radius_m: 0.150,
                crossover_hz: 900.0,
                dome_radius_m: 0.120,
                dome_most_ka: 3.4,
            },
            Self::Ordinary => Cabinet {
                baffle_m: (0.20, 0.30),
                cone_radius_m: 0.070,
                crossover_hz: 2000.0,
                dome_radius_m: 0.034,
                dome_most_ka: 4.0,
            },
            Self::Wide => Cabinet {
                baffle_m: (0.16, 0.24),
                cone_radius_m: 0.045,
                crossover_hz: 2000.0,
                dome_radius_m: 0.0125,
                dome_most_ka: 2.0,
            },
        }
    }
}

/// A box with a cone and a dome.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Cabinet {
    /// Width and height of the front.
    baffle_m: (f64, f64),
    /// Radius of the cone.
    cone_radius_m: f64,
    /// Where the dome takes over, fourth order.
    crossover_hz: f64,
    /// Radius of the dome with the guide round it.
    dome_radius_m: f64,
    /// k a beyond which the dome gets no narrower: a guide holds its angle, and a dome breaks up.
    dome_most_ka: f64,
}

impl Cabinet {
    /// Energy in a direction re on axis, with the floor.
    ///
    /// ```text
    /// E = 0.01 + 0.99 [ B ( (1 − h) D(k a_cone sin θ) + h D(κ sin θ) ) ]²
    /// h = x⁴ / (1 + x⁴),  x = f / f_crossover          κ = k a_dome / √(1 + (k a_dome / κ_most)²)
    /// B = 1 − w (1 − cos θ) / 2,  w = (k b)² / (1 + (k b)²),  b = √(width · height / π)
    /// ```
    ///
    /// B: sound of long waves flows round the cabinet alike; of short ones half the pressure is left beside it and little
    /// behind it. That is the baffle step as the room gets it; on axis the maker has made up for it.
    ///
    /// # Source
    /// Piston: Kinsler et al., Fundamentals of Acoustics, 4th ed. 2000, eq. 7.4.17. The shading B is this project's, made
    /// to go from a sphere to a cardioid; common practice, no source.
    fn energy(&self, frequency_hz: f64, cosine: f64) -> f64 {
        let k = 2.0 * PI * frequency_hz / SPEED_OF_SOUND_M_PER_S;
        let sine = (1.0 - cosine * cosine).max(0.0).sqrt();
        let x4 = (frequency_hz / self.crossover_hz).powi(4);
        let share_of_dome = x4 / (1.0 + x4);
        let dome_ka = k * self.dome_radius_m;
        let held_ka = dome_ka / (dome_ka / self.dome_most_ka).hypot(1.0);
        let cone = piston(k * self.cone_radius_m * sine);
        let both = cone + share_of_dome * (piston(held_ka * sine) - cone);
        let kb2 = k * k * self.baffle_m.0 * self.baffle_m.1 / PI;
        let shaded = 1.0 - kb2 / (1.0 + kb2) * (1.0 - cosine) / 2.0;
        FLOOR + (1.0 - FLOOR) * (shaded * both).powi(2)
    }
}

/// Pressure of a flat round piston off its axis, re on axis.
///
/// ```text
/// D = 2 J1(x) / x,   x = k a sin θ
/// ```
///
/// # Source
/// Kinsler et al., Fundamentals of Acoustics, 4th ed. 2000, eq. 7.4.17.
#[must_use]
pub fn piston(ka_sine: f64) -> f64 {
    if ka_sine.abs() < 1e-6 {
        return 1.0;
    }
    2.0 * bessel_j1(ka_sine) / ka_sine
}

/// Bessel function of the first kind and order one.
///
/// # Accuracy
/// 5e-8 absolute.
///
/// # Source
/// Abramowitz & Stegun, Handbook of Mathematical Functions, 1964, 9.4.4 and 9.4.6.
fn bessel_j1(x: f64) -> f64 {
    let size = x.abs();
    if size <= 3.0 {
        let t = (size / 3.0).powi(2);
        return x * polynomial(t, &J1_NEAR);
    }
    let t = 3.0 / size;
    let phase = size + polynomial(t, &J1_PHASE);
    polynomial(t, &J1_FAR) * phase.cos() / size.sqrt() * x.signum()
}

/// Coefficients of 9.4.4, rising powers of (x/3)².
const J1_NEAR: [f64; 7] = [
    0.5,
    -0.562_499_85,
    0.210_935_73,
    -0.039_542_89,
    0.004_433_19,
    -0.000_317_61,
    0.000_011_09,
];

/// Coefficients of f1 in 9.4.6, rising powers of 3/x.
const J1_FAR: [f64; 7] = [
    0.797_884_56,
    0.000_001_56,
    0.016_596_67,
    0.000_171_05,
    -0.002_495_11,
    0.001_136_53,
    -0.000_200_33,
];

/// Coefficients of θ1 − x in 9.4.6, rising powers of 3/x.
const J1_PHASE: [f64; 7] = [
    -2.356_194_49,
    0.124_996_12,
    0.000_056_50,
    -0.006_378_79,
    0.000_743_48,
    0.000_798_24,
    -0.000_291_66,
];

/// Energy in every direction re on axis, per band, as a table over the cosine of the angle off the axis.
#[derive(Clone, Debug, PartialEq)]
pub struct Pattern {
    /// At equal steps of the cosine from −1 to 1.
    table: Vec<Banded>,
    /// Directivity factor on axis.
    q: Banded,
}

impl Pattern {
    /// The pattern of any loudspeaker, from its energy re on axis at a frequency in Hz and a cosine.
    #[must_use]
    pub fn from_fn(energy: impl Fn(f64, f64) -> f64) -> Self {
        let at = |step: usize| {
            let cosine = 2.0 * step as f64 / STEPS as f64 - 1.0;
            Banded::from_fn(|band| band_mean(band, |frequency_hz| energy(frequency_hz, cosine)))
        };
        let table: Vec<Banded> = (0..=STEPS).map(at).collect();
        let q = mean_over_sphere(&table).map(f64::recip);
        Self { table, q }
    }

    /// Energy of one band re on axis at an angle off the axis, by its cosine.
    #[must_use]
    pub fn energy(&self, band: usize, cosine: f64) -> f64 {
        let (step, part) = place(cosine);
        let (near, far) = (self.table[step][band], self.table[step + 1][band]);
        near + part * (far - near)
    }

    /// [`Self::energy`] of all bands at once.
    #[must_use]
    pub fn energies(&self, cosine: f64) -> Banded {
        let (step, part) = place(cosine);
        let (near, far) = (&self.table[step], &self.table[step + 1]);
        Banded::from_fn(|band| near[band] + part * (far[band] - near[band]))
    }

    /// Directivity factor: energy on axis over the mean over all directions.
    ///
    /// ```text
    /// Q = 2 / ∫ E d(cos θ)   over −1 … 1
    /// ```
    ///
    /// # Source
    /// Kinsler et al., Fundamentals of Acoustics, 4th ed. 2000, section 7.6.
    #[must_use]
    pub fn q(&self) -> Banded {
        self.q
    }

    /// Directivity index 10 lg Q, dB. The baffle step shows here alone, as more sound for the room: makers even out the response
    /// on axis (common practice, no source).
    #[must_use]
    pub fn index_db(&self) -> Banded {
        self.q.map(energy_to_db)
    }
}

/// Step of the table below a cosine, and how far it lies towards the next.
fn place(cosine: f64) -> (usize, f64) {
    let steps = (cosine.clamp(-1.0, 1.0) + 1.0) * (STEPS / 2) as f64;
    let below = (steps as usize).min(STEPS - 1);
    (below, steps - below as f64)
}

/// Mean over a band of a value given by frequency in Hz.
fn band_mean(band: usize, value: impl Fn(f64) -> f64) -> f64 {
    let sum: f64 = (0..PER_BAND)
        .map(|i| (i as f64 + 0.5) / PER_BAND as f64 - 0.5)
        .map(|tenth_decades| value(exact_hz(band) * 10f64.powf(tenth_decades / 10.0)))
        .sum();
    sum / PER_BAND as f64
}

/// Mean over all directions of a table, which is linear between its steps.
fn mean_over_sphere(table: &[Banded]) -> Banded {
    let mut sum = Banded::constant(0.0);
    for pair in table.windows(2) {
        sum = sum + (pair[0] + pair[1]) * (0.5 / STEPS as f64);
    }
    sum
}

/// Where a loudspeaker points: along +y, turned by `toe_in_deg` towards the middle of the room; level. One that stands
/// in the middle has no side to turn to.
#[must_use]
pub fn axis(x_m: f64, room_width_m: f64, toe_in_deg: f64) -> DVec3 {
    let middle_m = room_width_m / 2.0;
    let towards = if x_m < middle_m {
        1.0
    } else if x_m > middle_m {
        -1.0
    } else {
        0.0
    };
    let (sine, cosine) = (towards * toe_in_deg.to_radians()).sin_cos();
    DVec3::new(sine, cosine, 0.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bessel_meets_the_printed_table() {
        // Abramowitz & Stegun, table 9.1.
        for (x, printed) in [
            (0.5, 0.242_268_457_7),
            (1.0, 0.440_050_585_7),
            (2.0, 0.576_724_807_8),
            (3.0, 0.339_058_958_5),
            (5.0, -0.327_579_137_6),
            (10.0, 0.043_472_746_2),
        ] {
            assert!((bessel_j1(x) - printed).abs() < 6e-8, "J1({x})");
            assert!((bessel_j1(-x) + printed).abs() < 6e-8, "J1(-{x})");
        }
    }

    #[test]
    fn the_table_keeps_to_the_model_between_its_steps() {
        for kind in [
            Directivity::Narrow,
            Directivity::Ordinary,
            Directivity::Wide,
        ] {
            let cabinet = kind.cabinet();
            for band in 0..crate::bands::BANDS {
                for i in 0..1000 {
                    let cosine = f64::from(i) / 500.0 - 0.999;
                    let exact = band_mean(band, |f| cabinet.energy(f, cosine));
                    let error_db = energy_to_db(kind.pattern().energy(band, cosine) / exact);
                    assert!(
                        error_db.abs() < 0.05,
                        "{kind:?} band {band} at {cosine}: {error_db} dB"
                    );
                }
            }
        }
    }
}
