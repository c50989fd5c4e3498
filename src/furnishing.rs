//! Things that stand free in a room: what they absorb, and the surface that they offer to sound.
//!
//! For most furniture nothing is published; such entries say "common practice, no source" and have a factor-two spread.
//! Figures of books are facts read from transcriptions of the printed pages, not from the books themselves.

use serde::Serialize;

use crate::bands::Banded;
use crate::finish::octaves_to_bands;

/// A free-standing thing as the library knows it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Furnishing {
    /// Key in a scenario, in kebab case.
    pub id: &'static str,
    /// Name for people.
    pub name: &'static str,
    /// Equivalent absorption area of one, at [`crate::finish::OCTAVES_HZ`], m²; never more than the surface.
    pub absorption_area_m2: [f64; 6],
    /// Surface that sound of the room can hit, m²: top, front and two sides of the typical size of a thing that has a
    /// wall or another thing near its back; both sides of the boards of tables and chairs; own estimate for the rest.
    pub surface_m2: f64,
    /// The absorption area may be this many times larger or smaller.
    pub spread: f64,
    /// Where the absorption is from, or that it has no source. The surface is common practice, no source.
    pub source: &'static str,
    /// Typical width, depth and height, m, for drawing.
    pub size_m: [f64; 3],
}

impl Furnishing {
    /// The equivalent absorption area of one in every band, m².
    #[must_use]
    pub fn absorption_area(&self) -> Banded {
        octaves_to_bands(&self.absorption_area_m2)
    }
}

/// The furnishing with this key.
#[must_use]
pub fn furnishing(id: &str) -> Option<&'static Furnishing> {
    FURNISHINGS.iter().find(|furnishing| furnishing.id == id)
}

