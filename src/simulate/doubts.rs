//! What is not known about a room, and the room as one draw has it.

use crate::bands::Banded;
use crate::chance::{Draw, EIGHT_IN_TEN};
use crate::finish::{self, octaves_to_bands};
use crate::furnishing;
use crate::geometry::Surface;
use crate::numeric::exp;
use crate::room::Room;
use crate::scenario::Scenario;
use crate::scenario::document::Plan;
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
    kinds: Vec<Doubt>,
    model: f64,
}

/// Of one wall: its finish, those of its parts, and the kind of each of its pieces.
#[derive(Clone, Debug)]
struct WallDoubts {
    bare: Doubt,
    parts: Vec<Doubt>,
    kinds: Vec<usize>,
}

impl Doubts {
    pub fn of(prepared: &Prepared, plan: &Plan, room: &Room) -> Self {
        let scenario = &prepared.scenario;
        let kinds = prepared.kit.iter().map(|facts| {
            let name = format!("kind {}", facts.id());
            (name, Spread::measured(facts.facing.absorption))
        });
        Self {
            walls: Surface::ALL.map(|surface| wall_doubts(prepared, plan, surface)),
            furnishings: furnishing_doubts(scenario),
            kinds: kinds.collect(),
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
        let kinds: Vec<Banded> = self.kinds.iter().map(|kind| value(kind, draw)).collect();
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
            for (piece, kind) in wall.pieces.iter_mut().zip(&doubts.kinds) {
                piece.facing.absorption = kinds[*kind];
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

fn wall_doubts(prepared: &Prepared, plan: &Plan, surface: Surface) -> WallDoubts {
    let facts = prepared.scenario.surface(surface);
    let kind_of = |number: usize| {
        let id = &plan.pieces[number].kit;
        prepared.kit.iter().position(|facts| facts.id() == id)
    };
    WallDoubts {
        bare: finish_doubt(&prepared.scenario, &facts.finish),
        parts: facts
            .parts
            .iter()
            .map(|part| finish_doubt(&prepared.scenario, &part.finish))
            .collect(),
        kinds: prepared
            .pieces_on(surface, plan)
            .filter_map(|(number, _)| kind_of(number))
            .collect(),
    }
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
