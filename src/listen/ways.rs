//! Direct sound and images as samples: each at its exact time, with its spectrum and with what the head does to it.

use std::f64::consts::TAU;

use glam::DVec3;
use num_complex::{Complex, Complex64};
use realfft::RealFftPlanner;

use super::clock::{LEAD_S, RATE_HZ};
use super::crossover::{held_back_treble, upper_pressure};
use super::first_part::{OCTAVES, bins as octave_bins};
use super::head::{AtEar, EARS, Pickup, Sphere};
use crate::bands::{BANDS, Banded};
use crate::seat::phasor;
use crate::spectrum::{FINE, OCTAVES as GRID_OCTAVES, frequency_hz};

/// Sound on one way from a loudspeaker to the seat.
#[derive(Clone, Debug, PartialEq)]
pub struct Way {
    /// From loudspeaker to seat, s.
    pub time_s: f64,
    /// Unit vector towards where it comes from.
    pub direction: DVec3,
    /// Energy per band re the direct sound on axis at 1 m.
    pub energy: Banded,
    /// Its phase: (Hz, pressure) on the fine grid of [`crate::spectrum`]; without one it comes as a pulse that is even about
    /// its time.
    pub pressure: Vec<(f64, Complex64)>,
}

/// Room behind the last arrival for what rings after it, s.
const RINGING_S: f64 = 0.03;

/// The ways of one loudspeaker as samples, one series per channel of the pickup; a way of time 0 stands at [`LEAD_S`].
///
/// `joining_hz`: below it the ways give way to the modes, see [`upper_pressure`]; none where they go on to the bottom.
#[must_use]
pub fn render_ways(
    ways: &[Way],
    sphere: &Sphere,
    pickup: Pickup,
    joining_hz: Option<f64>,
) -> Vec<Vec<f32>> {
    render_with_energies(ways, sphere, pickup, joining_hz).samples
}

/// Ways as samples, and what their energies add up to, each for itself.
pub struct RenderedWays {
    /// By channel.
    pub samples: Vec<Vec<f32>>,
    /// Per octave of [`super::first_part`], over all channels: mean of |spectrum|².
    pub energy: [f64; OCTAVES],
}

/// As [`render_ways`].
pub fn render_with_energies(
    ways: &[Way],
    sphere: &Sphere,
    pickup: Pickup,
    joining_hz: Option<f64>,
) -> RenderedWays {
    let latest_s = ways.iter().map(|way| way.time_s).fold(0.0, f64::max);
    let length = ((LEAD_S + latest_s + RINGING_S) * RATE_HZ) as usize;
    let bins = Bins::new(length.next_power_of_two(), joining_hz);
    let mut sums = vec![vec![Complex64::ZERO; bins.places.len()]; pickup.channels()];
    let mut energy = [0.0; OCTAVES];
    let mut heard = vec![Complex64::ZERO; bins.places.len()];
    for way in ways {
        let own = bins.spectrum(way);
        for (channel, sum) in sums.iter_mut().enumerate() {
            let at_ear = match pickup {
                Pickup::Head => sphere.heard_from(way.direction, EARS[channel]),
                Pickup::Point => AtEar::unchanged(),
            };
            bins.hear(&mut heard, &own, &at_ear);
            bins.add(sum, &heard, LEAD_S + way.time_s + at_ear.delay_s);
            bins.add_energy(&mut energy, &heard);
        }
    }
    let samples = sums
        .into_iter()
        .map(|sum| samples(sum, &bins.weight, bins.length));
    RenderedWays {
        samples: samples.collect(),
        energy,
    }
}

/// Back to time.
fn samples(sum: Vec<Complex64>, weight: &[f64], length: usize) -> Vec<f32> {
    let mut spectrum: Vec<Complex<f32>> = sum
        .into_iter()
        .zip(weight)
        .map(|(value, weight)| {
            let value = value * (weight / length as f64);
            Complex::new(value.re as f32, value.im as f32)
        })
        .collect();
    // A real signal has none there.
    for end in [0, length / 2] {
        spectrum[end].im = 0.0;
    }
    let mut samples = vec![0.0; length];
    let inverse = RealFftPlanner::<f32>::new().plan_fft_inverse(length);
    // It fails for wrong lengths only, and those are its own.
    let _ = inverse.process(&mut spectrum, &mut samples);
    samples
}

