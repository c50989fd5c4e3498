//! What each thing of a room is dealt: by chance, by what a check-up taught, or held by hand.

use crate::chance::Draw;

use super::fit::Fit;

/// Deviates by name, in standard deviations from what is described.
#[derive(Clone, Debug, Default)]
pub(super) struct Deal {
    /// None: everything as described.
    draw: Option<Draw>,
    known: Vec<(String, f64)>,
}

impl Deal {
    /// One draw, with what a check-up taught.
    pub fn drawn(draw: Draw, fit: Option<&Fit>) -> Self {
        Self {
            draw: Some(draw),
            known: fit.map_or_else(Vec::new, |fit| fit.deviates(&draw)),
        }
    }

    /// The middle of what is known.
    pub fn middle(means: &[(String, f64)]) -> Self {
        Self {
            draw: None,
            known: means.to_vec(),
        }
    }

    /// The same with one thing held.
    pub fn holding(mut self, name: &str, deviate: f64) -> Self {
        match self.known.iter_mut().find(|(known, _)| known == name) {
            Some((_, value)) => *value = deviate,
            None => self.known.push((name.to_owned(), deviate)),
        }
        self
    }

    /// What is known, or held, of a thing.
    fn known(&self, name: &str) -> Option<f64> {
        let found = self.known.iter().find(|(known, _)| known == name);
        found.map(|(_, value)| *value)
    }

    /// Deviate of a thing that varies normally.
    pub fn normal(&self, name: &str) -> f64 {
        self.known(name)
            .or_else(|| self.draw.map(|draw| draw.normal(name)))
            .unwrap_or(0.0)
    }

    /// Place of a thing that lies evenly between two bounds, 0 … 1.
    pub fn uniform(&self, name: &str) -> f64 {
        let held = |deviate: f64| (0.5 + deviate / UNIFORM_WIDTH).clamp(0.0, 1.0);
        self.known(name)
            .map(held)
            .or_else(|| self.draw.map(|draw| draw.uniform(name)))
            .unwrap_or(0.5)
    }
}

/// Width of an even distribution in its standard deviations: √12.
pub(super) const UNIFORM_WIDTH: f64 = 3.464_101_615_137_754_6;
