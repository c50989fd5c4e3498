//! The wave that the edge of a rectangle sends: its integral along the edge, as a table.
//!
//! A reflector of any straight outline reflects what the endless plane does, less what its edges send. Of an edge whose
//! nearest path is longer than the mirrored one by p²/k, the piece beyond a point whose path is longer by another q²/k sends
//!
//! ```text
//! exp(−j (p² + q²)) H,   H = ∫ exp(−j (y² − q²)) p / (p² + y²) dy,  y = q … ∞
//! ```
//!
//! H is smooth over the logarithm of θ = p² + q² and over the angle of tan φ = q/p: a small table makes it known. At all
//! frequencies of a grid φ is the same and θ rises by equal steps of its logarithm, so that the table is read once for all.
//!
//! # Source
//! The edge integral of a plane reflector in the form of Owen's T function (Owen, Ann. Math. Statist. 27 (1956) 1075–1090)
//! with the error function continued to the Fresnel integral (Abramowitz & Stegun 7.3.22).

use std::f64::consts::TAU;
use std::sync::OnceLock;

use num_complex::Complex64;

use crate::numeric::{log2, through_four};
use crate::spectrum::{COARSE, OCTAVES, Spectrum, frequency_hz, turned_single};

/// Columns of the table per octave of θ.
const PER_OCTAVE: usize = COARSE / OCTAVES;

/// θ of the first column: 2 to this power. Even eight octaves up, in the highest band, H moves by no more than √θ = 0.0002
/// from there to θ = 0.
const LOWEST_OCTAVE: i32 = -32;

/// Columns of the table.
const COLUMNS: usize = 48 * PER_OCTAVE;

/// Steps of the table between the rows q = 0 and p = 0.
const STEPS: usize = 64;

/// Crowds the rows towards q = 0, where H turns within a small angle at large θ.
const CROWDING: f64 = 0.001;

/// Columns that one grid of frequencies takes from the table.
const WIDTH: usize = COARSE + 4;

/// One end of an edge: the angle φ at which it lies, tan φ = q/p, and how much of H it sends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct End {
    /// Sine of φ, 0 … 1.
    pub sine: f64,
    /// Factor of H / cos φ.
    pub factor: f64,
}

/// A sum of waves from edges, in single precision, which is good for the table and twice as fast.
///
/// Frequencies at the same place in their bands stand together.
#[derive(Clone, Copy, Debug)]
pub struct Waves<const N: usize> {
    re: [f32; N],
    im: [f32; N],
}

impl<const N: usize> Waves<N> {
    /// Nothing yet.
    pub const NONE: Self = Self {
        re: [0.0; N],
        im: [0.0; N],
    };

    /// Adds what edges send from a point over a way that is longer than the mirrored one.
    ///
    /// ```text
    /// Σ factor · exp(−j k x) H(k x, φ) / cos φ
    /// ```
    ///
    /// # Units
    /// - `detour_m`: x, m, > 0
    /// - `speed_of_sound_m_per_s`: m/s
    ///
    /// # Accuracy
    /// 2e-4 of the factors.
    pub fn add(&mut self, detour_m: f64, speed_of_sound_m_per_s: f64, ends: &[End]) {
        let per_hz_rad = TAU / speed_of_sound_m_per_s * detour_m;
        let lowest_theta = per_hz_rad * frequency_hz::<N>(0);
        let column = PER_OCTAVE as f64 * (log2(lowest_theta) - f64::from(LOWEST_OCTAVE));
        let column = column.clamp(1.0, (COLUMNS - WIDTH) as f64);
        let window = table().blended(column as usize - 1, ends);
        let part = column - (column as usize) as f64;
        let per_band = N / COARSE;
        let rows = self
            .re
            .chunks_exact_mut(COARSE)
            .zip(self.im.chunks_exact_mut(COARSE));
        for (beside, (re, im)) in rows.enumerate() {
            let place = part + beside as f64 / per_band as f64;
            let lowest_rad = per_hz_rad * frequency_hz::<N>(beside);
            add_row(re, im, &window, place, lowest_rad);
        }
    }

