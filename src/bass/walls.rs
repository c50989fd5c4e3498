//! How a wall couples the notes of the rigid box: its admittance between every two shapes that sound draws on it.
//!
//! All integrals are in closed form, rectangle by rectangle. A wall without patches couples no two different shapes.

use std::f64::consts::{FRAC_2_PI, PI, TAU};

use num_complex::Complex64;

use super::admittance::Admittance;
use super::modes::{Mode, axis_shape};
use super::room::{BassRoom, BassWall};
use crate::geometry::{Rect, Surface};

/// What the notes draw on the two walls of one axis: each shape once, and which note draws which.
pub(super) struct Drawn {
    /// Extent of the room along the axis, m.
    length_m: f64,
    /// Half waves along the walls' u and v, lowest frequency first.
    shapes: Vec<[u32; 2]>,
    /// Wave number of the shape alone, 1/m.
    per_m: Vec<f64>,
    /// Per note: its shape.
    pub(super) shape_of: Vec<usize>,
    /// Per note: its half waves along the axis.
    pub(super) half_waves: Vec<u32>,
    /// Per note: its value along the axis at the near wall; at the far one it has the sign of (−1)^n.
    pub(super) end: Vec<f64>,
}

impl Drawn {
    /// On the walls square to an axis (0 x, 1 y, 2 z) by these notes.
    pub(super) fn new(room: &BassRoom, modes: &[Mode], axis: usize) -> Self {
        let (u, v) = Surface::ALL[2 * axis].uv_axes();
        let flat = |mode: &Mode| {
            let mut n = mode.n;
            n[axis] = 0;
            Mode::new(n, room.size_m, room.speed_of_sound_m_per_s)
        };
        let mut flats: Vec<Mode> = modes.iter().map(flat).collect();
        flats.sort_by(Mode::by_frequency);
        flats.dedup_by_key(|mode| mode.n);
        let place = |wanted: Mode| flats.partition_point(|flat| flat.by_frequency(&wanted).is_lt());
        let length_m = room.size_m[axis];
        let per_m = |mode: &Mode| TAU * mode.frequency_hz / room.speed_of_sound_m_per_s;
        let half_waves: Vec<u32> = modes.iter().map(|mode| mode.n[axis]).collect();
        Self {
            length_m,
            shape_of: modes.iter().map(|mode| place(flat(mode))).collect(),
            end: half_waves
                .iter()
                .map(|&n| axis_shape(n, 0.0, length_m))
                .collect(),
            half_waves,
            shapes: flats.iter().map(|mode| [mode.n[u], mode.n[v]]).collect(),
            per_m: flats.iter().map(per_m).collect(),
        }
    }

    /// How the field of all notes beyond the lowest `count` gives way at a wall, per shape that these draw: the pressure there
    /// over the flow into the wall, as a root because it stands between two shapes.
    ///
    /// ```text
    /// t_a = Σ φ_n(0)² / ((n π / L)² + k_a² − k²)   over the n that are not among the lowest
    /// ```
    ///
    /// The near field of a soft wall needs many notes; these stand for them without being solved for.
    pub(super) fn give(&self, wave_number_per_m: f64, count: usize) -> Vec<f64> {
        let mut first_missing: Vec<u32> = Vec::new();
        for (&shape, &n) in self.shape_of.iter().zip(&self.half_waves).take(count) {
            if shape >= first_missing.len() {
                first_missing.resize(shape + 1, 0);
            }
            first_missing[shape] = first_missing[shape].max(n + 1);
        }
        let missing = |(&first, per_m): (&u32, &f64)| {
            let square = per_m * per_m - wave_number_per_m * wave_number_per_m;
            sum_from(first, self.length_m, square).max(0.0).sqrt()
        };
        first_missing.iter().zip(&self.per_m).map(missing).collect()
    }
}

/// Terms of [`sum_from`] that are added one by one before the rest is taken as an integral.
const SINGLE_TERMS: u32 = 8;

/// Σ (2/L) / ((n π / L)² + square) from a half wave on.
fn sum_from(first: u32, length_m: f64, square: f64) -> f64 {
    let per_half_wave = PI / length_m;
    let term = |n: u32| 2.0 / length_m / ((per_half_wave * f64::from(n)).powi(2) + square);
    let single: f64 = (first..first + SINGLE_TERMS).map(term).sum();
    let from = per_half_wave * (f64::from(first + SINGLE_TERMS) - 0.5);
    let root = square.abs().sqrt();
    let rest = if root < 1e-6 * from {
        from.recip()
    } else if square > 0.0 {
        (root / from).atan() / root
    } else {
        (root / from).min(1.0 - f64::EPSILON).atanh() / root
    };
    single + FRAC_2_PI * rest
}

