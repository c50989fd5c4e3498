//! What a kind does where it does not lie flat on a surface: drawn or gathered as a curtain, or free on a stand; and what the
//! size of a group adds where it does.

use std::sync::{Arc, Mutex, OnceLock, PoisonError};

use crate::air::Air;
use crate::bands::Banded;
use crate::geometry::Rect;
use crate::scenario::document::{Kind, MadeOf};

use super::curtain::{self, Folds};
use super::kit::KindFacts;
use super::stand::{self, Face};

/// The builds of one kind, each computed at first use.
#[derive(Clone, Debug, Default)]
pub(super) struct Builds {
    drawn: OnceLock<KindFacts>,
    gathered: OnceLock<KindFacts>,
    free: OnceLock<Free>,
    size_gains: SizeGains,
}

/// A kind on a stand.
#[derive(Clone, Debug)]
pub(super) struct Free {
    /// Front and back.
    pub faces: [Face; 2],
    /// From face to face, m.
    pub depth_m: f64,
}

impl Builds {
    /// As a curtain.
    pub fn hung(&self, kind: &Kind, folds: Folds, air: &Air) -> &KindFacts {
        let known = match folds {
            Folds::Drawn => &self.drawn,
            Folds::Gathered => &self.gathered,
        };
        known.get_or_init(|| KindFacts::of(&curtain::hung(kind, folds), air))
    }

    /// On a stand.
    pub fn free(&self, kind: &Kind, air: &Air) -> &Free {
        self.free.get_or_init(|| {
            let facts = KindFacts::of(&stand::free(kind), air);
            let is_half = matches!(kind.absorber, MadeOf::Layers { .. }) && stand::is_open(kind);
            Free {
                faces: stand::faces(kind, &facts),
                depth_m: facts.depth_m * if is_half { 2.0 } else { 1.0 },
            }
        })
    }

    /// What the size of a group of its pieces may add to their absorption, see [`KindFacts::size_gain`].
    pub fn size_gain(&self, facts: &KindFacts, group: Rect, air: &Air) -> Banded {
        let size_m = (group.width_m, group.height_m);
        self.size_gains
            .of_size(size_m, || facts.size_gain(group, air))
    }
}

/// Groups of one kind whose gain is kept: more than a plan has.
const MOST_SIZES: usize = 64;

/// Gains by width and height, m. Copies share what they know.
#[derive(Clone, Debug, Default)]
struct SizeGains(Arc<Mutex<Vec<OfSize>>>);

/// Width and height of a group, m, and its gain.
type OfSize = ((f64, f64), Banded);

impl SizeGains {
    fn of_size(&self, size_m: (f64, f64), gain: impl FnOnce() -> Banded) -> Banded {
        // A list that another thread left in a panic holds whole entries all the same.
        let mut known = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some((_, gain)) = known.iter().find(|(size, _)| *size == size_m) {
            return *gain;
        }
        let gain = gain();
        if known.len() == MOST_SIZES {
            known.remove(0);
        }
        known.push((size_m, gain));
        gain
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    impl Builds {
        pub(in crate::simulate) fn knows_a_size(&self) -> bool {
            !self.size_gains.0.lock().expect("no panic").is_empty()
        }
    }

    #[test]
    fn the_gain_of_a_size_is_computed_once_and_shared_by_copies() {
        let gains = SizeGains::default();
        let copy = gains.clone();
        let once = |gains: &SizeGains, size_m| {
            let mut computed = 0;
            let gain = gains.of_size(size_m, || {
                computed += 1;
                Banded::constant(size_m.0)
            });
            assert_eq!(gain, Banded::constant(size_m.0));
            computed
        };
        assert_eq!(once(&gains, (0.6, 1.2)), 1);
        assert_eq!(once(&gains, (0.6, 1.2)), 0);
        assert_eq!(once(&copy, (0.6, 1.2)), 0, "a copy knows it too");
        assert_eq!(once(&copy, (1.2, 0.6)), 1, "turned it is another size");
        for step in 0..MOST_SIZES {
            once(&gains, (step as f64, 9.0));
        }
        assert_eq!(gains.0.lock().expect("no panic").len(), MOST_SIZES);
        assert_eq!(once(&gains, (0.6, 1.2)), 1, "the oldest gave way");
    }
}