    /// The sum, and a real value besides, with the frequencies in ascending order.
    #[must_use]
    pub fn plus(&self, value: f64) -> Spectrum<N> {
        let per_band = N / COARSE;
        let from = |i: usize| i % per_band * COARSE + i / per_band;
        Spectrum {
            re: std::array::from_fn(|i| f64::from(self.re[from(i)]) + value),
            im: std::array::from_fn(|i| f64::from(self.im[from(i)])),
        }
    }
}

/// Values of H / cos φ in a window of the table.
struct Window {
    re: [f32; WIDTH],
    im: [f32; WIDTH],
}

/// Adds a window's values at a place after its second column and every column on, turned.
#[inline(always)]
fn add_row(re: &mut [f32], im: &mut [f32], window: &Window, place: f64, lowest_rad: f64) {
    let first = place as usize;
    let weights = through_four(place - first as f64 + 1.0).map(|w| w as f32);
    let x = between(&window.re[first..], weights);
    let y = between(&window.im[first..], weights);
    let (cosine, sine) = turned_single(lowest_rad);
    for i in 0..COARSE {
        re[i] += x[i] * cosine[i] - y[i] * sine[i];
        im[i] += x[i] * sine[i] + y[i] * cosine[i];
    }
}

/// Weighted sums of every four neighbours.
#[inline(always)]
fn between(values: &[f32], weights: [f32; 4]) -> [f32; COARSE] {
    let mut sums = [0.0; COARSE];
    for (t, weight) in weights.into_iter().enumerate() {
        for (sum, value) in sums.iter_mut().zip(&values[t..t + COARSE]) {
            *sum += weight * value;
        }
    }
    sums
}

/// H / cos φ, a row per φ, a column per θ; in single precision, which errs by 1e-7 and is twice as fast.
struct Table {
    re: Vec<[f32; COLUMNS]>,
    im: Vec<[f32; COLUMNS]>,
}

impl Table {
    fn new() -> Self {
        let row = |row| {
            let sine = sine_of_row(row);
            std::array::from_fn(|column| {
                let octave = f64::from(LOWEST_OCTAVE) + column as f64 / PER_OCTAVE as f64;
                edge_integral(octave.exp2(), sine)
            })
        };
        let rows: Vec<[Complex64; COLUMNS]> = (0..=STEPS).map(row).collect();
        Self {
            re: rows.iter().map(|row| row.map(|h| h.re as f32)).collect(),
            im: rows.iter().map(|row| row.map(|h| h.im as f32)).collect(),
        }
    }

    /// A window of the table from a column on, the rows of the ends between its own added up.
    #[inline(always)]
    fn blended(&self, from: usize, ends: &[End]) -> Window {
        let (mut re, mut im) = ([0.0; WIDTH], [0.0; WIDTH]);
        for end in ends {
            let (row, part) = row_of_sine(end.sine);
            for (t, weight) in [1.0 - part, part].into_iter().enumerate() {
                let factor = (weight * end.factor) as f32;
                if factor == 0.0 {
                    continue;
                }
                let x = &self.re[row + t][from..from + WIDTH];
                let y = &self.im[row + t][from..from + WIDTH];
                for i in 0..WIDTH {
                    re[i] += factor * x[i];
                    im[i] += factor * y[i];
                }
            }
        }
        Window { re, im }
    }
}

/// The table, computed at first use.
fn table() -> &'static Table {
    static TABLE: OnceLock<Table> = OnceLock::new();
    TABLE.get_or_init(Table::new)
}

/// Place of a sine among the rows, before it is scaled.
fn crowded(sine: f64) -> f64 {
    (sine + CROWDING).sqrt().sqrt()
}

/// Sine of φ in a row.
fn sine_of_row(row: usize) -> f64 {
    let (low, high) = (crowded(0.0), crowded(1.0));
    (low + row as f64 / STEPS as f64 * (high - low)).powi(4) - CROWDING
}

/// Row below a sine, and how far it lies towards the next.
fn row_of_sine(sine: f64) -> (usize, f64) {
    let low = crowded(0.0);
    let place = (crowded(sine) - low) * (STEPS as f64 / (crowded(1.0) - low));
    let row = (place as usize).min(STEPS - 1);
    (row, place - row as f64)
}

