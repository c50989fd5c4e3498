//! What a check-up taught: new middles and doubts for named inputs, from which the same draws are dealt.

use std::sync::Arc;

use crate::chance::Draw;
use crate::least_squares::Cholesky;
use crate::report::CheckupReport;

/// Inputs that were learnt together, each in standard deviations of what was known before.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Block {
    pub names: Vec<String>,
    pub mean: Vec<f64>,
    /// Factor of the information about them, prior included: the inverse of their covariance.
    pub information: Cholesky,
}

impl Block {
    /// Deviates of a draw: chance's own, drawn together as far as the measurement ties them, about the new middles.
    ///
    /// ```text
    /// x = x̂ + L⁻ᵀ z,   z ~ N(0, 1),   cov x = (L Lᵀ)⁻¹
    /// ```
    fn deviates(&self, draw: &Draw) -> impl Iterator<Item = (String, f64)> + '_ {
        let chance: Vec<f64> = self.names.iter().map(|name| draw.normal(name)).collect();
        let spread = self.information.back(&chance);
        let values = self.mean.iter().zip(spread);
        let values = values.map(|(mean, off)| mean + off);
        self.names.iter().cloned().zip(values)
    }

    /// Standard deviation of one of them.
    fn deviation(&self, number: usize) -> f64 {
        let mut unit = vec![0.0; self.names.len()];
        unit[number] = 1.0;
        let half = self.information.forward(&unit);
        half.iter().map(|value| value * value).sum::<f64>().sqrt()
    }

    /// What is still not known of them, as columns of independent unit deviates, given a column of slopes for each name.
    ///
    /// ```text
    /// H P Hᵀ = (L⁻¹ Hᵀ)ᵀ (L⁻¹ Hᵀ)
    /// ```
    pub fn spread_over(&self, slopes: &[Vec<f64>]) -> Vec<Vec<f64>> {
        let readings = slopes.first().map_or(0, Vec::len);
        let of_reading = |number: usize| {
            let row: Vec<f64> = slopes.iter().map(|column| column[number]).collect();
            self.information.forward(&row)
        };
        let rows: Vec<Vec<f64>> = (0..readings).map(of_reading).collect();
        let column = |name: usize| rows.iter().map(|row| row[name]).collect();
        (0..self.names.len()).map(column).collect()
    }
}

/// All that was learnt: the room first, then what the pieces have to answer for.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Fit {
    /// What draws are dealt about.
    pub(super) blocks: Vec<Block>,
    /// The likeliest room: it stands in the middle of the draws, which deviates of nought do not.
    means: Vec<(String, f64)>,
}

impl Fit {
    pub(super) fn new(likeliest: &[Block], blocks: Vec<Block>) -> Self {
        let named = |block: &Block| {
            let names = block.names.iter().cloned();
            names.zip(block.mean.clone()).collect::<Vec<_>>()
        };
        Self {
            means: likeliest.iter().flat_map(named).collect(),
            blocks,
        }
    }

    /// What the measurements made of every fitted input in one draw.
    pub(super) fn deviates(&self, draw: &Draw) -> Vec<(String, f64)> {
        self.blocks
            .iter()
            .flat_map(|block| block.deviates(draw))
            .collect()
    }

    /// Covariance of the named deviates times a column: 1 for each alone, tied together where they were learnt together.
    pub(super) fn tied(&self, names: &[String], column: &[f64]) -> Vec<f64> {
        let mut product = column.to_vec();
        for block in &self.blocks {
            let place = |name: &String| names.iter().position(|known| known == name);
            let places: Vec<Option<usize>> = block.names.iter().map(place).collect();
            let own = places.iter().map(|place| place.map_or(0.0, |i| column[i]));
            let own = block.information.solve(&own.collect::<Vec<_>>());
            for (place, value) in places.iter().zip(own) {
                if let Some(i) = *place {
                    product[i] = value;
                }
            }
        }
        product
    }

    /// How the inputs that were learnt together with one follow it, itself among them; none if it was not learnt.
    ///
    /// ```text
    /// E(x_j | x_i) = x̂_j + s_j (x_i − x̂_i),   s_j = cov(x_j, x_i) / cov(x_i, x_i)
    /// ```
    pub(super) fn following(&self, name: &str) -> Vec<(String, f64)> {
        let of_block = |block: &Block| {
            let number = block.names.iter().position(|known| known == name)?;
            let mut unit = vec![0.0; block.names.len()];
            unit[number] = 1.0;
            let covariance = block.information.solve(&unit);
            let slopes = covariance.iter().map(|value| value / covariance[number]);
            Some(block.names.iter().cloned().zip(slopes).collect())
        };
        self.blocks.iter().find_map(of_block).unwrap_or_default()
    }

    /// New middle and standard deviation by name.
    pub(super) fn known(&self) -> Vec<(String, f64, f64)> {
        let of_block = |block: &Block| {
            let names = block.names.iter().cloned().enumerate();
            names
                .map(|(i, name)| (name, block.mean[i], block.deviation(i)))
                .collect::<Vec<_>>()
        };
        self.blocks.iter().flat_map(of_block).collect()
    }

    /// The likeliest room by name.
    #[must_use]
    pub fn means(&self) -> &[(String, f64)] {
        &self.means
    }
}

/// A check-up that is made: what it says, and what is used of it.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Checked {
    pub report: CheckupReport,
    pub fit: Option<Arc<Fit>>,
}
