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

/// Sums over the areas of a wall, weighted by what each area does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WallSums {
    /// Σ S α, m².
    pub absorbed_m2: Banded,
    /// Σ S (1 − α) s, m².
    pub scattered_m2: Banded,
    /// Σ S (1 − α), m².
    pub reflected_m2: Banded,
    /// Area of the pieces, m².
    pub cover_m2: f64,
}

impl WallSums {
    /// Of no area at all.
    pub const NOTHING: Self = Self {
        absorbed_m2: Banded::constant(0.0),
        scattered_m2: Banded::constant(0.0),
        reflected_m2: Banded::constant(0.0),
        cover_m2: 0.0,
    };

    /// These and `times` others.
    #[must_use]
    pub fn plus(&self, other: &Self, times: f64) -> Self {
        Self {
            absorbed_m2: self.absorbed_m2 + other.absorbed_m2 * times,
            scattered_m2: self.scattered_m2 + other.scattered_m2 * times,
            reflected_m2: self.reflected_m2 + other.reflected_m2 * times,
            cover_m2: self.cover_m2 + other.cover_m2 * times,
        }
    }

    /// Mean absorption of a wall of that area, see [`Wall::mean_absorption`].
    #[must_use]
    pub fn mean_absorption(&self, area_m2: f64) -> Banded {
        (self.absorbed_m2 * (1.0 / area_m2)).map(|a| a.clamp(0.0, MOST_ABSORPTION))
    }

    /// Scattering of a wall of that area, see [`Wall::mean_scattering`].
    #[must_use]
    pub fn mean_scattering(&self, area_m2: f64) -> Banded {
        let cover = self.cover_m2 / area_m2;
        let edges = scattering_bands(EDGE_SCATTERING) * (cover / FULL_EDGE_COVER).min(1.0);
        Banded::from_fn(|band| {
            (self.scattered_m2[band] / self.reflected_m2[band] + edges[band]).min(1.0)
        })
    }
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
        self.sums().mean_scattering(self.extent.area_m2())
    }

    /// The sums that the means are made of. What a piece adds to them does not depend on the other pieces.
    #[must_use]
    pub fn sums(&self) -> WallSums {
        let mut sums = WallSums {
            cover_m2: self.piece_area_m2(),
            ..WallSums::NOTHING
        };
        for (area, facing) in self.areas() {
            let part =
                (facing.absorption * -1.0).map(|a| area * (1.0 + a).max(1.0 - MOST_ABSORPTION));
            sums.absorbed_m2 = sums.absorbed_m2 + facing.absorption * area;
            sums.scattered_m2 =
                sums.scattered_m2 + Banded::from_fn(|b| part[b] * facing.scattering[b]);
            sums.reflected_m2 = sums.reflected_m2 + part;
        }
        sums
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
