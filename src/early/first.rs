//! The bounces of first order alone, with what single pieces change of them: for those who weigh many pieces one by one.
//!
//! What a piece changes depends on nothing but the piece, the bare wall with its parts and the path, and such changes add up
//! (see `wall`). So a set of pieces needs no more than a sum.

use crate::bands::Banded;
use crate::geometry::{Rect, Surface};
use crate::image_source::ImagePath;
use crate::room::Room;
use crate::spectrum::{FINE, Spectrum};
use crate::surface::{Patch, Wall};

use super::memory::mirror;
use super::rows::{Hits, Rows};

/// The bounces of first order of some loudspeakers at one seat, off a room without kit.
#[derive(Clone, Debug)]
pub struct FirstBounces {
    walls: [Ground; 6],
    speed_of_sound_m_per_s: f64,
}

/// One wall without pieces.
#[derive(Clone, Debug)]
struct Ground {
    hits: Hits,
    plain: Rows,
    parts: Vec<(Rect, Rows)>,
    reflected: Rows,
    ways: Vec<Way>,
}

/// The way of one loudspeaker over one wall.
#[derive(Clone, Debug)]
pub struct Way {
    /// Its geometry.
    pub path: ImagePath,
    /// After the direct sound, s.
    pub delay_s: f64,
    /// Energy that it brings before the surface takes its part, re the direct sound.
    pub energy: Banded,
}

impl FirstBounces {
    /// Of the ways of every loudspeaker off every wall of a room; pieces in it are not looked at.
    #[must_use]
    pub fn new(room: &Room, ways: &[Vec<Way>]) -> Self {
        let c = room.air.speed_of_sound_m_per_s;
        let ground = |surface: Surface| {
            let on_wall = |ways: &Vec<Way>| {
                let mut found = ways.iter();
                found.find(|way| way.path.surfaces().eq([surface])).cloned()
            };
            Ground::of(
                room.wall(surface),
                ways.iter().filter_map(on_wall).collect(),
                c,
            )
        };
        Self {
            walls: Surface::ALL.map(ground),
            speed_of_sound_m_per_s: c,
        }
    }

    /// The ways over a wall, one per loudspeaker.
    #[must_use]
    pub fn ways(&self, surface: Surface) -> &[Way] {
        &self.walls[surface as usize].ways
    }

    /// What the wall without pieces reflects of each loudspeaker.
    #[must_use]
    pub fn reflected(&self, surface: Surface) -> &[Spectrum<FINE>] {
        &self.walls[surface as usize].reflected.fine
    }

    /// By how much a piece changes that.
    ///
    /// ```text
    /// (R_p − R_w) W_p − Σ_parts (R_q − R_w) W_(p ∩ q)
    /// ```
    #[must_use]
    pub fn change(&self, surface: Surface, piece: &Patch) -> Vec<Spectrum<FINE>> {
        let c = self.speed_of_sound_m_per_s;
        let ground = &self.walls[surface as usize];
        let face = Rows::of_patch(&ground.hits, piece, c).minus(&ground.plain);
        let mut rows = face.weighted(&ground.hits, piece.rect, c);
        for (rect, change) in &ground.parts {
            if let Some(both) = rect.shared(piece.rect) {
                rows.subtract(&change.weighted(&ground.hits, both, c));
            }
        }
        rows.fine
    }
}

impl Ground {
    fn of(wall: &Wall, ways: Vec<Way>, speed_of_sound_m_per_s: f64) -> Self {
        let hits = Hits {
            fine: ways.iter().map(|way| mirror(&way.path.hits[0])).collect(),
            coarse: Vec::new(),
        };
        let plain = Rows::of_facing(&hits, &wall.bare);
        let mut reflected = plain.clone();
        let part = |part: &Patch| {
            let face = Rows::of_patch(&hits, part, speed_of_sound_m_per_s);
            (part.rect, face.minus(&plain))
        };
        let parts: Vec<(Rect, Rows)> = wall.parts.iter().map(part).collect();
        for (rect, change) in &parts {
            reflected.add(&change.weighted(&hits, *rect, speed_of_sound_m_per_s));
        }
        Self {
            hits,
            plain,
            parts,
            reflected,
            ways,
        }
    }
}
