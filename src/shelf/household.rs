//! Household things and scattering pieces: curtains, rugs, a shelf of books, profiles.

use super::entry::{Entry, Words, gap, layers, profile, sheet};
use crate::finish;
use crate::scenario::document::{LayerFacts, Looks, Scattering, Stands};

/// Scattering of a curtain from 500 Hz up. Common practice, no source.
const CURTAIN_SCATTERING: f64 = 0.20;

/// Cloth that hangs free before air, in folds.
fn curtain(
    id: &str,
    name: &str,
    size: (f64, f64, f64),
    cloth: (f64, f64, f64, f64),
    words: Words,
) -> Entry {
    let (flow_resistance_pa_s_per_m, mass_kg_per_m2, gap_mm, fullness) = cloth;
    let cloth = LayerFacts::Cloth {
        flow_resistance_pa_s_per_m,
        mass_kg_per_m2: Some(mass_kg_per_m2),
    };
    let mut entry =
        Entry::new(id, name, size, layers([cloth, gap(gap_mm)]), words).standing(Stands::Curtain);
    entry.kind.fullness = Some(fullness);
    entry.kind.scattering = Some(Scattering::Single(CURTAIN_SCATTERING));
    entry
}

/// Curtains, light and heavy, and one before a door.
pub(super) fn curtains() -> Vec<Entry> {
    vec![
        curtain(
            "curtain-light",
            "Curtain, light, 1.5 times its width",
            (1.50, 2.30, 1.1),
            (400.0, 0.2, 80.0, 1.5),
            Words {
                good_for: "Tames a window's treble at little cost and leaves everything below 500 Hz alone.",
                ask_for: "Ask for at least one and a half times the width of the rail in cloth, and a rail 80 mm or more off the glass.",
                source: "Build: cloth of 400 Pa s/m and 0.2 kg/m² in folds, 80 mm before the wall; common practice, no source. Published rows of light curtains: 0.35 to 0.63 at 500 Hz to 1 kHz in folds or off the wall (Bies, Hansen & Howard 2017; Vorländer 2008).",
            },
        ),
        curtain(
            "curtain-heavy",
            "Curtain, heavy, twice its width",
            (1.50, 2.30, 4.2),
            (2000.0, 0.6, 100.0, 2.0),
            Words {
                good_for: "Covers glass or a whole wall from about 300 Hz up and can be drawn aside when the room should ring.",
                ask_for: "Ask for velour or wool of 0.5 kg/m² or more, not coated, twice the width of the rail, and a rail 100 mm off the wall.",
                source: "Build: cloth of 2000 Pa s/m and 0.6 kg/m² in folds, 100 mm before the wall; common practice, no source. Published rows of heavy velour draped to half its area: 0.55 at 500 Hz, 0.72 at 1 kHz (Bies, Hansen & Howard 2017, Table 6.2).",
            },
        ),
        curtain(
            "curtain-door",
            "Door curtain, heavy",
            (1.00, 2.10, 2.5),
            (2000.0, 0.6, 60.0, 2.0),
            Words {
                good_for: "Softens a door that cannot carry a panel and still opens.",
                ask_for: "Ask for a rail that swings or reaches past the frame, heavy cloth without coating, and a hem that clears the floor.",
                source: "Build: as the heavy curtain, 60 mm before the door; common practice, no source.",
            },
        ),
    ]
}

/// Rugs.
pub(super) fn rugs() -> Vec<Entry> {
    vec![
        Entry::new(
            "rug-thin",
            "Rug, thin, 8 mm",
            (1.60, 2.40, 6.0),
            sheet([0.02, 0.06, 0.14, 0.37, 0.60, 0.65]),
            Words {
                good_for: "Catches the treble of the floor bounce and little else.",
                ask_for: "Ask for pile height and mass per square metre: more of both reaches lower.",
                source: "Heavy carpet on concrete without underlay (Cox & D'Antonio 2017, Appendix A, after Harris 1991); no published row for a loose rug was found. Mass: common practice, no source.",
            },
        )
        .deep(8.0)
        .standing(Stands::Floor),
        Entry::new(
            "rug",
            "Rug, 12 mm",
            (1.60, 2.40, 8.0),
            sheet([0.07, 0.25, 0.50, 0.50, 0.60, 0.65]),
            Words {
                good_for: "Takes the floor bounce between loudspeakers and seat from about 300 Hz up.",
                ask_for: "Ask for a thick pile on a felt underlay of 8 mm or more: the underlay does half of the work.",
                source: "Pile rug or carpet on thick felt (Cox & D'Antonio 2017, Appendix A, after Fry 1987); tabled as carpet. Mass: common practice, no source.",
            },
        )
        .deep(12.0)
        .standing(Stands::Floor),
    ]
}

/// Things that send sound elsewhere.
pub(super) fn scatterers() -> Vec<Entry> {
    let hard = |id, name, mass_kg, (depth_mm, period_mm), good_for| {
        let words = Words {
            good_for,
            ask_for: "Ask for depth and period of the profile and for measured scattering (ISO 17497-1), not for a picture of lobes.",
            source: "Build: depth and period as named, common practice, no source. Mass: wood, common practice, no source.",
        };
        let made = profile(depth_mm, period_mm);
        Entry::new(id, name, (0.60, 0.60, mass_kg), made, words)
    };
    vec![
        hard(
            "scatter-shallow",
            "Scattering piece, 60 mm",
            6.0,
            (60.0, 300.0),
            "Breaks up a treble bounce above about 2 kHz without making the room duller.",
        ),
        hard(
            "scatter-deep",
            "Scattering piece, 200 mm",
            12.0,
            (200.0, 600.0),
            "Breaks up a bounce from about 600 Hz up behind a seat that stands a metre or more away.",
        ),
    ]
    .into_iter()
    .chain(filled_shelf())
    .collect()
}

/// A shelf of books, with the figures of the finish.
fn filled_shelf() -> Option<Entry> {
    let books = finish::finish("filled-bookshelf")?;
    let mut entry = Entry::new(
        "shelf-filled",
        "Shelf, filled with books",
        (0.80, 1.80, 120.0),
        sheet(books.typical),
        Words {
            good_for: "Scatters and takes a little at all pitches, and you may own one already.",
            ask_for: "Ask for 300 mm of depth, tie it to the wall, and fill it with books of uneven depth.",
            source: books.source,
        },
    )
    .deep(300.0)
    .looking(Looks::Furniture);
    // One figure per octave of the sheet, as the finish scatters.
    let scattering = finish::OCTAVES_HZ.map(|hz| books.scattering().at_hz(hz));
    entry.kind.scattering = Some(Scattering::PerBand(scattering.to_vec()));
    Some(entry)
}
