//! Rooms that the model of a box does not fit: what is odd about them in words, and how much wider their ranges are.

use std::ops::RangeInclusive;

use crate::bands::{BAND_1K, BANDS};
use crate::decay::t20_and_sums;
use crate::geometry::Surface;
use crate::room::Room;

/// Sides and volumes for which the model was tried. Common practice, no source.
const TRUSTED_SIDE_M: RangeInclusive<f64> = 1.8..=15.0;
const TRUSTED_VOLUME_M3: RangeInclusive<f64> = 10.0..=500.0;

/// A room that absorbs more than this on average, at 1 kHz, is no room to live in. Common practice, no source.
const MOST_MEAN_ABSORPTION: f64 = 0.6;

/// The condition of a document whose room was made a box: a sloped ceiling, an L, a gallery.
const NOT_A_BOX: &str = "not-a-box";

/// How many times as wide, on a scale of ratios, the ranges of a room are that the model does not fit. Our choice.
const WIDER: f64 = 2.0;

/// What is unusual about the room itself, in words.
pub(super) fn odd_words(room: &Room, conditions: &[String]) -> Vec<&'static str> {
    let sides = room.size_m.to_array();
    let rules = [
        (
            sides.iter().any(|side| !TRUSTED_SIDE_M.contains(side)),
            "A side of this room is outside the range we trust, 1.8 to 15 m.",
        ),
        (
            !TRUSTED_VOLUME_M3.contains(&room.volume_m3()),
            "The volume of this room is outside the range we trust, 10 to 500 m³.",
        ),
        (
            is_booth(room),
            "More like a recording booth than a room: check the surfaces. Its ranges are doubled.",
        ),
        (
            is_no_box(conditions),
            "The room is not close to a box. Ranges are doubled; use the order of plans, not the numbers.",
        ),
    ];
    let applying = rules.into_iter().filter(|(applies, _)| *applies);
    applying.map(|(_, words)| words).collect()
}

fn is_no_box(conditions: &[String]) -> bool {
    conditions.iter().any(|condition| condition == NOT_A_BOX)
}

fn is_booth(room: &Room) -> bool {
    let absorption_m2: f64 = Surface::ALL
        .into_iter()
        .map(|surface| {
            room.wall(surface).mean_absorption()[BAND_1K] * surface.extent(room.size_m).area_m2()
        })
        .sum();
    absorption_m2 / room.area_m2() > MOST_MEAN_ABSORPTION
}

/// Makes the draws of an odd room spread wider about its own decay; those of any other room stay as they are.
#[derive(Clone, Debug)]
pub(super) struct Widening {
    /// The undisturbed decay of every band, s; none where the room fits the model.
    about_s: Option<[Option<f64>; BANDS]>,
}

impl Widening {
    /// For a room, and the conditions of its document.
    pub(super) fn of(room: &Room, conditions: &[String]) -> Self {
        let is_odd = is_booth(room) || is_no_box(conditions);
        let about_s = is_odd.then(|| {
            let bands = t20_and_sums(room);
            std::array::from_fn(|band| bands[band].as_ref().map(|(time_s, _)| *time_s))
        });
        Self { about_s }
    }

    /// A drawn decay of a band, as far again from the undisturbed one.
    ///
    /// ```text
    /// t' = m (t / m)^2
    /// ```
    pub(super) fn widened(&self, band: usize, time_s: f64) -> f64 {
        match self.about_s.and_then(|about_s| about_s[band]) {
            Some(middle_s) => middle_s * (time_s / middle_s).powf(WIDER),
            None => time_s,
        }
    }
}
