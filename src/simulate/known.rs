//! The room of a plan as far as it is known: as described, moved to the middles that a check-up taught.

use crate::bands::Banded;
use crate::geometry::Surface;
use crate::room::Room;
use crate::scenario::document::Plan;
use crate::spread::Spread;

use super::deal::Deal;
use super::prepared::Prepared;
use super::spreads::{finish_name, finish_spread, furnishing_name, furnishing_spread, kind_name};

impl Prepared {
    /// The room with one plan's pieces in it.
    pub(super) fn room(&self, plan: &Plan) -> Room {
        let mut room = self.described_room(plan);
        if !self.means.is_empty() {
            let deal = Deal::middle(&self.means);
            self.move_walls(&mut room, plan, &deal);
            room.furniture_absorption_m2 = self.furniture(plan, &deal);
        }
        room
    }

    /// Bare surfaces, parts and pieces.
    fn move_walls(&self, room: &mut Room, plan: &Plan, deal: &Deal) {
        let finish = |id: &str| finish_spread(&self.scenario, id).at(deal.normal(&finish_name(id)));
        for (surface, wall) in Surface::ALL.into_iter().zip(&mut room.walls) {
            let facts = self.scenario.surface(surface);
            wall.bare.absorption = finish(&facts.finish);
            for (part, facts) in wall.parts.iter_mut().zip(&facts.parts) {
                part.facing.absorption = finish(&facts.finish);
            }
            let kinds = self
                .pieces_on(surface, plan)
                .map(|(number, _)| &plan.pieces[number].kit);
            for (piece, kind) in wall.pieces.iter_mut().zip(kinds) {
                let absorption = &mut piece.facing.absorption;
                *absorption = Spread::measured(*absorption).at(deal.normal(&kind_name(kind)));
            }
        }
    }

    /// Absorption area of what stands free, m².
    fn furniture(&self, plan: &Plan, deal: &Deal) -> Banded {
        let items = self.scenario.room.furnishings.iter().filter_map(|item| {
            let spread = furnishing_spread(&self.scenario, &item.kind, f64::from(item.count))?;
            Some(spread.at(deal.normal(&furnishing_name(&item.kind))))
        });
        let stands = self.stands(plan).into_iter().map(|stand| {
            let name = kind_name(&plan.pieces[stand.number].kit);
            Spread::measured(stand.mean_absorption()).at(deal.normal(&name)) * stand.surface_m2()
        });
        items
            .chain(stands)
            .fold(Banded::constant(0.0), |sum, area_m2| sum + area_m2)
    }
}
