//! No piece of advice lies where it may not: held against the document's own checks and against points inside of each piece,
//! by rules written down here once more.

use std::sync::Arc;

use seatward::advice::{Bounds, Rule, Scales, Search, Table};
use seatward::geometry::{Rect, Surface, TOUCH_M};
use seatward::scenario::document::{HomeLimits, Looks, Piece, Place, Role};
use seatward::scenario::{self, Scenario, piece_rect};
use seatward::simulate::Prepared;

use crate::rooms::room;
use crate::walker::{Walker, foot};

const ROOMS: u64 = 1000;

/// One room in so many is heard from a seat, which takes longer: its bounce marks are wanted too.
const HEARD_EVERY: u64 = 5;

/// And one in so many to the end of the search, which takes longer still.
const FINAL_EVERY: u64 = 4;

/// Points along each side of a piece that are looked at.
const POINTS: usize = 9;

fn points(rect: Rect) -> impl Iterator<Item = (f64, f64)> {
    let at = |i: usize, from_m: f64, length_m: f64| {
        let share = i as f64 / (POINTS - 1) as f64;
        from_m + TOUCH_M + share * (length_m - 2.0 * TOUCH_M)
    };
    (0..POINTS).flat_map(move |i| {
        (0..POINTS).map(move |j| {
            (
                at(i, rect.u_m, rect.width_m),
                at(j, rect.v_m, rect.height_m),
            )
        })
    })
}

/// Strictly inside, by more than rounding.
fn inside(rect: Rect, margin_m: f64, (u_m, v_m): (f64, f64)) -> bool {
    let deep_m = 2.0 * TOUCH_M - margin_m;
    u_m > rect.u_m + deep_m
        && u_m < rect.u_m + rect.width_m - deep_m
        && v_m > rect.v_m + deep_m
        && v_m < rect.v_m + rect.height_m - deep_m
}

pub fn depth_m(scenario: &Scenario, piece: &Piece) -> f64 {
    let kind = scenario.kind(&piece.kit).expect("a kind of the kit");
    kind.depth_mm.unwrap_or(0.0) / 1000.0
}

/// What a piece on a surface breaks.
fn broken_on(scenario: &Scenario, piece: &Piece, surface: Surface, rect: Rect) -> Option<String> {
    let is_curtain = matches!(piece.place, Place::Curtain { .. });
    let is_wall = (surface as usize) < 4;
    for point in points(rect) {
        for part in &scenario.surface(surface).parts {
            let margin_m = if part.role == Role::Window { 0.05 } else { 0.0 };
            let may = part.role == Role::Wall || (part.role == Role::Window && is_curtain);
            if !may && inside(part.rect, margin_m, point) {
                return Some(format!("covers {:?}", part.role));
            }
        }
        for zone in scenario
            .room
            .keep_clear
            .iter()
            .filter(|zone| zone.surface == surface)
        {
            if inside(zone.rect, zone.margin_m, point) {
                return Some("comes too near to a zone".to_owned());
            }
        }
        if is_wall && !is_curtain && behind_furniture(scenario, piece, surface, point) {
            return Some("hangs behind furniture".to_owned());
        }
        if is_wall && !is_curtain && before_a_leaf(scenario, piece, surface, point) {
            return Some("hangs in the swing of a door".to_owned());
        }
    }
    None
}

/// The point of the floor under what is farthest out of a piece at a point of a wall.
fn front_of(scenario: &Scenario, piece: &Piece, wall: Surface, u_m: f64) -> (f64, f64) {
    let room = &scenario.room;
    let out_m = depth_m(scenario, piece) - 1e-6;
    match wall {
        Surface::Left => (out_m, u_m),
        Surface::Right => (room.width_m - out_m, u_m),
        Surface::Front => (u_m, out_m),
        _ => (u_m, room.length_m - out_m),
    }
}

/// Whether a piece at a point of a wall would stand out into what the leaf of a door in another wall sweeps.
fn before_a_leaf(
    scenario: &Scenario,
    piece: &Piece,
    wall: Surface,
    (u_m, v_m): (f64, f64),
) -> bool {
    let point = front_of(scenario, piece, wall, u_m);
    let others = Surface::ALL.into_iter().take(4).filter(|&one| one != wall);
    others
        .flat_map(|one| {
            scenario
                .surface(one)
                .parts
                .iter()
                .map(move |part| (one, part))
        })
        .filter(|(_, part)| {
            part.role == Role::Door && v_m < part.rect.v_m + part.rect.height_m - 1e-4
        })
        .any(|(one, part)| {
            let Some(swing_m) = part.swing_m else {
                return false;
            };
            let swept = floor_before(scenario, one, part.rect, swing_m);
            inside(swept, 0.0, point)
        })
}

