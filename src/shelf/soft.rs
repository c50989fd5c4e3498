//! Soft pieces: panels, foam, felt, deep and corner pieces, a screen.

use super::entry::{Entry, Words, gap, layers, porous};
use crate::scenario::document::{LayerFacts, Looks, Stands};

/// Flow resistivity of the core of a panel, Pa s/m². Common practice, no source; published specimens of mineral and
/// polyester wool lie between 1 and 150 kPa s/m² (Cox & D'Antonio, 3rd ed. 2017, Table 6.2).
const PANEL: f64 = 10_000.0;

/// Of the core of deep pieces, which must let low notes in, Pa s/m². Common practice, no source.
const LOOSE: f64 = 6_000.0;

/// Of open-cell foam, Pa s/m²: within the 4.5 to 12.9 kPa s/m² of polyurethane foam in Cox & D'Antonio 2017, Table 6.2.
const FOAM: f64 = 8_000.0;

/// Of pressed felt, Pa s/m²: within the 26 to 73 kPa s/m² of Cox & D'Antonio 2017, Table 6.2.
const FELT: f64 = 40_000.0;

const PANEL_SOURCE: &str = "Build: core of 10 kPa s/m², common practice, no source; published cores run from 1 to 150 kPa s/m² (Cox & D'Antonio 2017, Table 6.2). Mass: common practice, no source.";

const PANEL_ASK: &str = "Ask for the thickness of the core without its frame, its flow resistivity (about 5 to 20 kPa s/m²) or density, a cloth that you can blow through, and the fire class of the finished piece.";

/// Flat panels, thin to thick.
pub(super) fn panels() -> Vec<Entry> {
    let panel = |id, name, thickness_mm, mass_kg, good_for| {
        let words = Words {
            good_for,
            ask_for: PANEL_ASK,
            source: PANEL_SOURCE,
        };
        let made = layers([porous(thickness_mm, PANEL)]);
        Entry::new(id, name, (0.60, 1.20, mass_kg), made, words)
    };
    vec![
        panel(
            "thin",
            "Thin soft, 25 mm",
            25.0,
            1.5,
            "Takes the edge off treble echoes and does next to nothing below about 500 Hz.",
        ),
        panel(
            "medium",
            "Medium soft, 50 mm",
            50.0,
            3.0,
            "Shortens the decay of voices and most instruments where depth is scarce.",
        ),
        panel(
            "thick",
            "Thick soft, 100 mm",
            100.0,
            5.0,
            "Works on first bounces and on decay from about 200 Hz up: the plain choice where it fits.",
        ),
        thick_with_gap(),
        deep(),
    ]
}

fn thick_with_gap() -> Entry {
    Entry::new(
        "thick-gap",
        "Thick soft with gap, 100 + 50 mm",
        (0.60, 1.20, 6.0),
        layers([porous(100.0, PANEL), gap(50.0)]),
        Words {
            good_for: "Reaches about a third of an octave lower than the same panel flat on the wall, for no more material.",
            ask_for: "Ask for a panel as for the thick one, and spacers or brackets that hold it 50 mm off the wall.",
            source: PANEL_SOURCE,
        },
    )
}

fn deep() -> Entry {
    Entry::new(
        "deep",
        "Deep soft, 200 mm",
        (0.60, 1.20, 8.0),
        layers([porous(200.0, LOOSE)]),
        Words {
            good_for: "Evens out boom and decay down to about 80 Hz where a whole strip of wall can be given to it.",
            ask_for: "Ask for light, loose core material (about 3 to 8 kPa s/m²): the dense slabs of thin panels keep low notes out.",
            source: "Build: core of 6 kPa s/m², common practice, no source. Mass: common practice, no source.",
        },
    )
}

/// Panels with a face of their own, and one for the ceiling.
pub(super) fn faced() -> Vec<Entry> {
    let print = LayerFacts::Cloth {
        flow_resistance_pa_s_per_m: 400.0,
        mass_kg_per_m2: Some(0.25),
    };
    vec![
        Entry::new(
            "printed",
            "Printed picture panel, 40 mm",
            (0.80, 0.80, 2.5),
            layers([print, porous(40.0, PANEL)]),
            Words {
                good_for: "Hangs like a picture and takes mid and treble, for rooms where a plain panel would not be allowed.",
                ask_for: "Ask for a print on open cloth (ink that seals the weave makes a mirror for treble), at least 40 mm of core, and the fire class with the print on it.",
                source: "Build: cloth of 400 Pa s/m and 0.25 kg/m² on a core of 10 kPa s/m², common practice, no source. Mass: common practice, no source.",
            },
        )
        .looking(Looks::Picture),
        Entry::new(
            "ceiling",
            "Ceiling panel, 50 + 100 mm",
            (1.20, 1.20, 5.5),
            layers([porous(50.0, PANEL), gap(100.0)]),
            Words {
                good_for: "Covers the ceiling bounce and the largest bare surface at once, out of reach of furniture.",
                ask_for: "Ask for its mass, for hangers with a second independent hold, for a gap of 100 mm or more, and for the fire class.",
                source: PANEL_SOURCE,
            },
        ),
    ]
}

