//! What makes a range wide: the ranking read off 200 draws against brute force, one input known at a time in 2,000 draws; and
//! that knowing one of them after a check-up, which ties inputs to each other, makes nothing wider.

use std::thread;

use seatward::scenario;
use seatward::simulate::{Prepared, Shares};

/// Each demo room with the plan that is asked about.
const ROOMS: [(&str, usize); 6] = [
    ("basement-den", 1),
    ("concrete-loft", 1),
    ("long-terrace-room", 0),
    ("rented-corner-room", 2),
    ("square-study", 3),
    ("tall-room", 0),
];

const DRAWS: usize = 2000;

fn text(name: &str) -> String {
    let path = format!("{}/scenarios/{name}.json", env!("CARGO_MANIFEST_DIR"));
    std::fs::read_to_string(path).expect("the demo scenario is there")
}

fn demo(name: &str) -> Prepared {
    Prepared::new(scenario::from_json(&text(name)).expect("it is valid"))
}

fn variance(values: &[f64]) -> f64 {
    let count = values.len() as f64;
    let mean = values.iter().sum::<f64>() / count;
    values
        .iter()
        .map(|value| (value - mean).powi(2))
        .sum::<f64>()
        / count
}

/// Draws after which an input that moves next to nothing is left out.
const FIRST_DRAWS: usize = 60;

/// Inputs that are followed through all draws: those that move the decay most in the first ones.
const FOLLOWED: usize = 6;

/// Mean square of what knowing an input changes in the first draws.
fn moved(prepared: &Prepared, plan: usize, name: &str, all_s: &[f64]) -> f64 {
    let held_s = prepared
        .mids_with_one_known(plan, FIRST_DRAWS, name)
        .expect("a plan");
    held_s
        .iter()
        .zip(all_s)
        .map(|(held, all)| (held - all).powi(2))
        .sum()
}

/// Names in the order of the variance that is left once each is known, least first.
fn by_brute_force(prepared: &Prepared, plan: usize, mut names: Vec<String>) -> Vec<String> {
    let nothing = "nothing of that name";
    let all_s = prepared
        .mids_with_one_known(plan, FIRST_DRAWS, nothing)
        .expect("a plan");
    names.sort_by_cached_key(|name| {
        std::cmp::Reverse(moved(prepared, plan, name, &all_s).to_bits())
    });
    names.truncate(FOLLOWED);
    let left = |name: &String| {
        let mids_s = prepared
            .mids_with_one_known(plan, DRAWS, name)
            .expect("a plan");
        (name.clone(), variance(&mids_s))
    };
    let (first, second) = names.split_at(names.len() / 2);
    let mut all = thread::scope(|scope| {
        let other = scope.spawn(|| second.iter().map(left).collect::<Vec<_>>());
        let mut all: Vec<_> = first.iter().map(left).collect();
        all.extend(other.join().expect("it ends"));
        all
    });
    all.sort_by(|a, b| a.1.total_cmp(&b.1));
    println!("{all:?}");
    all.into_iter().map(|(name, _)| name).collect()
}

#[test]
fn the_three_weightiest_inputs_are_those_of_brute_force() {
    let mut agreeing = 0;
    for (name, plan) in ROOMS {
        let prepared = demo(name);
        let shares = prepared.shares_of_variance(plan).expect("a plan");
        let names: Vec<String> = shares.iter().map(|share| share.name.clone()).collect();
        let mut ours: Vec<String> = names[..3].to_vec();
        let mut theirs = by_brute_force(&prepared, plan, names);
        theirs.truncate(3);
        println!("{name}: {:?}", &shares[..5]);
        println!("{name}: ours {ours:?}, by brute force {theirs:?}");
        ours.sort_unstable();
        theirs.sort_unstable();
        agreeing += usize::from(ours == theirs);
    }
    println!("agreeing in {agreeing} of 6");
    assert!(agreeing >= 5, "{agreeing} of 6");
}

#[test]
fn after_a_check_up_knowing_one_more_input_narrows_the_decay() {
    for (name, plan, decay_s) in [
        ("long-terrace-room", 0, 0.85),
        ("concrete-loft", 0, 1.45),
        ("tall-room", 2, 1.1),
    ] {
        let measured = format!(
            r#"{{"measured": [{{"plan": "Now", "bands_hz": [500, 1000, 2000, 4000], "decay_s": [{decay_s}, {decay_s}, {decay_s}, {decay_s}]}}],"#
        );
        let text = text(name).replacen('{', &measured, 1);
        let mut prepared = Prepared::new(scenario::from_json(&text).expect("it is valid"));
        prepared.check_up();
        let shares = prepared.shares_of_variance(plan).expect("a plan");
        let known = |name: &str| {
            let mids_s = prepared.mids_with_one_known(plan, DRAWS, name);
            variance(&mids_s.expect("a plan"))
        };
        let all = known("nothing of that name");
        let without = demo(name).mids_with_one_known(plan, DRAWS, "nothing of that name");
        assert!(
            all < 0.6 * variance(&without.expect("a plan")),
            "{name}: the check-up is used"
        );
        for Shares { name: input, .. } in &shares[..3] {
            let gone = 1.0 - known(input) / all;
            println!("{name}, {input}: {gone:.3} of the variance gone");
            assert!(gone > 0.0, "{name}, {input}: {gone} of the variance gone");
        }
    }
}
