//! How loud a sound comes out of a room, so that plans are compared at the same loudness.

use std::f64::consts::TAU;

use num_complex::{Complex, Complex64};
use realfft::{RealFftPlanner, RealToComplex};
use std::sync::Arc;

use super::clock::RATE_HZ;

/// The two filters of the K-weighting at 48 kHz, as b0, b1, b2, a1, a2.
///
/// # Source
/// ITU-R BS.1770-4, tables 1 and 2.
pub const K_WEIGHTING: [[f64; 5]; 2] = [
    [
        1.535_124_859_586_97,
        -2.691_696_189_406_38,
        1.198_392_810_852_85,
        -1.690_659_293_182_41,
        0.732_480_774_215_85,
    ],
    [1.0, -2.0, 1.0, -1.990_047_454_833_98, 0.990_072_250_366_21],
];

/// Constant of the loudness, LKFS.
///
/// # Source
/// ITU-R BS.1770-4, equation 2.
const OFFSET_LKFS: f64 = -0.691;

/// Loudness of a sound at the ears, K-weighted and ungated: all that comes out, over the length of the sound that went in.
///
/// ```text
/// L = −0.691 + 10 lg Σ_ears Σ_k |K X H|² / N / length      as mean square of samples, by Parseval
/// ```
///
/// # Units
/// - `response`: by loudspeaker, then ear, see [`super::Response`]
/// - `dry`: what goes to each loudspeaker, full scale 1; of the same length, above 0
/// - returns: LKFS
///
/// # Source
/// ITU-R BS.1770-4; gating left out, as the sounds have no pauses to be left out.
#[must_use]
pub fn loudness_lkfs(dry: &[&[f32]], response: &[Vec<Vec<f32>>]) -> f64 {
    heard_level(dry, response).loudness_lkfs
}

/// How loud a sound comes out of a room.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeardLevel {
    /// See [`loudness_lkfs`].
    pub loudness_lkfs: f64,
    /// Largest sample at either ear, over the first round and any that follows it, in which the end of the one before still
    /// sounds.
    pub peak: f64,
}

/// Loudness as [`loudness_lkfs`], and the largest sample.
#[must_use]
pub fn heard_level(dry: &[&[f32]], response: &[Vec<Vec<f32>>]) -> HeardLevel {
    let length = dry.iter().map(|channel| channel.len()).max().unwrap_or(0);
    let tail = response.first().and_then(|channels| channels.first());
    let size = (length + tail.map_or(0, Vec::len))
        .next_power_of_two()
        .max(2);
    let mut planner = RealFftPlanner::<f32>::new();
    let forward = planner.plan_fft_forward(size);
    let sent: Vec<Vec<Complex<f32>>> = dry
        .iter()
        .map(|channel| spectrum(&forward, channel))
        .collect();
    let ears = response.first().map_or(0, Vec::len);
    let weighting: Vec<f64> = (0..=size / 2)
        .map(|bin| weighted_energy(bin as f64 * RATE_HZ / size as f64))
        .collect();
    let inverse = planner.plan_fft_inverse(size);
    let mut peak = 0.0_f64;
    let energy: f64 = (0..ears)
        .map(|ear| {
            let mut heard = vec![Complex::<f32>::ZERO; size / 2 + 1];
            for (sent, channels) in sent.iter().zip(response) {
                let through = spectrum(&forward, &channels[ear]);
                for (heard, (sent, through)) in heard.iter_mut().zip(sent.iter().zip(through)) {
                    *heard += sent * through;
                }
            }
            let terms = heard
                .iter()
                .zip(&weighting)
                .map(|(heard, weight)| f64::from(heard.norm_sqr()) * weight);
            let energy = 2.0 * terms.sum::<f64>() / size as f64;
            let mut samples = vec![0.0; size];
            for end in [0, size / 2] {
                heard[end].im = 0.0;
            }
            // It fails for wrong lengths only, and those are its own.
            let _ = inverse.process(&mut heard, &mut samples);
            peak = peak.max(largest(&samples, length) / size as f64);
            energy
        })
        .sum();
    HeardLevel {
        loudness_lkfs: OFFSET_LKFS + 10.0 * (energy / length as f64).log10(),
        peak,
    }
}

/// Largest size of a round that starts after silence, and of rounds that follow each other.
fn largest(samples: &[f32], round: usize) -> f64 {
    let mut going_on = vec![0.0_f64; round];
    let mut most = 0.0_f64;
    for part in samples.chunks(round.max(1)) {
        for (sum, sample) in going_on.iter_mut().zip(part) {
            *sum += f64::from(*sample);
            most = most.max(f64::from(sample.abs())).max(sum.abs());
        }
    }
    most
}

fn spectrum(forward: &Arc<dyn RealToComplex<f32>>, samples: &[f32]) -> Vec<Complex<f32>> {
    let mut padded = forward.make_input_vec();
    for (place, sample) in padded.iter_mut().zip(samples) {
        *place = *sample;
    }
    let mut spectrum = forward.make_output_vec();
    // It fails for wrong lengths only, and those are its own.
    let _ = forward.process(&mut padded, &mut spectrum);
    spectrum
}

/// |K|² at a frequency.
fn weighted_energy(frequency_hz: f64) -> f64 {
    let z = Complex64::from_polar(1.0, -TAU * frequency_hz / RATE_HZ);
    let filter =
        |[b0, b1, b2, a1, a2]: &[f64; 5]| ((z * *b2 + *b1) * z + *b0) / ((z * *a2 + *a1) * z + 1.0);
    K_WEIGHTING
        .iter()
        .map(filter)
        .product::<Complex64>()
        .norm_sqr()
}
