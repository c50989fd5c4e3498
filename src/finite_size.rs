//! What a piece of limited size absorbs at random incidence: more than the endless surface, because sound bends in over its
//! edges. Values above 1 are right here, in Sabine's sum, and nowhere else.
//!
//! Method: Thomasson's integral with the radiation impedance of the rectangle, taken for the square of the same ratio of area to
//! edge, from a table made at the first call. Left out: that a room corner beside the piece takes edges away from it, and the
//! sides of a thick piece. Values of a data sheet come from a sample of limited size already: their bound is the typed value, and
//! nothing here is for them.

use std::f64::consts::{FRAC_2_PI, FRAC_PI_2, FRAC_PI_4, SQRT_2, TAU};
use std::sync::OnceLock;

use num_complex::Complex64;

use crate::air::Air;
use crate::bands::{Banded, exact_hz};
use crate::gauss::gauss_legendre;
use crate::geometry::{Rect, TOUCH_M};
use crate::numeric::polynomial;

/// Angles of incidence in the integral: enough for the resonances of a gap of 200 mm over angle.
const ANGLES: usize = 24;

/// Smallest and largest size in the table, octaves of wave number times side; and its steps to the octave.
const SMALLEST_OCTAVE: f64 = -4.0;
const LARGEST_OCTAVE: f64 = 8.0;
const STEPS_PER_OCTAVE: f64 = 4.0;

/// Points of one Gauss set, and the range of x that it spans: nearly three points to the shortest period, which is π.
const POINTS: usize = 16;
const RAD_PER_SET: f64 = 18.0;

/// Sizes that the radiation impedance is computed for, wave number times side; smaller and larger ones count as these.
const LEAST_RAD: f64 = 1e-6;
const MOST_RAD: f64 = 1e4;

/// Pieces of one kind with at most this gap between them act as one, m.
///
/// # Source
/// Common practice, no source: small beside the wavelength up to about 1 kHz, where the size counts most.
const JOINING_GAP_M: f64 = 0.05;

/// Area below which a piece may take more, m², and the most that a small and a large one are believed to take.
///
/// # Source
/// Common practice, no source: the sound in a small room falls on a piece less evenly than the integral supposes.
const SMALL_AREA_M2: f64 = 1.5;
const MOST_OF_SMALL: f64 = 1.2;
const MOST_OF_LARGE: f64 = 1.1;

/// Absorbed share of the energy of sound from all sides, of a rectangle in a large hard wall; not capped.
///
/// ```text
/// α = ∫ 8 Re(Zs) sin θ / |Zs + Zf|² dθ,  θ = 0 … 90°,  impedances over ρ c
/// ```
///
/// For an endless surface Zf = 1 / cos θ, and this is Paris' integral.
///
/// # Units
/// - `impedance`: of the surface over ρ c, for a frequency in Hz and the cosine of the angle of incidence; infinite where nothing
///   moves
/// - `width_m`, `height_m`: m; of the whole group where pieces are joined, see [`groups`]
/// - returns: energy ratio, ≥ 0, may exceed 1
///
/// # Accuracy
/// Where α is below 1.2: table and quadrature 0.005, with a thin slab over a gap of 200 mm 0.01; the square in place of the
/// rectangle 0.01 for sides of 1 to 2, 0.03 up to 1 to 8. Above 1.2 the square overstates by up to 5 %.
///
/// # Source
/// Thomasson, Acustica 44 (1980) 265–273; the square: Thomasson, report TRITA-TAK 8201, KTH 1982, from memory. Vigran,
/// Building Acoustics (2008), Eq. 5.58.
#[must_use]
pub fn finite_size_absorption(
    impedance: impl Fn(f64, f64) -> Complex64,
    width_m: f64,
    height_m: f64,
    air: &Air,
) -> Banded {
    let table = Table::shared();
    let rad_per_hz = TAU / air.speed_of_sound_m_per_s * equivalent_side_m(width_m, height_m);
    Banded::from_fn(|band| {
        let frequency_hz = exact_hz(band);
        let place = Place::of(rad_per_hz * frequency_hz);
        let absorbed = |(i, angle): (usize, &Angle)| {
            let radiation = table.at(place, i);
            angle.weight * density(impedance(frequency_hz, angle.cosine), radiation)
        };
        table.angles.iter().enumerate().map(absorbed).sum()
    })
}

