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

/// Pieces whose changes are added up on their own, so that one that moves leaves the sums of the others as they are.
const GROUP: usize = 8;

/// Some neighbours in the list of pieces.
#[derive(Clone, Debug)]
struct Group {
    pieces: Vec<Patch>,
    /// Sum of what they change.
    rows: Rows,
}

/// What the wall with all its pieces reflects, and the most that anything on it does.
#[derive(Clone, Debug)]
pub(super) struct Sum {
    groups: Vec<Group>,
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
        let before = self.sum.take();
        let sum = match before {
            Some(sum) if sum.is_of(wall) => sum,
            before => {
                let groups = before.map_or_else(Vec::new, |sum| sum.groups);
                self.added_up(wall, &ground, call, groups)
            }
        };
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

    /// Index of what is known of a piece.
    fn learned(&mut self, piece: &Patch, ground: &Ground, call: u64) -> usize {
        let found = self.pieces.iter().position(|known| known.piece == *piece);
        if let Some(index) = found {
            return index;
        }
        let material = self.material(piece, ground, call);
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
        self.pieces.len() - 1
    }

    /// Index of the material of a piece.
    fn material(&mut self, piece: &Patch, ground: &Ground, call: u64) -> usize {
        let found = self
            .materials
            .iter()
            .position(|known| is_alike(&known.like, piece));
        if let Some(index) = found {
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

    /// Adds the groups up, those anew that are not as they were before.
    fn added_up(&mut self, wall: &Wall, ground: &Ground, call: u64, before: Vec<Group>) -> Sum {
        let mut before = before.into_iter();
        let mut groups = Vec::with_capacity(wall.pieces.len().div_ceil(GROUP));
        for pieces in wall.pieces.chunks(GROUP) {
            let same = before.next().filter(|group| group.pieces == pieces);
            groups.push(same.unwrap_or_else(|| self.group(pieces, ground, call)));
        }
        let (mut reflected, mut most) = (ground.reflected.clone(), ground.most.clone());
        for group in &groups {
            reflected.add(&group.rows);
        }
        for material in &mut self.materials {
            let is_there = |piece: &Patch| is_alike(piece, &material.like);
            if wall.pieces.iter().any(is_there) {
                material.used = call;
                most.raise(&material.most);
            }
        }
        self.forget(wall, call);
        Sum {
            groups,
            reflected,
            most,
        }
    }

    /// The sum of some pieces.
    fn group(&mut self, pieces: &[Patch], ground: &Ground, call: u64) -> Group {
        let known: Vec<usize> = pieces
            .iter()
            .map(|piece| self.learned(piece, ground, call))
            .collect();
        let mut rows = self.pieces[known[0]].rows.clone();
        for index in &known[1..] {
            rows.add(&self.pieces[*index].rows);
        }
        Group {
            pieces: pieces.to_vec(),
            rows,
        }
    }

    /// Forgets what has not been there for a while.
    fn forget(&mut self, wall: &Wall, call: u64) {
        for known in &mut self.pieces {
            let is_there = |piece: &Patch| piece.rect == known.piece.rect;
            if wall.pieces.iter().any(is_there) {
                known.used = call;
            }
        }
        self.materials
            .retain(|known| known.used + KEPT_CALLS > call);
        self.pieces.retain(|known| known.used + KEPT_CALLS > call);
    }

    fn weighted(&self, change: &Rows, rect: Rect) -> Rows {
        change.weighted(&self.hits, rect, self.speed_of_sound_m_per_s)
    }
}

impl Sum {
    /// Whether it is that of a wall's pieces as they are now.
    fn is_of(&self, wall: &Wall) -> bool {
        let of_groups = self.groups.iter().flat_map(|group| &group.pieces);
        of_groups.eq(&wall.pieces)
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
