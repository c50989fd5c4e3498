//! Surfaces with a kind that somebody chose: no other covers them, and where it may not be a rule says so.

use seatward::advice::{Adviser, Found, Rule, SurfaceAdvice, Task};
use seatward::geometry::Surface;
use seatward::scenario;
use seatward::simulate::Prepared;
use serde_json::{Value, json};

use crate::rooms::kit;
use crate::stories::story;

/// Every surface with a kind; without one with what does most on each.
fn covered(adviser: &mut Adviser, kit: Option<&str>) -> [SurfaceAdvice; 6] {
    assert!(adviser.cover_with(kit), "{kit:?}");
    Surface::ALL.map(|surface| {
        let work = adviser.start(Task::Surface(surface)).expect("a task");
        match work.run(adviser) {
            Found::Surface { surface } => surface,
            other => panic!("{other:?}"),
        }
    })
}

/// Every surface of a document with a kind.
fn with(prepared: &Prepared, kit: Option<&str>) -> [SurfaceAdvice; 6] {
    let mut adviser = Adviser::new(prepared.clone(), 0).expect("a plan");
    covered(&mut adviser, kit)
}

/// A room of 4 by 5 by 2.5 m with a window in its back wall.
fn document(limits: &Value, kit: &Value, pieces: &Value) -> Prepared {
    let wall = json!({"finish": "plaster-on-brick"});
    let window = json!({"finish": "plaster-on-brick", "parts": [{"role": "window", "finish": "plaster-on-brick", "u_m": 1.0,
        "v_m": 0.9, "width_m": 1.6, "height_m": 1.2}]});
    let text = json!({
        "format": 1, "title": "Chosen",
        "room": {"width_m": 4.0, "length_m": 5.0, "height_m": 2.5, "surfaces": {
            "left": wall, "right": wall, "front": wall, "back": window, "floor": wall, "ceiling": wall}},
        "listening": {"loudspeakers": [{"x_m": 1.2, "y_m": 0.6, "z_m": 1.0}, {"x_m": 2.9, "y_m": 0.6, "z_m": 1.0}],
            "seat": {"x_m": 2.0, "y_m": 3.2, "z_m": 1.1}},
        "limits": limits, "kit": kit, "plans": [{"name": "Now", "pieces": pieces}],
    });
    let read = scenario::from_json(&text.to_string());
    Prepared::new(read.unwrap_or_else(|error| panic!("{error}")))
}

#[test]
fn a_chosen_kind_covers_every_surface_that_it_may_be_on_as_if_the_kit_had_no_other() {
    let prepared = story("long-terrace-room");
    let kinds = &prepared.scenario().kit;
    let best = with(&prepared, None);
    let (mut rows, mut others) = (0, 0);
    for kind in kinds.iter().filter(|kind| kind.stands.is_none()) {
        let chosen = with(&prepared, Some(&kind.id));
        let mut alone = prepared.scenario().clone();
        let is_there = |id: &str| alone.plans[0].pieces.iter().any(|piece| piece.kit == id);
        assert!(!kinds.iter().any(|kind| is_there(&kind.id)), "a bare plan");
        alone.plans.truncate(1);
        alone.kit.retain(|one| one.id == kind.id);
        let alone = with(&Prepared::new(alone), None);
        for ((of_kind, alone), best) in chosen.iter().zip(&alone).zip(&best) {
            assert_eq!(of_kind, alone, "{}", kind.id);
            assert_eq!(of_kind.covers.is_empty(), of_kind.kit.is_none());
            assert!(of_kind.covers.is_empty() || of_kind.kit.as_ref() == Some(&kind.id));
            assert!(of_kind.fitting.iter().all(|piece| piece.kit == kind.id));
            rows += usize::from(!of_kind.covers.is_empty());
            others += usize::from(of_kind.kit.is_some() && of_kind.kit != best.kit);
        }
    }
    println!("{rows} rows, {others} of them with another kind than the best");
    assert!(rows > 4 && others > 0, "{rows}, {others}");
}

#[test]
fn the_rule_is_that_of_the_chosen_kind() {
    let prepared = document(
        &json!({"max_depth_m": 0.06, "bare": ["front"]}),
        &kit(),
        &json!([]),
    );
    let rules = |kit: &str| with(&prepared, Some(kit)).map(|one| one.rule);
    let (depth, bare, elsewhere) = (Some(Rule::Depth), Some(Rule::Bare), Some(Rule::Elsewhere));
    // Thin fits everywhere but the bare wall, so that the table without a choice names no rule for most of them.
    assert_eq!(rules("thin"), [None, None, bare, None, elsewhere, None]);
    assert_eq!(
        rules("thick"),
        [depth, depth, depth, depth, elsewhere, depth]
    );
    let on_floor = [elsewhere, elsewhere, elsewhere, elsewhere, None, elsewhere];
    assert_eq!(rules("rug"), on_floor);
    assert_eq!(rules("screen")[0], elsewhere);
    let best = with(&prepared, None).map(|one| (one.kit, one.rule));
    assert_eq!(best[0], (Some("thin".to_owned()), None));
    assert_eq!(best[4], (Some("rug".to_owned()), None));
}

/// A curtain is meant for windows; where it hangs already, another one is in the way of the next.
#[test]
fn a_curtain_belongs_to_windows_and_hangs_there_once() {
    let kit = kit();
    let bare = document(&json!({}), &kit, &json!([]));
    let elsewhere = Some(Rule::Elsewhere);
    let hung = with(&bare, Some("curtain"));
    let rules = hung.each_ref().map(|one| one.rule);
    assert_eq!(
        rules,
        [elsewhere, elsewhere, elsewhere, None, elsewhere, elsewhere]
    );
    let there = json!(hung[3].fitting);
    let again = with(&document(&json!({}), &kit, &there), Some("curtain"));
    assert_eq!(again[0].rule, elsewhere);
    assert_eq!(again[3].rule, Some(Rule::Piece));
}

/// What is owned is offered to no plan, and can be chosen for a surface all the same.
#[test]
fn what_costs_nothing_can_be_chosen() {
    let mut kit = kit();
    kit[1]["price"] = json!(0);
    let prepared = document(&json!({}), &kit, &json!([]));
    let mut adviser = Adviser::new(prepared, 0).expect("a plan");
    let before = covered(&mut adviser, None);
    assert!(before.iter().all(|one| one.kit.as_deref() != Some("thick")));
    let chosen = covered(&mut adviser, Some("thick"));
    assert_eq!(chosen[0].kit.as_deref(), Some("thick"));
    assert!(chosen[0].covers.iter().all(|cover| cover.price == 0.0));
    assert!(!adviser.cover_with(Some("none-such")), "there is none");
    assert_eq!(covered(&mut adviser, None), before);
}

#[test]
fn kinds_that_stand_in_can_be_chosen() {
    let prepared = document(&json!({}), &json!([]), &json!([]));
    let mut adviser = Adviser::new(prepared, 0).expect("a plan");
    let ids: Vec<&str> = adviser
        .stand_ins
        .iter()
        .map(|kind| kind.id.as_str())
        .collect();
    for id in ["thick", "thick-gap", "curtain-heavy", "rug", "screen"] {
        assert!(ids.contains(&id), "{ids:?}");
    }
    let chosen = covered(&mut adviser, Some("thick-gap"));
    assert_eq!(chosen[0].kit.as_deref(), Some("thick-gap"));
    assert!(chosen[0].covers.len() == 4 && chosen[0].rule.is_none());
}
