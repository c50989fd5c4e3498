//! Reads decay times and clarity off a measured impulse response, band by band, as ISO 3382 does: octave filter, end of
//! the decay where noise takes over, backward integration, straight line. Written without a look at the code it is there
//! to check.

pub use crate::support::reading::sixty_db_time_s as read_decay_curve;
use std::f64::consts::{LN_10, PI};
use std::path::Path;

/// Level below the peak at which the direct sound begins, dB.
///
/// # Source
/// ISO 3382-1:2009, A.3.4 (from memory, medium).
const ONSET_DB: f64 = -20.0;

/// Share of the record, at its end, that gives the first estimate of the noise (Lundeby et al. 1995, step 2).
const NOISE_SHARE: f64 = 0.1;

/// Distance above the noise at which the fit of the slope ends, dB (Lundeby et al. 1995, step 3: 5 to 10 dB).
const ABOVE_NOISE_DB: f64 = 8.0;

/// Range above that end over which the late slope is taken, dB (Lundeby et al. 1995, step 8: 10 to 20 dB).
const LATE_RANGE_DB: f64 = 20.0;

/// Decay beyond the end of the curve after which the noise is read anew, dB (Lundeby et al. 1995, step 7: 5 to 10 dB).
const BEYOND_END_DB: f64 = 8.0;

/// Averaging intervals for 10 dB of decay (Lundeby et al. 1995, step 5: 3 to 10).
const INTERVALS_PER_10_DB: f64 = 6.0;

/// First averaging interval, s (Lundeby et al. 1995, step 1: 10 to 50 ms).
const FIRST_INTERVAL_S: f64 = 0.01;

/// Rounds in which end, noise and slope settle; five are said to be enough.
const ROUNDS: usize = 5;

/// An impulse response of one channel.
#[derive(Clone, Debug)]
pub struct Impulse {
    /// Samples per second.
    pub sample_rate_hz: f64,
    /// Pressure, any unit.
    pub samples: Vec<f64>,
}

/// What is read in one octave band.
#[derive(Clone, Copy, Debug)]
pub struct BandReading {
    /// From 0 to −10 dB, s; NaN where the noise is reached before the end of the range, as in the next two.
    pub edt_s: f64,
    /// From −5 to −25 dB, s.
    pub t20_s: f64,
    /// From −5 to −35 dB, s.
    pub t30_s: f64,
    /// Early (50 ms) to late energy, dB.
    pub c50_db: f64,
}

