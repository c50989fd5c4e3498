//! What the surfaces along a path leave of the sound: the product over its hits.

use num_complex::Complex64;

use crate::bands::{BANDS, Banded};
use crate::image_source::ImagePath;
use crate::spectrum::{COARSE, FINE, Spectrum, band_means, frequency_hz};

use super::memory::is_fine;
use super::wall::Sum;

/// What is left after the surfaces of one path.
pub(super) struct Carried {
    /// Energy per band, held below what the most reflecting material at each hit would leave.
    pub energy: Banded,
    /// (Hz, pressure), without that limit; empty unless it was asked for.
    samples: Vec<(f64, Complex64)>,
}

impl Carried {
    fn new<const N: usize>(product: &Spectrum<N>, most: &[f64; N], hz: Option<&[f64; N]>) -> Self {
        let (energy, most) = (band_means(&product.energy()), band_means(most));
        let sample = |(i, hz): (usize, &f64)| (*hz, product.at(i));
        Self {
            energy: Banded::from_fn(|band| energy[band].min(most[band])),
            samples: hz.map_or_else(Vec::new, |hz| hz.iter().enumerate().map(sample).collect()),
        }
    }

    /// Pressure with what the way leaves of the energy in each band, even between their centres.
    pub fn pressure(self, way: &Banded) -> Vec<(f64, Complex64)> {
        let per_band = self.samples.len() / BANDS;
        let mut samples = self.samples;
        for (i, (_, pressure)) in samples.iter_mut().enumerate() {
            *pressure *= between_bands(way, i, per_band).sqrt();
        }
        samples
    }
}

/// Value of a banded quantity at one of `per_band` (odd) frequencies in each band, straight between centres.
fn between_bands(values: &Banded, index: usize, per_band: usize) -> f64 {
    let (band, place) = (index / per_band, index % per_band);
    let beside = (place as f64 - (per_band / 2) as f64) / per_band as f64;
    let other = if beside < 0.0 {
        band.saturating_sub(1)
    } else {
        (band + 1).min(BANDS - 1)
    };
    values[band] + beside.abs() * (values[other] - values[band])
}

/// Reads the hits of one path after the other, in the order in which they were noted.
pub(super) struct Reader<'a> {
    sums: Vec<&'a Sum>,
    fine: [usize; 6],
    coarse: [usize; 6],
    /// None where nobody asked for pressures.
    hz: Option<([f64; FINE], [f64; COARSE])>,
}

impl<'a> Reader<'a> {
    pub fn new(sums: Vec<&'a Sum>, with_pressure: bool) -> Self {
        let hz = || {
            (
                std::array::from_fn(frequency_hz::<FINE>),
                std::array::from_fn(frequency_hz::<COARSE>),
            )
        };
        Self {
            sums,
            fine: [0; 6],
            coarse: [0; 6],
            hz: with_pressure.then(hz),
        }
    }

    /// What the surfaces of the next path leave.
    pub fn over(&mut self, path: &ImagePath) -> Carried {
        let surfaces = path.surfaces().map(|surface| surface as usize);
        if is_fine(path) {
            let rows = surfaces.map(|surface| {
                let hit = next(&mut self.fine[surface]);
                let sum = self.sums[surface];
                (&sum.reflected.fine[hit], &sum.most.fine[hit])
            });
            multiplied(rows, self.hz.as_ref().map(|(fine, _)| fine))
        } else {
            let rows = surfaces.map(|surface| {
                let hit = next(&mut self.coarse[surface]);
                let sum = self.sums[surface];
                (&sum.reflected.coarse[hit], &sum.most.coarse[hit])
            });
            multiplied(rows, self.hz.as_ref().map(|(_, coarse)| coarse))
        }
    }
}

/// Counts one up and tells the count before.
fn next(count: &mut usize) -> usize {
    *count += 1;
    *count - 1
}

fn multiplied<'a, const N: usize>(
    rows: impl Iterator<Item = (&'a Spectrum<N>, &'a [f64; N])>,
    hz: Option<&[f64; N]>,
) -> Carried {
    let mut product = Spectrum::<N>::ZERO;
    product.re = [1.0; N];
    let mut most = [1.0; N];
    for (row, row_most) in rows {
        product.multiply(row);
        most.iter_mut()
            .zip(row_most)
            .for_each(|(most, row)| *most *= row);
    }
    Carried::new(&product, &most, hz)
}
