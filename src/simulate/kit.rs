//! What the core makes of a scenario's kinds of kit, and of figures as they were typed.

use std::sync::Arc;

use crate::absorber::Absorber;
use crate::air::Air;
use crate::bands::Banded;
use crate::finish::scattering_bands;
use crate::finite_size::{bound, finite_size_absorption};
use crate::front::Front;
use crate::geometry::Rect;
use crate::porous::{self, Layer};
use crate::scenario::document::{BandValues, Kind, LayerFacts, MadeOf, Scattering};
use crate::surface::Facing;

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
    pub(super) fn of(kind: &Kind, air: &Air) -> Self {
        let absorber = absorber(kind);
        let facing = Facing {
            absorption: absorber.absorption(air),
            scattering: kind_scattering(kind),
        };
        Self {
            kind: kind.clone(),
            depth_m: absorber.depth_m(),
            facing,
            front: Arc::new(Front::new(absorber, *air)),
        }
    }

    /// What the finite size of a group of pieces may add to the absorption at random incidence; nothing for a data sheet, whose
    /// figures are those of a finite sample.
    pub(super) fn size_gain(&self, group: Rect, air: &Air) -> Banded {
        let Absorber::Layers(layers) = absorber(&self.kind) else {
            return Banded::constant(0.0);
        };
        let impedance = |frequency_hz: f64, cosine: f64| {
            let at = porous::surface_impedance(&layers, frequency_hz, cosine.acos(), air);
            at / air.impedance_pa_s_per_m()
        };
        let random = &self.facing.absorption;
        let finite = finite_size_absorption(impedance, group.width_m, group.height_m, air);
        let most = bound(random, &finite, group.area_m2());
        Banded::from_fn(|band| most[band] - random[band])
    }

    /// The kind's name in the document.
    #[must_use]
    pub fn id(&self) -> &str {
        &self.kind.id
    }

    /// Where its absorption comes from, in words.
    #[must_use]
    pub fn source(&self) -> &'static str {
        match self.kind.absorber {
            MadeOf::Layers { .. } => {
                "Computed from its layers: impedance of porous materials after Miki 1990, sound from all directions after Paris 1928. Stated for frequencies of 0.01 to 1 times the flow resistivity; below that it is carried on, so the lowest notes of dense layers are least sure."
            }
            MadeOf::DataSheet(_) => {
                "Typed from a data sheet; straight lines between the figures, the nearest figure beyond them."
            }
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

fn kind_scattering(kind: &Kind) -> Banded {
    let bands_hz = if let MadeOf::DataSheet(sheet) = &kind.absorber {
        &sheet.bands_hz[..]
    } else {
        &[]
    };
    scattering(kind.scattering.as_ref(), bands_hz)
}

/// What a kind is made of, for the physics.
fn absorber(kind: &Kind) -> Absorber {
    match &kind.absorber {
        MadeOf::Layers { layers } => Absorber::Layers(layers.iter().map(layer).collect()),
        MadeOf::DataSheet(sheet) => Absorber::DataSheet {
            absorption: values(sheet),
            depth_m: kind.depth_mm.unwrap_or(0.0) / 1000.0,
        },
    }
}

fn layer(facts: &LayerFacts) -> Layer {
    match *facts {
        LayerFacts::Porous {
            thickness_mm,
            flow_resistivity_pa_s_per_m2,
        } => Layer::Porous {
            thickness_m: thickness_mm / 1000.0,
            flow_resistivity_pa_s_per_m2,
        },
        LayerFacts::Gap { thickness_mm } => Layer::Gap {
            thickness_m: thickness_mm / 1000.0,
        },
    }
}
