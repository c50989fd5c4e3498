//! What one wall reflects at every hit on it, remembered piece by piece.
//!
//! A piece changes what the wall, or the part under it, would reflect by its weight; these changes add up, and the change
//! of a piece depends on nothing but the piece, the bare wall with its parts, and the hits.

use crate::geometry::Rect;
use crate::surface::{Facing, Patch, Wall};

use super::rows::{Energies, Hits, Rows};

/// How many calls a piece is remembered after it was last there; covers plans that are asked for in turn.
const KEPT_CALLS: u64 = 4;

/// A wall's hits with what its own surface and its pieces do there.
#[derive(Clone, Debug)]
pub(super) struct WallMemory {
    hits: Hits,
    speed_of_sound_m_per_s: f64,
    ground: Option<Ground>,
    materials: Vec<Material>,
    pieces: Vec<Change>,
    sum: Option<Sum>,
}

/// The wall without its pieces.
#[derive(Clone, Debug)]
struct Ground {
    bare: Facing,
    parts: Vec<Patch>,
    /// What the bare wall reflects.
    plain: Rows,
    /// By how much each part would change that, covering it all over.
    part_changes: Vec<Rows>,
    /// What the wall with its parts reflects.
    reflected: Rows,
    /// The most that wall or parts reflect.
    most: Energies,
}

/// What a kind of piece does, wherever it hangs.
#[derive(Clone, Debug)]
struct Material {
    /// One of its pieces.
    like: Patch,
    change: Rows,
    most: Energies,
    used: u64,
}

/// What one piece does.
#[derive(Clone, Debug)]
struct Change {
    piece: Patch,
    rows: Rows,
    used: u64,
}

/// What the wall with all its pieces reflects, and the most that anything on it does.
#[derive(Clone, Debug)]
pub(super) struct Sum {
    pieces: Vec<Patch>,
    pub reflected: Rows,
    pub most: Energies,
}

impl WallMemory {
    pub fn new(hits: Hits, speed_of_sound_m_per_s: f64) -> Self {
        Self {
            hits,
            speed_of_sound_m_per_s,
            ground: None,
            materials: Vec::new(),
            pieces: Vec::new(),
            sum: None,
        }
    }

    /// What the wall as it is reflects at every hit.
    ///
    /// ```text
    /// R = R_w + Σ_parts (R_q − R_w) W_q + Σ_pieces [(R_p − R_w) W_p − Σ_parts (R_q − R_w) W_(p ∩ q)]
    /// ```
    pub fn reflected(&mut self, wall: &Wall, call: u64) -> &Sum {
        let ground = self.ground.take().filter(|ground| ground.is_of(wall));
        if ground.is_none() {
            self.materials.clear();
            self.pieces.clear();
            self.sum = None;
        }
        let ground = ground.unwrap_or_else(|| self.ground_of(wall));
        for piece in &wall.pieces {
            self.learn(piece, &ground, call);
        }
        self.materials
            .retain(|known| known.used + KEPT_CALLS > call);
        self.pieces.retain(|known| known.used + KEPT_CALLS > call);
        let sum = self.sum.take().filter(|sum| sum.pieces == wall.pieces);
        let sum = sum.unwrap_or_else(|| self.added_up(wall, &ground));
        self.ground = Some(ground);
        self.sum.insert(sum)
    }

    fn ground_of(&self, wall: &Wall) -> Ground {
        let plain = Rows::of_facing(&self.hits, &wall.bare);
        let (mut reflected, mut most) = (plain.clone(), Energies::of(&plain));
        let mut part_changes = Vec::new();
        for part in &wall.parts {
            let face = Rows::of_patch(&self.hits, part, self.speed_of_sound_m_per_s);
            most.raise(&Energies::of(&face));
            let change = face.minus(&plain);
            reflected.add(&self.weighted(&change, part.rect));
            part_changes.push(change);
        }
        Ground {
            bare: wall.bare,
            parts: wall.parts.clone(),
            plain,
            part_changes,
            reflected,
            most,
        }
    }

    /// Sees to it that a piece and its material are known.
    fn learn(&mut self, piece: &Patch, ground: &Ground, call: u64) {
        let material = self.material(piece, ground, call);
        if let Some(known) = self.pieces.iter_mut().find(|known| known.piece == *piece) {
            known.used = call;
            return;
        }
        let mut rows = self.weighted(&self.materials[material].change, piece.rect);
        for (part, change) in ground.parts.iter().zip(&ground.part_changes) {
            if let Some(both) = part.rect.shared(piece.rect) {
                rows.subtract(&self.weighted(change, both));
            }
        }
        self.pieces.push(Change {
            piece: piece.clone(),
            rows,
            used: call,
        });
    }

    /// Index of the material of a piece.
    fn material(&mut self, piece: &Patch, ground: &Ground, call: u64) -> usize {
        let found = self
            .materials
            .iter()
            .position(|known| is_alike(&known.like, piece));
        if let Some(index) = found {
            self.materials[index].used = call;
            return index;
        }
        let face = Rows::of_patch(&self.hits, piece, self.speed_of_sound_m_per_s);
        self.materials.push(Material {
            like: piece.clone(),
            change: face.minus(&ground.plain),
            most: Energies::of(&face),
            used: call,
        });
        self.materials.len() - 1
    }

    fn added_up(&self, wall: &Wall, ground: &Ground) -> Sum {
        let (mut reflected, mut most) = (ground.reflected.clone(), ground.most.clone());
        for piece in &wall.pieces {
            if let Some(known) = self.pieces.iter().find(|known| known.piece == *piece) {
                reflected.add(&known.rows);
            }
        }
        let there = |material: &&Material| {
            wall.pieces
                .iter()
                .any(|piece| is_alike(piece, &material.like))
        };
        for material in self.materials.iter().filter(there) {
            most.raise(&material.most);
        }
        Sum {
            pieces: wall.pieces.clone(),
            reflected,
            most,
        }
    }

    fn weighted(&self, change: &Rows, rect: Rect) -> Rows {
        change.weighted(&self.hits, rect, self.speed_of_sound_m_per_s)
    }
}

impl Ground {
    /// Whether it is that of a wall as it is now.
    fn is_of(&self, wall: &Wall) -> bool {
        self.bare == wall.bare && self.parts == wall.parts
    }
}

/// Whether two pieces differ in their place alone.
fn is_alike(a: &Patch, b: &Patch) -> bool {
    a.depth_m == b.depth_m && a.front == b.front && a.facing == b.facing
}
