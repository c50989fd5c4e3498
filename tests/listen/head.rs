//! The rigid sphere against closed forms, and its answers against what is rendered.

use std::f64::consts::{PI, TAU};

use glam::DVec3;
use num_complex::Complex64;
use seatward::bands::{Banded, exact_hz};
use seatward::listen::{EARS, Noise, Pickup, RADIUS_M, RATE_HZ, Sphere, Way, render_ways};

use crate::generator::Generator;
use crate::line::slope;

const C: f64 = 343.2;

fn heard(sphere: &Sphere, direction: DVec3, ear: usize, hz: f64) -> Complex64 {
    let at_ear = sphere.heard_from(direction, EARS[ear]);
    at_ear.rest_at(hz) * Complex64::from_polar(1.0, -TAU * hz * at_ear.delay_s)
}

/// Sound from the right of the middle by that angle, at ear height.
fn from_azimuth(azimuth_deg: f64) -> DVec3 {
    let (sine, cosine) = azimuth_deg.to_radians().sin_cos();
    DVec3::new(sine, -cosine, 0.0)
}

/// Long waves do not see the head; short ones double their pressure at the ear they come straight upon (a rigid wall), and
/// all but that are weaker (Duda & Martens 1998, section II).
#[test]
fn long_waves_pass_and_short_waves_double() {
    let sphere = Sphere::new(C);
    for degrees in [0.0, 30.0, 90.0, 150.0] {
        let size = heard(&sphere, from_azimuth(degrees), 1, 1.0).norm();
        assert!((size - 1.0).abs() < 0.002, "{degrees}°: {size}");
    }
    for hz in [10_000.0, 15_000.0, 20_000.0] {
        let near = heard(&sphere, from_azimuth(90.0), 1, hz).norm();
        let far = heard(&sphere, from_azimuth(60.0), 0, hz).norm();
        assert!((near - 2.0).abs() < 0.1, "{hz} Hz: {near}");
        assert!(far < 0.35, "{hz} Hz: {far}");
    }
}

/// The ears' difference in time of long waves, (3a/c) sin φ (Kuhn, J. Acoust. Soc. Am. 62 (1977) 157–167): 20 µs.
#[test]
fn long_waves_arrive_as_kuhn_says() {
    let sphere = Sphere::new(C);
    for degrees in [0.0, 15.0, 30.0, 60.0, 90.0] {
        let hz = 100.0;
        let [left, right] = [0, 1].map(|ear| heard(&sphere, from_azimuth(degrees), ear, hz));
        let itd_s = (right * left.conj()).arg() / (TAU * hz);
        let expected_s = 3.0 * RADIUS_M / C * degrees.to_radians().sin();
        assert!(
            (itd_s - expected_s).abs() < 20e-6,
            "{degrees}°: {itd_s} s for {expected_s} s"
        );
    }
}

/// Pressure of samples at a frequency.
fn spectrum(samples: &[f32], hz: f64) -> Complex64 {
    let turn = Complex64::from_polar(1.0, -TAU * hz / RATE_HZ);
    let mut phase = Complex64::ONE;
    let mut sum = Complex64::ZERO;
    for sample in samples {
        sum += phase * f64::from(*sample);
        phase *= turn;
    }
    sum
}

/// The same of short waves in what is rendered, (a/c)(φ + sin φ) (Woodworth, via Duda & Martens 1998), as the slope of the
/// phase between the ears from 4 to 19 kHz, over which the two ways round to the far ear beat evenly: 20 µs.
#[test]
fn short_waves_arrive_as_woodworth_says() {
    let sphere = Sphere::new(C);
    for degrees in [0.0, 10.0, 30.0, 45.0, 60.0, 75.0, 90.0] {
        let way = Way {
            time_s: 0.0083,
            direction: from_azimuth(degrees),
            energy: Banded::constant(1.0),
            pressure: Vec::new(),
        };
        let ears = render_ways(&[way], &sphere, Pickup::Head, None);
        let (mut turned, mut before) = (0.0, 0.0);
        let points: Vec<(f64, f64)> = (0..=300)
            .map(|step| 4_000.0 + 50.0 * f64::from(step))
            .map(|hz| {
                let between = (spectrum(&ears[1], hz) * spectrum(&ears[0], hz).conj()).arg();
                turned += (between - before + PI).rem_euclid(TAU) - PI;
                before = between;
                (TAU * hz, turned)
            })
            .collect();
        let slope = slope(&points);
        let angle = degrees.to_radians();
        let expected_s = RADIUS_M / C * (angle + angle.sin());
        println!(
            "{degrees}°: {:.1} µs for {:.1} µs",
            1e6 * slope,
            1e6 * expected_s
        );
        assert!(
            (slope - expected_s).abs() < 20e-6,
            "{degrees}°: {slope} s for {expected_s} s"
        );
    }
}

/// The closed form of sound from everywhere is the mean over directions, here over 1500 of them by chance: 3 % each.
#[test]
fn sound_from_everywhere_is_the_mean_over_directions() {
    let sphere = Sphere::new(C);
    let mut random = Generator::new(6);
    let hz = [250.0, 500.0, 1000.0, 2000.0, 5000.0];
    let mut energies = [0.0; 5];
    let mut products = [Complex64::ZERO; 5];
    let count = 1500.0;
    for _ in 0..1500 {
        let direction = DVec3::from_array(random.isotropic());
        for (n, hz) in hz.into_iter().enumerate() {
            let [left, right] = [0, 1].map(|ear| heard(&sphere, direction, ear, hz));
            energies[n] += (left.norm_sqr() + right.norm_sqr()) / (2.0 * count);
            products[n] += left * right.conj() / count;
        }
    }
    for (n, hz) in hz.into_iter().enumerate() {
        let (energy, alike) = sphere.from_everywhere(hz);
        assert!(
            (energies[n] / energy - 1.0).abs() < 0.04,
            "{hz} Hz: {} for {energy}",
            energies[n]
        );
        let read = products[n].re / energies[n];
        println!("{hz} Hz: ears alike {alike:.3}, over directions {read:.3}");
        assert!((read - alike).abs() < 0.05, "{hz} Hz: {read} for {alike}");
    }
    // The tables go straight from 0 to 250 Hz.
    assert!(sphere.from_everywhere(50.0).1 > 0.94);
}

/// The noise at both ears is as alike as that, and as loud; the bands are those that are heard above the notes.
#[test]
fn the_noise_is_as_alike_at_both_ears() {
    let mut noise = Noise::new(Pickup::Head);
    let sphere = Sphere::new(C);
    for band in [7, 10, 13, 16] {
        let expected = sphere.from_everywhere(exact_hz(band));
        let ears = noise.band(band);
        let sum = |a: usize, b: usize| -> f64 {
            let both = ears[a].iter().zip(&ears[b]);
            both.map(|(a, b)| f64::from(a * b)).sum()
        };
        let alike = sum(0, 1) / (sum(0, 0) * sum(1, 1)).sqrt();
        println!("{:.0} Hz: {alike:.3} for {:.3}", exact_hz(band), expected.1);
        assert!(
            (alike - expected.1).abs() < 0.12,
            "band {band}: {alike} for {}",
            expected.1
        );
    }
}
