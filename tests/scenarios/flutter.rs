//! Flutter between hard walls: in the corner room once all is taken out of it, and in none that is furnished.

use seatward::geometry::Surface;

use super::stories::{CORNER_ROOM, STORIES, prepared, story, text};

/// The speed of sound that the hand figures of the stories take, m/s.
const SPEED_M_PER_S: f64 = 343.2;

#[test]
fn the_corner_room_with_everything_removed_flutters_left_to_right_55_times_a_second() {
    let mut document: serde_json::Value = serde_json::from_str(&text(CORNER_ROOM)).expect("JSON");
    let room = document["room"].as_object_mut().expect("a room");
    room.remove("furnishings");
    for plan in document["plans"].as_array_mut().expect("plans") {
        plan["pieces"] = serde_json::json!([]);
    }
    let emptied = prepared(&document.to_string());
    let found = emptied.predict(0).expect("a plan").flutter;
    let sides = found
        .iter()
        .find(|one| one.surfaces == [Surface::Left, Surface::Right])
        .unwrap_or_else(|| panic!("{found:?}"));
    let by_hand = SPEED_M_PER_S / (2.0 * emptied.scenario().room.size_m().x);
    assert!((by_hand - 55.0).abs() < 0.5, "{by_hand}");
    assert!((sides.repeats_per_s - by_hand).abs() < 0.3, "{sides:?}");
}

#[test]
fn no_furnished_demo_room_flutters() {
    for name in STORIES {
        let prepared = story(name);
        for plan in 0..prepared.scenario().plans.len() {
            let found = prepared.predict(plan).expect("a plan").flutter;
            assert!(found.is_empty(), "{name}, plan {plan}: {found:?}");
        }
    }
}
