//! What the rules refuse, case by case: zones of walls before stands, feet one above the other, leaves of doors, limits.

use seatward::advice::{Rule, places, refused_pieces};
use seatward::geometry::Surface;
use seatward::scenario;
use seatward::scenario::document::Place;
use seatward::simulate::Prepared;
use serde_json::{Value, json};

/// A room of 4 by 5 by 2.5 m with a radiator low on the left wall, a sprinkler, and a door beside the front right corner.
fn room() -> Value {
    let wall = json!({"finish": "plaster-on-brick"});
    json!({
        "format": 1, "title": "Refused",
        "room": {"width_m": 4.0, "length_m": 5.0, "height_m": 2.5, "surfaces": {
            "left": wall, "right": {"finish": "plaster-on-brick", "parts": [
                {"role": "door", "finish": "wooden-door", "u_m": 0.1, "v_m": 0, "width_m": 0.8, "height_m": 2.0, "swing_m": 0.8}]},
            "front": wall, "back": wall, "floor": wall, "ceiling": wall},
            "keep_clear": [
                {"surface": "left", "u_m": 2.0, "v_m": 0.1, "width_m": 1.0, "height_m": 0.6, "margin_m": 0.5, "why": "radiator"},
                {"surface": "left", "u_m": 3.9, "v_m": 2.0, "width_m": 0.3, "height_m": 0.2, "margin_m": 0.3, "why": "vent"},
                {"surface": "ceiling", "u_m": 2.0, "v_m": 3.5, "width_m": 0.1, "height_m": 0.1, "margin_m": 0.6, "why": "sprinkler"}]},
        "listening": {"loudspeakers": []},
        "kit": [
            {"id": "deep", "name": "Deep", "width_m": 0.6, "height_m": 1.2, "depth_mm": 150, "absorber": {"bands_hz": [1000], "absorption": [0.5]}},
            {"id": "thin", "name": "Thin", "width_m": 0.6, "height_m": 0.4, "depth_mm": 50, "absorber": {"bands_hz": [1000], "absorption": [0.5]}},
            {"id": "tall", "name": "Tall", "width_m": 0.6, "height_m": 2.0, "depth_mm": 150, "absorber": {"bands_hz": [1000], "absorption": [0.5]}}],
        "plans": [{"name": "Now", "pieces": []}, {"name": "A", "pieces": []}],
    })
}

/// The rules against the pieces of a plan.
fn refused(mut document: Value, pieces: &[Value]) -> Vec<Option<Rule>> {
    document["plans"][1]["pieces"] = json!(pieces);
    let read = scenario::from_json(&document.to_string());
    refused_pieces(
        &Prepared::new(read.unwrap_or_else(|error| panic!("{error}"))),
        1,
    )
}

fn stand(kit: &str, x_m: f64, y_m: f64) -> Value {
    json!({"kit": kit, "place": "stand", "x_m": x_m, "y_m": y_m, "z_m": 0.05, "turn_deg": 90})
}

fn hung(kit: &str, surface: &str, u_m: f64, v_m: f64) -> Value {
    json!({"kit": kit, "surface": surface, "u_m": u_m, "v_m": v_m})
}

fn corner(kit: &str, edge: &str, z_m: f64) -> Value {
    json!({"kit": kit, "place": "corner", "edge": edge, "z_m": z_m})
}

#[test]
fn a_stand_keeps_the_margin_of_a_wall_zone_at_its_height() {
    let one = |piece: Value| refused(room(), &[piece])[0];
    assert_eq!(
        one(stand("deep", 0.3, 2.5)),
        Some(Rule::Zone),
        "before the radiator"
    );
    assert_eq!(one(stand("deep", 0.57, 2.5)), Some(Rule::Zone));
    assert_eq!(one(stand("deep", 0.575, 2.5)), None, "0.5 m before it");
    assert_eq!(one(stand("deep", 0.3, 1.2)), None, "beside its margin");
    assert_eq!(
        one(stand("deep", 0.3, 4.3)),
        None,
        "lower than the vent and its margin"
    );
    assert_eq!(
        one(stand("tall", 0.3, 4.3)),
        Some(Rule::Zone),
        "up to the vent"
    );
    assert_eq!(
        one(stand("deep", 2.0, 3.5)),
        None,
        "far below the sprinkler"
    );
    assert_eq!(
        one(stand("tall", 2.0, 3.5)),
        Some(Rule::Zone),
        "up to the sprinkler's margin"
    );
}

