//! How good plans are: against every set of pieces in small cases, against random plans in the demo rooms.

use std::sync::Arc;

use seatward::advice::{Bounds, Change, Scales, Search, Table};
use seatward::simulate::Prepared;

use crate::generator::Generator;
use crate::rooms::room;
use crate::stories::story;

const CASES: u64 = 100;
const PLACES: usize = 12;
const PIECES: usize = 4;

pub const STORIES: [&str; 6] = [
    "rented-corner-room",
    "long-terrace-room",
    "concrete-loft",
    "square-study",
    "basement-den",
    "tall-room",
];

/// Whether all of a set can be there at once, within budget and number.
fn is_legal(table: &Table, set: &[usize], budget: Option<f64>) -> bool {
    let price: f64 = set.iter().map(|one| table.candidates[*one].price).sum();
    let visible = set
        .iter()
        .filter(|one| table.candidates[**one].is_visible)
        .count();
    let pairs = set
        .iter()
        .enumerate()
        .flat_map(|(i, one)| set[..i].iter().map(move |other| (*one, *other)));
    budget.is_none_or(|budget| price <= budget + 1e-9)
        && visible <= table.most_visible
        && table.leaves_ways(set)
        && pairs
            .into_iter()
            .all(|(one, other)| !table.meet(one, other))
}

/// The least steps of any legal set of at most so many of the places.
fn exhaustive(scales: &mut Scales, places: &[usize], budget: Option<f64>) -> f64 {
    let mut best = f64::INFINITY;
    for mask in 0_u32..1 << places.len() {
        if mask.count_ones() as usize > PIECES {
            continue;
        }
        let set: Vec<usize> = places
            .iter()
            .enumerate()
            .filter(|(i, _)| mask >> i & 1 == 1)
            .map(|(_, one)| *one)
            .collect();
        if is_legal(&Arc::clone(&scales.table), &set, budget) {
            best = best.min(scales.load(set).steps.sum());
        }
    }
    best
}

#[test]
fn small_cases_come_to_the_best_of_all_sets() {
    let mut before: Option<Prepared> = None;
    let (mut equal, mut worst, mut cases) = (0, 0.0_f64, 0);
    let mut seed = 0;
    while cases < CASES {
        seed += 1;
        let prepared = Prepared::after(room(10_000 + seed, true), before.as_ref());
        let table = Table::of(&prepared, 0).expect("a plan");
        before = Some(prepared);
        if table.candidates.len() < PLACES {
            continue;
        }
        cases += 1;
        let mut random = Generator::stream(0x5eed, seed);
        let mut all: Vec<usize> = (0..table.candidates.len()).collect();
        let places: Vec<usize> = (0..PLACES)
            .map(|_| all.swap_remove(random.below(all.len())))
            .collect();
        let budget = table.objective.budget;
        let mut scales = Scales::new(Arc::new(table));
        let bounds = Bounds {
            budget,
            barred: all,
            most_pieces: Some(PIECES),
        };
        let mut search = Search::new(&mut scales, bounds);
        search.run(&mut scales);
        let (found, best) = (
            search.best().steps.sum(),
            exhaustive(&mut scales, &places, budget),
        );
        assert!(
            found >= best - 1e-9,
            "case {seed}: {found} below the best, {best}"
        );
        let off = found / best - 1.0;
        equal += u32::from(off < 1e-9);
        worst = worst.max(off);
    }
    println!("{equal} of {CASES} equal, worst {:.2} % off", 100.0 * worst);
    assert!(equal >= 95, "{equal} of {CASES}");
    assert!(worst <= 0.03, "{worst}");
}

/// A random legal set that costs at most so much, filled until nothing fits.
fn random_set(table: &Table, price: f64, random: &mut Generator) -> Vec<usize> {
    let mut set: Vec<usize> = (0..table.there).collect();
    let mut left: Vec<usize> = (table.there..table.candidates.len()).collect();
    while !left.is_empty() {
        let one = left.swap_remove(random.below(left.len()));
        set.push(one);
        if !is_legal(table, &set, Some(price)) {
            set.pop();
        }
    }
    set
}

#[test]
fn plans_of_the_demo_rooms_beat_random_ones_and_no_single_swap_betters_them() {
    for name in STORIES {
        let prepared = story(name);
        let table = Table::of(&prepared, 0).expect("a plan");
        let budget = table.objective.budget;
        let mut scales = Scales::new(Arc::new(table));
        let mut search = Search::new(
            &mut scales,
            Bounds {
                budget,
                ..Bounds::default()
            },
        );
        search.run(&mut scales);
        let best = search.best().clone();
        let table = Arc::clone(&scales.table);
        let price: f64 = best
            .chosen
            .iter()
            .map(|one| table.candidates[*one].price)
            .sum();
        let mut random = Generator::new(7);
        let rivals = (0..200).map(|_| random_set(&table, price, &mut random));
        let least = rivals
            .map(|set| scales.load(set).steps.sum())
            .fold(f64::INFINITY, f64::min);
        println!(
            "{name}: {:.3}, best of 200 random {least:.3}, price {price}",
            best.steps.sum()
        );
        assert!(
            best.steps.sum() < least,
            "{name}: {} against {least}",
            best.steps.sum()
        );
        assert_no_swap_helps(&mut scales, &best.chosen, budget, name);
    }
}

fn assert_no_swap_helps(scales: &mut Scales, chosen: &[usize], budget: Option<f64>, name: &str) {
    let table = Arc::clone(&scales.table);
    let load = scales.load(chosen.to_vec());
    let mut tried = 0;
    for &out in chosen {
        for into in (0..table.candidates.len()).filter(|one| !chosen.contains(one)) {
            let kept = chosen.iter().copied().filter(|one| *one != out);
            let set: Vec<usize> = kept.chain([into]).collect();
            if !is_legal(&table, &set, budget) {
                continue;
            }
            tried += 1;
            let change = Change {
                out: &[out],
                into: &[into],
            };
            let steps = scales.steps(&load, change);
            assert!(
                steps.sum() > load.steps.sum() - 1e-6,
                "{name}: {out} for {into} gains"
            );
        }
    }
    assert!(tried > 0 || chosen.is_empty(), "{name}: nothing to swap");
}
