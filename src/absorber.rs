//! What a piece of kit is made of: layers in front of the wall, or the figures of a data sheet.

use crate::air::Air;
use crate::bands::Banded;
use crate::porous::{self, Layer};

/// What a piece does to sound.
#[derive(Clone, Debug, PartialEq)]
pub enum Absorber {
    /// Layers from the room side to the wall.
    Layers(Vec<Layer>),
    /// Absorption as typed from a data sheet, and the depth of the piece in m.
    DataSheet {
        /// Absorption per band; may exceed 1.
        absorption: Banded,
        /// Depth, m.
        depth_m: f64,
    },
}

impl Absorber {
    /// Absorption at random incidence: computed from layers, or as typed.
    #[must_use]
    pub fn absorption(&self, air: &Air) -> Banded {
        match self {
            Self::Layers(layers) => porous::absorption_bands(layers, air),
            Self::DataSheet { absorption, .. } => *absorption,
        }
    }

    /// How far it stands out from the wall, m.
    #[must_use]
    pub fn depth_m(&self) -> f64 {
        match self {
            Self::Layers(layers) => layers.iter().map(Layer::thickness_m).sum(),
            Self::DataSheet { depth_m, .. } => *depth_m,
        }
    }
}
