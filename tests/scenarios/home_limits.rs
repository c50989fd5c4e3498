//! The plans of the six rooms stay within what their homes allow.

use seatward::geometry::{Rect, Surface, TOUCH_M};
use seatward::scenario::document::{HomeLimits, Piece, Place};
use seatward::scenario::{Scenario, piece_rect};

use crate::stories::{CORNER_ROOM, DEN, LOFT, STORIES, STUDY, TALL_ROOM, TERRACE, story};

fn is_wall(surface: Surface) -> bool {
    !matches!(surface, Surface::Floor | Surface::Ceiling)
}

/// Whether a piece needs no hole: it stands, hangs from a rod, or lies on the floor.
fn needs_no_hole(piece: &Piece) -> bool {
    match piece.place {
        Place::Stand { .. } | Place::Curtain { .. } => true,
        Place::Surface { surface, .. } => surface == Surface::Floor,
        Place::Corner { .. } => false,
    }
}

/// Whether a piece shows as treatment: curtains and rugs are of the home.
fn is_visible(piece: &Piece) -> bool {
    match piece.place {
        Place::Curtain { .. } => false,
        Place::Surface { surface, .. } => surface != Surface::Floor,
        Place::Stand { .. } | Place::Corner { .. } => true,
    }
}

fn is_within_heights(limits: &HomeLimits, rect: Rect) -> bool {
    limits
        .min_height_m
        .is_none_or(|least_m| rect.v_m > least_m - TOUCH_M)
        && limits
            .max_height_m
            .is_none_or(|most_m| rect.v_m + rect.height_m < most_m + TOUCH_M)
}

/// What a piece breaks.
fn broken(scenario: &Scenario, limits: &HomeLimits, piece: &Piece) -> Vec<String> {
    let mut found = Vec::new();
    if limits.no_drilling == Some(true) && !needs_no_hole(piece) {
        found.push(format!("{} needs holes", piece.kit));
    }
    if let Some((surface, rect)) = piece_rect(scenario, piece) {
        if limits.bare.contains(&surface) {
            found.push(format!("{} on the {surface:?}", piece.kit));
        }
        if is_wall(surface) && !is_within_heights(limits, rect) {
            found.push(format!("{} from {} m up", piece.kit, rect.v_m));
        }
    }
    found
}

#[test]
fn every_piece_keeps_to_the_limits_of_its_home() {
    for name in STORIES {
        let prepared = story(name);
        let scenario = prepared.scenario();
        let limits = scenario.limits.as_ref().expect("every story has limits");
        for plan in &scenario.plans {
            let broken: Vec<String> = plan
                .pieces
                .iter()
                .flat_map(|piece| broken(scenario, limits, piece))
                .collect();
            assert!(broken.is_empty(), "{name}, {}: {broken:?}", plan.name);
            let visible = plan.pieces.iter().filter(|piece| is_visible(piece)).count();
            let most = limits.max_visible.unwrap_or(u32::MAX) as usize;
            assert!(visible <= most, "{name}, {}: {visible}", plan.name);
        }
    }
}

#[test]
fn every_plan_stays_within_its_budget() {
    let budgets = [
        (CORNER_ROOM, 300.0),
        (TERRACE, 700.0),
        (LOFT, 3000.0),
        (STUDY, 150.0),
        (DEN, 450.0),
        (TALL_ROOM, 1500.0),
    ];
    for (name, budget) in budgets {
        let prepared = story(name);
        let limits = prepared.scenario().limits.as_ref();
        assert_eq!(
            limits.and_then(|limits| limits.budget),
            Some(budget),
            "{name}"
        );
        for number in 0..prepared.scenario().plans.len() {
            let plan = prepared.predict(number).expect("a plan of the document");
            assert!(
                plan.cost.known <= budget && plan.cost.unpriced == 0,
                "{name}, {}: {:?}",
                plan.name,
                plan.cost
            );
        }
    }
}

#[test]
fn the_plans_hold_as_much_as_their_stories_ask_for() {
    // Area of the pieces of some kinds in a plan, m².
    let asked: [(&str, &str, &[&str], f64); 11] = [
        (CORNER_ROOM, "Curtain and stands", &["screen"], 4.3),
        (CORNER_ROOM, "Curtain and stands", &["curtain"], 3.5),
        (TERRACE, "A", &["thick", "thick-gap"], 7.2),
        (LOFT, "Thirty-five panels", &["thick-gap"], 25.0),
        (LOFT, "Thirty-five panels", &["curtain"], 17.0),
        (LOFT, "Thirty-five panels", &["rug"], 10.0),
        (STUDY, "Now", &["foam"], 6.0),
        (STUDY, "Deep corners", &["corner"], 2.4),
        (DEN, "A", &["thick"], 4.3),
        (TALL_ROOM, "Curtains drawn", &["picture"], 4.3),
        (TALL_ROOM, "Curtains drawn", &["curtain"], 11.0),
    ];
    for (name, plan, kinds, area_m2) in asked {
        let prepared = story(name);
        let scenario = prepared.scenario();
        let plan = scenario.plans.iter().find(|of| of.name == plan);
        let pieces = &plan.expect("a plan of the document").pieces;
        let areas = pieces
            .iter()
            .filter(|piece| kinds.contains(&piece.kit.as_str()))
            .filter_map(|piece| scenario.kind(&piece.kit))
            .map(|kind| kind.width_m * kind.height_m);
        let ours: f64 = areas.sum();
        assert!((ours - area_m2).abs() < 0.5, "{name}, {kinds:?}: {ours} m²");
    }
}

#[test]
fn nothing_in_the_den_takes_more_than_two_inches_off_the_ceiling() {
    let prepared = story(DEN);
    for plan in &prepared.scenario().plans {
        for piece in &plan.pieces {
            if let Place::Surface {
                surface: Surface::Ceiling,
                ..
            } = piece.place
            {
                let facts = prepared.kit().iter().find(|facts| facts.id() == piece.kit);
                let depth_m = facts.expect("a kind of the document").depth_m;
                assert!(depth_m <= 2.0 * 0.0254, "{}: {depth_m} m", piece.kit);
            }
        }
    }
}
