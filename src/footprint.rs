//! How much of a reflection a rectangle on the surface carries: its complex weight by Kirchhoff's integral.
//!
//! W is what the rectangle would reflect over what the endless surface reflects, both with the factor 1. Every edge counts with
//! the true detour of the path over its nearest point and over its ends, and with its true strength there; nothing is taken
//! for separable, so that paths oblique to both axes of the surface need no care of their own. Left out: that the strength
//! varies along an edge. Weights of rectangles that share edges add up exactly.

use std::f64::consts::{PI, SQRT_2, TAU};

use crate::fresnel::{End, Waves};
use crate::geometry::Rect;
use crate::numeric::larger;
use crate::spectrum::Spectrum;

/// A path that a plane mirrors, seen in the frame (u, v) of the plane.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mirror {
    /// Where the path meets the plane, m.
    pub point_m: (f64, f64),
    /// Length of the path before the point, m.
    pub before_m: f64,
    /// Length of the path after the point, m.
    pub after_m: f64,
    /// Components along u and v of the unit vector in which the sound travels.
    pub along: (f64, f64),
    /// Cosine of the angle of incidence.
    pub cosine: f64,
}

/// Nearer than this to the mirror point an edge is moved this far out, m: there its angle has no value, and the weight does
/// not change visibly over such a distance.
const LEAST_DISTANCE_M: f64 = 1e-7;

/// Lengths and cosines of a path are held above this, so that a source on the plane has a defined weight.
const LEAST: f64 = 1e-6;

impl Mirror {
    /// The complex weight of a rectangle.
    ///
    /// ```text
    /// W = χ − Σ over the edges M [B(p, q2) − B(p, q1)],   χ = 1 if the mirror point lies in the rectangle, else 0
    /// B(p, q) = [H(p, 0) exp(−j p²) − H(p, q) exp(−j (p² + q²))] / 2π,   odd in p and in q, H: see `fresnel`
    /// p² = k · detour over the nearest point of the edge's line; p < 0 if the mirror point lies beyond that line
    /// p² + q² = k · detour over an end of the edge; q < 0 if the end lies before the nearest point
    /// M: strength of the edge wave at the nearest point re what it would be near the mirror point
    /// ```
    ///
    /// # Accuracy
    /// Against Kirchhoff's integral with its near-field terms, levels of octaves 125 Hz … 8 kHz: rms 0.1 dB.
    ///
    /// # Source
    /// Edge integral of Kirchhoff's theory after Maggi 1888 and Rubinowicz 1917, in Born & Wolf, Principles of Optics,
    /// section 8.9; uniform form: this project's.
    #[must_use]
    pub fn weight<const N: usize>(&self, rect: Rect, speed_of_sound_m_per_s: f64) -> Spectrum<N> {
        let span = |from_m: f64, length_m: f64, at_m: f64| {
            let low_m = from_m - at_m;
            (nudged_down(low_m), nudged_up(low_m + length_m))
        };
        let (u_low, u_high) = span(rect.u_m, rect.width_m, self.point_m.0);
        let (v_low, v_high) = span(rect.v_m, rect.height_m, self.point_m.1);
        let across = |x_m: f64, inner: bool| self.edge(x_m, inner, self.along, (v_low, v_high));
        let along = |x_m: f64, inner: bool| {
            self.edge(x_m, inner, (self.along.1, self.along.0), (u_low, u_high))
        };
        let edges = [
            across(u_low, u_low < 0.0),
            across(u_high, u_high > 0.0),
            along(v_low, v_low < 0.0),
            along(v_high, v_high > 0.0),
        ];
        let is_inside = u_low < 0.0 && u_high > 0.0 && v_low < 0.0 && v_high > 0.0;
        let c = speed_of_sound_m_per_s;
        let mut waves = Waves::NONE;
        for edge in &edges {
            edge.add_whole(&mut waves, c);
        }
        for (u, v) in [(0, 2), (0, 3), (1, 2), (1, 3)] {
            let (of_u, of_v) = (edges[u].ends[v - 2], edges[v].ends[u]);
            let detour_m = edges[u].detour_m + of_u.detour_m;
            let ends = [edges[u].end(of_u, detour_m), edges[v].end(of_v, detour_m)];
            waves.add(detour_m, c, &ends);
        }
        waves.plus(if is_inside { 1.0 } else { 0.0 })
    }

    /// The edge on the line at `x_m` from the mirror point.
    ///
    /// # Units
    /// - `inner`: whether the mirror point lies on the rectangle's side of the line
    /// - `along`: components of the path's direction across the edge and along it
    /// - `ends_m`: where it starts and stops, m along it from the mirror point
    fn edge(&self, x_m: f64, inner: bool, along: (f64, f64), ends_m: (f64, f64)) -> Edge {
        let (before_m, after_m) = (larger(self.before_m, LEAST), larger(self.after_m, LEAST));
        let flat = larger(1.0 - along.1 * along.1, LEAST * LEAST).sqrt();
        let bend = Bend::new(x_m, before_m * flat, after_m * flat, along.0 / flat);
        let both_m = bend.first_m + bend.second_m;
        let straight_m = (before_m + after_m) * flat;
        let shift_m = (before_m + after_m) * along.1;
        let length_m = (both_m * both_m + shift_m * shift_m).sqrt();
        let detour_m = bend.detour_m * (both_m + straight_m) / (length_m + before_m + after_m);
        let detour_m = larger(detour_m, f64::MIN_POSITIVE);
        let nearest = Nearest {
            at_m: along.1 * (after_m * bend.more_first_m - before_m * bend.more_second_m) / both_m,
            first_m: bend.first_m / both_m * length_m,
            second_m: bend.second_m / both_m * length_m,
            slope: shift_m / length_m,
        };
        let strength = self.strength(x_m, along.0, detour_m, &bend, length_m);
        Edge {
            detour_m,
            strength: if inner { strength } else { -strength },
            ends: [nearest.end(ends_m.0, false), nearest.end(ends_m.1, true)],
        }
    }

