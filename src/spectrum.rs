//! A fine grid of frequencies, three or one per one-third-octave band, and complex values on it; waves of any length are
//! turned along the grid without a sine per frequency.

use std::f64::consts::TAU;

use num_complex::Complex64;

use crate::bands::{BANDS, Banded};

/// Frequencies of the fine grid: three per band.
pub const FINE: usize = 3 * BANDS;

/// Frequencies of the coarse grid: one per band.
pub const COARSE: usize = BANDS;

/// Octaves that the bands span.
pub const OCTAVES: usize = 8;

/// Frequency of a grid of `N` points, [`FINE`] or [`COARSE`], Hz.
///
/// ```text
/// f = 1000 · 2^(b/3),   b: bands above 1 kHz, −1/3, 0, 1/3 of a band beside its centre on the fine grid
/// ```
///
/// Octaves are exactly two, so that the phase of a wave an octave up is twice that below. Against the base-ten bands the
/// centres lie off by 1 % at most.
#[must_use]
pub fn frequency_hz<const N: usize>(index: usize) -> f64 {
    let per_octave = N / OCTAVES;
    let octave = f64::from(1_u32 << (index / per_octave));
    let lowest_hz = 1000.0 / 32.0 * NINTHS[5 + FINE / N / 2];
    lowest_hz * octave * NINTHS[index % per_octave * (FINE / N)]
}

/// Complex values on a grid of `N` frequencies, as two rows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spectrum<const N: usize> {
    /// Real parts.
    pub re: [f64; N],
    /// Imaginary parts.
    pub im: [f64; N],
}

impl<const N: usize> Spectrum<N> {
    /// Nothing at any frequency.
    pub const ZERO: Self = Self {
        re: [0.0; N],
        im: [0.0; N],
    };

    /// The same real value at the frequencies of each band.
    #[must_use]
    pub fn of_bands(values: &Banded) -> Self {
        Self {
            re: std::array::from_fn(|i| values[i * BANDS / N]),
            im: [0.0; N],
        }
    }

    /// Value at one frequency of the grid.
    #[must_use]
    pub fn at(&self, index: usize) -> Complex64 {
        Complex64::new(self.re[index], self.im[index])
    }

    /// Product at each frequency.
    #[must_use]
    pub fn times(&self, other: &Self) -> Self {
        let mut product = Self::ZERO;
        for i in 0..N {
            product.re[i] = self.re[i] * other.re[i] - self.im[i] * other.im[i];
            product.im[i] = self.re[i] * other.im[i] + self.im[i] * other.re[i];
        }
        product
    }

    /// Takes another's values in as factors.
    pub fn multiply(&mut self, by: &Self) {
        for i in 0..N {
            let (re, im) = (self.re[i], self.im[i]);
            self.re[i] = re * by.re[i] - im * by.im[i];
            self.im[i] = re * by.im[i] + im * by.re[i];
        }
    }

    /// The difference at each frequency.
    #[must_use]
    pub fn minus(&self, other: &Self) -> Self {
        let mut difference = *self;
        for i in 0..N {
            difference.re[i] -= other.re[i];
            difference.im[i] -= other.im[i];
        }
        difference
    }

    /// Adds another's values.
    pub fn add(&mut self, other: &Self) {
        for i in 0..N {
            self.re[i] += other.re[i];
            self.im[i] += other.im[i];
        }
    }

    /// Adds the product of two others.
    pub fn add_product(&mut self, a: &Self, b: &Self) {
        for i in 0..N {
            self.re[i] += a.re[i] * b.re[i] - a.im[i] * b.im[i];
            self.im[i] += a.re[i] * b.im[i] + a.im[i] * b.re[i];
        }
    }

    /// Scales the values of each band.
    #[must_use]
    pub fn scaled(mut self, by: &Banded) -> Self {
        let per_band = N / BANDS;
        for part in [&mut self.re, &mut self.im] {
            for (values, by) in part.chunks_exact_mut(per_band).zip(by.iter()) {
                values.iter_mut().for_each(|value| *value *= by);
            }
        }
        self
    }

    /// Energy at each frequency.
    #[must_use]
    pub fn energy(&self) -> [f64; N] {
        std::array::from_fn(|i| self.re[i] * self.re[i] + self.im[i] * self.im[i])
    }
}

/// Mean over the frequencies of each band.
#[must_use]
pub fn band_means<const N: usize>(values: &[f64; N]) -> Banded {
    let per_band = N / BANDS;
    Banded::from_fn(|band| {
        values[band * per_band..][..per_band].iter().sum::<f64>() / per_band as f64
    })
}

/// The turn that a wave makes on a way, at every frequency of the grid.
///
/// ```text
/// exp(−j k x)
/// ```
///
/// The lowest octave comes from a power series, each octave above as the square of the one below.
///
/// # Units
/// - `way_m`: m
/// - `speed_of_sound_m_per_s`: m/s
///
/// # Accuracy
/// 1e-10 for ways up to 100 m.
#[must_use]
pub fn turned<const N: usize>(way_m: f64, speed_of_sound_m_per_s: f64) -> Spectrum<N> {
    let mut spectrum = Spectrum::ZERO;
    let per_octave = N / OCTAVES;
    let turn = Turn::new(TAU * frequency_hz::<N>(0) / speed_of_sound_m_per_s * way_m);
    for i in 0..per_octave {
        (spectrum.re[i], spectrum.im[i]) = turn.at(NINTHS[i * (FINE / N)]);
    }
    for i in per_octave..N {
        let below = i - per_octave;
        (spectrum.re[i], spectrum.im[i]) = squared(spectrum.re[below], spectrum.im[below]);
    }
    spectrum
}

