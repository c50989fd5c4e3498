//! The library of finishes and furnishings against the published tables in `data/absorption.csv`.

#[path = "support/table.rs"]
mod table;

use seatward::bands::Banded;
use seatward::finish::{FINISHES, Finish, finish, scattering_bands};
use seatward::furnishing::{FURNISHINGS, Furnishing, furnishing};
use table::{Row, number, rows};

/// Which rows stand behind a finish: the ids of the table that begin so.
const ROWS_BEHIND: [(&str, &str); 24] = [
    ("plaster-on-brick", "plaster_on_masonry_"),
    ("board-on-studs", "gypsum_board_single_"),
    ("double-board-on-studs", "gypsum_board_double_"),
    ("concrete", "concrete_0"),
    ("concrete-block-bare", "concrete_block_01"),
    ("concrete-block-painted", "concrete_block_02"),
    ("brick", "brick_"),
    ("lath-and-plaster", "ceiling_plaster_"),
    ("suspended-ceiling", "suspended_ceiling_"),
    ("boards-on-joists", "wood_floor_on_joists_"),
    ("parquet-on-concrete", "parquet_on_concrete_"),
    ("hard-floor", "hard_floor_other_"),
    ("carpet-thin", "carpet_thin_"),
    ("carpet-heavy", "carpet_heavy_on_hard_floor_"),
    ("carpet-with-underlay", "carpet_with_underlay_"),
    ("rug-on-floor", "rug_"),
    ("window", "glass_window_"),
    ("large-heavy-glass", "glass_large_heavy_"),
    ("wooden-door", "door_"),
    ("wood-panelling", "plywood_on_airspace_"),
    ("wardrobe-front", "plywood_on_airspace_"),
    ("curtain-light", "curtain_light_"),
    ("curtain-medium", "curtain_medium_"),
    ("curtain-heavy", "curtain_heavy_"),
];

/// Finishes for which nothing is published; with them the list is whole.
const UNPUBLISHED: [&str; 2] = ["open-archway", "filled-bookshelf"];

fn octaves(row: &Row) -> [f64; 6] {
    ["a125", "a250", "a500", "a1000", "a2000", "a4000"].map(|column| number(row, column))
}

/// Rows behind a finish; rows of low certainty (one carpet that repeats a curtain's figures) are left out.
fn published(prefix: &str) -> Vec<[f64; 6]> {
    let wanted = |row: &&Row| row["id"].starts_with(prefix) && row["confidence"] != "low";
    rows(include_str!("data/absorption.csv"))
        .iter()
        .filter(wanted)
        .map(octaves)
        .collect()
}

fn row_of(id: &str) -> [f64; 6] {
    published(id)[0]
}

fn known_finish(id: &str) -> &'static Finish {
    finish(id).unwrap_or_else(|| panic!("no finish {id}"))
}

fn known_furnishing(id: &str) -> &'static Furnishing {
    furnishing(id).unwrap_or_else(|| panic!("no furnishing {id}"))
}

/// Middle of the values of an octave; between the middle two if their number is even.
fn median(rows: &[[f64; 6]], octave: usize) -> f64 {
    let mut values: Vec<f64> = rows.iter().map(|row| row[octave]).collect();
    values.sort_by(f64::total_cmp);
    0.5 * (values[(values.len() - 1) / 2] + values[values.len() / 2])
}

fn is_median(typical: &[f64; 6], rows: &[[f64; 6]]) -> bool {
    // The library rounds medians to 0.005.
    (0..6).all(|octave| (typical[octave] - median(rows, octave)).abs() <= 0.0025 + 1e-9)
}

fn assert_unique_kebab_case(ids: &[&str]) {
    for (i, id) in ids.iter().enumerate() {
        assert!(
            id.chars().all(|c| c.is_ascii_lowercase() || c == '-'),
            "{id}"
        );
        assert!(!ids[..i].contains(id), "{id} twice");
    }
}

#[test]
fn every_finish_is_either_published_or_says_that_it_is_not() {
    assert_eq!(FINISHES.len(), ROWS_BEHIND.len() + UNPUBLISHED.len());
    for id in UNPUBLISHED.into_iter().chain(["wardrobe-front"]) {
        assert!(
            known_finish(id)
                .source
                .starts_with("Common practice, no source"),
            "{id}"
        );
    }
    assert_unique_kebab_case(&FINISHES.iter().map(|finish| finish.id).collect::<Vec<_>>());
}

