//! The notes of rigid boxes.

use std::collections::BTreeMap;

use glam::DVec3;
use seatward::bass::Mode;
use seatward::bass::coupled::Coupled;
use seatward::bass::modes::{expected_count, frequency_of_count, modes_up_to};
use seatward::bass::real_admittance;
use seatward::geometry::Surface;

use crate::generator::Generator;
use crate::rooms::{SPEED_OF_SOUND_M_PER_S, real, room, room_with};
use crate::table::{Row, number, rows};

/// A room of the table with its rows.
type Example = (DVec3, f64, Vec<Row>);

fn examples() -> BTreeMap<String, Example> {
    let mut found: BTreeMap<String, Example> = BTreeMap::new();
    for row in rows(include_str!("../data/modes.csv")) {
        let size_m = DVec3::new(
            number(&row, "lx_m"),
            number(&row, "ly_m"),
            number(&row, "lz_m"),
        );
        let speed = number(&row, "c_m_per_s");
        let name = row["example"].clone();
        found
            .entry(name)
            .or_insert_with(|| (size_m, speed, Vec::new()))
            .2
            .push(row);
    }
    found
}

fn half_waves(row: &Row) -> [u32; 3] {
    ["nx", "ny", "nz"].map(|column| number(row, column) as u32)
}

/// Kuttruff, Room Acoustics, 20 lowest; Ballou, Handbook for Sound Engineers, Table 6-4, 9 axial ones.
#[test]
fn frequencies_round_to_every_printed_value() {
    let mut printed = 0;
    for (name, (size_m, speed, rows)) in examples() {
        for row in rows.iter().filter(|row| !row["f_published_Hz"].is_empty()) {
            let computed_hz = Mode::new(half_waves(row), size_m, speed).frequency_hz;
            let printed_hz = number(row, "f_published_Hz");
            assert!(
                (computed_hz - printed_hz).abs() <= 0.005 + 1e-9,
                "{name}: {computed_hz} against {printed_hz}"
            );
            printed += 1;
        }
    }
    assert_eq!(printed, 29);
}

/// Kuttruff's 20 lowest, and the 25 lowest of the room in Rindel, JASA Express Letters 1 (2021) 021601 (computed, not printed).
#[test]
fn no_mode_is_missed_and_none_is_invented() {
    let examples = examples();
    for (name, count) in [("kuttruff_4.7x4.1x3.1", 20), ("rindel_6.36x4.44x3.00", 25)] {
        let (size_m, speed, rows) = &examples[name];
        assert_eq!(rows.len(), count);
        let found = modes_up_to(*size_m, *speed, 130.0);
        assert_eq!(found[0].n, [0, 0, 0]);
        for (mode, row) in found[1..].iter().zip(rows) {
            assert_eq!(mode.n, half_waves(row), "{name}");
            assert!(
                (mode.frequency_hz - number(row, "f_computed_Hz")).abs() < 1e-6,
                "{name}"
            );
        }
    }
}

/// Exact counts of Kuttruff's room, counted apart from this crate: 14, 37, 81, 233 up to 100, 150, 200, 300 Hz.
#[test]
fn counts_are_exact_and_near_what_is_expected() {
    let (size_m, speed) = (DVec3::new(4.7, 4.1, 3.1), 340.0);
    for (hz, exact, expected) in [
        (100.0, 14, 14.44),
        (150.0, 37, 38.34),
        (200.0, 81, 79.73),
        (300.0, 233, 234.07),
    ] {
        let found = modes_up_to(size_m, speed, hz).len() - 1;
        assert_eq!(found, exact, "up to {hz} Hz");
        assert!((expected_count(size_m, speed, hz) - expected).abs() < 0.005);
    }
    let hz = frequency_of_count(size_m, speed, 79.73);
    assert!((hz - 200.0).abs() < 0.01, "{hz}");
}

#[test]
fn every_mode_up_to_a_frequency_is_found_once() {
    let mut random = Generator::new(31);
    for _ in 0..100 {
        let size_m = DVec3::from_array([0, 1, 2].map(|_| random.between(1.2, 8.0)));
        let found = modes_up_to(size_m, SPEED_OF_SOUND_M_PER_S, 200.0);
        let all = (0..24 * 24 * 24)
            .map(|i| {
                Mode::new(
                    [i / 576, i / 24 % 24, i % 24],
                    size_m,
                    SPEED_OF_SOUND_M_PER_S,
                )
            })
            .filter(|mode| mode.frequency_hz < 200.0);
        assert_eq!(found.len(), all.count(), "{size_m}");
    }
}

/// δ = (c/2) Σ ε Re β / L, ε = 2 where the note meets the wall (Morse & Bolt 1944, from memory).
#[test]
fn damping_is_the_closed_form_where_each_wall_has_one_admittance() {
    let size_m = DVec3::new(3.1, 4.3, 2.45);
    let beta = |surface: Surface| 0.002 * (1.0 + surface as usize as f64);
    let coupled = Coupled::new(&room_with(size_m, |surface| real(beta(surface))), 200.0);
    for (i, mode) in coupled.modes().iter().enumerate() {
        let wall = |surface: &Surface| {
            let meets = if mode.n[surface.axis()] > 0 { 2.0 } else { 1.0 };
            meets * beta(*surface) / size_m[surface.axis()]
        };
        let expected = SPEED_OF_SOUND_M_PER_S / 2.0 * Surface::ALL.iter().map(wall).sum::<f64>();
        let found = coupled.damping_per_s(i);
        assert!(
            (found / expected - 1.0).abs() < 1e-12,
            "{:?}: {found} against {expected}",
            mode.n
        );
    }
}

/// T = 55.3 V / (c A): what Sabine's formula says for the same small absorption on every wall.
#[test]
fn oblique_modes_die_away_as_sabine_says() {
    let size_m = DVec3::new(5.0, 4.0, 3.0);
    let absorption = 0.004;
    let coupled = Coupled::new(&room(size_m, real_admittance(absorption)), 200.0);
    let area_m2 = 2.0 * (5.0 * 4.0 + 5.0 * 3.0 + 4.0 * 3.0);
    let sabine_s = 24.0 * 10f64.ln() * 60.0 / (SPEED_OF_SOUND_M_PER_S * absorption * area_m2);
    let oblique: Vec<_> = (0..coupled.modes().len())
        .filter(|&i| coupled.modes()[i].axes() == 3)
        .collect();
    assert!(oblique.len() > 50);
    for i in oblique {
        let decay_s = 3.0 * 10f64.ln() / coupled.damping_per_s(i);
        assert!(
            (decay_s / sabine_s - 1.0).abs() < 0.01,
            "{decay_s} against {sabine_s}"
        );
    }
}
