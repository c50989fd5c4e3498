//! How a wall couples the notes of the rigid box: its admittance between every two shapes that sound draws on it.
//!
//! All integrals are in closed form, rectangle by rectangle. A wall without patches couples no two different shapes.

use std::f64::consts::PI;

use num_complex::Complex64;

use super::admittance::Admittance;
use super::modes::{Mode, axis_shape};
use super::room::{BassRoom, BassWall};
use crate::geometry::{Rect, Surface};

/// What the notes draw on the two walls of one axis: each shape once, and which note draws which.
pub(super) struct Drawn {
    /// Half waves along the walls' u and v, lowest frequency first.
    shapes: Vec<[u32; 2]>,
    /// Frequency of the shape alone, Hz.
    frequency_hz: Vec<f64>,
    /// Per note: its shape.
    pub(super) shape_of: Vec<usize>,
    /// Per note: its value along the axis at the near and at the far wall.
    pub(super) end: Vec<[f64; 2]>,
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
        flats.sort_by(by_frequency);
        flats.dedup_by_key(|mode| mode.n);
        let length_m = room.size_m[axis];
        let place = |mode: &Mode| {
            let wanted = flat(mode);
            flats.partition_point(|flat| by_frequency(flat, &wanted).is_lt())
        };
        let ends =
            |mode: &Mode| [0.0, length_m].map(|at_m| axis_shape(mode.n[axis], at_m, length_m));
        Self {
            shapes: flats.iter().map(|mode| [mode.n[u], mode.n[v]]).collect(),
            frequency_hz: flats.iter().map(|mode| mode.frequency_hz).collect(),
            shape_of: modes.iter().map(place).collect(),
            end: modes.iter().map(ends).collect(),
        }
    }

    /// How many shapes lie at or below a frequency.
    pub(super) fn count_up_to(&self, highest_hz: f64) -> usize {
        self.frequency_hz.partition_point(|&hz| hz <= highest_hz)
    }
}

fn by_frequency(a: &Mode, b: &Mode) -> std::cmp::Ordering {
    (a.frequency_hz.total_cmp(&b.frequency_hz)).then(a.n.cmp(&b.n))
}

/// One wall: its bare admittance, and what patches of each material change.
pub(super) struct WallTerms {
    bare: Admittance,
    /// Each material once, with the integral of every two shapes over its patches.
    materials: Vec<(Admittance, Vec<f64>)>,
    /// Shapes on the wall, the side of the matrices.
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

    /// Adds `sign` times the wall at one frequency, on its lowest `count` shapes, to a matrix.
    ///
    /// ```text
    /// S_ab = ∫ β φ_a φ_b dS = β_bare δ_ab + Σ_m (β_m − β_bare) ∫_m φ_a φ_b dS
    /// ```
    pub(super) fn add_to(&self, matrix: &mut WallMatrix, sign: f64, frequency_hz: f64) {
        let bare = self.bare.at(frequency_hz);
        let count = matrix.count;
        for shape in 0..count {
            matrix.add(shape * (count + 1), sign * bare);
        }
        for (admittance, shared) in &self.materials {
            let more = sign * (admittance.at(frequency_hz) - bare);
            for (row, shared) in shared.chunks_exact(self.side).take(count).enumerate() {
                let range = row * count..(row + 1) * count;
                let parts = matrix.re[range.clone()].iter_mut().zip(&mut matrix.im[range]);
                for ((re, im), shared) in parts.zip(shared) {
                    *re += more.re * shared;
                    *im += more.im * shared;
                }
            }
        }
    }

    /// Entry of [`Self::at`] that a shape has with itself.
    pub(super) fn own(&self, frequency_hz: f64, shape: usize) -> Complex64 {
        let bare = self.bare.at(frequency_hz);
        let diagonal = shape * (self.side + 1);
        let patches = self.materials.iter();
        bare + patches
            .map(|(admittance, shared)| (admittance.at(frequency_hz) - bare) * shared[diagonal])
            .sum::<Complex64>()
    }
}

/// Adds the integral over one rectangle of every two shapes.
fn add_patch(shared: &mut [f64], drawn: &Drawn, extent: Rect, rect: Rect) {
    let most = |of: usize| drawn.shapes.iter().map(|n| n[of]).max().unwrap_or(0) as usize;
    let along_u = Overlaps::new(most(0), extent.width_m, rect.u_m, rect.width_m);
    let along_v = Overlaps::new(most(1), extent.height_m, rect.v_m, rect.height_m);
    for (row, a) in shared.chunks_exact_mut(drawn.shapes.len()).zip(&drawn.shapes) {
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
    /// ∫ φ_p φ_q dx = √(ε_p ε_q) / (2 L) [ C(p − q) + C(p + q) ],   ε_0 = 1, else 2
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
            values: (0..side * side).map(|i| overlap(i / side, i % side)).collect(),
        }
    }

    fn of(&self, p: u32, q: u32) -> f64 {
        self.values[p as usize * self.side + q as usize]
    }
}

/// ∫ cos(k π x / L) dx over a stretch, written so that short stretches keep their digits.
fn cosine_integral(k: usize, length_m: f64, from_m: f64, extent_m: f64) -> f64 {
    if k == 0 {
        return extent_m;
    }
    let per_m = k as f64 * PI / length_m;
    2.0 / per_m * (0.5 * per_m * extent_m).sin() * (per_m * (from_m + 0.5 * extent_m)).cos()
}

/// What walls do to the shapes on them at one frequency.
pub(super) struct WallMatrix {
    count: usize,
    re: Vec<f64>,
    im: Vec<f64>,
}

impl WallMatrix {
    pub(super) fn zero(count: usize) -> Self {
        Self { count, re: vec![0.0; count * count], im: vec![0.0; count * count] }
    }

    fn add(&mut self, index: usize, value: Complex64) {
        self.re[index] += value.re;
        self.im[index] += value.im;
    }

    /// Real and imaginary parts of a row.
    pub(super) fn row(&self, shape: usize) -> (&[f64], &[f64]) {
        let range = shape * self.count..(shape + 1) * self.count;
        (&self.re[range.clone()], &self.im[range])
    }
}
