//! What a good plan is: the one place that says what counts and how much. Everything counts in steps, fewer are better.
//!
//! One step is one clear difference: a decay time longer or shorter by a tenth, or early sound louder by 3 dB. The weights are
//! our choice; the page shows them in words.

use serde::Serialize;

use crate::scenario::document::{Goal, Scenario, Taste};
use crate::scenario::goal_s;

/// Octaves that are weighed, Hz.
pub const OCTAVES_HZ: [f64; 6] = [125.0, 250.0, 500.0, 1000.0, 2000.0, 4000.0];

/// Index of the first octave of the middle of the range.
const MIDDLE_FROM: usize = 1;

/// What a step is, what is allowed before anything counts, and from where on advice says to act, to stop or to spend no more.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Figures {
    /// One step of a decay time, as a ratio.
    pub step_ratio: f64,
    /// One step of a level, dB.
    pub step_db: f64,
    /// One step of the spread of the bass over its third-octaves at the seat, dB; it counts for moves alone.
    pub bass_step_db: f64,
    /// A plan aims this far inside of the goal, as a ratio: the prediction is not that sure.
    pub inside: f64,
    /// An octave may lie off the mean of the middle by this ratio.
    pub even: f64,
    /// The lowest octave may be longer than it by this ratio.
    pub even_low: f64,
    /// The two lowest octaves may be longer than the two highest by this ratio before a room is dull and boomy at once.
    pub tilt: f64,
    /// First bounces are as good as gone when all of a loudspeaker's together lie this far below its direct sound, dB.
    pub quiet_db: f64,
    /// Bounces of the two sides may differ by this, dB.
    pub alike_db: f64,
    /// Side bounces as faint as this do not differ audibly, dB re direct.
    pub faint_db: f64,
    /// A bounce counts fully up to this delay, s.
    pub counts_until_s: f64,
    /// And not at all from this one on, s.
    pub counts_not_from_s: f64,
    /// Something free that gains less is not worth doing, steps.
    pub worth_a_move: f64,
    /// A piece that gains less is not worth buying, steps: a quarter of a difference that is clearly heard.
    pub stop_below: f64,
    /// A room whose goal is likely met is left alone unless the best plan gains this, its effort counted, steps.
    pub worth_it: f64,
    /// And any room is, if the best plan gains less than this, steps.
    pub not_worth_it: f64,
    /// The thrifty plan keeps this part of what the best one gains.
    pub most_of_it: f64,
    /// For at most this part of its price.
    pub less_money: f64,
    /// More money or more pieces change little once this part of the gain is there.
    pub nearly_all: f64,
    /// Another plan must gain at least this part of what the best one does.
    pub near_the_best: f64,
    /// The seat does more for the bass than pieces if it does this many times as much.
    pub seat_times_more: f64,
    /// And at least so much, dB.
    pub seat_at_least_db: f64,
}

/// Common practice where nothing else is said, no source: the page says all of them in words.
pub const FIGURES: Figures = Figures {
    step_ratio: 1.1,
    step_db: 3.0,
    bass_step_db: 1.5,
    inside: 1.1,
    even: 1.25,
    even_low: 1.5,
    tilt: 1.5,
    quiet_db: -10.0,
    alike_db: 1.0,
    faint_db: -15.0,
    counts_until_s: 0.010,
    counts_not_from_s: 0.020,
    worth_a_move: 0.3,
    stop_below: 0.25,
    worth_it: 1.5,
    not_worth_it: 0.5,
    most_of_it: 0.8,
    less_money: 0.75,
    nearly_all: 0.9,
    near_the_best: 0.5,
    seat_times_more: 2.0,
    seat_at_least_db: 1.0,
};

