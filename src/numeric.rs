//! Numerical tools without acoustics in them: Gauss quadrature, an exponential, decibels.

use std::cmp::Ordering;

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
    let [rule] = gauss_rules([(diagonal, beside)], total);
    rule
}

/// The diagonal of a symmetric tridiagonal matrix, and the entries beside it.
pub type Matrix<'a> = (&'a [f64], &'a [f64]);

/// [`gauss_rule`] of several matrices side by side, to the bit: each step of one waits for the root and the quotient of the
/// step before, so that four take hardly longer than one.
#[must_use]
pub fn gauss_rules<const LANES: usize>(
    matrices: [Matrix<'_>; LANES],
    total: f64,
) -> [Vec<(f64, f64)>; LANES] {
    let longest = matrices.iter().map(|(diagonal, _)| diagonal.len()).max();
    let mut rows = Rows::new(&matrices, longest.unwrap_or(0));
    let mut blocks = matrices.map(|(diagonal, _)| Block {
        size: diagonal.len(),
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
        own.map(|(node, first)| (node[lane], total * first[lane] * first[lane]))
            .collect()
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
    fn go_on<const LANES: usize>(&mut self, rows: &Rows<LANES>, lane: usize) {
        while self.low < self.size {
            let coupled = |i: &usize| {
                let (a, b) = (rows.node[*i][lane], rows.node[i + 1][lane]);
                !is_negligible(rows.off[*i][lane], a, b)
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
struct Rows<const LANES: usize> {
    node: Vec<[f64; LANES]>,
    off: Vec<[f64; LANES]>,
    first: Vec<[f64; LANES]>,
}

impl<const LANES: usize> Rows<LANES> {
    fn new(matrices: &[Matrix<'_>; LANES], count: usize) -> Self {
        let rows = |entry: fn(&Matrix<'_>, usize) -> f64| -> Vec<[f64; LANES]> {
            let row = |i: usize| matrices.each_ref().map(|matrix| entry(matrix, i));
            (0..count).map(row).collect()
        };
        Self {
            node: rows(|(diagonal, _), i| diagonal.get(i).copied().unwrap_or(0.0)),
            off: rows(|(diagonal, beside), i| {
                let is_inside = i + 1 < diagonal.len();
                beside.get(i).copied().filter(|_| is_inside).unwrap_or(0.0)
            }),
            first: rows(|_, i| if i == 0 { 1.0 } else { 0.0 }),
        }
    }

    /// One implicit QL step with Wilkinson's shift on each block. Lanes outside of their block compute along and keep nothing.
    fn sweep(&mut self, blocks: &[Block; LANES]) {
        let mut turn = Turn::new();
        for (lane, &Block { low, high, .. }) in blocks.iter().enumerate() {
            if high == low {
                continue;
            }
            let (node, off) = (|i: usize| self.node[i][lane], self.off[low][lane]);
            let half_gap = (node(low + 1) - node(low)) / (2.0 * off);
            let root = (half_gap * half_gap + 1.0).sqrt();
            turn.g[lane] = node(high) - node(low) + off / (half_gap + root.copysign(half_gap));
            turn.ends[lane] = (low as f64, high as f64);
        }
        let under_way = || blocks.iter().filter(|block| !block.is_done());
        let lowest = under_way().map(|block| block.low).min().unwrap_or(0);
        let highest = under_way().map(|block| block.high).max().unwrap_or(0);
        for i in (lowest..highest).rev() {
            let [ref mut node, ref mut next_node] = self.node[i..i + 2] else {
                return;
            };
            let [ref mut off, ref mut next_off] = self.off[i..i + 2] else {
                return;
            };
            let [ref mut first, ref mut next_first] = self.first[i..i + 2] else {
                return;
            };
            turn.step(
                i as f64,
                (node, next_node),
                (off, next_off),
                (first, next_first),
            );
        }
        for (lane, &Block { low, high, .. }) in blocks.iter().enumerate() {
            if high == low {
                continue;
            }
            if !turn.stopped[lane] {
                self.node[low][lane] -= turn.shift[lane];
                self.off[low][lane] = turn.g[lane];
            }
            self.off[high][lane] = 0.0;
        }
    }
}

/// What a sweep carries from row to row.
struct Turn<const LANES: usize> {
    g: [f64; LANES],
    sine: [f64; LANES],
    cosine: [f64; LANES],
    shift: [f64; LANES],
    /// First and last row of the block, as numbers that are compared in vectors.
    ends: [(f64, f64); LANES],
    stopped: [bool; LANES],
}

type Pair<'a, const LANES: usize> = (&'a mut [f64; LANES], &'a mut [f64; LANES]);

impl<const LANES: usize> Turn<LANES> {
    fn new() -> Self {
        Self {
            g: [0.0; LANES],
            sine: [1.0; LANES],
            cosine: [1.0; LANES],
            shift: [0.0; LANES],
            ends: [(0.0, 0.0); LANES],
            stopped: [false; LANES],
        }
    }

    /// Turns row `at` and the one after it.
    #[inline(always)]
    fn step(
        &mut self,
        at: f64,
        (node, next_node): Pair<'_, LANES>,
        (off, next_off): Pair<'_, LANES>,
        (first, next_first): Pair<'_, LANES>,
    ) {
        for lane in 0..LANES {
            let (low, high) = self.ends[lane];
            let f = self.sine[lane] * off[lane];
            let b = self.cosine[lane] * off[lane];
            let r = (f * f + self.g[lane] * self.g[lane]).sqrt();
            let is_inside = (at >= low) & (at < high) & !self.stopped[lane];
            let (turns, stops) = (is_inside & (r != 0.0), is_inside & (r == 0.0));
            let keep = |new: f64, old: f64| if turns { new } else { old };
            let (sine, cosine) = (f / r, self.g[lane] / r);
            let g = next_node[lane] - self.shift[lane];
            let turn = (node[lane] - g) * sine + 2.0 * cosine * b;
            let shift = sine * turn;
            let upper = next_first[lane];
            next_off[lane] = if is_inside { r } else { next_off[lane] };
            next_node[lane] = keep(g + shift, if stops { g } else { next_node[lane] });
            next_first[lane] = keep(sine * first[lane] + cosine * upper, upper);
            first[lane] = keep(cosine * first[lane] - sine * upper, first[lane]);
            self.g[lane] = keep(cosine * turn - b, self.g[lane]);
            self.sine[lane] = keep(sine, self.sine[lane]);
            self.cosine[lane] = keep(cosine, self.cosine[lane]);
            self.shift[lane] = keep(shift, self.shift[lane]);
            self.stopped[lane] |= stops;
        }
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

/// Sorts a short list by insertion; equals keep their order.
///
/// The standard library's sort is a matter of 2 kB of the page's module for every type that is sorted, and no faster for
/// the hundred arrivals at a seat.
pub fn sort_few<T>(list: &mut [T], compare: impl Fn(&T, &T) -> Ordering) {
    for next in 1..list.len() {
        for place in (0..next).rev() {
            if compare(&list[place], &list[place + 1]).is_le() {
                break;
            }
            list.swap(place, place + 1);
        }
    }
}

/// e to the power of x, within 3e-13 of the true value's size, for |x| ≤ 700; beyond that it stays at the ends.
///
/// ```text
/// x = k ln 2 + r,  |r| ≤ ½ ln 2,   exp(x) = 2^k (1 + r + r²/2! + … + r¹⁰/10!)
/// ```
///
/// Without branches or calls, so that loops of it run in vectors; the WebAssembly target's own is a call of many branches.
#[inline(always)]
#[must_use]
pub fn exp(x: f64) -> f64 {
    let x = x.clamp(-700.0, 700.0);
    let shifted = x * std::f64::consts::LOG2_E + ROUNDING;
    let k = shifted - ROUNDING;
    let r = x - k * LN_2_HIGH - k * LN_2_LOW;
    let mut sum = 1.0 / 3_628_800.0;
    for divisor in EXP_COEFFICIENTS {
        sum = sum * r + divisor;
    }
    sum * f64::from_bits(shifted.to_bits().wrapping_add(1023) << 52)
}

/// 1.5 · 2⁵²: adding it leaves a number's whole part in the lowest bits.
pub const ROUNDING: f64 = 6_755_399_441_055_744.0;

/// ln 2 in two parts, the first with zeros at its end, so that its multiples are exact.
const LN_2_HIGH: f64 = 0.693_147_180_369_123_8;
const LN_2_LOW: f64 = 1.908_214_929_270_587_7e-10;

/// 1/9! … 1/0!.
const EXP_COEFFICIENTS: [f64; 10] = [
    1.0 / 362_880.0,
    1.0 / 40_320.0,
    1.0 / 5_040.0,
    1.0 / 720.0,
    1.0 / 120.0,
    1.0 / 24.0,
    1.0 / 6.0,
    0.5,
    1.0,
    1.0,
];

/// Logarithm to base two without a call; for x > 0 that is no subnormal.
///
/// ```text
/// x = 2^k m,  √½ ≤ m < √2,   lb x = k + 2/ln 2 (s + s³/3 + s⁵/5 + s⁷/7 + s⁹/9),   s = (m − 1) / (m + 1)
/// ```
///
/// # Accuracy
/// 2e-9.
#[must_use]
pub fn log2(x: f64) -> f64 {
    const MANTISSA: u64 = (1 << 52) - 1;
    const HALF: u64 = 1022 << 52;
    let half = f64::from_bits(x.to_bits() & MANTISSA | HALF);
    let exponent = ((x.to_bits() >> 52) & 0x7ff) as i32 - 1022;
    let (m, k) = if half < std::f64::consts::FRAC_1_SQRT_2 {
        (2.0 * half, exponent - 1)
    } else {
        (half, exponent)
    };
    let s = (m - 1.0) / (m + 1.0);
    let s2 = s * s;
    let series = 1.0 + s2 * (1.0 / 3.0 + s2 * (0.2 + s2 * (1.0 / 7.0 + s2 / 9.0)));
    f64::from(k) + 2.0 * std::f64::consts::LOG2_E * s * series
}

/// Weights of the third-order polynomial through points at 0, 1, 2, 3.
///
/// # Source
/// Lagrange's formula, Abramowitz & Stegun 25.2.13.
#[must_use]
pub fn through_four(x: f64) -> [f64; 4] {
    let (a, b, c) = (x - 1.0, x - 2.0, x - 3.0);
    [
        -a * b * c / 6.0,
        x * b * c / 2.0,
        -x * a * c / 2.0,
        x * a * b / 6.0,
    ]
}

/// A polynomial by its coefficients in rising powers.
#[must_use]
pub fn polynomial(t: f64, coefficients: &[f64]) -> f64 {
    coefficients.iter().rev().fold(0.0, |sum, c| sum * t + c)
}

/// The larger of two numbers that are none of them NaN: one comparison, where the standard library's `max`, which has NaN in
/// mind, is a call of a function in WebAssembly.
#[inline]
#[must_use]
pub const fn larger(a: f64, b: f64) -> f64 {
    if a > b { a } else { b }
}

/// Level of an energy ratio, dB.
#[must_use]
pub fn energy_to_db(ratio: f64) -> f64 {
    10.0 * ratio.log10()
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
    fn a_short_list_is_sorted_as_the_standard_library_sorts_it() {
        let mut chance = 12_345_u32;
        for length in 0..40 {
            let mut list: Vec<(u32, usize)> = (0..length)
                .map(|place| {
                    chance = chance.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
                    (chance >> 29, place)
                })
                .collect();
            let mut expected = list.clone();
            expected.sort_by_key(|entry| entry.0);
            sort_few(&mut list, |a, b| a.0.cmp(&b.0));
            assert_eq!(list, expected);
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
            let lanes = gauss_rules(matrices.each_ref().map(|(d, b)| (&d[..], &b[..])), 1.0);
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

    #[test]
    fn the_logarithm_is_that_of_the_standard_library() {
        for step in -3000..3000 {
            let x = (f64::from(step) * 0.0371).exp();
            assert!((log2(x) - x.log2()).abs() < 2e-9, "{x}");
        }
    }

    #[test]
    fn the_exponential_is_that_of_the_standard_library() {
        for i in -140_000..=140_000 {
            let x = f64::from(i) * 0.005;
            assert!((exp(x) / x.exp() - 1.0).abs() < 3e-13, "exp({x})");
        }
        assert_eq!(exp(0.0), 1.0);
        assert!(exp(-1e9) > 0.0 && exp(1e9).is_finite());
    }
}
