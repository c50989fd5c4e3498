//! The demo scenarios and a surveyed living room, from document to report.

use seatward::geometry::Surface;
use seatward::report::PlanReport;
use seatward::scenario;
use seatward::simulate::Prepared;

fn text(name: &str) -> String {
    let path = format!("{}/scenarios/{name}.json", env!("CARGO_MANIFEST_DIR"));
    std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{path}: {error}"))
}

fn prepared(json: &str) -> Prepared {
    Prepared::new(scenario::from_json(json).unwrap_or_else(|error| panic!("{error}")))
}

fn mid_s(plan: &PlanReport) -> f64 {
    plan.mid.t20_s.expect("the room absorbs")
}

/// T20 at the band of that index, s.
fn t20_s(plan: &PlanReport, band: usize) -> f64 {
    plan.decay.t20_s.0[band]
}

#[test]
fn the_demo_scenarios_come_within_thirty_percent_of_the_hand_estimates() {
    // Hand estimates with generic handbook figures and Sabine's formula, ±30 %; invented rooms.
    let terrace = prepared(&text("long-terrace-room")).report();
    for (plan, band, estimate) in [(0, 13, 0.9), (1, 13, 0.5)] {
        let ours = t20_s(&terrace.plans[plan], band);
        assert!(
            (ours / estimate - 1.0).abs() < 0.30,
            "terrace, plan {plan}: {ours} against {estimate} s"
        );
    }
    let den = prepared(&text("basement-den")).report();
    for (plan, band, estimate) in [(0, 10, 0.85), (1, 10, 0.45), (0, 19, 0.36), (1, 19, 0.26)] {
        let ours = t20_s(&den.plans[plan], band);
        assert!(
            (ours / estimate - 1.0).abs() < 0.30,
            "den, plan {plan}, band {band}: {ours} against {estimate} s"
        );
    }
}

#[test]
fn the_demo_plans_stay_within_their_limits() {
    for (name, budget) in [("long-terrace-room", 700.0), ("basement-den", 450.0)] {
        let prepared = prepared(&text(name));
        let limits = prepared
            .scenario()
            .limits
            .as_ref()
            .expect("the demo has limits");
        assert_eq!(limits.budget, Some(budget), "{name}");
        for plan in prepared.report().plans {
            assert!(
                plan.cost.known <= budget && plan.cost.unpriced == 0,
                "{name}: {:?}",
                plan.cost
            );
        }
    }
}

#[test]
fn each_marked_wall_of_the_terrace_room_has_a_piece_under_its_first_bounce() {
    let report = prepared(&text("long-terrace-room")).report();
    for reflection in &report.plans[1].reflections {
        let side = [Surface::Left, Surface::Right].contains(&reflection.surfaces[0]);
        assert!(
            !side || !reflection.pieces.is_empty(),
            "{:?} of loudspeaker {}",
            reflection.surfaces,
            reflection.loudspeaker
        );
    }
}

#[test]
fn writing_and_reading_again_loses_nothing() {
    for name in ["long-terrace-room", "basement-den"] {
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
    let mid = mid_s(&prepared(&json).report().plans[0]);
    println!("furnished living room: {mid:.2} s");
    assert!((0.35..=0.7).contains(&mid), "{mid} s");
}
