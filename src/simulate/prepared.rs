//! A valid scenario, with what depends on its kit, its air and its building alone computed once.

use std::sync::Arc;

use crate::air::Air;
use crate::geometry::Surface;
use crate::room::Room;
use crate::scenario::document::{Kind, Place, Plan};
use crate::scenario::{Scenario, piece_rect};
use crate::surface::Patch;

use super::building::{Building, same_building};
use super::kit::KindFacts;

/// A valid scenario with what depends on its kit and its air alone, computed once.
#[derive(Clone, Debug)]
pub struct Prepared {
    pub(super) scenario: Scenario,
    pub(super) air: Air,
    pub(super) kit: Vec<KindFacts>,
    pub(super) building: Building,
}

impl Prepared {
    /// Prepares a valid scenario.
    #[must_use]
    pub fn new(scenario: Scenario) -> Self {
        Self::after(scenario, None)
    }

    /// Prepares a valid scenario, taking over what an earlier one already computed for the same kinds in the same air.
    #[must_use]
    pub fn after(scenario: Scenario, before: Option<&Self>) -> Self {
        let air = Air::at(
            scenario.room.temperature_c.unwrap_or(20.0),
            scenario.room.humidity_percent.unwrap_or(50.0),
        );
        let known = before
            .filter(|before| before.air == air)
            .map_or(&[][..], |before| &before.kit);
        let facts = |kind: &Kind| {
            known
                .iter()
                .find(|facts| facts.kind == *kind)
                .cloned()
                .unwrap_or_else(|| KindFacts::of(kind, &air))
        };
        let kit = scenario.kit.iter().map(facts).collect();
        let same = before.filter(|before| same_building(&before.scenario, &scenario));
        let building =
            same.map_or_else(|| Building::of(&scenario), |before| before.building.clone());
        Self {
            scenario,
            air,
            kit,
            building,
        }
    }

    /// The scenario.
    #[must_use]
    pub fn scenario(&self) -> &Scenario {
        &self.scenario
    }

    /// The kinds of its kit.
    #[must_use]
    pub fn kit(&self) -> &[KindFacts] {
        &self.kit
    }

    /// The room with one plan's pieces in it.
    pub(super) fn room(&self, plan: &Plan) -> Room {
        let mut walls = self.building.walls.clone();
        for (surface, wall) in Surface::ALL.into_iter().zip(&mut walls) {
            wall.pieces = self
                .pieces_on(surface, plan)
                .map(|(_, patch)| patch)
                .collect();
        }
        Room {
            size_m: self.scenario.room.size_m(),
            air: self.air,
            walls,
            furniture_absorption_m2: self.building.furniture_absorption_m2,
            furniture_surface_m2: self.building.furniture_surface_m2,
        }
    }

    /// The plan's pieces on a surface that are computed, each with its index in the plan.
    pub(super) fn pieces_on<'a>(
        &'a self,
        surface: Surface,
        plan: &'a Plan,
    ) -> impl Iterator<Item = (usize, Patch)> + 'a {
        plan.pieces
            .iter()
            .enumerate()
            .filter_map(move |(i, piece)| {
                let (on, rect) = piece_rect(&self.scenario, piece)
                    .filter(|_| matches!(piece.place, Place::Surface { .. }))?;
                let facts = self.kit.iter().find(|facts| facts.kind.id == piece.kit)?;
                let patch = || Patch {
                    rect,
                    facing: facts.facing,
                    depth_m: facts.depth_m,
                    front: Some(Arc::clone(&facts.front)),
                };
                (on == surface).then(|| (i, patch()))
            })
    }
}
