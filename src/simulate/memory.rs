//! What is kept from one report to the next, so that a drag computes what it moves and no more.

use glam::DVec3;

use crate::early;
use crate::seat::Covered;

/// Results that serve again where nothing they depend on has changed. It never changes a report.
#[derive(Clone, Debug, Default)]
pub struct Memory {
    pub(super) early: early::Cache,
    covered: Option<Covered>,
}

impl Memory {
    /// The counted images of a box of that size.
    pub(super) fn covered(&mut self, size_m: DVec3) -> &Covered {
        let known = self.covered.take().filter(|known| known.size_m() == size_m);
        self.covered
            .insert(known.unwrap_or_else(|| Covered::new(size_m)))
    }
}
