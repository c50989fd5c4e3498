//! Octaves of the late sound as even as the bands of its noise: each is even by itself, yet neighbours beat with each other, and
//! a reading by octaves would take a beat for a part of the decay.

use std::f64::consts::PI;
use std::ops::Range;
use std::sync::Arc;

use num_complex::Complex;
use realfft::{ComplexToReal, RealFftPlanner, RealToComplex};

use super::clock::RATE_HZ;
use super::noise::{SLICE, slices};
use crate::bands::{BAND_1K, BANDS};

/// Bands of an octave.
const THIRDS: usize = 3;

/// Octaves, the first from the lowest band on.
const OCTAVES: usize = BANDS / THIRDS;

/// Halvings of the sample rate at which an octave is followed, at most: a slice stays whole samples.
const MOST_HALVINGS: u32 = 5;

/// Rounds: factors go straight from slice to slice, so that one is heard in the next as well.
const ROUNDS: usize = 4;

/// Most by which the pressure of a slice is changed, as a factor.
const MOST_GAIN: f64 = 2.0;

/// Octaves of a transform, made once for all channels.
pub struct Octaves {
    size: usize,
    octaves: Vec<Octave>,
}

struct Octave {
    inside: Range<usize>,
    /// Share of the pressure of each bin inside.
    shares: Vec<f32>,
    /// By band: energy of its share in the octave, where 1 is all of a white spectrum's.
    weights: [f64; BANDS],
    halvings: u32,
    /// Slices over which it is evened out.
    reach: usize,
    forward: Arc<dyn RealToComplex<f32>>,
    inverse: Arc<dyn ComplexToReal<f32>>,
}

impl Octaves {
    /// For transforms of a size that is a power of two.
    pub fn new(size: usize, planner: &mut RealFftPlanner<f32>) -> Self {
        let octave = |number: usize| {
            let inside = bins(number, size);
            let mut weights = [0.0; BANDS];
            let shares = inside.clone().map(|bin| {
                let place = place(bin, size);
                let share = share(place, number);
                let band = place.round().clamp(0.0, (BANDS - 1) as f64) as usize;
                weights[band] += 2.0 * share * share / size as f64;
                share as f32
            });
            let shares = shares.collect();
            let halvings = (size / (3 * inside.end)).max(1).ilog2().min(MOST_HALVINGS);
            Octave {
                inside,
                shares,
                weights,
                halvings,
                reach: slices(THIRDS * number + 1, THIRDS),
                forward: planner.plan_fft_forward(size >> halvings),
                inverse: planner.plan_fft_inverse(size >> halvings),
            }
        };
        Self {
            size,
            octaves: (0..OCTAVES).map(octave).collect(),
        }
    }

    /// Changes the late sound of a channel so that every octave brings in every slice what its bands are to bring.
    ///
    /// # Units
    /// - `start`: sample at which the first slice starts
    /// - `wanted`: by band, energy of each slice at the channel
    pub fn even_out(&self, spectrum: &mut [Complex<f32>], start: usize, wanted: &[Vec<f64>]) {
        let mut sum = vec![Complex::ZERO; spectrum.len()];
        for octave in &self.octaves {
            octave.add(&mut sum, spectrum, start, wanted, self.size);
        }
        spectrum.copy_from_slice(&sum);
    }
}

impl Octave {
    fn add(
        &self,
        sum: &mut [Complex<f32>],
        spectrum: &[Complex<f32>],
        start: usize,
        wanted: &[Vec<f64>],
        size: usize,
    ) {
        let short = size >> self.halvings;
        let mut part = self.inverse.make_input_vec();
        for (bin, share) in self.inside.clone().zip(&self.shares) {
            part[bin] = spectrum[bin] * share / short as f32;
        }
        // A real signal has none there.
        for end in [0, short / 2] {
            part[end].im = 0.0;
        }
        let mut samples = self.inverse.make_output_vec();
        // Both ways fail for wrong lengths only, and those are their own.
        let _ = self.inverse.process(&mut part, &mut samples);
        let (start, slice) = (start >> self.halvings, SLICE >> self.halvings);
        let wanted: Vec<f64> = (0..wanted[0].len())
            .map(|slice| {
                let bands = self.weights.iter().zip(wanted);
                bands.map(|(weight, energy)| weight * energy[slice]).sum()
            })
            .collect();
        // Of samples left out between those that are followed.
        let scale = short as f64 / size as f64;
        let brought: Vec<f64> = samples[start.min(short)..]
            .chunks(slice)
            .map(|part| scale * part.iter().map(|x| f64::from(x * x)).sum::<f64>())
            .chain(std::iter::repeat(0.0))
            .take(wanted.len())
            .collect();
        shape(
            &mut samples,
            start,
            slice,
            &gains(&wanted, &brought, self.reach),
        );
        let _ = self.forward.process(&mut samples, &mut part);
        for (sum, part) in sum.iter_mut().zip(&part) {
            *sum += part;
        }
    }
}

