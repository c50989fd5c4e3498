//! Measured decays as observations: which bands they cover, and how far a reading at home may be off.

use std::ops::Range;

use crate::bands::{BANDS, NOMINAL_HZ, exact_hz};
use crate::scenario::document::Measured;

/// Share of the centre frequency that a band covers.
///
/// # Source
/// ISO 3382-2:2008, annex A (from memory).
const OCTAVE_WIDTH: f64 = 0.71;
const THIRD_WIDTH: f64 = 0.23;

/// Octaves between the marks of a row of octave bands, with room for rounded centres.
const LEAST_OCTAVE: f64 = 0.9;

/// How far off real absorption is from a spread that moves all bands together: relative standard deviation of the decay,
/// and the distance in octaves over which it forgets itself. Common practice, no source.
const SHAPE: f64 = 0.07;
const SHAPE_OCTAVES: f64 = 1.0;

/// One value of one entry.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Reading {
    pub hz: f64,
    pub time_s: f64,
    /// The thirds of an octave that it covers.
    pub bands: Range<usize>,
    /// Relative standard deviation of the reading.
    pub deviation: f64,
    bandwidth_hz: f64,
}

impl Reading {
    /// The same band with another time.
    pub fn reading(&self, time_s: f64) -> Self {
        Self {
            time_s,
            deviation: deviation(self.bandwidth_hz, time_s),
            ..self.clone()
        }
    }

    /// The same figure, predicted: the mean over its bands of what is given as logarithms.
    pub fn of(&self, ln_by_band: &[f64; BANDS]) -> f64 {
        let values = &ln_by_band[self.bands.clone()];
        values.iter().sum::<f64>() / values.len() as f64
    }

    /// Whether both mean the same band.
    pub fn is_as(&self, other: &Self) -> bool {
        self.bands == other.bands
    }
}

/// All values of an entry.
pub(super) fn readings(entry: &Measured) -> Vec<Reading> {
    let octaves = is_in_octaves(&entry.bands_hz);
    let pairs = entry.bands_hz.iter().zip(&entry.decay_s);
    pairs
        .map(|(&hz, &time_s)| {
            let band = nearest(hz);
            let bands = if octaves {
                band.saturating_sub(1)..(band + 2).min(BANDS)
            } else {
                band..band + 1
            };
            let bandwidth_hz = hz * if octaves { OCTAVE_WIDTH } else { THIRD_WIDTH };
            Reading {
                hz,
                time_s,
                bands,
                deviation: deviation(bandwidth_hz, time_s),
                bandwidth_hz,
            }
        })
        .collect()
}

/// From the first band that any of them covers to the last.
pub(super) fn covered<'a>(readings: impl Iterator<Item = &'a Reading>) -> Range<usize> {
    let all = readings.map(|reading| reading.bands.clone());
    all.reduce(|a, b| a.start.min(b.start)..a.end.max(b.end))
        .unwrap_or(0..0)
}

/// Whether the centres are those of octaves, no two nearer than an octave.
fn is_in_octaves(bands_hz: &[f64]) -> bool {
    let on_octaves = bands_hz.iter().all(|&hz| nearest(hz) % 3 == 1);
    let apart = bands_hz
        .windows(2)
        .all(|pair| (pair[1] / pair[0]).log2().abs() > LEAST_OCTAVE);
    on_octaves && apart
}

/// The band whose centre is nearest.
fn nearest(hz: f64) -> usize {
    let far = |band: &usize| (exact_hz(*band) / hz).ln().abs();
    (0..NOMINAL_HZ.len())
        .min_by(|a, b| far(a).total_cmp(&far(b)))
        .unwrap_or(0)
}

/// Relative standard deviation of T20 from one place of one response.
///
/// ```text
/// σ(T20) / T20 = 0.88 √((1 + 1.90/n) / (N B T20)),   N = 1,  n = 10
/// ```
///
/// # Source
/// ISO 3382-2:2008, annex A (from memory); an integrated impulse response counts as n = 10.
fn deviation(bandwidth_hz: f64, time_s: f64) -> f64 {
    0.88 * (1.19 / (bandwidth_hz * time_s)).sqrt()
}

/// Covariance between two readings of the same room of what the spreads leave out.
pub(super) fn shape_covariance(a: &Reading, b: &Reading) -> f64 {
    SHAPE * SHAPE * (-(a.hz / b.hz).log2().abs() / SHAPE_OCTAVES).exp()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn entry(bands_hz: &[f64]) -> Measured {
        Measured {
            plan: "Now".to_owned(),
            bands_hz: bands_hz.to_vec(),
            decay_s: vec![0.4; bands_hz.len()],
        }
    }

    #[test]
    fn octaves_cover_three_thirds_and_thirds_one() {
        let octaves = readings(&entry(&[250.0, 500.0, 1000.0]));
        assert_eq!(octaves[1].bands, 9..12);
        let thirds = readings(&entry(&[250.0, 315.0, 400.0]));
        assert_eq!(thirds[1].bands, 8..9);
        assert_eq!(readings(&entry(&[1000.0]))[0].bands, 12..15);
        assert_eq!(readings(&entry(&[800.0]))[0].bands, 12..13);
    }

    /// The table of relative deviations for T = 0.4 s, octaves, n = 10, N = 1, computed from the same formula by hand.
    #[test]
    fn one_place_is_read_as_well_as_the_formula_says() {
        let octaves = readings(&entry(&[125.0, 250.0, 1000.0, 4000.0]));
        for (reading, expected) in octaves.iter().zip([0.161, 0.114, 0.057, 0.028]) {
            assert!((reading.deviation - expected).abs() < 0.001, "{reading:?}");
        }
    }
}
