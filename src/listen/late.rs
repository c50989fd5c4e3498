//! The late sound: noise of each band under the decay that the report gives it.

use std::sync::Arc;

use num_complex::Complex;
use realfft::{ComplexToReal, RealFftPlanner, RealToComplex};

use super::clock::{LEAD_S, RATE_HZ};
use super::crossover::upper_pressure;
use super::low::EVERY;
use super::noise::{Noise, PERIOD, SLICE};
use super::octaves::Octaves;
use crate::bands::{BAND_1K, BANDS, Banded, exact_hz};

/// What a loudspeaker's late sound brings in one band in each 10 ms from a time on.
#[derive(Clone, Debug, PartialEq)]
pub struct LateSlices {
    /// When the first slice starts, after the sound left the loudspeaker, s.
    pub from_s: f64,
    /// Per band, energy of every slice re the direct sound on axis at 1 m.
    pub energy: Vec<Vec<f64>>,
}

impl LateSlices {
    /// From what comes after a time, per band.
    ///
    /// # Units
    /// - `after`: (band, time after the sound left, s) to energy re the direct sound on axis at 1 m
    /// - `until_s`: end of the last slice, s
    #[must_use]
    pub fn new(from_s: f64, until_s: f64, after: impl Fn(usize, f64) -> f64) -> Self {
        let slice_s = SLICE as f64 / RATE_HZ;
        let count = ((until_s - from_s) / slice_s).ceil().max(1.0) as usize;
        let band = |band: usize| {
            let edges: Vec<f64> = (0..=count)
                .map(|slice| after(band, from_s + slice as f64 * slice_s))
                .collect();
            edges
                .windows(2)
                .map(|edge| (edge[0] - edge[1]).max(0.0))
                .collect()
        };
        Self {
            from_s,
            energy: (0..BANDS).map(band).collect(),
        }
    }

    /// Sample at which the first slice starts.
    fn start(&self) -> usize {
        ((LEAD_S + self.from_s) * RATE_HZ).round() as usize
    }

    fn slices(&self) -> usize {
        self.energy.iter().map(Vec::len).max().unwrap_or(0)
    }

    /// Sample at which the last one ends.
    pub fn end(&self) -> usize {
        self.start() + SLICE * self.slices()
    }
}

/// Energy per third octave that each channel hears of the late sound in the first so many slices.
pub fn heard_energy(
    late: &LateSlices,
    slices: usize,
    noise: &Noise,
    joining_hz: Option<f64>,
) -> [f64; BANDS] {
    std::array::from_fn(|band| {
        heard(band, noise, joining_hz) * late.energy[band].iter().take(slices).sum::<f64>()
    })
}

/// Share of a band's late energy that a channel hears.
fn heard(band: usize, noise: &Noise, joining_hz: Option<f64>) -> f64 {
    let kept = joining_hz.map_or(1.0, |joining_hz| upper_pressure(exact_hz(band), joining_hz));
    kept * kept * noise.loudness(band)
}

/// The late sound of one loudspeaker.
pub struct RenderedLate {
    /// By channel, of `length` samples or fewer where it ends before.
    pub samples: Vec<Vec<f32>>,
    /// By channel, the lowest bins of its transform, as many as one at every [`EVERY`]th sample has.
    pub bass: Vec<Vec<Complex<f32>>>,
    /// Size of that transform before.
    pub size: usize,
    /// When the first slice starts, after the sound left the loudspeaker, s.
    pub from_s: f64,
    /// Sample at which it does.
    pub start: usize,
    /// By band, energy that each slice is to bring at a channel.
    pub wanted: Vec<Vec<f64>>,
}

/// The late sound of one loudspeaker, no longer than `length` samples.
///
/// ```text
/// p = n √(E / 480)      E the slice's energy, n noise of variance 1
/// ```
///
/// The factor goes straight from the middle of one slice to that of the next. `number` of the loudspeaker sets its noise
/// apart from that of the other. In the end every band is set to its energy over all, and every octave to its energy slice by
/// slice: chance, beats between bands, and what evening out the noise sends into the bands beside it, are taken off.
#[must_use]
pub fn render_late(
    length: usize,
    late: &LateSlices,
    number: usize,
    noise: &mut Noise,
    joining_hz: Option<f64>,
    setting: &Setting,
) -> RenderedLate {
    let (start, slices) = (late.start(), late.slices());
    let shift = number * PERIOD / 2;
    let length = length.min(late.end());
    let mut sums = vec![vec![0.0; length]; noise.pickup().channels()];
    let wanted: Vec<Vec<f64>> = (0..BANDS)
        .map(|band| {
            let heard = heard(band, noise, joining_hz);
            late.energy[band]
                .iter()
                .map(|energy| heard * energy)
                .collect()
        })
        .collect();
    let targets = heard_energy(late, slices, noise, joining_hz);
    for (band, energy) in late.energy.iter().enumerate() {
        let kept = joining_hz.map_or(1.0, |joining_hz| upper_pressure(exact_hz(band), joining_hz));
        if kept == 0.0 {
            continue;
        }
        let factors: Vec<f32> = energy
            .iter()
            .map(|energy| (kept * (energy / SLICE as f64).sqrt()) as f32)
            .collect();
        for (sum, noise) in sums.iter_mut().zip(noise.band(band)) {
            add_shaped(&mut sum[start.min(length)..], &factors, noise, shift);
        }
    }
    let set = sums
        .into_iter()
        .map(|samples| setting.set(samples, start, &wanted, &targets));
    let (samples, bass) = set.unzip();
    RenderedLate {
        samples,
        bass,
        size: setting.forward.len(),
        from_s: late.from_s,
        start,
        wanted,
    }
}