/// Books as named in the table's `source` column.
#[test]
fn the_spread_of_a_finish_is_that_of_its_published_rows() {
    for (id, prefix) in ROWS_BEHIND {
        let (finish, rows) = (known_finish(id), published(prefix));
        assert!(!rows.is_empty(), "{id}");
        for octave in 0..6 {
            let values = || rows.iter().map(|row| row[octave]);
            assert_eq!(
                finish.low[octave],
                values().fold(f64::INFINITY, f64::min),
                "{id}, lowest, octave {octave}"
            );
            assert_eq!(
                finish.high[octave],
                values().fold(0.0, f64::max),
                "{id}, highest, octave {octave}"
            );
        }
    }
}

#[test]
fn the_typical_figures_are_a_published_row_or_the_median_that_the_source_names() {
    for (id, prefix) in ROWS_BEHIND {
        let (finish, rows) = (known_finish(id), published(prefix));
        if finish.source.starts_with("Typical: median of") {
            assert!(
                finish
                    .source
                    .contains(&format!("median of the {} rows", rows.len())),
                "{id}"
            );
            assert!(
                is_median(&finish.typical, &rows),
                "{id}: {:?}",
                finish.typical
            );
        } else {
            assert!(
                rows.contains(&finish.typical),
                "{id}: {:?} is no published row",
                finish.typical
            );
        }
    }
}

#[test]
fn typical_figures_lie_within_the_spread() {
    for finish in FINISHES {
        for octave in 0..6 {
            let range = finish.low[octave]..=finish.high[octave];
            assert!(
                range.contains(&finish.typical[octave]),
                "{}, octave {octave}",
                finish.id
            );
            assert!(
                finish.low[octave] > 0.0 && finish.high[octave] <= 1.3,
                "{}, octave {octave}",
                finish.id
            );
        }
    }
}

#[test]
fn every_finish_has_a_name_a_source_and_a_use() {
    let uses = [
        "wall", "floor", "ceiling", "window", "door", "opening", "built-in",
    ];
    for finish in FINISHES {
        assert!(
            !finish.name.is_empty() && finish.source.len() > 20,
            "{}",
            finish.id
        );
        assert!(
            !finish.suits.is_empty() && finish.suits.split(' ').all(|word| uses.contains(&word)),
            "{}",
            finish.suits
        );
    }
}

/// Common practice, no source: 0.10 flat, 0.20 curtain, filled shelf 0.3 below 500 Hz and 0.5 above; half at 125 Hz,
/// 0.7 at 250 Hz, never below 0.05.
#[test]
fn scattering_falls_towards_the_bass() {
    // Bands 0, 4, 7, 9, 10, 23 are 50, 125, 250, 400, 500 and 10,000 Hz.
    let at = |scattering: Banded| [0, 4, 7, 10, 23].map(|band| scattering[band]);
    let expected = [
        ("concrete", [0.05, 0.05, 0.07, 0.10, 0.10]),
        ("curtain-heavy", [0.10, 0.10, 0.14, 0.20, 0.20]),
        ("filled-bookshelf", [0.15, 0.15, 0.21, 0.50, 0.50]),
    ];
    for (id, wanted) in expected {
        let got = at(known_finish(id).scattering());
        assert!(
            got.iter().zip(wanted).all(|(g, w)| (g - w).abs() < 1e-12),
            "{id}: {got:?}, expected {wanted:?}"
        );
    }
    assert!(
        known_finish("filled-bookshelf").scattering()[9] < 0.3,
        "400 Hz belongs to the lower figure"
    );
    assert!(scattering_bands(0.0).iter().all(|s| s == 0.05));
}

#[test]
fn absorption_keeps_the_octaves_and_holds_the_ends() {
    let carpet = known_finish("carpet-heavy");
    let bands = carpet.absorption();
    // Bands 4, 7, 10, 13, 16, 19 are the octave centres 125 Hz … 4 kHz.
    for (octave, band) in [4, 7, 10, 13, 16, 19].into_iter().enumerate() {
        assert!((bands[band] - carpet.typical[octave]).abs() < 1e-12);
    }
    assert_eq!(
        (bands[0], bands[23]),
        (carpet.typical[0], carpet.typical[5])
    );
}

