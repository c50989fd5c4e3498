//! The 24 one-third-octave bands 50 Hz … 10 kHz, and `Banded`, one value per band.

use std::array;
use std::ops::{Add, Index, IndexMut, Mul};

/// Number of one-third-octave bands.
pub const BANDS: usize = 24;

/// Nominal centre frequencies, Hz.
///
/// # Source
/// IEC 61260-1:2014, nominal mid-band frequencies.
pub const NOMINAL_HZ: [f64; BANDS] = [
    50.0, 63.0, 80.0, 100.0, 125.0, 160.0, 200.0, 250.0, 315.0, 400.0, 500.0, 630.0, 800.0, 1000.0,
    1250.0, 1600.0, 2000.0, 2500.0, 3150.0, 4000.0, 5000.0, 6300.0, 8000.0, 10000.0,
];

/// Index of the 1 kHz band, from which the others are counted.
pub const BAND_1K: usize = 13;

/// Exact centre frequency of a band, Hz.
///
/// ```text
/// f = 1000 · 10^((band − 13) / 10)
/// ```
///
/// # Source
/// IEC 61260-1:2014, base-ten system.
#[must_use]
pub fn exact_hz(band: usize) -> f64 {
    1000.0 * 10f64.powf((band as f64 - BAND_1K as f64) / 10.0)
}

/// One value per band.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Banded(pub [f64; BANDS]);

impl Banded {
    /// The same value in every band.
    #[must_use]
    pub const fn constant(value: f64) -> Self {
        Self([value; BANDS])
    }

    /// A value computed from each band's index.
    #[must_use]
    pub fn from_fn(f: impl FnMut(usize) -> f64) -> Self {
        Self(array::from_fn(f))
    }

    /// Each value passed through `f`.
    #[must_use]
    pub fn map(self, f: impl FnMut(f64) -> f64) -> Self {
        Self(self.0.map(f))
    }

    /// The values in band order.
    pub fn iter(&self) -> impl Iterator<Item = f64> + '_ {
        self.0.iter().copied()
    }

    /// Value at any frequency: linear over the logarithm of frequency between the centres, the nearest value beyond them.
    #[must_use]
    pub fn at_hz(&self, frequency_hz: f64) -> f64 {
        let place = BAND_1K as f64 + 10.0 * (frequency_hz / 1000.0).log10();
        let place = place.clamp(0.0, (BANDS - 1) as f64);
        let below = (place as usize).min(BANDS - 2);
        let part = place - below as f64;
        self[below] + part * (self[below + 1] - self[below])
    }

    /// Values given at some frequencies, carried to all bands: linear over the logarithm of frequency between them, the
    /// nearest value beyond them.
    ///
    /// # Units
    /// - `points`: (Hz, value), at least one, ascending in frequency
    #[must_use]
    pub fn interpolated(points: &[(f64, f64)]) -> Self {
        Self::from_fn(|band| interpolate_log(points, NOMINAL_HZ[band]))
    }
}

/// Value at `frequency_hz` of a curve through `points`, see [`Banded::interpolated`]; 0 for no points.
fn interpolate_log(points: &[(f64, f64)], frequency_hz: f64) -> f64 {
    let above = points.partition_point(|&(f, _)| f < frequency_hz);
    match (
        above.checked_sub(1).and_then(|i| points.get(i)),
        points.get(above),
    ) {
        (Some(&(f0, v0)), Some(&(f1, v1))) => {
            v0 + (v1 - v0) * (frequency_hz / f0).ln() / (f1 / f0).ln()
        }
        (Some(&(_, v)), None) | (None, Some(&(_, v))) => v,
        (None, None) => 0.0,
    }
}

impl Index<usize> for Banded {
    type Output = f64;
    fn index(&self, band: usize) -> &f64 {
        &self.0[band]
    }
}

impl IndexMut<usize> for Banded {
    fn index_mut(&mut self, band: usize) -> &mut f64 {
        &mut self.0[band]
    }
}

impl Add for Banded {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self::from_fn(|band| self[band] + other[band])
    }
}

impl Mul<f64> for Banded {
    type Output = Self;
    fn mul(self, factor: f64) -> Self {
        self.map(|value| value * factor)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nominal_and_exact_centres_agree_within_a_rounding_step() {
        for (band, nominal) in NOMINAL_HZ.iter().enumerate() {
            assert!(
                (exact_hz(band) / nominal - 1.0).abs() < 0.016,
                "band {band}"
            );
        }
    }

    #[test]
    fn interpolation_keeps_given_values_and_holds_the_ends() {
        let curve = Banded::interpolated(&[(125.0, 0.1), (500.0, 0.5)]);
        assert_eq!(curve[4], 0.1);
        assert_eq!(curve[0], 0.1);
        assert!(
            (curve[7] - 0.3).abs() < 1e-12,
            "250 Hz lies halfway in octaves"
        );
        assert_eq!(curve[23], 0.5);
    }
}