    /// Strength of the wave from the nearest point of an edge.
    ///
    /// ```text
    /// M = √detour / |x| · (a b − a·b) / (√2 cos θ √(a b L))
    /// ```
    ///
    /// a, b: from source and receiver to the edge, square to it, and their product as vectors in the plane square to it; L:
    /// length of the path over the nearest point. M is 1 for an edge at the mirror point.
    fn strength(&self, x_m: f64, across: f64, detour_m: f64, bend: &Bend, length_m: f64) -> f64 {
        let (before_m, after_m) = (larger(self.before_m, LEAST), larger(self.after_m, LEAST));
        let cosine = larger(self.cosine, LEAST);
        let product_m2 = bend.first_m * bend.second_m;
        let inner_m2 = (x_m + before_m * across) * (x_m - after_m * across)
            - before_m * after_m * cosine * cosine;
        let below = SQRT_2 * cosine * (product_m2 * length_m).sqrt();
        detour_m.sqrt() / x_m.abs() * (product_m2 - inner_m2) / below
    }
}

/// The point of an edge's line over which the path is shortest.
struct Nearest {
    /// Where on the line, m from the mirror point.
    at_m: f64,
    /// Lengths of the path before and after it, m.
    first_m: f64,
    second_m: f64,
    /// Cosine of the angle between path and line.
    slope: f64,
}

impl Nearest {
    /// The end of the edge at `at_m` along the line.
    fn end(&self, at_m: f64, is_far: bool) -> EdgeEnd {
        let y_m = at_m - self.at_m;
        let bend = Bend::new(y_m, self.first_m, self.second_m, self.slope);
        EdgeEnd {
            detour_m: larger(bend.detour_m, 0.0),
            beyond: if is_far { y_m >= 0.0 } else { y_m > 0.0 },
            is_far,
        }
    }
}

fn nudged_down(x_m: f64) -> f64 {
    if x_m.abs() < LEAST_DISTANCE_M {
        -LEAST_DISTANCE_M
    } else {
        x_m
    }
}

fn nudged_up(x_m: f64) -> f64 {
    if x_m.abs() < LEAST_DISTANCE_M {
        LEAST_DISTANCE_M
    } else {
        x_m
    }
}

/// An edge: what its nearest point and its ends cost.
struct Edge {
    /// Detour over the nearest point of its line, m.
    detour_m: f64,
    /// M, negative where the mirror point lies beyond the edge.
    strength: f64,
    ends: [EdgeEnd; 2],
}

/// An end of an edge.
#[derive(Clone, Copy)]
struct EdgeEnd {
    /// Detour over the end beyond that over the nearest point, m.
    detour_m: f64,
    /// Whether it lies on the far side of the nearest point.
    beyond: bool,
    /// Whether it is the edge's far end.
    is_far: bool,
}

impl Edge {
    /// Adds the wave of the edge's endless line, where the nearest point lies on the edge.
    fn add_whole<const N: usize>(&self, waves: &mut Waves<N>, speed_of_sound_m_per_s: f64) {
        if self.ends[1].beyond && !self.ends[0].beyond {
            let whole = End {
                sine: 0.0,
                factor: -self.strength / PI,
            };
            waves.add(self.detour_m, speed_of_sound_m_per_s, &[whole]);
        }
    }

    /// What one of its ends gives back.
    fn end(&self, end: EdgeEnd, detour_m: f64) -> End {
        let sign = if end.beyond == end.is_far { 1.0 } else { -1.0 };
        let cosine = (self.detour_m / detour_m).sqrt();
        End {
            sine: (end.detour_m / detour_m).sqrt(),
            factor: sign * self.strength * cosine / TAU,
        }
    }
}

/// A straight path whose middle point is moved along a line.
struct Bend {
    /// How much longer the path gets, m.
    detour_m: f64,
    /// Lengths of its two halves then, m.
    first_m: f64,
    second_m: f64,
    /// How much longer each half gets, m.
    more_first_m: f64,
    more_second_m: f64,
}

impl Bend {
    /// ```text
    /// a' = √(a² + 2 a τ x + x²),   b' = √(b² − 2 b τ x + x²),   detour = (a' − a) + (b' − b)
    /// ```
    ///
    /// Written so that the terms in x, which cancel, are never formed.
    ///
    /// # Units
    /// - `x_m`: how far the point is moved, m
    /// - `a_m`, `b_m`: lengths of the halves, m, > 0
    /// - `slope`: τ, cosine of the angle between path and line
    fn new(x_m: f64, a_m: f64, b_m: f64, slope: f64) -> Self {
        let (x2, turn) = (x_m * x_m, 2.0 * slope * x_m);
        let first_m = larger(a_m * a_m + a_m * turn + x2, 0.0).sqrt();
        let second_m = larger(b_m * b_m - b_m * turn + x2, 0.0).sqrt();
        let (first, second) = ((first_m + a_m).recip(), (second_m + b_m).recip());
        let more_first_m = (x2 + a_m * turn) * first;
        let more_second_m = (x2 - b_m * turn) * second;
        Self {
            detour_m: x2 * (first + second)
                - slope * x_m * (more_first_m * first - more_second_m * second),
            first_m,
            second_m,
            more_first_m,
            more_second_m,
        }
    }
}
