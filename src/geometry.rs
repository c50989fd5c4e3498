//! The box: its six surfaces with their frames, and rectangles on them.
//!
//! Origin at the floor corner on the left of the front wall. `x` runs from left to right, `y` from front to back, `z` from
//! floor to ceiling. A point on a surface is (u, v): (y, z) on left and right, (x, z) on front and back, (x, y) on floor and
//! ceiling.

use glam::DVec3;
use serde::Serialize;

/// One of the six surfaces, in the order of every list of surfaces.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Surface {
    /// x = 0.
    Left,
    /// x = width.
    Right,
    /// y = 0, behind the loudspeakers.
    Front,
    /// y = length.
    Back,
    /// z = 0.
    Floor,
    /// z = height.
    Ceiling,
}

impl Surface {
    /// All six, in order.
    pub const ALL: [Self; 6] = [
        Self::Left,
        Self::Right,
        Self::Front,
        Self::Back,
        Self::Floor,
        Self::Ceiling,
    ];

    /// The name in documents and reports.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Left => "left",
            Self::Right => "right",
            Self::Front => "front",
            Self::Back => "back",
            Self::Floor => "floor",
            Self::Ceiling => "ceiling",
        }
    }

    /// The name in sentences.
    #[must_use]
    pub const fn in_words(self) -> &'static str {
        match self {
            Self::Left => "left wall",
            Self::Right => "right wall",
            Self::Front => "front wall",
            Self::Back => "back wall",
            Self::Floor => "floor",
            Self::Ceiling => "ceiling",
        }
    }

    /// Index of the room axis that the surface is square to: 0 x, 1 y, 2 z.
    #[must_use]
    pub const fn axis(self) -> usize {
        self as usize / 2
    }

    /// Whether it is the far one of its pair (right, back, ceiling).
    #[must_use]
    pub const fn is_far(self) -> bool {
        self as usize % 2 == 1
    }

    /// Indices of the room axes along u and v.
    #[must_use]
    pub const fn uv_axes(self) -> (usize, usize) {
        match self.axis() {
            0 => (1, 2),
            1 => (0, 2),
            _ => (0, 1),
        }
    }

    /// The whole surface as a rectangle, in a room of that size.
    #[must_use]
    pub fn extent(self, size_m: DVec3) -> Rect {
        let (u, v) = self.uv_axes();
        Rect {
            u_m: 0.0,
            v_m: 0.0,
            width_m: size_m[u],
            height_m: size_m[v],
        }
    }

    /// Coordinate of the surface along its axis, m.
    #[must_use]
    pub fn offset_m(self, size_m: DVec3) -> f64 {
        if self.is_far() {
            size_m[self.axis()]
        } else {
            0.0
        }
    }

    /// A direction in the axes of a room that is turned so that this wall is its front wall.
    #[must_use]
    pub fn as_front(self, direction: DVec3) -> DVec3 {
        let DVec3 { x, y, z } = direction;
        match self {
            Self::Left => DVec3::new(-y, x, z),
            Self::Right => DVec3::new(y, -x, z),
            Self::Back => DVec3::new(-x, -y, z),
            Self::Front | Self::Floor | Self::Ceiling => direction,
        }
    }

    /// The other way round.
    #[must_use]
    pub fn from_front(self, direction: DVec3) -> DVec3 {
        match self {
            Self::Left => Self::Right.as_front(direction),
            Self::Right => Self::Left.as_front(direction),
            _ => self.as_front(direction),
        }
    }

    /// (u, v) of a point in room axes.
    #[must_use]
    pub fn uv(self, point_m: DVec3) -> (f64, f64) {
        let (u, v) = self.uv_axes();
        (point_m[u], point_m[v])
    }
}

/// A rectangle on a surface; (u, v) is its corner nearest the surface's origin.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Rect {
    /// From the surface's origin along u, m.
    pub u_m: f64,
    /// From the surface's origin along v, m.
    pub v_m: f64,
    /// Extent along u, m.
    pub width_m: f64,
    /// Extent along v, m.
    pub height_m: f64,
}

/// Rectangles that share less than this along either side only touch, m. Half the 0.1 mm to which lengths are stored.
pub const TOUCH_M: f64 = 0.000_05;

/// To 0.1 mm, as lengths are stored.
#[must_use]
pub fn stored_m(value_m: f64) -> f64 {
    (value_m * 1e4).round() / 1e4
}

impl Rect {
    /// Area, m².
    #[must_use]
    pub fn area_m2(self) -> f64 {
        self.width_m * self.height_m
    }

    /// Area shared with another rectangle, m².
    #[must_use]
    pub fn overlap_m2(self, other: Self) -> f64 {
        let (u, v) = self.shared_m(other);
        u.max(0.0) * v.max(0.0)
    }

    /// What it has in common with another rectangle, if that is more than an edge.
    #[must_use]
    pub fn shared(self, other: Self) -> Option<Self> {
        let (width_m, height_m) = self.shared_m(other);
        self.overlaps(other).then(|| Self {
            u_m: self.u_m.max(other.u_m),
            v_m: self.v_m.max(other.v_m),
            width_m,
            height_m,
        })
    }

    /// Whether the two share more than an edge.
    #[must_use]
    pub fn overlaps(self, other: Self) -> bool {
        let (u, v) = self.shared_m(other);
        u > TOUCH_M && v > TOUCH_M
    }

    /// Lengths shared along u and v, m; negative where the two lie apart.
    fn shared_m(self, other: Self) -> (f64, f64) {
        let along = |a: f64, a_len: f64, b: f64, b_len: f64| (a + a_len).min(b + b_len) - a.max(b);
        (
            along(self.u_m, self.width_m, other.u_m, other.width_m),
            along(self.v_m, self.height_m, other.v_m, other.height_m),
        )
    }

    /// Whether a point lies in it, its edges included.
    #[must_use]
    pub fn contains(self, (u_m, v_m): (f64, f64)) -> bool {
        (self.u_m..=self.u_m + self.width_m).contains(&u_m)
            && (self.v_m..=self.v_m + self.height_m).contains(&v_m)
    }

    /// The rectangle with a margin all round.
    #[must_use]
    pub fn grown(self, margin_m: f64) -> Self {
        Self {
            u_m: self.u_m - margin_m,
            v_m: self.v_m - margin_m,
            width_m: self.width_m + 2.0 * margin_m,
            height_m: self.height_m + 2.0 * margin_m,
        }
    }
}
