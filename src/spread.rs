//! How far off an absorption may be: published spread, reproducibility between laboratories, and a draw from both.

use crate::bands::{BANDS, Banded};
use crate::chance::EIGHT_IN_TEN;
use crate::numeric::exp;

/// Least absorption that a logarithm is taken of.
const LEAST: f64 = 1e-3;

/// Largest share of a value that its lower limit may take away.
const MOST_FALL: f64 = 0.8;

/// A value per band with an 8-in-10 range about it, on a logarithmic scale; one draw moves all bands together.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spread {
    typical: Banded,
    /// ln of typical over low, and of high over typical.
    down: Banded,
    up: Banded,
}

impl Spread {
    /// Between limits, widened where needed to the reproducibility of laboratories ([`reproducibility`]).
    #[must_use]
    pub fn between(low: Banded, typical: Banded, high: Banded) -> Self {
        let typical = typical.map(|value| value.max(LEAST));
        let least = Banded::from_fn(|band| {
            let half = EIGHT_IN_TEN * reproducibility(band, typical[band]);
            low[band]
                .min(typical[band] - half)
                .max((1.0 - MOST_FALL) * typical[band])
        });
        let most = Banded::from_fn(|band| {
            let half = EIGHT_IN_TEN * reproducibility(band, typical[band]);
            high[band].max(typical[band] + half)
        });
        Self {
            typical,
            down: Banded::from_fn(|band| (typical[band] / least[band]).ln()),
            up: Banded::from_fn(|band| (most[band] / typical[band]).ln()),
        }
    }

    /// A figure of one laboratory or of one formula.
    #[must_use]
    pub fn measured(typical: Banded) -> Self {
        Self::between(typical, typical, typical)
    }

    /// A figure that may be a factor larger or smaller.
    #[must_use]
    pub fn factor(typical: Banded, factor: f64) -> Self {
        let width = Banded::constant(factor.ln());
        Self {
            typical,
            down: width,
            up: width,
        }
    }

    /// The values at a standard normal deviate; ±1.28 gives the limits.
    #[must_use]
    pub fn at(&self, deviate: f64) -> Banded {
        let width = if deviate < 0.0 { &self.down } else { &self.up };
        Banded::from_fn(|band| self.typical[band] * exp(deviate / EIGHT_IN_TEN * width[band]))
    }
}

/// Standard deviation between laboratories of an absorption coefficient in a one-third-octave band.
///
/// ```text
/// σ_R = m α + n
/// ```
///
/// # Source
/// ISO 12999-2:2020, Table 1, 63 Hz to 5 kHz; the nearest band is taken beyond them, an assumption.
#[must_use]
pub fn reproducibility(band: usize, absorption: f64) -> f64 {
    let row = band.clamp(1, BANDS - 4) - 1;
    let (m, n) = REPRODUCIBILITY[row];
    m * absorption + n
}

/// m and n by band, 63 Hz to 5 kHz.
const REPRODUCIBILITY: [(f64, f64); 20] = [
    (0.450, 0.015),
    (0.330, 0.015),
    (0.240, 0.015),
    (0.180, 0.015),
    (0.140, 0.015),
    (0.110, 0.015),
    (0.090, 0.015),
    (0.075, 0.015),
    (0.060, 0.015),
    (0.050, 0.015),
    (0.045, 0.015),
    (0.040, 0.015),
    (0.040, 0.015),
    (0.040, 0.016),
    (0.037, 0.018),
    (0.035, 0.021),
    (0.030, 0.026),
    (0.030, 0.032),
    (0.030, 0.040),
    (0.026, 0.060),
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bands::NOMINAL_HZ;

    /// ISO 12999-2:2020, Table 4: absorption and its expanded uncertainty with k = 2, 63 Hz to 5 kHz.
    const EXAMPLE: [(f64, f64); 20] = [
        (0.33, 0.33),
        (0.35, 0.26),
        (0.39, 0.22),
        (0.38, 0.17),
        (0.37, 0.13),
        (0.36, 0.11),
        (0.36, 0.09),
        (0.36, 0.08),
        (0.43, 0.08),
        (0.49, 0.08),
        (0.58, 0.08),
        (0.63, 0.08),
        (0.68, 0.08),
        (0.71, 0.09),
        (0.73, 0.09),
        (0.75, 0.09),
        (0.77, 0.10),
        (0.79, 0.11),
        (0.81, 0.13),
        (0.81, 0.16),
    ];

    #[test]
    fn the_example_of_the_standard_comes_out() {
        for (row, (absorption, expanded)) in EXAMPLE.into_iter().enumerate() {
            let found = 2.0 * reproducibility(row + 1, absorption);
            assert!(
                (found - expanded).abs() < 0.0075,
                "{} Hz: {found}",
                NOMINAL_HZ[row + 1]
            );
        }
    }

    #[test]
    fn the_ends_of_a_spread_are_its_limits() {
        let spread = Spread::between(
            Banded::constant(0.02),
            Banded::constant(0.10),
            Banded::constant(0.30),
        );
        for (deviate, expected) in [(-EIGHT_IN_TEN, 0.02), (0.0, 0.10), (EIGHT_IN_TEN, 0.30)] {
            assert!((spread.at(deviate)[BANDS / 2] - expected).abs() < 1e-9);
        }
    }

    #[test]
    fn a_spread_is_never_narrower_than_that_of_laboratories() {
        let spread = Spread::measured(Banded::constant(0.5));
        let high = spread.at(EIGHT_IN_TEN)[crate::bands::BAND_1K];
        assert!((high - (0.5 + EIGHT_IN_TEN * 0.035)).abs() < 1e-9, "{high}");
    }
}