/// Whether a piece at a point of a wall would stand out into furniture.
fn behind_furniture(
    scenario: &Scenario,
    piece: &Piece,
    wall: Surface,
    (u_m, v_m): (f64, f64),
) -> bool {
    let (x_m, y_m) = front_of(scenario, piece, wall, u_m);
    let stands_there = |at: &seatward::scenario::document::Footprint| {
        x_m > at.x_m + 1e-4
            && x_m < at.x_m + at.width_m - 1e-4
            && y_m > at.y_m + 1e-4
            && y_m < at.y_m + at.depth_m - 1e-4
            && v_m < at.height_m - 1e-4
    };
    scenario
        .room
        .furnishings
        .iter()
        .filter_map(|item| item.at)
        .any(|at| stands_there(&at))
}

/// What a stand breaks.
fn broken_on_floor(scenario: &Scenario, x_m: f64, y_m: f64) -> Option<String> {
    let point = (x_m, y_m);
    for at in scenario.room.furnishings.iter().filter_map(|item| item.at) {
        let rect = Rect {
            u_m: at.x_m,
            v_m: at.y_m,
            width_m: at.width_m,
            height_m: at.depth_m,
        };
        if inside(rect, 0.0, point) {
            return Some("stands in furniture".to_owned());
        }
    }
    for zone in scenario
        .room
        .keep_clear
        .iter()
        .filter(|zone| zone.surface == Surface::Floor)
    {
        if inside(zone.rect, zone.margin_m, point) {
            return Some("stands in a zone".to_owned());
        }
    }
    doors(scenario)
        .find(|way| inside(*way, 0.0, point))
        .map(|_| "stands in a way".to_owned())
}

/// The floor before a rectangle of a wall, so far out.
pub fn floor_before(scenario: &Scenario, wall: Surface, rect: Rect, out_m: f64) -> Rect {
    let room = &scenario.room;
    let (from_m, along_m) = (rect.u_m, rect.width_m);
    let [u_m, v_m, width_m, height_m] = match wall {
        Surface::Left => [0.0, from_m, out_m, along_m],
        Surface::Right => [room.width_m - out_m, from_m, out_m, along_m],
        Surface::Front => [from_m, 0.0, along_m, out_m],
        _ => [from_m, room.length_m - out_m, along_m, out_m],
    };
    Rect {
        u_m,
        v_m,
        width_m,
        height_m,
    }
}

/// The floor before doors and openings.
pub fn doors(scenario: &Scenario) -> impl Iterator<Item = Rect> + '_ {
    Surface::ALL.into_iter().take(4).flat_map(move |wall| {
        let parts = scenario.surface(wall).parts.iter();
        let ways = parts
            .filter(|part| matches!(part.role, Role::Door | Role::Opening) && part.rect.v_m <= 0.1);
        ways.map(move |part| {
            let out_m = part.swing_m.map_or(0.9, |swing_m| swing_m + 0.1);
            floor_before(scenario, wall, part.rect, out_m)
        })
    })
}

/// What a piece breaks of the person's own limits.
fn broken_limit(scenario: &Scenario, limits: &HomeLimits, piece: &Piece) -> Option<&'static str> {
    let hangs = match piece.place {
        Place::Stand { .. } | Place::Curtain { .. } => false,
        Place::Surface { surface, .. } => surface != Surface::Floor,
        Place::Corner { .. } => true,
    };
    if limits.no_drilling == Some(true) && hangs {
        return Some("needs holes");
    }
    if !limits.looks_like.is_empty() {
        let is_cloth = ["curtain", "rug"].contains(&&*piece.kit);
        let kind = scenario.kind(&piece.kit).expect("a kind of the kit");
        let looks = kind.looks.or(is_cloth.then_some(Looks::Furniture));
        if !looks.is_some_and(|one| limits.looks_like.contains(&one)) {
            return Some("does not look like what is allowed");
        }
    }
    let is_stand = matches!(piece.place, Place::Stand { .. });
    if !is_stand
        && limits
            .max_depth_m
            .is_some_and(|most_m| depth_m(scenario, piece) > most_m + 1e-9)
    {
        return Some("is too deep");
    }
    let height_m = scenario.kind(&piece.kit).map_or(0.0, |kind| kind.height_m);
    let (walls, span) = match piece.place {
        Place::Corner { edge, z_m } => (
            edge.walls().map(|(wall, _)| wall).to_vec(),
            (z_m, z_m + height_m),
        ),
        _ => match piece_rect(scenario, piece) {
            Some((surface, rect)) => (vec![surface], (rect.v_m, rect.v_m + rect.height_m)),
            None => (Vec::new(), (0.0, 0.0)),
        },
    };
    if walls.iter().any(|wall| limits.bare.contains(wall)) {
        return Some("is on a bare surface");
    }
    let on_wall = walls.iter().any(|wall| (*wall as usize) < 4);
    let low = limits
        .min_height_m
        .is_some_and(|least_m| span.0 < least_m - TOUCH_M);
    let high = limits
        .max_height_m
        .is_some_and(|most_m| span.1 > most_m + TOUCH_M);
    (on_wall && (low || high)).then_some("is too low or too high")
}

