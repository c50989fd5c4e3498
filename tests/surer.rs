//! What makes a range wide: the ranking read off 200 draws against brute force, one input known at a time in 2,000 draws.

use std::thread;

use seatward::scenario;
use seatward::simulate::Prepared;

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

fn demo(name: &str) -> Prepared {
    let path = format!("{}/scenarios/{name}.json", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(path).expect("the demo scenario is there");
    Prepared::new(scenario::from_json(&text).expect("it is valid"))
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