/// What counts how much, in steps.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Weights {
    /// Per tenth by which the middle decay lies outside of the goal.
    pub decay: f64,
    /// Per tenth, on the mean over octaves, by which octaves stray from the middle.
    pub evenness: f64,
    /// Per tenth by which the low end outlasts the treble too much.
    pub tilt: f64,
    /// Per 3 dB of first bounces.
    pub bounces: f64,
    /// Per 3 dB between the bounces of the two sides.
    pub likeness: f64,
    /// Per new piece.
    pub piece: f64,
    /// Per new piece without its like on the other side.
    pub lone: f64,
    /// For spending the whole budget.
    pub money: f64,
}

impl Weights {
    /// Of a taste.
    #[must_use]
    pub const fn of(taste: Taste) -> Self {
        let (bounces, likeness) = match taste {
            Taste::Focused => (1.0, 0.8),
            Taste::LivedIn => (0.6, 0.6),
            Taste::Spacious => (0.25, 0.4),
        };
        Self {
            decay: 1.0,
            evenness: 1.0,
            tilt: 0.5,
            bounces,
            likeness,
            piece: 0.04,
            lone: 0.04,
            money: 1.0,
        }
    }
}

/// What is aimed for.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Objective {
    /// What counts how much.
    pub weights: Weights,
    /// What a step is, and from where on what counts.
    pub figures: Figures,
    /// The goal of the middle decay, s.
    pub goal_s: (f64, f64),
    /// The budget, if there is one.
    pub budget: Option<f64>,
    /// The first octave of the middle of the range, by number: below it a small room rings at single notes.
    pub middle_from: usize,
}

/// What a set of pieces comes to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Outcome {
    /// T20 of the octaves, s; infinite where sound does not decay.
    pub t20_s: [f64; 6],
    /// Energy of the first bounces of the loudspeakers on the mean, re direct, those that come late counting less.
    pub bounces: f64,
    /// The same of the walls at either side of who listens.
    pub sides: [f64; 2],
    /// New pieces.
    pub pieces: usize,
    /// New pieces without their like on the other side.
    pub lone: usize,
    /// Price of the new pieces.
    pub price: f64,
}

/// What counts, in steps, each weighted.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
pub struct Steps {
    /// Middle decay outside of the goal.
    pub decay: f64,
    /// Octaves that stray; dull and boomy at once.
    pub evenness: f64,
    /// First bounces.
    pub bounces: f64,
    /// Left and right unlike.
    pub likeness: f64,
    /// Number, lack of symmetry and price of the pieces.
    pub effort: f64,
}

impl Steps {
    /// All together.
    #[must_use]
    pub fn sum(&self) -> f64 {
        self.sound() + self.effort
    }

    /// What is heard.
    #[must_use]
    pub fn sound(&self) -> f64 {
        self.decay + self.evenness + self.bounces + self.likeness
    }
}

/// How much a bounce of that delay counts.
#[must_use]
pub fn counts(delay_s: f64) -> f64 {
    let (until_s, not_from_s) = (FIGURES.counts_until_s, FIGURES.counts_not_from_s);
    ((not_from_s - delay_s) / (not_from_s - until_s)).clamp(0.0, 1.0)
}

/// Tenths by which a ratio exceeds a limit.
fn beyond(ratio: f64, limit: f64) -> f64 {
    // An endless decay is as bad as one a thousand times too long.
    ((ratio / limit).clamp(1e-3, 1e3).ln() / FIGURES.step_ratio.ln()).max(0.0)
}

impl Objective {
    /// Of a document.
    #[must_use]
    pub fn of(scenario: &Scenario) -> Self {
        let taste = match scenario.goal {
            Some(Goal::Taste { taste }) => taste,
            _ => Taste::LivedIn,
        };
        let goal_s = goal_s(scenario);
        let size_m = scenario.room.size_m();
        let volume_m3 = size_m.x * size_m.y * size_m.z;
        let from_hz = 2000.0 * ((goal_s.0 * goal_s.1).sqrt() / volume_m3).sqrt();
        // An octave belongs to the middle if more than half of it lies above the limit of statistics.
        let is_below = |octave: &&f64| **octave < from_hz;
        let below = OCTAVES_HZ.iter().take_while(is_below).count();
        Self {
            weights: Weights::of(taste),
            figures: FIGURES,
            goal_s,
            budget: scenario.limits.as_ref().and_then(|limits| limits.budget),
            middle_from: below.clamp(MIDDLE_FROM, OCTAVES_HZ.len() - 1),
        }
    }

