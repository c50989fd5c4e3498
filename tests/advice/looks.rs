//! Only what looks like a picture, or like furniture: what else there is is refused by name, and what is there stays.

use seatward::advice::{Adviser, Found, Rule, Task, refused_pieces};
use seatward::geometry::Surface;
use seatward::scenario::document::{Place, Stands};
use seatward::scenario::from_json;
use seatward::simulate::Prepared;
use serde_json::{Value, json};

use crate::rooms::kit;

/// Of its kinds the thin one is printed and the screen a piece of furniture.
fn room(looks_like: &Value, kit: &Value, pieces: &Value) -> Prepared {
    let plain = || json!({"finish": "plaster-on-brick"});
    let document = json!({
        "format": 1, "title": "No panels",
        "room": {"width_m": 4.0, "length_m": 5.0, "height_m": 2.5, "surfaces": {"left": plain(), "right": plain(), "front": plain(),
            "back": plain(), "floor": plain(), "ceiling": plain()}},
        "listening": {"loudspeakers": [{"x_m": 1.2, "y_m": 0.6, "z_m": 1.0}, {"x_m": 2.8, "y_m": 0.6, "z_m": 1.0}],
            "seat": {"x_m": 2.0, "y_m": 3.2, "z_m": 1.1}},
        "limits": {"budget": 400, "looks_like": looks_like}, "kit": kit,
        "plans": [{"name": "Now", "pieces": pieces}],
    });
    let scenario = from_json(&document.to_string());
    Prepared::new(scenario.unwrap_or_else(|error| panic!("{error}")))
}

fn best(prepared: Prepared) -> (Vec<String>, Vec<(String, Rule)>, Adviser) {
    let mut adviser = Adviser::new(prepared, 0).expect("a plan");
    let work = adviser.start(Task::Best).expect("a task");
    let Found::Best { plan, refusals, .. } = work.run(&mut adviser) else {
        panic!("no plan");
    };
    let mut kinds: Vec<String> = plan.pieces.into_iter().map(|piece| piece.kit).collect();
    kinds.sort();
    kinds.dedup();
    let refused = refusals.into_iter().map(|one| (one.kit, one.rule));
    (kinds, refused.collect(), adviser)
}

#[test]
fn a_plan_holds_only_what_looks_as_the_home_allows_and_the_rest_is_refused_by_name() {
    for (looks_like, allowed) in [
        (json!(["picture"]), &["thin"][..]),
        (json!(["furniture"]), &["curtain", "rug", "screen"][..]),
        (
            json!(["picture", "furniture"]),
            &["curtain", "rug", "screen", "thin"][..],
        ),
    ] {
        let (kinds, refused, adviser) = best(room(&looks_like, &kit(), &json!([])));
        println!("{looks_like}: {kinds:?}");
        assert!(!kinds.is_empty() && kinds.iter().all(|kind| allowed.contains(&&**kind)));
        for kind in ["thin", "thick", "curtain", "corner", "screen", "rug"] {
            let by_looks = refused.contains(&(kind.to_owned(), Rule::Looks));
            assert_eq!(by_looks, !allowed.contains(&kind), "{looks_like}: {kind}");
        }
        assert!(
            adviser.tasks().contains(&Task::Unlimited),
            "what it costs is worked out"
        );
    }
}

#[test]
fn without_the_limit_a_plan_would_gain_more_and_says_so() {
    let mut adviser = best(room(&json!(["picture"]), &kit(), &json!([]))).2;
    let mut gained = |task| {
        let work = adviser.start(task).expect("a task");
        let (Found::Best { plan, .. } | Found::Unlimited { plan }) = work.run(&mut adviser) else {
            panic!("no plan");
        };
        let other = plan.pieces.iter().any(|piece| piece.kit != "thin");
        (plan.before.sum() - plan.after.sum(), other)
    };
    let (within, free) = (gained(Task::Best), gained(Task::Unlimited));
    assert!(
        free.0 > within.0 && free.1 && !within.1,
        "{within:?}, {free:?}"
    );
}

#[test]
fn a_piece_that_is_there_against_the_limit_is_named_and_not_taken_away() {
    let there =
        json!([{"kit": "thick", "surface": "left", "u_m": 1.0, "v_m": 0.6, "turned": false}]);
    let prepared = room(&json!(["picture"]), &kit(), &there);
    assert_eq!(refused_pieces(&prepared, 0), [Some(Rule::Looks)]);
    let (kinds, ..) = best(prepared);
    assert!(kinds.contains(&"thick".to_owned()), "{kinds:?}");
}

#[test]
fn a_kit_of_panels_alone_is_helped_out_by_the_shelf() {
    let mut panels = kit();
    panels
        .as_array_mut()
        .expect("kinds")
        .retain(|kind| kind["id"] == "thick");
    let (kinds, refused, adviser) = best(room(&json!(["picture"]), &panels, &json!([])));
    assert_eq!(kinds, ["printed"]);
    assert!(adviser.stand_ins.iter().any(|kind| kind.id == "printed"));
    assert!(refused.contains(&("thick".to_owned(), Rule::Looks)));
}

#[test]
fn what_looks_like_furniture_hangs_under_no_ceiling() {
    let mut shelf = kit();
    let kinds = shelf.as_array_mut().expect("kinds");
    kinds.retain(|kind| kind["id"] == "thick");
    let on_ceiling = |kit: &Value| {
        let places = seatward::advice::places(&room(&json!(["furniture"]), kit, &json!([])), 0);
        let all = places.spots.len();
        let is_there = |place: &Place| {
            matches!(
                place,
                Place::Surface {
                    surface: Surface::Ceiling,
                    ..
                }
            )
        };
        let above = places
            .spots
            .iter()
            .filter(|spot| is_there(&spot.piece.place));
        (all, above.count())
    };
    assert_eq!(on_ceiling(&shelf), (0, 0));
    shelf[0]["looks"] = json!("furniture");
    let (all, above) = on_ceiling(&shelf);
    assert!(all > 4 && above == 0, "{all}, {above}");
}

#[test]
fn every_curtain_and_rug_of_the_shelf_counts_as_furniture_and_most_else_as_a_panel() {
    let looks = |entry: &seatward::shelf::Entry| entry.kind.looks;
    let said: Vec<String> = seatward::shelf::entries()
        .iter()
        .filter(|entry| looks(entry).is_some())
        .map(|entry| format!("{} {:?}", entry.kind.id, entry.kind.looks.expect("a look")))
        .collect();
    assert_eq!(
        said,
        [
            "printed Picture",
            "screen Furniture",
            "shelf-filled Furniture"
        ]
    );
    let soft = [Some(Stands::Curtain), Some(Stands::Floor)];
    let entries = seatward::shelf::entries();
    let furnishing = entries
        .iter()
        .filter(|entry| soft.contains(&entry.kind.stands));
    assert_eq!(furnishing.count(), 5);
}
