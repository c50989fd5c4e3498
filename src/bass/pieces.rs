//! What the pieces of a plan do to the notes of the room: often less than they do above.

use glam::DVec3;

use super::coupled::Coupled;
use super::notes::{Note, notes};
use super::room::BassRoom;
use super::words::seconds;

/// Notes up to here are bass, Hz.
const BASS_HZ: f64 = 100.0;

/// Share of its ringing that a note must keep for the pieces to have hardly touched it.
const UNTOUCHED: f64 = 0.9;

/// Share of its ringing below which the pieces really reach a note.
const REACHED: f64 = 0.65;

/// What pieces do to one note.
#[derive(Clone, Debug, PartialEq)]
pub struct Change {
    /// The note in the room without the pieces.
    pub note: Note,
    /// Its decay with them, s; none if nothing damps it.
    pub with_s: Option<f64>,
}

impl Change {
    /// Share of its ringing that the note keeps.
    #[must_use]
    pub fn kept(&self) -> f64 {
        match (self.note.decay_s, self.with_s) {
            (Some(without_s), Some(with_s)) => with_s / without_s,
            (None, Some(_)) => 0.0,
            _ => 1.0,
        }
    }
}

/// How the decay of each note up to 100 Hz, or at least the lowest, changes with the pieces of a plan.
#[must_use]
pub fn changes(
    without: &BassRoom,
    with: &BassRoom,
    sources_m: &[DVec3],
    receiver_m: DVec3,
) -> Vec<Change> {
    let [before, after] = [without, with].map(|room| {
        let coupled = Coupled::new(room, BASS_HZ);
        let lowest_hz = coupled.modes().get(1).map_or(0.0, |mode| mode.frequency_hz);
        notes(
            &coupled,
            room.size_m,
            sources_m,
            receiver_m,
            BASS_HZ.max(lowest_hz),
        )
    });
    let pairs = before.into_iter().zip(after);
    pairs
        .map(|(note, after)| Change {
            note,
            with_s: after.decay_s,
        })
        .collect()
}

/// The change of the note that matters most at the seat; none without notes.
#[must_use]
pub fn of_heaviest(changes: &[Change]) -> Option<&Change> {
    changes
        .iter()
        .max_by(|a, b| a.note.weight().total_cmp(&b.note.weight()))
}

/// What the pieces do in the bass, told by the note that matters most at the seat; none without notes.
#[must_use]
pub fn in_words(changes: &[Change]) -> Option<String> {
    let heaviest = of_heaviest(changes)?;
    let hz = heaviest.note.mode.frequency_hz;
    let verdict = match heaviest.kept() {
        kept if kept > UNTOUCHED => "The pieces of this plan hardly touch the bass",
        kept if kept > REACHED => "The pieces of this plan take a little off the bass",
        _ => "The pieces of this plan reach into the bass",
    };
    let told = |decay_s: Option<f64>| {
        decay_s.map_or("without end".to_owned(), |s| format!("for {}", seconds(s)))
    };
    Some(format!(
        "{verdict}: the note at {hz:.0} Hz rings {} without them and {} with them.",
        told(heaviest.note.decay_s),
        told(heaviest.with_s)
    ))
}
