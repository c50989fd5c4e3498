//! What is free must also be possible: nobody sits in furniture, in a doorway or in a piece.

use std::sync::Arc;

use seatward::advice::{Adviser, FIGURES, Found, FreeAdvice, Moved, Scales, Table, Task};
use seatward::geometry::Rect;
use seatward::scenario::document::{Footprint, Listening, Piece};
use seatward::scenario::from_json;
use seatward::simulate::Prepared;
use serde_json::{Value, json};

use crate::quality::STORIES;
use crate::stories::story;

/// Half the side of what a person in the seat takes of the floor, m.
const SEAT_M: f64 = 0.25;

fn free(prepared: &Prepared) -> FreeAdvice {
    let mut adviser = Adviser::new(prepared.clone(), 0).expect("a plan");
    let work = adviser.start(Task::Free).expect("a task");
    match work.run(&mut adviser) {
        Found::Free { free } => free,
        other => panic!("{other:?}"),
    }
}

fn footprint(at: Footprint) -> Rect {
    Rect {
        u_m: at.x_m,
        v_m: at.y_m,
        width_m: at.width_m,
        height_m: at.depth_m,
    }
}

fn seat_at(x_m: f64, y_m: f64) -> Rect {
    let point = Rect {
        u_m: x_m,
        v_m: y_m,
        width_m: 0.0,
        height_m: 0.0,
    };
    point.grown(SEAT_M)
}

#[test]
fn no_story_is_told_to_sit_in_its_furniture() {
    let mut moves = 0;
    for name in STORIES {
        let prepared = story(name);
        let scenario = prepared.scenario();
        let seat = scenario.listening.seat.expect("a seat");
        let found = free(&prepared);
        let told = found.moves.iter().filter(|one| one.what == Moved::Seat);
        let told = told.map(|one| one.back_m);
        let evenest = found.boom.iter().map(|boom| boom.seat_back_m);
        for back_m in told.chain(evenest).filter(|back_m| *back_m != 0.0) {
            moves += 1;
            println!("{name}: {back_m} m");
            for at in scenario.room.furnishings.iter().filter_map(|item| item.at) {
                let is_its_own = footprint(at).overlaps(seat_at(seat.x_m, seat.y_m));
                let is_in_it = footprint(at).overlaps(seat_at(seat.x_m, seat.y_m + back_m));
                assert!(is_its_own || !is_in_it, "{name}: {back_m} m into {at:?}");
            }
        }
    }
    assert!(moves > 3, "{moves}");
}

/// A plain room whose seat has something to gain farther on, with a change.
fn room(change: impl FnOnce(&mut Value)) -> Prepared {
    let plain = || json!({"finish": "plaster-on-brick"});
    let mut document = json!({
        "format": 1, "title": "Plain room",
        "room": {"width_m": 4.0, "length_m": 5.0, "height_m": 2.5, "surfaces": {"left": plain(), "right": plain(), "front": plain(),
            "back": plain(), "floor": {"finish": "carpet-heavy"}, "ceiling": {"finish": "board-on-studs"}}},
        "listening": {"loudspeakers": [{"x_m": 1.2, "y_m": 0.6, "z_m": 1.0}, {"x_m": 2.8, "y_m": 0.6, "z_m": 1.0}],
            "seat": {"x_m": 2.0, "y_m": 4.3, "z_m": 1.1}},
        "kit": crate::rooms::kit(), "plans": [{"name": "Now", "pieces": []}],
    });
    // Screens alone: what else there is to buy does not matter here.
    let kinds = document["kit"].as_array_mut().expect("a kit");
    kinds.retain(|kind| kind["id"] == "screen");
    change(&mut document);
    let scenario = from_json(&document.to_string());
    Prepared::new(scenario.unwrap_or_else(|error| panic!("{error}")))
}

/// How far forward and back the seat goes at most in what is told, m.
fn seat_back_m(prepared: &Prepared) -> f64 {
    let boom = free(prepared).boom.expect("a bass");
    boom.seat_back_m
}

