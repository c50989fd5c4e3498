//! The goal of a scenario in seconds: as typed, or of its taste.

use super::document::{Goal, Scenario, Taste};

/// Above this volume the goal of a taste is longer at both ends.
const LARGE_ROOM_M3: f64 = 120.0;
const LARGE_ROOM_EXTRA_S: f64 = 0.1;

/// Shortest and longest middle decay that meet the goal, s, to the hundredth as they are shown.
///
/// The figures of the tastes are our choice, placed about trade advice for homes and surveys of furnished living rooms.
#[must_use]
pub fn goal_s(scenario: &Scenario) -> (f64, f64) {
    let taste = match scenario.goal {
        Some(Goal::Range { low_s, high_s }) => return (low_s, high_s),
        Some(Goal::Taste { taste }) => taste,
        None => Taste::LivedIn,
    };
    let (low_s, high_s) = match taste {
        Taste::Focused => (0.20, 0.35),
        Taste::LivedIn => (0.30, 0.50),
        Taste::Spacious => (0.40, 0.65),
    };
    let size_m = scenario.room.size_m();
    let large = size_m.x * size_m.y * size_m.z > LARGE_ROOM_M3;
    let extra_s = if large { LARGE_ROOM_EXTRA_S } else { 0.0 };
    let shown = |time_s: f64| (time_s * 100.0).round() / 100.0;
    (shown(low_s + extra_s), shown(high_s + extra_s))
}
