//! Octaves of the late sound as even as the bands of its noise: each is even by itself, yet neighbours beat with each other, and
//! a reading by octaves would take a beat for a part of the decay.

use std::f64::consts::PI;
use std::ops::Range;
use std::sync::Arc;

use num_complex::Complex;
use realfft::{ComplexToReal, RealFftPlanner, RealToComplex};

use super::clock::RATE_HZ;
use super::noise::{SLICE, slices};
use crate::bands::{BAND_1K, BANDS, exact_hz};

/// Bands of an octave.
const THIRDS: usize = 3;

/// Octaves, the first from the lowest band on.
pub const OCTAVES: usize = BANDS / THIRDS;

/// Halvings of the sample rate at which an octave is followed, at most: a slice stays whole samples.
const MOST_HALVINGS: u32 = 5;

/// Rounds: factors go straight from slice to slice, so that one is heard in the next as well.
const ROUNDS: usize = 4;

/// First octave, that of 2 kHz, that is evened out once: it is so wide that what its slices' factors send beside it, 100 Hz, is nothing
/// beside its own.
const ONCE_FROM: usize = 5;

/// Most by which the pressure of a slice is changed, as a factor.
const MOST_GAIN: f64 = 2.0;

/// Octaves of a transform, made once for all channels.
pub struct Octaves {
    size: usize,
    octaves: Vec<Octave>,
}

/// What belongs to one octave.
pub struct Share {
    octave: usize,
    inside: Range<usize>,
    /// Share of the pressure of each bin inside.
    shares: Vec<f32>,
    /// By band: energy of its share in the octave, where 1 is all of a white spectrum's.
    weights: [f64; BANDS],
    /// Slices over which it is evened out.
    pub reach: usize,
}

struct Octave {
    share: Share,
    halvings: u32,
    forward: Arc<dyn RealToComplex<f32>>,
    inverse: Arc<dyn ComplexToReal<f32>>,
}

impl Octaves {
    /// For transforms of a size that is a power of two.
    pub fn new(size: usize, planner: &mut RealFftPlanner<f32>) -> Self {
        let octave = |number: usize| {
            let share = Share::new(number, size);
            let end = share.inside.end;
            let halvings = (size / (3 * end)).max(1).ilog2().min(MOST_HALVINGS);
            Octave {
                share,
                halvings,
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
    /// - `pass`: how often it was done before
    pub fn even_out(
        &self,
        spectrum: &mut [Complex<f32>],
        start: usize,
        wanted: &[Vec<f64>],
        pass: usize,
    ) {
        let mut sum = vec![Complex::ZERO; spectrum.len()];
        for octave in &self.octaves {
            if pass > 0 && octave.share.octave >= ONCE_FROM {
                octave.share.add(&mut sum, spectrum);
            } else {
                octave.add(&mut sum, spectrum, start, wanted, self.size);
            }
        }
        spectrum.copy_from_slice(&sum);
    }
}

impl Share {
    /// Of an octave in transforms of a size.
    pub fn new(octave: usize, size: usize) -> Self {
        let inside = bins(octave, size);
        let mut weights = [0.0; BANDS];
        let shares = inside.clone().map(|bin| {
            let place = place(bin.max(1) as f64 * RATE_HZ / size as f64);
            let share = share(place, octave);
            let band = place.round().clamp(0.0, (BANDS - 1) as f64) as usize;
            weights[band] += 2.0 * share * share / size as f64;
            share as f32
        });
        Self {
            octave,
            shares: shares.collect(),
            inside,
            weights,
            reach: slices(THIRDS * octave + 1, THIRDS),
        }
    }

    /// Share of the pressure at a frequency.
    pub fn at_hz(&self, frequency_hz: f64) -> f64 {
        share(place(frequency_hz), self.octave)
    }

    /// Takes it from a spectrum, times a factor.
    pub fn take(&self, part: &mut [Complex<f32>], spectrum: &[Complex<f32>], factor: f32) {
        for (bin, share) in self.inside.clone().zip(&self.shares) {
            part[bin] = spectrum[bin] * (share * factor);
        }
        // A real signal has none there.
        part[0].im = 0.0;
        if let Some(last) = part.last_mut() {
            last.im = 0.0;
        }
    }

    /// Adds it to a sum as it is.
    fn add(&self, sum: &mut [Complex<f32>], spectrum: &[Complex<f32>]) {
        let inside = sum[self.inside.clone()].iter_mut();
        let all = inside.zip(&spectrum[self.inside.clone()]).zip(&self.shares);
        for ((sum, value), share) in all {
            *sum += value * share;
        }
    }

    /// What bands bring to it in each slice.
    pub fn of_bands(&self, bands: &[Vec<f64>]) -> Vec<f64> {
        let mut sums = vec![0.0; bands[0].len()];
        for (weight, energies) in self.weights.iter().zip(bands) {
            for (sum, energy) in sums.iter_mut().zip(energies) {
                *sum += weight * energy;
            }
        }
        sums
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
        self.share.take(&mut part, spectrum, 1.0 / short as f32);
        let mut samples = self.inverse.make_output_vec();
        // Both ways fail for wrong lengths only, and those are their own.
        let _ = self.inverse.process(&mut part, &mut samples);
        let (start, slice) = (start >> self.halvings, SLICE >> self.halvings);
        let wanted = self.share.of_bands(wanted);
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
            &gains(&wanted, &brought, self.share.reach),
        );
        let _ = self.forward.process(&mut samples, &mut part);
        for (sum, part) in sum.iter_mut().zip(&part) {
            *sum += part;
        }
    }
}

/// Lower edge of an octave, Hz.
pub fn lower_edge_hz(octave: usize) -> f64 {
    exact_hz(THIRDS * octave) * 10f64.powf(-0.05)
}

/// Place of a frequency among the bands.
fn place(frequency_hz: f64) -> f64 {
    BAND_1K as f64 + 10.0 * (frequency_hz / 1000.0).log10()
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
pub fn gains(wanted: &[f64], brought: &[f64], reach: usize) -> Vec<f64> {
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
pub fn shape(samples: &mut [f32], start: usize, slice: usize, gains: &[f64]) {
    let last = gains.len() - 1;
    let middle = start + slice / 2;
    let (before, rest) = samples.split_at_mut(middle.min(samples.len()));
    before
        .iter_mut()
        .for_each(|sample| *sample *= gains[0] as f32);
    for (number, part) in rest.chunks_mut(slice).enumerate() {
        let from = gains[number.min(last)];
        let step = ((gains[(number + 1).min(last)] - from) / slice as f64) as f32;
        for (n, sample) in part.iter_mut().enumerate() {
            *sample *= from as f32 + step * n as f32;
        }
    }
}
