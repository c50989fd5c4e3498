//! The band filters.

use std::f64::consts::TAU;

use seatward::recording::{BandFilter, Width};

use crate::table::number;
use crate::{rows, width};

/// `recording_filter.csv`: SciPy's Butterworth band-pass of the same order. Two ways to the same closed form, so the
/// tolerance is that of its printed digits.
#[test]
fn the_filters_are_those_of_a_general_purpose_library() {
    let rows = rows(include_str!("../data/recording_filter.csv"));
    assert!(rows.len() > 100);
    for row in &rows {
        let rate_hz = number(row, "rate_hz");
        let filter = BandFilter::new(number(row, "centre_hz"), width(row), rate_hz)
            .unwrap_or_else(|| panic!("no filter for {row:?}"));
        let transfer = filter.transfer(TAU * number(row, "hz") / rate_hz);
        let off = (transfer.re - number(row, "re")).hypot(transfer.im - number(row, "im"));
        assert!(off < 2e-6, "{row:?}: {transfer}");
    }
}

/// What the filter does to samples is what its transfer says: the spectrum of its answer to one sample, run backward.
#[test]
fn filtered_samples_have_the_transfer_that_is_claimed() {
    let filter = BandFilter::new(1000.0, Width::Third, 16_000.0).expect("a band below 8 kHz");
    let mut samples = vec![0.0; 6000];
    samples[5999] = 1.0;
    filter.run_backward(&mut samples);
    for hz in [500.0, 900.0, 1000.0, 1100.0, 2000.0] {
        let omega = TAU * hz / 16_000.0;
        let sum = |part: fn(f64) -> f64| -> f64 {
            let backward = samples.iter().rev().enumerate();
            backward
                .map(|(n, sample)| sample * part(omega * n as f64))
                .sum()
        };
        let (re, im) = (sum(f64::cos), -sum(f64::sin));
        let expected = filter.transfer(omega);
        assert!((expected.re - re).hypot(expected.im - im) < 1e-9, "{hz} Hz");
    }
}

#[test]
fn a_band_above_half_the_rate_has_no_filter() {
    assert!(BandFilter::new(8000.0, Width::Octave, 16_000.0).is_none());
    assert!(BandFilter::new(4000.0, Width::Octave, 16_000.0).is_some());
}
