//! Where a decay sinks into noise: the end up to which its energy is integrated, and what is missing beyond.

use std::f64::consts::LN_10;

/// First length of the means, s (10–50 ms).
const FIRST_MEAN_S: f64 = 0.02;

/// Means per 10 dB of decay in later rounds (3–10).
const MEANS_PER_10_DB: f64 = 5.0;

/// The line is fitted to means that stand this far above the noise, dB (5–10).
const ABOVE_NOISE_DB: f64 = 8.0;

/// Most of the decay that the line is fitted to, dB (10–20).
const FITTED_DB: f64 = 20.0;

/// The noise is read this far beyond the crossing, in dB of decay (5–10).
const BEYOND_DB: f64 = 8.0;

/// Share of the record that the noise is read from at least.
const NOISE_SHARE: f64 = 0.1;

/// Rounds; five are said to be enough.
const ROUNDS: usize = 5;

/// Noise that is as good as none, re the strongest mean.
const NO_NOISE: f64 = 1e-14;

/// What a recording's energy over time comes to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Crossing {
    /// Samples up to where decay and noise are equally strong, or to the end.
    pub samples: usize,
    /// Strongest mean over the noise, dB.
    pub above_noise_db: f64,
    /// Energy, in samples' squares, that the decay would still bring beyond.
    pub beyond: f64,
}

/// Finds the crossing of the decay and the noise; none where no decay stands out of the noise.
///
/// Lines through the logarithm of means and the noise behind their crossing, in turn.
///
/// # Units
/// - `energy`: square of each sample, from the direct sound on
///
/// # Source
/// Lundeby, Vigran, Bietz & Vorländer, Uncertainties of measurements in room acoustics, Acustica 81 (1995) 344–355 (from
/// memory); ISO 3382-1:2009, 5.3.3, for the energy beyond.
#[must_use]
pub fn crossing(energy: &[f64], sample_rate_hz: f64) -> Option<Crossing> {
    let latest = energy.len() - (NOISE_SHARE * energy.len() as f64) as usize;
    let mut per_mean = (FIRST_MEAN_S * sample_rate_hz) as usize;
    let mut noise = mean(&energy[latest..]);
    let mut line = Line::through(energy, per_mean, noise)?;
    let mut end = line.meets(noise, energy.len());
    for _ in 1..ROUNDS {
        let beyond = end + (BEYOND_DB / 10.0 * LN_10 / line.rate) as usize;
        noise = mean(&energy[beyond.min(latest)..]);
        per_mean = ((LN_10 / line.rate / MEANS_PER_10_DB) as usize).clamp(1, energy.len() / 8);
        line = Line::through(energy, per_mean, noise)?;
        end = line.meets(noise, energy.len());
    }
    let strongest = means(energy, (FIRST_MEAN_S * sample_rate_hz) as usize).fold(0.0, f64::max);
    Some(Crossing {
        samples: end,
        above_noise_db: 10.0 * (strongest / noise.max(NO_NOISE * strongest)).log10(),
        beyond: line.at(end) / line.rate,
    })
}

/// start · exp(−rate · n), n in samples; rate above 0.
#[derive(Clone, Copy, Debug)]
struct Line {
    start: f64,
    rate: f64,
}

impl Line {
    /// Least squares in the logarithm, through the lowest means that stand clear of the noise.
    fn through(energy: &[f64], per_mean: usize, noise: f64) -> Option<Self> {
        let means: Vec<f64> = means(energy, per_mean.max(1)).collect();
        let strongest = (0..means.len()).max_by(|&a, &b| means[a].total_cmp(&means[b]))?;
        let floor = noise.max(NO_NOISE * means[strongest]) * 10f64.powf(ABOVE_NOISE_DB / 10.0);
        let clear: Vec<(f64, f64)> = (strongest..means.len())
            .take_while(|&n| means[n] > floor)
            .map(|n| ((n as f64 + 0.5) * per_mean as f64, means[n].ln()))
            .collect();
        let lowest = clear.last()?.1;
        let fitted = |point: &&(f64, f64)| point.1 < lowest + FITTED_DB / 10.0 * LN_10;
        let points: Vec<(f64, f64)> = clear.iter().filter(fitted).copied().collect();
        let (slope, height) = straight_line(&points)?;
        (slope < 0.0).then_some(Self {
            start: height.exp(),
            rate: -slope,
        })
    }

    fn at(&self, samples: usize) -> f64 {
        self.start * (-self.rate * samples as f64).exp()
    }

    fn meets(&self, noise: f64, length: usize) -> usize {
        if noise <= 0.0 {
            return length;
        }
        (((self.start / noise).ln() / self.rate).max(1.0) as usize).min(length)
    }
}

/// Slope and height at 0 of the least-squares line through at least two points.
pub(super) fn straight_line(points: &[(f64, f64)]) -> Option<(f64, f64)> {
    if points.len() < 2 {
        return None;
    }
    let count = points.len() as f64;
    let (sum_x, sum_y) = points
        .iter()
        .fold((0.0, 0.0), |sum, p| (sum.0 + p.0, sum.1 + p.1));
    let (mean_x, mean_y) = (sum_x / count, sum_y / count);
    let (mut along, mut across) = (0.0, 0.0);
    for (x, y) in points {
        along += (x - mean_x) * (x - mean_x);
        across += (x - mean_x) * (y - mean_y);
    }
    let slope = across / along;
    Some((slope, mean_y - slope * mean_x))
}

fn means(energy: &[f64], per_mean: usize) -> impl Iterator<Item = f64> + '_ {
    energy.chunks_exact(per_mean.max(1)).map(mean)
}

fn mean(values: &[f64]) -> f64 {
    values.iter().sum::<f64>() / values.len().max(1) as f64
}