/// Place of a bin among the bands.
fn place(bin: usize, size: usize) -> f64 {
    let hz = bin.max(1) as f64 * RATE_HZ / size as f64;
    BAND_1K as f64 + 10.0 * (hz / 1000.0).log10()
}

/// Bins in which an octave has a share; the outer ones go on to the ends.
fn bins(octave: usize, size: usize) -> Range<usize> {
    let bin = |place: f64| {
        let hz = 1000.0 * 10f64.powf((place - BAND_1K as f64) / 10.0);
        (hz * size as f64 / RATE_HZ) as usize
    };
    let from = if octave == 0 {
        0
    } else {
        bin((THIRDS * octave) as f64 - 1.0)
    };
    let to = if octave + 1 == OCTAVES {
        size / 2 + 1
    } else {
        (bin((THIRDS * (octave + 1)) as f64) + 1).min(size / 2 + 1)
    };
    from..to
}

/// Share of the pressure at a place among the bands that belongs to an octave: fading to the next over the width of a band. All shares
/// sum to 1.
fn share(place: f64, octave: usize) -> f64 {
    let above = |octave: usize| {
        let x = (place - (THIRDS * octave) as f64 + 1.0).clamp(0.0, 1.0);
        match octave {
            0 => 1.0,
            OCTAVES => 0.0,
            _ => x * x * (3.0 - 2.0 * x),
        }
    };
    above(octave) - above(octave + 1)
}

/// Factors of every slice's pressure.
fn gains(wanted: &[f64], brought: &[f64], reach: usize) -> Vec<f64> {
    let last = wanted.len() - 1;
    let smooth_wanted = smooth(wanted, reach);
    let mut gains = vec![1.0f64; wanted.len()];
    for _ in 0..ROUNDS {
        let heard: Vec<f64> = (0..=last)
            .map(|slice| {
                let beside = gains[slice.saturating_sub(1)] + gains[(slice + 1).min(last)];
                let gain = (6.0 * gains[slice] + beside) / 8.0;
                brought[slice] * gain * gain
            })
            .collect();
        let heard = smooth(&heard, reach);
        for (gain, (wanted, heard)) in gains.iter_mut().zip(smooth_wanted.iter().zip(heard)) {
            if *wanted > 0.0 && heard > 0.0 {
                *gain = (*gain * (wanted / heard).sqrt()).clamp(MOST_GAIN.recip(), MOST_GAIN);
            }
        }
    }
    gains
}

/// Sums under a window that falls to nothing a reach away.
fn smooth(values: &[f64], reach: usize) -> Vec<f64> {
    let weight = |away: usize| (0.5 * PI * away as f64 / reach as f64).cos().powi(2);
    let weights: Vec<f64> = (0..reach).map(weight).collect();
    (0..values.len())
        .map(|middle| {
            let near = middle.saturating_sub(reach - 1)..(middle + reach).min(values.len());
            near.map(|n| weights[n.abs_diff(middle)] * values[n]).sum()
        })
        .collect()
}

/// Factors hold in the middle of each slice and go straight to the next.
fn shape(samples: &mut [f32], start: usize, slice: usize, gains: &[f64]) {
    let last = gains.len() - 1;
    let middle = start + slice / 2;
    let (before, rest) = samples.split_at_mut(middle.min(samples.len()));
    before
        .iter_mut()
        .for_each(|sample| *sample *= gains[0] as f32);
    for (number, part) in rest.chunks_mut(slice).enumerate() {
        let from = gains[number.min(last)];
        let step = ((gains[(number + 1).min(last)] - from) / slice as f64) as f32;
        let mut gain = from as f32;
        for sample in part {
            *sample *= gain;
            gain += step;
        }
    }
}
