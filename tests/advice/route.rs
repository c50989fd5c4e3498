//! A way to walk stays: from a door to the seat, however many pieces narrow it; one that was not there is nobody's to close.

use seatward::advice::{Adviser, Found, Rule, Table, Task, refused_pieces};
use seatward::geometry::Surface;
use seatward::scenario::document::Place;
use seatward::scenario::from_json;
use seatward::simulate::Prepared;
use serde_json::{Value, json};

/// A room with its door behind a sideboard that goes from the left wall to `x_m`, and the seat before it; the way is what the
/// sideboard leaves, beside the right wall.
fn prepared(x_m: f64, pieces: &Value) -> Prepared {
    let plain = || json!({"finish": "plaster-on-brick"});
    let kind = |id: &str, size: (f64, f64), depth_mm: f64, stands: Option<&str>| {
        let mut kind = json!({"id": id, "name": id, "width_m": size.0, "height_m": size.1, "price": 10.0, "depth_mm": depth_mm,
            "absorber": {"bands_hz": [125, 250, 500, 1000, 2000, 4000], "absorption": [0.3, 0.6, 0.9, 1.0, 1.0, 1.0]}});
        if let Some(stands) = stands {
            kind["stands"] = json!(stands);
        }
        kind
    };
    let document = json!({
        "format": 1, "title": "Behind a sideboard",
        "room": {"width_m": 4.0, "length_m": 5.0, "height_m": 2.6, "surfaces": {"left": plain(), "right": plain(), "front": plain(),
            "back": {"finish": "plaster-on-brick", "parts": [{"role": "door", "finish": "wooden-door", "u_m": 2.8, "v_m": 0,
                "width_m": 0.9, "height_m": 2.0}]},
            "floor": {"finish": "carpet-heavy"}, "ceiling": {"finish": "board-on-studs"}},
            "furnishings": [{"kind": "sideboard", "count": 1,
                "at": {"x_m": 0, "y_m": 3.0, "width_m": x_m, "depth_m": 0.5, "height_m": 0.8}}]},
        "listening": {"loudspeakers": [{"x_m": 1.2, "y_m": 0.6, "z_m": 1.0}, {"x_m": 2.8, "y_m": 0.6, "z_m": 1.0}],
            "seat": {"x_m": 2.0, "y_m": 2.2, "z_m": 1.1}},
        "kit": [kind("screen", (0.7, 1.6), 100.0, Some("stand")), kind("deep", (0.6, 0.5), 200.0, None),
            kind("slim", (0.6, 0.5), 100.0, None)],
        "plans": [{"name": "Now", "pieces": pieces}],
    });
    let scenario = from_json(&document.to_string());
    Prepared::new(scenario.unwrap_or_else(|error| panic!("{error}")))
}

fn refused(x_m: f64, pieces: &Value) -> Vec<Option<Rule>> {
    refused_pieces(&prepared(x_m, pieces), 0)
}

fn screen(x_m: f64) -> Value {
    json!({"kit": "screen", "place": "stand", "x_m": x_m, "y_m": 3.25, "z_m": 0.05, "turn_deg": 0})
}

fn panel(kit: &str, v_m: f64) -> Value {
    json!({"kit": kit, "surface": "right", "u_m": 2.95, "v_m": v_m, "turned": false})
}

#[test]
fn a_screen_may_narrow_a_way_but_not_close_it() {
    // 1.8 m are left: 0.55 m on both sides of it, or 1.1 m on one.
    assert_eq!(refused(2.2, &json!([screen(3.1)])), [Some(Rule::Route)]);
    assert_eq!(refused(2.2, &json!([screen(3.65)])), [None]);
    // 0.8 m are none.
    assert_eq!(refused(3.2, &json!([screen(3.65)])), [None]);
}

#[test]
fn two_that_may_each_be_there_alone_do_not_close_a_way_together() {
    for x_m in [2.55, 3.65] {
        assert_eq!(refused(2.2, &json!([screen(x_m)])), [None]);
    }
    let both = json!([screen(2.55), screen(3.65)]);
    assert_eq!(refused(2.2, &both), [Some(Rule::Route); 2]);
    let table = Table::of(&prepared(2.2, &json!([screen(2.55)])), 0).expect("a plan");
    for new in table.there..table.candidates.len() {
        assert!(
            table.leaves_ways(&[0, new]),
            "{:?}",
            table.candidates[new].piece
        );
    }
    assert!(
        table
            .refusals
            .iter()
            .any(|one| one.rule == Rule::Route && one.kit == "screen")
    );
}