#[test]
fn what_stands_one_above_the_other_is_not_in_its_way() {
    let two = |low: Value, high: Value| refused(room(), &[low, high]);
    assert_eq!(
        two(
            corner("deep", "back-left", 0.0),
            corner("deep", "back-left", 1.2)
        ),
        [None, None]
    );
    assert_eq!(
        two(stand("thin", 0.4, 4.6), corner("deep", "back-left", 1.2)),
        [None, None]
    );
    let meets = two(stand("deep", 0.4, 4.6), corner("deep", "back-left", 1.2));
    assert_eq!(meets, [Some(Rule::Piece); 2]);
}

#[test]
fn a_corner_piece_keeps_out_of_the_swing_of_a_door_and_of_a_sprinklers_margin() {
    assert_eq!(
        refused(room(), &[corner("thin", "front-right", 2.1)]),
        [None],
        "above the leaf"
    );
    let mut document = room();
    document["room"]["surfaces"]["right"]["parts"][0]["u_m"] = json!(0.45);
    assert_eq!(
        refused(document.clone(), &[corner("deep", "front-right", 0.0)]),
        [None],
        "beside the leaf"
    );
    document["room"]["keep_clear"][2]["u_m"] = json!(0.5);
    document["room"]["keep_clear"][2]["v_m"] = json!(4.5);
    assert_eq!(
        refused(document.clone(), &[corner("thin", "back-left", 1.6)]),
        [Some(Rule::Zone)]
    );
    assert_eq!(
        refused(document, &[corner("thin", "back-left", 1.5)]),
        [None]
    );
}

#[test]
fn a_piece_deeper_than_the_gap_keeps_out_of_the_swing_of_a_door_in_the_next_wall() {
    let opens = |piece: &Value| {
        let mut document = room();
        document["plans"][1]["pieces"] = json!([piece]);
        scenario::from_json(&document.to_string()).is_ok()
    };
    assert!(
        !opens(&hung("deep", "front", 2.6, 0.5)),
        "0.15 m deep, 0.1 m from the leaf"
    );
    for free in [
        hung("thin", "front", 3.3, 0.5),
        hung("deep", "front", 2.5, 0.5),
    ] {
        assert!(opens(&free), "{free}");
        assert_eq!(refused(room(), &[free]), [None]);
    }
    let read = scenario::from_json(&room().to_string()).expect("a room");
    let spots = places(&Prepared::new(read), 1).spots;
    let on_front = spots.iter().filter(|spot| {
        matches!(
            spot.piece.place,
            Place::Surface {
                surface: Surface::Front,
                ..
            }
        )
    });
    assert!(on_front.clone().count() > 3);
    for spot in on_front {
        let piece = serde_json::to_value(&spot.piece).expect("a piece");
        assert!(opens(&piece), "{piece}");
    }
}

#[test]
fn the_ceiling_is_above_the_highest_fixing() {
    let limited = |most_m: f64| {
        let mut document = room();
        document["limits"] = json!({"max_height_m": most_m});
        refused(document, &[hung("thin", "ceiling", 0.2, 0.2)])[0]
    };
    assert_eq!(limited(2.0), Some(Rule::Highest));
    assert_eq!(limited(2.5), None);
    assert_eq!(
        refused(room(), &[hung("thin", "ceiling", 0.2, 0.2)]),
        [None]
    );
}
