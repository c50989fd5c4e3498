//! Builds with a front that resonates: perforated and slotted boards, membranes, a box of plywood.

use super::entry::{Entry, Words, gap, layers, porous};
use crate::scenario::document::LayerFacts;

/// Flow resistivity of the fill behind a front, Pa s/m². Common practice, no source.
const FILL: f64 = 8_000.0;

/// Of the felt behind slats, Pa s/m²: within the 26 to 73 kPa s/m² of Cox & D'Antonio 2017, Table 6.2.
const FELT: f64 = 40_000.0;

/// Resistance of a membrane over its mass reactance: what bending and its edge take. Common practice, no source.
const LOSS: f64 = 0.1;

fn slats() -> LayerFacts {
    LayerFacts::Slotted {
        thickness_mm: 11.0,
        slot_mm: 13.0,
        pitch_mm: 40.0,
    }
}

/// Boards with holes.
pub(super) fn perforated() -> Vec<Entry> {
    let board = |thickness_mm, hole_mm, pitch_mm| LayerFacts::Perforated {
        thickness_mm,
        hole_mm,
        pitch_mm,
    };
    vec![
        Entry::new(
            "perforated",
            "Perforated board, 82 mm",
            (0.60, 1.20, 7.5),
            layers([board(12.0, 8.0, 32.0), porous(50.0, FILL), gap(20.0)]),
            Words {
                good_for: "Takes voices and the low middle and gives the treble back, for rooms that are dull already.",
                ask_for: "Ask for the open area (about 5 %), the size and pitch of the holes, and wool that touches the board.",
                source: "Build: 12 mm board, 8 mm holes every 32 mm (4.9 % open), common practice, no source. Mass: 12 mm of fibreboard, common practice, no source.",
            },
        ),
        Entry::new(
            "perforated-fine",
            "Finely perforated board, 54 mm",
            (0.60, 1.20, 4.0),
            layers([board(4.0, 3.0, 8.0), porous(50.0, FILL)]),
            Words {
                good_for: "Does the middle of the range like a soft panel with a hard face that can be wiped, and half as much of the treble.",
                ask_for: "Ask for 10 to 20 % of open area in small holes, a thin board, and 50 mm of wool right behind it.",
                source: "Build: 4 mm board, 3 mm holes every 8 mm (11 % open), common practice, no source. Mass: 4 mm of hardboard, common practice, no source.",
            },
        ),
    ]
}

/// Slats on felt, and a slotted box for the low middle.
pub(super) fn slotted() -> Vec<Entry> {
    let slot_box = LayerFacts::Slotted {
        thickness_mm: 18.0,
        slot_mm: 5.0,
        pitch_mm: 90.0,
    };
    vec![
        Entry::new(
            "slats",
            "Slats on felt, 20 mm",
            (0.60, 2.40, 14.0),
            layers([slats(), porous(9.0, FELT)]),
            Words {
                good_for: "Looks like panelling and takes a narrow range about 2 kHz, little else, when it sits flat on the wall.",
                ask_for: "Ask for values measured flat on a wall: most sheets show them on battens with wool behind.",
                source: "Build: slats of 27 mm, 13 mm apart, on 9 mm felt; common practice, no source. Mass: common practice, no source.",
            },
        ),
        Entry::new(
            "slats-battens",
            "Slats on battens with wool, 65 mm",
            (0.60, 2.40, 17.0),
            layers([slats(), porous(9.0, FELT), porous(45.0, FILL)]),
            Words {
                good_for: "Covers a whole wall from about 250 Hz up with a wooden face, the treble less than the middle.",
                ask_for: "Ask for slats on open felt without a closed backing, battens of 45 mm, and wool to fill them.",
                source: "Build: slats of 27 mm, 13 mm apart, on 9 mm felt before 45 mm of 8 kPa s/m²; common practice, no source. Mass: common practice, no source.",
            },
        ),
        Entry::new(
            "slotted-box",
            "Slotted box, 118 mm",
            (0.60, 1.20, 11.0),
            layers([slot_box, gap(20.0), porous(80.0, FILL)]),
            Words {
                good_for: "Takes the muddy octave about 200 to 250 Hz and leaves the brightness of the room alone.",
                ask_for: "Ask for slot width, pitch and depth of the box, and have it filled with light wool.",
                source: "Build: 18 mm board, 5 mm slots every 90 mm (5.6 % open), common practice, no source. Mass: 18 mm of wood, common practice, no source.",
            },
        ),
    ]
}

/// Membranes and a thin board before a filled box: for the bass.
pub(super) fn bass() -> Vec<Entry> {
    let membrane = |mass_kg_per_m2| LayerFacts::Membrane {
        mass_kg_per_m2,
        loss: Some(LOSS),
    };
    let plywood = LayerFacts::Board {
        thickness_mm: 6.0,
        density_kg_per_m3: 600.0,
    };
    vec![
        Entry::new(
            "membrane",
            "Membrane absorber, 100 mm",
            (0.60, 1.20, 7.0),
            layers([membrane(2.5), gap(20.0), porous(80.0, FILL)]),
            Words {
                good_for: "Quiets boom about 100 to 125 Hz where the wall has only 100 mm to give.",
                ask_for: "Ask for the frequency that it is tuned to, a measurement of it, the mass of the sheet, and which way to move the tuning.",
                source: "Build: sheet of 2.5 kg/m² with a loss of 0.1 before a filled box, common practice, no source. Mass: common practice, no source.",
            },
        ),
        Entry::new(
            "membrane-deep",
            "Membrane absorber, 200 mm",
            (0.60, 1.20, 11.0),
            layers([membrane(5.0), gap(50.0), porous(150.0, FILL)]),
            Words {
                good_for: "Reaches the lowest notes of a small room, about 50 to 70 Hz, if it stands where they are loud.",
                ask_for: "Ask for the frequency that it is tuned to and compare it with the notes of your room before you pay.",
                source: "Build: sheet of 5 kg/m² with a loss of 0.1 before a filled box, common practice, no source. Mass: common practice, no source.",
            },
        ),
        Entry::new(
            "plywood-box",
            "Plywood panel, 6 mm on 80 mm",
            (0.60, 1.20, 5.5),
            layers([plywood, porous(80.0, FILL)]),
            Words {
                good_for: "Takes bass about 80 to 125 Hz behind a face of wood and keeps all of the treble.",
                ask_for: "Ask for thin board (4 to 6 mm) free at its face, a tight box, and wool inside.",
                source: "Build: board as a limp mass; four published rows of thin board on 50 to 100 mm lie between 0.3 and 0.6 at 125 Hz (Cox & D'Antonio 2017, Appendix A; Long 2014, Table 7.1; Arau-Puchades 1999, Table 6.1). Mass: common practice, no source.",
            },
        ),
    ]
}
