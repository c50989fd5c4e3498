//! How far a surface gives way to sound: its admittance over frequency, and the one that belongs to an absorption.

use num_complex::Complex64;

/// Frequencies per octave at which an admittance is kept.
const PER_OCTAVE: f64 = 24.0;

/// Lowest and highest frequency at which an admittance is kept, Hz; the nearest value holds beyond.
const KEPT_HZ: (f64, f64) = (15.0, 420.0);

/// Largest |β| that is told from a surface which does not resist at all.
const MOST_ADMITTANCE: f64 = 100.0;

/// Least share of |β| that is loss: no surface is a spring or a mass alone.
const LEAST_LOSS: f64 = 1e-4;

/// Admittance of a plane surface that reacts locally, over frequency: ρc over its surface impedance, for e^{+jωt}.
#[derive(Clone, Debug, PartialEq)]
pub struct Admittance {
    /// (Hz, β), ascending, at least one.
    points: Vec<(f64, Complex64)>,
}

impl Admittance {
    /// The same at every frequency.
    #[must_use]
    pub fn constant(admittance: Complex64) -> Self {
        Self {
            points: vec![(KEPT_HZ.0, passive(admittance))],
        }
    }

    /// Sampled from a function of frequency in Hz, 24 times an octave from 15 to 420 Hz.
    #[must_use]
    pub fn sampled(mut admittance: impl FnMut(f64) -> Complex64) -> Self {
        let steps = (PER_OCTAVE * (KEPT_HZ.1 / KEPT_HZ.0).log2()).ceil() as u32;
        let hz = |step: u32| KEPT_HZ.0 * (f64::from(step) / PER_OCTAVE).exp2();
        Self {
            points: (0..=steps)
                .map(|step| (hz(step), passive(admittance(hz(step)))))
                .collect(),
        }
    }

    /// β at a frequency: linear over the logarithm of frequency between what is kept.
    #[must_use]
    pub fn at(&self, frequency_hz: f64) -> Complex64 {
        let above = self.points.partition_point(|&(hz, _)| hz < frequency_hz);
        let below = above.checked_sub(1).and_then(|i| self.points.get(i));
        match (below, self.points.get(above)) {
            (Some(&(low_hz, low)), Some(&(high_hz, high))) => {
                low + (high - low) * ((frequency_hz / low_hz).ln() / (high_hz / low_hz).ln())
            }
            (Some(&(_, held)), None) | (None, Some(&(_, held))) => held,
            (None, None) => Complex64::ZERO,
        }
    }
}

/// The nearest admittance of a surface that makes no sound of its own; 0 for what is no number.
fn passive(admittance: Complex64) -> Complex64 {
    if !admittance.is_finite() {
        return Complex64::ZERO;
    }
    let loss = admittance.re.max(LEAST_LOSS * admittance.im.abs());
    let taken = Complex64::new(loss, admittance.im);
    taken * (MOST_ADMITTANCE / taken.norm().max(MOST_ADMITTANCE))
}

/// Real admittance at which a locally reacting plane takes most of a diffuse field, α = 0.951.
///
/// # Source
/// London, J. Acoust. Soc. Am. 22 (1950) 263–269: an impedance of 1.567 ρc; the maximum of [`diffuse_absorption`].
const MOST_ABSORBING: f64 = 0.638;

/// Share of a diffuse field's energy that a locally reacting plane of real admittance takes.
///
/// ```text
/// α = ∫ 4 β cosθ / (cosθ + β)² · 2 sinθ cosθ dθ,  θ = 0 … 90°
///   = 8 β [ 1 + β / (1 + β) − 2 β ln(1 + 1/β) ]
/// ```
///
/// # Source
/// Paris, Phil. Mag. 5 (1928) 489–497; closed form as in Kuttruff, Room Acoustics, section 2.5 (from memory, integrated anew).
#[must_use]
pub fn diffuse_absorption(admittance: f64) -> f64 {
    if admittance <= 0.0 {
        return 0.0;
    }
    let b = admittance;
    8.0 * b * (1.0 + b / (1.0 + b) - 2.0 * b * b.recip().ln_1p())
}

/// Real admittance of a locally reacting plane with that diffuse absorption: about α/8 when small, 0.638 from 0.951 up.
///
/// # Accuracy
/// Bisection of [`diffuse_absorption`], which grows over the bracket, to the last bits.
#[must_use]
pub fn real_admittance(absorption: f64) -> f64 {
    let (mut low, mut high) = (0.0, MOST_ABSORBING);
    for _ in 0..HALVINGS {
        let middle = 0.5 * (low + high);
        if diffuse_absorption(middle) < absorption {
            low = middle;
        } else {
            high = middle;
        }
    }
    low
}

/// Halvings of the bracket: 60 leave less than 1e-18 of it.
const HALVINGS: usize = 60;
