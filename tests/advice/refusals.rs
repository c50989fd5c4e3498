//! Every refusal names the rule that is in the way, and what is not refused is found: bounce marks are among the places.

use seatward::advice::{Refusal, Rule, places, refused_pieces};
use seatward::geometry::Surface;
use seatward::scenario::Scenario;
use seatward::scenario::document::{Piece, Place};
use seatward::simulate::Prepared;
use serde_json::{Value, json};

use crate::rooms::{kit, room};

const ROOMS: u64 = 150;

/// Where the way from a loudspeaker over a wall to the seat meets the wall, by the mirror image of the loudspeaker, m.
fn mark(size_m: [f64; 3], from_m: [f64; 3], to_m: [f64; 3], surface: Surface) -> (f64, f64) {
    let axis = surface as usize / 2;
    let wall_m = if surface as usize % 2 == 1 {
        size_m[axis]
    } else {
        0.0
    };
    let mut image_m = from_m;
    image_m[axis] = 2.0 * wall_m - from_m[axis];
    let share = (wall_m - image_m[axis]) / (to_m[axis] - image_m[axis]);
    let at = |axis: usize| image_m[axis] + share * (to_m[axis] - image_m[axis]);
    match axis {
        0 => (at(1), at(2)),
        1 => (at(0), at(2)),
        _ => (at(0), at(1)),
    }
}

/// The first piece of a document's kinds that may lie centred on a bounce mark and is not among the places.
fn missing(prepared: &Prepared) -> (usize, Option<Piece>) {
    let scenario = prepared.scenario();
    let found = places(prepared, 0);
    let size = scenario.room.size_m();
    let seat = scenario.listening.seat.expect("a seat");
    let mut legal = 0;
    for surface in Surface::ALL
        .into_iter()
        .filter(|one| *one != Surface::Floor)
    {
        for loudspeaker in &scenario.listening.loudspeakers {
            let spot = loudspeaker.spot;
            let (u_m, v_m) = mark(
                size.into(),
                [spot.x_m, spot.y_m, spot.z_m],
                [seat.x_m, seat.y_m, seat.z_m],
                surface,
            );
            for kind in scenario.kit.iter().filter(|kind| kind.stands.is_none()) {
                for turned in [false, true] {
                    let rect = kind.rect(0.0, 0.0, turned);
                    let stored = |at_m: f64| (at_m * 1e4).round() / 1e4;
                    let piece = Piece {
                        kit: kind.id.clone(),
                        place: Place::Surface {
                            surface,
                            u_m: stored(u_m - rect.width_m / 2.0),
                            v_m: stored(v_m - rect.height_m / 2.0),
                            turned,
                        },
                    };
                    if refused(scenario, prepared, &piece).is_some() {
                        continue;
                    }
                    legal += 1;
                    if !found.spots.iter().any(|spot| near(&spot.piece, &piece)) {
                        return (legal, Some(piece));
                    }
                }
            }
        }
    }
    (legal, None)
}

fn refused(scenario: &Scenario, prepared: &Prepared, piece: &Piece) -> Option<Rule> {
    let mut with = scenario.clone();
    with.plans[0].pieces = vec![piece.clone()];
    refused_pieces(&Prepared::after(with, Some(prepared)), 0)[0]
}

/// The same place to 0.2 mm.
fn near(one: &Piece, other: &Piece) -> bool {
    let (
        Place::Surface {
            surface,
            u_m,
            v_m,
            turned,
        },
        Place::Surface {
            surface: on,
            u_m: u,
            v_m: v,
            turned: as_well,
        },
    ) = (&one.place, &other.place)
    else {
        return false;
    };
    one.kit == other.kit
        && surface == on
        && turned == as_well
        && (u_m - u).abs() < 2e-4
        && (v_m - v).abs() < 2e-4
}

#[test]
fn bounce_marks_are_always_among_the_places_unless_a_rule_refuses_them() {
    let mut legal = 0;
    let mut before: Option<Prepared> = None;
    for seed in 0..ROOMS {
        let mut scenario = room(seed, true);
        // Unlike on both sides, and low rooms with long walls, where rows are many.
        let long = &mut scenario.room;
        let more_m = 9.0 - long.length_m;
        long.length_m = 9.0;
        let seat = scenario.listening.seat.as_mut().expect("a seat");
        seat.x_m += 0.173;
        seat.y_m += more_m / 2.0;
        let prepared = Prepared::after(scenario, before.as_ref());
        let (count, missing) = missing(&prepared);
        assert!(missing.is_none(), "room {seed}: {missing:?}");
        legal += count;
        before = Some(prepared);
    }
    println!("{legal} legal places on bounce marks");
    assert!(legal > 1000, "{legal}");
}

fn document(right: &Value, limits: &Value) -> Prepared {
    let plain = || json!({"finish": "plaster-on-brick"});
    let text = json!({
        "format": 1, "title": "Refused",
        "room": {"width_m": 4.0, "length_m": 5.0, "height_m": 2.5, "surfaces": {"left": plain(), "right": right,
            "front": plain(), "back": plain(), "floor": plain(), "ceiling": plain()}},
        "listening": {"loudspeakers": []}, "limits": limits, "kit": kit(), "plans": [{"name": "Now", "pieces": []}],
    });
    Prepared::new(seatward::scenario::from_json(&text.to_string()).expect("a document"))
}

fn of(prepared: &Prepared, kit: &str, surface: Surface) -> Vec<Rule> {
    let refusals: Vec<Refusal> = places(prepared, 0).refusals;
    let mut of_kind = refusals;
    of_kind.retain(|one| one.kit == kit && one.surface == surface && one.loudspeaker.is_none());
    of_kind.into_iter().map(|one| one.rule).collect()
}

/// A limit of the height comes first among what stands against the wall, and refuses nothing here.
#[test]
fn a_wall_is_refused_by_what_is_in_the_way_rather_than_by_what_comes_first() {
    let opening = json!({"finish": "plaster-on-brick", "parts": [{"role": "opening", "finish": "open-archway", "u_m": 0.1, "v_m": 0,
        "width_m": 4.8, "height_m": 2.4}]});
    let prepared = document(&opening, &json!({"min_height_m": 0.05}));
    assert_eq!(of(&prepared, "thick", Surface::Right), [Rule::Opening]);
    assert!(of(&prepared, "thick", Surface::Left).is_empty());
}

#[test]
fn no_more_than_may_be_seen_is_said_as_such() {
    let plain = json!({"finish": "plaster-on-brick"});
    let prepared = document(&plain, &json!({"max_visible": 0}));
    let mut adviser = seatward::advice::Adviser::new(prepared, 0).expect("a plan");
    let work = adviser.start(seatward::advice::Task::Best).expect("a task");
    let seatward::advice::Found::Best { refusals, plan, .. } = work.run(&mut adviser) else {
        panic!("no plan");
    };
    let seen = |kit: &str| {
        refusals
            .iter()
            .any(|one| one.kit == kit && one.rule == Rule::Visible)
    };
    assert!(seen("thick") && seen("screen") && !seen("rug") && !seen("curtain"));
    assert!(
        plan.pieces
            .iter()
            .all(|piece| ["rug", "curtain"].contains(&&*piece.kit))
    );
    let work = adviser
        .start(seatward::advice::Task::Surface(Surface::Ceiling))
        .expect("a task");
    let seatward::advice::Found::Surface { surface } = work.run(&mut adviser) else {
        panic!("no surface");
    };
    assert_eq!(surface.rule, Some(Rule::Visible));
}