/// Foam, felt and wood wool.
pub(super) fn tiles() -> Vec<Entry> {
    let foam = |id, name, thickness_mm, mass_kg, good_for| {
        let words = Words {
            good_for,
            ask_for: "Ask for open-cell foam that is made for rooms, its fire class, and the thickness at the thinnest point: wedges count about half.",
            source: "Build: 8 kPa s/m², within the published 4.5 to 12.9 of polyurethane foam (Cox & D'Antonio 2017, Table 6.2); a flat slab of the same foam. Mass: 30 kg/m³, common practice, no source.",
        };
        let made = layers([porous(thickness_mm, FOAM)]);
        Entry::new(id, name, (0.50, 0.50, mass_kg), made, words)
    };
    vec![
        foam(
            "foam-thin",
            "Foam, 25 mm",
            25.0,
            0.2,
            "Dulls the treble only, so that the room sounds boomier than before if much of it is used.",
        ),
        foam(
            "foam-thick",
            "Foam, 75 mm",
            75.0,
            0.6,
            "Does the work of a soft panel of the same depth where weight matters, as on a door or a light wall.",
        ),
        Entry::new(
            "felt",
            "Felt tile, 9 mm",
            (0.60, 0.60, 0.7),
            layers([porous(9.0, FELT)]),
            Words {
                good_for: "Quiets clatter above 2 kHz on a desk wall or a door and is of little use for music.",
                ask_for: "Ask for tested values on a hard wall: figures measured with an air gap look several times better.",
                source: "Build: 40 kPa s/m², within the published 26 to 73 of felt (Cox & D'Antonio 2017, Table 6.2). Mass: 200 kg/m³, common practice, no source.",
            },
        ),
        wood_wool(),
    ]
}

fn wood_wool() -> Entry {
    Entry::new(
        "wood-wool",
        "Wood-wool board, 25 + 45 mm",
        (0.60, 1.20, 8.0),
        layers([porous(25.0, FOAM), gap(45.0)]),
        Words {
            good_for: "Stands knocks and children and still takes the middle of the range when it is screwed to battens.",
            ask_for: "Ask for fine fibres, bare or factory-painted (a brush seals it), battens of 45 mm, and values measured on such battens.",
            source: "Build: 8 kPa s/m², common practice, no source; the model is stated for a porosity near 1, such boards have about 0.6, so this is a rough figure. Mass: 450 kg/m³, common practice, no source.",
        },
    )
}

/// Pieces for the corners of a room.
pub(super) fn corners() -> Vec<Entry> {
    vec![
        Entry::new(
            "corner-solid",
            "Corner piece, filled, 0.6 m face",
            (0.60, 1.20, 6.5),
            layers([porous(212.0, LOOSE)]),
            Words {
                good_for: "Lowers boom where every low note of the room meets, if a stack from floor to ceiling can stand there.",
                ask_for: "Ask for a filled triangle of light wool (about 3 to 8 kPa s/m²) with a face of 0.6 m or more, not a hollow shell.",
                source: "Build: the mean depth behind a face of 0.6 m across the corner, 212 mm, of 6 kPa s/m²; common practice, no source. Mass: common practice, no source.",
            },
        )
        .standing(Stands::Corner),
        Entry::new(
            "corner-panel",
            "Corner panel, 100 mm across",
            (0.60, 1.20, 5.0),
            layers([porous(100.0, PANEL), gap(112.0)]),
            Words {
                good_for: "Gets much of a filled corner for the price of one thick panel set across it.",
                ask_for: "Ask for a thick panel with a finished back edge, and two brackets or a stand for the corner.",
                source: "Build: 100 mm of 10 kPa s/m² before the rest of the mean depth of 212 mm as air; common practice, no source. Mass: common practice, no source.",
            },
        )
        .standing(Stands::Corner),
    ]
}

/// A screen on feet, open on both sides.
pub(super) fn screen() -> Entry {
    Entry::new(
        "screen",
        "Screen on feet, 100 mm",
        (0.60, 1.60, 9.0),
        layers([porous(100.0, PANEL)]),
        Words {
            good_for: "Takes a bounce in a rented room without a hole in any wall and is put away afterwards.",
            ask_for: "Ask for an open cloth on both sides, no hard board inside, and feet that a child cannot tip.",
            source: PANEL_SOURCE,
        },
    )
    .standing(Stands::Stand)
    .looking(Looks::Furniture)
}
