//! The head as a rigid sphere with two ears: what it does to sound from a direction, and to sound from everywhere.

use std::f64::consts::{FRAC_PI_2, TAU};

use glam::DVec3;
use num_complex::Complex64;

/// Radius of the sphere, m.
///
/// # Source
/// Duda & Martens, Range dependence of the response of a spherical head model, J. Acoust. Soc. Am. 104 (1998) 3048–3058.
pub const RADIUS_M: f64 = 0.0875;

/// Distance between the frequencies of the tables, Hz: the answer less its delay hardly turns between two of them.
const STEP_HZ: f64 = 250.0;

/// Frequencies of the tables, 0 … 24 kHz.
const STEPS: usize = 97;

/// Unit vectors from the middle of the head to the left and the right ear, for a listener who faces the front.
pub const EARS: [DVec3; 2] = [DVec3::NEG_X, DVec3::X];

/// What stands at the seat.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pickup {
    /// A listener's two ears.
    Head,
    /// A point that hears alike from all sides, as a measuring microphone: one channel.
    Point,
}

impl Pickup {
    /// Channels that it hears with.
    #[must_use]
    pub fn channels(self) -> usize {
        match self {
            Self::Head => 2,
            Self::Point => 1,
        }
    }
}

/// A rigid sphere in air.
#[derive(Clone, Debug)]
pub struct Sphere {
    speed_of_sound_m_per_s: f64,
    /// By frequency, then order: j^(m−1) / (μ² h'_m(μ)), h of the second kind, μ = 2π f a / c.
    orders: Vec<Vec<Complex64>>,
}

impl Sphere {
    /// Tabulates the series.
    ///
    /// # Accuracy
    /// Orders up to μ + 4 μ^⅓ + 8: what follows is below 1e-6 (`tests/listen`).
    #[must_use]
    pub fn new(speed_of_sound_m_per_s: f64) -> Self {
        let orders = (0..STEPS).map(|step| {
            // At rest the series would divide 0 by 0; a millionth of the step stands for it.
            let hz = (step as f64).max(1e-6) * STEP_HZ;
            orders(TAU * hz * RADIUS_M / speed_of_sound_m_per_s)
        });
        Self {
            speed_of_sound_m_per_s,
            orders: orders.collect(),
        }
    }

    /// Pressure at an ear re that at the middle of the head without the head, of sound from far away.
    ///
    /// ```text
    /// H = Σ_m (2m + 1) P_m(cos θ) j^(m−1) / (μ² h'_m(μ))      θ between ear and source
    /// ```
    ///
    /// # Source
    /// Duda & Martens 1998, eq. 4 for a far source (there with the other sign of j).
    #[must_use]
    pub fn heard_from(&self, direction: DVec3, ear: DVec3) -> AtEar {
        let cosine = direction.dot(ear).clamp(-1.0, 1.0);
        let delay_s = self.woodworth_s(cosine);
        let rest = self.orders.iter().enumerate().map(|(step, orders)| {
            let turn = TAU * step as f64 * STEP_HZ * delay_s;
            series(orders, cosine) * Complex64::from_polar(1.0, turn)
        });
        AtEar {
            delay_s,
            rest: rest.collect(),
        }
    }

    /// Delay at an ear re the middle of the head of sound of short waves.
    ///
    /// ```text
    /// −(a/c) cos θ  on the near side,   (a/c) (θ − π/2)  on the far one
    /// ```
    ///
    /// Of the two ears the difference is (a/c)(sin φ + φ) for sound from φ off the middle.
    ///
    /// # Source
    /// Woodworth & Schlosberg, Experimental Psychology, 1954 (via Duda & Martens 1998).
    fn woodworth_s(&self, cosine: f64) -> f64 {
        let way = if cosine >= 0.0 {
            -cosine
        } else {
            cosine.acos() - FRAC_PI_2
        };
        RADIUS_M / self.speed_of_sound_m_per_s * way
    }

