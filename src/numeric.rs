//! Numerical tools without acoustics in them: Gauss quadrature, a straight-line fit, decibels.

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
    let n = diagonal.len();
    let mut node = diagonal.to_vec();
    let mut off: Vec<f64> = beside
        .iter()
        .copied()
        .take(n.saturating_sub(1))
        .chain([0.0])
        .collect();
    let mut first = vec![0.0; n];
    if let Some(top) = first.first_mut() {
        *top = 1.0;
    }
    for low in 0..n {
        for _ in 0..MOST_SWEEPS {
            let high = (low..n - 1)
                .find(|&i| is_negligible(off[i], node[i], node[i + 1]))
                .unwrap_or(n - 1);
            if high == low {
                break;
            }
            ql_sweep(&mut node, &mut off, &mut first, low, high);
        }
    }
    node.into_iter()
        .zip(first)
        .map(|(x, z)| (x, total * z * z))
        .collect()
}

/// Sweeps per eigenvalue; two or three are usual.
const MOST_SWEEPS: usize = 40;

/// Whether an entry beside the diagonal no longer couples its two neighbours in double precision.
fn is_negligible(off: f64, a: f64, b: f64) -> bool {
    off.abs() <= f64::EPSILON * (a.abs() + b.abs())
}

/// One implicit QL step with Wilkinson's shift on the block `low..=high`.
fn ql_sweep(node: &mut [f64], off: &mut [f64], first: &mut [f64], low: usize, high: usize) {
    let half_gap = (node[low + 1] - node[low]) / (2.0 * off[low]);
    let root = (half_gap * half_gap + 1.0).sqrt();
    let mut g = node[high] - node[low] + off[low] / (half_gap + root.copysign(half_gap));
    let (mut sine, mut cosine, mut shift) = (1.0, 1.0, 0.0);
    for i in (low..high).rev() {
        let f = sine * off[i];
        let b = cosine * off[i];
        let r = (f * f + g * g).sqrt();
        off[i + 1] = r;
        if r == 0.0 {
            node[i + 1] -= shift;
            off[high] = 0.0;
            return;
        }
        sine = f / r;
        cosine = g / r;
        g = node[i + 1] - shift;
        let turn = (node[i] - g) * sine + 2.0 * cosine * b;
        shift = sine * turn;
        node[i + 1] = g + shift;
        g = cosine * turn - b;
        let upper = first[i + 1];
        first[i + 1] = sine * first[i] + cosine * upper;
        first[i] = cosine * first[i] - sine * upper;
    }
    node[low] -= shift;
    off[low] = g;
    off[high] = 0.0;
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
    rule.sort_by(|a, b| a.0.total_cmp(&b.0));
    rule.into_iter()
        .map(|(x, w)| ((x + 1.0) / 2.0, w))
        .collect()
}

/// Slope of the straight line that fits `values`, taken at equal steps of `step`, best in the least-squares sense.
#[must_use]
pub fn fitted_slope(values: &[f64], step: f64) -> f64 {
    let centre = (values.len() as f64 - 1.0) / 2.0;
    let (mut moment, mut spread) = (0.0, 0.0);
    for (i, value) in values.iter().enumerate() {
        let x = i as f64 - centre;
        moment += x * value;
        spread += x * x;
    }
    moment / (spread * step)
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
    fn the_rule_of_a_known_matrix_has_its_eigenvalues() {
        // [[2, 1], [1, 2]]: eigenvalues 1 and 3, first components ±1/√2.
        let mut rule = gauss_rule(&[2.0, 2.0], &[1.0], 1.0);
        rule.sort_by(|a, b| a.0.total_cmp(&b.0));
        for ((node, weight), expected) in rule.iter().zip([1.0, 3.0]) {
            assert!((node - expected).abs() < 1e-14 && (weight - 0.5).abs() < 1e-14);
        }
    }

    #[test]
    fn a_straight_line_has_its_own_slope() {
        let values: Vec<f64> = (0..9).map(|i| 3.0 - 0.25 * f64::from(i)).collect();
        assert!((fitted_slope(&values, 0.5) + 0.5).abs() < 1e-14);
    }
}
