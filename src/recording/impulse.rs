//! What one channel of a recorded response says in one band: decay times and clarity, or why not.

use super::band_filter::{BandFilter, Width};
use super::noise::{Crossing, crossing, straight_line};
use super::wav::{KEPT_S, ONSET_DB};

/// The noise lies this far below the end of a window that is read, dB.
///
/// # Source
/// ISO 3382-1:2009, 5.3.3 (from memory): 10 dB.
const CLEAR_DB: f64 = 10.0;

/// Least product of bandwidth and decay time that a filter run backward leaves alone.
///
/// # Source
/// Jacobsen & Rindel, J. Sound Vib. 117 (1987) 187–190: 4.
const LEAST_BANDWIDTH_TIME: f64 = 4.0;

/// A window of the decay: its name, where it starts and where it ends, dB.
type Window = (&'static str, f64, f64);

/// # Source
/// ISO 3382-1:2009, 3.4 and A.2.2.
const EDT: Window = ("EDT", 0.0, -10.0);
const T20: Window = ("T20", -5.0, -25.0);
const T30: Window = ("T30", -5.0, -35.0);

/// Edges of clarity after the direct sound, s.
///
/// # Source
/// ISO 3382-1:2009, A.2.3.
const CLARITY_S: [f64; 2] = [0.050, 0.080];

/// Range above the noise that clarity is told from, dB. Common practice, no source.
const CLARITY_RANGE_DB: f64 = 20.0;

/// One channel, cut to what is read.
#[derive(Clone, Debug, PartialEq)]
pub struct Impulse {
    sample_rate_hz: f64,
    samples: Vec<f64>,
    /// Where the direct sound begins.
    onset: usize,
}

/// What a band says; a figure that the recording does not carry is none, and the words say why.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct BandFigures {
    /// How far the sound stands above the noise, dB; none where none was found or the rate is too low.
    pub above_noise_db: Option<f64>,
    /// From 0 to −10 dB, s.
    pub edt_s: Option<f64>,
    /// From −5 to −25 dB, s.
    pub t20_s: Option<f64>,
    /// From −5 to −35 dB, s.
    pub t30_s: Option<f64>,
    /// First 50 ms over the rest, dB.
    pub c50_db: Option<f64>,
    /// First 80 ms over the rest, dB.
    pub c80_db: Option<f64>,
    /// What could not be told, and why.
    pub refused: Vec<String>,
}

impl Impulse {
    /// Of a channel with some sound in it.
    #[must_use]
    pub fn new<S: Copy + Into<f64>>(samples: &[S], sample_rate_hz: f64) -> Self {
        let size = |sample: &S| (*sample).into().abs();
        let peak = samples.iter().map(size).fold(0.0, f64::max);
        let limit = peak * 10f64.powf(ONSET_DB / 20.0);
        let onset = samples.iter().position(|s| size(s) >= limit).unwrap_or(0);
        let [before, after] = [KEPT_S.0, KEPT_S.1].map(|s| (s * sample_rate_hz) as usize);
        let start = onset.saturating_sub(before);
        let end = (onset + after).min(samples.len());
        // Silence before a response that was cut short there, for the filter to ring into.
        let missing = before - (onset - start);
        let mut kept = vec![0.0; missing];
        kept.extend(samples[start..end].iter().map(|sample| (*sample).into()));
        Self {
            sample_rate_hz,
            samples: kept,
            onset: before,
        }
    }

    /// What it says in a band.
    #[must_use]
    pub fn read(&self, center_hz: f64, width: Width) -> BandFigures {
        let Some(filter) = BandFilter::new(center_hz, width, self.sample_rate_hz) else {
            return refused(format!(
                "{} samples a second hold too little of this band.",
                self.sample_rate_hz
            ));
        };
        let energy = self.energy(&filter);
        let Some(end) = crossing(&energy, self.sample_rate_hz) else {
            return refused("No decay stands out of the noise in this band.".to_owned());
        };
        let bandwidth_hz = center_hz * (width.to_edge() - width.to_edge().recip());
        let mut told = Told {
            curve_db: curve_db(&energy[..end.samples], end.beyond),
            step_s: self.sample_rate_hz.recip(),
            least_s: LEAST_BANDWIDTH_TIME / bandwidth_hz,
            above_noise_db: end.above_noise_db,
            refused: Vec::new(),
        };
        let [edt_s, t20_s, t30_s] = [EDT, T20, T30].map(|window| told.time_s(window));
        let [c50_db, c80_db] = CLARITY_S.map(|edge_s| self.clarity_db(&filter, end, edge_s));
        BandFigures {
            above_noise_db: Some(end.above_noise_db),
            edt_s,
            t20_s,
            t30_s,
            c50_db,
            c80_db,
            refused: told.refused,
        }
    }

