//! The notes in plain English.

use super::map::EvenerPlace;
use super::notes::Note;

/// Highest note that is told in a sentence of its own, Hz: above, notes stand too close to be told apart.
const TOLD_UP_TO_HZ: f64 = 120.0;

/// Most sentences about notes.
const MOST_TOLD: usize = 4;

/// Least weight of a note that is worth a sentence.
const LEAST_WEIGHT: f64 = 0.15;

/// From here on a source feeds a note, or the seat hears it; below the second, hardly.
const FULLY: f64 = 0.5;
const HARDLY: f64 = 0.2;

/// Ways that a note can run.
const WAYS: [&str; 3] = ["across", "lengthwise", "up and down"];

/// One note in a sentence without its full stop.
///
/// Such as "56 Hz, across: the loudspeakers feed it, the seat hears it, it rings for 0.9 s".
#[must_use]
pub fn note_in_words(note: &Note) -> String {
    sentence(&[note])
}

/// The notes that matter most at the seat, heaviest first; notes that coincide share a sentence.
#[must_use]
pub fn leading(notes: &[Note], coincident: &[[usize; 2]]) -> Vec<String> {
    let told = |&i: &usize| {
        notes[i].mode.frequency_hz <= TOLD_UP_TO_HZ && notes[i].weight() >= LEAST_WEIGHT
    };
    let mut heaviest: Vec<usize> = (0..notes.len()).filter(told).collect();
    let loudness = |i: usize| notes[i].weight() * notes[i].decay_s.unwrap_or(f64::MAX);
    heaviest.sort_by(|&a, &b| loudness(b).total_cmp(&loudness(a)));
    let mut sentences = Vec::new();
    let mut done = vec![false; notes.len()];
    for i in heaviest {
        if done[i] || sentences.len() == MOST_TOLD {
            continue;
        }
        let group = with_its_likes(i, coincident);
        group.iter().for_each(|&i| done[i] = true);
        let group: Vec<&Note> = group.iter().map(|&i| &notes[i]).collect();
        sentences.push(sentence(&group) + ".");
    }
    if sentences.is_empty() {
        sentences.push(format!(
            "No single note stands out at the seat below {TOLD_UP_TO_HZ} Hz."
        ));
    }
    sentences
}

/// A note and those that it coincides with, lowest first.
fn with_its_likes(note: usize, coincident: &[[usize; 2]]) -> Vec<usize> {
    let pairs = coincident.iter().filter(|pair| pair.contains(&note));
    let mut group: Vec<usize> = pairs.flatten().copied().chain([note]).collect();
    group.sort_unstable();
    group.dedup();
    group
}

/// Notes of one pitch in one sentence: the most fed and the most heard of them, and the longest decay.
fn sentence(group: &[&Note]) -> String {
    let most = |of: fn(&Note) -> f64| group.iter().map(|note| of(note)).fold(0.0, f64::max);
    let hz = most(|note| note.mode.frequency_hz);
    let ways: Vec<String> = group.iter().map(|note| way(note)).collect();
    let shared = match ways.len() {
        1 => String::new(),
        2 => " alike".to_owned(),
        count => format!(", {count} notes alike"),
    };
    format!(
        "{hz:.0} Hz, {}{shared}: {}, {}, {}",
        ways.join(" and "),
        fed_in_words(group),
        graded(
            most(|note| note.heard),
            "the seat hears it",
            "the seat hears a little of it",
            "the seat hardly hears it"
        ),
        ringing(group)
    )
}

fn way(note: &Note) -> String {
    let ways: Vec<&str> = (0..3)
        .filter(|&axis| note.mode.n[axis] > 0)
        .map(|axis| WAYS[axis])
        .collect();
    match ways.len() {
        3 => "all three ways".to_owned(),
        _ => ways.join(" and "),
    }
}

fn fed_in_words(group: &[&Note]) -> &'static str {
    let together = group.iter().map(|note| note.fed).fold(0.0, f64::max);
    let alone = group
        .iter()
        .flat_map(|note| note.fed_by.iter().copied())
        .fold(0.0, f64::max);
    if together < HARDLY && alone >= FULLY {
        return "each loudspeaker feeds it but together they cancel";
    }
    graded(
        together,
        "the loudspeakers feed it",
        "the loudspeakers feed it a little",
        "the loudspeakers hardly feed it",
    )
}

fn graded(
    share: f64,
    fully: &'static str,
    partly: &'static str,
    hardly: &'static str,
) -> &'static str {
    if share >= FULLY {
        fully
    } else if share >= HARDLY {
        partly
    } else {
        hardly
    }
}

fn ringing(group: &[&Note]) -> String {
    let decays: Option<Vec<f64>> = group.iter().map(|note| note.decay_s).collect();
    decays.map_or("nothing in this room stops it".to_owned(), |decays| {
        let longest_s = decays.into_iter().fold(0.0, f64::max);
        format!("it rings for {}", seconds(longest_s))
    })
}

/// A time to two digits: "0.08 s", "0.9 s", "12 s".
pub(super) fn seconds(time_s: f64) -> String {
    match time_s {
        t if t < 0.095 => format!("{t:.2} s"),
        t if t < 9.95 => format!("{t:.1} s"),
        t => format!("{t:.0} s"),
    }
}

/// Where the response stops because the notes become too many to follow.
#[must_use]
pub fn stops(stops_at_hz: f64) -> String {
    format!(
        "Single notes are followed up to {stops_at_hz:.0} Hz: above, this room has too many of them."
    )
}

/// Parts of a move shorter than this only reach the middle of a place on the map, cm.
const LEAST_MOVE_CM: f64 = 7.5;

/// What a move of the seat would do.
#[must_use]
pub fn evener(place: &EvenerPlace, seat_x_m: f64, seat_y_m: f64) -> String {
    let (right_cm, back_cm) = (
        100.0 * (place.x_m - seat_x_m),
        100.0 * (place.y_m - seat_y_m),
    );
    let part = |cm: f64, more: &str, less: &str| {
        let way = if cm > 0.0 { more } else { less };
        (cm.abs() >= LEAST_MOVE_CM).then(|| format!("{:.0} cm {way}", cm.abs()))
    };
    let parts: Vec<String> = [
        part(back_cm, "back", "forward"),
        part(right_cm, "to the right", "to the left"),
    ]
    .into_iter()
    .flatten()
    .collect();
    format!(
        "Moving the seat {} evens the bass for nothing: its third-octaves would vary by {:.1} dB instead of {:.1} dB.",
        parts.join(" and "),
        place.unevenness_db,
        place.from_db
    )
}
