//! The early reflections of a plan, as the report lists them.

use crate::image_source::{self, Reflection};
use crate::report::ReflectionReport;
use crate::room::Room;
use crate::scenario::document::{Loudspeaker, Plan};

use super::prepared::Prepared;

impl Prepared {
    /// First-order reflections of every loudspeaker at the seat; none without a seat.
    pub(super) fn reflections(&self, room: &Room, plan: &Plan) -> Vec<ReflectionReport> {
        let listening = self.scenario.listening_of(plan);
        let Some(seat) = listening.seat else {
            return Vec::new();
        };
        let of_one = |(loudspeaker, source): (usize, &Loudspeaker)| {
            let found = image_source::first_order(room, source.spot.point_m(), seat.point_m());
            found
                .into_iter()
                .map(move |reflection| self.reflection(loudspeaker, reflection, plan))
        };
        listening
            .loudspeakers
            .iter()
            .enumerate()
            .flat_map(of_one)
            .collect()
    }

    /// One reflection for the report, with the plan's own numbers of the pieces under it.
    fn reflection(
        &self,
        loudspeaker: usize,
        reflection: Reflection,
        plan: &Plan,
    ) -> ReflectionReport {
        let path = reflection.path;
        let numbers: Vec<usize> = self
            .pieces_on(path.surface, plan)
            .map(|(number, _)| number)
            .collect();
        ReflectionReport {
            loudspeaker,
            order: 1,
            surfaces: vec![path.surface],
            points_m: vec![path.point_m.to_array()],
            distance_m: path.distance_m,
            delay_s: reflection.delay_s,
            level_db: reflection.level_db.into(),
            direction: path.direction.to_array(),
            pieces: reflection
                .under
                .pieces
                .iter()
                .map(|&on_wall| numbers[on_wall])
                .collect(),
            parts: reflection.under.parts,
        }
    }
}