/// The most that a piece is believed to take in a small room: its value as a rectangle of limited size, capped, and never below
/// that of the endless surface.
///
/// # Units
/// - `random`: of the endless surface at random incidence
/// - `finite`: of the rectangle, [`finite_size_absorption`]
/// - `area_m2`: of the rectangle, m²
#[must_use]
pub fn bound(random: &Banded, finite: &Banded, area_m2: f64) -> Banded {
    let most = if area_m2 < SMALL_AREA_M2 {
        MOST_OF_SMALL
    } else {
        MOST_OF_LARGE
    };
    Banded::from_fn(|band| finite[band].min(most).max(random[band]))
}

/// For each piece of a wall the rectangle round the group that it belongs to.
///
/// Two pieces are joined where they are of one kind and face each other along an edge across at most 50 mm, directly or through
/// others. Pieces that meet in a corner only are not.
///
/// # Units
/// - `rects`, `kinds`: place and kind of each piece of one wall
#[must_use]
pub fn groups(rects: &[Rect], kinds: &[usize]) -> Vec<Rect> {
    let mut group: Vec<usize> = (0..rects.len().min(kinds.len())).collect();
    for i in 0..group.len() {
        for j in 0..i {
            if kinds[i] == kinds[j] && face_each_other(rects[i], rects[j]) {
                let (old, new) = (group[i], group[j]);
                group
                    .iter_mut()
                    .filter(|g| **g == old)
                    .for_each(|g| *g = new);
            }
        }
    }
    let around = |&own: &usize| {
        let members = rects.iter().zip(&group).filter(|&(_, &g)| g == own);
        members.map(|(rect, _)| *rect).reduce(rect_around)
    };
    group.iter().filter_map(around).collect()
}

/// Whether a gap that joins lies between two rectangles, or none.
fn face_each_other(a: Rect, b: Rect) -> bool {
    // A gap of just 50 mm must leave more than a touch.
    let reach_m = JOINING_GAP_M + 2.0 * TOUCH_M;
    let longer = Rect {
        u_m: a.u_m - reach_m,
        width_m: a.width_m + 2.0 * reach_m,
        ..a
    };
    let taller = Rect {
        v_m: a.v_m - reach_m,
        height_m: a.height_m + 2.0 * reach_m,
        ..a
    };
    longer.overlaps(b) || taller.overlaps(b)
}

/// The smallest rectangle that holds both.
fn rect_around(a: Rect, b: Rect) -> Rect {
    let (u_m, v_m) = (a.u_m.min(b.u_m), a.v_m.min(b.v_m));
    Rect {
        u_m,
        v_m,
        width_m: (a.u_m + a.width_m).max(b.u_m + b.width_m) - u_m,
        height_m: (a.v_m + a.height_m).max(b.v_m + b.height_m) - v_m,
    }
}

/// Side of the square with the rectangle's ratio of area to edge, m.
///
/// ```text
/// e = 4 S / U = 2 / (1/a + 1/b)
/// ```
fn equivalent_side_m(width_m: f64, height_m: f64) -> f64 {
    2.0 / (width_m.recip() + height_m.recip())
}

/// What is absorbed to a step of the cosine of the angle of incidence.
fn density(surface: Complex64, radiation: Complex64) -> f64 {
    let absorbed = 8.0 * surface.re / (surface + radiation).norm_sqr();
    // Far below its range a model of a material can give a trace of energy; and a hard surface is infinite.
    if absorbed.is_finite() {
        absorbed.max(0.0)
    } else {
        0.0
    }
}

