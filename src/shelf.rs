//! The kinds of piece that the page's shelf offers in any room: generic, no maker, no price.

use crate::scenario::document::{BandValues, Kind, LayerFacts, MadeOf};

/// A porous layer of 100 mm and less in panels, Pa s/m². Common practice, no source; published specimens of mineral and
/// polyester wool lie between 1 and 150 kPa s/m² (Cox & D'Antonio, 3rd ed. 2017, Table 6.2).
const PANEL_RESISTIVITY: f64 = 10_000.0;

/// Octaves and absorption of a pile rug or carpet on thick felt.
///
/// # Source
/// Cox & D'Antonio, Acoustic Absorbers and Diffusers, 3rd ed. 2017, Appendix A, credited to Fry 1987.
const RUG: [(f64, f64); 6] = [
    (125.0, 0.07),
    (250.0, 0.25),
    (500.0, 0.50),
    (1000.0, 0.50),
    (2000.0, 0.60),
    (4000.0, 0.65),
];

/// The kinds, from thin to thick, then the rug.
#[must_use]
pub fn kinds() -> Vec<Kind> {
    vec![
        panel("thin", "Thin soft, 25 mm", 25.0, 0.0, 1.5),
        panel("medium", "Medium soft, 50 mm", 50.0, 0.0, 3.0),
        panel("thick", "Thick soft, 100 mm", 100.0, 0.0, 5.0),
        panel(
            "thick-gap",
            "Thick soft with gap, 100 + 50 mm",
            100.0,
            50.0,
            6.0,
        ),
        rug(),
    ]
}

/// A soft panel of 0.6 by 1.2 m.
fn panel(id: &str, name: &str, thickness_mm: f64, gap_mm: f64, mass_kg: f64) -> Kind {
    let porous = LayerFacts::Porous {
        thickness_mm,
        flow_resistivity_pa_s_per_m2: PANEL_RESISTIVITY,
    };
    let gap = (gap_mm > 0.0).then_some(LayerFacts::Gap {
        thickness_mm: gap_mm,
    });
    Kind {
        mass_kg: Some(mass_kg),
        ..kind(
            id,
            name,
            0.60,
            1.20,
            MadeOf::Layers {
                layers: [porous].into_iter().chain(gap).collect(),
            },
        )
    }
}

fn rug() -> Kind {
    let (bands_hz, absorption) = RUG.into_iter().unzip();
    Kind {
        depth_mm: Some(12.0),
        mass_kg: Some(8.0),
        ..kind(
            "rug",
            "Rug, 12 mm",
            1.60,
            2.40,
            MadeOf::DataSheet(BandValues {
                bands_hz,
                absorption,
            }),
        )
    }
}

/// A kind without price, mass or depth of its own.
fn kind(id: &str, name: &str, width_m: f64, height_m: f64, absorber: MadeOf) -> Kind {
    Kind {
        id: id.to_owned(),
        name: name.to_owned(),
        width_m,
        height_m,
        price: None,
        mass_kg: None,
        depth_mm: None,
        scattering: None,
        stands: None,
        fullness: None,
        absorber,
    }
}
