//! The documents that are timed.

use seatward::scenario;
use seatward::scenario::document::{Kind, Stands};
use seatward::shelf;
use serde_json::{Value, json};

/// Kinds that a document holds at most.
const MOST_KINDS: usize = 40;

/// A demo room as it is in `scenarios/`.
pub fn demo(name: &str) -> Value {
    let path = format!("{}/scenarios/{name}.json", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(path).expect("the demo scenario is there");
    serde_json::from_str(&text).expect("it is JSON")
}

/// The long terrace room with rows of panels in plan A until there are 40 pieces; the last can move along the room.
pub fn terrace_with_forty_pieces() -> Value {
    let mut document = demo("long-terrace-room");
    let pieces: Vec<Value> = (0..40)
        .map(|i| json!({"kit": "thick", "surface": "ceiling", "u_m": 0.62 * f64::from(i % 5), "v_m": 1.0 * f64::from(i / 5), "turned": false}))
        .collect();
    for kind in document["kit"].as_array_mut().expect("a kit") {
        kind["height_m"] = 0.95.into();
    }
    document["plans"][1]["pieces"] = pieces.into();
    document["room"]["keep_clear"] = json!([]);
    document
}

/// The long terrace room with a piece of every kind of the shelf in plan A, each at the first place that is free, and one more
/// that can move along the room; the kit is filled up with kinds of its own to the most that a document holds.
pub fn terrace_with_every_kind() -> Value {
    let mut document = demo("long-terrace-room");
    document["room"]["furnishings"] = json!([{ "kind": "sofa-fabric", "count": 1 }]);
    document["limits"] = json!({});
    document["assumed"] = json!([]);
    let shelf = shelf::kinds();
    document["kit"] = serde_json::to_value(&shelf).expect("kinds can be written");
    for number in shelf.len()..MOST_KINDS {
        let mut own = document["kit"][number - shelf.len()].clone();
        own["id"] = format!("own-{number}").into();
        own["name"] = format!("Own kind {number}").into();
        document["kit"].as_array_mut().expect("a kit").push(own);
    }
    let moving = json!({"kit": "own-39", "place": "surface", "surface": "ceiling", "u_m": 2.5, "v_m": 7.0, "turned": false});
    document["plans"][1]["pieces"] = json!([moving]);
    for kind in &shelf {
        place(&mut document, kind);
    }
    document
}

/// Hangs or stands a piece of the kind at the first place where nothing is in its way.
fn place(document: &mut Value, kind: &Kind) {
    let free = candidates(kind).find_map(|candidate| {
        let mut with = document.clone();
        let pieces = with["plans"][1]["pieces"].as_array_mut().expect("pieces");
        pieces.insert(0, candidate);
        scenario::from_json(&with.to_string())
            .is_ok()
            .then_some(with)
    });
    *document = free.unwrap_or_else(|| panic!("no place for {}", kind.id));
}

/// Places that a kind could take, a grid of them.
fn candidates(kind: &Kind) -> Box<dyn Iterator<Item = Value>> {
    let kit = kind.id.clone();
    let on = move |surfaces: &'static [&'static str]| {
        let spots =
            (0..40).flat_map(|u| (0..8).map(move |v| (0.2 * f64::from(u), 0.3 * f64::from(v))));
        let spots = surfaces
            .iter()
            .flat_map(move |surface| spots.clone().map(move |spot| (*surface, spot)));
        spots.map(|(surface, (u_m, v_m))| json!({"surface": surface, "u_m": u_m, "v_m": v_m}))
    };
    let more: Value = match kind.stands.unwrap_or(Stands::Surface) {
        Stands::Surface | Stands::Floor => json!({"place": "surface", "turned": false}),
        Stands::Curtain => json!({"place": "curtain", "open": 0.0}),
        Stands::Corner => json!({"place": "corner"}),
        Stands::Stand => json!({"place": "stand", "z_m": 0.0, "turn_deg": 90.0}),
    };
    let spots: Box<dyn Iterator<Item = Value>> = match kind.stands.unwrap_or(Stands::Surface) {
        Stands::Surface => Box::new(on(&["left", "right", "back", "front", "ceiling"])),
        Stands::Curtain => Box::new(on(&["front", "left", "right", "back"])),
        Stands::Floor => Box::new(on(&["floor"])),
        Stands::Corner => {
            let edges = ["front-left", "front-right", "back-left", "back-right"];
            let heights = (0..8).map(|step| 0.3 * f64::from(step));
            Box::new(
                heights.flat_map(move |z_m| edges.map(|edge| json!({"edge": edge, "z_m": z_m}))),
            )
        }
        Stands::Stand => {
            Box::new((5..75).map(|step| json!({"x_m": 1.6, "y_m": 0.1 * f64::from(step)})))
        }
    };
    Box::new(spots.map(move |spot| {
        let mut piece = json!({ "kit": kit });
        for (key, value) in spot
            .as_object()
            .into_iter()
            .chain(more.as_object())
            .flatten()
        {
            piece[key] = value.clone();
        }
        piece
    }))
}

/// The last piece of plan A somewhere else in each step.
pub fn with_piece_moved(case: &Value, step: usize) -> Value {
    let mut moved = case.clone();
    let pieces = moved["plans"][1]["pieces"].as_array_mut().expect("pieces");
    pieces.last_mut().expect("a piece")["v_m"] = json!(7.0 + 0.0004 * step as f64);
    moved
}

/// The seat somewhere else in each step.
pub fn with_seat_moved(case: &Value, step: usize) -> Value {
    let mut moved = case.clone();
    moved["listening"]["seat"]["x_m"] = json!(1.5 + 0.0007 * step as f64);
    moved
}

/// Nobody listens.
pub fn without_seat(case: &Value) -> Value {
    let mut without = case.clone();
    without["listening"] = json!({ "loudspeakers": [] });
    without
}

/// The concrete loft, measured as it is.
pub fn measured_loft() -> Value {
    let mut loft = demo("concrete-loft");
    loft["measured"] = json!([
        { "plan": "Now", "bands_hz": [250, 500, 1000, 2000, 4000], "decay_s": [1.5, 1.6, 1.4, 1.2, 1.0] }
    ]);
    loft
}
