//! Sounds without a room, made here from formulas: nothing is recorded, nothing is fetched. Each goes round without a gap.

use std::f64::consts::{PI, TAU};

use super::clock::RATE_HZ;
use crate::chance::Draw;

/// A sound to send through the room.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DrySound {
    /// One click.
    Click,
    /// A phrase on plucked strings.
    Strings,
    /// A pattern on a hand drum.
    Drum,
    /// A phrase sung on vowels.
    Vowels,
    /// A short burst of noise.
    Burst,
}

/// All of them.
pub const DRY_SOUNDS: [DrySound; 5] = [
    DrySound::Strings,
    DrySound::Drum,
    DrySound::Vowels,
    DrySound::Click,
    DrySound::Burst,
];

/// Largest sample of every sound.
const PEAK: f32 = 0.5;

/// Length of one round of every sound, s.
const ROUND_S: f64 = 4.0;

/// One round of a sound at [`RATE_HZ`]: starts and ends at rest, largest sample ½.
#[must_use]
pub fn dry_sound(sound: DrySound) -> Vec<f32> {
    let mut round = vec![0.0; (ROUND_S * RATE_HZ) as usize];
    match sound {
        DrySound::Click => round[0] = 1.0,
        DrySound::Strings => strings(&mut round),
        DrySound::Drum => drum(&mut round),
        DrySound::Vowels => vowels(&mut round),
        DrySound::Burst => burst(&mut round),
    }
    let largest = round
        .iter()
        .fold(0.0, |most: f64, sample| most.max(sample.abs()));
    round
        .iter()
        .map(|sample| (sample / largest) as f32 * PEAK)
        .collect()
}

/// A chance number between −1 and 1.
fn chance(name: &str, number: usize) -> f64 {
    let draw = Draw {
        seed: 1,
        number: number as u64,
    };
    2.0 * draw.uniform(name) - 1.0
}

/// Frequency of a key of the piano, A4 = 440 Hz being 69, Hz.
fn key_hz(key: f64) -> f64 {
    440.0 * ((key - 69.0) / 12.0).exp2()
}

/// When, which key, how hard.
const PHRASE: [(f64, f64, f64); 11] = [
    (0.0, 45.0, 1.0),
    (0.0, 57.0, 0.7),
    (0.3, 64.0, 0.8),
    (0.6, 60.0, 0.7),
    (0.9, 69.0, 0.9),
    (1.2, 64.0, 0.6),
    (1.5, 41.0, 1.0),
    (1.5, 65.0, 0.8),
    (1.8, 60.0, 0.6),
    (2.1, 69.0, 0.8),
    (2.4, 72.0, 0.9),
];

/// Plucked strings: a loop as long as a period that loses treble as it goes round.
///
/// # Source
/// Karplus & Strong, Digital synthesis of plucked-string and drum timbres, Computer Music Journal 7 (1983) 43–55.
fn strings(round: &mut [f64]) {
    for (at_s, key, loud) in PHRASE {
        let period = RATE_HZ / key_hz(key);
        let mut line: Vec<f64> = (0..period as usize).map(|n| chance("pluck", n)).collect();
        // The rest of the period, by an all-pass.
        let part = period - 0.5 - (period - 0.5).floor();
        let all_pass = (1.0 - part) / (1.0 + part);
        let (mut last, mut before, mut passed) = (0.0, 0.0, 0.0);
        let start = (at_s * RATE_HZ) as usize;
        let count = line.len();
        for (n, sample) in round[start..].iter_mut().enumerate() {
            let now = line[n % count];
            let softer = 0.4985 * (now + last);
            passed = all_pass * (softer - passed) + before;
            (last, before) = (now, softer);
            line[n % count] = passed;
            *sample += loud * now * released(n as f64 / RATE_HZ, 3.6 - at_s);
        }
    }
}

/// Goes to rest over the last fifth of a second before a time.
fn released(time_s: f64, end_s: f64) -> f64 {
    ((end_s - time_s) / 0.2).clamp(0.0, 1.0)
}

/// When, and whether low (true) or high, and how hard.
const BEATS: [(f64, bool, f64); 12] = [
    (0.0, true, 1.0),
    (0.375, false, 0.5),
    (0.5, false, 0.7),
    (0.875, true, 0.7),
    (1.0, false, 0.8),
    (1.25, false, 0.4),
    (1.5, true, 1.0),
    (1.875, false, 0.6),
    (2.0, false, 0.7),
    (2.375, true, 0.8),
    (2.5, false, 0.8),
    (2.75, false, 0.5),
];

