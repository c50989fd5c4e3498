//! How many pieces: held against the report and the draws of documents that hold so many of them, and one fewer.

use seatward::advice::{Adviser, Amount, Count, Found, Overdone, Task, refused_pieces};
use seatward::report::Mid;
use seatward::scenario::document::Piece;
use seatward::scenario::goal_s;
use seatward::simulate::{Draws, Prepared};

use crate::stories::story;

/// 1 kHz is the middle of the third-octaves from 2 kHz and 4 kHz on that are the treble of the objective.
const TREBLE_BANDS: [usize; 2] = [16, 19];

fn amount(prepared: &Prepared, kit: Option<&str>) -> Amount {
    let mut adviser = Adviser::new(prepared.clone(), 0).expect("a plan");
    assert!(adviser.cover_with(kit));
    let work = adviser.start(Task::Amount).expect("a task");
    match work.run(&mut adviser) {
        Found::Amount { amount } => amount,
        other => panic!("{other:?}"),
    }
}

fn with(prepared: &Prepared, pieces: &[Piece]) -> Prepared {
    let mut scenario = prepared.scenario().clone();
    scenario.plans[0].pieces.extend_from_slice(pieces);
    Prepared::after(scenario, Some(prepared))
}

fn mid(prepared: &Prepared, found: &Amount, pieces: usize) -> Mid {
    let with = with(prepared, &found.pieces[..pieces]);
    let goal_s = goal_s(prepared.scenario());
    Draws::complete(&with, 0)
        .expect("a plan")
        .report(goal_s)
        .mid
}

fn assert_count(prepared: &Prepared, found: &Amount, count: &Count) {
    let then = mid(prepared, found, count.pieces);
    assert!((count.middle_s.expect("a decay") - then.t20_s.expect("a decay")).abs() < 1e-9);
    if let Some(met) = count.met {
        assert!(
            (met - then.goal_met.expect("a share")).abs() < 1e-9,
            "{count:?}"
        );
    }
}

#[test]
fn so_many_bring_the_decay_into_the_goal_and_one_fewer_does_not() {
    let mut sure = 0;
    for (name, kit) in [
        ("long-terrace-room", "thick"),
        ("basement-den", "thick-gap"),
        ("rented-corner-room", "rug"),
    ] {
        let prepared = story(name);
        let (low_s, high_s) = goal_s(prepared.scenario());
        let found = amount(&prepared, Some(kit));
        println!(
            "{name}: {:?}, {:?}, {:?}, {:?}, {:?}",
            found.most, found.middle, found.sure, found.surest, found.too_many
        );
        assert_eq!(found.kit.as_deref(), Some(kit));
        for count in [&found.middle, &found.sure, &found.surest]
            .into_iter()
            .flatten()
        {
            assert_count(&prepared, &found, count);
            let room = &prepared.scenario().room;
            let walls_m2 =
                2.0 * room.height_m * (room.width_m + room.length_m) + room.width_m * room.length_m;
            assert!((count.share - count.area_m2 / walls_m2).abs() < 1e-12);
        }
        // Nothing stands where it may not.
        let rules = refused_pieces(&with(&prepared, &found.pieces), 0);
        assert!(rules.iter().all(Option::is_none), "{name}: {rules:?}");
        let Some(middle) = &found.middle else {
            let all_s = found.most.as_ref().expect("all that fit").middle_s;
            assert!(all_s.expect("a decay") > high_s, "{name}");
            continue;
        };
        let middle_s = |pieces| mid(&prepared, &found, pieces).t20_s.expect("a decay");
        assert!((low_s..=high_s).contains(&middle_s(middle.pieces)));
        assert!(middle.pieces == 0 || middle_s(middle.pieces - 1) > high_s);
        let met = |pieces| mid(&prepared, &found, pieces).goal_met.expect("a share");
        if let Some(count) = &found.sure {
            sure += 1;
            assert!(met(count.pieces) >= 0.8);
            for fewer in middle.pieces..count.pieces {
                assert!(met(fewer) < 0.8, "{name}: {fewer} are enough");
            }
        } else {
            let surest = found.surest.as_ref().expect("some are surest");
            assert!(surest.met.expect("a share") < 0.8);
            for other in middle.pieces..=surest.pieces {
                assert!(
                    met(other) <= surest.met.expect("a share"),
                    "{name}: {other}"
                );
            }
        }
    }
    assert!(sure > 0, "nothing is sure anywhere");
}

/// Treble over the middle decay with the first of the pieces.
fn treble_part(prepared: &Prepared, found: &Amount, pieces: usize) -> f64 {
    let with = with(prepared, &found.pieces[..pieces]);
    let report = with.predict(0).expect("a plan");
    let treble_s = TREBLE_BANDS.map(|band| report.decay.t20_s.0[band]);
    let middle_s = mid(prepared, found, pieces).t20_s.expect("a decay");
    treble_s.iter().sum::<f64>() / 2.0 / middle_s
}

#[test]
fn more_can_be_too_many() {
    let mut trebles = 0;
    for (name, kit) in [
        ("long-terrace-room", "thin"),
        ("basement-den", "thin"),
        ("basement-den", "thick-gap"),
        ("square-study", "more-foam"),
    ] {
        let prepared = story(name);
        let (low_s, _) = goal_s(prepared.scenario());
        let found = amount(&prepared, Some(kit));
        let Some((count, why)) = &found.too_many else {
            panic!("{name}: never too many");
        };
        println!("{name}, {kit}: {count:?}, {why:?}");
        let part = |pieces| treble_part(&prepared, &found, pieces);
        let middle_s = |pieces| mid(&prepared, &found, pieces).t20_s.expect("a decay");
        let one_fewer = count.pieces.saturating_sub(1);
        // The objective's middle is of octaves, the report's of thirds: they come to nearly the same.
        match why {
            Overdone::Decay => {
                assert!(middle_s(count.pieces) < low_s, "{name}");
                assert!(count.pieces == 0 || middle_s(one_fewer) >= low_s, "{name}");
            }
            Overdone::Treble => {
                trebles += 1;
                assert!(part(count.pieces) < 1.06 * 0.75, "{name}");
                assert!(
                    count.pieces == 0 || part(count.pieces) < part(0),
                    "{name}: it was so before"
                );
                assert!(
                    count.pieces == 0
                        || part(one_fewer) > 0.94 * 0.75
                        || part(one_fewer) > 0.99 * part(0),
                    "{name}"
                );
            }
        }
    }
    assert!(trebles > 1, "{trebles}");
}

#[test]
fn a_kind_is_chosen_where_none_is_asked_for() {
    let found = amount(&story("long-terrace-room"), None);
    assert!(found.kit.is_some() && found.middle.is_some(), "{found:?}");
}
