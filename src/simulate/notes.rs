//! What a person has to know beside the figures, in plain words.

use crate::room::Room;
use crate::scenario::document::{Kind, Loudspeaker, MadeOf, Place, Plan, Role};

use super::odd::odd_words;
use super::prepared::Prepared;

impl Prepared {
    /// What the model does not cover here, in plain words.
    pub(super) fn notes(
        &self,
        room: &Room,
        plan: &Plan,
        statistics_from_hz: Option<f64>,
    ) -> Vec<String> {
        let mut notes = Vec::new();
        if let Some(from_hz) = statistics_from_hz {
            notes.push(format!(
                "Below about {from_hz:.0} Hz this room rings at separate notes; one decay time does not describe it there."
            ));
        }
        notes.extend(places_in_words(plan));
        notes.extend(self.above_its_face(plan));
        notes.extend(self.before_the_seat(plan));
        notes.extend(self.beyond_the_box(room));
        let odd = odd_words(room, &self.scenario.room.conditions);
        notes.extend(odd.into_iter().map(str::to_owned));
        if self.sits_at_a_loudspeaker(plan) {
            notes.push("The seat is nearer than 0.5 m to a loudspeaker: the direct sound there is not what this model takes it for.".to_owned());
        }
        notes
    }

    /// What is in this room that the model of a box leaves out.
    fn beyond_the_box(&self, room: &Room) -> Vec<String> {
        let parts = || {
            let surfaces = self.scenario.room.surfaces.iter();
            surfaces.flat_map(|surface| &surface.parts)
        };
        let rules = [
            (
                parts().any(|part| part.role == Role::Opening),
                "What comes back through an opening from the space behind it is left out.",
            ),
            (
                room.furniture_surface_m2 > 0.0,
                "Furniture takes and scatters sound on the whole; only flat tops and fronts of things with a place throw back a bounce of their own, and what stands in the way of a bounce is named but taken off on the mean.",
            ),
            (
                room.furniture_surface_m2 <= 0.0,
                "Without furniture the answer hangs on how uneven the walls are: expect a wide range.",
            ),
        ];
        let applying = rules.into_iter().filter(|(applies, _)| *applies);
        applying.map(|(_, words)| words.to_owned()).collect()
    }

    /// Kinds of the plan whose data sheet takes more than a face can.
    fn above_its_face(&self, plan: &Plan) -> Option<String> {
        let doubted = |kind: &&Kind| match &kind.absorber {
            MadeOf::DataSheet(sheet) => sheet.absorption.iter().any(|share| *share > DOUBTED),
            _ => false,
        };
        let used = |kind: &&Kind| plan.pieces.iter().any(|piece| piece.kit == kind.id);
        let kinds = self.scenario.kit.iter().filter(used).filter(doubted);
        let names: Vec<&str> = kinds.map(|kind| kind.name.as_str()).collect();
        let are = if names.len() == 1 { "states" } else { "state" };
        (!names.is_empty()).then(|| {
            format!(
                "{} {are} more than {DOUBTED} on the data sheet: more than a face can take. Small samples read too high; ask how large the tested one was.",
                names.join(", ")
            )
        })
    }

    /// What stands in the straight line from a loudspeaker to the seat.
    fn before_the_seat(&self, plan: &Plan) -> Vec<String> {
        let listening = self.scenario.listening_of(plan);
        let Some(seat) = listening.seat else {
            return Vec::new();
        };
        let stands = self.stands(plan);
        let hides = |loudspeaker: &Loudspeaker| {
            let line_m = [loudspeaker.spot.point_m(), seat.point_m()];
            !self.in_the_way(&line_m, None).is_empty()
                || stands
                    .iter()
                    .any(|stand| stand.plate.is_crossed(line_m[0], line_m[1]))
        };
        if !listening.loudspeakers.iter().any(hides) {
            return Vec::new();
        }
        vec!["Something stands between a loudspeaker and the seat: its direct sound is dulled there, which is left out.".to_owned()]
    }

    /// Whether the seat is so near a loudspeaker that it hears one driver rather than the whole.
    fn sits_at_a_loudspeaker(&self, plan: &Plan) -> bool {
        let listening = self.scenario.listening_of(plan);
        listening.seat.is_some_and(|seat| {
            let near = |loudspeaker: &Loudspeaker| {
                loudspeaker.spot.point_m().distance(seat.point_m()) < NEAR_FIELD_M
            };
            listening.loudspeakers.iter().any(near)
        })
    }
}

/// What is taken simply about pieces that do not lie flat, in words.
fn places_in_words(plan: &Plan) -> Vec<String> {
    let any = |is: fn(&Place) -> bool| plan.pieces.iter().any(|piece| is(&piece.place));
    let rules = [
        (
            any(|place| matches!(place, Place::Corner { .. })),
            "A corner piece counts with half of its face on each of its two walls; where its slanted face sends sound instead is left out.",
        ),
        (
            any(|place| matches!(place, Place::Stand { .. })),
            "A stand is taken to let no sound through, and it does nothing in the bass; sound that goes through soft ones makes them a little weaker than shown.",
        ),
        (
            any(|place| matches!(place, Place::Curtain { open, .. } if *open > 0.0)),
            "A curtain that is partly open is gathered at its left or front end, into a sixth of the width that it leaves free.",
        ),
    ];
    let applying = rules.into_iter().filter(|(applies, _)| *applies);
    applying.map(|(_, words)| words.to_owned()).collect()
}

/// Absorption on a data sheet that is doubted from here on. Common practice, no source.
const DOUBTED: f64 = 1.2;

/// Nearer than this a loudspeaker is not one point. Common practice, no source.
const NEAR_FIELD_M: f64 = 0.5;