/// The frequencies of a transform, with their places among the bands.
struct Bins {
    length: usize,
    step_hz: f64,
    /// Place on the fine grid, 0 … FINE − 1.
    places: Vec<f64>,
    weight: Vec<f64>,
}

impl Bins {
    fn new(length: usize, joining_hz: Option<f64>) -> Self {
        let step_hz = RATE_HZ / length as f64;
        let per_octave = (FINE / GRID_OCTAVES) as f64;
        let lowest_hz = frequency_hz::<FINE>(0);
        let all = || (0..=length / 2).map(|bin| bin as f64 * step_hz);
        let place = |hz: f64| {
            let place = per_octave * (hz.max(1.0) / lowest_hz).log2();
            place.clamp(0.0, (FINE - 1) as f64)
        };
        let weight = |hz: f64| {
            let upper = joining_hz.map_or(1.0, |joining_hz| upper_pressure(hz, joining_hz));
            upper * held_back_treble(hz)
        };
        Self {
            length,
            step_hz,
            places: all().map(place).collect(),
            weight: all().map(weight).collect(),
        }
    }

    /// Pressure of a way at every bin, without its delay and the head.
    fn spectrum(&self, way: &Way) -> Vec<Complex64> {
        let (size, turns) = sizes_and_turns(way);
        let at = |place: &f64| {
            let below = (*place as usize).min(FINE - 2);
            let part = place - below as f64;
            let between = |row: &[f64; FINE]| row[below] + part * (row[below + 1] - row[below]);
            let size = between(&size);
            match &turns {
                Some(turns) => phasor(between(turns)) * size,
                None => Complex64::from(size),
            }
        };
        self.places.iter().map(at).collect()
    }

    /// Pressure of a way at an ear, without its delay.
    fn hear(&self, heard: &mut [Complex64], own: &[Complex64], at_ear: &AtEar) {
        for (bin, (heard, own)) in heard.iter_mut().zip(own).enumerate() {
            *heard = own * at_ear.rest_at(bin as f64 * self.step_hz);
        }
    }

    /// Adds a way's energy in each octave.
    fn add_energy(&self, energy: &mut [f64; OCTAVES], heard: &[Complex64]) {
        for (octave, sum) in energy.iter_mut().enumerate() {
            let inside = octave_bins(octave, self.step_hz);
            let count = inside.len() as f64;
            let pairs = heard[inside.clone()].iter().zip(&self.weight[inside]);
            let all = pairs.map(|(heard, weight)| heard.norm_sqr() * weight * weight);
            *sum += all.sum::<f64>() / count;
        }
    }

    /// Adds a way's pressure as it is heard at a time.
    fn add(&self, sum: &mut [Complex64], heard: &[Complex64], time_s: f64) {
        let turn = Complex64::from_polar(1.0, -TAU * self.step_hz * time_s);
        let mut delay = Complex64::ONE;
        for (sum, heard) in sum.iter_mut().zip(heard) {
            *sum += heard * delay;
            delay *= turn;
        }
    }
}

/// Size on the fine grid, of the band's energy exactly, and phase in turns that goes on from frequency to frequency.
fn sizes_and_turns(way: &Way) -> ([f64; FINE], Option<[f64; FINE]>) {
    const PER_BAND: usize = FINE / BANDS;
    if way.pressure.len() != FINE {
        let smooth = |i: usize| way.energy.at_hz(frequency_hz::<FINE>(i)).max(0.0).sqrt();
        return (std::array::from_fn(smooth), None);
    }
    let mut sizes = std::array::from_fn(|i| way.pressure[i].1.norm());
    for (band, sizes) in sizes.chunks_exact_mut(PER_BAND).enumerate() {
        let energy = sizes.iter().map(|size| size * size).sum::<f64>() / PER_BAND as f64;
        let scale = if energy > 0.0 {
            (way.energy[band] / energy).sqrt()
        } else {
            0.0
        };
        sizes.iter_mut().for_each(|size| *size *= scale);
    }
    let mut turns = 0.0;
    let mut before = Complex64::ONE;
    let turns = std::array::from_fn(|i| {
        let pressure = way.pressure[i].1;
        turns += (pressure * before.conj()).arg() / TAU;
        before = pressure;
        turns
    });
    (sizes, Some(turns))
}
