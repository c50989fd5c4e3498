//! What a person has to know beside the figures, in plain words.

use crate::bands::BAND_1K;
use crate::geometry::Surface;
use crate::room::Room;
use crate::scenario::document::{Loudspeaker, Place, Plan, Role};

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
        let left_out = plan
            .pieces
            .iter()
            .filter(|piece| !matches!(piece.place, Place::Surface { .. }))
            .count();
        if left_out > 0 {
            notes.push(format!("{left_out} corner pieces, stands or curtains are in this plan but not yet in its figures."));
        }
        notes.extend(self.beyond_the_box(room));
        notes.extend(odd_room(room).into_iter().map(str::to_owned));
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
                "Furniture takes and scatters sound on the whole; a bounce off one table or cabinet is left out.",
            ),
            (
                room.furniture_surface_m2 <= 0.0,
                "Without furniture the answer hangs on how uneven the walls are: expect a wide range.",
            ),
        ];
        let applying = rules.into_iter().filter(|(applies, _)| *applies);
        applying.map(|(_, words)| words.to_owned()).collect()
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

/// Sides and volumes for which the model was tried. Common practice, no source.
const TRUSTED_SIDE_M: std::ops::RangeInclusive<f64> = 1.8..=15.0;
const TRUSTED_VOLUME_M3: std::ops::RangeInclusive<f64> = 10.0..=500.0;

/// A room that absorbs more than this on average, at 1 kHz, is no room to live in. Common practice, no source.
const MOST_MEAN_ABSORPTION: f64 = 0.6;

/// Nearer than this a loudspeaker is not one point. Common practice, no source.
const NEAR_FIELD_M: f64 = 0.5;

/// What is unusual about the room itself, in words.
fn odd_room(room: &Room) -> Vec<&'static str> {
    let absorption_m2: f64 = Surface::ALL
        .into_iter()
        .map(|surface| {
            room.wall(surface).mean_absorption()[BAND_1K] * surface.extent(room.size_m).area_m2()
        })
        .sum();
    let rules = [
        (
            room.size_m
                .to_array()
                .iter()
                .any(|side| !TRUSTED_SIDE_M.contains(side)),
            "A side of this room is outside the range we trust, 1.8 to 15 m.",
        ),
        (
            !TRUSTED_VOLUME_M3.contains(&room.volume_m3()),
            "The volume of this room is outside the range we trust, 10 to 500 m³.",
        ),
        (
            absorption_m2 / room.area_m2() > MOST_MEAN_ABSORPTION,
            "More like a recording booth than a room: check the surfaces.",
        ),
    ];
    rules
        .into_iter()
        .filter(|(applies, _)| *applies)
        .map(|(_, words)| words)
        .collect()
}
