//! A rectangle somewhere in the room that is no part of a wall: what crosses it, what it mirrors, how much of a path it meets.

use glam::DVec3;

use crate::footprint::Mirror;
use crate::geometry::Rect;
use crate::spectrum::{FINE, Spectrum};

/// Nearer than this to the plane of a face nothing is mirrored by it, m.
const LEAST_HEIGHT_M: f64 = 1e-3;

/// Flatter ways get no longer ellipse: the true area that matters is shorter than its formula says.
const LEAST_COSINE: f64 = 0.1;

/// A rectangle in the room.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Plate {
    /// The corner from which both sides run, m.
    pub corner_m: DVec3,
    /// Unit vectors along its sides.
    pub sides: [DVec3; 2],
    /// Lengths of its sides, m.
    pub extent_m: [f64; 2],
    /// Unit vector square to it, on the side that mirrors.
    pub normal: DVec3,
}

/// A way from a loudspeaker over one face to the seat.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Way {
    /// Where it meets the plane of the face, m; the face need not reach so far.
    pub point_m: DVec3,
    /// Length before and after that point, m.
    pub halves_m: [f64; 2],
    /// Unit vectors before and after it.
    pub travels: [DVec3; 2],
    /// Cosine of the angle of incidence.
    pub cosine: f64,
}

impl Way {
    /// Length of the way, m.
    pub fn distance_m(&self) -> f64 {
        self.halves_m[0] + self.halves_m[1]
    }
}

impl Plate {
    /// The rectangle seen from the other side.
    pub fn reversed(self) -> Self {
        Self {
            normal: -self.normal,
            ..self
        }
    }

    /// The rectangle moved towards the side that mirrors.
    pub fn raised(self, by_m: f64) -> Self {
        Self {
            corner_m: self.corner_m + self.normal * by_m,
            ..self
        }
    }

    /// How far a point lies before the side that mirrors, m.
    fn height_m(&self, point_m: DVec3) -> f64 {
        (point_m - self.corner_m).dot(self.normal)
    }

    /// A point in the frame of the sides, m.
    fn uv_m(&self, point_m: DVec3) -> (f64, f64) {
        let from_corner_m = point_m - self.corner_m;
        (
            from_corner_m.dot(self.sides[0]),
            from_corner_m.dot(self.sides[1]),
        )
    }

    fn rect(&self) -> Rect {
        Rect {
            u_m: 0.0,
            v_m: 0.0,
            width_m: self.extent_m[0],
            height_m: self.extent_m[1],
        }
    }

    /// Where a straight line from point to point goes through its plane, as a share of the line; none if it does not.
    fn crossing(&self, from_m: DVec3, to_m: DVec3) -> Option<f64> {
        let (before_m, after_m) = (self.height_m(from_m), self.height_m(to_m));
        (before_m * after_m < 0.0).then(|| before_m / (before_m - after_m))
    }

    /// Whether a straight line from point to point goes through it.
    pub fn is_crossed(&self, from_m: DVec3, to_m: DVec3) -> bool {
        self.crossing(from_m, to_m).is_some_and(|share| {
            let at_m = from_m + (to_m - from_m) * share;
            self.rect().contains(self.uv_m(at_m))
        })
    }

    /// Its weight on a leg of a path that goes through its plane; none if the leg does not.
    ///
    /// The part of a wave that goes through a rectangle is that which a mirror of its shape would throw back.
    ///
    /// # Units
    /// - `before_m`, `after_m`: lengths of the path before and after the leg, unfolded, m
    ///
    /// # Source
    /// Kirchhoff's integral over an opening, see `footprint`; the rest passes by (Babinet's principle).
    pub fn weight_on_leg(
        &self,
        [from_m, to_m]: [DVec3; 2],
        [before_m, after_m]: [f64; 2],
        speed_of_sound_m_per_s: f64,
    ) -> Option<Spectrum<FINE>> {
        let share = self.crossing(from_m, to_m)?;
        let leg = to_m - from_m;
        let length_m = leg.length();
        let halves_m = [
            before_m + share * length_m,
            after_m + (1.0 - share) * length_m,
        ];
        let travel = leg / length_m;
        let met = self.met(from_m + leg * share, halves_m, travel);
        Some(met.weight(self.rect(), speed_of_sound_m_per_s))
    }

    /// The way over the mirroring side, by its image; none where one of the two points is not before that side.
    pub fn way(&self, source_m: DVec3, receiver_m: DVec3) -> Option<Way> {
        let (before_m, after_m) = (self.height_m(source_m), self.height_m(receiver_m));
        if before_m < LEAST_HEIGHT_M || after_m < LEAST_HEIGHT_M {
            return None;
        }
        let image_m = source_m - self.normal * (2.0 * before_m);
        let point_m = image_m + (receiver_m - image_m) * (before_m / (before_m + after_m));
        let (first, second) = (point_m - source_m, receiver_m - point_m);
        let travels = [first.normalize(), second.normalize()];
        Some(Way {
            point_m,
            halves_m: [first.length(), second.length()],
            travels,
            cosine: -travels[0].dot(self.normal),
        })
    }

    /// Its weight on a way over it.
    pub fn weight(&self, way: &Way, speed_of_sound_m_per_s: f64) -> Spectrum<FINE> {
        let met = self.met(way.point_m, way.halves_m, way.travels[0]);
        met.weight(self.rect(), speed_of_sound_m_per_s)
    }

    /// Whether it comes as near to the point of a way on its plane as the rim of an ellipse about that point.
    ///
    /// # Units
    /// - `across_m`: half the axis of the ellipse across the way's trace, m; along the trace it is 1 / cos θ times as long
    pub fn is_near(&self, way: &Way, across_m: f64) -> bool {
        let (u_m, v_m) = self.uv_m(way.point_m);
        let past = |at_m: f64, end_m: f64| at_m - at_m.clamp(0.0, end_m);
        let off_m = (past(u_m, self.extent_m[0]), past(v_m, self.extent_m[1]));
        let travel = self.sides.map(|side| way.travels[0].dot(side));
        let flat = travel[0].hypot(travel[1]).max(f64::EPSILON);
        let along_m = (off_m.0 * travel[0] + off_m.1 * travel[1]) / flat;
        let beside_m = (off_m.0 * travel[1] - off_m.1 * travel[0]) / flat;
        (along_m * way.cosine.max(LEAST_COSINE)).hypot(beside_m) < across_m
    }

    fn met(&self, point_m: DVec3, halves_m: [f64; 2], travel: DVec3) -> Mirror {
        Mirror {
            point_m: self.uv_m(point_m),
            before_m: halves_m[0],
            after_m: halves_m[1],
            along: (travel.dot(self.sides[0]), travel.dot(self.sides[1])),
            cosine: travel.dot(self.normal).abs(),
        }
    }
}
