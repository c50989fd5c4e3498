//! Absorption of pieces of limited size: against two evaluations made apart from this crate, and at its limits.

#[path = "support/stacks.rs"]
mod stacks;
#[path = "support/table.rs"]
mod table;

use std::f64::consts::{FRAC_PI_2, TAU};

use num_complex::Complex64;
use seatward::air::Air;
use seatward::bands::{BANDS, Banded, NOMINAL_HZ, exact_hz};
use seatward::finite_size::{bound, finite_size_absorption, groups, radiation_impedance};
use seatward::geometry::Rect;
use seatward::layers::{Layer, absorption_bands, surface_impedance};
use stacks::{slab, table_air};
use table::{Row, number};

/// Rows of a table whose first lines are remarks.
fn rows(text: &str) -> Vec<Row> {
    let lines: Vec<_> = text.lines().filter(|line| !line.starts_with('#')).collect();
    table::rows(&lines.join("\n"))
}

/// Impedance of a stack over that of air; `local` takes the one at normal incidence for every angle.
fn stack<'a>(
    layers: &'a [Layer],
    air: &'a Air,
    local: bool,
) -> impl Fn(f64, f64) -> Complex64 + 'a {
    move |frequency_hz, cosine| {
        let incidence_rad = if local { 0.0 } else { cosine.acos() };
        surface_impedance(layers, frequency_hz, incidence_rad, air) / air.impedance_pa_s_per_m()
    }
}

fn band_of(row: &Row) -> usize {
    let hz = number(row, "nominal_hz");
    let found = NOMINAL_HZ.iter().position(|&nominal| nominal == hz);
    found.expect("a band's nominal frequency")
}

/// Thomasson's integral with Miki's model, evaluated apart from this crate; see the data. 0.003: our table and 24 angles.
#[test]
fn squares_agree_with_another_evaluation() {
    let air = table_air();
    let layers = [slab(0.05, 30e3)];
    let table = rows(include_str!("data/finite_squares.csv"));
    assert_eq!(table.len(), 28);
    for row in &table {
        let side_m = number(row, "side_m");
        let found = finite_size_absorption(stack(&layers, &air, true), side_m, side_m, &air);
        let difference = found[band_of(row)] - number(row, "absorption");
        assert!(difference.abs() < 0.003, "{difference}: {row:?}");
    }
}

/// Found and expected values of the reference's true rectangles of one size.
fn of_rectangle(width_m: f64, height_m: f64) -> Vec<(f64, f64)> {
    let air = table_air();
    let of_row = |row: &Row| {
        let layers = [slab(
            number(row, "thickness_m"),
            number(row, "flow_resistivity_pa_s_per_m2"),
        )];
        let impedance = stack(&layers, &air, row["reaction"] == "local");
        let found = finite_size_absorption(impedance, width_m, height_m, &air);
        (found[band_of(row)], number(row, "absorption"))
    };
    let is_wanted =
        |row: &&Row| number(row, "width_m") == width_m && number(row, "height_m") == height_m;
    let table = rows(include_str!("data/finite_size.csv"));
    table.iter().filter(is_wanted).map(of_row).collect()
}

/// The double integral over the true rectangle, both reactions: `tests/reference/finite_size.py`.
#[test]
fn the_equivalent_square_stands_for_rectangles_as_well_as_stated() {
    for (width_m, height_m, stated) in [
        (3.6, 3.6, 0.005),
        (1.2, 1.2, 0.005),
        (1.2, 0.6, 0.01),
        (2.4, 1.2, 0.01),
        (2.4, 0.6, 0.03),
        (2.4, 0.3, 0.03),
    ] {
        let pairs = of_rectangle(width_m, height_m);
        assert_eq!(pairs.len(), 24);
        for (found, expected) in pairs {
            let off = found.min(1.2) - expected.min(1.2);
            let over = found / expected - 1.0;
            assert!(
                off.abs() < stated && (expected < 1.2 || (-0.01..0.05).contains(&over)),
                "{width_m} m x {height_m} m: {found} against {expected}, stated {stated}"
            );
        }
    }
}

