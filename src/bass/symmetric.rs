//! Solves dense complex symmetric systems by LDLᵀ without pivoting: no acoustics in it.
//!
//! Real and imaginary parts lie apart, so that the innermost loop runs over plain rows of numbers.

use std::array;

use num_complex::Complex64;

/// Rows that are eliminated in one pass over the rest of the matrix; trades registers for memory traffic.
const AT_ONCE: usize = 4;

/// A symmetric matrix, of which the upper triangle is kept, row by row.
pub(super) struct Symmetric {
    side: usize,
    re: Vec<f64>,
    im: Vec<f64>,
}

/// A factored matrix: D on the diagonal, D Lᵀ above it.
pub(super) struct Factored {
    matrix: Symmetric,
    inverse: Vec<Complex64>,
}

impl Symmetric {
    /// The matrix of zeros.
    pub(super) fn zero(side: usize) -> Self {
        Self {
            side,
            re: vec![0.0; side * side],
            im: vec![0.0; side * side],
        }
    }

    /// Real and imaginary parts of a row, from the diagonal on.
    pub(super) fn row_mut(&mut self, row: usize) -> (&mut [f64], &mut [f64]) {
        let range = row * self.side + row..(row + 1) * self.side;
        (&mut self.re[range.clone()], &mut self.im[range])
    }

    fn at(&self, row: usize, column: usize) -> Complex64 {
        let index = row * self.side + column;
        Complex64::new(self.re[index], self.im[index])
    }

    /// Eliminates all rows.
    ///
    /// # Valid
    /// Where no leading block is singular; never so if the imaginary part is positive definite.
    pub(super) fn factor(mut self) -> Factored {
        let mut inverse = Vec::with_capacity(self.side);
        for first in (0..self.side).step_by(AT_ONCE) {
            let end = (first + AT_ONCE).min(self.side);
            for pivot in first..end {
                inverse.push(self.at(pivot, pivot).inv());
                for row in pivot + 1..end {
                    self.eliminate(row, pivot, [inverse[pivot]]);
                }
            }
            for row in end..self.side {
                self.eliminate_all(row, first, &inverse[first..end]);
            }
        }
        Factored {
            matrix: self,
            inverse,
        }
    }

    /// Takes a pass of pivots out of a row.
    fn eliminate_all(&mut self, row: usize, first: usize, inverse: &[Complex64]) {
        if let Ok(inverse) = <[Complex64; AT_ONCE]>::try_from(inverse) {
            return self.eliminate(row, first, inverse);
        }
        for (pivot, inverse) in (first..).zip(inverse) {
            self.eliminate(row, pivot, [*inverse]);
        }
    }

    /// Takes `N` pivot rows out of a row, from its diagonal on.
    fn eliminate<const N: usize>(&mut self, row: usize, first: usize, inverse: [Complex64; N]) {
        let factors: [Complex64; N] = array::from_fn(|i| self.at(first + i, row) * inverse[i]);
        let (done_re, re) = self.re.split_at_mut(row * self.side);
        let (done_im, im) = self.im.split_at_mut(row * self.side);
        let length = self.side - row;
        let starts: [usize; N] = array::from_fn(|i| (first + i) * self.side + row);
        let a = starts.map(|start| &done_re[start..start + length]);
        let b = starts.map(|start| &done_im[start..start + length]);
        let (re, im) = (&mut re[row..self.side], &mut im[row..self.side]);
        for column in 0..length {
            let (mut sum_re, mut sum_im) = (re[column], im[column]);
            for i in 0..N {
                let (x, y) = (a[i][column], b[i][column]);
                sum_re -= factors[i].re * x - factors[i].im * y;
                sum_im -= factors[i].re * y + factors[i].im * x;
            }
            re[column] = sum_re;
            im[column] = sum_im;
        }
    }
}

impl Factored {
    /// The solution for one right side.
    pub(super) fn solve(&self, right: &[f64]) -> Vec<Complex64> {
        let side = self.matrix.side;
        let mut x: Vec<Complex64> = right.iter().map(|&value| value.into()).collect();
        for row in 0..side {
            let factor = x[row] * self.inverse[row];
            for (column, x) in x.iter_mut().enumerate().skip(row + 1) {
                *x -= factor * self.matrix.at(row, column);
            }
            x[row] = factor;
        }
        for row in (0..side).rev() {
            let known = x.iter().enumerate().skip(row + 1);
            let sum: Complex64 = known
                .map(|(column, x)| self.matrix.at(row, column) * x)
                .sum();
            x[row] -= sum * self.inverse[row];
        }
        x
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Entries that make a matrix with a positive definite imaginary part.
    fn entry(row: usize, column: usize) -> Complex64 {
        let near = 1.0 / (1.0 + row.abs_diff(column) as f64).powi(2);
        let wave = ((row + column) as f64).sin();
        let own = if row == column { 2.0 } else { 0.0 };
        Complex64::new(3.0 * wave, 0.5 * near + own)
    }

    #[test]
    fn the_solution_fulfils_the_equations_for_every_size() {
        for side in 0..40 {
            let mut matrix = Symmetric::zero(side);
            for row in 0..side {
                let (re, im) = matrix.row_mut(row);
                for (i, (re, im)) in re.iter_mut().zip(im).enumerate() {
                    (*re, *im) = (entry(row, row + i).re, entry(row, row + i).im);
                }
            }
            let right: Vec<f64> = (0..side).map(|i| (3.0 * i as f64).cos()).collect();
            let solution = matrix.factor().solve(&right);
            for (row, right) in right.iter().enumerate() {
                let left: Complex64 = solution
                    .iter()
                    .enumerate()
                    .map(|(c, x)| entry(row, c) * x)
                    .sum();
                assert!(
                    (left - right).norm() < 1e-11,
                    "{side}: {left} against {right}"
                );
            }
        }
    }
}