    /// Mean decay of the middle octaves, s.
    #[must_use]
    pub fn middle_s(&self, t20_s: &[f64; 6]) -> f64 {
        let middle = &t20_s[self.middle_from..];
        middle.iter().sum::<f64>() / middle.len() as f64
    }

    /// The steps of an outcome.
    #[must_use]
    pub fn steps(&self, outcome: &Outcome) -> Steps {
        let weights = &self.weights;
        let middle_s = self.middle_s(&outcome.t20_s);
        Steps {
            decay: weights.decay * self.off_goal(middle_s),
            evenness: self.uneven(&outcome.t20_s, middle_s),
            bounces: weights.bounces * over_db(outcome.bounces, FIGURES.quiet_db),
            likeness: weights.likeness * unlike(outcome.sides),
            effort: self.effort(outcome),
        }
    }

    /// Tenths by which the middle decay lies outside of what is aimed for.
    fn off_goal(&self, middle_s: f64) -> f64 {
        let (low_s, high_s) = self.aim_s();
        beyond(middle_s / high_s, 1.0) + beyond(low_s / middle_s, 1.0)
    }

    /// The goal less what the prediction may be off.
    fn aim_s(&self) -> (f64, f64) {
        let (low_s, high_s) = (
            self.goal_s.0 * FIGURES.inside,
            self.goal_s.1 / FIGURES.inside,
        );
        if low_s <= high_s {
            return (low_s, high_s);
        }
        let between_s = (self.goal_s.0 * self.goal_s.1).sqrt();
        (between_s, between_s)
    }

    /// Octaves that stray from the middle, and a low end that outlasts the treble.
    fn uneven(&self, t20_s: &[f64; 6], middle_s: f64) -> f64 {
        let strays = t20_s.iter().enumerate().map(|(octave, time_s)| {
            let longer = if octave == 0 {
                FIGURES.even_low
            } else {
                FIGURES.even
            };
            let shorter = if octave < self.middle_from {
                0.0
            } else {
                beyond(middle_s / time_s, FIGURES.even)
            };
            beyond(time_s / middle_s, longer) + shorter
        });
        let mean = strays.sum::<f64>() / t20_s.len() as f64;
        let tilt = (t20_s[0] + t20_s[1]) / (t20_s[4] + t20_s[5]);
        self.weights.evenness * mean + self.weights.tilt * beyond(tilt, FIGURES.tilt)
    }

    fn effort(&self, outcome: &Outcome) -> f64 {
        let Weights {
            piece, lone, money, ..
        } = self.weights;
        let spent = match self.budget {
            Some(budget) if budget > 0.0 => outcome.price / budget,
            _ => 0.0,
        };
        piece * outcome.pieces as f64 + lone * outcome.lone as f64 + money * spent
    }
}

/// Steps of level by which an energy exceeds a level.
fn over_db(energy: f64, level_db: f64) -> f64 {
    ((10.0 * energy.max(1e-6).log10() - level_db) / FIGURES.step_db).max(0.0)
}

/// Steps of level between the two sides, beyond what is allowed.
fn unlike(sides: [f64; 2]) -> f64 {
    let faint = 10.0_f64.powf(FIGURES.faint_db / 10.0);
    let apart_db = 10.0 * ((sides[0] + faint) / (sides[1] + faint)).log10();
    ((apart_db.abs() - FIGURES.alike_db) / FIGURES.step_db).max(0.0)
}
