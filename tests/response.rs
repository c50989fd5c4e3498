//! Comb dips and the response at the seat over frequency.

use std::f64::consts::PI;

use num_complex::Complex64;
use seatward::bands::{Banded, NOMINAL_HZ};
use seatward::seat::{
    Above, Wave, above, comb_dips, frequencies_hz, join, levels_db, third_octaves,
};

/// Everest, The Master Handbook of Acoustics, 4th ed. 2001, comb filters: delay in s, first null and spacing in Hz.
const EVEREST: [(f64, f64, f64); 5] = [
    (0.0001, 5000.0, 10_000.0),
    (0.0005, 1000.0, 2000.0),
    (0.001, 500.0, 1000.0),
    (0.005, 100.0, 200.0),
    (0.010, 50.0, 100.0),
];

#[test]
fn dips_lie_at_odd_halves_of_the_inverse_delay() {
    for (delay_s, first_hz, spacing_hz) in EVEREST {
        let dips = comb_dips(delay_s, &Banded::constant(-6.0));
        assert!((dips[0].frequency_hz - first_hz).abs() < 1e-6);
        for pair in dips.windows(2) {
            assert!((pair[1].frequency_hz - pair[0].frequency_hz - spacing_hz).abs() < 1e-6);
        }
        assert!(dips.len() <= 3 && dips.iter().all(|dip| dip.frequency_hz <= 10_000.0));
    }
    assert_eq!(comb_dips(0.0001, &Banded::constant(-6.0)).len(), 1);
    assert_eq!(comb_dips(0.0, &Banded::constant(-6.0)), []);
}

/// Everest, as above: peak 20 lg(1 + r), null 20 lg(1 − r); r = 0.9: +5.58 and −20.0 dB, 0.5: +3.52 and −6.02 dB,
/// 0.316: +2.39 and −3.30 dB.
#[test]
fn dips_are_as_deep_as_the_reflection_is_strong() {
    for (r, depth_db) in [(0.9f64, 25.58), (0.5, 9.54), (0.316, 5.69)] {
        let dips = comb_dips(0.002, &Banded::constant(20.0 * r.log10()));
        assert!(
            (dips[0].depth_db - depth_db).abs() < 0.01,
            "{r}: {:?}",
            dips[0]
        );
    }
    assert_eq!(comb_dips(0.002, &Banded::constant(0.0))[0].depth_db, 60.0);
}

#[test]
fn each_dip_takes_the_level_of_its_band() {
    // 250, 750, 1250 Hz lie in the bands 250, 800 and 1250 Hz.
    let mut level_db = Banded::constant(-40.0);
    for (band, level) in [(7, -3.0), (12, -10.0), (14, -20.0)] {
        level_db[band] = level;
    }
    let dips = comb_dips(0.002, &level_db);
    let expected = [-3.0f64, -10.0, -20.0].map(|level| {
        let r = 10f64.powf(level / 20.0);
        20.0 * ((1.0 + r) / (1.0 - r)).log10()
    });
    for (dip, depth_db) in dips.iter().zip(expected) {
        assert!((dip.depth_db - depth_db).abs() < 1e-9, "{dip:?}");
    }
}

/// A wave of the same real pressure at all frequencies.
fn wave(time_s: f64, pressure: f64) -> Wave {
    Wave {
        time_s,
        pressure: vec![(1000.0, Complex64::new(pressure, 0.0))],
    }
}

fn loudspeaker(waves: Vec<Wave>, late: f64) -> Above {
    Above {
        waves,
        late: Banded::constant(late),
    }
}

#[test]
fn direct_sound_and_a_reflection_make_the_comb() {
    let delay_s = 0.002;
    let one = loudspeaker(vec![wave(0.007, 1.0), wave(0.007 + delay_s, 0.5)], 0.0);
    let frequency_hz: Vec<f64> = (0..20)
        .map(|n| (f64::from(n) + 1.0) / 2.0 / delay_s)
        .collect();
    let response = above(&[one.clone(), one], &frequency_hz);
    for (n, energy) in response.each[0].iter().enumerate() {
        let amplitude: f64 = if n % 2 == 0 { 0.5 } else { 1.5 };
        assert!(
            (energy - amplitude.powi(2)).abs() < 2e-6,
            "point {n}: {energy}"
        );
    }
}

#[test]
fn equal_loudspeakers_add_6_db_in_phase_and_3_db_in_late_sound() {
    let frequency_hz = frequencies_hz();
    let near = loudspeaker(vec![wave(0.006, 0.5)], 0.0);
    let far = loudspeaker(Vec::new(), 0.3);
    for (one, gain) in [(near, 4.0), (far, 2.0)] {
        let response = above(&[one.clone(), one], &frequency_hz);
        for (both, left) in response.both.iter().zip(&response.each[0]) {
            assert!((both / left - gain).abs() < 1e-9);
        }
    }
}