#[test]
fn a_seat_goes_round_no_table_no_screen_and_no_doorway() {
    let open_m = seat_back_m(&room(|_| {}));
    assert!(open_m.abs() > 0.25, "{open_m}");
    // Something in the way that the seat does not touch now.
    let (from_m, screen_m) = if open_m > 0.0 {
        (4.65, 4.7)
    } else {
        (3.65, 3.9)
    };
    let with_table = room(|document| {
        document["room"]["furnishings"] = json!([{"kind": "dining-table", "count": 1,
            "at": {"x_m": 1.5, "y_m": from_m, "width_m": 1.0, "depth_m": 0.3, "height_m": 0.4}}]);
    });
    let with_screen = room(|document| {
        document["plans"][0]["pieces"] = json!([{"kit": "screen", "place": "stand", "x_m": 2.0, "y_m": screen_m, "z_m": 0.05, "turn_deg": 0}]);
    });
    let with_zone = room(|document| {
        document["room"]["keep_clear"] = json!([{"surface": "floor", "u_m": 1.5, "v_m": from_m, "width_m": 1.0, "height_m": 0.3,
            "margin_m": 0, "why": "route"}]);
    });
    for (what, prepared) in [
        ("table", with_table),
        ("screen", with_screen),
        ("way", with_zone),
    ] {
        let told_m = seat_back_m(&prepared);
        assert!(
            told_m >= -0.151,
            "{what}: {told_m} m as if nothing were there"
        );
    }
}

/// The document with pieces, heard as a move says.
fn moved(prepared: &Prepared, listening: Option<&Listening>, pieces: Option<&[Piece]>) -> Prepared {
    let mut scenario = prepared.scenario().clone();
    if let Some(to) = listening {
        scenario.listening = to.clone();
    }
    if let Some(pieces) = pieces {
        scenario.plans[0].pieces = pieces.to_vec();
    }
    Prepared::after(scenario, Some(prepared))
}

/// Steps of sound of what is there, and the bass at the seat, dB.
fn heard(prepared: &Prepared) -> (f64, f64) {
    let table = Table::there(prepared, 0).expect("a plan");
    let all = (0..table.there).collect();
    let mut scales = Scales::new(Arc::new(table));
    let boom = free(prepared).boom.expect("a bass");
    (scales.load(all).steps.sound(), boom.now_db)
}

#[test]
fn moves_count_what_they_do_to_the_bass_alone_and_beside_the_best_plan() {
    let mut of_loudspeakers = 0;
    let mut beside = 0;
    for name in ["square-study", "basement-den"] {
        let prepared = story(name);
        let mut adviser = Adviser::new(prepared.clone(), 0).expect("a plan");
        let work = adviser.start(Task::Best).expect("a task");
        let Found::Best { plan, .. } = work.run(&mut adviser) else {
            panic!("no plan");
        };
        let now = heard(&prepared);
        let treated = heard(&moved(&prepared, None, Some(&plan.pieces)));
        for one in free(&prepared).moves {
            let Some(to) = &one.listening else {
                assert_eq!((one.what, one.beside_best), (Moved::Pieces, None));
                continue;
            };
            let gained = |from: (f64, f64), to: (f64, f64)| {
                from.0 - to.0 + (from.1 - to.1) / FIGURES.bass_step_db
            };
            let there = heard(&moved(&prepared, Some(to), None));
            println!(
                "{name}: {:?} {} m, {there:?}, {one:?}",
                one.what, one.back_m
            );
            let bass_db = one.bass_db.expect("a bass");
            assert!((bass_db[0] - now.1).abs() < 1e-9 && (bass_db[1] - there.1).abs() < 1e-9);
            assert!((one.gained - gained(now, there)).abs() < 1e-9);
            of_loudspeakers += usize::from(one.what == Moved::Loudspeakers);
            if let Some(steps) = one.beside_best {
                let then = heard(&moved(&prepared, Some(to), Some(&plan.pieces)));
                assert!((steps - gained(treated, then)).abs() < 1e-9, "{steps}");
                beside += 1;
            }
        }
    }
    assert!(
        of_loudspeakers > 0 && beside > 1,
        "{of_loudspeakers}, {beside}"
    );
}
