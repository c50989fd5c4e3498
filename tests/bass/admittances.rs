//! Admittance over frequency, and the one that belongs to an absorption.

use num_complex::Complex64;
use seatward::bass::admittance::diffuse_absorption;
use seatward::bass::{Admittance, real_admittance};

/// Paris' integral by the midpoint rule over x = cos θ, apart from the closed form.
fn integrated(admittance: f64) -> f64 {
    let steps = 20_000;
    let step = 1.0 / f64::from(steps);
    let at = |i: u32| {
        let x = step * (f64::from(i) + 0.5);
        8.0 * admittance * x * x / (x + admittance).powi(2)
    };
    (0..steps).map(at).sum::<f64>() * step
}

#[test]
fn the_closed_form_is_the_integral() {
    for admittance in [0.001, 0.01, 0.1, 0.3, 0.638, 2.0, 20.0] {
        let (closed, summed) = (diffuse_absorption(admittance), integrated(admittance));
        assert!(
            (closed - summed).abs() < 1e-6,
            "{admittance}: {closed} against {summed}"
        );
    }
    assert_eq!(diffuse_absorption(0.0), 0.0);
}

/// London, J. Acoust. Soc. Am. 22 (1950) 263–269: 0.951 at an impedance of 1.567 ρc.
#[test]
fn the_best_surface_takes_what_is_published() {
    assert!((diffuse_absorption(1.0 / 1.567) - 0.951).abs() < 0.0005);
    assert!(diffuse_absorption(0.60) < 0.951 && diffuse_absorption(0.68) < 0.951);
    assert!((real_admittance(1.0) - 0.638).abs() < 1e-6);
}

#[test]
fn admittance_and_absorption_are_inverse() {
    for percent in 0..=95 {
        let absorption = f64::from(percent) / 100.0;
        let again = diffuse_absorption(real_admittance(absorption));
        assert!((again - absorption).abs() < 1e-9, "{absorption}: {again}");
    }
}

#[test]
fn a_hard_wall_has_an_eighth_of_its_absorption() {
    for absorption in [1e-5, 1e-4, 1e-3] {
        let eighths = 8.0 * real_admittance(absorption) / absorption;
        assert!(
            (eighths - 1.0).abs() < 4.0 * absorption.sqrt(),
            "{absorption}: {eighths}"
        );
    }
}

#[test]
fn samples_hold_between_and_beyond() {
    let of = |hz: f64| Complex64::new(hz / 1000.0, (hz / 100.0).sin());
    let sampled = Admittance::sampled(of);
    for i in 0..200 {
        let hz = 16.0 * (f64::from(i) / 43.0).exp2();
        assert!(
            (sampled.at(hz) - of(hz)).norm() < 2e-3,
            "{hz} Hz: {}",
            sampled.at(hz)
        );
    }
    assert_eq!(sampled.at(1.0), sampled.at(15.0));
    assert_eq!(sampled.at(5000.0), sampled.at(2000.0));
}

#[test]
fn no_surface_makes_sound_of_its_own() {
    for (re, im) in [
        (-1.0, 0.5),
        (f64::NAN, 0.0),
        (0.1, f64::INFINITY),
        (1e9, -1e9),
        (0.0, -2.0),
    ] {
        let kept = Admittance::constant(Complex64::new(re, im)).at(50.0);
        assert!(
            kept.is_finite() && kept.re >= 0.0 && kept.norm() <= 100.001,
            "{re} {im}: {kept}"
        );
    }
}
