//! What is not known about a room, and the room as one draw has it.

use crate::bands::Banded;
use crate::chance::EIGHT_IN_TEN;
use crate::finite_size;
use crate::geometry::{Rect, Surface};
use crate::numeric::exp;
use crate::room::Room;
use crate::scenario::Scenario;
use crate::scenario::document::{Place, Plan};
use crate::spread::Spread;

use super::deal::Deal;
use super::prepared::Prepared;
use super::spreads::{finish_name, finish_spread, furnishing_name, furnishing_spread, kind_name};

/// Names of what is drawn besides materials and things.
pub(super) const SIDES: [&str; 3] = ["width", "length", "height"];
pub(super) const SCATTERING: &str = "scattering";
pub(super) const SIZE_EFFECT: &str = "size effect";
pub(super) const MODEL: &str = "model";

/// A measured side may be off by this either way, 8 times in 10, m. Common practice, no source.
const SIDE_M: f64 = 0.02;

/// Scattering may be this many times larger or smaller, 8 times in 10. Common practice, no source.
const SCATTERING_FACTOR: f64 = 1.5;

/// Standard deviation of the model's own error in a furnished and in an empty room.
///
/// # Source
/// Decay against the ray tracer of `tests/`: the spread of its ratios in furnished and in bare rooms, rounded up.
const MODEL_FURNISHED: f64 = 0.02;
const MODEL_EMPTY: f64 = 0.06;

/// Surface of furniture over which the model's error falls from empty to furnished, m².
const FURNISHING_M2: f64 = 5.0;

/// Name of a material, and how far off its absorption may be.
type Doubt = (String, Spread);

/// What is not known about the room of one plan.
#[derive(Clone, Debug)]
pub(super) struct Doubts {
    walls: [WallDoubts; 6],
    furnishings: Vec<Doubt>,
    /// Of each stand: its kind as it stands free, and its surface in m².
    stands: Vec<(Doubt, f64)>,
    materials: Vec<Doubt>,
    model: f64,
}

/// Of one wall: its finish, those of its parts, and its pieces.
#[derive(Clone, Debug)]
struct WallDoubts {
    bare: Doubt,
    parts: Vec<Doubt>,
    pieces: Vec<PieceDoubt>,
}

/// The material of a patch, by its number, and what the size of its group may add to its absorption.
#[derive(Clone, Copy, Debug)]
struct PieceDoubt {
    material: usize,
    gain: Banded,
}

impl Doubts {
    pub fn of(prepared: &Prepared, plan: &Plan, room: &Room) -> Self {
        let mut materials = Materials::default();
        let stands = prepared.stands(plan).into_iter().filter_map(|stand| {
            let kind = prepared.kind_number(&plan.pieces[stand.number].kit)?;
            let name = kind_name(prepared.kit[kind].id());
            let doubt = (name, Spread::measured(stand.mean_absorption()));
            Some((doubt, stand.surface_m2()))
        });
        Self {
            walls: Surface::ALL.map(|surface| wall_doubts(prepared, plan, surface, &mut materials)),
            furnishings: furnishing_doubts(&prepared.scenario),
            stands: stands.collect(),
            materials: materials.doubts,
            model: MODEL_FURNISHED
                + (MODEL_EMPTY - MODEL_FURNISHED) * exp(-room.furniture_surface_m2 / FURNISHING_M2),
        }
    }

    /// The room as a draw has it.
    pub fn drawn(&self, central: &Room, deal: &Deal) -> Room {
        let mut room = central.clone();
        for (axis, name) in SIDES.into_iter().enumerate() {
            room.size_m[axis] += SIDE_M / EIGHT_IN_TEN * deal.normal(name);
        }
        let scattering = factor(deal, SCATTERING, SCATTERING_FACTOR);
        let size_effect = deal.uniform(SIZE_EFFECT);
        let materials = self.materials.iter();
        let materials: Vec<Banded> = materials.map(|doubt| value(doubt, deal)).collect();
        for ((surface, doubts), wall) in Surface::ALL
            .into_iter()
            .zip(&self.walls)
            .zip(&mut room.walls)
        {
            wall.extent = surface.extent(room.size_m);
            wall.bare.absorption = value(&doubts.bare, deal);
            for (part, doubt) in wall.parts.iter_mut().zip(&doubts.parts) {
                part.facing.absorption = value(doubt, deal);
            }
            for (piece, doubt) in wall.pieces.iter_mut().zip(&doubts.pieces) {
                piece.facing.absorption = materials[doubt.material] + doubt.gain * size_effect;
            }
            let patches = wall.parts.iter_mut().chain(&mut wall.pieces);
            for facing in patches
                .map(|patch| &mut patch.facing)
                .chain([&mut wall.bare])
            {
                facing.scattering = facing.scattering.map(|s| (s * scattering).min(1.0));
            }
        }
        room.furniture_absorption_m2 = self
            .furnishings
            .iter()
            .fold(Banded::constant(0.0), |sum, doubt| sum + value(doubt, deal));
        for (doubt, surface_m2) in &self.stands {
            room.furniture_absorption_m2 =
                room.furniture_absorption_m2 + value(doubt, deal) * *surface_m2;
        }
        room
    }

