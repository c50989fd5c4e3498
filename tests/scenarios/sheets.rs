//! Pieces with the figures of a data sheet.

use seatward::simulate::Prepared;

use super::stories::{CORNER_ROOM, plan, prepared, text};

/// The corner room with one piece of own figures, most of it at 1 kHz.
fn with_sheet(most: f64) -> Prepared {
    let mut document: serde_json::Value = serde_json::from_str(&text(CORNER_ROOM)).expect("JSON");
    let kind = serde_json::json!({
        "id": "own-kind-1", "name": "Odd slab", "width_m": 0.6, "height_m": 0.6, "depth_mm": 50.0,
        "absorber": { "bands_hz": [125, 250, 500, 1000, 2000, 4000], "absorption": [0.2, 0.5, 0.9, most, 1.0, 0.9] }
    });
    let piece = serde_json::json!({"kit": "own-kind-1", "surface": "back", "u_m": 0.2, "v_m": 0.2});
    document["kit"].as_array_mut().expect("kit").push(kind);
    document["plans"] = serde_json::json!([
        {"name": "Now", "pieces": []}, {"name": "A", "pieces": [piece]}
    ]);
    prepared(&document.to_string())
}

#[test]
fn a_sheet_that_states_more_than_a_face_can_take_is_named_where_it_hangs() {
    let said = |prepared: &Prepared, name: &str| {
        let notes = plan(prepared, name).notes;
        notes
            .iter()
            .any(|note| note.starts_with("Odd slab states more than 1.2"))
    };
    let doubted = with_sheet(1.25);
    assert!(said(&doubted, "A"));
    assert!(!said(&doubted, "Now"), "it does not hang there");
    assert!(!said(&with_sheet(1.2), "A"), "1.2 is not above 1.2");
}
