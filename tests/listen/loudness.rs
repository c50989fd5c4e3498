//! Loudness as ITU-R BS.1770 measures it.

use std::f64::consts::TAU;

use seatward::listen::{
    DrySound, K_WEIGHTING, Pickup, RATE_HZ, dry_sound, heard_level, loudness_lkfs,
};

use crate::{rendered, story, to_seat};

/// A response that lets everything through, to one ear.
fn straight() -> Vec<Vec<Vec<f32>>> {
    vec![vec![vec![1.0]]]
}

/// ITU-R BS.1770-4, annex 1: a tone of 997 Hz at full scale in one channel reads −3.01 LKFS.
#[test]
fn the_tone_of_the_standard_reads_as_the_standard_says() {
    let tone: Vec<f32> = (0..96_000)
        .map(|n| (TAU * 997.0 * f64::from(n) / RATE_HZ).sin() as f32)
        .collect();
    let lkfs = loudness_lkfs(&[&tone], &straight());
    assert!((lkfs + 3.01).abs() < 0.02, "{lkfs} LKFS");
}

/// By samples: the two filters one after the other, and the mean square.
fn by_samples(samples: &[f32], length: usize) -> f64 {
    let mut weighted: Vec<f64> = samples.iter().map(|sample| f64::from(*sample)).collect();
    weighted.extend([0.0; 48_000]);
    for [b0, b1, b2, a1, a2] in K_WEIGHTING {
        let (mut x1, mut x2, mut y1, mut y2) = (0.0, 0.0, 0.0, 0.0);
        for sample in &mut weighted {
            let y = b0 * *sample + b1 * x1 + b2 * x2 - a1 * y1 - a2 * y2;
            (x2, x1, y2, y1) = (x1, *sample, y1, y);
            *sample = y;
        }
    }
    weighted.iter().map(|sample| sample * sample).sum::<f64>() / length as f64
}

/// A click through a room comes out as the room's response: two ways to its loudness.
#[test]
fn loudness_by_frequency_is_loudness_by_samples() {
    let response = rendered(
        &to_seat(&story("tall-room"), 0, Pickup::Head, true),
        Pickup::Head,
    );
    let mut click = vec![0.0_f32; 1000];
    click[0] = 1.0;
    let ears = [0, 1].map(|ear| {
        let [left, right] = [0, 1].map(|loudspeaker| &response.samples[loudspeaker][ear]);
        let both: Vec<f32> = left.iter().zip(right).map(|(l, r)| l + r).collect();
        by_samples(&both, click.len())
    });
    let expected = -0.691 + 10.0 * (ears[0] + ears[1]).log10();
    let lkfs = loudness_lkfs(&[&click, &click], &response.samples);
    assert!((lkfs - expected).abs() < 0.01, "{lkfs} for {expected} LKFS");
}

/// Twice the pressure is 6.02 dB.
#[test]
fn a_louder_sound_reads_louder_by_as_much() {
    let sound = dry_sound(DrySound::Drum);
    let louder: Vec<f32> = sound.iter().map(|sample| 2.0 * sample).collect();
    let [one, other] = [&sound, &louder].map(|sound| loudness_lkfs(&[sound], &straight()));
    assert!((other - one - 6.0206).abs() < 1e-3, "{one}, {other}");
}

/// The largest sample of a round after silence, and of rounds one after the other, in which the end of one falls into the next.
#[test]
fn the_peak_is_that_of_rounds_without_end() {
    let mut echo = vec![0.0_f32; 101];
    (echo[0], echo[100]) = (0.5, -0.4);
    let response = vec![vec![echo]];
    let mut round = vec![0.0_f32; 100];
    round[7] = 1.0;
    let apart = heard_level(&[&[round.clone(), vec![0.0; 100]].concat()], &response);
    assert!((apart.peak - 0.5).abs() < 1e-6, "{apart:?}");
    round[7] = -1.0;
    let mut louder = response.clone();
    louder[0][0][100] = 0.4;
    let one_after_the_other = heard_level(&[&round], &louder);
    assert!(
        (one_after_the_other.peak - 0.9).abs() < 1e-6,
        "{one_after_the_other:?}"
    );
}