    /// Names of all that is drawn, each once.
    pub fn names(&self) -> Vec<String> {
        let walls = self.walls.iter();
        let finishes = walls.flat_map(|wall| std::iter::once(&wall.bare).chain(&wall.parts));
        let stands = self.stands.iter().map(|(doubt, _)| doubt);
        let things = finishes.chain(&self.furnishings).chain(stands);
        let things = things.chain(&self.materials).map(|(name, _)| name.as_str());
        let mut names: Vec<String> = Vec::new();
        for name in things.chain(SIDES).chain([SCATTERING, SIZE_EFFECT, MODEL]) {
            if !names.iter().any(|known| known == name) {
                names.push(name.to_owned());
            }
        }
        names
    }

    /// What the model's own error makes of a time in a draw.
    pub fn model_factor(&self, deal: &Deal) -> f64 {
        exp(self.model * deal.normal(MODEL))
    }
}

/// The figures of a thing in a draw.
fn value((name, spread): &Doubt, deal: &Deal) -> Banded {
    spread.at(deal.normal(name))
}

/// A factor that lies within `limit` either way, 8 times in 10.
fn factor(deal: &Deal, name: &str, limit: f64) -> f64 {
    exp(deal.normal(name) / EIGHT_IN_TEN * limit.ln())
}

/// What pieces are made of: a kind of the kit as it lies, hangs or stands. Draws go by the name of the kind, so that it moves
/// alike wherever it is.
#[derive(Clone, Debug, Default)]
struct Materials {
    of: Vec<(usize, Banded)>,
    doubts: Vec<Doubt>,
}

impl Materials {
    /// Number of the material of a kind with that absorption.
    fn number(&mut self, prepared: &Prepared, kind: usize, absorption: Banded) -> usize {
        let wanted = (kind, absorption);
        if let Some(number) = self.of.iter().position(|known| *known == wanted) {
            return number;
        }
        self.of.push(wanted);
        let name = kind_name(prepared.kit[kind].id());
        self.doubts.push((name, Spread::measured(absorption)));
        self.of.len() - 1
    }
}

fn wall_doubts(
    prepared: &Prepared,
    plan: &Plan,
    surface: Surface,
    materials: &mut Materials,
) -> WallDoubts {
    let facts = prepared.scenario.surface(surface);
    WallDoubts {
        bare: finish_doubt(&prepared.scenario, &facts.finish),
        parts: facts
            .parts
            .iter()
            .map(|part| finish_doubt(&prepared.scenario, &part.finish))
            .collect(),
        pieces: piece_doubts(prepared, plan, surface, materials),
    }
}

/// Of every patch of the wall, in order. Only pieces that lie flat have a size effect; for curtains and corner pieces none is
/// known.
fn piece_doubts(
    prepared: &Prepared,
    plan: &Plan,
    surface: Surface,
    materials: &mut Materials,
) -> Vec<PieceDoubt> {
    let mut doubts = Vec::new();
    let mut flat: (Vec<usize>, Vec<usize>, Vec<Rect>) = Default::default();
    for (number, patch) in prepared.pieces_on(surface, plan) {
        let piece = &plan.pieces[number];
        let Some(kind) = prepared.kind_number(&piece.kit) else {
            continue;
        };
        if matches!(piece.place, Place::Surface { .. }) {
            flat.0.push(doubts.len());
            flat.1.push(kind);
            flat.2.push(patch.rect);
        }
        doubts.push(PieceDoubt {
            material: materials.number(prepared, kind, patch.facing.absorption),
            gain: Banded::constant(0.0),
        });
    }
    let gains = size_gains(prepared, &flat.1, &flat.2);
    for (place, gain) in flat.0.into_iter().zip(gains) {
        doubts[place].gain = gain;
    }
    doubts
}

/// What the size of its group may add to each piece.
fn size_gains(prepared: &Prepared, kinds: &[usize], rects: &[Rect]) -> Vec<Banded> {
    let groups = finite_size::groups(rects, kinds);
    kinds
        .iter()
        .zip(groups)
        .map(|(&kind, group)| prepared.size_gain(kind, group))
        .collect()
}

/// A finish and how far off it may be.
fn finish_doubt(scenario: &Scenario, id: &str) -> Doubt {
    (finish_name(id), finish_spread(scenario, id))
}

/// Of each furnishing with its number.
fn furnishing_doubts(scenario: &Scenario) -> Vec<Doubt> {
    let items = scenario.room.furnishings.iter();
    items
        .filter_map(|item| {
            let spread = furnishing_spread(scenario, &item.kind, f64::from(item.count))?;
            Some((furnishing_name(&item.kind), spread))
        })
        .collect()
}