/// Thomasson's formula as it stands: the mean over azimuth of the double integral, by midpoints in polar coordinates.
fn radiation_by_midpoints(size_rad: f64, cosine: f64) -> Complex64 {
    const STEPS: u32 = 60;
    let middle = |i: u32| (f64::from(i) + 0.5) / f64::from(STEPS);
    let sine = (1.0 - cosine * cosine).sqrt();
    let mut sum = Complex64::ZERO;
    for azimuth in (0..STEPS).map(|i| middle(i) * FRAC_PI_2) {
        let (kx, ky) = (sine * azimuth.cos(), sine * azimuth.sin());
        for angle in (0..STEPS).map(|i| middle(i) * FRAC_PI_2) {
            let reach = size_rad / angle.cos().max(angle.sin());
            for r in (0..STEPS).map(|i| middle(i) * reach) {
                let (u, v) = (r * angle.cos(), r * angle.sin());
                let shape = (kx * u).cos() * (ky * v).cos() * (size_rad - u) * (size_rad - v);
                sum += Complex64::from_polar(shape * reach, -r);
            }
        }
    }
    let step = f64::from(STEPS).recip();
    // j / 2π · 4 / (k e)² times the steps of azimuth (as a mean), angle and radius.
    Complex64::I * 4.0 / TAU / (size_rad * size_rad) * sum * step.powi(3) * FRAC_PI_2
}

#[test]
fn one_integral_gives_what_the_mean_over_azimuth_of_the_double_one_gives() {
    for size_rad in [0.1, 1.0, 3.0, 8.0] {
        for cosine in [0.05, 0.5, 1.0] {
            let (one, double) = (
                radiation_impedance(size_rad, cosine),
                radiation_by_midpoints(size_rad, cosine),
            );
            // Midpoints err by the square of their step.
            assert!(
                (one - double).norm() < 2e-3 * double.norm(),
                "{size_rad}, {cosine}: {one} against {double}"
            );
        }
    }
}

/// Thomasson 1980: as the area grows the radiation impedance goes to that of a plane wave.
#[test]
fn a_large_square_radiates_as_an_endless_one_away_from_grazing() {
    let size_rad = TAU * 1000.0 / 343.0 * 6.0;
    for (cosine, stated) in [(1.0, 0.015), (0.8, 0.02), (0.6, 0.04), (0.4, 0.09)] {
        let off = (radiation_impedance(size_rad, cosine) * cosine - 1.0).norm();
        assert!(off < stated, "{cosine}: {off}, stated {stated}");
    }
}

/// The other end: a small square moves air like a small piston in a wall, whose resistance is that of a point.
#[test]
fn a_small_square_radiates_like_a_point() {
    let size_rad = 0.05;
    for cosine in [0.0, 0.5, 1.0] {
        let resistance = radiation_impedance(size_rad, cosine).re;
        let point = size_rad * size_rad / TAU;
        assert!(
            (resistance / point - 1.0).abs() < 1e-3,
            "{resistance}, {point}"
        );
    }
}

/// Paris' integral of an endless surface of one impedance, to 90°.
fn endless(impedance: Complex64) -> f64 {
    const STEPS: u32 = 20_000;
    let part = |i: u32| {
        let cosine = (f64::from(i) + 0.5) / f64::from(STEPS);
        let reflected = (impedance * cosine - 1.0) / (impedance * cosine + 1.0);
        2.0 * cosine * (1.0 - reflected.norm_sqr()) / f64::from(STEPS)
    };
    (0..STEPS).map(part).sum()
}

