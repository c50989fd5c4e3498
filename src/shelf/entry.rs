//! One kind of the shelf, with what a buyer wants to know about it.

use crate::scenario::document::{BandValues, Kind, LayerFacts, Looks, MadeOf, Profile, Stands};

/// A kind that the shelf offers: generic, no maker, no price.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// As a document would have it.
    pub kind: Kind,
    /// What it is good for, in one sentence.
    pub good_for: &'static str,
    /// What to ask the seller for.
    pub ask_for: &'static str,
    /// Where the figures of its build come from.
    pub source: &'static str,
}

/// The three texts of an entry.
#[derive(Clone, Copy)]
pub(super) struct Words {
    pub good_for: &'static str,
    pub ask_for: &'static str,
    pub source: &'static str,
}

impl Entry {
    /// A kind of some size and mass on a wall or ceiling.
    pub(super) fn new(
        id: &str,
        name: &str,
        (width_m, height_m, mass_kg): (f64, f64, f64),
        absorber: MadeOf,
        words: Words,
    ) -> Self {
        let kind = Kind {
            id: id.to_owned(),
            name: name.to_owned(),
            width_m,
            height_m,
            price: None,
            price_per_m2: None,
            mass_kg: Some(mass_kg),
            depth_mm: None,
            scattering: None,
            stands: None,
            fullness: None,
            looks: None,
            absorber,
        };
        let Words {
            good_for,
            ask_for,
            source,
        } = words;
        Self {
            kind,
            good_for,
            ask_for,
            source,
        }
    }

    /// The same, placed otherwise.
    pub(super) fn standing(mut self, stands: Stands) -> Self {
        self.kind.stands = Some(stands);
        self
    }

    /// The same, taken for something that a home has anyway.
    pub(super) fn looking(mut self, like: Looks) -> Self {
        self.kind.looks = Some(like);
        self
    }

    /// The same, with the depth that figures of a data sheet need.
    pub(super) fn deep(mut self, depth_mm: f64) -> Self {
        self.kind.depth_mm = Some(depth_mm);
        self
    }
}

/// Layers from the room's side to the wall.
pub(super) fn layers<const N: usize>(layers: [LayerFacts; N]) -> MadeOf {
    MadeOf::Layers {
        layers: layers.into(),
    }
}

/// A porous layer.
pub(super) fn porous(thickness_mm: f64, flow_resistivity_pa_s_per_m2: f64) -> LayerFacts {
    LayerFacts::Porous {
        thickness_mm,
        flow_resistivity_pa_s_per_m2,
    }
}

/// Air.
pub(super) fn gap(thickness_mm: f64) -> LayerFacts {
    LayerFacts::Gap { thickness_mm }
}

/// A hard profile.
pub(super) fn profile(depth_mm: f64, period_mm: f64) -> MadeOf {
    MadeOf::Scattering {
        scattering: Profile {
            depth_mm,
            period_mm,
        },
    }
}

/// Published figures at six octaves.
pub(super) fn sheet(absorption: [f64; 6]) -> MadeOf {
    MadeOf::DataSheet(BandValues {
        bands_hz: crate::finish::OCTAVES_HZ.to_vec(),
        absorption: absorption.to_vec(),
    })
}
