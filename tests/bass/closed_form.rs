//! Green's function of a box with two facing walls of any admittance and four rigid ones: a double sum over the rigid
//! pairs' shapes, in closed form along the third axis. Written apart from the crate.

use std::f64::consts::{PI, SQRT_2};

use glam::DVec3;
use num_complex::Complex64;

/// Nepers by which a shape that cannot travel has faded when it is left out.
const FADED: f64 = 18.0;

/// The box.
pub struct TwoSoftWalls {
    pub size_m: DVec3,
    /// The axis that the soft walls are square to.
    pub axis: usize,
    /// Admittance of the near and of the far one.
    pub beta: [Complex64; 2],
}

impl TwoSoftWalls {
    /// Pressure at `to_m` from a source at `from_m` whose free field is e^{−jkr}/r.
    pub fn pressure(&self, k: f64, from_m: DVec3, to_m: DVec3) -> Complex64 {
        let (p, q) = ((self.axis + 1) % 3, (self.axis + 2) % 3);
        let most = FADED / (from_m[self.axis] - to_m[self.axis]).abs();
        let along = |axis: usize, n: u32| {
            shape(n, from_m[axis], self.size_m[axis]) * shape(n, to_m[axis], self.size_m[axis])
        };
        let per_m = |axis: usize, n: u32| PI * f64::from(n) / self.size_m[axis];
        let mut sum = Complex64::ZERO;
        for i in (0..).take_while(|&i| per_m(p, i) < most) {
            for j in (0..).take_while(|&j| per_m(p, i).hypot(per_m(q, j)) < most) {
                let square = per_m(p, i).powi(2) + per_m(q, j).powi(2) - k * k;
                let line = self.line(k, square, from_m[self.axis], to_m[self.axis]);
                sum += along(p, i) * along(q, j) * line;
            }
        }
        sum
    }

    /// Between the soft walls: g'' − κ² g = −4π δ, g' = j k β0 g at the near one, −j k β1 g at the far one.
    ///
    /// With every growing exponential taken out, so that nothing overflows.
    fn line(&self, k: f64, square: f64, from_m: f64, to_m: f64) -> Complex64 {
        let kappa = Complex64::from(square).sqrt();
        let length_m = self.size_m[self.axis];
        let (low_m, high_m) = (from_m.min(to_m), from_m.max(to_m));
        let push = self.beta.map(|beta| Complex64::new(0.0, k) * beta / kappa);
        let wave = |push: Complex64, sign: f64, away_m: f64| {
            (1.0 + push) / 2.0 + sign * (1.0 - push) / 2.0 * (-2.0 * kappa * away_m).exp()
        };
        let slope = -kappa * wave(push[1], -1.0, length_m);
        let wronskian =
            slope - Complex64::new(0.0, k) * self.beta[0] * wave(push[1], 1.0, length_m);
        let between = (kappa * (low_m - high_m)).exp();
        -4.0 * PI * between * wave(push[0], 1.0, low_m) * wave(push[1], 1.0, length_m - high_m)
            / wronskian
    }
}

fn shape(n: u32, at_m: f64, length_m: f64) -> f64 {
    let cosine = (PI * f64::from(n) * at_m / length_m).cos();
    if n == 0 {
        length_m.sqrt().recip()
    } else {
        SQRT_2 / length_m.sqrt() * cosine
    }
}
