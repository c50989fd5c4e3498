//! The directions over which the late sound is resolved: points over one octant, which stands for all eight.

use std::sync::OnceLock;

use wide::f64x4;

use crate::gauss::{gauss_legendre, octant};

/// Points over each angle of the octant.
const ANGLES: usize = 8;

/// Points over the octant.
pub(super) const DIRECTIONS: usize = ANGLES * ANGLES;

/// Gauss points over one octant of directions.
pub(super) struct Directions {
    /// |Ω_i| of each direction, per axis.
    pub along: [[f64; DIRECTIONS]; 3],
    /// Root of the share of the octant that each stands for.
    pub root_weight: [f64; DIRECTIONS],
    /// `root_weight` times |Ω_i|, per axis.
    pub weighted: [[f64; DIRECTIONS]; 3],
    /// Mean of |Ω_i| over the points, ½ but for the quadrature's error: with it nothing is lost in scattering.
    pub mean: [f64; 3],
}

/// The points: Gauss over cos θ and over φ, each crowded towards its ends by 3x² − 2x³, since the slowest directions run
/// along walls and axes.
pub(super) fn directions() -> &'static Directions {
    static GRID: OnceLock<Directions> = OnceLock::new();
    GRID.get_or_init(|| {
        let crowded: Vec<(f64, f64)> = gauss_legendre(ANGLES)
            .into_iter()
            .map(|(x, w)| (x * x * (3.0 - 2.0 * x), w * 6.0 * x * (1.0 - x)))
            .collect();
        let total: f64 = crowded.iter().map(|(_, w)| w).sum::<f64>().powi(2);
        let mut along = [[0.0; DIRECTIONS]; 3];
        let mut root_weight = [0.0; DIRECTIONS];
        for (number, (unit, weight)) in octant(&crowded).enumerate() {
            for (axis, part) in unit.to_array().into_iter().enumerate() {
                along[axis][number] = part;
            }
            root_weight[number] = (weight / total).sqrt();
        }
        let weighted =
            [0, 1, 2].map(|axis| std::array::from_fn(|d| root_weight[d] * along[axis][d]));
        let mean = [0, 1, 2].map(|axis| dot(&weighted[axis], &root_weight));
        Directions {
            along,
            root_weight,
            weighted,
            mean,
        }
    })
}

/// Inner product, in four vectors of sums side by side: one running sum would wait for itself at every step.
pub(super) fn dot(a: &[f64; DIRECTIONS], b: &[f64; DIRECTIONS]) -> f64 {
    let mut sums = [f64x4::ZERO; 4];
    for (x, y) in a.chunks_exact(16).zip(b.chunks_exact(16)) {
        for (lane, sum) in sums.iter_mut().enumerate() {
            *sum += four(&x[4 * lane..]) * four(&y[4 * lane..]);
        }
    }
    sums.into_iter().sum::<f64x4>().reduce_add()
}

/// The first four of some numbers.
#[inline(always)]
fn four(numbers: &[f64]) -> f64x4 {
    f64x4::new([numbers[0], numbers[1], numbers[2], numbers[3]])
}
