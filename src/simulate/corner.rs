//! Corner pieces: a face that stands across a vertical edge of the room.

use glam::DVec3;

use crate::geometry::{Rect, Surface};
use crate::scenario::document::{Edge, Kind};

/// Where a corner piece counts on a wall of its edge: a rectangle beside the edge, half as wide as its face.
///
/// The piece hides `width / √2` of each wall behind a face that is `width` wide. Half of the face counts on each wall, so that
/// what it absorbs is that of its face and no more; the strip of wall beyond, a fifth of the width, stays bare. Common
/// practice, no source.
pub(super) fn rect(edge: Edge, wall: Surface, z_m: f64, kind: &Kind, size_m: DVec3) -> Rect {
    let (along, _) = wall.uv_axes();
    let side_m = size_m[along];
    let width_m = (kind.width_m / 2.0).min(side_m);
    let [(first, second), _] = edge.walls();
    let other = if wall == first { second } else { first };
    Rect {
        u_m: if other.is_far() {
            side_m - width_m
        } else {
            0.0
        },
        v_m: z_m,
        width_m,
        height_m: kind.height_m,
    }
}

/// How far the slanted face stands out from each wall, on the mean over its width, m.
///
/// ```text
/// width / (2 √2)
/// ```
pub(super) fn depth_m(kind: &Kind) -> f64 {
    kind.width_m * 0.5 * std::f64::consts::FRAC_1_SQRT_2
}
