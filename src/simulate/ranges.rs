//! How sure the figures of a plan are: the same draws of what is not known for every plan, and the range that they give.

use crate::bands::{BANDS, Banded, NOMINAL_HZ};
use crate::chance::{Draw, quantile};
use crate::decay::{decay, mid_s, t20_and_sums};
use crate::report::{DecayRange, Difference, Mid, RangesReport, Series, ShareRanges, Span};
use crate::room::Room;
use crate::scenario::Scenario;
use crate::scenario::document::{
    Kind, Listening, OwnFinish, OwnFurnishing, Piece, Plan, RoomFacts,
};

use super::doubts::Doubts;
use super::figures::{mid, middle_from_hz};
use super::heard::Heard;
use super::odd::Widening;
use super::prepared::Prepared;

/// Draws that an answer is made of.
pub const DRAWS: usize = 200;

/// One seed for all: the same document gives the same answer on any machine, and every plan meets the same chance.
const SEED: u64 = 0x5eed_0f5e_a77a_4d00;

/// The draws of one plan, under way or complete.
#[derive(Clone, Debug)]
pub struct Draws {
    of: Subject,
    seed: u64,
    room: Room,
    doubts: Doubts,
    widening: Widening,
    middle_from_hz: f64,
    mid_s: Option<f64>,
    heard: Option<Heard>,
    done: Vec<Drawn>,
}

/// All of a document that the draws of one plan depend on.
#[derive(Clone, Debug, PartialEq)]
struct Subject {
    room: RoomFacts,
    own_finishes: Vec<OwnFinish>,
    own_furnishings: Vec<OwnFurnishing>,
    kit: Vec<Kind>,
    pieces: Vec<Piece>,
    listening: Listening,
}

impl Subject {
    fn of(scenario: &Scenario, plan: &Plan) -> Self {
        Self {
            room: scenario.room.clone(),
            own_finishes: scenario.own_finishes.clone(),
            own_furnishings: scenario.own_furnishings.clone(),
            kit: scenario.kit.clone(),
            pieces: plan.pieces.clone(),
            listening: scenario.listening_of(plan).clone(),
        }
    }
}

/// What one draw gives.
#[derive(Clone, Debug)]
struct Drawn {
    t20_s: [f64; BANDS],
    mid_s: f64,
    /// Direct, early and late.
    shares: Option<[Banded; 3]>,
}

impl Draws {
    /// Starts the draws of a plan; none if there is no such plan.
    #[must_use]
    pub fn start(prepared: &Prepared, plan: usize) -> Option<Self> {
        Self::seeded(prepared, plan, SEED)
    }

    /// As [`Draws::start`], with chance of its own: another room that could hide behind the same description.
    #[must_use]
    pub fn seeded(prepared: &Prepared, plan: usize, seed: u64) -> Option<Self> {
        let plan = prepared.scenario.plans.get(plan)?;
        let room = prepared.room(plan);
        let decay = decay(&room);
        Some(Self {
            of: Subject::of(&prepared.scenario, plan),
            seed,
            doubts: Doubts::of(prepared, plan, &room),
            widening: Widening::of(&room, &prepared.scenario.room.conditions),
            middle_from_hz: middle_from_hz(&decay, room.volume_m3()),
            mid_s: mid(&decay, room.volume_m3()).0,
            heard: Heard::at(prepared, plan, &room),
            room,
            done: Vec::with_capacity(DRAWS),
        })
    }

    /// All draws of a plan; none if there is no such plan.
    #[must_use]
    pub fn complete(prepared: &Prepared, plan: usize) -> Option<Self> {
        let mut draws = Self::start(prepared, plan)?;
        draws.more(DRAWS);
        Some(draws)
    }

    /// Makes up to `count` more.
    pub fn more(&mut self, count: usize) {
        for _ in 0..count.min(DRAWS - self.done.len()) {
            let number = self.done.len() as u64;
            self.done.push(self.draw(number));
        }
    }

    /// Whether they are also those of a plan of another document.
    #[must_use]
    pub fn are_of(&self, prepared: &Prepared, plan: usize) -> bool {
        let scenario = &prepared.scenario;
        let plan = scenario.plans.get(plan);
        plan.is_some_and(|plan| Subject::of(scenario, plan) == self.of)
    }

