//! Gauss quadrature: its nodes and weights from a tridiagonal matrix, four matrices side by side.

use glam::DVec3;
use wide::f64x4;

use crate::numeric::sort_few;

/// Nodes and weights of the Gauss quadrature that belongs to a symmetric tridiagonal (Jacobi) matrix.
///
/// The nodes are the eigenvalues of the matrix, each weight is `total` times the square of the first component of its
/// normalised eigenvector. Implicit QL iteration that carries only those first components.
///
/// # Units
/// - `diagonal`: length n
/// - `beside`: the n − 1 entries beside the diagonal
/// - `total`: what the weights sum to
/// - returns: n pairs (node, weight), unordered
///
/// # Source
/// Golub & Welsch, Calculation of Gauss quadrature rules, Math. Comp. 23 (1969) 221–230.
#[must_use]
pub fn gauss_rule(diagonal: &[f64], beside: &[f64], total: f64) -> Vec<(f64, f64)> {
    let in_first_lane = |entry: &f64| f64x4::new([*entry, 0.0, 0.0, 0.0]);
    let rows = |entries: &[f64]| -> Vec<f64x4> { entries.iter().map(in_first_lane).collect() };
    let [rule, ..] = gauss_rules(
        &rows(diagonal),
        &rows(beside),
        [diagonal.len(), 0, 0, 0],
        total,
    );
    rule
}

/// Directions over one octant of the sphere and the share of it that each stands for, from nodes between 0 and 1 and their
/// weights: of the cosine about z, and of the turn about it in quarters of a circle.
pub fn octant(rule: &[(f64, f64)]) -> impl Iterator<Item = (DVec3, f64)> + '_ {
    rule.iter().flat_map(move |(cosine, cosine_weight)| {
        let sine = (1.0 - cosine * cosine).sqrt();
        rule.iter().map(move |(turn, turn_weight)| {
            let (sin_phi, cos_phi) = (turn * std::f64::consts::FRAC_PI_2).sin_cos();
            let unit = DVec3::new(sine * cos_phi, sine * sin_phi, *cosine);
            (unit, cosine_weight * turn_weight)
        })
    })
}

/// Matrices whose rules are computed side by side.
pub const LANES: usize = 4;

/// [`gauss_rule`] of several matrices side by side, to the bit: each step of one waits for the root and the quotient of the
/// step before, so that four take hardly longer than one. Each lane has `sizes` rows.
#[must_use]
pub fn gauss_rules(
    diagonal: &[f64x4],
    beside: &[f64x4],
    sizes: [usize; LANES],
    total: f64,
) -> [Vec<(f64, f64)>; LANES] {
    let mut rows = Rows::new(diagonal, beside, sizes);
    let mut blocks = sizes.map(|size| Block {
        size,
        ..Block::default()
    });
    loop {
        for (lane, block) in blocks.iter_mut().enumerate() {
            block.go_on(&rows, lane);
        }
        if blocks.iter().all(Block::is_done) {
            break;
        }
        rows.sweep(&blocks);
    }
    std::array::from_fn(|lane| {
        let own = rows.node.iter().zip(&rows.first).take(blocks[lane].size);
        let entry = |(node, first): (&f64x4, &f64x4)| {
            let first = first.as_array()[lane];
            (node.as_array()[lane], total * first * first)
        };
        own.map(entry).collect()
    })
}

/// Sweeps per eigenvalue; two or three are usual.
const MOST_SWEEPS: usize = 40;

/// Whether an entry beside the diagonal no longer couples its two neighbours in double precision.
fn is_negligible(off: f64, a: f64, b: f64) -> bool {
    off.abs() <= f64::EPSILON * (a.abs() + b.abs())
}

/// The block of a matrix that is under way, `low..=high`; none where both are the same.
#[derive(Clone, Copy, Default)]
struct Block {
    size: usize,
    low: usize,
    high: usize,
    sweeps: usize,
}

impl Block {
    /// The next block that is not yet diagonal.
    fn go_on(&mut self, rows: &Rows, lane: usize) {
        let at = |rows: &[f64x4], i: usize| rows[i].as_array()[lane];
        while self.low < self.size {
            let coupled = |i: &usize| {
                let (a, b) = (at(&rows.node, *i), at(&rows.node, i + 1));
                !is_negligible(at(&rows.off, *i), a, b)
            };
            let ends = self.low..self.size - 1;
            self.high = self.low + ends.take_while(coupled).count();
            if self.high > self.low && self.sweeps < MOST_SWEEPS {
                self.sweeps += 1;
                return;
            }
            self.low += 1;
            self.sweeps = 0;
        }
        self.high = self.low;
    }