/// A hand drum: a skin whose pitch falls as it comes to rest, and the slap of the hand.
fn drum(round: &mut [f64]) {
    for (beat, (at_s, low, loud)) in BEATS.into_iter().enumerate() {
        let (pitch_hz, ring_s, slap) = if low {
            (92.0, 0.16, 0.25)
        } else {
            (310.0, 0.05, 0.8)
        };
        let start = (at_s * RATE_HZ) as usize;
        let mut turns = 0.0;
        let mut smooth = 0.0;
        let length = (0.9 * RATE_HZ) as usize;
        for (n, sample) in round[start..].iter_mut().take(length).enumerate() {
            let t = n as f64 / RATE_HZ;
            turns += pitch_hz * (1.0 + 0.5 * (-t / 0.012).exp()) / RATE_HZ;
            let skin = (TAU * turns).sin() * (-t / ring_s).exp()
                + 0.4 * (TAU * 1.59 * turns).sin() * (-t / (0.6 * ring_s)).exp();
            smooth += 0.5 * (chance("slap", n + 100_000 * beat) - smooth);
            let hand = slap * smooth * (-t / 0.008).exp();
            *sample += loud * (skin + hand) * (1.0 - (-t / 0.0004).exp());
        }
    }
}

/// When it starts, how long it lasts, the key, and the vowel's resonances (Hz) with their widths (Hz) and sizes.
type Sung = (f64, f64, f64, [(f64, f64, f64); 4]);

/// # Source
/// Resonances of a man's vowels as in Peterson & Barney, J. Acoust. Soc. Am. 24 (1952) 175–184 (from memory); widths and
/// sizes common practice, no source.
const AH: [(f64, f64, f64); 4] = [
    (730.0, 90.0, 1.0),
    (1090.0, 110.0, 0.5),
    (2440.0, 170.0, 0.15),
    (3400.0, 250.0, 0.08),
];
const EE: [(f64, f64, f64); 4] = [
    (270.0, 60.0, 1.0),
    (2290.0, 120.0, 0.25),
    (3010.0, 170.0, 0.18),
    (3600.0, 250.0, 0.1),
];
const OO: [(f64, f64, f64); 4] = [
    (300.0, 60.0, 1.0),
    (870.0, 100.0, 0.35),
    (2240.0, 170.0, 0.06),
    (3300.0, 250.0, 0.03),
];

const SONG: [Sung; 5] = [
    (0.0, 0.55, 50.0, AH),
    (0.6, 0.5, 53.0, EE),
    (1.15, 0.5, 55.0, OO),
    (1.7, 0.45, 53.0, AH),
    (2.2, 1.1, 50.0, EE),
];

/// Sung vowels: pulses of the voice, with a little tremor, through resonances.
fn vowels(round: &mut [f64]) {
    for (at_s, lasts_s, key, resonances) in SONG {
        let start = (at_s * RATE_HZ) as usize;
        let length = ((lasts_s + 0.1) * RATE_HZ) as usize;
        let voice = voice(key_hz(key), lasts_s, length);
        for (hz, width_hz, size) in resonances {
            let kept = (-PI * width_hz / RATE_HZ).exp();
            let (a1, a2) = (2.0 * kept * (TAU * hz / RATE_HZ).cos(), kept * kept);
            let gain = size * (1.0 - kept);
            let (mut before, mut last) = (0.0, 0.0);
            for (sample, voice) in round[start..].iter_mut().zip(&voice) {
                let now = gain * voice + a1 * last - a2 * before;
                (before, last) = (last, now);
                *sample += now;
            }
        }
    }
}

/// Flow through the vocal folds, its rise slower than its fall, with breath; comes and goes softly.
///
/// # Source
/// Rosenberg, J. Acoust. Soc. Am. 49 (1971) 583–590, pulse B (from memory).
fn voice(pitch_hz: f64, lasts_s: f64, length: usize) -> Vec<f64> {
    let mut turns = 0.0_f64;
    let mut before = 0.0;
    let sample = |n: usize| {
        let t = n as f64 / RATE_HZ;
        turns += pitch_hz * (1.0 + 0.008 * (TAU * 5.3 * t).sin()) / RATE_HZ;
        let x = turns.fract() / 0.6;
        let flow = if x < 1.0 { x * x * (1.0 - x) } else { 0.0 };
        let pulse = flow - before + 0.0004 * chance("breath", n);
        before = flow;
        let swell = (t / 0.04).min(1.0) * ((lasts_s - t) / 0.08).clamp(0.0, 1.0);
        pulse * swell
    };
    (0..length).map(sample).collect()
}

/// When bursts start, s.
const BURSTS_S: [f64; 3] = [0.0, 1.2, 2.4];

/// Noise with as much energy in every octave, in three bursts of 0.15 s.
///
/// # Source
/// Weights of the pink filter: Kellet's economy form (common practice).
fn burst(round: &mut [f64]) {
    for at_s in BURSTS_S {
        let (mut slow, mut middle, mut fast) = (0.0, 0.0, 0.0);
        let start = (at_s * RATE_HZ) as usize;
        let length = (0.15 * RATE_HZ) as usize;
        for (n, sample) in round[start..].iter_mut().take(length).enumerate() {
            let white = chance("burst", n);
            slow = 0.997_65 * slow + 0.099_046 * white;
            middle = 0.963 * middle + 0.296_516_4 * white;
            fast = 0.57 * fast + 1.052_691_3 * white;
            let x = n as f64 / length as f64;
            let swell = (x / 0.01).min(1.0) * ((1.0 - x) / 0.05).min(1.0);
            *sample += (slow + middle + fast + 0.1848 * white) * swell;
        }
    }
}
