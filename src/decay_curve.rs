//! A decay as a sum of exponentials, and what is read off its curve as a measurement reads it.

use wide::f64x4;

use crate::numeric::{energy_to_db, exp, exp_of_four};

/// Points of the curve that a report carries.
pub const CURVE_POINTS: usize = 49;

/// Decay rates below this never show in any room, 1/s; a field that has one does not decay.
pub const NO_DECAY_PER_S: f64 = 1e-7;

/// A term with less of the energy than this is none.
pub const NO_SHARE: f64 = 1e-12;

/// A decay as a sum of exponentials: pairs of rate in 1/s and share of the energy at the start.
#[derive(Clone, Debug, PartialEq)]
pub struct ExponentialSum {
    /// (rate, share).
    pub terms: Vec<(f64, f64)>,
}

impl ExponentialSum {
    /// Energy at a time re the start.
    #[must_use]
    pub fn energy(&self, time_s: f64) -> f64 {
        let part = |(rate, share): &(f64, f64)| share * exp(-rate * time_s);
        self.terms.iter().map(part).sum()
    }

    /// Whether some of the energy never decays.
    #[must_use]
    pub fn lingers(&self) -> bool {
        self.terms
            .iter()
            .any(|(rate, share)| *rate < NO_DECAY_PER_S && *share > NO_SHARE)
    }

    /// Mean rate at the start, 1/s.
    fn mean_rate_per_s(&self) -> f64 {
        self.terms.iter().map(|(rate, share)| rate * share).sum()
    }

    /// Decay time read from a window of the integrated curve, s; none if the sound does not decay.
    ///
    /// # Source
    /// ISO 3382-1:2009, 3.4 and 3.6: straight line of least squares through the window, carried to 60 dB.
    #[must_use]
    pub fn time_s(&self, from_db: f64, to_db: f64) -> Option<f64> {
        let step_s = STEP_DB / DB_PER_UNIT / self.mean_rate_per_s();
        Some(self.curve(step_s, to_db, 2)?.time_s(from_db, to_db))
    }

    /// The backward-integrated curve at equal steps until it has passed `floor_db`, at least `least_points` of them; the steps
    /// double where a curve flattens. None if the sound does not decay.
    ///
    /// ```text
    /// L(t) = 10 lg [ Σ (share / rate) exp(−rate t) / Σ (share / rate) ]
    /// ```
    ///
    /// # Source
    /// Schroeder, New method of measuring reverberation time, J. Acoust. Soc. Am. 37 (1965) 409–412.
    #[must_use]
    pub fn curve(&self, step_s: f64, floor_db: f64, least_points: usize) -> Option<Curve> {
        if self.lingers() {
            return None;
        }
        let mut falling = Falling::new(&self.terms, |rate, share| share / rate, step_s);
        let total = falling.sum();
        let mut points = Vec::with_capacity(2 * CURVE_POINTS);
        let (mut time_s, mut step_s) = (0.0, step_s);
        loop {
            let level_db = energy_to_db(falling.sum() / total);
            points.push((time_s, level_db));
            let goes_on = points.len() < least_points || level_db > floor_db;
            if !goes_on {
                return Some(Curve { points });
            }
            if points.len() % STEPS_BEFORE_DOUBLING == 0 {
                step_s *= 2.0;
                falling.double_step();
            }
            falling.step();
            time_s += step_s;
        }
    }
}

/// A sum of exponentials at equal steps of time, four of them in a vector.
pub struct Falling {
    parts: Vec<f64x4>,
    factors: Vec<f64x4>,
}

impl Falling {
    /// Of pairs of rate and share as in [`ExponentialSum`], each with a size that follows from both.
    #[must_use]
    pub fn new(terms: &[(f64, f64)], size: impl Fn(f64, f64) -> f64, step_s: f64) -> Self {
        let four = |group: &[(f64, f64)], of: &dyn Fn(f64, f64) -> f64| {
            let one = |lane| {
                group
                    .get(lane)
                    .map_or(0.0, |(rate, share)| of(*rate, *share))
            };
            f64x4::new(std::array::from_fn(one))
        };
        let groups = || terms.chunks(4);
        Self {
            parts: groups().map(|group| four(group, &size)).collect(),
            factors: groups()
                .map(|group| exp_of_four(four(group, &|rate, _| -rate * step_s)))
                .collect(),
        }
    }

    /// The sum now.
    #[must_use]
    pub fn sum(&self) -> f64 {
        self.parts.iter().copied().sum::<f64x4>().reduce_add()
    }

    /// Goes one step on.
    pub fn step(&mut self) {
        for (part, factor) in self.parts.iter_mut().zip(&self.factors) {
            *part *= *factor;
        }
    }

    /// Makes every further step twice as long.
    fn double_step(&mut self) {
        for factor in &mut self.factors {
            *factor *= *factor;
        }
    }
}

/// Fall of a straight decay per step of [`ExponentialSum::time_s`], dB.
const STEP_DB: f64 = 1.0;

/// Fall of a decay of rate 1/s in one second, dB.
const DB_PER_UNIT: f64 = 4.342_944_819_032_518;

/// Equal steps of a curve before they double: two and a half times what a straight decay needs.
const STEPS_BEFORE_DOUBLING: usize = 128;

/// A falling curve, straight between its points.
#[derive(Clone, Debug, PartialEq)]
pub struct Curve {
    /// (s, dB re the start).
    points: Vec<(f64, f64)>,
}

impl Curve {
    /// The levels of the first `count` points, dB.
    #[must_use]
    pub fn levels_db(&self, count: usize) -> Vec<f64> {
        self.points
            .iter()
            .take(count)
            .map(|point| point.1)
            .collect()
    }

    /// Time of 60 dB at the slope of the straight line that fits the curve from one level to another, s.
    ///
    /// ```text
    /// slope = 12 / (t1 − t0)³ ∫ (t − (t0 + t1)/2) L(t) dt
    /// ```
    ///
    /// # Source
    /// Least squares over all of the window, as ISO 3382-1:2009, 3.4.
    #[must_use]
    pub fn time_s(&self, from_db: f64, to_db: f64) -> f64 {
        let (first, start_s) = self.crossing(from_db);
        let (last, end_s) = self.crossing(to_db);
        let middle_s = 0.5 * (start_s + end_s);
        let mut before = (start_s - middle_s, from_db);
        let mut moment = 0.0;
        let inside = self.points[first..last].iter().copied();
        for (time_s, level_db) in inside.chain([(end_s, to_db)]) {
            let after = (time_s - middle_s, level_db);
            moment += moment_of_segment(before, after);
            before = after;
        }
        -60.0 * (end_s - start_s).powi(3) / (12.0 * moment)
    }

    /// The first point below a level, and when the curve passes the level, s.
    fn crossing(&self, level_db: f64) -> (usize, f64) {
        let below = self
            .points
            .partition_point(|point| point.1 >= level_db)
            .clamp(1, self.points.len() - 1);
        let ((t0, l0), (t1, l1)) = (self.points[below - 1], self.points[below]);
        (below, t0 + (t1 - t0) * (level_db - l0) / (l1 - l0))
    }
}

/// ∫ t L dt over a straight segment (Simpson's rule, exact for it).
fn moment_of_segment((t0, l0): (f64, f64), (t1, l1): (f64, f64)) -> f64 {
    (t1 - t0) / 6.0 * (t0 * l0 + (t0 + t1) * (l0 + l1) + t1 * l1)
}