    /// Energy at an ear of sound from everywhere, re without the head, and how alike the two ears hear it (−1 … 1), at a
    /// frequency.
    ///
    /// ```text
    /// energy = Σ (2m + 1) |c_m|²,   coherence = Σ (2m + 1) (−1)^m |c_m|² / energy,   c_m = j^(m−1) / (μ² h'_m)
    /// ```
    ///
    /// The mean over all directions of the product of both ears, by the addition theorem of the Legendre polynomials.
    #[must_use]
    pub fn from_everywhere(&self, frequency_hz: f64) -> (f64, f64) {
        let place = (frequency_hz / STEP_HZ).clamp(0.0, (STEPS - 1) as f64);
        let below = (place as usize).min(STEPS - 2);
        let part = place - below as f64;
        let [near, far] = [below, below + 1].map(|step| sums(&self.orders[step]));
        let between = |a: f64, b: f64| a + part * (b - a);
        let (energy, product) = (between(near.0, far.0), between(near.1, far.1));
        (energy, product / energy)
    }
}

/// Sums over the orders: of the energies, and of the product of ears on opposite sides.
fn sums(orders: &[Complex64]) -> (f64, f64) {
    let mut sums = (0.0, 0.0);
    for (m, order) in orders.iter().enumerate() {
        let energy = (2 * m + 1) as f64 * order.norm_sqr();
        sums.0 += energy;
        sums.1 += if m % 2 == 0 { energy } else { -energy };
    }
    sums
}

/// Factor of each order at μ.
///
/// ```text
/// h_0 = j e^(−jμ) / μ,   h_1 = (j/μ − 1) e^(−jμ) / μ,   h_(m+1) = (2m+1)/μ h_m − h_(m−1)
/// h'_m = h_(m−1) − (m+1)/μ h_m
/// ```
///
/// Upward recursion is stable for h, in which the growing part leads.
///
/// # Source
/// Abramowitz & Stegun, Handbook of Mathematical Functions, 10.1.11, 10.1.19–22.
fn orders(mu: f64) -> Vec<Complex64> {
    let count = (mu + 4.0 * mu.cbrt() + 8.0) as usize;
    let turned = Complex64::from_polar(1.0 / mu, -mu);
    let mut before = turned * Complex64::I;
    let mut h = turned * Complex64::new(-1.0, 1.0 / mu);
    // h'_0 = −h_1.
    let mut slope = -h;
    let mut power = -Complex64::I;
    let mut orders = Vec::with_capacity(count + 1);
    for m in 0..=count {
        let factor = power / (slope * mu * mu);
        if !factor.is_finite() {
            break;
        }
        orders.push(factor);
        power *= Complex64::I;
        let next = m as f64 + 1.0;
        slope = before - h * ((next + 1.0) / mu);
        (before, h) = (h, h * ((2.0 * next + 1.0) / mu) - before);
    }
    orders
}

/// Σ (2m + 1) P_m(x) c_m.
fn series(orders: &[Complex64], x: f64) -> Complex64 {
    let (mut before, mut legendre) = (0.0, 1.0);
    let mut sum = Complex64::ZERO;
    for (m, order) in orders.iter().enumerate() {
        let odd = (2 * m + 1) as f64;
        sum += order * (odd * legendre);
        let next = (odd * x * legendre - m as f64 * before) / (m + 1) as f64;
        (before, legendre) = (legendre, next);
    }
    sum
}

/// What the head does to sound from one direction at one ear: a delay, and the rest over frequency.
#[derive(Clone, Debug)]
pub struct AtEar {
    /// Re the middle of the head, s.
    pub delay_s: f64,
    rest: Vec<Complex64>,
}

impl AtEar {
    /// What a point hears: everything as it comes.
    #[must_use]
    pub fn unchanged() -> Self {
        Self {
            delay_s: 0.0,
            rest: vec![Complex64::ONE; STEPS],
        }
    }

    /// Factor at a frequency, without the delay.
    #[must_use]
    pub fn rest_at(&self, frequency_hz: f64) -> Complex64 {
        let place = (frequency_hz / STEP_HZ).clamp(0.0, (STEPS - 1) as f64);
        let below = (place as usize).min(STEPS - 2);
        let part = place - below as f64;
        self.rest[below] * (1.0 - part) + self.rest[below + 1] * part
    }
}