#[test]
fn phase_between_samples_is_carried_on() {
    // A face 0.1 m in front of the wall: exp(2 j k d), sampled three times per third octave.
    let exact = |f: f64| Complex64::from_polar(0.7, 2.0 * 2.0 * PI * f / 343.0 * 0.1);
    let samples: Vec<_> = (0..72)
        .map(|i| 50.0 * 10f64.powf((f64::from(i) - 1.0) / 30.0))
        .map(|f| (f, exact(f)))
        .collect();
    let reflection = Wave {
        time_s: 0.0,
        pressure: samples,
    };
    let one = loudspeaker(vec![wave(0.0, 1.0), reflection], 0.0);
    let frequency_hz: Vec<f64> = (0..50).map(|i| 100.0 * 1.09f64.powi(i)).collect();
    let response = above(&[one.clone(), one], &frequency_hz);
    for (f, energy) in frequency_hz.iter().zip(&response.each[0]) {
        let expected = (Complex64::ONE + exact(*f)).norm_sqr();
        assert!(
            (energy - expected).abs() < 0.02,
            "{f} Hz: {energy} for {expected}"
        );
    }
}

#[test]
fn the_grid_runs_from_20_hz_to_10_khz_in_48ths_of_an_octave() {
    let frequency_hz = frequencies_hz();
    assert_eq!(frequency_hz[0], 20.0);
    assert!((frequency_hz[48] - 40.0).abs() < 1e-9);
    let last_hz = frequency_hz[frequency_hz.len() - 1];
    assert!(
        last_hz <= 10_000.0 && last_hz * 2f64.powf(1.0 / 48.0) > 10_000.0,
        "{last_hz}"
    );
}

#[test]
fn joining_keeps_both_sides_and_fades_over_an_octave() {
    let frequency_hz = frequencies_hz();
    let low: Vec<_> = (0..400).map(|i| (15.0 + f64::from(i), 4.0)).collect();
    let high = vec![1.0; frequency_hz.len()];
    let joining_hz = 160.0;
    let joined = join(&low, &high, &frequency_hz, joining_hz);
    for (i, f) in frequency_hz.iter().enumerate() {
        let octaves = (f / joining_hz).log2();
        if octaves <= -0.499 {
            assert!((joined[i] - 4.0).abs() < 1e-4);
        } else if octaves >= 0.499 {
            assert!((joined[i] - 1.0).abs() < 1e-4);
        } else {
            assert!(joined[i] < joined[i - 1], "{f} Hz");
        }
    }
    let at_joining = join(&low, &[1.0], &[joining_hz], joining_hz);
    assert!((at_joining[0] - 2.5).abs() < 1e-12);
}

#[test]
fn joining_equal_parts_changes_nothing() {
    let frequency_hz = frequencies_hz();
    let energy: Vec<f64> = frequency_hz
        .iter()
        .map(|f| 1.0 + (f / 30.0).sin())
        .collect();
    let low: Vec<_> = frequency_hz
        .iter()
        .copied()
        .zip(energy.iter().copied())
        .collect();
    let joined = join(&low, &energy, &frequency_hz, 200.0);
    for (ours, expected) in joined.iter().zip(&energy) {
        assert!((ours - expected).abs() < 1e-12);
    }
}

#[test]
fn third_octaves_keep_a_flat_response_and_average_energy() {
    let frequency_hz = frequencies_hz();
    let flat = third_octaves(&frequency_hz, &vec![0.25; frequency_hz.len()]);
    assert_eq!(flat.len(), 28);
    assert!((flat[0].0 - 19.95).abs() < 0.01);
    for ((centre_hz, energy), nominal_hz) in flat[4..].iter().zip(NOMINAL_HZ) {
        assert!((centre_hz / nominal_hz - 1.0).abs() < 0.016 && *energy == 0.25);
    }
    // Every second point silent: half the energy, −3 dB; an odd number of points in a band moves it by one in sixteen.
    let comb: Vec<f64> = (0..frequency_hz.len()).map(|i| (i % 2) as f64).collect();
    let level_db = levels_db(
        &third_octaves(&frequency_hz, &comb)
            .iter()
            .map(|t| t.1)
            .collect::<Vec<_>>(),
    );
    assert!(
        level_db[1..27]
            .iter()
            .all(|level| (level + 3.01).abs() < 0.31),
        "{level_db:?}"
    );
}
