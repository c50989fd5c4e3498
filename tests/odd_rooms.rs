//! Rooms that the model does not fit: what is said of them, and that their ranges are doubled on a scale of ratios.

use seatward::scenario::{self, goal_s};
use seatward::simulate::{Draws, Prepared};
use serde_json::{Value, json};

fn demo() -> Value {
    let path = format!("{}/scenarios/square-study.json", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(path).expect("the demo scenario is there");
    serde_json::from_str(&text).expect("it is JSON")
}

fn prepared(document: &Value) -> Prepared {
    Prepared::new(scenario::from_json(&document.to_string()).expect("it is valid"))
}

fn notes(document: &Value) -> Vec<String> {
    prepared(document).predict(0).expect("the first plan").notes
}

/// The middle decay, and how far the range goes below and above it as ratios, in logarithms.
fn middle_and_range(document: &Value) -> (f64, f64, f64) {
    let prepared = prepared(document);
    let draws = Draws::complete(&prepared, 0).expect("the first plan");
    let mid = draws.report(goal_s(prepared.scenario())).mid;
    let middle_s = mid.t20_s.expect("a middle");
    let ratio = |limit_s: Option<f64>| (limit_s.expect("a limit") / middle_s).ln();
    (middle_s, ratio(mid.low_s), ratio(mid.high_s))
}

#[test]
fn a_room_that_is_no_box_says_so_and_has_its_ranges_doubled() {
    let (middle_s, low, high) = middle_and_range(&demo());
    let mut odd = demo();
    odd["room"]["conditions"] = json!(["not-a-box"]);
    let (odd_middle_s, odd_low, odd_high) = middle_and_range(&odd);
    assert!((odd_middle_s - middle_s).abs() < 1e-12);
    // The middle is a mean over bands, so that doubling each band doubles it nearly, not exactly.
    for (narrow, wide) in [(low, odd_low), (high, odd_high)] {
        assert!((1.9..2.15).contains(&(wide / narrow)), "{narrow} {wide}");
    }
    assert!(
        notes(&odd)
            .iter()
            .any(|note| note.starts_with("The room is not close to a box. Ranges are doubled"))
    );
    assert!(!notes(&demo()).iter().any(|note| note.contains("doubled")));
}

#[test]
fn a_room_that_absorbs_more_than_any_that_is_lived_in_is_called_a_booth() {
    let mut booth = demo();
    let six = ["left", "right", "front", "back", "floor", "ceiling"];
    for surface in six {
        booth["room"]["surfaces"][surface] = json!({ "finish": "own" });
    }
    booth["own_finishes"] =
        json!([{ "id": "own", "name": "Own", "bands_hz": [1000], "absorption": [0.7] }]);
    booth["plans"] = json!([{ "name": "Now", "pieces": [] }]);
    booth.as_object_mut().expect("an object").remove("measured");
    assert!(notes(&booth).iter().any(|note| {
        note.starts_with("More like a recording booth than a room: check the surfaces.")
    }));
    let (_, low, high) = middle_and_range(&booth);
    booth["own_finishes"][0]["absorption"] = json!([0.55]);
    assert!(!notes(&booth).iter().any(|note| note.contains("booth")));
    let (_, plain_low, plain_high) = middle_and_range(&booth);
    assert!(
        high - low > 1.5 * (plain_high - plain_low),
        "{low} {high}, {plain_low} {plain_high}"
    );
}

#[test]
fn sides_and_volumes_beyond_those_tried_are_said_to_be() {
    let mut long = demo();
    long["plans"] = json!([{ "name": "Now", "pieces": [] }]);
    long["room"]["length_m"] = json!(15.5);
    assert!(
        notes(&long)
            .iter()
            .any(|note| note.contains("outside the range we trust, 1.8 to 15 m"))
    );
}
