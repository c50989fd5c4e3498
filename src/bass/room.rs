//! What the bass needs to know of a room: its box, and how far every spot of its walls gives way.

use glam::DVec3;

use super::admittance::Admittance;
use crate::geometry::{Rect, Surface};

/// A box room as low frequencies meet it.
#[derive(Clone, Debug, PartialEq)]
pub struct BassRoom {
    /// Width, length, height, m.
    pub size_m: DVec3,
    /// Speed of sound, m/s.
    pub speed_of_sound_m_per_s: f64,
    /// The walls in the order of [`Surface::ALL`].
    pub walls: [BassWall; 6],
}

/// One wall: what is bare, and what lies over it.
#[derive(Clone, Debug, PartialEq)]
pub struct BassWall {
    /// The whole wall.
    pub extent: Rect,
    /// Where nothing lies over it.
    pub bare: Admittance,
    /// Parts and pieces; a later one covers an earlier one.
    pub patches: Vec<(Rect, Admittance)>,
}

impl BassRoom {
    /// Volume, m³.
    #[must_use]
    pub fn volume_m3(&self) -> f64 {
        self.size_m.x * self.size_m.y * self.size_m.z
    }

    /// The wall of that surface.
    #[must_use]
    pub fn wall(&self, surface: Surface) -> &BassWall {
        &self.walls[surface as usize]
    }
}

impl BassWall {
    /// Rectangles that do not overlap, each with the index of the patch that shows there.
    #[must_use]
    pub fn visible(&self) -> Vec<(Rect, usize)> {
        let mut shown: Vec<(Rect, usize)> = Vec::new();
        for (index, (rect, _)) in self.patches.iter().enumerate() {
            let Some(rect) = common(*rect, self.extent) else {
                continue;
            };
            shown = shown
                .into_iter()
                .flat_map(|(under, i)| without(under, rect).into_iter().map(move |r| (r, i)))
                .collect();
            shown.push((rect, index));
        }
        shown
    }
}

/// Where two rectangles overlap.
fn common(a: Rect, b: Rect) -> Option<Rect> {
    let (u0, u1) = (a.u_m.max(b.u_m), (a.u_m + a.width_m).min(b.u_m + b.width_m));
    let (v0, v1) = (
        a.v_m.max(b.v_m),
        (a.v_m + a.height_m).min(b.v_m + b.height_m),
    );
    (u1 > u0 && v1 > v0).then(|| between((u0, u1), (v0, v1)))
}

/// What is left of a rectangle beside another: up to four strips.
fn without(rect: Rect, cover: Rect) -> Vec<Rect> {
    let Some(hidden) = common(rect, cover) else {
        return vec![rect];
    };
    let (u0, u1) = (rect.u_m, rect.u_m + rect.width_m);
    let (v0, v1) = (rect.v_m, rect.v_m + rect.height_m);
    let (hu0, hu1) = (hidden.u_m, hidden.u_m + hidden.width_m);
    let (hv0, hv1) = (hidden.v_m, hidden.v_m + hidden.height_m);
    [
        between((u0, hu0), (v0, v1)),
        between((hu1, u1), (v0, v1)),
        between((hu0, hu1), (v0, hv0)),
        between((hu0, hu1), (hv1, v1)),
    ]
    .into_iter()
    .filter(|strip| strip.width_m > 0.0 && strip.height_m > 0.0)
    .collect()
}

fn between(u_m: (f64, f64), v_m: (f64, f64)) -> Rect {
    Rect {
        u_m: u_m.0,
        v_m: v_m.0,
        width_m: u_m.1 - u_m.0,
        height_m: v_m.1 - v_m.0,
    }
}