/// H / cos φ along the way of steepest descent.
///
/// ```text
/// H = −j p ∫ exp(−s²) s / ((θ − j s²) √(q² − j s²)) ds,  s = 0 … ∞,   s = exp(x): trapezoids in x
/// ```
///
/// # Accuracy
/// 1e-5: the integrand is analytic within π/4 of the line, a step is 0.3.
fn edge_integral(theta: f64, sine: f64) -> Complex64 {
    let q_squared = theta * sine * sine;
    let lowest = 0.5 * theta.ln().min(0.0) - 12.0;
    let first = (lowest / STEP).floor() as i32;
    let sum: Complex64 = nodes()
        .iter()
        .skip((first - LOWEST_NODE).max(0) as usize)
        .map(|&(s2, damped)| damped / (Complex64::new(theta, -s2) * root(q_squared, s2)))
        .sum();
    Complex64::new(0.0, -STEP * theta.sqrt()) * sum
}

/// Step of x.
const STEP: f64 = 0.3;

/// First and last step: from where even the least θ has nothing below, to where exp(−s²) is nothing.
const LOWEST_NODE: i32 = -78;
const HIGHEST_NODE: i32 = 5;

/// s² and exp(−s²) s² at the steps, computed once.
fn nodes() -> &'static [(f64, f64)] {
    static NODES: OnceLock<Vec<(f64, f64)>> = OnceLock::new();
    let at = |node: i32| (2.0 * STEP * f64::from(node)).exp();
    NODES.get_or_init(|| {
        (LOWEST_NODE..=HIGHEST_NODE)
            .map(|node| (at(node), (-at(node)).exp() * at(node)))
            .collect()
    })
}

/// √(a − j b) for a ≥ 0 and b > 0.
fn root(a: f64, b: f64) -> Complex64 {
    let re = (0.5 * (a + (a * a + b * b).sqrt())).sqrt();
    Complex64::new(re, -0.5 * b / re)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::spectrum::FINE;

    /// H / cos φ by plain trapezoids along y, damped far out by turning the way into the lower half plane.
    fn by_quadrature(theta: f64, sine: f64) -> Complex64 {
        let (p, q) = (
            theta.sqrt() * (1.0 - sine * sine).sqrt(),
            theta.sqrt() * sine,
        );
        let turn = Complex64::from_polar(1.0, -std::f64::consts::FRAC_PI_4);
        let steps = 40_000;
        let step = 12.0 / f64::from(steps);
        let at = |x: f64| {
            let y = q + turn * x;
            (Complex64::new(0.0, -1.0) * (y * y - q * q)).exp() / (p * p + y * y)
        };
        let inner: Complex64 = (1..steps).map(|i| at(f64::from(i) * step)).sum();
        (inner + 0.5 * at(0.0)) * step * turn * theta.sqrt()
    }

    #[test]
    fn the_steepest_way_gives_the_integral() {
        for theta in [0.1, 0.9, 4.0, 30.0] {
            for sine in [0.0, 0.05, 0.4, 0.9, 0.999] {
                let error = (edge_integral(theta, sine) - by_quadrature(theta, sine)).norm();
                assert!(error < 1e-5, "θ {theta}, sine {sine}: {error}");
            }
        }
    }

    #[test]
    fn the_table_gives_the_integral_between_its_points() {
        let mut worst: f64 = 0.0;
        for step in 0..60 {
            let sine = (f64::from(step) / 59.0).powi(3);
            for detour_m in [1e-5, 1e-3, 0.013, 0.3, 2.0, 11.0] {
                let mut waves = Waves::<FINE>::NONE;
                waves.add(detour_m, 343.2, &[End { sine, factor: 1.0 }]);
                let sum = waves.plus(0.0);
                for i in 0..FINE {
                    let theta = TAU * frequency_hz::<FINE>(i) / 343.2 * detour_m;
                    let exact = edge_integral(theta, sine) * Complex64::from_polar(1.0, -theta);
                    worst = worst.max((sum.at(i) - exact).norm());
                }
            }
        }
        assert!(worst < 2e-4, "{worst}");
    }
}