/// One wall: its bare admittance, and what patches of each material cover.
pub(super) struct WallTerms {
    bare: Admittance,
    /// Each material once, with the integral of every two shapes over its patches.
    materials: Vec<(Admittance, Vec<f64>)>,
    /// Shapes on the wall, the side of the integrals' square.
    side: usize,
}

impl WallTerms {
    pub(super) fn new(wall: &BassWall, drawn: &Drawn) -> Self {
        let side = drawn.shapes.len();
        let mut materials: Vec<(Admittance, Vec<f64>)> = Vec::new();
        for (rect, patch) in wall.visible() {
            let admittance = &wall.patches[patch].1;
            let known = materials.iter().position(|(kind, _)| kind == admittance);
            let index = known.unwrap_or(materials.len());
            if known.is_none() {
                materials.push((admittance.clone(), vec![0.0; side * side]));
            }
            add_patch(&mut materials[index].1, drawn, wall.extent, rect);
        }
        Self {
            bare: wall.bare.clone(),
            materials,
            side,
        }
    }

    /// What the wall does at one frequency.
    ///
    /// ```text
    /// S_ab = ∫ β' φ_a φ_b dS = β'_bare δ_ab + Σ_m (β'_m − β'_bare) ∫_m φ_a φ_b dS
    /// β'   = β / (1 + j k β √(t_a t_b)),   t as Drawn::give
    /// ```
    ///
    /// Exact for one admittance all over the wall; between patches it takes the near field to be local.
    pub(super) fn matrix(&self, at: At) -> WallMatrix {
        let bare = Softened::new(self.bare.at(at.frequency_hz));
        let kinds = self.materials.iter().map(|(kind, shared)| {
            let beta = kind.at(at.frequency_hz);
            (Softened::new(beta), shared)
        });
        let kinds: Vec<_> = kinds.collect();
        let mut matrix = WallMatrix::zero(at.give.len());
        let mut off = Vec::with_capacity(at.give.len());
        for (a, give_a) in at.give.iter().enumerate() {
            let turn = at.wave_number_per_m * give_a;
            let (re, im) = matrix.row_mut(a);
            (re[a], im[a]) = bare.at(turn * give_a);
            if kinds.is_empty() {
                continue;
            }
            let gives = &at.give[a..];
            off.clear();
            off.extend(gives.iter().map(|give_b| bare.at(turn * give_b)));
            for (kind, shared) in &kinds {
                let shared = &shared[a * self.side + a..][..gives.len()];
                for (i, (give_b, shared)) in gives.iter().zip(shared).enumerate() {
                    let ((on_re, on_im), (off_re, off_im)) = (kind.at(turn * give_b), off[i]);
                    re[a + i] += (on_re - off_re) * shared;
                    im[a + i] += (on_im - off_im) * shared;
                }
            }
        }
        matrix.mirror();
        matrix
    }

    /// ∫ β φ_a² dS of one shape.
    pub(super) fn own(&self, frequency_hz: f64, shape: usize) -> Complex64 {
        let bare = self.bare.at(frequency_hz);
        let shared = |patches: &[f64]| patches[shape * (self.side + 1)];
        let more = |(kind, patches): &(Admittance, Vec<f64>)| {
            (kind.at(frequency_hz) - bare) * shared(patches)
        };
        bare + self.materials.iter().map(more).sum::<Complex64>()
    }
}

/// The frequency that walls are asked about.
#[derive(Clone, Copy)]
pub(super) struct At<'a> {
    pub(super) frequency_hz: f64,
    pub(super) wave_number_per_m: f64,
    /// [`Drawn::give`] of the shapes in use.
    pub(super) give: &'a [f64],
}

/// An admittance behind a near field that gives way.
///
/// ```text
/// β / (1 + j x β) = (β − j x |β|²) / (1 − 2 x Im β + x² |β|²)
/// ```
struct Softened {
    beta: Complex64,
    square: f64,
}

