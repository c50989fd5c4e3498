//! What is kept from one report to the next, so that a drag computes what it moves and no more.

use std::sync::Arc;

use glam::DVec3;

use crate::early;
use crate::seat::{Covered, LateSound, Placing};

/// Results that serve again where nothing they depend on has changed. It never changes a report.
#[derive(Clone, Debug, Default)]
pub struct Memory {
    pub(super) early: early::Cache,
    covered: Option<Covered>,
    late: Vec<Arc<LateSound>>,
}

impl Memory {
    /// The counted images of a box of that size.
    pub(super) fn covered(&mut self, size_m: DVec3) -> &Covered {
        let known = self.covered.take().filter(|known| known.size_m() == size_m);
        self.covered
            .insert(known.unwrap_or_else(|| Covered::new(size_m)))
    }

    /// The late sound of each of these loudspeakers.
    pub(super) fn late(&mut self, placings: Vec<Placing>) -> Vec<Arc<LateSound>> {
        let known = |placing: &Placing| self.late.iter().find(|late| late.placing() == placing);
        let late = |placing: Placing| {
            let known = known(&placing).cloned();
            known.unwrap_or_else(|| Arc::new(LateSound::new(placing)))
        };
        let late: Vec<Arc<LateSound>> = placings.into_iter().map(late).collect();
        self.late.clone_from(&late);
        late
    }
}
