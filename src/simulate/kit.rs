//! What the core makes of a scenario's kinds of kit, and of figures as they were typed.

use std::sync::Arc;

use crate::absorber::Absorber;
use crate::air::Air;
use crate::bands::{Banded, exact_hz};
use crate::finish::scattering_bands;
use crate::finite_size::{bound, finite_size_absorption};
use crate::front::Front;
use crate::geometry::Rect;
use crate::layers::{self, Layer};
use crate::scatterer::Scatterer;
use crate::scenario::document::{BandValues, Kind, LayerFacts, MadeOf, Scattering};
use crate::surface::Facing;

use super::kit_sources;

/// Scattering of a flat piece from 500 Hz up, as of a flat wall. Common practice, no source.
const PIECE_SCATTERING: f64 = 0.10;

/// What the core makes of one kind.
#[derive(Clone, Debug, PartialEq)]
pub struct KindFacts {
    pub(super) kind: Kind,
    /// How far it stands out, m.
    pub depth_m: f64,
    /// What sound meets on it.
    pub facing: Facing,
    /// Its reflection with phase, by angle.
    pub front: Arc<Front>,
}

impl KindFacts {
    /// The facts of a kind in some air.
    #[must_use]
    pub fn of(kind: &Kind, air: &Air) -> Self {
        let absorber = absorber(kind);
        let facing = Facing {
            absorption: absorber.absorption(air),
            scattering: kind_scattering(kind, &absorber, air),
        };
        Self {
            kind: kind.clone(),
            depth_m: absorber.depth_m(),
            facing,
            front: Arc::new(Front::new(absorber, *air)),
        }
    }

    /// What the finite size of a group of pieces may add to the absorption at random incidence; nothing for a data sheet or a
    /// hard profile, whose figures are those of a finite sample.
    pub(super) fn size_gain(&self, group: Rect, air: &Air) -> Banded {
        let Absorber::Layers(layers) = absorber(&self.kind) else {
            return Banded::constant(0.0);
        };
        let impedance = |frequency_hz: f64, cosine: f64| {
            let at = layers::surface_impedance(&layers, frequency_hz, cosine.acos(), air);
            at / air.impedance_pa_s_per_m()
        };
        // Both at the centre of the band: the mean over a resonance is another figure.
        let at_centre = |band| layers::random_incidence_absorption(&layers, exact_hz(band), air);
        let random = Banded::from_fn(at_centre);
        let finite = finite_size_absorption(impedance, group.width_m, group.height_m, air);
        let most = bound(&random, &finite, group.area_m2());
        Banded::from_fn(|band| most[band] - random[band])
    }

    /// The kind's name in the document.
    #[must_use]
    pub fn id(&self) -> &str {
        &self.kind.id
    }

    /// Where its absorption comes from, in words.
    #[must_use]
    pub fn source(&self) -> String {
        match &self.kind.absorber {
            MadeOf::Layers { layers } => kit_sources::of_layers(layers),
            MadeOf::Scattering { .. } => kit_sources::OF_PROFILE.to_owned(),
            MadeOf::DataSheet(_) => kit_sources::OF_SHEET.to_owned(),
        }
    }
}

/// Values at some frequencies, carried to all bands.
pub(super) fn banded(bands_hz: &[f64], values: &[f64]) -> Banded {
    Banded::interpolated(
        &bands_hz
            .iter()
            .copied()
            .zip(values.iter().copied())
            .collect::<Vec<_>>(),
    )
}

pub(super) fn values(sheet: &BandValues) -> Banded {
    banded(&sheet.bands_hz, &sheet.absorption)
}

/// Scattering as typed, or that of a flat surface.
pub(super) fn scattering(typed: Option<&Scattering>, bands_hz: &[f64]) -> Banded {
    match typed {
        None => scattering_bands(PIECE_SCATTERING),
        Some(Scattering::Single(value)) => scattering_bands(*value),
        Some(Scattering::PerBand(values)) => banded(bands_hz, values),
    }
}

/// Scattering of a kind: as typed, else what follows from its profile, else that of a flat surface.
fn kind_scattering(kind: &Kind, absorber: &Absorber, air: &Air) -> Banded {
    let bands_hz = if let MadeOf::DataSheet(sheet) = &kind.absorber {
        &sheet.bands_hz[..]
    } else {
        &[]
    };
    let profile = absorber
        .scattering(air)
        .filter(|_| kind.scattering.is_none());
    profile.unwrap_or_else(|| scattering(kind.scattering.as_ref(), bands_hz))
}

/// What a kind is made of, for the physics; cloth hangs in the kind's folds.
fn absorber(kind: &Kind) -> Absorber {
    let fullness = kind.fullness.unwrap_or(1.0);
    match &kind.absorber {
        MadeOf::Layers { layers } => {
            let folded = |facts| layer(facts).folded(fullness);
            Absorber::Layers(layers.iter().map(folded).collect())
        }
        MadeOf::Scattering { scattering } => Absorber::Scatterer(Scatterer {
            depth_m: scattering.depth_mm / 1000.0,
            period_m: scattering.period_mm / 1000.0,
        }),
        MadeOf::DataSheet(sheet) => Absorber::DataSheet {
            absorption: values(sheet),
            depth_m: kind.depth_mm.unwrap_or(0.0) / 1000.0,
        },
    }
}

/// The layer in metres.
fn layer(facts: &LayerFacts) -> Layer {
    let m = |mm: f64| mm / 1000.0;
    match *facts {
        LayerFacts::Porous {
            thickness_mm,
            flow_resistivity_pa_s_per_m2,
        } => Layer::Porous {
            thickness_m: m(thickness_mm),
            flow_resistivity_pa_s_per_m2,
        },
        LayerFacts::Gap { thickness_mm } => Layer::Gap {
            thickness_m: m(thickness_mm),
        },
        LayerFacts::Perforated {
            thickness_mm,
            hole_mm,
            pitch_mm,
        } => Layer::Perforated {
            thickness_m: m(thickness_mm),
            hole_m: m(hole_mm),
            pitch_m: m(pitch_mm),
        },
        LayerFacts::Slotted {
            thickness_mm,
            slot_mm,
            pitch_mm,
        } => Layer::Slotted {
            thickness_m: m(thickness_mm),
            slot_m: m(slot_mm),
            pitch_m: m(pitch_mm),
        },
        _ => sheet(facts),
    }
}

/// A layer without openings and without a way through it; air for any other.
fn sheet(facts: &LayerFacts) -> Layer {
    match *facts {
        LayerFacts::Membrane {
            mass_kg_per_m2,
            loss,
        } => Layer::Membrane {
            mass_kg_per_m2,
            loss: loss.unwrap_or(0.0),
        },
        LayerFacts::Cloth {
            flow_resistance_pa_s_per_m,
            mass_kg_per_m2,
        } => Layer::Cloth {
            flow_resistance_pa_s_per_m,
            mass_kg_per_m2,
        },
        LayerFacts::Board {
            thickness_mm,
            density_kg_per_m3,
        } => Layer::Board {
            thickness_m: thickness_mm / 1000.0,
            density_kg_per_m3,
        },
        _ => Layer::Gap { thickness_m: 0.0 },
    }
}
