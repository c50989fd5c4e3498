//! Rooms that someone measured or that everyone knows: a classroom that got a carpet, and what is common practice at home.

use seatward::bands::BAND_1K;
use seatward::finish;
use seatward::scenario;
use seatward::simulate::{Draws, Prepared};
use serde_json::{Value, json};

/// A room with one plan, the same finish on all surfaces but those given.
fn room(
    size_m: [f64; 3],
    finishes: [(&str, &str); 6],
    own: &Value,
    furnishings: &Value,
) -> Prepared {
    let surfaces: serde_json::Map<String, Value> = finishes
        .into_iter()
        .map(|(surface, finish)| (surface.to_owned(), json!({ "finish": finish })))
        .collect();
    let document = json!({
        "format": 1,
        "title": "Test room",
        "room": {
            "width_m": size_m[0], "length_m": size_m[1], "height_m": size_m[2],
            "surfaces": surfaces, "furnishings": furnishings,
        },
        "listening": { "loudspeakers": [] },
        "kit": [],
        "plans": [{ "name": "Now", "pieces": [] }],
        "own_finishes": own,
    });
    let scenario = scenario::from_json(&document.to_string());
    Prepared::new(scenario.unwrap_or_else(|error| panic!("{:?}", error.findings)))
}

/// A finish with one figure in every band.
fn even(id: &str, absorption: f64) -> Value {
    json!({ "id": id, "name": id, "bands_hz": [1000], "absorption": [absorption], "scattering": 0.1 })
}

const CLASSROOM_M: [f64; 3] = [9.25, 7.65, 3.15];
const CARPET: f64 = 0.37;

/// The classroom with walls and ceiling of one absorption; concrete floor at 2/7 of it, or carpet.
fn classroom(walls: f64, carpeted: bool) -> Prepared {
    let floor = if carpeted { CARPET } else { walls * 2.0 / 7.0 };
    let finishes = ["left", "right", "front", "back", "floor", "ceiling"]
        .map(|surface| (surface, if surface == "floor" { "floor" } else { "block" }));
    room(
        CLASSROOM_M,
        finishes,
        &json!([even("block", walls), even("floor", floor)]),
        &json!([]),
    )
}

fn t20_at_1k(prepared: &Prepared) -> f64 {
    prepared.predict(0).expect("a plan").decay.t20_s.0[BAND_1K]
}

/// Absorption of walls and ceiling at which the bare classroom decays as measured.
fn fitted_to(t20_s: f64) -> f64 {
    let (mut low, mut high) = (0.01, 0.2);
    for _ in 0..40 {
        let middle = 0.5 * (low + high);
        if t20_at_1k(&classroom(middle, false)) > t20_s {
            low = middle;
        } else {
            high = middle;
        }
    }
    0.5 * (low + high)
}

/// Source: Russell, university teaching page on Sabine's formula: a classroom of 9.25 × 7.65 × 3.15 m measured at 1 kHz, 3.3 s
/// bare and 1.6 s with a carpet. The coefficients of block, concrete and carpet (0.07, 0.02, 0.37) are inferred from the
/// page's own predictions. Scattering is the default of 0.10; limit 15 %.
#[test]
fn a_classroom_that_got_a_carpet_comes_out_as_measured() {
    let walls = fitted_to(3.3);
    let carpeted = classroom(walls, true);
    let report = carpeted.predict(0).expect("a plan");
    let at_1k = |series: &seatward::report::Series| series.0[BAND_1K];
    let t20_s = at_1k(&report.decay.t20_s);
    let ranges = Draws::complete(&carpeted, 0)
        .expect("a plan")
        .report((0.3, 0.5));
    let range_s = at_1k(&ranges.decay.low_s)..=at_1k(&ranges.decay.high_s);
    println!(
        "walls fitted to {walls:.4}; with carpet T20 {t20_s:.2} s, range {range_s:.2?} s, measured 1.6 s; Sabine {:.2} s, Eyring {:.2} s",
        at_1k(&report.decay.sabine_s),
        at_1k(&report.decay.eyring_s)
    );
    assert!((t20_s / 1.6 - 1.0).abs() < 0.15, "{t20_s} s");
    assert!(range_s.contains(&1.6), "{range_s:?}");
}