/// Radiation impedance of a square over ρ c, mean over azimuth.
///
/// ```text
/// Zf = (2 j k / (π e²)) ∫∫ J0(k r sin θ) (e − u)(e − v) exp(−j k r) / r du dv,   u, v = 0 … e,  r² = u² + v²
///    = (2 j / π) ∫ J0(x sin θ) exp(−j x) w(x / k e) dx,   x = 0 … √2 k e
/// ```
///
/// J0 is the mean of Thomasson's cos(kx u) cos(ky v) over azimuth, w what is left after the angle in polar coordinates.
///
/// # Units
/// - `size_rad`: wave number times side, k e; held to 1e-6 … 1e4
/// - `cosine`: of the angle of incidence, 0 … 1
///
/// # Accuracy
/// 1e-5 of its size.
///
/// # Source
/// Thomasson, Acustica 44 (1980); the reduction to one integral: this project's.
#[must_use]
pub fn radiation_impedance(size_rad: f64, cosine: f64) -> Complex64 {
    let sine = sine_of(cosine);
    waves(size_rad)
        .into_iter()
        .map(|(x, wave)| wave * bessel_j0(x * sine))
        .sum()
}

fn sine_of(cosine: f64) -> f64 {
    (1.0 - cosine * cosine).max(0.0).sqrt()
}

/// Points x of the integral for the radiation impedance, each with all of it that does not depend on angle.
fn waves(size_rad: f64) -> Vec<(f64, Complex64)> {
    let size_rad = size_rad.clamp(LEAST_RAD, MOST_RAD);
    let rule = gauss_legendre(POINTS);
    let mut found = Vec::new();
    // The window has a bend at the side of the square.
    for (from, to) in [(0.0, size_rad), (size_rad, SQRT_2 * size_rad)] {
        let sets = ((to - from) / RAD_PER_SET).ceil().max(1.0);
        let width = (to - from) / sets;
        for start in (0..sets as usize).map(|set| from + width * set as f64) {
            found.extend(rule.iter().map(|&(node, weight)| {
                let x = start + width * node;
                let strength = FRAC_2_PI * width * weight * window(x / size_rad);
                (x, Complex64::from_polar(strength, FRAC_PI_2 - x))
            }));
        }
    }
    found
}

/// Integral of (1 − ρ cos ψ)(1 − ρ sin ψ) over the angles ψ at which a circle of radius ρ runs inside the unit square.
fn window(rho: f64) -> f64 {
    let half_square = 0.5 * rho * rho;
    if rho <= 1.0 {
        FRAC_PI_2 - 2.0 * rho + half_square
    } else {
        2.0 * rho.recip().asin() - FRAC_PI_2 + 2.0 * (rho * rho - 1.0).sqrt() - 1.0 - half_square
    }
}

/// An angle of the integral, and its share.
struct Angle {
    cosine: f64,
    weight: f64,
}

/// Radiation impedances at the angles of the integral, by size.
struct Table {
    angles: Vec<Angle>,
    /// One row per size, one value per angle.
    rows: Vec<Vec<Complex64>>,
}

impl Table {
    fn shared() -> &'static Self {
        static TABLE: OnceLock<Table> = OnceLock::new();
        TABLE.get_or_init(Self::new)
    }

    fn new() -> Self {
        let as_angle = |(cosine, weight)| Angle { cosine, weight };
        let angles: Vec<Angle> = gauss_legendre(ANGLES).into_iter().map(as_angle).collect();
        let steps = ((LARGEST_OCTAVE - SMALLEST_OCTAVE) * STEPS_PER_OCTAVE) as usize;
        let row = |step| {
            row_of(
                (SMALLEST_OCTAVE + step as f64 / STEPS_PER_OCTAVE).exp2(),
                &angles,
            )
        };
        Self {
            rows: (0..=steps).map(row).collect(),
            angles,
        }
    }

    /// Radiation impedance at one of the angles.
    fn at(&self, place: Place, angle: usize) -> Complex64 {
        let (low, high) = (self.rows[place.row][angle], self.rows[place.row + 1][angle]);
        let endless = self.angles[angle].cosine.recip();
        endless + (low + (high - low) * place.share - endless) * place.edges
    }
}

