//! The room of a scenario without any kit: its walls with their parts, and its furniture.

use crate::bands::Banded;
use crate::finish;
use crate::geometry::Surface;
use crate::scenario::Scenario;
use crate::surface::{Facing, Patch, Wall};

use super::furniture::{Placed, one, placed};
use super::kit::{scattering, values};

/// The room without any kit: what depends on its facts and the user's own figures alone.
#[derive(Clone, Debug)]
pub(super) struct Building {
    pub walls: [Wall; 6],
    pub furniture_absorption_m2: Banded,
    pub furniture_surface_m2: f64,
    /// Furniture that has a place.
    pub placed: Vec<Placed>,
}

impl Building {
    pub fn of(scenario: &Scenario) -> Self {
        let (furniture_absorption_m2, furniture_surface_m2) = furniture(scenario);
        Self {
            walls: Surface::ALL.map(|surface| bare_wall(scenario, surface)),
            furniture_absorption_m2,
            furniture_surface_m2,
            placed: placed(scenario),
        }
    }
}

/// Whether two scenarios describe the same room, kit and plans apart.
pub(super) fn same_building(a: &Scenario, b: &Scenario) -> bool {
    a.room == b.room && a.own_finishes == b.own_finishes && a.own_furnishings == b.own_furnishings
}

/// One wall with its parts and no pieces.
fn bare_wall(scenario: &Scenario, surface: Surface) -> Wall {
    let facts = scenario.surface(surface);
    let parts = facts.parts.iter().map(|part| Patch {
        depth_m: part.depth_m.unwrap_or(0.0),
        ..Patch::flat(part.rect, finish_facing(scenario, &part.finish))
    });
    Wall {
        extent: surface.extent(scenario.room.size_m()),
        bare: finish_facing(scenario, &facts.finish),
        parts: parts.collect(),
        pieces: Vec::new(),
    }
}

/// What a wave meets on a finish of the library or of the user's own.
fn finish_facing(scenario: &Scenario, id: &str) -> Facing {
    let own = scenario.own_finishes.iter().find(|own| own.id == id);
    own.map(|own| Facing {
        absorption: values(&own.values),
        scattering: scattering(own.scattering.as_ref(), &own.values.bands_hz),
    })
    .or_else(|| {
        finish::finish(id).map(|finish| Facing {
            absorption: finish.absorption(),
            scattering: finish.scattering(),
        })
    })
    .unwrap_or(Facing {
        absorption: Banded::constant(0.0),
        scattering: Banded::constant(0.0),
    })
}

/// Absorption area and surface of all furniture that stands free, m².
fn furniture(scenario: &Scenario) -> (Banded, f64) {
    let mut sum = (Banded::constant(0.0), 0.0);
    for item in &scenario.room.furnishings {
        if let Some((absorption_m2, surface_m2)) = one(scenario, &item.kind) {
            let count = f64::from(item.count);
            sum = (sum.0 + absorption_m2 * count, sum.1 + surface_m2 * count);
        }
    }
    sum
}
