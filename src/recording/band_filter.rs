//! Filters of one octave and of one third of it, run from the end of a recording to its start.

use std::f64::consts::PI;

use num_complex::Complex64;

/// Order of the low-pass that the band-pass comes from; three pairs of poles in all.
const ORDER: usize = 3;

/// How wide a band is, in tenths of a decade.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Width {
    /// An octave: 3.
    Octave,
    /// A third of one: 1.
    Third,
}

impl Width {
    /// Factor from the middle of a band to its upper edge.
    ///
    /// ```text
    /// 10^(3/20) of an octave, 10^(1/20) of a third
    /// ```
    ///
    /// # Source
    /// IEC 61260-1:2014, base-ten system.
    #[must_use]
    pub fn to_edge(self) -> f64 {
        match self {
            Self::Octave => 10f64.powf(0.15),
            Self::Third => 10f64.powf(0.05),
        }
    }
}

/// A Butterworth band-pass, sampled.
#[derive(Clone, Debug, PartialEq)]
pub struct BandFilter {
    /// a1 and a2 of each section (z² − 1) / (z² + a1 z + a2).
    sections: [[f64; 2]; ORDER],
    gain: f64,
}

impl BandFilter {
    /// The filter of a band; none where its upper edge comes near half the sample rate.
    ///
    /// ```text
    /// low-pass poles p;   s² − p (w2 − w1) s + w1 w2 = 0;   z = (1 + s) / (1 − s),   w = tan(π f / rate)
    /// ```
    ///
    /// # Source
    /// Butterworth's poles through the bilinear transform with prewarped edges: Oppenheim & Schafer, Discrete-Time Signal
    /// Processing, chapter 7 (from memory). A third-order prototype meets class 1 of IEC 61260-1 near the band (common
    /// practice).
    #[must_use]
    pub fn new(center_hz: f64, width: Width, sample_rate_hz: f64) -> Option<Self> {
        let (low_hz, high_hz) = (center_hz / width.to_edge(), center_hz * width.to_edge());
        if high_hz > HIGHEST_SHARE * sample_rate_hz {
            return None;
        }
        let [w1, w2] = [low_hz, high_hz].map(|hz| (PI * hz / sample_rate_hz).tan());
        // Of each pair of poles the one above the real axis; its partner follows by conjugation.
        let sections = std::array::from_fn(|n| {
            let angle = PI * (2 * n + ORDER + 1) as f64 / (2 * ORDER) as f64;
            let half = Complex64::from_polar(0.5 * (w2 - w1), angle);
            let root = (half * half - w1 * w2).sqrt();
            let pole = [half + root, half - root]
                .into_iter()
                .max_by(|a, b| a.im.total_cmp(&b.im))
                .unwrap_or(half);
            let z = (1.0 + pole) / (1.0 - pole);
            [-2.0 * z.re, z.norm_sqr()]
        });
        let flat = Self {
            sections,
            gain: 1.0,
        };
        let middle = 2.0 * (w1 * w2).sqrt().atan();
        let gain = flat.transfer(middle).norm().recip();
        Some(Self { gain, ..flat })
    }

    /// What it does to a tone.
    ///
    /// # Units
    /// - `omega`: radians per sample
    #[must_use]
    pub fn transfer(&self, omega: f64) -> Complex64 {
        let z = Complex64::from_polar(1.0, omega);
        let section = |[a1, a2]: &[f64; 2]| (z * z - 1.0) / (z * z + z * *a1 + *a2);
        self.sections.iter().map(section).product::<Complex64>() * self.gain
    }

    /// Filters from the last sample to the first, at rest before: its ringing then goes ahead of a decay and does not
    /// lengthen it.
    ///
    /// # Source
    /// Jacobsen & Rindel, Time reversed decay measurements, J. Sound Vib. 117 (1987) 187–190.
    pub fn run_backward(&self, samples: &mut [f64]) {
        for (number, [a1, a2]) in self.sections.iter().enumerate() {
            let gain = if number == 0 { self.gain } else { 1.0 };
            let (mut first, mut second) = (0.0, 0.0);
            for sample in samples.iter_mut().rev() {
                let x = gain * *sample;
                let y = x + first;
                first = second - a1 * y;
                second = -x - a2 * y;
                *sample = y;
            }
        }
    }
}

/// The upper edge of a band lies below this share of the sample rate.
const HIGHEST_SHARE: f64 = 0.48;
