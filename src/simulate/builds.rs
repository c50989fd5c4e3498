//! What a kind does where it does not lie flat on a surface: drawn or gathered as a curtain, or free on a stand.

use std::sync::OnceLock;

use crate::air::Air;
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
}
