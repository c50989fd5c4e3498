//! What stands on the floor or goes up a corner, and what must stay free before walls: footprints with the heights they take.

use std::f64::consts::FRAC_1_SQRT_2;

use glam::DVec3;

use super::document::{Edge, Footprint, KeepClear, Kind, Part, Place, Role};
use crate::geometry::{Rect, Surface, TOUCH_M, stored_m};

/// The way through a door or an opening, m. Common practice, no source.
const WAY_M: f64 = 0.9;

/// Kept free of a swinging leaf, m. Common practice, no source.
const SWING_MARGIN_M: f64 = 0.1;

/// A part that begins no higher than this can be walked through; a built-in as low stands on the floor, m.
pub(crate) const SILL_M: f64 = 0.1;

/// A rectangle of the floor with the heights that are taken above it, m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Upright {
    /// Of the floor.
    pub foot: Rect,
    /// From this height, m.
    pub low_m: f64,
    /// To this height, m.
    pub high_m: f64,
}

impl Upright {
    /// Whether the two share more than a face.
    #[must_use]
    pub fn meets(&self, other: &Self) -> bool {
        self.high_m.min(other.high_m) - self.low_m.max(other.low_m) > TOUCH_M
            && self.foot.overlaps(other.foot)
    }

    /// Furniture in its place.
    #[must_use]
    pub fn furniture(at: Footprint) -> Self {
        Self {
            foot: Rect {
                u_m: at.x_m,
                v_m: at.y_m,
                width_m: at.width_m,
                height_m: at.depth_m,
            },
            low_m: 0.0,
            high_m: at.height_m,
        }
    }

    /// What a piece of a plan takes: a stand down to its feet, a corner piece its heights; none for what lies on surfaces.
    #[must_use]
    pub fn piece(kind: &Kind, depth_m: f64, place: &Place, size_m: DVec3) -> Option<Self> {
        match *place {
            Place::Surface { .. } | Place::Curtain { .. } => None,
            Place::Corner { edge, z_m } => Some(Self {
                foot: corner_foot(edge, size_m, corner_leg_m(kind)),
                low_m: z_m,
                high_m: z_m + kind.height_m,
            }),
            Place::Stand {
                x_m,
                y_m,
                z_m,
                turn_deg,
            } => {
                let (width_m, height_m) = foot_m(kind.width_m, depth_m, turn_deg);
                Some(Self {
                    foot: Rect {
                        u_m: stored_m(x_m - width_m / 2.0),
                        v_m: stored_m(y_m - height_m / 2.0),
                        width_m,
                        height_m,
                    },
                    low_m: 0.0,
                    high_m: z_m + kind.height_m,
                })
            }
        }
    }

    /// What a zone keeps clear, its margin in: all heights above the floor, or the margin before a wall or below the ceiling.
    #[must_use]
    pub fn zone(zone: &KeepClear, size_m: DVec3) -> Self {
        let grown = zone.rect.grown(zone.margin_m);
        match zone.surface {
            Surface::Floor => Self {
                foot: grown,
                low_m: f64::NEG_INFINITY,
                high_m: f64::INFINITY,
            },
            Surface::Ceiling => Self {
                foot: grown,
                low_m: size_m.z - zone.margin_m,
                high_m: f64::INFINITY,
            },
            wall => Self {
                foot: strip(wall, grown, zone.margin_m, size_m),
                low_m: grown.v_m,
                high_m: grown.v_m + grown.height_m,
            },
        }
    }

    /// The way through a part of a wall, or the swing of its leaf; none where nobody walks.
    #[must_use]
    pub fn way(wall: Surface, part: &Part, size_m: DVec3) -> Option<Self> {
        if part.rect.v_m > SILL_M || !matches!(part.role, Role::Door | Role::Opening) {
            return None;
        }
        let reach_m = swing_m(part).map_or(WAY_M, |m| m + SWING_MARGIN_M);
        Some(Self::before(wall, part.rect, reach_m, size_m))
    }

    /// What the leaf of a door sweeps; none for a part without a leaf.
    #[must_use]
    pub fn sweep(wall: Surface, part: &Part, size_m: DVec3) -> Option<Self> {
        swing_m(part).and(Self::way(wall, part, size_m))
    }

    /// From the floor to the top of a rectangle of a wall, that far into the room.
    #[must_use]
    pub fn before(wall: Surface, rect: Rect, reach_m: f64, size_m: DVec3) -> Self {
        Self {
            foot: strip(wall, rect, reach_m, size_m),
            low_m: 0.0,
            high_m: rect.v_m + rect.height_m,
        }
    }

    /// From it to a wall, m.
    #[must_use]
    pub fn gap_m(&self, wall: Surface, size_m: DVec3) -> f64 {
        let Rect {
            u_m,
            v_m,
            width_m,
            height_m,
        } = self.foot;
        match wall {
            Surface::Left => u_m,
            Surface::Right => size_m.x - u_m - width_m,
            Surface::Front => v_m,
            Surface::Back => size_m.y - v_m - height_m,
            Surface::Floor | Surface::Ceiling => f64::INFINITY,
        }
    }

    /// What it hides of a wall.
    #[must_use]
    pub fn shadow(&self, wall: Surface) -> Rect {
        let (u_m, width_m) = if wall.axis() == 0 {
            (self.foot.v_m, self.foot.height_m)
        } else {
            (self.foot.u_m, self.foot.width_m)
        };
        Rect {
            u_m,
            v_m: self.low_m,
            width_m,
            height_m: self.high_m - self.low_m,
        }
    }
}

fn swing_m(part: &Part) -> Option<f64> {
    let is_door = part.role == Role::Door;
    part.swing_m.filter(|swing_m| is_door && *swing_m > 0.0)
}

/// How wide a corner piece covers each wall, m: its face is the long side of a right-angled triangle.
pub(crate) fn corner_leg_m(kind: &Kind) -> f64 {
    stored_m(kind.width_m * FRAC_1_SQRT_2)
}

/// Width and depth of the box round a turned foot, m.
pub(crate) fn foot_m(width_m: f64, depth_m: f64, turn_deg: f64) -> (f64, f64) {
    let (sine, cosine) = turn_deg.to_radians().sin_cos();
    let (sine, cosine) = (sine.abs(), cosine.abs());
    (
        stored_m(width_m * cosine + depth_m * sine),
        stored_m(width_m * sine + depth_m * cosine),
    )
}

/// Where something of a length begins that lies at the near or far end of a side.
pub(crate) fn far(wall: Surface, side_m: f64, length_m: f64) -> f64 {
    if wall.is_far() {
        stored_m(side_m - length_m)
    } else {
        0.0
    }
}

fn corner_foot(edge: Edge, size_m: DVec3, leg_m: f64) -> Rect {
    let [(side, end), _] = edge.walls();
    Rect {
        u_m: far(side, size_m.x, leg_m),
        v_m: far(end, size_m.y, leg_m),
        width_m: leg_m,
        height_m: leg_m,
    }
}

/// The floor before a rectangle of a wall.
fn strip(wall: Surface, rect: Rect, reach_m: f64, size_m: DVec3) -> Rect {
    if wall.axis() == 0 {
        Rect {
            u_m: far(wall, size_m.x, reach_m),
            v_m: rect.u_m,
            width_m: reach_m,
            height_m: rect.width_m,
        }
    } else {
        Rect {
            u_m: rect.u_m,
            v_m: far(wall, size_m.y, reach_m),
            width_m: rect.width_m,
            height_m: reach_m,
        }
    }
}
