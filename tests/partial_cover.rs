//! Partly covered surfaces against Kirchhoff's integral, computed apart from this crate, and against limits known exactly.

#[path = "support/table.rs"]
mod table;

use std::f64::consts::TAU;

use num_complex::Complex64;
use seatward::footprint::Mirror;
use seatward::geometry::Rect;
use seatward::spectrum::{COARSE, FINE, Spectrum, frequency_hz};
use table::{Row, number};

const CASES: &str = include_str!("data/kirchhoff_cases.csv");
const PATCHES: &str = include_str!("data/kirchhoff_patches.csv");
const WEIGHTS: &str = include_str!("data/kirchhoff_weights.csv");

/// Rows of a table whose first lines are remarks.
fn rows(text: &str) -> Vec<Row> {
    let lines: Vec<_> = text.lines().filter(|line| !line.starts_with('#')).collect();
    table::rows(&lines.join("\n"))
}

/// A path of the reference and the speed of sound it was computed for.
fn case(name: &str) -> (Mirror, f64) {
    let rows = rows(CASES);
    let row = rows.iter().find(|row| row["path"] == name).expect("a case");
    let at = |column: &str| number(row, column);
    let share = at("source_h_m") / (at("source_h_m") + at("receiver_h_m"));
    let along = |axis: &str| {
        (at(&format!("receiver_{axis}_m")) - at(&format!("source_{axis}_m"))) / at("length_m")
    };
    let mirror = Mirror {
        point_m: (at("specular_u_m"), at("specular_v_m")),
        before_m: share * at("length_m"),
        after_m: (1.0 - share) * at("length_m"),
        along: (along("u"), along("v")),
        cosine: at("cos_theta"),
    };
    (mirror, at("c_m_per_s"))
}

/// The panel of a row.
fn panel(row: &Row, mirror: &Mirror) -> Rect {
    let (width_m, height_m) = (number(row, "size_u_m"), number(row, "size_v_m"));
    Rect {
        u_m: mirror.point_m.0 + number(row, "offset_u_m") - width_m / 2.0,
        v_m: mirror.point_m.1 + number(row, "offset_v_m") - height_m / 2.0,
        width_m,
        height_m,
    }
}

/// Our level of a row, dB.
fn level_db(row: &Row, mirror: &Mirror, c: f64) -> f64 {
    let weight: Spectrum<FINE> = mirror.weight(panel(row, mirror), c);
    let face = Complex64::new(number(row, "r_face_re"), number(row, "r_face_im"));
    let wall = number(row, "r_wall");
    let octaves_up = (number(row, "octave_hz") / 1000.0).log2().round() as i32;
    let first = (9 * octaves_up + 36) as usize;
    let energy = |i: usize| {
        let k = TAU * frequency_hz::<FINE>(i) / c;
        let turn = 2.0 * k * number(row, "depth_m") * mirror.cosine;
        let face = face * Complex64::from_polar(1.0, turn);
        (wall + (face - wall) * weight.at(i)).norm_sqr()
    };
    let mean = (first..first + 9).map(energy).sum::<f64>() / 9.0;
    10.0 * mean.log10()
}

/// Root mean square and largest difference of our levels from the reference, and the number of levels.
fn differences_db(path: &str, set: &str) -> (f64, f64, usize) {
    let (mirror, c) = case(path);
    let found: Vec<f64> = rows(PATCHES)
        .iter()
        .filter(|row| row["path"] == path && row["set"] == set)
        .map(|row| level_db(row, &mirror, c) - number(row, "level_fine_db"))
        .collect();
    let mean_square = found.iter().map(|d| d * d).sum::<f64>() / found.len() as f64;
    let largest = found.iter().fold(0.0, |most: f64, d| most.max(d.abs()));
    (mean_square.sqrt(), largest, found.len())
}

#[test]
fn octave_levels_follow_kirchhoffs_integral() {
    // tests/reference/kirchhoff_patch.py: 4 sizes × 8 offsets × 7 octaves from 125 Hz to 8 kHz.
    for (path, most_db) in [("side_wall", 0.5), ("ceiling", 0.3)] {
        for set in ["thin", "thin_lossy_wall", "deep"] {
            let (rms_db, largest_db, count) = differences_db(path, set);
            println!("{path} {set}: rms {rms_db:.3} dB, largest {largest_db:.2} dB");
            assert_eq!(count, 4 * 8 * 7);
            assert!(rms_db <= most_db, "{path}, {set}: {rms_db} dB");
        }
    }
}

#[test]
fn weights_follow_kirchhoffs_integral_in_phase_too() {
    let mut worst: f64 = 0.0;
    for row in rows(WEIGHTS) {
        let (mirror, c) = case(&row["path"]);
        let frequency = number(&row, "frequency_hz");
        // The grid's centres are base-two, the reference's base-ten: the speed of sound makes up for the difference.
        let band = (10.0 * (frequency / 1000.0).log10()).round() as i32 + 13;
        let same_k = c * frequency_hz::<COARSE>(band as usize) / frequency;
        let weight: Spectrum<COARSE> = mirror.weight(panel(&row, &mirror), same_k);
        let reference = Complex64::new(number(&row, "w_re"), number(&row, "w_im"));
        worst = worst.max((weight.at(band as usize) - reference).norm());
    }
    println!("largest error of a weight: {worst:.4}");
    assert!(worst < 0.05, "{worst}");
}