/// The edges of a square of 100 m still count at 50 Hz, where a springy surface takes most at grazing: by their ratio to the
/// area, so that ten times the side leaves a tenth.
#[test]
fn a_large_area_absorbs_as_an_endless_one() {
    let air = table_air();
    for (re, im) in [(1.567, 0.0), (1.0, -3.0), (6.0, 2.0), (0.4, -0.5)] {
        let impedance = Complex64::new(re, im);
        let expected = endless(impedance);
        for (side_m, stated) in [(100.0, 0.08), (1000.0, 0.008), (f64::INFINITY, 1e-5)] {
            let found = finite_size_absorption(|_, _| impedance, side_m, side_m, &air);
            let off = found
                .iter()
                .map(|a| (a - expected).abs())
                .fold(0.0, f64::max);
            assert!(
                off < stated,
                "{impedance}, {side_m} m: {off}, stated {stated}"
            );
        }
    }
}

/// Thomasson's integral over many midpoints, with the radiation impedance itself in place of the table.
fn midpoint_integral(impedance: impl Fn(f64) -> Complex64, size_rad: f64) -> f64 {
    const STEPS: u32 = 250;
    let part = |i: u32| {
        let cosine = (f64::from(i) + 0.5) / f64::from(STEPS);
        let (surface, radiation) = (impedance(cosine), radiation_impedance(size_rad, cosine));
        8.0 * surface.re / (surface + radiation).norm_sqr() / f64::from(STEPS)
    };
    (0..STEPS).map(part).sum()
}

#[test]
fn table_and_quadrature_are_as_accurate_as_stated() {
    let air = Air::at(20.0, 50.0);
    for (resistivity, thickness_m, gap_m, stated) in [
        (3e4, 0.05, 0.0, 0.005),
        (8e3, 0.1, 0.0, 0.005),
        (1e4, 0.05, 0.1, 0.005),
        (1e4, 0.05, 0.3, 0.005),
        (5e3, 0.025, 0.2, 0.01),
    ] {
        let layers = [
            slab(thickness_m, resistivity),
            Layer::Gap { thickness_m: gap_m },
        ];
        let impedance = stack(&layers, &air, false);
        for side_m in [0.15, 0.8, 3.5] {
            let found = finite_size_absorption(&impedance, side_m, side_m, &air);
            for band in (0..BANDS).step_by(3) {
                let hz = exact_hz(band);
                let size_rad = TAU * hz / air.speed_of_sound_m_per_s * side_m;
                let fine = midpoint_integral(|cosine| impedance(hz, cosine), size_rad);
                let off = (found[band].min(1.2) - fine.min(1.2)).abs();
                assert!(
                    off < stated,
                    "{layers:?}, {side_m} m, {hz} Hz: {off}, stated {stated}"
                );
            }
        }
    }
}

#[test]
fn smaller_pieces_absorb_more_for_their_area_in_the_middle_bands() {
    let air = Air::at(20.0, 50.0);
    let layers = [slab(0.05, 12e3), Layer::Gap { thickness_m: 0.03 }];
    let of_side =
        |side_m| finite_size_absorption(stack(&layers, &air, false), side_m, side_m, &air);
    let sides_m = [0.3, 0.6, 1.2, 2.4, 4.8];
    for pair in sides_m.windows(2) {
        let (small, large) = (of_side(pair[0]), of_side(pair[1]));
        for band in 11..BANDS {
            assert!(small[band] > large[band], "{pair:?}, band {band}");
        }
    }
    assert!(of_side(0.6)[12] > 1.2, "{}", of_side(0.6)[12]);
}

#[test]
fn whatever_the_size_and_impedance_the_answer_is_a_number() {
    let air = Air::at(20.0, 50.0);
    let lengths_m = [0.0, 1e-9, 0.3, 1e6, f64::INFINITY, f64::NAN, -1.0];
    let parts = [0.0, 1e-9, -1.0, 1e200, f64::INFINITY, f64::NAN];
    for width_m in lengths_m {
        for height_m in lengths_m {
            for (re, im) in parts.into_iter().flat_map(|re| parts.map(|im| (re, im))) {
                let found =
                    finite_size_absorption(|_, _| Complex64::new(re, im), width_m, height_m, &air);
                let fine = found.iter().all(|a| a.is_finite() && a >= 0.0);
                assert!(fine, "{width_m} x {height_m}, {re} + j {im}: {found:?}");
            }
        }
    }
}