    fn is_done(&self) -> bool {
        self.high == self.low
    }
}

/// Several tridiagonal matrices, row by row: diagonal, what is beside it, and the first components of the eigenvectors.
struct Rows {
    node: Vec<f64x4>,
    off: Vec<f64x4>,
    first: Vec<f64x4>,
}

impl Rows {
    fn new(diagonal: &[f64x4], beside: &[f64x4], sizes: [usize; LANES]) -> Self {
        let mut first = vec![f64x4::ZERO; diagonal.len()];
        let mut off = first.clone();
        if let Some(first) = first.first_mut() {
            *first = f64x4::ONE;
        }
        for (i, (off, beside)) in off.iter_mut().zip(beside).enumerate() {
            let inside = sizes.map(|size| f64::from(u8::from(i + 1 < size)));
            *off = *beside * f64x4::new(inside);
        }
        Self {
            node: diagonal.to_vec(),
            off,
            first,
        }
    }

    /// One implicit QL step with Wilkinson's shift on each block. Lanes outside of their block compute along and keep nothing.
    fn sweep(&mut self, blocks: &[Block; LANES]) {
        let shifts = std::array::from_fn(|lane| self.shifted(&blocks[lane], lane));
        let mut turn = Turn::new(shifts, blocks);
        let under_way = || blocks.iter().filter(|block| !block.is_done());
        let lowest = under_way().map(|block| block.low).min().unwrap_or(0);
        let highest = under_way().map(|block| block.high).max().unwrap_or(0);
        for i in (lowest..highest).rev() {
            let pair = |rows: &[f64x4]| (rows[i], rows[i + 1]);
            let (node, off, first) = (pair(&self.node), pair(&self.off), pair(&self.first));
            let [node, off, first] = turn.step(i as f64, node, off, first);
            (self.node[i], self.node[i + 1]) = node;
            (self.off[i], self.off[i + 1]) = off;
            (self.first[i], self.first[i + 1]) = first;
        }
        let stopped = turn.stopped.to_bitmask();
        for (lane, &Block { low, high, .. }) in blocks.iter().enumerate() {
            if high == low {
                continue;
            }
            if stopped & (1 << lane) == 0 {
                self.node[low].as_mut_array()[lane] -= turn.shift.as_array()[lane];
                self.off[low].as_mut_array()[lane] = turn.g.as_array()[lane];
            }
            self.off[high].as_mut_array()[lane] = 0.0;
        }
    }

    /// Last entry of the diagonal of a block, less Wilkinson's shift.
    fn shifted(&self, &Block { low, high, .. }: &Block, lane: usize) -> f64 {
        if high == low {
            return 0.0;
        }
        let node = |i: usize| self.node[i].as_array()[lane];
        let off = self.off[low].as_array()[lane];
        let half_gap = (node(low + 1) - node(low)) / (2.0 * off);
        let root = (half_gap * half_gap + 1.0).sqrt();
        node(high) - node(low) + off / (half_gap + root.copysign(half_gap))
    }
}

/// What a sweep carries from row to row.
struct Turn {
    g: f64x4,
    sine: f64x4,
    cosine: f64x4,
    shift: f64x4,
    /// First row of the block and the one after its last turn, as numbers that are compared in vectors.
    ends: (f64x4, f64x4),
    /// A mask.
    stopped: f64x4,
}

/// A row and the one after it.
type Pair = (f64x4, f64x4);

impl Turn {
    fn new(g: [f64; LANES], blocks: &[Block; LANES]) -> Self {
        let ends = |end: fn(&Block) -> usize| f64x4::new(blocks.each_ref().map(|b| end(b) as f64));
        Self {
            g: f64x4::new(g),
            sine: f64x4::ONE,
            cosine: f64x4::ONE,
            shift: f64x4::ZERO,
            ends: (ends(|block| block.low), ends(|block| block.high)),
            stopped: f64x4::ZERO,
        }
    }

