//! The six demo rooms, from document to report: geometry, decays, limits, and what is difficult about each.
//!
//! Rooms and people are invented. What the figures are held against are hand estimates and exact geometry, stated in each
//! file; nothing here was measured.

mod catches;
mod decays;
mod flutter;
mod geometry;
mod home_limits;
mod sheets;
mod stories;

use seatward::scenario;

use stories::{STORIES, prepared, text};

#[test]
fn writing_and_reading_again_loses_nothing() {
    for name in STORIES {
        let read = scenario::from_json(&text(name)).unwrap_or_else(|error| panic!("{error}"));
        let written = serde_json::to_string(&read).expect("a scenario can be written");
        assert_eq!(
            scenario::from_json(&written).unwrap_or_else(|error| panic!("{error}")),
            read,
            "{name}"
        );
    }
}

#[test]
fn every_file_beside_the_page_is_one_of_the_stories() {
    let folder = format!("{}/scenarios", env!("CARGO_MANIFEST_DIR"));
    let entries = std::fs::read_dir(&folder).unwrap_or_else(|error| panic!("{folder}: {error}"));
    let mut names: Vec<String> = entries
        .map(|entry| entry.expect("a readable entry").file_name())
        .map(|name| name.to_string_lossy().trim_end_matches(".json").to_owned())
        .collect();
    names.sort();
    let mut stories = STORIES;
    stories.sort_unstable();
    assert_eq!(names, stories);
}

#[test]
fn a_furnished_living_room_lands_among_surveyed_ones() {
    // Surveys: Jackson & Leventhall 1972, 50 British living rooms, 0.69 s at 125 Hz falling to 0.40 s at 8 kHz; 16 rooms of
    // the BBC 0.35–0.45 s (both via Everest 2001). A furnished 5 × 4 × 2.5 m room must land in 0.35–0.7 s.
    let wall = r#"{"finish": "plaster-on-brick", "parts": []}"#;
    let json = format!(
        r#"{{"format": 1, "title": "Living room", "room": {{"width_m": 4.0, "length_m": 5.0, "height_m": 2.5, "surfaces": {{
        "left": {wall}, "right": {wall}, "back": {wall},
        "front": {{"finish": "plaster-on-brick", "parts": [
            {{"role": "window", "finish": "curtain-medium", "u_m": 1.0, "v_m": 0.3, "width_m": 2.0, "height_m": 1.9}}]}},
        "floor": {{"finish": "carpet-heavy"}}, "ceiling": {{"finish": "lath-and-plaster"}}}},
        "furnishings": [{{"kind": "sofa-fabric", "count": 1}}, {{"kind": "armchair-fabric", "count": 1}},
            {{"kind": "bookcase-filled", "count": 2}}, {{"kind": "coffee-table", "count": 1}}]}},
        "listening": {{"loudspeakers": []}}, "plans": [{{"name": "Now", "pieces": []}}]}}"#
    );
    let report = prepared(&json).predict(0).expect("there is a plan");
    let mid = report.mid.t20_s.expect("the room absorbs");
    println!("furnished living room: {mid:.2} s");
    assert!((0.35..=0.7).contains(&mid), "{mid} s");
}
