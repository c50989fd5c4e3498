//! Ranges: the arithmetic of the draws. Whether real rooms lie inside is another question, which no test here can answer.

use seatward::chance::quantile;
use seatward::scenario::{self, goal_s};
use seatward::simulate::{Draws, Memory, Prepared};

fn demo(name: &str) -> Prepared {
    let path = format!("{}/scenarios/{name}.json", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(path).expect("the demo scenario is there");
    Prepared::new(scenario::from_json(&text).expect("it is valid"))
}

/// Width of the range that holds 8 of 10 values.
fn width(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    quantile(&values, 0.9) - quantile(&values, 0.1)
}

#[test]
fn the_same_document_gives_the_same_ranges_in_any_slices() {
    let prepared = demo("long-terrace-room");
    let whole = Draws::complete(&prepared, 1).expect("plan A");
    let mut sliced = Draws::start(&prepared, 1).expect("plan A");
    let mut slices = 0;
    while !sliced.are_complete() {
        sliced.more(1 + slices % 17);
        slices += 1;
    }
    assert!(slices > 10);
    let goal = goal_s(prepared.scenario());
    assert_eq!(whole.report(goal), sliced.report(goal));
}

/// Checks the arithmetic, not reality: the "true" rooms are drawn from the very spreads that the ranges come from.
#[test]
fn eight_of_ten_rooms_drawn_from_the_same_spreads_lie_inside() {
    let mut inside = 0;
    for (scenario, plan) in [
        ("long-terrace-room", 0),
        ("long-terrace-room", 1),
        ("basement-den", 0),
        ("basement-den", 1),
    ] {
        let prepared = demo(scenario);
        let draws = Draws::complete(&prepared, plan).expect("the plan is there");
        let range = draws.report(goal_s(prepared.scenario())).mid;
        let (low_s, high_s) = (
            range.low_s.expect("a range"),
            range.high_s.expect("a range"),
        );
        assert!(low_s < range.t20_s.expect("a decay") && range.t20_s < Some(high_s));
        for seed in 1..=15 {
            let mut truth = Draws::seeded(&prepared, plan, seed).expect("the plan is there");
            truth.more(1);
            inside += usize::from((low_s..=high_s).contains(&truth.mids_s()[0]));
        }
    }
    println!("{inside} of 60 rooms inside their 8-in-10 range");
    assert!((42..=54).contains(&inside), "{inside} of 60");
}

/// Widths of the range of the difference of two plans: with the same draws for both, and with other draws for each.
fn widths_of_difference(prepared: &Prepared, from: usize, to: usize) -> (f64, f64) {
    let [from, to] = [from, to].map(|plan| {
        Draws::complete(prepared, plan)
            .expect("the plan is there")
            .mids_s()
    });
    let against = |others: &mut dyn Iterator<Item = &f64>| {
        width(from.iter().zip(others).map(|(a, b)| b - a).collect())
    };
    (
        against(&mut to.iter()),
        against(&mut to.iter().cycle().skip(7)),
    )
}

/// Plans that a person compares differ by a few pieces. A bare room against a treated one shares less: most of what is not
/// known of the bare walls no longer matters once they are covered, so there the gain is smaller; it is printed.
#[test]
fn the_difference_of_two_plans_is_far_surer_than_either() {
    let mut scenario = demo("long-terrace-room").scenario().clone();
    let mut fewer = scenario.plans[1].clone();
    fewer.name = "Fewer".to_owned();
    fewer.pieces.truncate(scenario.plans[1].pieces.len() - 2);
    scenario.plans.push(fewer);
    let last = scenario.plans.len() - 1;
    let prepared = Prepared::new(scenario);
    let (paired, unpaired) = widths_of_difference(&prepared, 1, last);
    println!("two pieces fewer: paired {paired:.4} s, unpaired {unpaired:.4} s");
    assert!(unpaired >= 3.0 * paired);
    let (paired, unpaired) = widths_of_difference(&prepared, 0, 1);
    println!("bare against treated: paired {paired:.4} s, unpaired {unpaired:.4} s");
    // Found: 1.61 times narrower.
    assert!(unpaired >= 1.6 * paired);
}

/// Slices begun anew from draws that were made are those of draws begun at nothing, to the last bit: a worker that makes the
/// later draws ten at a time starts a plan once.
#[test]
fn draws_turned_to_other_numbers_are_those_begun_at_nothing() {
    let prepared = demo("rented-corner-room");
    let mut memory = Memory::default();
    for plan in [0, 1, 0] {
        let mut draws = Draws::start_after(&prepared, plan, &mut memory).expect("a plan");
        for first in [190, 180, 195] {
            draws = draws.turned_to(first, first + 10);
            assert!(!draws.are_made());
            draws.more(10);
            let mut alone = Draws::part(&prepared, plan, first, first + 10).expect("a plan");
            alone.more(10);
            let bits = |draws: &Draws| -> Vec<u64> {
                draws.packed().iter().map(|value| value.to_bits()).collect()
            };
            assert_eq!(bits(&draws), bits(&alone), "plan {plan} from {first}");
            assert!(draws.are_made());
        }
    }
}