    /// Turns row `at` and the one after it.
    #[inline(always)]
    fn step(
        &mut self,
        at: f64,
        (node, next_node): Pair,
        (off, next_off): Pair,
        (first, next_first): Pair,
    ) -> [Pair; 3] {
        let at = f64x4::splat(at);
        let f = self.sine * off;
        let b = self.cosine * off;
        let r = (f * f + self.g * self.g).sqrt();
        let is_inside = !self.stopped & at.simd_ge(self.ends.0) & at.simd_lt(self.ends.1);
        let stops = is_inside & r.simd_eq(f64x4::ZERO);
        let turns = is_inside & !stops;
        let (sine, cosine) = (f / r, self.g / r);
        let g = next_node - self.shift;
        let turn = (node - g) * sine + f64x4::splat(2.0) * cosine * b;
        let shift = sine * turn;
        self.g = turns.select(cosine * turn - b, self.g);
        self.sine = turns.select(sine, self.sine);
        self.cosine = turns.select(cosine, self.cosine);
        self.shift = turns.select(shift, self.shift);
        self.stopped |= stops;
        let turned_first = (
            turns.select(cosine * first - sine * next_first, first),
            turns.select(sine * first + cosine * next_first, next_first),
        );
        [
            (node, turns.select(g + shift, stops.select(g, next_node))),
            (off, is_inside.select(r, next_off)),
            turned_first,
        ]
    }
}

/// Gauss–Legendre nodes and weights on 0 … 1, ascending; the weights sum to 1.
///
/// ```text
/// b_k = k / √(4k² − 1)      beside the zero diagonal, for −1 … 1
/// ```
///
/// # Source
/// Golub & Welsch 1969, as [`gauss_rule`].
#[must_use]
pub fn gauss_legendre(count: usize) -> Vec<(f64, f64)> {
    let beside: Vec<f64> = (1..count)
        .map(|k| k as f64)
        .map(|k| k / (4.0 * k * k - 1.0).sqrt())
        .collect();
    let mut rule = gauss_rule(&vec![0.0; count], &beside, 1.0);
    sort_few(&mut rule, |a, b| a.0.total_cmp(&b.0));
    rule.into_iter()
        .map(|(x, w)| ((x + 1.0) / 2.0, w))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn gauss_legendre_integrates_polynomials_up_to_twice_its_count() {
        for count in 1..=20 {
            let rule = gauss_legendre(count);
            for power in 0..2 * count {
                let sum: f64 = rule.iter().map(|(x, w)| w * x.powi(power as i32)).sum();
                assert!(
                    (sum - 1.0 / (power as f64 + 1.0)).abs() < 1e-13,
                    "{count} points, x^{power}: {sum}"
                );
            }
        }
    }

    #[test]
    fn the_rule_of_a_known_matrix_has_its_eigenvalues() {
        // [[2, 1], [1, 2]]: eigenvalues 1 and 3, first components ±1/√2.
        let mut rule = gauss_rule(&[2.0, 2.0], &[1.0], 1.0);
        rule.sort_by(|a, b| a.0.total_cmp(&b.0));
        for ((node, weight), expected) in rule.iter().zip([1.0, 3.0]) {
            assert!((node - expected).abs() < 1e-14 && (weight - 0.5).abs() < 1e-14);
        }
    }

    #[test]
    fn rules_side_by_side_are_those_one_by_one_to_the_bit() {
        let mut chance = 1_u64;
        let mut unit = || {
            chance = chance
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1);
            (chance >> 11) as f64 / (1_u64 << 53) as f64
        };
        for round in 0..200 {
            let sizes = [14, 1 + round % 14, 0, 10];
            let matrices = sizes.map(|size| {
                let diagonal: Vec<f64> = (0..size).map(|_| 40.0 * unit()).collect();
                // Some rows are not coupled at all, so that blocks fall apart.
                let beside: Vec<f64> = (1..size)
                    .map(|_| if unit() < 0.1 { 0.0 } else { 15.0 * unit() })
                    .collect();
                (diagonal, beside)
            });
            let rows = |entries: [&Vec<f64>; LANES], count: usize| -> Vec<f64x4> {
                let entry = |i: usize| entries.map(|list| list.get(i).copied().unwrap_or(7.0));
                (0..count).map(|i| f64x4::new(entry(i))).collect()
            };
            let diagonal = rows(matrices.each_ref().map(|(diagonal, _)| diagonal), 14);
            let beside = rows(matrices.each_ref().map(|(_, beside)| beside), 13);
            let lanes = gauss_rules(&diagonal, &beside, sizes, 1.0);
            for ((diagonal, beside), rule) in matrices.iter().zip(lanes) {
                assert_eq!(rule, gauss_rule(diagonal, beside, 1.0));
                let trace: f64 = rule.iter().map(|(node, _)| node).sum();
                let weight: f64 = rule.iter().map(|(_, weight)| weight).sum();
                let expected: f64 = diagonal.iter().sum();
                assert!((trace - expected).abs() < 1e-11 * (1.0 + expected));
                assert!((weight - if rule.is_empty() { 0.0 } else { 1.0 }).abs() < 1e-12);
            }
        }
    }
}
