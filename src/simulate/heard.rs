//! The shares of energy at the seat in a draw, without following every image anew.

use crate::bands::Banded;
use crate::decay::{Field, fields};
use crate::decay_curve::ExponentialSum;
use crate::early::SourceEarly;
use crate::geometry::Surface;
use crate::room::Room;
use crate::scenario::document::Plan;
use crate::seat::{Covered, Sound};

use super::memory::Memory;
use super::prepared::Prepared;
use super::seat::{at_seat, seat_figures};

/// What the loudspeakers send to the seat in the room as described.
#[derive(Clone, Debug)]
pub(super) struct Heard {
    sounds: Vec<Sound>,
    /// The surfaces that each image meets, by loudspeaker.
    met: Vec<Vec<Vec<Surface>>>,
    covered: Covered,
    /// What each wall sends on like a mirror, on the mean.
    mirrored: [Banded; 6],
    speed_of_sound_m_per_s: f64,
}

impl Heard {
    /// None without loudspeakers or seat.
    pub fn at(prepared: &Prepared, plan: &Plan, room: &Room, memory: &mut Memory) -> Option<Self> {
        let sources = prepared.sources(plan);
        let early = prepared.sounds(room, plan, &sources, memory, false);
        let late = prepared.late_sounds(room, plan, &sources, memory);
        let met = |sound: &SourceEarly| {
            let images = sound.reflections.iter();
            images
                .map(|image| image.path.surfaces().collect())
                .collect()
        };
        (!early.is_empty()).then(|| Self {
            sounds: at_seat(&sources, &early, &late),
            met: early.iter().map(met).collect(),
            covered: memory.covered(room.size_m).clone(),
            mirrored: mirrored(&fields(room)),
            speed_of_sound_m_per_s: room.air.speed_of_sound_m_per_s,
        })
    }

    /// Direct, early and late share in a drawn room with these fields and their decays.
    ///
    /// An image is scaled by what the means of the walls that it meets reflect in the draw, re the room as described; its
    /// way, and the places of pieces on it, stay as they are.
    pub fn shares(&self, drawn: &[Field], decays: &[Option<(f64, ExponentialSum)>]) -> [Banded; 3] {
        let (before, after) = (&self.mirrored, mirrored(drawn));
        let scale: [Banded; 6] = std::array::from_fn(|wall| {
            Banded::from_fn(|band| after[wall][band] / before[wall][band])
        });
        let sounds: Vec<Sound> = self
            .sounds
            .iter()
            .zip(&self.met)
            .map(|(sound, met)| scaled(sound, met, &scale))
            .collect();
        let terms = |band: usize| {
            decays[band]
                .as_ref()
                .map_or(&ENDLESS[..], |(_, sum)| &sum.terms)
        };
        let c = self.speed_of_sound_m_per_s;
        let figures = seat_figures(drawn, terms, &self.covered, c, &sounds);
        [
            figures.direct_share,
            figures.early_share,
            figures.late_share,
        ]
    }
}

/// A decay that never ends.
const ENDLESS: [(f64, f64); 1] = [(0.0, 1.0)];

/// What each wall sends on like a mirror, on the mean.
fn mirrored(fields: &[Field]) -> [Banded; 6] {
    std::array::from_fn(|wall| {
        Banded::from_fn(|band| {
            let (pair, side) = (&fields[band].pairs[wall / 2], wall % 2);
            ((1.0 - pair.absorption[side]) * (1.0 - pair.scattering[side])).max(LEAST)
        })
    })
}

/// Nothing reflects less than this, so that a ratio always exists.
const LEAST: f64 = 1e-4;

/// The sound with every image scaled.
fn scaled(sound: &Sound, met: &[Vec<Surface>], scale: &[Banded; 6]) -> Sound {
    let mut sound = sound.clone();
    for (arrival, met) in sound.arrivals.iter_mut().zip(met) {
        for surface in met {
            let factor = &scale[*surface as usize];
            arrival.energy = Banded::from_fn(|band| arrival.energy[band] * factor[band]);
        }
    }
    sound
}