    /// Square of each filtered sample from the direct sound on.
    fn energy(&self, filter: &BandFilter) -> Vec<f64> {
        let mut band = self.samples.clone();
        filter.run_backward(&mut band);
        band[self.onset..]
            .iter()
            .map(|sample| sample * sample)
            .collect()
    }

    /// Early over late energy of a band: cut at the edge first and filtered then, so that the filter moves nothing across
    /// it; late sound ends where noise takes over.
    ///
    /// # Source
    /// ISO 3382-1:2009, A.2.3 and A.3.4 (from memory).
    fn clarity_db(&self, filter: &BandFilter, end: Crossing, edge_s: f64) -> Option<f64> {
        let edge = self.onset + (edge_s * self.sample_rate_hz).round() as usize;
        let last = self.onset + end.samples;
        if end.above_noise_db < CLARITY_RANGE_DB || edge >= last {
            return None;
        }
        let energy = |from: usize, to: usize| -> f64 {
            let mut part = vec![0.0; self.onset];
            part.extend_from_slice(&self.samples[from..to]);
            filter.run_backward(&mut part);
            part.iter().map(|sample| sample * sample).sum()
        };
        let (early, late) = (energy(self.onset, edge), energy(edge, last) + end.beyond);
        Some(10.0 * (early / late).log10())
    }
}

fn refused(why: String) -> BandFigures {
    BandFigures {
        refused: vec![why],
        ..BandFigures::default()
    }
}

/// Backward-integrated decay, dB re its start.
///
/// # Source
/// Schroeder, J. Acoust. Soc. Am. 37 (1965) 409–412; ISO 3382-1:2009, 5.3.3, for the energy beyond the end.
fn curve_db(energy: &[f64], beyond: f64) -> Vec<f64> {
    let mut sum = beyond;
    let mut curve: Vec<f64> = energy
        .iter()
        .rev()
        .map(|energy| {
            sum += energy;
            sum
        })
        .collect();
    curve.reverse();
    let start = curve.first().copied().unwrap_or(1.0);
    curve
        .iter_mut()
        .for_each(|sum| *sum = 10.0 * (*sum / start).log10());
    curve
}

/// A band's curve, and what could not be told from it.
struct Told {
    curve_db: Vec<f64>,
    step_s: f64,
    least_s: f64,
    above_noise_db: f64,
    refused: Vec<String>,
}

impl Told {
    fn time_s(&mut self, (name, from_db, to_db): Window) -> Option<f64> {
        let needed_db = CLEAR_DB - to_db;
        if self.above_noise_db < needed_db {
            self.refused.push(format!(
                "{name} needs {needed_db:.0} dB between the sound and the noise; here are {:.0} dB.",
                self.above_noise_db
            ));
            return None;
        }
        let Some(time_s) = fitted_s(&self.curve_db, self.step_s, from_db, to_db) else {
            self.refused.push(format!(
                "{name} needs a fall of {:.0} dB; the recording ends before.",
                -to_db
            ));
            return None;
        };
        if time_s < self.least_s {
            self.refused.push(format!(
                "{name} reads {time_s:.2} s; this narrow band cannot tell less than {:.2} s.",
                self.least_s
            ));
            return None;
        }
        Some(time_s)
    }
}

/// Time for 60 dB at the slope of the straight line through a window of a falling curve.
fn fitted_s(curve_db: &[f64], step_s: f64, from_db: f64, to_db: f64) -> Option<f64> {
    let first = curve_db.partition_point(|level| *level > from_db);
    let last = curve_db.partition_point(|level| *level >= to_db);
    if last >= curve_db.len() {
        return None;
    }
    let points: Vec<(f64, f64)> = (first..last)
        .map(|n| (n as f64 * step_s, curve_db[n]))
        .collect();
    let (slope, _) = straight_line(&points)?;
    (slope < 0.0).then(|| -60.0 / slope)
}
