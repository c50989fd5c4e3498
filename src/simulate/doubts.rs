//! What is not known about a room, and the room as one draw has it.

use crate::bands::Banded;
use crate::chance::{Draw, EIGHT_IN_TEN};
use crate::finish::{self, octaves_to_bands};
use crate::finite_size;
use crate::furnishing;
use crate::geometry::{Rect, Surface};
use crate::numeric::exp;
use crate::room::Room;
use crate::scenario::Scenario;
use crate::scenario::document::{Place, Plan};
use crate::spread::Spread;

use super::kit::{banded, values};
use super::prepared::Prepared;

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
            let name = kind_name(prepared, kind);
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
    pub fn drawn(&self, central: &Room, draw: &Draw) -> Room {
        let mut room = central.clone();
        for (axis, name) in ["width", "length", "height"].into_iter().enumerate() {
            room.size_m[axis] += SIDE_M / EIGHT_IN_TEN * draw.normal(name);
        }
        let scattering = factor(draw, "scattering", SCATTERING_FACTOR);
        let size_effect = draw.uniform("size effect");
        let materials = self.materials.iter();
        let materials: Vec<Banded> = materials.map(|doubt| value(doubt, draw)).collect();
        for ((surface, doubts), wall) in Surface::ALL
            .into_iter()
            .zip(&self.walls)
            .zip(&mut room.walls)
        {
            wall.extent = surface.extent(room.size_m);
            wall.bare.absorption = value(&doubts.bare, draw);
            for (part, doubt) in wall.parts.iter_mut().zip(&doubts.parts) {
                part.facing.absorption = value(doubt, draw);
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
            .fold(Banded::constant(0.0), |sum, doubt| sum + value(doubt, draw));
        for (doubt, surface_m2) in &self.stands {
            room.furniture_absorption_m2 =
                room.furniture_absorption_m2 + value(doubt, draw) * *surface_m2;
        }
        room
    }

    /// What the model's own error makes of a time in a draw.
    pub fn model_factor(&self, draw: &Draw) -> f64 {
        exp(self.model * draw.normal("model"))
    }
}

/// The figures of a thing in a draw.
fn value((name, spread): &Doubt, draw: &Draw) -> Banded {
    spread.at(draw.normal(name))
}

/// A factor that lies within `limit` either way, 8 times in 10.
fn factor(draw: &Draw, name: &str, limit: f64) -> f64 {
    exp(draw.normal(name) / EIGHT_IN_TEN * limit.ln())
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
        let name = kind_name(prepared, kind);
        self.doubts.push((name, Spread::measured(absorption)));
        self.of.len() - 1
    }
}

/// Name under which a kind is drawn.
fn kind_name(prepared: &Prepared, kind: usize) -> String {
    format!("kind {}", prepared.kit[kind].id())
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

/// What the size of its group may add to each piece; groups of one size are computed once.
fn size_gains(prepared: &Prepared, kinds: &[usize], rects: &[Rect]) -> Vec<Banded> {
    let mut known: Vec<(usize, Rect, Banded)> = Vec::new();
    let mut gain = |kind: usize, group: Rect| {
        let same = |(of, rect, _): &&(usize, Rect, Banded)| {
            *of == kind && (rect.width_m, rect.height_m) == (group.width_m, group.height_m)
        };
        if let Some((_, _, gain)) = known.iter().find(same) {
            return *gain;
        }
        let gain = prepared.kit[kind].size_gain(group, &prepared.air);
        known.push((kind, group, gain));
        gain
    };
    let groups = finite_size::groups(rects, kinds);
    kinds
        .iter()
        .zip(groups)
        .map(|(&kind, group)| gain(kind, group))
        .collect()
}

/// A finish of the library with its published rows, or one of the user's own with the doubt of any measurement.
fn finish_doubt(scenario: &Scenario, id: &str) -> Doubt {
    let name = format!("finish {id}");
    let own = scenario.own_finishes.iter().find(|own| own.id == id);
    let spread = own
        .map(|own| Spread::measured(values(&own.values)))
        .or_else(|| {
            finish::finish(id).map(|finish| {
                let [low, typical, high] =
                    [&finish.low, &finish.typical, &finish.high].map(octaves_to_bands);
                Spread::between(low, typical, high)
            })
        });
    (
        name,
        spread.unwrap_or(Spread::measured(Banded::constant(0.0))),
    )
}

/// Of each furnishing with its number.
fn furnishing_doubts(scenario: &Scenario) -> Vec<Doubt> {
    let doubt = |item: &crate::scenario::document::Furnished| {
        let count = f64::from(item.count);
        let own = scenario
            .own_furnishings
            .iter()
            .find(|own| own.id == item.kind);
        let spread = own
            .map(|own| {
                Spread::factor(
                    banded(&own.bands_hz, &own.absorption_area_m2) * count,
                    OWN_FURNISHING,
                )
            })
            .or_else(|| {
                furnishing::furnishing(&item.kind)
                    .map(|kind| Spread::factor(kind.absorption_area() * count, kind.spread))
            })?;
        Some((format!("furnishing {}", item.kind), spread))
    };
    scenario.room.furnishings.iter().filter_map(doubt).collect()
}

/// A figure that the user typed for a thing may be this many times larger or smaller. Common practice, no source.
const OWN_FURNISHING: f64 = 1.3;
