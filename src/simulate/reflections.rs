//! The early reflections of a plan, as the report lists them.

use crate::bands::Banded;
use crate::directivity::{Directivity, axis};
use crate::early::{Direct, Early, Source, SourceEarly, Zone, early};
use crate::report::{DipReport, ReflectionReport, ZoneReport};
use crate::room::Room;
use crate::scenario::document::{Loudspeaker, Plan};
use crate::seat::comb_dips;

use super::memory::Memory;
use super::prepared::Prepared;

impl Prepared {
    /// The loudspeakers of a plan as the physics takes them.
    pub(super) fn sources(&self, plan: &Plan) -> Vec<Source> {
        let width_m = self.scenario.room.width_m;
        let loudspeakers = &self.scenario.listening_of(plan).loudspeakers;
        loudspeakers
            .iter()
            .map(|loudspeaker| source(loudspeaker, width_m))
            .collect()
    }

    /// What every loudspeaker of a plan sends to the seat early; nothing without a seat.
    pub(super) fn sounds(
        &self,
        room: &Room,
        plan: &Plan,
        sources: &[Source],
        memory: &mut Memory,
    ) -> Vec<SourceEarly> {
        let seat = self.scenario.listening_of(plan).seat;
        seat.map_or_else(Vec::new, |seat| {
            early(room, sources, seat.point_m(), &mut memory.early)
        })
    }

    /// The reflections of first and second order that the report lists, one loudspeaker after the other.
    pub(super) fn reflections(&self, plan: &Plan, sounds: &[SourceEarly]) -> Vec<ReflectionReport> {
        let of_one = |(loudspeaker, sound): (usize, &SourceEarly)| {
            let listed = sound.reflections.iter();
            listed
                .filter(|early| early.path.order() <= LISTED_ORDER)
                .map(|early| self.reflection(loudspeaker, early, &sound.direct, plan))
                .collect::<Vec<_>>()
        };
        sounds.iter().enumerate().flat_map(of_one).collect()
    }

    /// One reflection for the report, with the plan's own numbers of the pieces under it; parts of first order only, whose
    /// numbers are of one surface.
    fn reflection(
        &self,
        loudspeaker: usize,
        early: &Early,
        direct: &Direct,
        plan: &Plan,
    ) -> ReflectionReport {
        let mut pieces = Vec::new();
        for (surface, under) in early.path.surfaces().zip(&early.under) {
            let numbers: Vec<usize> = self
                .pieces_on(surface, plan)
                .map(|(number, _)| number)
                .collect();
            pieces.extend(under.pieces.iter().map(|&on_wall| numbers[on_wall]));
        }
        let level_db = early.level_db(direct);
        let first_order = early.path.order() == 1;
        ReflectionReport {
            loudspeaker,
            order: early.path.order(),
            surfaces: early.path.surfaces().collect(),
            points_m: early
                .path
                .points_m()
                .map(|point_m| point_m.to_array())
                .collect(),
            distance_m: early.path.distance_m,
            delay_s: early.delay_s,
            level_db: level_db.into(),
            direction: early.path.direction.to_array(),
            pieces,
            parts: if first_order {
                early.under[0].parts.clone()
            } else {
                Vec::new()
            },
            zones: early.zone.iter().map(zone_report).collect(),
            dips: if first_order {
                dips(early.delay_s, &level_db)
            } else {
                Vec::new()
            },
        }
    }
}

/// Highest order of the reflections that the report lists.
const LISTED_ORDER: usize = 2;

fn zone_report(zone: &Zone) -> ZoneReport {
    ZoneReport {
        semi_along_m: zone.semi_along_m,
        semi_across_m: zone.semi_across_m,
        along: [zone.along.0, zone.along.1],
    }
}

/// The dips of a reflection alone.
fn dips(delay_s: f64, level_db: &Banded) -> Vec<DipReport> {
    let found = comb_dips(delay_s, level_db).into_iter();
    found
        .map(|dip| DipReport {
            frequency_hz: dip.frequency_hz,
            depth_db: dip.depth_db,
        })
        .collect()
}

/// A loudspeaker of the document as the physics takes it; an ordinary one without toe-in where nothing is said.
fn source(loudspeaker: &Loudspeaker, width_m: f64) -> Source {
    let toe_in_deg = loudspeaker.toe_in_deg.unwrap_or(0.0);
    Source {
        position_m: loudspeaker.spot.point_m(),
        axis: axis(loudspeaker.spot.x_m, width_m, toe_in_deg),
        directivity: loudspeaker.directivity.unwrap_or(Directivity::Ordinary),
    }
}