impl Softened {
    fn new(beta: Complex64) -> Self {
        Self {
            beta,
            square: beta.norm_sqr(),
        }
    }

    /// Real and imaginary part at x = k √(t_a t_b).
    fn at(&self, x: f64) -> (f64, f64) {
        let over = 1.0 / (1.0 + x * (x * self.square - 2.0 * self.beta.im));
        (self.beta.re * over, (self.beta.im - x * self.square) * over)
    }
}

/// Adds the integral over one rectangle of every two shapes.
fn add_patch(shared: &mut [f64], drawn: &Drawn, extent: Rect, rect: Rect) {
    let most = |of: usize| drawn.shapes.iter().map(|n| n[of]).max().unwrap_or(0) as usize;
    let along_u = Overlaps::new(most(0), extent.width_m, rect.u_m, rect.width_m);
    let along_v = Overlaps::new(most(1), extent.height_m, rect.v_m, rect.height_m);
    for (row, a) in shared
        .chunks_exact_mut(drawn.shapes.len())
        .zip(&drawn.shapes)
    {
        for (entry, b) in row.iter_mut().zip(&drawn.shapes) {
            *entry += along_u.of(a[0], b[0]) * along_v.of(a[1], b[1]);
        }
    }
}

/// Integrals of every two shapes of one axis over a stretch of it.
struct Overlaps {
    side: usize,
    values: Vec<f64>,
}

impl Overlaps {
    /// ```text
    /// ∫ φ_p φ_q dx = ½ φ_p(0) φ_q(0) [ C(p − q) + C(p + q) ]
    /// C(k) = ∫ cos(k π x / L) dx
    /// ```
    fn new(most: usize, length_m: f64, from_m: f64, extent_m: f64) -> Self {
        let side = most + 1;
        let cosines: Vec<f64> = (0..2 * side)
            .map(|k| cosine_integral(k, length_m, from_m, extent_m))
            .collect();
        let scale = |n: usize| axis_shape(n as u32, 0.0, length_m);
        let overlap = |p: usize, q: usize| {
            0.5 * scale(p) * scale(q) * (cosines[p.abs_diff(q)] + cosines[p + q])
        };
        Self {
            side,
            values: (0..side * side)
                .map(|i| overlap(i / side, i % side))
                .collect(),
        }
    }

    fn of(&self, p: u32, q: u32) -> f64 {
        self.values[p as usize * self.side + q as usize]
    }
}

/// ∫ cos(k π x / L) dx over a stretch, as a product, so that short stretches keep their digits.
fn cosine_integral(k: usize, length_m: f64, from_m: f64, extent_m: f64) -> f64 {
    if k == 0 {
        return extent_m;
    }
    let per_m = k as f64 * PI / length_m;
    2.0 / per_m * (0.5 * per_m * extent_m).sin() * (per_m * (from_m + 0.5 * extent_m)).cos()
}

/// What walls do to the shapes on them at one frequency: a symmetric matrix, both halves kept, parts apart.
pub(super) struct WallMatrix {
    side: usize,
    re: Vec<f64>,
    im: Vec<f64>,
}

impl WallMatrix {
    fn zero(side: usize) -> Self {
        Self {
            side,
            re: vec![0.0; side * side],
            im: vec![0.0; side * side],
        }
    }

    fn row_mut(&mut self, shape: usize) -> (&mut [f64], &mut [f64]) {
        let range = shape * self.side..(shape + 1) * self.side;
        (&mut self.re[range.clone()], &mut self.im[range])
    }

    /// Fills the half below the diagonal.
    fn mirror(&mut self) {
        for part in [&mut self.re, &mut self.im] {
            for row in 1..self.side {
                for column in 0..row {
                    part[row * self.side + column] = part[column * self.side + row];
                }
            }
        }
    }

    /// This and `sign` times another.
    pub(super) fn with(&self, sign: f64, other: &Self) -> Self {
        let added = |(one, other): (&f64, &f64)| one + sign * other;
        Self {
            side: self.side,
            re: self.re.iter().zip(&other.re).map(added).collect(),
            im: self.im.iter().zip(&other.im).map(added).collect(),
        }
    }

    /// Real and imaginary parts of a row.
    pub(super) fn row(&self, shape: usize) -> (&[f64], &[f64]) {
        let range = shape * self.side..(shape + 1) * self.side;
        (&self.re[range.clone()], &self.im[range])
    }
}
