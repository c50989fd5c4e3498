//! Symmetric systems that least squares lead to, by Cholesky's factor; no acoustics in it.
//!
//! The systems here have some dozens of unknowns, so plain loops over rows serve.

/// The factor L of a symmetric matrix whose values are all positive: M = L Lᵀ.
#[derive(Clone, Debug, PartialEq)]
pub struct Cholesky {
    /// Row by row; row i has i + 1 entries.
    rows: Vec<Vec<f64>>,
}

impl Cholesky {
    /// The factor of a matrix, of which the lower half is read; none if it is not positive definite.
    ///
    /// # Source
    /// Golub & Van Loan, Matrix Computations, 4th ed. 2013, section 4.2.
    #[must_use]
    pub fn of(matrix: &[Vec<f64>]) -> Option<Self> {
        let mut rows: Vec<Vec<f64>> = Vec::with_capacity(matrix.len());
        for (i, given) in matrix.iter().enumerate() {
            let mut row = Vec::with_capacity(i + 1);
            for j in 0..=i {
                let above: &[f64] = if j < i { &rows[j] } else { &row };
                let rest = given[j] - dot(&row[..j], &above[..j]);
                if j < i {
                    row.push(rest / rows[j][j]);
                } else if rest > 0.0 {
                    row.push(rest.sqrt());
                } else {
                    return None;
                }
            }
            rows.push(row);
        }
        Some(Self { rows })
    }

    /// Solves L x = b.
    #[must_use]
    pub fn forward(&self, b: &[f64]) -> Vec<f64> {
        let mut x: Vec<f64> = Vec::with_capacity(b.len());
        for (i, row) in self.rows.iter().enumerate() {
            x.push((b[i] - dot(&row[..i], &x)) / row[i]);
        }
        x
    }

    /// Solves Lᵀ x = b. Of independent normal deviates b it makes deviates x whose covariance is the inverse of M.
    #[must_use]
    pub fn back(&self, b: &[f64]) -> Vec<f64> {
        let mut x = b.to_vec();
        for i in (0..self.rows.len()).rev() {
            x[i] /= self.rows[i][i];
            let (before, own) = x.split_at_mut(i);
            for (value, factor) in before.iter_mut().zip(&self.rows[i]) {
                *value -= factor * own[0];
            }
        }
        x
    }

    /// Solves M x = b.
    #[must_use]
    pub fn solve(&self, b: &[f64]) -> Vec<f64> {
        self.back(&self.forward(b))
    }
}

/// Sum of the products of two rows.
#[must_use]
pub fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_system_of_known_answer_is_solved() {
        let matrix = [
            vec![4.0, 2.0, 0.6],
            vec![2.0, 5.0, 1.0],
            vec![0.6, 1.0, 3.0],
        ];
        let answer = [1.0, -2.0, 0.5];
        let b: Vec<f64> = matrix.iter().map(|row| dot(row, &answer)).collect();
        let factor = Cholesky::of(&matrix).expect("positive definite");
        for (found, expected) in factor.solve(&b).iter().zip(answer) {
            assert!((found - expected).abs() < 1e-12, "{found} {expected}");
        }
    }

    #[test]
    fn a_matrix_that_is_not_positive_definite_has_no_factor() {
        assert!(Cholesky::of(&[vec![1.0, 2.0], vec![2.0, 1.0]]).is_none());
    }
}
