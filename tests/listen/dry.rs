//! The sounds without a room.

use std::f64::consts::TAU;

use seatward::listen::{DRY_SOUNDS, DrySound, RATE_HZ, dry_sound};

/// A round of a sound is finite, has its peak at one half, starts at rest or with its first sample, and comes to rest before
/// it starts anew: nothing above −70 dB of its peak in the last 50 ms.
#[test]
fn every_sound_goes_round_without_a_step() {
    for sound in DRY_SOUNDS {
        let round = dry_sound(sound);
        assert_eq!(round.len(), (4.0 * RATE_HZ) as usize);
        assert!(round.iter().all(|sample| sample.is_finite()));
        let peak = round
            .iter()
            .fold(0.0, |most: f32, sample| most.max(sample.abs()));
        assert_eq!(peak, 0.5, "{sound:?}");
        let rest = round[round.len() - 2400..]
            .iter()
            .fold(0.0, |most: f32, sample| most.max(sample.abs()));
        assert!(rest < 0.5 * 3.2e-4, "{sound:?}: {rest}");
        assert!(round == dry_sound(sound), "{sound:?}");
    }
}

fn size(samples: &[f32], hz: f64) -> f64 {
    let sum = |wave: fn(f64) -> f64| -> f64 {
        let terms = samples.iter().enumerate();
        terms
            .map(|(n, sample)| f64::from(*sample) * wave(TAU * hz * n as f64 / RATE_HZ))
            .sum()
    };
    sum(f64::cos).hypot(sum(f64::sin))
}

/// The last plucked string is C5 (523.25 Hz): stronger there than a quarter tone beside.
#[test]
fn strings_are_in_tune() {
    let round = dry_sound(DrySound::Strings);
    let last = &round[(2.45 * RATE_HZ) as usize..(3.1 * RATE_HZ) as usize];
    let [flat, right, sharp] =
        [-0.5, 0.0, 0.5].map(|step: f64| size(last, 523.25 * (step / 12.0).exp2()));
    assert!(right > 2.0 * flat.max(sharp), "{flat} {right} {sharp}");
}

/// The first vowel, sung on D3 (146.8 Hz), is an open one: more in its first resonance than between it and the third.
#[test]
fn vowels_have_their_resonances() {
    let round = dry_sound(DrySound::Vowels);
    let first = &round[(0.1 * RATE_HZ) as usize..(0.5 * RATE_HZ) as usize];
    let around = |hz: f64| {
        (-20..=20)
            .map(|step| size(first, hz + 5.0 * f64::from(step)).powi(2))
            .sum::<f64>()
    };
    assert!(around(730.0) > 10.0 * around(1750.0));
    assert!(around(1090.0) > 3.0 * around(1750.0));
}
