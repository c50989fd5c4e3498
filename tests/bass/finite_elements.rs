//! The response against finite elements: `tests/reference/bass_fem.py`, its values frozen in `tests/data`.

use std::collections::BTreeMap;

use glam::DVec3;
use num_complex::Complex64;
use seatward::bass::{Admittance, BassRoom};
use seatward::geometry::{Rect, Surface};
use serde::Deserialize;

use crate::rooms::{differences, energies, porous, pressures, real, room_with, smoothed_db};
use crate::table::{Row, number, rows};

/// Largest rms error in sixths of an octave, 20 to 120 Hz, dB.
const ALLOWED_DB: f64 = 0.5;

/// Top of the response that is asked for, Hz.
const HIGHEST_HZ: f64 = 200.0;

#[derive(Deserialize)]
struct Cases {
    c_m_per_s: f64,
    beta_walls: BTreeMap<String, f64>,
    cases: Vec<Case>,
    rooms: Vec<FemRoom>,
}

#[derive(Deserialize)]
struct Case {
    name: String,
    porous_surface: Option<String>,
    #[serde(default)]
    porous_patches: bool,
}

#[derive(Deserialize)]
struct FemRoom {
    name: String,
    width_m: f64,
    length_m: f64,
    height_m: f64,
    source_m: [f64; 3],
    receivers_m: Vec<[f64; 3]>,
    patches: Vec<FemPatch>,
}

#[derive(Deserialize)]
struct FemPatch {
    surface: String,
    u_m: f64,
    v_m: f64,
    width_m: f64,
    height_m: f64,
}

/// Rows of a table that begins with lines of provenance.
fn data_rows(text: &str) -> Vec<Row> {
    let lines: Vec<&str> = text.lines().filter(|line| !line.starts_with('#')).collect();
    rows(&lines.join("\n"))
}

/// The porous build's admittance as the finite elements had it.
fn porous_beta() -> Admittance {
    let points: Vec<(f64, Complex64)> = data_rows(include_str!("../data/bass_fem_beta.csv"))
        .iter()
        .map(|row| {
            let beta = Complex64::new(number(row, "beta_re"), number(row, "beta_im"));
            (number(row, "frequency_hz"), beta)
        })
        .collect();
    Admittance::sampled(|hz| {
        let above = points
            .partition_point(|(point, _)| *point < hz)
            .clamp(1, points.len() - 1);
        let ((f0, b0), (f1, b1)) = (points[above - 1], points[above]);
        b0 + (b1 - b0) * ((hz - f0) / (f1 - f0)).clamp(0.0, 1.0)
    })
}

fn bass_room(cases: &Cases, case: &Case, fem: &FemRoom) -> BassRoom {
    let size_m = DVec3::new(fem.width_m, fem.length_m, fem.height_m);
    let mut room = room_with(size_m, |surface| {
        if case.porous_surface.as_deref() == Some(surface.name()) {
            porous_beta()
        } else {
            real(cases.beta_walls[surface.name()])
        }
    });
    room.speed_of_sound_m_per_s = cases.c_m_per_s;
    for patch in fem.patches.iter().filter(|_| case.porous_patches) {
        let surface = Surface::ALL
            .into_iter()
            .find(|one| one.name() == patch.surface);
        let rect = Rect {
            u_m: patch.u_m,
            v_m: patch.v_m,
            width_m: patch.width_m,
            height_m: patch.height_m,
        };
        let wall = &mut room.walls[surface.expect("a surface") as usize];
        wall.patches.push((rect, porous_beta()));
    }
    room
}

#[test]
fn every_room_and_case_agrees_with_finite_elements() {
    let cases: Cases =
        serde_json::from_str(include_str!("../data/bass_fem_cases.json")).expect("the cases");
    let all = data_rows(include_str!("../data/bass_fem.csv"));
    let mut compared = 0;
    for fem in &cases.rooms {
        for case in &cases.cases {
            for (receiver, at_m) in fem.receivers_m.iter().enumerate() {
                let is_ours = |row: &&Row| {
                    row["room"] == fem.name
                        && row["case"] == case.name
                        && number(row, "receiver") as usize == receiver
                };
                let ours: Vec<&Row> = all.iter().filter(is_ours).collect();
                let hz: Vec<f64> = ours.iter().map(|row| number(row, "frequency_hz")).collect();
                let fem_energy: Vec<f64> = ours
                    .iter()
                    .map(|row| 10f64.powf(number(row, "level_db") / 10.0))
                    .collect();
                let sources = [DVec3::from_array(fem.source_m)];
                let room = bass_room(&cases, case, fem);
                let found = energies(&pressures(
                    &room,
                    HIGHEST_HZ,
                    &sources,
                    DVec3::from_array(*at_m),
                    &hz,
                ));
                let (rms, most) =
                    differences(&smoothed_db(&hz, &found), &smoothed_db(&hz, &fem_energy));
                println!(
                    "{} {} {receiver}: {rms:.2} dB rms, {most:.2} dB at most",
                    fem.name, case.name
                );
                assert!(
                    rms <= ALLOWED_DB,
                    "{} {} {receiver}: {rms} dB",
                    fem.name,
                    case.name
                );
                compared += hz.len();
            }
        }
    }
    assert_eq!(compared, all.len());
}

#[test]
fn the_crate_finds_the_same_admittance_of_the_porous_build() {
    let (fem, own) = (porous_beta(), porous(0.10, 0.05));
    for hz in [20.0, 40.0, 63.0, 100.0, 119.0] {
        let apart = (fem.at(hz) - own.at(hz)).norm() / own.at(hz).norm();
        assert!(
            apart < 0.005,
            "{hz} Hz: {} against {}",
            fem.at(hz),
            own.at(hz)
        );
    }
}
