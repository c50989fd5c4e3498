//! A valid scenario, with what depends on its kit, its air and its building alone computed once.

use std::sync::Arc;

use glam::DVec3;

use crate::air::Air;
use crate::bands::Banded;
use crate::geometry::{Rect, Surface};
use crate::room::Room;
use crate::scenario::Scenario;
use crate::scenario::document::{Kind, Piece, Place, Plan};
use crate::surface::Patch;

use super::building::{Building, same_building};
use super::builds::Builds;
use super::fit::{Checked, Fit};
use super::kit::KindFacts;
use super::stand::{self, Stand};
use super::{corner, curtain};

/// A valid scenario with what depends on its kit and its air alone, computed once.
#[derive(Clone, Debug)]
pub struct Prepared {
    pub(super) scenario: Scenario,
    pub(super) air: Air,
    pub(super) kit: Vec<KindFacts>,
    /// Of each kind of the kit, what it does off a surface.
    builds: Vec<Builds>,
    pub(super) building: Building,
    /// Middles that a check-up taught, by name.
    pub(super) means: Arc<[(String, f64)]>,
    /// The check-up of this very document, once it is made.
    pub(super) checked: Option<Arc<Checked>>,
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
        let known = before.filter(|before| before.air == air);
        let (kit, builds) = scenario
            .kit
            .iter()
            .map(|kind| kept(known, kind, &air))
            .unzip();
        let same = before.filter(|before| same_building(&before.scenario, &scenario));
        let building =
            same.map_or_else(|| Building::of(&scenario), |before| before.building.clone());
        let kept = before.filter(|before| same_checkup(before, &scenario));
        Self {
            scenario,
            air,
            kit,
            builds,
            building,
            means: kept.map_or_else(|| Arc::from([]), |before| Arc::clone(&before.means)),
            checked: kept.and_then(|before| before.checked.clone()),
        }
    }

    /// The scenario.
    #[must_use]
    pub fn scenario(&self) -> &Scenario {
        &self.scenario
    }

    /// What the check-up taught; none before [`Prepared::check_up`], or if nothing of it is used.
    pub(super) fn fit(&self) -> Option<Arc<Fit>> {
        self.checked.as_ref()?.fit.clone()
    }

    /// The kinds of its kit.
    #[must_use]
    pub fn kit(&self) -> &[KindFacts] {
        &self.kit
    }

    /// The room as it is described with one plan's pieces in it; screens that stand free count like furniture.
    pub(super) fn described_room(&self, plan: &Plan) -> Room {
        let mut walls = self.building.walls.clone();
        for (surface, wall) in Surface::ALL.into_iter().zip(&mut walls) {
            wall.pieces = self
                .pieces_on(surface, plan)
                .map(|(_, patch)| patch)
                .collect();
        }
        let mut room = Room {
            size_m: self.scenario.room.size_m(),
            air: self.air,
            walls,
            furniture_absorption_m2: self.building.furniture_absorption_m2,
            furniture_surface_m2: self.building.furniture_surface_m2,
        };
        for stand in self.stands(plan) {
            room.furniture_absorption_m2 = room.furniture_absorption_m2 + stand.absorption_m2();
            room.furniture_surface_m2 += stand.surface_m2();
        }
        room
    }

    /// What the plan's pieces cover of a surface, each patch with the index of its piece in the plan. A corner piece lies on two
    /// walls; of a curtain there may be a drawn and a gathered part; a stand covers nothing.
    pub(super) fn pieces_on<'a>(
        &'a self,
        surface: Surface,
        plan: &'a Plan,
    ) -> impl Iterator<Item = (usize, Patch)> + 'a {
        let numbered = plan.pieces.iter().enumerate();
        numbered.flat_map(move |(number, piece)| {
            let patches = self.patches(surface, piece).into_iter();
            patches.map(move |patch| (number, patch))
        })
    }

    /// What one piece covers of a surface.
    fn patches(&self, surface: Surface, piece: &Piece) -> Vec<Patch> {
        let Some(number) = self.kind_number(&piece.kit) else {
            return Vec::new();
        };
        let facts = &self.kit[number];
        match piece.place {
            Place::Surface {
                surface: on,
                u_m,
                v_m,
                turned,
            } if on == surface => vec![patch(facts, facts.kind.rect(u_m, v_m, turned))],
            Place::Curtain {
                surface: on,
                u_m,
                v_m,
                open,
            } if on == surface => curtain::rects(facts.kind.rect(u_m, v_m, false), open)
                .into_iter()
                .map(|(rect, folds)| {
                    patch(
                        self.builds[number].hung(&facts.kind, folds, &self.air),
                        rect,
                    )
                })
                .collect(),
            Place::Corner { edge, z_m }
                if edge.walls().iter().any(|(wall, _)| *wall == surface) =>
            {
                let size_m = self.scenario.room.size_m();
                vec![Patch {
                    depth_m: corner::depth_m(&facts.kind),
                    ..patch(facts, corner::rect(edge, surface, z_m, &facts.kind, size_m))
                }]
            }
            _ => Vec::new(),
        }
    }

    /// What the size of a group of pieces of one kind may add to their absorption; kept by size.
    pub(super) fn size_gain(&self, kind: usize, group: Rect) -> Banded {
        self.builds[kind].size_gain(&self.kit[kind], group, &self.air)
    }

    /// The plan's screens that stand free.
    pub(super) fn stands(&self, plan: &Plan) -> Vec<Stand> {
        let numbered = plan.pieces.iter().enumerate();
        numbered
            .filter_map(|(number, piece)| self.stand(number, piece))
            .collect()
    }

    fn stand(&self, number: usize, piece: &Piece) -> Option<Stand> {
        let Place::Stand {
            x_m,
            y_m,
            z_m,
            turn_deg,
        } = piece.place
        else {
            return None;
        };
        let of = self.kind_number(&piece.kit)?;
        let kind = &self.kit[of].kind;
        let free = self.builds[of].free(kind, &self.air);
        Some(Stand {
            number,
            plate: stand::plate(kind, DVec3::new(x_m, y_m, z_m), turn_deg),
            depth_m: free.depth_m,
            faces: free.faces.clone(),
        })
    }

    /// Number in the kit of the kind of that name.
    pub(super) fn kind_number(&self, id: &str) -> Option<usize> {
        self.kit.iter().position(|facts| facts.id() == id)
    }
}

