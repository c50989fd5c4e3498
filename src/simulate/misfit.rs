//! Whether readings can come from the room as it is described, all that is not known of it taken into account.

use crate::least_squares::{Cholesky, dot};

use super::deal::Deal;
use super::fitting::{Evidence, add_columns};

/// The mean of the readings may lie this far off, standard deviations: beyond it lies one room in 400.
const FARTHEST_MEAN: f64 = 3.0;

/// Standard normal deviate of the share of rooms whose readings together are taken for impossible: one in 10,000. It is small
/// because real spectra are less even than any model of them.
const RARE: f64 = 3.72;

/// How readings lie against what is predicted.
pub(super) struct Misfit {
    covariance: Cholesky,
    residuals: Vec<f64>,
    /// Standard deviation of the mean of the residuals.
    mean_deviation: f64,
}

impl Misfit {
    /// None if there are no readings.
    pub fn of(evidence: &Evidence) -> Option<Self> {
        let described = Deal::default();
        let mut covariance = evidence.noise();
        add_columns(
            &mut covariance,
            &evidence.slopes(&described, &evidence.names()),
        );
        let sum: f64 = covariance.iter().flatten().sum();
        let residuals = evidence.residuals(&described);
        (!residuals.is_empty()).then_some(())?;
        Some(Self {
            mean_deviation: sum.sqrt() / residuals.len() as f64,
            covariance: Cholesky::of(&covariance)?,
            residuals,
        })
    }

    /// Mean over the readings of measured over predicted, as a logarithm.
    pub fn mean(&self) -> f64 {
        self.residuals.iter().sum::<f64>() / self.residuals.len() as f64
    }

    /// Whether chance cannot explain it.
    pub fn is_wild(&self) -> bool {
        let mean = self.mean().abs() / self.mean_deviation;
        mean > FARTHEST_MEAN || self.distance() > chi_square(self.residuals.len(), RARE)
    }

    /// Sum of the squared residuals, each in its standard deviation and free of what it shares with others.
    pub fn distance(&self) -> f64 {
        self.distance_of(&self.residuals)
    }

    /// The same if every reading were predicted longer by these logarithms.
    pub fn distance_if_longer(&self, by: &[f64]) -> f64 {
        let residuals = self.residuals.iter().zip(by);
        self.distance_of(&residuals.map(|(r, by)| r - by).collect::<Vec<_>>())
    }

    fn distance_of(&self, residuals: &[f64]) -> f64 {
        let white = self.covariance.forward(residuals);
        dot(&white, &white)
    }
}

/// The value that a sum of `count` squared standard normal deviates exceeds as rarely as a normal deviate exceeds `deviate`.
///
/// ```text
/// χ² ≈ m (1 − 2/(9m) + z √(2/(9m)))³
/// ```
///
/// # Source
/// Wilson & Hilferty, The distribution of chi-square, Proc. Natl. Acad. Sci. 17 (1931) 684–688.
pub(super) fn chi_square(count: usize, deviate: f64) -> f64 {
    let m = count as f64;
    let part = 2.0 / (9.0 * m);
    m * (1.0 - part + deviate * part.sqrt()).powi(3)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Tables of the distribution (NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.4; values from memory): 0.999 for 1,
    /// 6 and 10 degrees of freedom. The formula is worst for one: 3 % high.
    #[test]
    fn the_tables_come_out() {
        for (count, expected, within) in [(1, 10.83, 0.035), (6, 22.46, 0.01), (10, 29.59, 0.01)] {
            let found = chi_square(count, 3.0902);
            assert!((found / expected - 1.0).abs() < within, "{count}: {found}");
        }
    }
}