/// All channels of a WAV file of 32-bit floats.
///
/// # Panics
/// If it cannot be read as that.
pub fn read_wav(path: &Path) -> Vec<Impulse> {
    let mut reader =
        hound::WavReader::open(path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    let spec = reader.spec();
    let all: Vec<f64> = reader
        .samples::<f32>()
        .map(|sample| f64::from(sample.expect("a 32-bit float")))
        .collect();
    let channels = usize::from(spec.channels);
    (0..channels)
        .map(|channel| Impulse {
            sample_rate_hz: f64::from(spec.sample_rate),
            samples: all
                .iter()
                .skip(channel)
                .step_by(channels)
                .copied()
                .collect(),
        })
        .collect()
}

impl Impulse {
    /// Place of the first sample within 20 dB of the strongest.
    pub fn onset(&self) -> usize {
        let peak = self
            .samples
            .iter()
            .fold(0.0, |most: f64, s| most.max(s.abs()));
        let limit = peak * 10.0_f64.powf(ONSET_DB / 20.0);
        self.samples
            .iter()
            .position(|s| s.abs() >= limit)
            .unwrap_or(0)
    }

    /// Reads one octave band.
    ///
    /// # Units
    /// - `center_hz`: exact middle of the band, its upper edge below half the sample rate
    pub fn read_octave(&self, center_hz: f64) -> BandReading {
        let step_s = 1.0 / self.sample_rate_hz;
        let curve_db = self.decay_curve_db(center_hz);
        let read = |from_db, to_db| read_decay_curve(&curve_db, step_s, from_db, to_db);
        BandReading {
            edt_s: read(0.0, -10.0),
            t20_s: read(-5.0, -25.0),
            t30_s: read(-5.0, -35.0),
            c50_db: self.clarity_db(center_hz, 0.05),
        }
    }

    /// Backward-integrated decay of one octave band from the direct sound on, dB re its start, one value per sample.
    ///
    /// The band is filtered from the end to the start, so that the filter's own ringing goes ahead of the decay.
    ///
    /// # Source
    /// ISO 3382-1:2009, 5.3.3; time-reversed filter: Jacobsen and Rindel, J. Sound Vib. 117 (1987) 187-190.
    pub fn decay_curve_db(&self, center_hz: f64) -> Vec<f64> {
        let mut samples = self.samples.clone();
        samples.reverse();
        let mut band = OctaveFilter::new(center_hz, self.sample_rate_hz).run(&samples);
        band.reverse();
        let energy: Vec<f64> = band[self.onset()..].iter().map(|s| s * s).collect();
        let end = DecayEnd::find(&energy, self.sample_rate_hz);
        let mut sum = end.rest();
        let mut sums = vec![sum; end.at];
        for n in (0..end.at).rev() {
            sum += energy[n];
            sums[n] = sum;
        }
        sums.iter().map(|s| 10.0 * (s / sums[0]).log10()).collect()
    }

    /// Energy up to `limit_s` after the direct sound over the energy after it, in one octave band, dB.
    ///
    /// Cut first and filtered then, so that the filter's delay moves nothing across the limit. Late sound ends where
    /// noise takes over.
    ///
    /// # Source
    /// ISO 3382-1:2009, A.2.3 and A.3.4 (clause numbers from memory, medium).
    pub fn clarity_db(&self, center_hz: f64, limit_s: f64) -> f64 {
        let onset = self.onset();
        let cut = onset + (limit_s * self.sample_rate_hz).round() as usize;
        let end = (onset + self.decay_curve_db(center_hz).len()).max(cut);
        let filter = OctaveFilter::new(center_hz, self.sample_rate_hz);
        let energy = |part: &[f64]| -> f64 {
            // Silence for the filter to ring into, long against its own decay in the lowest band.
            let ringing = vec![0.0; (20.0 / center_hz * self.sample_rate_hz) as usize];
            filter
                .run(&[part, &ringing].concat())
                .iter()
                .map(|s| s * s)
                .sum()
        };
        10.0 * (energy(&self.samples[onset..cut]) / energy(&self.samples[cut..end])).log10()
    }
}

/// Where a decay sinks into noise, and how it falls there.
struct DecayEnd {
    /// Samples up to there.
    at: usize,
    /// Decay rate of energy near the end, per sample.
    rate: f64,
    /// Energy per sample that the decay has there.
    level: f64,
}

impl DecayEnd {
    /// Looks for the crossing of decay and noise round by round.
    ///
    /// # Source
    /// Lundeby, Vigran, Bietz and Vorländer, "Uncertainties of measurements in room acoustics", Acustica 81 (1995)
    /// 344-355 (from memory, medium).
    fn find(energy: &[f64], sample_rate_hz: f64) -> Self {
        let tail = energy.len() - (energy.len() as f64 * NOISE_SHARE) as usize;
        let mut noise = mean(&energy[tail..]);
        let mut interval = (FIRST_INTERVAL_S * sample_rate_hz) as usize;
        let mut end = Self::crossing(fit(energy, interval, noise), noise, energy.len());
        for _ in 1..ROUNDS {
            let beyond = end.at + (BEYOND_END_DB / 10.0 * LN_10 / end.rate) as usize;
            noise = mean(&energy[beyond.min(tail)..]);
            interval = ((LN_10 / end.rate / INTERVALS_PER_10_DB) as usize).max(1);
            end = Self::crossing(fit(energy, interval, noise), noise, energy.len());
        }
        end
    }

    /// Where the line start · exp(−rate · n) meets the noise, or the record ends.
    fn crossing((start, rate): (f64, f64), noise: f64, length: usize) -> Self {
        let at = (((start / noise).ln() / rate).max(1.0) as usize).min(length);
        let level = start * (-rate * at as f64).exp();
        Self { at, rate, level }
    }

    /// Energy that the decay, without noise, would still bring after its end.
    fn rest(&self) -> f64 {
        self.level / self.rate
    }
}

/// Start and decay rate per sample of the straight line through the interval means of a decay, over the last 20 dB
/// before it comes near the noise.
fn fit(energy: &[f64], interval: usize, noise: f64) -> (f64, f64) {
    let means: Vec<f64> = energy.chunks_exact(interval).map(mean).collect();
    let peak = (0..means.len()).max_by(|&a, &b| means[a].total_cmp(&means[b]));
    let lowest = noise * 10.0_f64.powf(ABOVE_NOISE_DB / 10.0);
    let decay: Vec<(f64, f64)> = (peak.unwrap_or(0)..means.len())
        .take_while(|&n| means[n] > lowest)
        .map(|n| ((n as f64 + 0.5) * interval as f64, means[n].ln()))
        .collect();
    let last = decay.last().map_or(0.0, |point| point.1);
    let late = |point: &&(f64, f64)| point.1 <= last + LATE_RANGE_DB / 10.0 * LN_10;
    let points: Vec<(f64, f64)> = decay.iter().filter(late).copied().collect();
    assert!(
        points.len() >= 2,
        "this decay stands no more than {ABOVE_NOISE_DB} dB above its noise"
    );
    line(&points)
}

/// Least squares in the logarithm: e to the height at 0, and minus the slope.
fn line(points: &[(f64, f64)]) -> (f64, f64) {
    let count = points.len() as f64;
    let mean_x = points.iter().map(|p| p.0).sum::<f64>() / count;
    let mean_y = points.iter().map(|p| p.1).sum::<f64>() / count;
    let covariance: f64 = points.iter().map(|p| (p.0 - mean_x) * (p.1 - mean_y)).sum();
    let variance: f64 = points.iter().map(|p| (p.0 - mean_x).powi(2)).sum();
    let rate = -covariance / variance;
    ((mean_y + rate * mean_x).exp(), rate)
}

fn mean(values: &[f64]) -> f64 {
    values.iter().sum::<f64>() / values.len() as f64
}

/// A band-pass of one octave: Butterworth of third order, turned from low-pass to band-pass and sampled.
///
/// Three sections, each z² − 1 over z² + a1 z + a2: a zero at 0 Hz and at half the sample rate, and one pair of poles.
///
/// # Source
/// IEC 61260-1:2014 for the edges, 10^(±0.15) times the middle; the design is the textbook one (Oppenheim and Schafer,
/// Discrete-Time Signal Processing, bilinear transform with prewarped edges).
pub struct OctaveFilter {
    sections: [[f64; 2]; 3],
    gain: f64,
}

impl OctaveFilter {
    /// Designs the filter of a band.
    pub fn new(center_hz: f64, sample_rate_hz: f64) -> Self {
        let edge_hz = |exponent: f64| center_hz * 10.0_f64.powf(exponent);
        assert!(
            edge_hz(0.15) < 0.5 * sample_rate_hz,
            "the band ends above half the sample rate"
        );
        let warp = |hz: f64| (PI * hz / sample_rate_hz).tan();
        let (low, high) = (warp(edge_hz(-0.15)), warp(edge_hz(0.15)));
        let poles = band_pass_poles(high - low, low * high);
        let sections = poles.map(section);
        let unscaled = Self {
            sections,
            gain: 1.0,
        };
        // Analogue frequency of the highest gain, √(low · high), back on the axis of the samples.
        let middle = 2.0 * (low * high).sqrt().atan();
        Self {
            gain: 1.0 / unscaled.magnitude(middle),
            ..unscaled
        }
    }

    /// Gain at an angular frequency in radians per sample.
    pub fn magnitude(&self, omega: f64) -> f64 {
        let abs = |[constant, first]: [f64; 2], square: f64| {
            let real = constant + first * omega.cos() + square * (2.0 * omega).cos();
            let imaginary = first * omega.sin() + square * (2.0 * omega).sin();
            real.hypot(imaginary)
        };
        let part = |&[a1, a2]: &[f64; 2]| abs([-1.0, 0.0], 1.0) / abs([a2, a1], 1.0);
        self.gain * self.sections.iter().map(part).product::<f64>()
    }

    /// Filters a signal from its start, at rest before it.
    pub fn run(&self, samples: &[f64]) -> Vec<f64> {
        let mut signal: Vec<f64> = samples.iter().map(|s| s * self.gain).collect();
        for [a1, a2] in self.sections {
            let (mut x1, mut x2, mut y1, mut y2) = (0.0, 0.0, 0.0, 0.0);
            for sample in &mut signal {
                let y = *sample - x2 - a1 * y1 - a2 * y2;
                (x2, x1, y2, y1) = (x1, *sample, y1, y);
                *sample = y;
            }
        }
        signal
    }
}

/// The three poles above the real axis of the analogue band-pass: s² − p B s + C = 0 for each pole p of the low-pass.
fn band_pass_poles(width: f64, center_square: f64) -> [[f64; 2]; 3] {
    let angle = 2.0 * PI / 3.0;
    let low_pass = [
        [-1.0, 0.0],
        [angle.cos(), angle.sin()],
        [angle.cos(), -angle.sin()],
    ];
    low_pass.map(|[real, imaginary]| {
        let half = [0.5 * width * real, 0.5 * width * imaginary];
        let under_root = [
            half[0] * half[0] - half[1] * half[1] - center_square,
            2.0 * half[0] * half[1],
        ];
        let root = square_root(under_root);
        [half[0] + root[0], half[1] + root[1]]
    })
}

/// The square root above the real axis of a complex number.
fn square_root([real, imaginary]: [f64; 2]) -> [f64; 2] {
    let size = real.hypot(imaginary);
    let height = (0.5 * (size - real)).sqrt();
    [imaginary / (2.0 * height), height]
}

/// a1 and a2 of the section with an analogue pole s and its conjugate: z = (1 + s) / (1 − s).
fn section([real, imaginary]: [f64; 2]) -> [f64; 2] {
    let below = (1.0 - real).powi(2) + imaginary * imaginary;
    let z_real = (1.0 - real * real - imaginary * imaginary) / below;
    let z_square = ((1.0 + real).powi(2) + imaginary * imaginary) / below;
    [-2.0 * z_real, z_square]
}