    /// Whether all are made.
    #[must_use]
    pub fn are_complete(&self) -> bool {
        self.done.len() == DRAWS
    }

    fn draw(&self, number: u64) -> Drawn {
        let draw = Draw {
            seed: self.seed,
            number,
        };
        let room = self.doubts.drawn(&self.room, &draw);
        let factor = self.doubts.model_factor(&draw);
        let bands = t20_and_sums(&room);
        let t20_s: [Option<f64>; BANDS] = std::array::from_fn(|band| {
            let drawn = bands[band].as_ref();
            drawn.map(|(time_s, _)| self.widening.widened(band, time_s * factor))
        });
        Drawn {
            t20_s: t20_s.map(|time_s| time_s.unwrap_or(f64::INFINITY)),
            mid_s: mid_s(&t20_s, self.middle_from_hz, &NOMINAL_HZ).unwrap_or(f64::INFINITY),
            shares: self
                .heard
                .as_ref()
                .map(|heard| heard.shares(&self.room, &room, &bands)),
        }
    }

    /// The middle decay of every draw, s; infinite where the sound does not decay.
    #[must_use]
    pub fn mids_s(&self) -> Vec<f64> {
        self.done.iter().map(|drawn| drawn.mid_s).collect()
    }

    /// The 8-in-10 ranges and the chance that the goal is met.
    #[must_use]
    pub fn report(&self, goal_s: (f64, f64)) -> RangesReport {
        let bands = std::array::from_fn::<_, BANDS, _>(|band| {
            eight_in_ten(self.done.iter().map(|drawn| drawn.t20_s[band]).collect())
        });
        let mids = self.mids_s();
        let met = mids
            .iter()
            .filter(|mid_s| (goal_s.0..=goal_s.1).contains(*mid_s))
            .count();
        let (low_s, high_s) = eight_in_ten(mids);
        RangesReport {
            draws: self.done.len(),
            decay: DecayRange {
                low_s: Series(bands.iter().map(|(low, _)| *low).collect()),
                high_s: Series(bands.iter().map(|(_, high)| *high).collect()),
            },
            mid: Mid {
                t20_s: self.mid_s,
                low_s: Some(low_s),
                high_s: Some(high_s),
                goal_met: Some(met as f64 / self.done.len() as f64),
            },
            seat: self.share_ranges(),
            differences: Vec::new(),
        }
    }

    /// Ranges of the shares at the seat.
    fn share_ranges(&self) -> Option<ShareRanges> {
        self.heard.as_ref()?;
        let [direct_share, early_share, late_share] = [0, 1, 2].map(|share| {
            let limits = |band: usize| {
                let of_draw = |drawn: &Drawn| drawn.shares.map(|shares| shares[share][band]);
                eight_in_ten(self.done.iter().filter_map(of_draw).collect())
            };
            let bands: Vec<(f64, f64)> = (0..BANDS).map(limits).collect();
            Span {
                low: Series(bands.iter().map(|(low, _)| *low).collect()),
                high: Series(bands.iter().map(|(_, high)| *high).collect()),
            }
        });
        Some(ShareRanges {
            direct_share,
            early_share,
            late_share,
        })
    }

    /// How the middle decay of another plan differs from this one's, draw by draw.
    #[must_use]
    pub fn difference(&self, from: &str, other: &Self, to: &str) -> Difference {
        let pairs = self.done.iter().zip(&other.done);
        let (low_s, high_s) = eight_in_ten(pairs.map(|(a, b)| b.mid_s - a.mid_s).collect());
        Difference {
            from: from.to_owned(),
            to: to.to_owned(),
            mid_s: other.mid_s.zip(self.mid_s).map(|(to, from)| to - from),
            low_s,
            high_s,
        }
    }
}

/// The limits within which 8 of 10 values lie; NaN for a limit that is not finite.
fn eight_in_ten(mut values: Vec<f64>) -> (f64, f64) {
    values.sort_by(f64::total_cmp);
    let limit = |share| match quantile(&values, share) {
        value if value.is_finite() => value,
        _ => f64::NAN,
    };
    (limit(0.1), limit(0.9))
}
