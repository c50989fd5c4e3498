//! A plan made ready to be listened to: what its loudspeakers send, from the same images, decay and notes as its report.

use std::f64::consts::{LN_10, TAU};

use glam::DVec3;

use crate::bands::{BANDS, Banded};
use crate::bass::coupled::Coupled;
use crate::decay::{Decay, decay};
use crate::early::{Early, Source, SourceEarly};
use crate::geometry::Surface;
use crate::listen::{LateSlices, Pickup, Ringing, Sent, ToSeat, Way, notes};
use crate::room::Room;
use crate::seat::{LateSound, Tail};
use crate::spectrum::FINE;

use super::bass::{MOST_JOINING_HZ, bass_room};
use super::figures::mid;
use super::memory::Memory;
use super::prepared::Prepared;
use super::response::tails;

/// What is left of the energy when it ends: −80 dB, so that its curve is whole down to −70 dB.
const LEFT: f64 = 1e-8;

/// Longest response, s.
const MOST_S: f64 = 5.0;

/// Bands by which the end is found, from 100 Hz on.
const FIRST_BAND: usize = 3;

/// Steps in which the end is looked for, s.
const STEP_S: f64 = 0.01;

/// Least time that is rendered after the last image, s.
const AFTER_LAST_S: f64 = 0.05;

impl Prepared {
    /// What is heard of a plan at its seat. `with_notes`: with the room's notes below the limit of statistics; without them
    /// images and late sound go on to the bottom.
    ///
    /// # Errors
    /// A sentence: there is no such plan, no seat, no loudspeaker, or a room in which sound does not die away.
    pub fn to_seat(
        &self,
        plan: usize,
        pickup: Pickup,
        with_notes: bool,
        memory: &mut Memory,
    ) -> Result<ToSeat, String> {
        let plan = self.scenario.plans.get(plan);
        let plan = plan.ok_or("There is no such plan.")?;
        let listening = self.scenario.listening_of(plan);
        let ahead = listening.wall_ahead();
        let seat_m = listening
            .seat
            .ok_or("There is no seat to listen at.")?
            .point_m();
        let mut sources = self.sources(plan);
        let across = |source: &Source| ahead.as_front(source.position_m).x;
        sources.sort_by(|a, b| across(a).total_cmp(&across(b)));
        if sources.is_empty() {
            return Err("There is no loudspeaker to listen to.".to_owned());
        }
        let room = self.room(plan);
        let decay = decay(&room);
        if decay.t20_s.iter().any(Option::is_none) {
            return Err(
                "Sound does not die away in this room, so there is no end to it.".to_owned(),
            );
        }
        let low = with_notes.then(|| Low::new(&room, &decay, (seat_m, ahead), pickup));
        let early = self.sounds(&room, plan, &sources, memory, true);
        let late = self.late_sounds(&room, plan, &sources, memory);
        let tails = tails(&room, &decay, memory.covered(room.size_m));
        let heard: Vec<Heard<'_>> = sources
            .iter()
            .zip(&early)
            .zip(&late)
            .map(|((source, early), late)| {
                Heard::new(source, early, (seat_m, ahead), (late, &tails), low.as_ref())
            })
            .collect();
        let until_s = heard.iter().map(Heard::until_s).fold(0.0, f64::max);
        Ok(ToSeat {
            sent: heard.into_iter().map(Heard::sent).collect(),
            speed_of_sound_m_per_s: room.air.speed_of_sound_m_per_s,
            joining_hz: low.map(|low| low.joining_hz),
            until_s,
        })
    }
}

/// What one loudspeaker brings to the seat.
struct Heard<'a> {
    ways: Vec<Way>,
    notes: Vec<Ringing>,
    tails: &'a [Tail<'a>],
    late: &'a LateSound,
}

