//! Layers and the air of the published and computed tables, for the tests of what layers do.
#![allow(dead_code)]

use seatward::air::Air;
use seatward::bands::Banded;
use seatward::layers::Layer;

/// The air of the computed rows: 1.204 kg/m³, 343 m/s.
pub fn table_air() -> Air {
    Air {
        speed_of_sound_m_per_s: 343.0,
        density_kg_per_m3: 1.204,
        attenuation_per_m: Banded::constant(0.0),
    }
}

/// A porous slab.
pub fn slab(thickness_m: f64, flow_resistivity_pa_s_per_m2: f64) -> Layer {
    Layer::Porous {
        thickness_m,
        flow_resistivity_pa_s_per_m2,
    }
}

/// Air.
pub fn gap(thickness_m: f64) -> Layer {
    Layer::Gap { thickness_m }
}
