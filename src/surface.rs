//! One wall of the room with all that is on it: what a wave meets on average, and at one spot.

use std::sync::Arc;

use crate::bands::Banded;
use crate::finish::scattering_bands;
use crate::front::Front;
use crate::geometry::Rect;

/// Largest area mean of absorption that a wall may have: beyond it the logarithmic decay rates lose their meaning.
pub const MOST_ABSORPTION: f64 = 0.99;

/// Scattering that the edges of pieces add to a wall once they cover [`FULL_EDGE_COVER`] of it (from 500 Hz up).
const EDGE_SCATTERING: f64 = 0.05;

/// Share of a wall covered by pieces from which their edges scatter fully.
const FULL_EDGE_COVER: f64 = 0.20;

/// What a wave meets on some area: absorption at random incidence and share of the reflected energy that is scattered.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Facing {
    /// Absorption at random incidence, of energy; a data sheet may exceed 1.
    pub absorption: Banded,
    /// Scattering, 0 to 1.
    pub scattering: Banded,
}

/// A rectangle of other facing on a wall: a part of the building or a piece of kit.
#[derive(Clone, Debug, PartialEq)]
pub struct Patch {
    /// Where it is.
    pub rect: Rect,
    /// What a wave meets there.
    pub facing: Facing,
    /// How far its face stands out from the wall, m.
    pub depth_m: f64,
    /// Its reflection with phase, by angle; where none is known it is real, √(1 − α), at every angle.
    pub front: Option<Arc<Front>>,
}

impl Patch {
    /// A patch flush with the wall, known by its absorption alone.
    #[must_use]
    pub fn flat(rect: Rect, facing: Facing) -> Self {
        Self {
            rect,
            facing,
            depth_m: 0.0,
            front: None,
        }
    }
}

/// A wall: its bare facing, the parts set into it, the pieces hung on it. Parts do not overlap one another, nor do pieces;
/// a piece may cover a part.
#[derive(Clone, Debug, PartialEq)]
pub struct Wall {
    /// The whole wall.
    pub extent: Rect,
    /// What is between the parts and pieces.
    pub bare: Facing,
    /// Windows, doors, openings, built-ins.
    pub parts: Vec<Patch>,
    /// Pieces of kit.
    pub pieces: Vec<Patch>,
}

/// What lies under a point of a wall, by index.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Under {
    /// Indices into [`Wall::pieces`].
    pub pieces: Vec<usize>,
    /// Indices into [`Wall::parts`].
    pub parts: Vec<usize>,
}

impl Wall {
    /// Area of each part that is not covered by a piece, m².
    fn visible_part_areas_m2(&self) -> Vec<f64> {
        let covered = |part: &Patch| {
            self.pieces
                .iter()
                .map(|piece| part.rect.overlap_m2(piece.rect))
                .sum::<f64>()
        };
        self.parts
            .iter()
            .map(|part| part.rect.area_m2() - covered(part))
            .collect()
    }

    /// Area of the pieces, m².
    #[must_use]
    pub fn piece_area_m2(&self) -> f64 {
        self.pieces.iter().map(|piece| piece.rect.area_m2()).sum()
    }

    /// Every area of the wall with what is visible of it: the bare rest first, then parts, then pieces.
    fn areas(&self) -> Vec<(f64, &Facing)> {
        let part_areas = self.visible_part_areas_m2();
        let rest = self.extent.area_m2() - self.piece_area_m2() - part_areas.iter().sum::<f64>();
        let parts = part_areas
            .into_iter()
            .zip(self.parts.iter().map(|part| &part.facing));
        let pieces = self
            .pieces
            .iter()
            .map(|piece| (piece.rect.area_m2(), &piece.facing));
        [(rest, &self.bare)]
            .into_iter()
            .chain(parts)
            .chain(pieces)
            .collect()
    }

    /// Equivalent absorption area of the wall without its pieces, and of the pieces alone, m².
    #[must_use]
    pub fn absorption_areas_m2(&self) -> (Banded, Banded) {
        let sum = |areas: &[(f64, &Facing)]| {
            areas
                .iter()
                .fold(Banded::constant(0.0), |sum, (area, facing)| {
                    sum + facing.absorption * *area
                })
        };
        let areas = self.areas();
        let (building, pieces) = areas.split_at(1 + self.parts.len());
        (sum(building), sum(pieces))
    }

    /// Area mean of absorption at random incidence, at most [`MOST_ABSORPTION`].
    #[must_use]
    pub fn mean_absorption(&self) -> Banded {
        let (building, pieces) = self.absorption_areas_m2();
        ((building + pieces) * (1.0 / self.extent.area_m2())).map(|a| a.clamp(0.0, MOST_ABSORPTION))
    }

    /// Scattering of the wall as a whole: the mean weighted by area and by what is reflected, and what the edges of the
    /// pieces add.
    ///
    /// ```text
    /// s = Σ S (1 − α) s / Σ S (1 − α) + 0.05 · min(1, cover / 0.2)
    /// ```
    ///
    /// # Source
    /// Energy balance of the reflected sound; the part of the edges is common practice, no source.
    #[must_use]
    pub fn mean_scattering(&self) -> Banded {
        let areas = self.areas();
        let cover = self.piece_area_m2() / self.extent.area_m2();
        let edges = scattering_bands(EDGE_SCATTERING) * (cover / FULL_EDGE_COVER).min(1.0);
        Banded::from_fn(|band| {
            let (mut scattered, mut reflected) = (0.0, 0.0);
            for (area, facing) in &areas {
                let part = area * (1.0 - facing.absorption[band]).max(1.0 - MOST_ABSORPTION);
                scattered += part * facing.scattering[band];
                reflected += part;
            }
            (scattered / reflected + edges[band]).min(1.0)
        })
    }

    /// What lies under a point.
    #[must_use]
    pub fn under(&self, uv_m: (f64, f64)) -> Under {
        let hit = |patches: &[Patch]| {
            (0..patches.len())
                .filter(|&i| patches[i].rect.contains(uv_m))
                .collect()
        };
        Under {
            pieces: hit(&self.pieces),
            parts: hit(&self.parts),
        }
    }
}
