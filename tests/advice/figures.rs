//! What advice weighs is what the report says: sums of what each piece does by itself, against the plan computed as a whole.

use std::sync::Arc;

use seatward::advice::{Change, Scales, Table};
use seatward::report::{PlanReport, ReflectionReport};

use crate::quality::STORIES;
use crate::stories::story;

/// Octaves from 125 Hz to 4 kHz among the third-octaves of the report.
const OCTAVES: [usize; 6] = [4, 7, 10, 13, 16, 19];

/// A draw's decay lies within 1 % of the report's: its process takes fewer steps (`decay`).
const DECAY_OFF: f64 = 0.01;

/// Advice leaves out that a bounce is held below what the most reflecting material alone would send on, dB.
const LEVEL_OFF_DB: f64 = 0.5;

/// How much a bounce of a delay counts: fully up to 10 ms, not at all from 20 ms on.
fn counts(delay_s: f64) -> f64 {
    ((0.020 - delay_s) / 0.010).clamp(0.0, 1.0)
}

/// First bounces off surfaces and stands, of a loudspeaker on the mean, 500 Hz to 4 kHz, dB re direct.
fn bounces_db(report: &PlanReport) -> f64 {
    let counted = |one: &&ReflectionReport| {
        one.order == 1 && (!one.surfaces.is_empty() || one.furnishing.is_none())
    };
    let energy = |one: &ReflectionReport| {
        let thirds = (10..20).map(|band| 10f64.powf(one.level_db.0[band] / 10.0));
        thirds.sum::<f64>() / 10.0 * counts(one.delay_s)
    };
    let sum: f64 = report.reflections.iter().filter(counted).map(energy).sum();
    10.0 * (sum / 2.0).log10()
}

#[test]
fn sums_of_single_pieces_come_to_the_report_of_the_plan() {
    for name in STORIES {
        let prepared = story(name);
        for plan in 0..prepared.scenario().plans.len() {
            let report = prepared.predict(plan).expect("a plan");
            let table = Table::there(&prepared, plan).expect("a plan");
            let count = table.there;
            let mut scales = Scales::new(Arc::new(table));
            let load = scales.load((0..count).collect());
            let outcome = scales.outcome(&load, Change::default());
            for (octave, band) in OCTAVES.into_iter().enumerate() {
                let (ours, whole) = (outcome.t20_s[octave], report.decay.t20_s.0[band]);
                let off = (ours / whole - 1.0).abs();
                assert!(off < DECAY_OFF, "{name}, {plan}: {ours} against {whole} s");
            }
            let (ours, whole) = (10.0 * outcome.bounces.log10(), bounces_db(&report));
            println!("{name}, {plan}: bounces {ours:.2} against {whole:.2} dB");
            assert!(
                (ours - whole).abs() < LEVEL_OFF_DB,
                "{name}, {plan}: {ours} against {whole} dB"
            );
        }
    }
}
