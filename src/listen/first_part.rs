//! The first 50 ms as loud as the report counts them.
//!
//! The report adds the energies of images, as their phases are not known to the centimetre; a response has one set of phases, by
//! whose chance its octaves would be stronger or weaker. Direct sound and late sound are left as they are.

use num_complex::Complex;
use realfft::{RealFftPlanner, RealToComplex};
use std::sync::Arc;

use super::clock::RATE_HZ;
use crate::bands::{BAND_1K, exact_hz};

/// Edge of what counts as early, s after the direct sound.
///
/// # Source
/// ISO 3382-1:2009, A.2.3: C50.
pub const EDGE_S: f64 = 0.05;

/// Octaves that are set, 125 Hz … 8 kHz.
pub const OCTAVES: usize = 7;

/// The middle of the first of them among the third octaves.
pub const FIRST_BAND: usize = 4;

/// Most by which the images' pressure is changed, as a factor.
const MOST_GAIN: f64 = 2.0;

/// Rounds: a gain that goes smoothly from octave to octave hits each nearly at once.
const ROUNDS: usize = 3;

/// Bins of an octave.
pub fn bins(octave: usize, step_hz: f64) -> std::ops::Range<usize> {
    let middle_hz = exact_hz(FIRST_BAND + 3 * octave);
    let bin = |exponent: f64| (middle_hz * 10f64.powf(exponent) / step_hz).round() as usize;
    bin(-0.15)..bin(0.15)
}

/// Changes the images so that they and what is beside them have the energies given, over all channels, up to the edge.
///
/// ```text
/// |x|² + 2 g ⟨x, i⟩ + g² |i|² = target      x beside, i the images, g the gain of an octave
/// ```
///
/// # Units
/// - `beside`: what else sounds there, by channel
/// - `edge`: samples up to which energy counts
/// - `targets`: per octave, mean of |spectrum|²
pub fn set_images(
    images: &mut [Vec<f32>],
    beside: &[Vec<f32>],
    edge: usize,
    targets: &[f64; OCTAVES],
) {
    let longest = images.iter().map(Vec::len).max().unwrap_or(0);
    let size = longest.max(edge).next_power_of_two().max(2);
    let mut planner = RealFftPlanner::<f32>::new();
    let forward = planner.plan_fft_forward(size);
    let inverse = planner.plan_fft_inverse(size);
    let beside: Vec<Vec<Complex<f32>>> = beside
        .iter()
        .map(|samples| spectrum(&forward, &samples[..edge.min(samples.len())]))
        .collect();
    for _ in 0..ROUNDS {
        let cut: Vec<Vec<Complex<f32>>> = images
            .iter()
            .map(|samples| spectrum(&forward, &samples[..edge.min(samples.len())]))
            .collect();
        let gains = gains(&beside, &cut, targets, RATE_HZ / size as f64);
        for samples in images.iter_mut() {
            let mut whole = spectrum(&forward, samples);
            for (bin, value) in whole.iter_mut().enumerate() {
                let gain = gain_at(&gains, bin as f64 * RATE_HZ / size as f64);
                *value *= (gain / size as f64) as f32;
            }
            let mut changed = inverse.make_output_vec();
            // It fails for wrong lengths only, and those are its own.
            let _ = inverse.process(&mut whole, &mut changed);
            for (sample, changed) in samples.iter_mut().zip(changed) {
                *sample = changed;
            }
        }
    }
}

fn spectrum(forward: &Arc<dyn RealToComplex<f32>>, samples: &[f32]) -> Vec<Complex<f32>> {
    let mut padded = forward.make_input_vec();
    padded[..samples.len()].copy_from_slice(samples);
    let mut spectrum = forward.make_output_vec();
    // It fails for wrong lengths only, and those are its own.
    let _ = forward.process(&mut padded, &mut spectrum);
    spectrum
}

/// The gain of each octave; where the target is out of reach, the one that comes nearest.
fn gains(
    beside: &[Vec<Complex<f32>>],
    images: &[Vec<Complex<f32>>],
    targets: &[f64; OCTAVES],
    step_hz: f64,
) -> [f64; OCTAVES] {
    std::array::from_fn(|octave| {
        let bins = bins(octave, step_hz);
        let mean = |of: fn(Complex<f32>, Complex<f32>) -> f32| {
            let both = beside.iter().zip(images);
            let sums = both.map(|(x, i)| {
                let pairs = x[bins.clone()].iter().zip(&i[bins.clone()]);
                pairs.map(|(x, i)| f64::from(of(*x, *i))).sum::<f64>()
            });
            sums.sum::<f64>() / bins.len() as f64
        };
        let beside_energy = mean(|x, _| x.norm_sqr());
        let both = mean(|x, i| x.re * i.re + x.im * i.im);
        let image_energy = mean(|_, i| i.norm_sqr());
        if targets[octave] == 0.0 || image_energy == 0.0 {
            return 1.0;
        }
        let root = both * both + image_energy * (targets[octave] - beside_energy);
        let gain = (root.max(0.0).sqrt() - both) / image_energy;
        gain.clamp(MOST_GAIN.recip(), MOST_GAIN)
    })
}

/// Straight from the middle of an octave to that of the next.
fn gain_at(gains: &[f64; OCTAVES], frequency_hz: f64) -> f64 {
    let band = BAND_1K as f64 + 10.0 * (frequency_hz.max(1.0) / 1000.0).log10();
    let place = ((band - FIRST_BAND as f64) / 3.0).clamp(0.0, (OCTAVES - 1) as f64);
    let below = (place as usize).min(OCTAVES - 2);
    gains[below] + (place - below as f64) * (gains[below + 1] - gains[below])
}