/// Rounds of setting the bands' energies: a gain that goes smoothly from band to band hits each nearly at once.
const ROUNDS: usize = 3;

/// Most by which a band's pressure is changed, as a factor.
const MOST_GAIN: f64 = 3.0;

/// Passes in which octaves are evened out: what one sends into the octaves beside it, the next takes off.
const PASSES: usize = 2;

/// What sets the late sound of every loudspeaker and channel.
pub struct Setting {
    step_hz: f64,
    /// Of every bin.
    places: Vec<(usize, f64)>,
    octaves: Octaves,
    forward: Arc<dyn RealToComplex<f32>>,
    inverse: Arc<dyn ComplexToReal<f32>>,
}

impl Setting {
    /// For so many samples.
    pub fn new(length: usize) -> Self {
        let size = length.next_power_of_two().max(2 * EVERY);
        let step_hz = RATE_HZ / size as f64;
        let mut planner = RealFftPlanner::<f32>::new();
        Self {
            step_hz,
            places: (0..=size / 2)
                .map(|bin| place(bin.max(1) as f64 * step_hz))
                .collect(),
            octaves: Octaves::new(size, &mut planner),
            forward: planner.plan_fft_forward(size),
            inverse: planner.plan_fft_inverse(size),
        }
    }

    /// Sets every band's energy over all, and every octave's in each slice; hands over the lowest bins as well.
    fn set(
        &self,
        mut samples: Vec<f32>,
        start: usize,
        wanted: &[Vec<f64>],
        targets: &[f64; BANDS],
    ) -> (Vec<f32>, Vec<Complex<f32>>) {
        let length = samples.len();
        let size = self.forward.len();
        samples.resize(size, 0.0);
        let mut spectrum = self.forward.make_output_vec();
        // Both ways fail for wrong lengths only, and those are their own.
        let _ = self.forward.process(&mut samples, &mut spectrum);
        self.set_bands(&mut spectrum, targets);
        for pass in 0..PASSES {
            self.octaves.even_out(&mut spectrum, start, wanted, pass);
        }
        self.set_bands(&mut spectrum, targets);
        let bass = spectrum[..=size / EVERY / 2].to_vec();
        spectrum.iter_mut().for_each(|value| *value /= size as f32);
        let _ = self.inverse.process(&mut spectrum, &mut samples);
        samples.truncate(length);
        (samples, bass)
    }

    /// Sets the mean of |spectrum|² in every band that has a target.
    fn set_bands(&self, spectrum: &mut [Complex<f32>], targets: &[f64; BANDS]) {
        for _ in 0..ROUNDS {
            let gain = gains(spectrum, targets, self.step_hz);
            for (value, (band, part)) in spectrum.iter_mut().zip(&self.places) {
                *value *= (gain[*band] + part * (gain[band + 1] - gain[*band])) as f32;
            }
        }
    }
}

/// The band below a frequency, and how far it lies on the way to the next; beyond the outer ones, those.
fn place(frequency_hz: f64) -> (usize, f64) {
    let place = BAND_1K as f64 + 10.0 * (frequency_hz / 1000.0).log10();
    let place = place.clamp(0.0, (BANDS - 1) as f64);
    let below = (place as usize).min(BANDS - 2);
    (below, place - below as f64)
}

/// By how much the pressure of each band has to be changed.
fn gains(spectrum: &[Complex<f32>], targets: &[f64; BANDS], step_hz: f64) -> Banded {
    Banded::from_fn(|band| {
        let bin =
            |exponent: f64| (exact_hz(band) * 10f64.powf(exponent) / step_hz).round() as usize;
        let inside = &spectrum[bin(-0.05)..bin(0.05)];
        let energy: f64 = inside.iter().map(|value| f64::from(value.norm_sqr())).sum();
        if targets[band] == 0.0 || energy == 0.0 {
            return 1.0;
        }
        let mean = energy / inside.len() as f64;
        (targets[band] / mean)
            .sqrt()
            .clamp(MOST_GAIN.recip(), MOST_GAIN)
    })
}

/// Adds noise under factors that hold in the middle of each slice.
fn add_shaped(sum: &mut [f32], factors: &[f32], noise: &[f32], shift: usize) {
    let last = factors.len() - 1;
    let halves = sum.chunks_mut(SLICE / 2);
    for (half, part) in halves.enumerate().take(2 * factors.len()) {
        let slice = half / 2;
        // Before its middle a slice looks back, behind it ahead.
        let (from, to) = if half % 2 == 0 {
            (
                0.5 * (factors[slice.saturating_sub(1)] + factors[slice]),
                factors[slice],
            )
        } else {
            (
                factors[slice],
                0.5 * (factors[slice] + factors[(slice + 1).min(last)]),
            )
        };
        let step = (to - from) / (SLICE / 2) as f32;
        // Halves of slices fill the period.
        let first = (half * (SLICE / 2) + shift) % noise.len();
        let noise = noise[first..].iter();
        for (n, (sample, noise)) in part.iter_mut().zip(noise).enumerate() {
            *sample += (from + step * n as f32) * noise;
        }
    }
}
