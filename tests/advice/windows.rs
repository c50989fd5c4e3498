//! A bounce off a window: every way to go about it does what the document says that holds it.

use std::sync::Arc;

use seatward::advice::{Adviser, Found, Instead, Scales, Table, Task, WindowBounce, WindowWay};
use seatward::geometry::Surface;
use seatward::simulate::Prepared;

use crate::stories::story;

/// Advice leaves out that a bounce is held below what the most reflecting material alone would send on, dB; the page says levels
/// to 1 dB.
const LEVEL_OFF_DB: f64 = 1.0;

fn bounces(prepared: &Prepared) -> Vec<WindowBounce> {
    let mut adviser = Adviser::new(prepared.clone(), 0).expect("a plan");
    let Some(task) = adviser
        .tasks()
        .into_iter()
        .find(|one| *one == Task::Windows)
    else {
        return Vec::new();
    };
    match adviser.start(task).expect("a task").run(&mut adviser) {
        Found::Windows { bounces } => bounces,
        other => panic!("{other:?}"),
    }
}

fn done(prepared: &Prepared, way: &WindowWay) -> Prepared {
    let mut scenario = prepared.scenario().clone();
    scenario.kit.extend(way.kind.clone());
    scenario.plans[0].pieces.extend(way.piece.clone());
    scenario.plans[0].listening.clone_from(&way.listening);
    Prepared::after(scenario, Some(prepared))
}

fn steps(prepared: &Prepared) -> f64 {
    let table = Table::there(prepared, 0).expect("a plan");
    let all = (0..table.there).collect();
    Scales::new(Arc::new(table)).load(all).steps.sound()
}

/// The level of the bounce in the report, 500 Hz to 4 kHz, dB re direct.
fn level_db(prepared: &Prepared, bounce: &WindowBounce) -> f64 {
    let report = prepared.predict(0).expect("a plan");
    let of = |one: &&seatward::report::ReflectionReport| {
        one.order == 1 && one.loudspeaker == bounce.loudspeaker && one.surfaces == [bounce.surface]
    };
    let one = report.reflections.iter().find(of).expect("the bounce");
    let thirds = (10..20).map(|band| 10f64.powf(one.level_db.0[band] / 10.0));
    10.0 * (thirds.sum::<f64>() / 10.0).log10()
}

#[test]
fn each_way_does_what_it_says() {
    for name in ["rented-corner-room", "tall-room"] {
        let prepared = story(name);
        let before = steps(&prepared);
        let found = bounces(&prepared);
        assert!(!found.is_empty(), "{name}");
        for bounce in &found {
            let now_db = level_db(&prepared, bounce);
            assert!(
                (bounce.level_db - now_db).abs() < LEVEL_OFF_DB,
                "{name}: {now_db}, {bounce:?}"
            );
            for pair in bounce.ways.windows(2) {
                assert!(pair[0].gained >= pair[1].gained, "{name}");
            }
            for way in &bounce.ways {
                println!(
                    "{name}, {:?} {}: {:?} {:?} {:.1} dB, {:.2} steps, {:?} {:?}",
                    bounce.surface,
                    bounce.loudspeaker,
                    way.what,
                    way.wall,
                    way.level_db,
                    way.gained,
                    way.rule,
                    way.barred
                );
                let then = done(&prepared, way);
                assert!(
                    (way.gained - (before - steps(&then))).abs() < 1e-9,
                    "{name}: {way:?}"
                );
                let surface = if way.what == Instead::Swap && way.rule.is_none() {
                    way.lands.expect("a bounce")
                } else {
                    bounce.surface
                };
                let then_db = level_db(
                    &then,
                    &WindowBounce {
                        surface,
                        ..bounce.clone()
                    },
                );
                assert!(
                    (way.level_db - then_db).abs() < LEVEL_OFF_DB,
                    "{name}: {then_db}, {way:?}"
                );
            }
        }
    }
}

#[test]
fn the_corner_room_is_told_of_its_window_and_the_study_of_none() {
    let found = bounces(&story("rented-corner-room"));
    let whats: Vec<Instead> = found[0].ways.iter().map(|way| way.what).collect();
    assert_eq!(
        (found.len(), found[0].surface, found[0].loudspeaker),
        (2, Surface::Left, 0)
    );
    for what in [Instead::Curtain, Instead::Stand, Instead::Accept] {
        assert!(whats.contains(&what), "{whats:?}");
    }
    let curtain = found[0]
        .ways
        .iter()
        .find(|way| way.what == Instead::Curtain)
        .expect("a curtain");
    assert!(
        curtain.piece.is_some()
            && curtain.kind.is_none()
            && curtain.level_db < found[0].level_db - 1.0
    );
    assert!(bounces(&story("square-study")).is_empty());
}

#[test]
fn a_sort_that_the_document_has_not_comes_from_the_shelf() {
    let mut scenario = story("rented-corner-room").scenario().clone();
    scenario.kit.retain(|kind| kind.id == "rug");
    let found = bounces(&Prepared::new(scenario));
    let curtain = found[0]
        .ways
        .iter()
        .find(|way| way.what == Instead::Curtain)
        .expect("a curtain");
    assert_eq!(
        curtain.kind.as_ref().map(|kind| kind.id.as_str()),
        Some("curtain-heavy")
    );
}