/// Whether the check-up of an earlier document is that of this one too: likely causes look at every plan, a fit only at the
/// measured ones.
fn same_checkup(before: &Prepared, scenario: &Scenario) -> bool {
    let Some(checked) = &before.checked else {
        return false;
    };
    let known = &before.scenario;
    let is_measured = |plan: &&Plan| {
        let mut measured = scenario.measured.iter();
        measured.any(|entry| entry.plan == plan.name)
    };
    let plans = |of: &'_ Scenario| -> Vec<(String, Vec<Piece>)> {
        let plans = of.plans.iter().filter(is_measured);
        plans
            .map(|plan| (plan.name.clone(), plan.pieces.clone()))
            .collect()
    };
    checked.report.causes.is_empty()
        && known.measured == scenario.measured
        && known.kit == scenario.kit
        && same_building(known, scenario)
        && plans(known) == plans(scenario)
}

/// The facts of a kind, taken over where they are known.
fn kept(known: Option<&Prepared>, kind: &Kind, air: &Air) -> (KindFacts, Builds) {
    let found = known.and_then(|known| {
        let number = known.kit.iter().position(|facts| facts.kind == *kind)?;
        Some((known.kit[number].clone(), known.builds[number].clone()))
    });
    found.unwrap_or_else(|| (KindFacts::of(kind, air), Builds::default()))
}

/// A kind of kit laid over a rectangle.
fn patch(facts: &KindFacts, rect: Rect) -> Patch {
    Patch {
        rect,
        facing: facts.facing,
        depth_m: facts.depth_m,
        front: Some(Arc::clone(&facts.front)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scenario;
    use crate::simulate::Draws;

    #[test]
    fn gains_of_groups_are_taken_over_for_the_same_kind_in_the_same_air() {
        let text = include_str!("../../scenarios/long-terrace-room.json");
        let read = || scenario::from_json(text).expect("the demo room is valid");
        let before = Prepared::new(read());
        let _ = Draws::start(&before, 1);
        assert!(before.builds.iter().any(Builds::knows_a_size));
        let mut moved = read();
        moved.plans[1].pieces.pop();
        let after = Prepared::after(moved, Some(&before));
        let knows =
            |of: &Prepared| -> Vec<bool> { of.builds.iter().map(Builds::knows_a_size).collect() };
        assert_eq!(knows(&after), knows(&before));
        let mut warmer = read();
        warmer.room.temperature_c = Some(25.0);
        let warmer = Prepared::after(warmer, Some(&before));
        assert!(!warmer.builds.iter().any(Builds::knows_a_size));
    }
}
