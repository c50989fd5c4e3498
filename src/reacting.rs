//! Locally reacting surfaces: absorption in sound from all sides, and the impedance that explains a typed absorption.

use std::f64::consts::{FRAC_PI_2, TAU};

use num_complex::Complex64;

use crate::air::Air;

/// Resistance at which a surface without reactance absorbs most in sound from all sides.
///
/// # Source
/// London, J. Acoust. Soc. Am. 22 (1950) 263–269: 0.951 at a normal impedance of 1.567 ρ c.
const BEST_RESISTANCE: f64 = 1.567;

/// Absorption above this has no locally reacting surface; the most is 0.951.
const MOST_ABSORPTION: f64 = 0.95;

/// A surface of more resistance than this counts as rigid.
const MOST_RESISTANCE: f64 = 1e5;

/// A piece shallower than this has no air behind it that could be told from none, m.
const LEAST_DEPTH_M: f64 = 0.001;

/// Halvings when a resistance is sought; each finds one more bit of its logarithm.
const HALVINGS: usize = 40;

/// Absorption of a locally reacting surface in sound from all sides.
///
/// ```text
/// α = (8 r / |z|²) [1 − (r / |z|²) ln((1 + r)² + x²) + ((r² − x²) / |z|²) atan(x / (1 + r)) / x],   z = r + j x
/// ```
///
/// # Units
/// - `z`: impedance over that of air, real part > 0
///
/// # Source
/// Paris' integral to 90° in closed form, for instance Kuttruff, Room Acoustics, section 2.5.
#[must_use]
pub fn diffuse_absorption(z: Complex64) -> f64 {
    let (r, x, square) = (z.re, z.im, z.norm_sqr());
    let angle = if x.abs() > 1e-6 * (1.0 + r) {
        (x / (1.0 + r)).atan() / x
    } else {
        (1.0 + r).recip()
    };
    let logarithm = ((1.0 + r).powi(2) + x * x).ln();
    8.0 * r / square * (1.0 - r / square * logarithm + (r * r - x * x) / square * angle)
}

/// Pressure reflection factor of a locally reacting surface.
///
/// ```text
/// R = (z cos θ − 1) / (z cos θ + 1)
/// ```
#[must_use]
pub fn reflection(z: Complex64, cosine: f64) -> Complex64 {
    (z * cosine - 1.0) / (z * cosine + 1.0)
}

/// Impedance of a piece of known absorption and depth, over that of air.
///
/// ```text
/// z = r − j cot(k d),   r ≥ 1.567 so that the absorption in sound from all sides is min(α, 0.95)
/// ```
///
/// Beyond a quarter of a wavelength the reactance stays 0: a sheet before air would absorb nothing at half a wavelength,
/// which no piece sold for its absorption does.
///
/// The least such r; where no resistance reaches α before so much air, the one that absorbs most.
///
/// # Units
/// - `absorption`: typed, at random incidence
/// - `depth_m`: d, m; below 1 mm the air counts for nothing
/// - `frequency_hz`: Hz, > 0
///
/// # Source
/// A resistive sheet before a layer of air that reacts locally; common practice, no source.
#[must_use]
pub fn impedance(absorption: f64, depth_m: f64, frequency_hz: f64, air: &Air) -> Complex64 {
    let depth_rad = TAU * frequency_hz / air.speed_of_sound_m_per_s * depth_m;
    let reactance = if depth_m < LEAST_DEPTH_M || depth_rad > FRAC_PI_2 {
        0.0
    } else {
        -depth_rad.tan().recip()
    };
    let wanted = absorption.clamp(0.0, MOST_ABSORPTION);
    let absorbed = |r: f64| diffuse_absorption(Complex64::new(r, reactance));
    Complex64::new(resistance(wanted, absorbed), reactance)
}

/// The least resistance from [`BEST_RESISTANCE`] up that absorbs as much as wanted, or the one that absorbs most.
fn resistance(wanted: f64, absorbed: impl Fn(f64) -> f64) -> f64 {
    if absorbed(BEST_RESISTANCE) >= wanted {
        return crossing(BEST_RESISTANCE, MOST_RESISTANCE, |r| absorbed(r) >= wanted);
    }
    let best = peak(&absorbed);
    if absorbed(best) <= wanted {
        return best;
    }
    crossing(BEST_RESISTANCE, best, |r| absorbed(r) < wanted)
}

/// Where a condition that holds at the low end stops holding, by halving the logarithm.
fn crossing(low: f64, high: f64, holds: impl Fn(f64) -> bool) -> f64 {
    let (mut low, mut high) = (low, high);
    for _ in 0..HALVINGS {
        let middle = (low * high).sqrt();
        if holds(middle) {
            low = middle;
        } else {
            high = middle;
        }
    }
    high
}

/// Resistance at which a curve with one hill is highest, by the sign of its slope.
fn peak(absorbed: &impl Fn(f64) -> f64) -> f64 {
    let rises = |r: f64| absorbed(r * 1.0001) > absorbed(r);
    crossing(BEST_RESISTANCE, MOST_RESISTANCE, rises)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_most_absorption_is_the_published_one() {
        // London 1950: no real impedance absorbs more than 0.951 in sound from all sides.
        let at = |r: f64| diffuse_absorption(Complex64::new(r, 0.0));
        assert!((at(BEST_RESISTANCE) - 0.951).abs() < 5e-4);
        assert!(at(1.50) < at(BEST_RESISTANCE) && at(1.64) < at(BEST_RESISTANCE));
    }

    #[test]
    fn closed_form_and_integral_agree() {
        for z in [
            (1.6, 0.0),
            (3.0, -2.0),
            (0.4, 5.0),
            (40.0, -22.0),
            (2.0, 1e-7),
        ] {
            let z = Complex64::new(z.0, z.1);
            let steps = 20_000;
            let sum: f64 = (0..steps)
                .map(|i| (f64::from(i) + 0.5) / f64::from(steps))
                .map(|cosine| 2.0 * cosine * (1.0 - reflection(z, cosine).norm_sqr()))
                .sum();
            let integral = sum / f64::from(steps);
            assert!((diffuse_absorption(z) - integral).abs() < 1e-6, "{z}");
        }
    }

    #[test]
    fn the_fitted_impedance_gives_back_what_was_typed() {
        let air = Air::at(20.0, 50.0);
        for typed in [0.02, 0.1, 0.3, 0.6, 0.85] {
            for (depth_m, frequency_hz) in
                [(0.0, 500.0), (0.1, 1000.0), (0.1, 700.0), (0.05, 3432.0)]
            {
                let z = impedance(typed, depth_m, frequency_hz, &air);
                let got = diffuse_absorption(z);
                assert!(z.re >= BEST_RESISTANCE * 0.999_999);
                assert!(
                    (got - typed).abs() < 1e-4,
                    "{typed} at {frequency_hz} Hz: {got}"
                );
            }
        }
    }

    #[test]
    fn a_shallow_piece_cannot_have_the_bass_that_was_typed() {
        let z = impedance(0.9, 0.02, 63.0, &Air::at(20.0, 50.0));
        let beside = |r: f64| diffuse_absorption(Complex64::new(r, z.im));
        assert!(diffuse_absorption(z) < 0.2);
        assert!(beside(z.re * 1.05) < beside(z.re) && beside(z.re * 0.95) < beside(z.re));
    }
}