/// exp(−j x) at three frequencies an octave, in single precision: for those who need no more, and many of them.
///
/// # Units
/// - `lowest_rad`: x at the lowest frequency, rad
/// - returns: real and imaginary parts
///
/// # Accuracy
/// 5e-5 for ways up to 100 m.
#[inline(always)]
#[must_use]
pub fn turned_single(lowest_rad: f64) -> ([f32; COARSE], [f32; COARSE]) {
    const PER_OCTAVE: usize = COARSE / OCTAVES;
    let (mut re, mut im) = ([0.0; COARSE], [0.0; COARSE]);
    let turn = Turn::new(lowest_rad);
    for i in 0..PER_OCTAVE {
        let (cosine, sine) = turn.at(NINTHS[i * (FINE / COARSE)]);
        (re[i], im[i]) = (cosine as f32, sine as f32);
    }
    for i in PER_OCTAVE..COARSE {
        let (x, y) = (re[i - PER_OCTAVE], im[i - PER_OCTAVE]);
        (re[i], im[i]) = (x * x - y * y, 2.0 * x * y);
    }
    (re, im)
}

/// An angle at the lowest frequency, made small.
struct Turn {
    small_rad: f64,
    halvings: u32,
}

impl Turn {
    fn new(lowest_rad: f64) -> Self {
        let halvings = halvings(2.0 * lowest_rad.abs());
        Self {
            small_rad: lowest_rad / f64::from(1_u32 << halvings),
            halvings,
        }
    }

    /// exp(−j x) at a multiple below 2 of the lowest frequency: of the small angle, squared until it is as large as it
    /// should be.
    fn at(&self, multiple: f64) -> (f64, f64) {
        let (mut re, mut im) = small_turn(self.small_rad * multiple);
        for _ in 0..self.halvings {
            (re, im) = squared(re, im);
        }
        (re, im)
    }
}

/// Largest angle that [`small_turn`] takes, rad.
const SMALL_RAD: f64 = 0.25;

/// Most halvings of an angle; enough for ways far beyond any room.
const MOST_HALVINGS: u32 = 30;

/// How often an angle must be halved to be small.
fn halvings(angle_rad: f64) -> u32 {
    let mut count = 0;
    let mut left = angle_rad;
    while left > SMALL_RAD && count < MOST_HALVINGS {
        left *= 0.5;
        count += 1;
    }
    count
}

/// exp(−j x) of a small angle as real and imaginary part, by its power series.
fn small_turn(x: f64) -> (f64, f64) {
    let s = x * x;
    let cosine = 1.0
        - s * (0.5 - s * (1.0 / 24.0 - s * (1.0 / 720.0 - s * (1.0 / 40_320.0 - s / 3_628_800.0))));
    let sine = x
        * (1.0
            - s * (1.0 / 6.0
                - s * (1.0 / 120.0
                    - s * (1.0 / 5040.0 - s * (1.0 / 362_880.0 - s / 39_916_800.0)))));
    (cosine, -sine)
}

fn squared(re: f64, im: f64) -> (f64, f64) {
    (re * re - im * im, 2.0 * re * im)
}

/// Frequencies of one octave re its lowest, for three and for nine of them: 2^(i/9).
const NINTHS: [f64; 9] = [
    1.0,
    1.080_059_738_892_306,
    1.166_529_039_576_116_5,
    1.259_921_049_894_873_2,
    1.360_790_000_174_377,
    1.469_734_492_275_598_8,
    1.587_401_051_968_199_4,
    1.714_487_965_706_145_6,
    1.851_749_424_574_580_7,
];

#[cfg(test)]
mod tests {
    use super::*;

    fn largest_error<const N: usize>(way_m: f64) -> f64 {
        let spectrum = turned::<N>(way_m, 343.2);
        (0..N)
            .map(|i| {
                let rad = TAU * frequency_hz::<N>(i) / 343.2 * way_m;
                (spectrum.at(i) - Complex64::from_polar(1.0, -rad)).norm()
            })
            .fold(0.0, f64::max)
    }

    #[test]
    fn a_turn_is_the_exponential_on_both_grids() {
        for way_m in [0.0, 1e-6, 0.013, 0.5, 3.7, 25.0, 100.0, -0.4] {
            assert!(largest_error::<FINE>(way_m) < 1e-10, "fine, {way_m} m");
            assert!(largest_error::<COARSE>(way_m) < 1e-10, "coarse, {way_m} m");
        }
    }

    #[test]
    fn single_precision_is_good_for_a_weight() {
        for way_m in [1e-6, 0.013, 0.5, 3.7, 25.0, 100.0] {
            let exact = turned::<COARSE>(way_m, 343.2);
            let (re, im) = turned_single(TAU * frequency_hz::<COARSE>(0) / 343.2 * way_m);
            for i in 0..COARSE {
                let single = Complex64::new(f64::from(re[i]), f64::from(im[i]));
                assert!((single - exact.at(i)).norm() < 5e-5, "{way_m} m, {i}");
            }
        }
    }

    #[test]
    fn the_grids_are_powers_of_two_about_1_khz() {
        for i in 0..FINE {
            let power = 1000.0 * ((i as f64 - 40.0) / 9.0).exp2();
            assert!((frequency_hz::<FINE>(i) / power - 1.0).abs() < 1e-14);
        }
    }

    #[test]
    fn both_grids_share_the_middle_of_each_band() {
        for band in 0..BANDS {
            let middle = frequency_hz::<FINE>(3 * band + 1);
            assert!((middle / frequency_hz::<COARSE>(band) - 1.0).abs() < 1e-14);
            assert!((middle / crate::bands::exact_hz(band) - 1.0).abs() < 0.011);
        }
    }
}
