//! Response at the seat over frequency: images with their phase above, the room's modes below, joined over an octave.

use std::f64::consts::PI;

use num_complex::Complex64;

use crate::bands::{BANDS, Banded, exact_hz};
use crate::numeric::{ROUNDING, energy_to_db};

/// Lowest frequency of the response, Hz.
pub const LOWEST_HZ: f64 = 20.0;

/// Points per octave.
pub const PER_OCTAVE: usize = 48;

/// Points up to 10 kHz.
pub const POINTS: usize = 431;

/// Third octaves below the 24 bands that the response reaches: 20, 25, 31.5, 40 Hz.
const THIRDS_BELOW: usize = 4;

/// Frequencies of the response, Hz: equal steps of its logarithm.
#[must_use]
pub fn frequencies_hz() -> Vec<f64> {
    (0..POINTS)
        .map(|i| LOWEST_HZ * (i as f64 / PER_OCTAVE as f64).exp2())
        .collect()
}

/// One image, or the direct sound, with phase.
#[derive(Clone, Debug, PartialEq)]
pub struct Wave {
    /// From the loudspeaker to the seat, s.
    pub time_s: f64,
    /// (frequency in Hz, pressure re the direct sound on axis at 1 m without the phase of the way), ascending, at least one.
    pub pressure: Vec<(f64, Complex64)>,
}

impl Wave {
    /// Adds its pressure, with the phase of the way, at ascending frequencies.
    fn add_to(&self, sum: &mut [Complex64], frequencies: &[Frequency]) {
        let turning = unwrapped(&self.pressure);
        let Some((first, last)) = turning.first().zip(turning.last()) else {
            return;
        };
        let mut above = 0;
        for (sum, f) in sum.iter_mut().zip(frequencies) {
            while above < turning.len() && turning[above].log_f < f.log {
                above += 1;
            }
            let (size, turns) = match above {
                0 => (first.size, first.turns),
                n if n == turning.len() => (last.size, last.turns),
                n => turning[n - 1].towards(&turning[n], f.log),
            };
            *sum += size * phasor(turns - f.hz * self.time_s);
        }
    }
}

/// A frequency with its logarithm, which every wave needs.
struct Frequency {
    hz: f64,
    log: f64,
}

/// A sampled pressure whose phase goes on from sample to sample.
struct Turning {
    log_f: f64,
    size: f64,
    turns: f64,
}

impl Turning {
    /// Size and phase between this sample and the next, straight over the logarithm of frequency.
    fn towards(&self, next: &Self, log_f: f64) -> (f64, f64) {
        let part = (log_f - self.log_f) / (next.log_f - self.log_f);
        (
            self.size + part * (next.size - self.size),
            self.turns + part * (next.turns - self.turns),
        )
    }
}

/// Samples with the phase that takes the shorter way from each to the next.
fn unwrapped(samples: &[(f64, Complex64)]) -> Vec<Turning> {
    let mut turns = 0.0;
    let mut before = Complex64::ONE;
    let go_on = |(f, pressure): &(f64, Complex64)| {
        turns += (pressure * before.conj()).arg() / (2.0 * PI);
        before = *pressure;
        Turning {
            log_f: f.ln(),
            size: pressure.norm(),
            turns,
        }
    };
    samples.iter().map(go_on).collect()
}

/// exp(2πj · turns), without branches or calls: thousands of them follow every move of the seat.
///
/// ```text
/// h = π (turns − whole),  |h| ≤ π/2:   cos 2h + j sin 2h = (cos h + j sin h)²,   Taylor to h¹²
/// ```
///
/// # Accuracy
/// 2e-7, for up to 10⁹ turns.
#[inline(always)]
#[must_use]
pub fn phasor(turns: f64) -> Complex64 {
    let h = PI * (turns - ((turns + ROUNDING) - ROUNDING));
    let h2 = h * h;
    let cosine = series(h2, [132.0, 90.0, 56.0, 30.0, 12.0, 2.0]);
    let sine = h * series(h2, [110.0, 72.0, 42.0, 20.0, 6.0]);
    Complex64::new(cosine * cosine - sine * sine, 2.0 * sine * cosine)
}

/// 1 − x/d_n (1 − x/d_(n−1) (1 − …)), from the innermost divisor on.
#[inline(always)]
fn series<const N: usize>(x: f64, divisors: [f64; N]) -> f64 {
    divisors
        .iter()
        .fold(1.0, |sum, d| 1.0 - x * sum * d.recip())
}

/// What one loudspeaker brings above the limit of statistics.
#[derive(Clone, Debug, PartialEq)]
pub struct Above {
    /// Direct sound and images that are summed with phase.
    pub waves: Vec<Wave>,
    /// Energy of all that comes without a known phase: images of higher order, late sound. Re direct on axis at 1 m.
    pub late: Banded,
}

/// Response of left, right and both, as energy re the direct sound of one loudspeaker on axis at 1 m.
#[derive(Clone, Debug, PartialEq)]
pub struct Response {
    /// Per loudspeaker.
    pub each: [Vec<f64>; 2],
    /// Both with the same signal: pressures of the waves sum, the late parts add as energy.
    pub both: Vec<f64>,
}