/// Mean of T20 over the middle of the range.
fn middle_s(prepared: &Prepared) -> f64 {
    prepared
        .predict(0)
        .expect("a plan")
        .mid
        .t20_s
        .expect("it decays")
}

const LIVING_M: [f64; 3] = [5.2, 6.0, 2.55];

/// A lived-in room with the finishes given for floor, walls, front and ceiling.
fn living(floor: &str, walls: &str, front: &str, ceiling: &str) -> Prepared {
    let finishes = [
        ("left", walls),
        ("right", walls),
        ("front", front),
        ("back", walls),
        ("floor", floor),
        ("ceiling", ceiling),
    ];
    let furnishings = json!([
        { "kind": "sofa-fabric", "count": 1 }, { "kind": "armchair-fabric", "count": 2 },
        { "kind": "coffee-table", "count": 1 }, { "kind": "bookcase-filled", "count": 1 },
        { "kind": "sideboard", "count": 1 },
    ]);
    room(
        LIVING_M,
        finishes,
        &json!([even("soft", 0.85)]),
        &furnishings,
    )
}

/// Common practice, no source: untreated rooms that are lived in come to 0.45–0.65 s in the middle, thoroughly treated ones
/// to 0.2–0.3 s.
#[test]
fn usual_decays_of_homes_come_from_usual_furnishing() {
    let untreated = middle_s(&living(
        "carpet-thin",
        "plaster-on-brick",
        "curtain-medium",
        "board-on-studs",
    ));
    let treated = middle_s(&living(
        "carpet-with-underlay",
        "board-on-studs",
        "curtain-heavy",
        "soft",
    ));
    println!("untreated {untreated:.2} s, treated {treated:.2} s");
    assert!((0.45..=0.65).contains(&untreated), "{untreated}");
    assert!((0.2..=0.3).contains(&treated), "{treated}");
}

/// Common practice, no source: over a hard floor no single surface gains as much as the ceiling. Over a carpet, which
/// already takes what runs up and down, a bare wall may gain more: that is what the model adds to the rule.
#[test]
fn the_ceiling_is_the_largest_single_gain() {
    let covered = |surface: &str| {
        let pick = |own: &str, finish: &'static str| if own == surface { "soft" } else { finish };
        let finishes = [
            ("left", pick("left", "plaster-on-brick")),
            ("right", pick("right", "plaster-on-brick")),
            ("front", pick("front", "plaster-on-brick")),
            ("back", pick("back", "plaster-on-brick")),
            ("floor", "parquet-on-concrete"),
            ("ceiling", pick("ceiling", "plaster-on-brick")),
        ];
        let furnishings = json!([{ "kind": "sofa-fabric", "count": 1 }, { "kind": "armchair-fabric", "count": 2 }]);
        middle_s(&room(
            LIVING_M,
            finishes,
            &json!([even("soft", 0.85)]),
            &furnishings,
        ))
    };
    let ceiling = covered("ceiling");
    for wall in ["left", "right", "front", "back"] {
        println!("{wall} {:.2} s, ceiling {ceiling:.2} s", covered(wall));
        assert!(ceiling < covered(wall), "{wall}");
    }
}

/// Common practice, no source.
#[test]
fn published_thin_carpets_take_about_0_15_at_1_khz() {
    let carpet = finish::finish("carpet-thin").expect("it is in the library");
    assert!((carpet.low[3]..=carpet.high[3]).contains(&0.15));
    assert!(
        (carpet.typical[3] - 0.15).abs() <= 0.05 + 1e-9,
        "{:?}",
        carpet.typical
    );
}