/// Every furnishing of the library.
///
/// # Source
/// Beside each. Vorländer, Auralization (2008), annex; Bies, Hansen & Howard, Engineering Noise Control, 5th ed. (2017),
/// Table 6.2; EN 12354-6:2003.
pub const FURNISHINGS: &[Furnishing] = &[
    Furnishing {
        id: "sofa-fabric",
        name: "Sofa, cloth, three seats",
        absorption_area_m2: [0.79, 1.08, 1.39, 1.6, 1.48, 1.26],
        surface_m2: 4.8,
        spread: 2.0,
        source: "Common practice, no source: no published measurement of a domestic sofa was found; figures of \
                 auditorium seats per area of seats (well upholstered, cloth: Vorländer 2008, annex, after Bies & \
                 Hansen 1996) times 1.8 m², a factor of two either way.",
        size_m: [2.0, 0.9, 0.8],
    },
    Furnishing {
        id: "sofa-fabric-small",
        name: "Sofa, cloth, two seats",
        absorption_area_m2: [0.59, 0.81, 1.04, 1.2, 1.11, 0.94],
        surface_m2: 4.0,
        spread: 2.0,
        source: "Common practice, no source: no published measurement of a domestic sofa was found; figures of \
                 auditorium seats per area of seats (well upholstered, cloth: Vorländer 2008, annex, after Bies & \
                 Hansen 1996) times 1.35 m², a factor of two either way.",
        size_m: [1.5, 0.9, 0.8],
    },
    Furnishing {
        id: "sofa-leather",
        name: "Sofa, leather, three seats",
        absorption_area_m2: [0.72, 0.9, 1.04, 1.1, 1.04, 0.9],
        surface_m2: 4.8,
        spread: 2.0,
        source: "Common practice, no source: no published measurement of a domestic sofa was found; figures of \
                 auditorium seats per area of seats (leather covered: Vorländer 2008, annex, after Bies & Hansen \
                 1996) times 1.8 m², a factor of two either way.",
        size_m: [2.0, 0.9, 0.8],
    },
    Furnishing {
        id: "armchair-fabric",
        name: "Armchair, cloth",
        absorption_area_m2: [0.32, 0.43, 0.55, 0.64, 0.59, 0.5],
        surface_m2: 2.9,
        spread: 2.0,
        source: "Common practice, no source: no published measurement of a domestic armchair was found; figures of \
                 auditorium seats per area of seats (well upholstered, cloth: Vorländer 2008, annex, after Bies & \
                 Hansen 1996) times 0.72 m², a factor of two either way.",
        size_m: [0.85, 0.85, 0.85],
    },
    Furnishing {
        id: "armchair-leather",
        name: "Armchair, leather",
        absorption_area_m2: [0.29, 0.36, 0.42, 0.44, 0.42, 0.36],
        surface_m2: 2.9,
        spread: 2.0,
        source: "Common practice, no source: no published measurement of a domestic armchair was found; figures of \
                 auditorium seats per area of seats (leather covered: Vorländer 2008, annex, after Bies & Hansen \
                 1996) times 0.72 m², a factor of two either way.",
        size_m: [0.85, 0.85, 0.85],
    },
    Furnishing {
        id: "dining-chair-wood",
        name: "Dining chair, wood",
        absorption_area_m2: [0.02, 0.02, 0.03, 0.04, 0.04, 0.04],
        surface_m2: 0.9,
        spread: 1.5,
        source: "Single chair, wood: EN 12354-6:2003, Annex C, typical objects; from memory, of medium certainty.",
        size_m: [0.45, 0.5, 0.9],
    },
    Furnishing {
        id: "dining-chair-upholstered",
        name: "Dining chair, upholstered",
        absorption_area_m2: [0.1, 0.2, 0.25, 0.3, 0.35, 0.35],
        surface_m2: 1.0,
        spread: 1.5,
        source: "Single chair, upholstered: EN 12354-6:2003, Annex C, typical objects; from memory, of medium \
                 certainty.",
        size_m: [0.5, 0.55, 0.9],
    },
    Furnishing {
        id: "dining-table",
        name: "Dining table",
        absorption_area_m2: [0.32, 0.32, 0.32, 0.32, 0.32, 0.32],
        surface_m2: 3.2,
        spread: 2.0,
        source: "Common practice, no source: a tenth of its surface, as a wooden door at most; thin boards, so that \
                 the rule of EN 12354-6 for the volume of hard objects does not fit.",
        size_m: [1.6, 0.9, 0.75],
    },
    Furnishing {
        id: "coffee-table",
        name: "Coffee table",
        absorption_area_m2: [0.15, 0.15, 0.15, 0.15, 0.15, 0.15],
        surface_m2: 1.5,
        spread: 2.0,
        source: "Common practice, no source: a tenth of its surface, as a wooden door at most; thin boards, so that \
                 the rule of EN 12354-6 for the volume of hard objects does not fit.",
        size_m: [1.1, 0.6, 0.45],
    },
    Furnishing {
        id: "desk",
        name: "Desk",
        absorption_area_m2: [0.3, 0.3, 0.3, 0.3, 0.3, 0.3],
        surface_m2: 3.0,
        spread: 2.0,
        source: "Common practice, no source: a tenth of its surface, as a wooden door at most; thin boards, so that \
                 the rule of EN 12354-6 for the volume of hard objects does not fit.",
        size_m: [1.4, 0.7, 0.75],
    },
    Furnishing {
        id: "bookcase-filled",
        name: "Bookcase, filled",
        absorption_area_m2: [0.71, 0.71, 0.71, 0.71, 0.71, 0.71],
        surface_m2: 3.5,
        spread: 2.0,
        source: "Hard irregular object: A = V^(2/3), the same in every band, EN 12354-6:2003, Formula 4, with V = 0.6 \
                 m³; a formula, not a measurement. No published measurement of a filled bookcase was found.",
        size_m: [1.0, 0.3, 2.0],
    },
    Furnishing {
        id: "wardrobe",
        name: "Wardrobe",
        absorption_area_m2: [1.28, 1.28, 1.28, 1.28, 1.28, 1.28],
        surface_m2: 5.5,
        spread: 2.0,
        source: "Hard irregular object: A = V^(2/3), the same in every band, EN 12354-6:2003, Formula 4, with V = \
                 1.44 m³; a formula, not a measurement.",
        size_m: [1.2, 0.6, 2.0],
    },
    Furnishing {
        id: "sideboard",
        name: "Sideboard",
        absorption_area_m2: [0.69, 0.69, 0.69, 0.69, 0.69, 0.69],
        surface_m2: 2.7,
        spread: 2.0,
        source: "Hard irregular object: A = V^(2/3), the same in every band, EN 12354-6:2003, Formula 4, with V = \
                 0.576 m³; a formula, not a measurement.",
        size_m: [1.6, 0.45, 0.8],
    },
    Furnishing {
        id: "television-stand",
        name: "Stand with television",
        absorption_area_m2: [0.45, 0.45, 0.45, 0.45, 0.45, 0.45],
        surface_m2: 1.8,
        spread: 2.0,
        source: "Hard irregular object: A = V^(2/3), the same in every band, EN 12354-6:2003, Formula 4, with V = 0.3 \
                 m³; a formula, not a measurement.",
        size_m: [1.5, 0.4, 0.5],
    },
    Furnishing {
        id: "bed-double",
        name: "Bed, double",
        absorption_area_m2: [1.41, 1.92, 2.46, 2.85, 2.62, 2.24],
        surface_m2: 6.0,
        spread: 2.0,
        source: "Common practice, no source: no published measurement of a bed was found; figures of auditorium seats \
                 per area of seats (well upholstered, cloth: Vorländer 2008, annex, after Bies & Hansen 1996) times \
                 3.2 m², a factor of two either way.",
        size_m: [1.6, 2.0, 0.5],
    },
    Furnishing {
        id: "daybed",
        name: "Daybed",
        absorption_area_m2: [0.65, 0.85, 1.03, 1.12, 1.12, 1.08],
        surface_m2: 4.0,
        spread: 2.0,
        source: "Common practice, no source: no published measurement of a bed was found; figures of auditorium seats \
                 per area of seats (lightly upholstered: Bies et al. 2017, Table 6.2) times 1.8 m², a factor of two \
                 either way.",
        size_m: [0.9, 2.0, 0.45],
    },
    Furnishing {
        id: "potted-plant",
        name: "Potted plant",
        absorption_area_m2: [0.01, 0.01, 0.02, 0.03, 0.04, 0.05],
        surface_m2: 0.5,
        spread: 2.0,
        source: "Common practice, no source: leaves of a house plant absorb almost nothing.",
        size_m: [0.5, 0.5, 1.0],
    },
    Furnishing {
        id: "person-seated",
        name: "Person, seated",
        absorption_area_m2: [0.23, 0.37, 0.44, 0.45, 0.45, 0.45],
        surface_m2: 1.4,
        spread: 1.3,
        source: "Person seated: Bies, Hansen & Howard 2017, Table 6.2.",
        size_m: [0.5, 0.8, 1.3],
    },
    Furnishing {
        id: "boiler",
        name: "Boiler, floor-standing",
        absorption_area_m2: [0.59, 0.59, 0.59, 0.59, 0.59, 0.59],
        surface_m2: 2.8,
        spread: 2.0,
        source: "Hard irregular object: A = V^(2/3), the same in every band, EN 12354-6:2003, Formula 4, with V = \
                 0.454 m³; a formula, not a measurement.",
        size_m: [0.55, 0.55, 1.5],
    },
];