#[test]
fn what_does_not_move_absorbs_nothing() {
    let air = Air::at(20.0, 50.0);
    for layers in [vec![], vec![Layer::Gap { thickness_m: 0.1 }]] {
        let found = finite_size_absorption(stack(&layers, &air, false), 1.2, 0.6, &air);
        assert!(found.iter().all(|a| a < 1e-9), "{layers:?}: {found:?}");
    }
}

#[test]
fn the_bound_lies_between_the_endless_value_and_its_cap() {
    let air = Air::at(20.0, 50.0);
    let layers = [slab(0.05, 12e3)];
    let random = absorption_bands(&layers, &air);
    let finite = finite_size_absorption(stack(&layers, &air, false), 1.2, 1.2, &air);
    for (area_m2, cap) in [(1.44, 1.2), (1.5, 1.1)] {
        let found = bound(&random, &finite, area_m2);
        for band in 0..BANDS {
            assert_eq!(
                found[band],
                random[band].max(finite[band].min(cap)),
                "band {band}"
            );
        }
        assert!(found.iter().any(|a| a == cap));
    }
    let typed = Banded::constant(1.25);
    assert_eq!(bound(&typed, &finite, 1.44), typed);
}

const fn piece(u_m: f64, v_m: f64, width_m: f64, height_m: f64) -> Rect {
    Rect {
        u_m,
        v_m,
        width_m,
        height_m,
    }
}

fn assert_rect(found: Rect, expected: Rect) {
    let sides = |r: Rect| [r.u_m, r.v_m, r.width_m, r.height_m];
    let same = sides(found)
        .into_iter()
        .zip(sides(expected))
        .all(|(a, b)| (a - b).abs() < 1e-12);
    assert!(same, "{found:?}, expected {expected:?}");
}

#[test]
fn pieces_of_one_kind_join_across_small_gaps_and_through_others() {
    let rects = [
        piece(0.0, 1.0, 0.6, 1.2),
        piece(1.3, 1.0, 0.6, 1.2),
        piece(0.65, 1.0, 0.6, 1.2),
        piece(3.0, 1.0, 0.6, 1.2),
        piece(0.0, 2.22, 0.6, 0.3),
    ];
    let found = groups(&rects, &[7, 7, 7, 7, 2]);
    let joined = piece(0.0, 1.0, 1.9, 1.2);
    for (rect, expected) in found
        .iter()
        .zip([joined, joined, joined, rects[3], rects[4]])
    {
        assert_rect(*rect, expected);
    }
    let one_kind = groups(&rects, &[7; 5]);
    assert_rect(one_kind[4], piece(0.0, 1.0, 1.9, 1.52));
}

#[test]
fn a_wider_gap_or_a_shared_corner_does_not_join() {
    let first = piece(0.0, 1.0, 0.6, 0.6);
    for (other, joins) in [
        (piece(0.65, 1.0, 0.6, 0.6), true),
        (piece(0.6501, 1.0, 0.6, 0.6), false),
        (piece(0.0, 1.65, 0.6, 0.6), true),
        (piece(0.0, 1.6501, 0.6, 0.6), false),
        (piece(0.6, 1.6, 0.6, 0.6), false),
        (piece(0.62, 1.5, 0.6, 0.6), true),
    ] {
        let found = groups(&[first, other], &[0, 0]);
        assert_eq!(found[0] != first, joins, "{other:?}");
        assert_eq!(found[0] == found[1], joins, "{other:?}");
    }
    assert!(groups(&[], &[]).is_empty());
}
