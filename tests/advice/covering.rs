//! Covering all of a surface is covering all that really fits: nothing more finds room beside it, by rules of this test.

use seatward::advice::{Adviser, Found, SurfaceAdvice, Task, refused_pieces};
use seatward::geometry::{Rect, Surface};
use seatward::scenario::document::{HomeLimits, Piece, Place};
use seatward::scenario::{Scenario, piece_rect};
use seatward::simulate::Prepared;

use crate::legal::broken;
use crate::stories::story;

/// Step of the places that are tried beside what is laid, and of the area that is counted, m.
const STEP_M: f64 = 0.05;

fn covered(prepared: &Prepared, surface: Surface) -> SurfaceAdvice {
    let mut adviser = Adviser::new(prepared.clone(), 0).expect("a plan");
    let work = adviser.start(Task::Surface(surface)).expect("a task");
    match work.run(&mut adviser) {
        Found::Surface { surface } => surface,
        other => panic!("{other:?}"),
    }
}

/// A document whose plan has these pieces too.
fn with(prepared: &Prepared, added: &[Piece]) -> Scenario {
    let mut scenario = prepared.scenario().clone();
    scenario.plans[0].pieces.extend(added.iter().cloned());
    scenario
}

/// With limits, even if they limit nothing, and with the depths that layers come to, as the rules of the test ask for them.
fn told_plainly(mut scenario: Scenario, prepared: &Prepared) -> Scenario {
    scenario.limits.get_or_insert_with(HomeLimits::default);
    for (kind, facts) in scenario.kit.iter_mut().zip(prepared.kit()) {
        kind.depth_mm = Some(1000.0 * facts.depth_m);
    }
    scenario
}

/// One more piece of the same kind that would be allowed beside all others.
fn one_more(scenario: &Scenario, like: &Piece) -> Option<Piece> {
    let (surface, _) = piece_rect(scenario, like)?;
    let laid: Vec<Rect> = scenario.plans[0]
        .pieces
        .iter()
        .filter_map(|piece| piece_rect(scenario, piece))
        .filter(|(on, _)| *on == surface)
        .map(|(_, rect)| rect)
        .collect();
    let extent = surface.extent(scenario.room.size_m());
    let steps = |length_m: f64| (0..=(length_m / STEP_M) as i32).map(|i| f64::from(i) * STEP_M);
    for turned in [false, true] {
        for u_m in steps(extent.width_m) {
            for v_m in steps(extent.height_m) {
                let place = Place::Surface {
                    surface,
                    u_m,
                    v_m,
                    turned,
                };
                let piece = Piece {
                    place,
                    ..like.clone()
                };
                let (_, rect) = piece_rect(scenario, &piece)?;
                let is_on =
                    u_m + rect.width_m <= extent.width_m && v_m + rect.height_m <= extent.height_m;
                if is_on
                    && !laid.iter().any(|other| other.overlaps(rect))
                    && broken(scenario, &piece).is_none()
                {
                    return Some(piece);
                }
            }
        }
    }
    None
}

#[test]
fn all_of_a_surface_is_all_that_fits_and_each_piece_may_be_there() {
    for name in ["concrete-loft", "long-terrace-room", "basement-den"] {
        let prepared = story(name);
        for surface in Surface::ALL {
            let found = covered(&prepared, surface);
            let Some(whole) = found.covers.last() else {
                continue;
            };
            assert_eq!(whole.pieces, found.fitting.len());
            println!(
                "{name}, {surface:?}: {} pieces, {:.1} of {:.1} m²",
                whole.pieces, whole.area_m2, found.free_m2
            );
            assert!(whole.area_m2 <= found.free_m2 + 1e-6);
            let scenario = with(&prepared, &found.fitting);
            let there = prepared.scenario().plans[0].pieces.len();
            let last = found.fitting.last().expect("a piece").clone();
            if matches!(last.place, Place::Surface { .. }) {
                let more = one_more(&told_plainly(scenario.clone(), &prepared), &last);
                assert!(more.is_none(), "{name}, {surface:?}: {more:?}");
            }
            let prepared = Prepared::after(scenario, Some(&prepared));
            let refused = refused_pieces(&prepared, 0);
            assert!(
                refused[there..].iter().all(Option::is_none),
                "{name}: {refused:?}"
            );
        }
    }
}

/// The loft's ceiling has about 65 m², sprinklers, a detector and a grille in it; what lies between their zones is covered.
#[test]
fn the_whole_of_the_lofts_ceiling_is_most_of_what_its_zones_leave() {
    let prepared = story("concrete-loft");
    let found = covered(&prepared, Surface::Ceiling);
    let scenario = prepared.scenario();
    let zones = scenario.room.keep_clear.iter();
    let zones: Vec<Rect> = zones
        .filter(|zone| zone.surface == Surface::Ceiling)
        .map(|zone| zone.rect.grown(zone.margin_m))
        .collect();
    let steps = |length_m: f64| {
        let count = (length_m / STEP_M).round() as usize;
        (0..count).map(|i| (i as f64 + 0.5) * STEP_M)
    };
    let points = steps(9.2).flat_map(|u_m| steps(7.1).map(move |v_m| (u_m, v_m)));
    let is_free = |point: &(f64, f64)| !zones.iter().any(|zone| zone.contains(*point));
    let free_m2 = points.filter(is_free).count() as f64 * STEP_M * STEP_M;
    let whole = found.covers.last().expect("a cover");
    println!("{:.1} of {free_m2:.1} m²", whole.area_m2);
    assert!(
        (found.free_m2 / free_m2 - 1.0).abs() < 0.02,
        "{} against {free_m2}",
        found.free_m2
    );
    // The zones leave strips between them that are narrower than two pieces; 28 pieces were 20 m².
    assert!(whole.area_m2 > 0.6 * free_m2, "{}", whole.area_m2);
    let shares: Vec<f64> = found
        .covers
        .iter()
        .map(|cover| cover.area_m2 / whole.area_m2)
        .collect();
    for (share, wanted) in shares.iter().zip([0.25, 0.5, 0.75, 1.0]) {
        assert!((share - wanted).abs() < 0.03, "{shares:?}");
    }
}

#[test]
fn every_share_of_a_surface_has_its_range() {
    let found = covered(&story("basement-den"), Surface::Right);
    let before_s = found.middle_s.expect("a decay");
    let mut widest_s = 0.0;
    for cover in &found.covers {
        let (low_s, high_s) = cover.range_s.expect("a range");
        let change_s = cover.middle_s.expect("a decay") - before_s;
        assert!(
            low_s < high_s && (low_s..=high_s).contains(&change_s),
            "{low_s}, {change_s}, {high_s}"
        );
        widest_s = f64::max(widest_s, high_s - low_s);
    }
    assert!(widest_s < 0.3, "{widest_s}");
}