pub fn broken(scenario: &Scenario, piece: &Piece) -> Option<String> {
    let limits = scenario
        .limits
        .as_ref()
        .expect("every random room has limits");
    if let Some(limit) = broken_limit(scenario, limits, piece) {
        return Some(limit.to_owned());
    }
    if let Place::Stand { x_m, y_m, .. } = piece.place {
        return broken_on_floor(scenario, x_m, y_m);
    }
    let (surface, rect) = piece_rect(scenario, piece)?;
    broken_on(scenario, piece, surface, rect)
}

/// The document with these pieces as its plan passes its own checks: nothing overlaps, nothing covers what must stay free.
fn assert_opens(scenario: &Scenario, pieces: Vec<Piece>, seed: u64) {
    let mut with = scenario.clone();
    with.plans[0].pieces = pieces;
    let text = serde_json::to_string(&with).expect("a scenario can be written");
    if let Err(error) = scenario::from_json(&text) {
        panic!("room {seed}: {error}");
    }
}

fn assert_plan_is_allowed(
    scenario: &Scenario,
    scales: &Scales,
    search: &Search,
    seed: u64,
) -> usize {
    let chosen = search
        .best()
        .chosen
        .iter()
        .map(|one| &scales.table.candidates[*one]);
    let limits = scenario.limits.as_ref().expect("limits");
    let price: f64 = chosen.clone().map(|one| one.price).sum();
    assert!(
        price <= limits.budget.expect("a budget") + 1e-9,
        "room {seed}: {price}"
    );
    let hides = |piece: &Piece| {
        matches!(
            piece.place,
            Place::Curtain { .. }
                | Place::Surface {
                    surface: Surface::Floor,
                    ..
                }
        )
    };
    let visible = chosen.clone().filter(|one| !hides(&one.piece)).count();
    assert!(
        visible <= limits.max_visible.unwrap_or(u32::MAX) as usize,
        "room {seed}: {visible} seen"
    );
    let pieces: Vec<Piece> = chosen.map(|one| one.piece.clone()).collect();
    let count = pieces.len();
    let feet: Vec<Rect> = pieces
        .iter()
        .filter_map(|one| foot(scenario, one))
        .collect();
    assert!(
        !Walker::new(scenario).is_closed_by(&feet),
        "room {seed}: the plan closes a way"
    );
    assert_opens(scenario, pieces, seed);
    count
}

#[test]
fn no_piece_of_advice_lies_where_it_may_not_in_a_thousand_random_rooms() {
    let mut before: Option<Prepared> = None;
    let (mut places, mut pieces, mut finals, mut closed) = (0, 0, 0, 0);
    for seed in 0..ROOMS {
        let scenario = room(seed, seed % HEARD_EVERY == 0);
        let prepared = Prepared::after(scenario, before.as_ref());
        let scenario = prepared.scenario();
        let table = Table::of(&prepared, 0).expect("a plan");
        let walker = Walker::new(scenario);
        let routes = |rule: Rule| usize::from(rule == Rule::Route);
        closed += table
            .refusals
            .iter()
            .map(|one| routes(one.rule))
            .sum::<usize>();
        for candidate in &table.candidates {
            let feet: Vec<Rect> = foot(scenario, &candidate.piece).into_iter().collect();
            let closes = walker.is_closed_by(&feet);
            assert!(!closes, "room {seed}: {:?} closes a way", candidate.piece);
            if let Some(what) = broken(scenario, &candidate.piece) {
                panic!("room {seed}: {:?} {what}", candidate.piece);
            }
            if matches!(
                candidate.piece.place,
                Place::Corner { .. } | Place::Stand { .. }
            ) {
                assert_opens(scenario, vec![candidate.piece.clone()], seed);
            }
        }
        places += table.candidates.len();
        let budget = table.objective.budget;
        let mut scales = Scales::new(Arc::new(table));
        let mut search = Search::new(
            &mut scales,
            Bounds {
                budget,
                ..Bounds::default()
            },
        );
        while !search.has_plan() {
            search.step(&mut scales);
        }
        pieces += assert_plan_is_allowed(scenario, &scales, &search, seed);
        if seed % FINAL_EVERY == 1 {
            search.run(&mut scales);
            finals += assert_plan_is_allowed(scenario, &scales, &search, seed);
        }
        before = Some(prepared);
    }
    println!(
        "{places} places, {pieces} pieces in plans, {finals} in final ones, {closed} ways kept"
    );
    assert!(
        places > 20_000 && pieces > 1000 && finals > 250 && closed > 10,
        "{places} places, {pieces} and {finals} pieces, {closed} ways"
    );
}