#[test]
fn no_furnishing_absorbs_more_than_reaches_it() {
    let ids: Vec<&str> = FURNISHINGS.iter().map(|furnishing| furnishing.id).collect();
    assert_unique_kebab_case(&ids);
    assert!(FURNISHINGS.len() >= 14, "{}", FURNISHINGS.len());
    for thing in FURNISHINGS {
        assert!(
            thing
                .absorption_area_m2
                .iter()
                .all(|&area| area > 0.0 && area <= thing.surface_m2),
            "{}",
            thing.id
        );
        assert!(
            thing.spread > 1.0 && thing.source.len() > 20 && thing.size_m.iter().all(|&m| m > 0.0),
            "{}",
            thing.id
        );
        assert_eq!(
            thing.absorption_area()[13],
            thing.absorption_area_m2[3],
            "{}: 1 kHz",
            thing.id
        );
    }
}

/// Area of the seat seen from above, times a coefficient per area of seats; the library rounds to 0.01 m².
fn assert_seat(id: &str, row: &str) {
    let thing = known_furnishing(id);
    let area_m2 = thing.size_m[0] * thing.size_m[1];
    for (octave, coefficient) in row_of(row).into_iter().enumerate() {
        let difference = thing.absorption_area_m2[octave] - area_m2 * coefficient;
        assert!(
            difference.abs() < 0.01,
            "{id}, octave {octave}: {difference}"
        );
    }
}

/// Vorländer 2008, annex, and Bies et al. 2017, Table 6.2: auditorium seats. The step to furniture is common practice.
#[test]
fn upholstered_furniture_is_auditorium_seats_by_area() {
    for id in [
        "sofa-fabric",
        "sofa-fabric-small",
        "armchair-fabric",
        "bed-double",
    ] {
        assert_seat(id, "upholstered_seat_05");
    }
    for id in ["sofa-leather", "armchair-leather"] {
        assert_seat(id, "upholstered_seat_06");
    }
    assert_seat("daybed", "upholstered_seat_04");
}

/// EN 12354-6:2003, Annex C (from memory, of medium certainty) and Bies et al. 2017, Table 6.2.
#[test]
fn chairs_and_people_are_the_published_ones() {
    let published = [
        ("dining-chair-upholstered", "upholstered_seat_01"),
        ("dining-chair-wood", "upholstered_seat_02"),
        ("person-seated", "person_01"),
    ];
    for (id, row) in published {
        assert_eq!(known_furnishing(id).absorption_area_m2, row_of(row), "{id}");
    }
}

/// EN 12354-6:2003, Formula 4: A = V^(2/3); the library rounds to 0.01 m².
#[test]
fn hard_things_follow_the_rule_of_their_volume() {
    for id in [
        "bookcase-filled",
        "wardrobe",
        "sideboard",
        "television-stand",
        "boiler",
    ] {
        let thing = known_furnishing(id);
        let expected_m2 = thing.size_m.iter().product::<f64>().powf(2.0 / 3.0);
        assert!(
            thing
                .absorption_area_m2
                .iter()
                .all(|area| (area - expected_m2).abs() <= 0.005 + 1e-9),
            "{id}"
        );
    }
}

/// Common practice, no source: the things of a normally furnished living room of 80 m³ show 15 to 30 m² and absorb 5 to 9 m²
/// at mid frequencies.
#[test]
fn a_living_room_holds_a_usual_amount_of_furniture() {
    let things = [
        ("sofa-fabric", 1.0),
        ("sofa-fabric-small", 1.0),
        ("armchair-fabric", 1.0),
        ("coffee-table", 1.0),
        ("bookcase-filled", 1.0),
        ("television-stand", 1.0),
        ("sideboard", 1.0),
        ("dining-table", 1.0),
        ("dining-chair-upholstered", 4.0),
    ];
    let sum = |of: fn(&Furnishing) -> f64| {
        things
            .iter()
            .map(|(id, count)| count * of(known_furnishing(id)))
            .sum::<f64>()
    };
    let (surface_m2, absorption_m2) = (
        sum(|thing| thing.surface_m2),
        sum(|thing| thing.absorption_area_m2[3]),
    );
    assert!((15.0..30.0).contains(&surface_m2), "{surface_m2} m²");
    assert!((5.0..9.0).contains(&absorption_m2), "{absorption_m2} m²");
}
