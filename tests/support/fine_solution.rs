//! The coupled equations of the decay solved the plain way: many directions, small steps in time. Written from the equations
//! alone, to check the fast solution of the core.

/// One pair of walls: crossings per second, absorption of the two, scattering of both.
pub struct FinePair {
    pub crossings_per_s: f64,
    pub absorption: [f64; 2],
    pub scattering: f64,
}

/// What surrounds the field, besides the pairs.
pub struct FineField {
    pub pairs: [FinePair; 3],
    pub air_per_s: f64,
    pub furniture_hits_per_s: f64,
    pub furniture_absorption: f64,
}

/// Directions per side of the grid.
const SIDE: usize = 24;

/// Time step, s.
pub const STEP_S: f64 = 2e-4;

/// Directions with their weights, which sum to 1: midpoints over cos θ and φ, crowded towards planes and axes.
fn directions() -> Vec<([f64; 3], f64)> {
    let crowded = |k: usize| {
        let x = (k as f64 + 0.5) / SIDE as f64;
        (x * x * (3.0 - 2.0 * x), 6.0 * x * (1.0 - x))
    };
    let mut found = Vec::new();
    for (z, wz) in (0..SIDE).map(crowded) {
        for (turn, wt) in (0..SIDE).map(crowded) {
            let sine = (1.0 - z * z).sqrt();
            let phi = turn * std::f64::consts::FRAC_PI_2;
            found.push(([sine * phi.cos(), sine * phi.sin(), z], wz * wt));
        }
    }
    let total: f64 = found.iter().map(|(_, w)| w).sum();
    found.into_iter().map(|(o, w)| (o, w / total)).collect()
}

impl FinePair {
    /// ρ of the pair.
    fn scattered(&self) -> f64 {
        let one = |a: f64| {
            if a > 0.0 {
                (1.0 - a) * -(1.0 - a).ln() / a
            } else {
                1.0
            }
        };
        0.5 * self.scattering * (one(self.absorption[0]) + one(self.absorption[1]))
    }

    /// λ at the log rate.
    fn log_loss(&self) -> f64 {
        -0.5 * ((1.0 - self.absorption[0]).ln() + (1.0 - self.absorption[1]).ln())
    }

    /// λ corrected for the net loss σ.
    fn corrected_loss(&self, sigma: f64) -> f64 {
        let [r1, r2] = self.absorption.map(|a| 1.0 - a);
        let e = (-sigma).exp();
        let s = ((r1 + r2) / 2.0 - 1.0 + (r1 * r2 - (r1 + r2) / 2.0) * e) / (1.0 - r1 * r2 * e * e);
        1.0 / ((1.0 + s * (1.0 - e) / sigma) / sigma) - sigma
    }
}

impl FineField {
    /// D of one direction for an overall rate of the pass before.
    fn damping(&self, direction: [f64; 3], rate_per_s: f64) -> f64 {
        let steady = self.air_per_s + self.furniture_hits_per_s;
        let crossings = |i: usize| self.pairs[i].crossings_per_s * direction[i];
        let plain =
            |i: usize| crossings(i) * (self.pairs[i].log_loss() + self.pairs[i].scattered());
        let all = steady + plain(0) + plain(1) + plain(2);
        let corrected = |i: usize| {
            let sigma = ((all - plain(i) - rate_per_s) / crossings(i)).clamp(0.001, 60.0);
            crossings(i) * (self.pairs[i].corrected_loss(sigma) + self.pairs[i].scattered())
        };
        steady + corrected(0) + corrected(1) + corrected(2)
    }

    /// Energy at equal steps of [`STEP_S`] until it has fallen to `until_db`.
    pub fn energy(&self, rate_per_s: f64, until_db: f64) -> Vec<f64> {
        let grid = directions();
        let damping: Vec<f64> = grid
            .iter()
            .map(|(o, _)| self.damping(*o, rate_per_s))
            .collect();
        let mean = |e: &[f64]| grid.iter().zip(e).map(|((_, w), e)| w * e).sum::<f64>();
        let mut energy = vec![1.0; grid.len()];
        let mut curve = vec![1.0];
        while curve[curve.len() - 1] > 10f64.powf(until_db / 10.0) {
            let start = self.slope(&grid, &damping, &energy);
            let half: Vec<f64> = energy
                .iter()
                .zip(start)
                .map(|(e, s)| e + STEP_S / 2.0 * s)
                .collect();
            let middle = self.slope(&grid, &damping, &half);
            energy
                .iter_mut()
                .zip(middle)
                .for_each(|(e, s)| *e += STEP_S * s);
            curve.push(mean(&energy));
        }
        curve
    }

    /// dE/dt of every direction.
    fn slope(&self, grid: &[([f64; 3], f64)], damping: &[f64], energy: &[f64]) -> Vec<f64> {
        let mean = |f: &dyn Fn(&[f64; 3]) -> f64| {
            grid.iter()
                .zip(energy)
                .map(|((o, w), e)| w * f(o) * e)
                .sum::<f64>()
        };
        let back = [0, 1, 2]
            .map(|i| self.pairs[i].crossings_per_s * self.pairs[i].scattered() * mean(&|o| o[i]));
        let even = self.furniture_hits_per_s * (1.0 - self.furniture_absorption) * mean(&|_| 1.0);
        let gain = |o: &[f64; 3]| 2.0 * (o[0] * back[0] + o[1] * back[1] + o[2] * back[2]) + even;
        grid.iter()
            .zip(energy.iter().zip(damping))
            .map(|((o, _), (e, d))| gain(o) - d * e)
            .collect()
    }
}