/// Response at ascending frequencies by images and late sound alone.
#[must_use]
pub fn above(loudspeakers: &[Above; 2], frequency_hz: &[f64]) -> Response {
    let frequencies: Vec<_> = frequency_hz
        .iter()
        .map(|&hz| Frequency { hz, log: hz.ln() })
        .collect();
    let sums = loudspeakers.each_ref().map(|one| {
        let mut sum = vec![Complex64::ZERO; frequency_hz.len()];
        for wave in &one.waves {
            wave.add_to(&mut sum, &frequencies);
        }
        sum
    });
    let late = loudspeakers
        .each_ref()
        .map(|one| late_at(one, frequency_hz));
    let each = [0, 1].map(|i| {
        let of_one = |(sum, late): (&Complex64, &f64)| sum.norm_sqr() + late;
        sums[i].iter().zip(&late[i]).map(of_one).collect()
    });
    let both = (0..frequency_hz.len())
        .map(|i| (sums[0][i] + sums[1][i]).norm_sqr() + late[0][i] + late[1][i])
        .collect();
    Response { each, both }
}

/// Energy of the late sound at each frequency.
fn late_at(loudspeaker: &Above, frequency_hz: &[f64]) -> Vec<f64> {
    let late = |f: &f64| loudspeaker.late.at_hz(*f);
    frequency_hz.iter().map(late).collect()
}

/// Joins a response of the bass to one above it, over the octave round `joining_hz`.
///
/// ```text
/// E = (1 − w) E_low + w E_high,   w = 3x² − 2x³,   x = log2(f / f_join) + ½, held to 0 … 1
/// ```
///
/// Energies are faded, not pressures: the upper part holds late sound whose phase is not known, and the two models do not
/// agree in phase closely enough to be summed; a sum of pressures would make dips that are in neither.
///
/// # Units
/// - `low`: (Hz, energy), ascending; the nearest value beyond its ends
/// - `high`: energy at `frequency_hz`
/// - `joining_hz`: Hz, > 0
#[must_use]
pub fn join(low: &[(f64, f64)], high: &[f64], frequency_hz: &[f64], joining_hz: f64) -> Vec<f64> {
    let joined = |(f, high): (&f64, &f64)| {
        let x = ((f / joining_hz).log2() + 0.5).clamp(0.0, 1.0);
        let w = x * x * (3.0 - 2.0 * x);
        let low = if low.is_empty() || w == 1.0 {
            *high
        } else {
            energy_at(low, *f)
        };
        (1.0 - w) * low + w * high
    };
    frequency_hz.iter().zip(high).map(joined).collect()
}

/// Energy between given frequencies, linear in frequency: the grid of the bass is finer than its peaks.
fn energy_at(points: &[(f64, f64)], frequency_hz: f64) -> f64 {
    let above = points.partition_point(|(f, _)| *f < frequency_hz);
    let below = above.checked_sub(1).and_then(|i| points.get(i));
    match (below, points.get(above)) {
        (Some((f0, e0)), Some((f1, e1))) => e0 + (frequency_hz - f0) / (f1 - f0) * (e1 - e0),
        (Some((_, e)), None) | (None, Some((_, e))) => *e,
        (None, None) => 0.0,
    }
}

/// Third octaves from 20 Hz to 10 kHz: (exact centre in Hz, mean energy of the points within).
///
/// ```text
/// f_n = 1000 · 10^(n/10),   edges f_n · 10^(±1/20)
/// ```
///
/// Every point weighs alike, as with pink noise. The lowest and highest bands hold only what of them lies in the response.
///
/// # Source
/// IEC 61260-1:2014, base-ten system.
#[must_use]
pub fn third_octaves(frequency_hz: &[f64], energy: &[f64]) -> Vec<(f64, f64)> {
    let mut sums = [(0.0, 0.0); BANDS + THIRDS_BELOW];
    let lowest_hz = exact_hz(0) * 10f64.powf(-(THIRDS_BELOW as f64) / 10.0);
    for (f, energy) in frequency_hz.iter().zip(energy) {
        let third = (10.0 * (f / lowest_hz).log10()).round();
        if third >= 0.0
            && let Some((sum, count)) = sums.get_mut(third as usize)
        {
            *sum += energy;
            *count += 1.0;
        }
    }
    let mean = |(third, (sum, count)): (usize, (f64, f64))| {
        let centre_hz = lowest_hz * 10f64.powf(third as f64 / 10.0);
        (count > 0.0).then_some((centre_hz, sum / count))
    };
    sums.into_iter().enumerate().filter_map(mean).collect()
}

/// Levels of energies, dB.
#[must_use]
pub fn levels_db(energy: &[f64]) -> Vec<f64> {
    energy.iter().copied().map(energy_to_db).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_phasor_keeps_to_sine_and_cosine() {
        for i in -20_000..20_000 {
            let turns = f64::from(i) * 0.037_31;
            let exact = Complex64::from_polar(1.0, 2.0 * PI * turns);
            assert!((phasor(turns) - exact).norm() < 2e-7, "{turns} turns");
        }
    }
}