/// Radiation impedances of a square of one size at all angles.
fn row_of(size_rad: f64, angles: &[Angle]) -> Vec<Complex64> {
    let sines: Vec<f64> = angles.iter().map(|a| sine_of(a.cosine)).collect();
    let mut row = vec![Complex64::ZERO; angles.len()];
    for (x, wave) in waves(size_rad) {
        for (sum, sine) in row.iter_mut().zip(&sines) {
            *sum += wave * bessel_j0(x * sine);
        }
    }
    row
}

/// Where a size lies in the table.
#[derive(Clone, Copy)]
struct Place {
    row: usize,
    /// From that row to the next, 0 … 1.
    share: f64,
    /// What is left of the edges' part, 1 but for sizes beyond the table.
    edges: f64,
}

impl Place {
    /// Sizes beyond the table: the part of the edges falls as the ratio of edge to area.
    fn of(size_rad: f64) -> Self {
        let octave = size_rad.log2().max(SMALLEST_OCTAVE);
        let steps = (octave.min(LARGEST_OCTAVE) - SMALLEST_OCTAVE) * STEPS_PER_OCTAVE;
        let last = (LARGEST_OCTAVE - SMALLEST_OCTAVE) * STEPS_PER_OCTAVE - 1.0;
        let row = steps.floor().min(last);
        Self {
            row: row as usize,
            share: steps - row,
            edges: (LARGEST_OCTAVE - octave).min(0.0).exp2(),
        }
    }
}

/// Bessel function of the first kind and order nought, of x ≥ 0.
///
/// # Accuracy
/// 5e-8 absolute.
///
/// # Source
/// Abramowitz & Stegun, Handbook of Mathematical Functions, 1964, 9.4.1 and 9.4.3.
fn bessel_j0(x: f64) -> f64 {
    if x <= 3.0 {
        return polynomial((x / 3.0).powi(2), &J0_NEAR);
    }
    let t = 3.0 / x;
    polynomial(t, &J0_FAR) * (x + polynomial(t, &J0_PHASE)).cos() / x.sqrt()
}

/// Coefficients of 9.4.1, rising powers of (x/3)².
const J0_NEAR: [f64; 7] = [
    1.0,
    -2.249_999_7,
    1.265_620_8,
    -0.316_386_6,
    0.044_447_9,
    -0.003_944_4,
    0.000_210_0,
];

/// Coefficients of f0 in 9.4.3, rising powers of 3/x.
const J0_FAR: [f64; 7] = [
    0.797_884_56,
    -0.000_000_77,
    -0.005_527_40,
    -0.000_095_12,
    0.001_372_37,
    -0.000_728_05,
    0.000_144_76,
];

/// Coefficients of θ0 − x in 9.4.3, rising powers of 3/x.
const J0_PHASE: [f64; 7] = [
    -FRAC_PI_4,
    -0.041_663_97,
    -0.000_039_54,
    0.002_625_73,
    -0.000_541_25,
    -0.000_293_33,
    0.000_135_58,
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bessel_meets_the_printed_table() {
        // Abramowitz & Stegun, table 9.1.
        for (x, printed) in [
            (0.0, 1.0),
            (1.0, 0.765_197_686_6),
            (2.0, 0.223_890_779_1),
            (5.0, -0.177_596_771_3),
            (10.0, -0.245_935_764_5),
        ] {
            assert!((bessel_j0(x) - printed).abs() < 6e-8, "J0({x})");
        }
    }

    #[test]
    fn the_table_gives_what_the_integral_gives() {
        let table = Table::shared();
        let largest = (0..600)
            .map(|i| (f64::from(i) * 0.02 - 4.0).exp2())
            .flat_map(|size_rad| (0..ANGLES).step_by(5).map(move |i| (size_rad, i)))
            .map(|(size_rad, i)| {
                let exact = radiation_impedance(size_rad, table.angles[i].cosine);
                (table.at(Place::of(size_rad), i) - exact).norm() / exact.norm()
            })
            .fold(0.0, f64::max);
        // What 0.02 of the radiation impedance does to the absorption is less than 0.005.
        assert!(largest < 0.02, "{largest}");
    }
}