#[test]
fn what_is_slim_or_hangs_above_heads_takes_nothing_of_a_way() {
    // 1.0 m are left.
    assert_eq!(
        refused(3.0, &json!([panel("deep", 1.0)])),
        [Some(Rule::Route)]
    );
    assert_eq!(refused(3.0, &json!([panel("deep", 2.04)])), [None]);
    assert_eq!(refused(3.0, &json!([panel("slim", 1.0)])), [None]);
    assert_eq!(refused(2.8, &json!([panel("deep", 1.0)])), [None]);
}

#[test]
fn a_surface_is_not_covered_until_a_way_is_closed() {
    let mut adviser = Adviser::new(prepared(3.0, &json!([])), 0).expect("a plan");
    assert!(adviser.cover_with(Some("deep")));
    let work = adviser
        .start(Task::Surface(Surface::Right))
        .expect("a task");
    let Found::Surface { surface } = work.run(&mut adviser) else {
        panic!("no surface");
    };
    assert!(surface.fitting.len() > 3, "{}", surface.fitting.len());
    let pieces = serde_json::to_value(&surface.fitting).expect("pieces");
    let rules = refused(3.0, &pieces);
    assert!(rules.iter().all(Option::is_none), "{rules:?}");
}

/// A cupboard from the left wall to 1.2 m from the right one, between the only door and the seat: the way is where the screen before
/// the right wall's bounce mark would stand, 0.3 m from the wall.
fn behind_a_cupboard(pieces: &Value) -> Prepared {
    let mut document: Value =
        serde_json::to_value(prepared(2.8, pieces).scenario()).expect("a document");
    document["room"]["furnishings"][0]["at"] =
        json!({"x_m": 0, "y_m": 1.2, "width_m": 2.8, "depth_m": 0.4, "height_m": 0.8});
    // Away from the door.
    document["listening"]["loudspeakers"][0]["x_m"] = json!(1.4);
    document["listening"]["loudspeakers"][1]["x_m"] = json!(2.6);
    document["room"]["surfaces"]["back"] = json!({"finish": "plaster-on-brick"});
    document["room"]["surfaces"]["front"] = json!({"finish": "plaster-on-brick", "parts": [{"role": "door", "finish": "wooden-door",
        "u_m": 3.0, "v_m": 0, "width_m": 0.9, "height_m": 2.0}]});
    document["kit"]
        .as_array_mut()
        .expect("kinds")
        .retain(|kind| kind["id"] == "screen");
    let scenario = from_json(&document.to_string());
    Prepared::new(scenario.unwrap_or_else(|error| panic!("{error}")))
}

#[test]
fn a_screen_that_would_close_a_way_stands_beside_its_place_where_that_leaves_it() {
    let narrow = |x_m: f64| json!([{"kit": "screen", "place": "stand", "x_m": x_m, "y_m": 1.4, "z_m": 0.05, "turn_deg": -90}]);
    let rule = |x_m: f64| refused_pieces(&behind_a_cupboard(&narrow(x_m)), 0)[0];
    assert_eq!((rule(3.7), rule(3.8)), (Some(Rule::Route), None));
    let table = Table::of(&behind_a_cupboard(&json!([])), 0).expect("a plan");
    let x_m = |one: &seatward::advice::Candidate| match one.piece.place {
        Place::Stand { x_m, y_m, .. } if (1.0..1.8).contains(&y_m) => Some(x_m),
        _ => None,
    };
    let beside: Vec<f64> = table.candidates.iter().filter_map(x_m).collect();
    assert!(
        beside.iter().any(|x_m| (3.75..3.9).contains(x_m)),
        "{beside:?}"
    );
    let moved = |one: &&seatward::advice::Refusal| {
        one.rule == Rule::Route && one.surface == Surface::Right && one.loudspeaker.is_some()
    };
    let told: Vec<bool> = table
        .refusals
        .iter()
        .filter(moved)
        .map(|one| one.moved)
        .collect();
    assert!(
        !told.is_empty() && told.iter().all(|moved| *moved),
        "{told:?}"
    );
}

#[test]
fn beside_a_screen_that_is_there_another_stands_where_both_leave_the_way() {
    // What is there leaves 1.1 m of the way behind the sideboard; a second one at the mark of the back wall would close it.
    let there = json!([screen(2.55)]);
    let prepared = prepared(2.2, &there);
    let table = Table::of(&prepared, 0).expect("a plan");
    for new in table.there..table.candidates.len() {
        let both = json!([
            screen(2.55),
            serde_json::to_value(&table.candidates[new].piece).expect("a piece")
        ]);
        assert!(refused(2.2, &both).iter().all(Option::is_none), "{both}");
    }
    assert!(table.candidates.len() > table.there);
}
