//! What a loudspeaker sends where.

use glam::DVec3;
use seatward::bands::BANDS;
use seatward::directivity::{Directivity, Pattern, axis, piston};
use seatward::scenario;
use seatward::simulate::Prepared;

const ALL: [Directivity; 3] = [
    Directivity::Narrow,
    Directivity::Ordinary,
    Directivity::Wide,
];

/// 125, 250, 500 Hz, 1, 2, 4 kHz.
const OCTAVES: [usize; 6] = [4, 7, 10, 13, 16, 19];

#[test]
fn a_source_that_radiates_alike_in_all_directions_has_index_0() {
    let sphere = Pattern::from_fn(|_, _| 1.0);
    for band in 0..BANDS {
        assert!(sphere.index_db()[band].abs() < 1e-12);
    }
}

#[test]
fn a_cardioid_has_its_closed_factor() {
    // Mean of ((1 + cos θ)/2)² over the sphere: 1/3.
    let cardioid = Pattern::from_fn(|_, cosine| ((1.0 + cosine) / 2.0).powi(2));
    for band in 0..BANDS {
        assert!((cardioid.q()[band] - 3.0).abs() < 1e-3);
    }
}

/// J1 by its power series, Abramowitz & Stegun 9.1.10: independent of the polynomials in the core.
fn j1_series(x: f64) -> f64 {
    let mut term = x / 2.0;
    let mut sum = term;
    for n in 1..60 {
        let n = f64::from(n);
        term *= -(x / 2.0).powi(2) / (n * (n + 1.0));
        sum += term;
    }
    sum
}

/// Kinsler et al., Fundamentals of Acoustics, 4th ed. 2000, eq. 7.6.13: a piston in an endless baffle has
/// Q = (k a)² / (1 − J1(2 k a) / (k a)). The pattern here also fills the space behind, hence half of it.
#[test]
fn a_piston_in_a_baffle_has_its_closed_factor() {
    for ka in [0.3, 1.0, 2.0, 3.0, 4.0, 5.0] {
        let both_sides =
            Pattern::from_fn(|_, cosine| piston(ka * (1.0 - cosine * cosine).sqrt()).powi(2));
        let closed = ka * ka / (1.0 - j1_series(2.0 * ka) / ka);
        let computed = 2.0 * both_sides.q()[0];
        assert!(
            (computed / closed - 1.0).abs() < 0.01,
            "k a = {ka}: {computed} for {closed}"
        );
    }
}

#[test]
fn the_pistons_first_zero_lies_at_the_zero_of_j1() {
    // First zero of J1: 3.83171 (Abramowitz & Stegun, table 9.5).
    assert!(piston(3.831_71).abs() < 1e-5);
}

/// Common practice, no source: index of a usual two-way loudspeaker.
#[test]
fn the_ordinary_type_has_the_usual_index() {
    let index_db = Directivity::Ordinary.pattern().index_db();
    for (band, usual_db) in OCTAVES.into_iter().zip([0.4, 1.4, 3.1, 5.1, 6.8, 7.8]) {
        let off_db = index_db[band] - usual_db;
        assert!(off_db.abs() < 0.3, "band {band}: {off_db} dB off");
    }
}

#[test]
fn narrow_is_narrower_than_ordinary_and_ordinary_than_wide() {
    let [narrow, ordinary, wide] = ALL.map(|kind| kind.pattern().index_db());
    for band in OCTAVES {
        assert!(narrow[band] > ordinary[band] + 0.4, "band {band}");
        assert!(ordinary[band] > wide[band] + 0.1, "band {band}");
    }
}

#[test]
fn the_index_never_falls_much_on_the_way_up() {
    for kind in ALL {
        let index_db = kind.pattern().index_db();
        for band in 1..BANDS {
            assert!(index_db[band] > index_db[band - 1] - 0.3, "{kind:?} {band}");
        }
    }
}

#[test]
fn what_leaves_in_all_directions_adds_up_to_the_factor() {
    // Midpoints over the angle, not over the cosine that the table has.
    let steps = 20_000;
    for kind in ALL {
        let pattern = kind.pattern();
        for band in 0..BANDS {
            let mean: f64 = (0..steps)
                .map(|i| (f64::from(i) + 0.5) * std::f64::consts::PI / f64::from(steps))
                .map(|angle| pattern.energy(band, angle.cos()) * angle.sin() / 2.0)
                .sum::<f64>()
                * std::f64::consts::PI
                / f64::from(steps);
            assert!((mean * pattern.q()[band] - 1.0).abs() < 1e-4);
        }
    }
}

#[test]
fn on_axis_counts_1_and_no_direction_is_silent() {
    for kind in ALL {
        let pattern = kind.pattern();
        for band in 0..BANDS {
            assert!((pattern.energy(band, 1.0) - 1.0).abs() < 1e-12);
            for i in -110..=110 {
                let energy = pattern.energy(band, f64::from(i) / 100.0);
                assert!(
                    (0.0099..=1.000_001).contains(&energy),
                    "{kind:?} {band} {i}"
                );
                assert_eq!(energy, pattern.energies(f64::from(i) / 100.0)[band]);
            }
        }
    }
}

#[test]
fn the_baffle_step_leaves_the_bass_round_and_shades_the_treble_behind() {
    for kind in ALL {
        let pattern = kind.pattern();
        let behind_db = |band| 10.0 * pattern.energy(band, -1.0).log10();
        assert!(behind_db(0) > -2.0, "{kind:?} at 50 Hz: {}", behind_db(0));
        assert!(
            behind_db(16) < -15.0,
            "{kind:?} at 2 kHz: {}",
            behind_db(16)
        );
    }
}

#[test]
fn toe_in_turns_both_loudspeakers_to_the_middle() {
    let left = axis(1.0, 4.0, 30.0);
    let right = axis(3.0, 4.0, 30.0);
    assert!((left - DVec3::new(0.5, 0.75f64.sqrt(), 0.0)).length() < 1e-12);
    assert!((right - DVec3::new(-0.5, 0.75f64.sqrt(), 0.0)).length() < 1e-12);
    assert_eq!(axis(1.0, 4.0, 0.0), DVec3::Y);
    assert_eq!(axis(2.0, 4.0, 20.0), DVec3::Y);
}

#[test]
fn the_report_of_a_seat_has_the_index_of_each_loudspeaker() {
    let path = format!(
        "{}/scenarios/long-terrace-room.json",
        env!("CARGO_MANIFEST_DIR")
    );
    let text = std::fs::read_to_string(path).expect("the demo room is there");
    let mut scenario = scenario::from_json(&text).expect("it is valid");
    scenario.listening.loudspeakers[1].directivity = Some(Directivity::Narrow);
    let seat = Prepared::new(scenario)
        .predict(1)
        .and_then(|plan| plan.seat);
    let index_db = seat.expect("a seat").index_db;
    assert_eq!(index_db.len(), 2);
    for (index_db, kind) in index_db
        .iter()
        .zip([Directivity::Ordinary, Directivity::Narrow])
    {
        assert!(
            index_db
                .0
                .iter()
                .copied()
                .eq(kind.pattern().index_db().iter())
        );
    }
}
