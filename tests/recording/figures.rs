//! Figures of synthetic responses against a reading with SciPy.

use seatward::recording::Impulse;

use crate::generator::Generator;
use crate::table::{Row, number};
use crate::{rows, width};

/// Uniform between −1 and 1.
fn uniform(random: &mut Generator) -> f64 {
    2.0 * random.unit() - 1.0
}

/// As `synthetic` of `tests/reference/impulse_figures.py`.
fn synthetic(row: &Row) -> Vec<f64> {
    let of = |column| number(row, column);
    let (rate_hz, seed) = (of("rate_hz"), of("seed") as u64);
    let onset = (0.2 * rate_hz) as usize;
    let length = (1.6 * of("slow_s") * rate_hz) as usize;
    let mut random = Generator::new(seed);
    let mut samples = vec![0.0; onset];
    samples.extend((0..length).map(|n| {
        let fall = |time_s: f64| 10f64.powf(-3.0 * n as f64 / rate_hz / time_s);
        uniform(&mut random) * (fall(of("fast_s")) + of("slow_share") * fall(of("slow_s")))
    }));
    samples[onset] = 2.0;
    let mut random = Generator::new(seed + 1);
    samples
        .iter_mut()
        .for_each(|sample| *sample += of("noise") * uniform(&mut random));
    samples
}

/// `recording_figures.csv`. Without noise both readings integrate the same filtered samples; the end of the record, 96 dB
/// down, is corrected here and not there: 0.5 %, 0.05 dB. With noise 60 dB down it is taken off there by Chu's
/// subtraction, here by ending the decay in it: 3 %, 0.3 dB.
#[test]
fn figures_are_those_read_with_a_general_purpose_library() {
    let rows = rows(include_str!("../data/recording_figures.csv"));
    assert!(rows.len() > 30);
    for row in &rows {
        let figures = Impulse::new(&synthetic(row), number(row, "rate_hz"))
            .read(number(row, "centre_hz"), width(row));
        let (share, most_db) = if row["case"] == "noisy" {
            (0.03, 0.3)
        } else {
            (0.005, 0.05)
        };
        for (time_s, column) in [
            (figures.edt_s, "edt_s"),
            (figures.t20_s, "t20_s"),
            (figures.t30_s, "t30_s"),
        ] {
            let time_s = time_s.unwrap_or_else(|| panic!("{column} of {row:?}: {figures:?}"));
            let off = time_s / number(row, column) - 1.0;
            assert!(
                off.abs() < share,
                "{column} {time_s} s, off by {off:.4}: {row:?}"
            );
        }
        for (level_db, column) in [(figures.c50_db, "c50_db"), (figures.c80_db, "c80_db")] {
            let level_db = level_db.unwrap_or_else(|| panic!("{column} of {row:?}"));
            let off_db = level_db - number(row, column);
            assert!(
                off_db.abs() < most_db,
                "{column} off by {off_db:.3} dB: {row:?}"
            );
        }
    }
}
