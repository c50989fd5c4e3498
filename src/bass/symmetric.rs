//! Solves dense complex symmetric systems by LDLᵀ without pivoting: no acoustics in it.
//!
//! Real and imaginary parts lie apart, so that the innermost loop runs over plain rows of numbers.

use num_complex::Complex64;

/// Rows that are eliminated in one sweep over the rest of the matrix; trades registers for memory traffic.
const SWEEP: usize = 4;

/// A symmetric matrix, of which the upper triangle is kept, row by row.
pub(super) struct Symmetric {
    side: usize,
    re: Vec<f64>,
    im: Vec<f64>,
}

/// A factored matrix: `D` on the diagonal, `D Lᵀ` above it.
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
    /// Where no leading block is singular: always so if the imaginary part is positive definite.
    pub(super) fn factor(mut self) -> Factored {
        let mut inverse = Vec::with_capacity(self.side);
        for first in (0..self.side).step_by(SWEEP) {
            let end = (first + SWEEP).min(self.side);
            for pivot in first..end {
                inverse.push(self.at(pivot, pivot).inv());
                for row in pivot + 1..end {
                    let factor = self.at(pivot, row) * inverse[pivot];
                    self.subtract_row(row, pivot, factor);
                }
            }
            for row in end..self.side {
                self.subtract_sweep(row, first, &inverse[first..end]);
            }
        }
        Factored {
            matrix: self,
            inverse,
        }
    }

    /// row −= factor × pivot row.
    fn subtract_row(&mut self, row: usize, pivot: usize, factor: Complex64) {
        let (above, below) = (row * self.side, (row + 1) * self.side);
        let from = pivot * self.side + row..(pivot + 1) * self.side;
        let (done_re, re) = self.re[..below].split_at_mut(above);
        let (done_im, im) = self.im[..below].split_at_mut(above);
        let pivots = done_re[from.clone()].iter().zip(&done_im[from]);
        for ((re, im), (a, b)) in re[row..].iter_mut().zip(&mut im[row..]).zip(pivots) {
            *re -= factor.re * a - factor.im * b;
            *im -= factor.re * b + factor.im * a;
        }
    }

    /// [`Self::subtract_row`] for a whole sweep of pivots at once.
    fn subtract_sweep(&mut self, row: usize, first: usize, inverse: &[Complex64]) {
        let &[i0, i1, i2, i3] = inverse else {
            for (offset, inverse) in inverse.iter().enumerate() {
                let factor = self.at(first + offset, row) * inverse;
                self.subtract_row(row, first + offset, factor);
            }
            return;
        };
        let side = self.side;
        let f = [i0, i1, i2, i3];
        let f: [Complex64; SWEEP] = std::array::from_fn(|k| self.at(first + k, row) * f[k]);
        let (done_re, re) = self.re[..(row + 1) * side].split_at_mut(row * side);
        let (done_im, im) = self.im[..(row + 1) * side].split_at_mut(row * side);
        let part = |of: &[f64], k: usize| -> *const f64 { of[(first + k) * side + row..].as_ptr() };
        let _ = part;
        let a: [&[f64]; SWEEP] = std::array::from_fn(|k| &done_re[(first + k) * side + row..(first + k + 1) * side]);
        let b: [&[f64]; SWEEP] = std::array::from_fn(|k| &done_im[(first + k) * side + row..(first + k + 1) * side]);
        let n = side - row;
        let (re, im) = (&mut re[row..][..n], &mut im[row..][..n]);
        let [a0, a1, a2, a3] = a.map(|s| &s[..n]);
        let [b0, b1, b2, b3] = b.map(|s| &s[..n]);
        for j in 0..n {
            re[j] -= (f[0].re * a0[j] - f[0].im * b0[j]) + (f[1].re * a1[j] - f[1].im * b1[j])
                + (f[2].re * a2[j] - f[2].im * b2[j]) + (f[3].re * a3[j] - f[3].im * b3[j]);
            im[j] -= (f[0].re * b0[j] + f[0].im * a0[j]) + (f[1].re * b1[j] + f[1].im * a1[j])
                + (f[2].re * b2[j] + f[2].im * a2[j]) + (f[3].re * b3[j] + f[3].im * a3[j]);
        }
    }
}

impl Factored {
    /// The solution for one right side.
    pub(super) fn solve(&self, right: &[f64]) -> Vec<Complex64> {
        let n = self.matrix.side;
        let mut x: Vec<Complex64> = right.iter().map(|&value| Complex64::from(value)).collect();
        for row in 0..n {
            let factor = x[row] * self.inverse[row];
            for column in row + 1..n {
                x[column] -= factor * self.matrix.at(row, column);
            }
            x[row] = factor;
        }
        for row in (0..n).rev() {
            let mut sum = Complex64::ZERO;
            for column in row + 1..n {
                sum += self.matrix.at(row, column) * x[column];
            }
            x[row] -= sum * self.inverse[row];
        }
        x
    }
}
