//! How much of a reflection a rectangle on the surface carries: its complex weight by Kirchhoff's integral.
//!
//! W is what the rectangle would reflect over what the endless surface reflects, both with the factor 1. Every edge counts with
//! the true detour of the path over its nearest point and over its ends, and with its true strength there; nothing is taken
//! for separable, so that paths oblique to both axes of the surface need no care of their own. Left out: that the strength
//! varies along an edge. Weights of rectangles that share edges add up exactly.

use crate::fresnel::{End, add_waves};
use crate::geometry::Rect;
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
    /// W = χ − Σ over the edges M [B(p, q2) − B(p, q1)],   χ = 1 if the mirror point lies in the rectangle
    /// B(p, q) = ± [½ H(p, 0) exp(−j p²) − H(p, q) exp(−j (p² + q²))] / 2π · (1 for the half beyond, see `fresnel`)
    /// p² = k · detour over the nearest point of the edge's line,   p² + q² = k · detour over its end
    /// M: strength of the edge wave at the nearest point re that near the mirror point
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
        let mut weight = Spectrum::ZERO;
        if u_low < 0.0 && u_high > 0.0 && v_low < 0.0 && v_high > 0.0 {
            weight.re = [1.0; N];
        }
        let c = speed_of_sound_m_per_s;
        for edge in &edges {
            edge.add_whole(&mut weight, c);
        }
        for (u, v) in [(0, 2), (0, 3), (1, 2), (1, 3)] {
            let (of_u, of_v) = (edges[u].ends[v - 2], edges[v].ends[u]);
            let detour_m = edges[u].detour_m + of_u.detour_m;
            let ends = [edges[u].end(of_u, detour_m), edges[v].end(of_v, detour_m)];
            add_waves(&mut weight, detour_m, c, &ends);
        }
        weight
    }

    /// The edge on the line at `x_m` from the mirror point.
    ///
    /// # Units
    /// - `inner`: whether the mirror point lies on the rectangle's side of the line
    /// - `along`: components of the path's direction across the edge and along it
    /// - `ends_m`: where it starts and stops, m along it from the mirror point
    fn edge(&self, x_m: f64, inner: bool, along: (f64, f64), ends_m: (f64, f64)) -> Edge {
        let (before_m, after_m) = (self.before_m.max(LEAST), self.after_m.max(LEAST));
        let cosine = self.cosine.max(LEAST);
        let flat = (1.0 - along.1 * along.1).max(LEAST * LEAST).sqrt();
        let bend = Bend::new(x_m, before_m * flat, after_m * flat, along.0 / flat);
        let both_m = bend.first_m + bend.second_m;
        let shift_m = (before_m + after_m) * along.1;
        let length_m = (both_m * both_m + shift_m * shift_m).sqrt();
        let straight_m = (before_m + after_m) * flat;
        let detour_m = bend.detour_m * (both_m + straight_m) / (length_m + before_m + after_m);
        let nearest_m =
            along.1 * (after_m * bend.more_first_m - before_m * bend.more_second_m) / both_m;
        let slope = shift_m / length_m;
        let (first_m, second_m) = (
            bend.first_m / both_m * length_m,
            bend.second_m / both_m * length_m,
        );
        let end = |at_m: f64, is_far: bool| {
            let y_m = at_m - nearest_m;
            EdgeEnd {
                detour_m: Bend::new(y_m, first_m, second_m, slope).detour_m.max(0.0),
                beyond: if is_far { y_m >= 0.0 } else { y_m > 0.0 },
                is_far,
            }
        };
        let apart = bend.first_m * bend.second_m
            - (x_m + before_m * along.0) * (x_m - after_m * along.0)
            + before_m * after_m * cosine * cosine;
        let detour_m = detour_m.max(f64::MIN_POSITIVE);
        Edge {
            detour_m,
            strength: detour_m.sqrt() / x_m.abs() * apart
                / (std::f64::consts::SQRT_2
                    * cosine
                    * (bend.first_m * bend.second_m * length_m).sqrt())
                * if inner { 1.0 } else { -1.0 },
            ends: [end(ends_m.0, false), end(ends_m.1, true)],
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
    /// Takes the wave of the edge's endless line off the weight, where the nearest point lies on the edge.
    fn add_whole<const N: usize>(&self, weight: &mut Spectrum<N>, speed_of_sound_m_per_s: f64) {
        if self.ends[1].beyond && !self.ends[0].beyond {
            let whole = End {
                sine: 0.0,
                factor: -self.strength / std::f64::consts::PI,
            };
            add_waves(weight, self.detour_m, speed_of_sound_m_per_s, &[whole]);
        }
    }

    /// What one of its ends gives back.
    fn end(&self, end: EdgeEnd, detour_m: f64) -> End {
        let sign = if end.beyond == end.is_far { 1.0 } else { -1.0 };
        let cosine = (self.detour_m / detour_m).sqrt();
        End {
            sine: (end.detour_m / detour_m).sqrt(),
            factor: sign * self.strength * cosine / std::f64::consts::TAU,
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
        let first_m = (a_m * a_m + a_m * turn + x2).max(0.0).sqrt();
        let second_m = (b_m * b_m - b_m * turn + x2).max(0.0).sqrt();
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
