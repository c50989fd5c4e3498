//! How much each thing in the room absorbs: surfaces, parts, kinds of pieces, furnishings, air.

use crate::bands::Banded;
use crate::finish;
use crate::furnishing;
use crate::geometry::Surface;
use crate::report::{AbsorberReport, Absorbing};
use crate::room::Room;
use crate::scenario::document::{Furnished, Plan, Role};
use crate::surface::{Patch, Wall};

use super::furniture::one;
use super::prepared::Prepared;

impl Prepared {
    /// The equivalent absorption area of everything, in the order of the document; they sum up to that of the room.
    pub(super) fn absorbers(&self, room: &Room, plan: &Plan) -> Vec<AbsorberReport> {
        let surfaces = Surface::ALL.into_iter();
        let building = surfaces.flat_map(|surface| self.surface_absorbers(room, surface));
        let furnishings = self.scenario.room.furnishings.iter();
        let air_m2 = room.air.attenuation_per_m * (4.0 * room.volume_m3());
        building
            .chain(self.piece_absorbers(plan))
            .chain(furnishings.filter_map(|item| self.furnishing_absorber(item)))
            .chain([absorber(Absorbing::Air, "Air".to_owned(), air_m2)])
            .collect()
    }

    /// What is bare of a surface, and its parts.
    fn surface_absorbers(&self, room: &Room, surface: Surface) -> Vec<AbsorberReport> {
        let (wall, facts) = (room.wall(surface), self.scenario.surface(surface));
        let visible_m2: Vec<f64> = wall
            .parts
            .iter()
            .map(|part| visible_m2(wall, part))
            .collect();
        let bare_m2 = wall.extent.area_m2() - wall.piece_area_m2() - visible_m2.iter().sum::<f64>();
        let named = |thing: &str, finish: &str| {
            let of = self.finish_name(finish);
            format!("{thing}, {}", lower_first(of))
        };
        let bare = absorber(
            Absorbing::Surface,
            named(surface.in_words(), &facts.finish),
            wall.bare.absorption * bare_m2,
        );
        let parts = facts.parts.iter().zip(&wall.parts).zip(visible_m2);
        let parts = parts.map(|((facts, part), area_m2)| {
            let thing = format!(
                "{} in the {}",
                role_in_words(facts.role),
                surface.in_words()
            );
            absorber(
                Absorbing::Part,
                named(&thing, &facts.finish),
                part.facing.absorption * area_m2,
            )
        });
        std::iter::once(bare).chain(parts).collect()
    }

    /// Each kind of piece, all of its pieces together.
    fn piece_absorbers(&self, plan: &Plan) -> Vec<AbsorberReport> {
        let mut areas_m2: Vec<Option<Banded>> = vec![None; self.kit.len()];
        let mut add = |number: usize, area_m2: Banded| {
            let kind = self.kind_number(&plan.pieces[number].kit);
            if let Some(sum) = kind.map(|kind| &mut areas_m2[kind]) {
                *sum = Some(sum.map_or(area_m2, |sum| sum + area_m2));
            }
        };
        for surface in Surface::ALL {
            for (number, patch) in self.pieces_on(surface, plan) {
                add(number, patch.facing.absorption * patch.rect.area_m2());
            }
        }
        for stand in self.stands(plan) {
            add(stand.number, stand.absorption_m2());
        }
        let kinds = self.kit.iter().zip(areas_m2);
        kinds
            .filter_map(|(facts, area_m2)| {
                Some(absorber(
                    Absorbing::Piece,
                    facts.kind.name.clone(),
                    area_m2?,
                ))
            })
            .collect()
    }

    /// A furnishing, as many as there are of it.
    fn furnishing_absorber(&self, item: &Furnished) -> Option<AbsorberReport> {
        let (absorption_m2, _) = one(&self.scenario, &item.kind)?;
        let own = self.scenario.own_furnishings.iter();
        let name = own
            .filter(|own| own.id == item.kind)
            .map(|own| own.name.as_str())
            .next()
            .or_else(|| furnishing::furnishing(&item.kind).map(|kind| kind.name))?;
        Some(absorber(
            Absorbing::Furnishing,
            name.to_owned(),
            absorption_m2 * f64::from(item.count),
        ))
    }

    /// Name of a finish for people.
    fn finish_name<'a>(&'a self, id: &'a str) -> &'a str {
        let own = self.scenario.own_finishes.iter().find(|own| own.id == id);
        own.map(|own| own.name.as_str())
            .or_else(|| finish::finish(id).map(|finish| finish.name))
            .unwrap_or(id)
    }
}

fn absorber(what: Absorbing, name: String, area_m2: Banded) -> AbsorberReport {
    AbsorberReport {
        what,
        name,
        area_m2: area_m2.into(),
    }
}

/// Area of a part that no piece covers, m².
fn visible_m2(wall: &Wall, part: &Patch) -> f64 {
    let covered = wall
        .pieces
        .iter()
        .map(|piece| part.rect.overlap_m2(piece.rect));
    part.rect.area_m2() - covered.sum::<f64>()
}

/// A part by its role, in sentences.
pub(super) fn role_in_words(role: Role) -> &'static str {
    match role {
        Role::Wall => "piece of wall",
        Role::Door => "door",
        Role::Window => "window",
        Role::Opening => "opening",
        Role::BuiltIn => "built-in",
    }
}

/// A name as it stands within a sentence.
pub(super) fn lower_first(name: &str) -> String {
    let mut letters = name.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_lowercase().chain(letters).collect()
    })
}