impl<'a> Heard<'a> {
    fn new(
        source: &Source,
        early: &SourceEarly,
        (seat_m, ahead): (DVec3, Surface),
        (late, tails): (&'a LateSound, &'a [Tail<'a>]),
        low: Option<&Low>,
    ) -> Self {
        let direct = Way {
            time_s: early.direct.time_s,
            direction: ahead
                .as_front(source.position_m - seat_m)
                .normalize_or(DVec3::NEG_Y),
            energy: early.direct.energy,
            pressure: Vec::new(),
        };
        let images = early.reflections.iter();
        let images = images.map(|image| way(image, early.direct.time_s, ahead));
        Self {
            ways: std::iter::once(direct).chain(images).collect(),
            notes: low.map_or_else(Vec::new, |low| low.notes(source.position_m)),
            tails,
            late,
        }
    }

    /// Energy of the late sound from a time on.
    fn after(&self, band: usize, time_s: f64) -> f64 {
        let since_s = time_s - self.direct_s();
        self.late.after(band, &self.tails[band], since_s)
    }

    fn direct_s(&self) -> f64 {
        self.ways[0].time_s
    }

    /// When nothing of the late sound is heard any more.
    fn late_until_s(&self) -> f64 {
        let band_s = |band: usize| {
            let ways: f64 = self.ways.iter().map(|way| way.energy[band]).sum();
            let left = LEFT * (ways + self.after(band, self.direct_s()));
            let steps = (0..).map(|step| f64::from(step) * STEP_S);
            let loud =
                steps.take_while(|time_s| *time_s < MOST_S && self.after(band, *time_s) > left);
            loud.last().unwrap_or(0.0)
        };
        (FIRST_BAND..BANDS)
            .map(band_s)
            .fold(self.direct_s(), f64::max)
    }

    /// When nothing of it is heard any more.
    fn until_s(&self) -> f64 {
        let last_s = self.ways.iter().map(|way| way.time_s).fold(0.0, f64::max) + AFTER_LAST_S;
        let notes = self.notes.iter();
        let ringing_s = notes.map(|note| -0.5 * LEFT.ln() / note.damping_per_s);
        ringing_s
            .fold(self.late_until_s(), f64::max)
            .clamp(last_s, MOST_S.max(last_s))
    }

    fn sent(self) -> Sent {
        let until_s = self.late_until_s();
        Sent {
            late: LateSlices::new(self.direct_s(), until_s, |band, time_s| {
                self.after(band, time_s)
            }),
            ways: self.ways,
            notes: self.notes,
        }
    }
}

/// An image, up to second order with its phase: where one frequency a band is followed, phase cannot be.
fn way(image: &Early, direct_s: f64, ahead: Surface) -> Way {
    let has_phase = image.pressure.len() == FINE;
    Way {
        time_s: direct_s + image.delay_s,
        direction: ahead.as_front(image.path.direction),
        energy: image.energy,
        pressure: if has_phase {
            image.pressure.clone()
        } else {
            Vec::new()
        },
    }
}

/// The room's notes, for as many loudspeakers as there are.
struct Low {
    coupled: Coupled,
    /// Rate at which pressure dies away by statistics, 1/s.
    statistical_per_s: Banded,
    /// Rate at which furniture and air take pressure away, 1/s.
    between_walls_per_s: Banded,
    joining_hz: f64,
    speed_of_sound_m_per_s: f64,
    seat_m: DVec3,
    ahead: Surface,
    pickup: Pickup,
}

impl Low {
    fn new(room: &Room, decay: &Decay, (seat_m, ahead): (DVec3, Surface), pickup: Pickup) -> Self {
        let (_, statistics_from_hz) = mid(decay, room.volume_m3());
        let joining_hz = statistics_from_hz.map_or(MOST_JOINING_HZ, |hz| hz.min(MOST_JOINING_HZ));
        let coupled = Coupled::new(&bass_room(room), std::f64::consts::SQRT_2 * joining_hz);
        // The octave of joining ends where the notes do.
        let joining_hz = joining_hz.min(coupled.solved_hz() / std::f64::consts::SQRT_2);
        Self {
            coupled,
            statistical_per_s: Banded::from_fn(|band| {
                decay.t20_s[band].map_or(0.0, |t20_s| 3.0 * LN_10 / t20_s)
            }),
            between_walls_per_s: Banded::from_fn(|band| {
                let field = &decay.fields[band];
                0.5 * (field.air_per_s + field.furniture_hits_per_s * field.furniture_absorption)
            }),
            joining_hz,
            speed_of_sound_m_per_s: room.air.speed_of_sound_m_per_s,
            seat_m,
            ahead,
            pickup,
        }
    }

    fn notes(&self, source_m: DVec3) -> Vec<Ringing> {
        let alone = notes(
            &self.coupled,
            self.speed_of_sound_m_per_s,
            source_m,
            (self.seat_m, self.ahead),
            self.joining_hz,
            self.pickup,
        );
        alone.into_iter().map(|note| self.mixed(note)).collect()
    }

    /// A note with its own damping up to an octave below the joining frequency, by walls, furniture and air; in the octave of
    /// joining, where notes overlap and mix as the late sound does, with the damping of statistics. Common practice, no source; so
    /// slopes join. What stands in the room and the air take from a note what they take from the late sound, as if its
    /// energy were even in the room and came to them from everywhere.
    fn mixed(&self, note: Ringing) -> Ringing {
        let hz = note.omega_rad_per_s / TAU;
        let statistical_per_s = self.statistical_per_s.at_hz(hz);
        let part = (2.0 * (2.0 * hz / self.joining_hz).log2()).clamp(0.0, 1.0);
        let own_per_s = note.damping_per_s + self.between_walls_per_s.at_hz(hz);
        let damping_per_s = own_per_s.powf(1.0 - part) * statistical_per_s.powf(part);
        Ringing {
            damping_per_s,
            ..note
        }
    }
}
