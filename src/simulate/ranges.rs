//! How sure the figures of a plan are: the same draws of what is not known for every plan, and the range that they give.

use std::sync::Arc;

use crate::bands::{BANDS, Banded, NOMINAL_HZ};
use crate::chance::{Draw, quantile};
use crate::decay::{decay, fields, mid_s, t20_and_sums_of};
use crate::report::{DecayRange, Difference, Mid, Middle, RangesReport, Series, ShareRanges, Span};
use crate::room::Room;
use crate::scenario::document::{
    Kind, Listening, OwnFinish, OwnFurnishing, Piece, Plan, RoomFacts,
};

use super::deal::Deal;
use super::doubts::Doubts;
use super::figures::{mid, middle_from_hz};
use super::fit::Fit;
use super::heard::Heard;
use super::memory::Memory;
use super::odd::Widening;
use super::prepared::Prepared;

/// Draws that an answer is made of.
pub const DRAWS: usize = 200;

/// One seed for all: the same document gives the same answer on any machine, and every plan meets the same chance.
pub(super) const SEED: u64 = 0x5eed_0f5e_a77a_4d00;

/// The draws of one plan, under way or complete.
#[derive(Clone, Debug)]
pub struct Draws {
    of: Subject,
    seed: u64,
    /// Number of the first that is to be made here, and the number after the last.
    first: usize,
    end: usize,
    room: Room,
    doubts: Doubts,
    widening: Widening,
    middle_from_hz: f64,
    mid_s: Option<f64>,
    /// T20 by band and the middle decay of the room as it is described, where the draws rest on a check-up, s.
    described_s: Option<([Option<f64>; BANDS], Option<f64>)>,
    heard: Option<Heard>,
    /// By number; none for one that is not there yet.
    done: Vec<Option<Drawn>>,
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
    fit: Option<Arc<Fit>>,
}

impl Subject {
    fn of(prepared: &Prepared, plan: &Plan) -> Self {
        let scenario = &prepared.scenario;
        Self {
            fit: prepared.fit(),
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

impl Drawn {
    /// Numbers of one draw in a row.
    const fn packed_size(with_shares: bool) -> usize {
        BANDS + 1 + if with_shares { 3 * BANDS } else { 0 }
    }

    fn packed(&self) -> Vec<f64> {
        let shares = self.shares.iter().flatten().flat_map(Banded::iter);
        let times = self.t20_s.into_iter().chain([self.mid_s]);
        times.chain(shares).collect()
    }

    fn unpacked(row: &[f64]) -> Self {
        let shares = (row.len() > BANDS + 1)
            .then(|| [1, 2, 3].map(|share| Banded::from_fn(|band| row[share * BANDS + 1 + band])));
        Self {
            t20_s: std::array::from_fn(|band| row[band]),
            mid_s: row[BANDS],
            shares,
        }
    }
}

impl Draws {
    /// Starts the draws of a plan; none if there is no such plan.
    #[must_use]
    pub fn start(prepared: &Prepared, plan: usize) -> Option<Self> {
        Self::start_after(prepared, plan, &mut Memory::default())
    }

    /// As [`Draws::start`], with what earlier reports and draws left in a memory.
    pub fn start_after(prepared: &Prepared, plan: usize, memory: &mut Memory) -> Option<Self> {
        Self::dealt(prepared, plan, SEED, memory)
    }

    /// As [`Draws::start`], with chance of its own: another room that could hide behind the same description.
    #[must_use]
    pub fn seeded(prepared: &Prepared, plan: usize, seed: u64) -> Option<Self> {
        Self::dealt(prepared, plan, seed, &mut Memory::default())
    }

    fn dealt(prepared: &Prepared, plan: usize, seed: u64, memory: &mut Memory) -> Option<Self> {
        let plan = prepared.scenario.plans.get(plan)?;
        let room = prepared.room(plan);
        let decay = decay(&room);
        Some(Self {
            of: Subject::of(prepared, plan),
            seed,
            first: 0,
            end: DRAWS,
            doubts: Doubts::of(prepared, plan, &room),
            widening: Widening::of(&room, &prepared.scenario.room.conditions),
            middle_from_hz: middle_from_hz(&decay, room.volume_m3()),
            mid_s: mid(&decay, room.volume_m3()).0,
            described_s: prepared.fit().map(|_| described_s(prepared, plan)),
            heard: Heard::at(prepared, plan, &room, memory),
            room,
            done: vec![None; DRAWS],
        })
    }

    /// All draws of a plan; none if there is no such plan.
    #[must_use]
    pub fn complete(prepared: &Prepared, plan: usize) -> Option<Self> {
        let mut draws = Self::start(prepared, plan)?;
        draws.more(DRAWS);
        Some(draws)
    }

    /// Those of numbers `first` up to `end` alone, so that several workers make them together; none if there is no such plan.
    #[must_use]
    pub fn part(prepared: &Prepared, plan: usize, first: usize, end: usize) -> Option<Self> {
        Some(Self::start(prepared, plan)?.turned_to(first, end))
    }

    /// The draws of numbers `first` up to `end` of the same plan, none of them made: what all draws of a plan start from takes
    /// as long as ten of them.
    #[must_use]
    pub fn turned_to(mut self, first: usize, end: usize) -> Self {
        self.end = end.min(DRAWS);
        self.first = first.min(self.end);
        self.done.fill(None);
        self
    }

    /// Makes up to `count` more of those that are not there yet, in the order of their numbers.
    pub fn more(&mut self, count: usize) {
        let missing = (self.first..self.end).filter(|&number| self.done[number].is_none());
        for number in missing.take(count).collect::<Vec<_>>() {
            self.done[number] = Some(self.draw(number as u64));
        }
    }

    /// Whether all that are to be made here are made.
    #[must_use]
    pub fn are_made(&self) -> bool {
        self.done[self.first..self.end].iter().all(Option::is_some)
    }

    /// What the draws made here gave, as one row of numbers that another worker can take in with [`Draws::join`].
    #[must_use]
    pub fn packed(&self) -> Vec<f64> {
        self.made().flat_map(Drawn::packed).collect()
    }

    /// Takes in draws that another worker made for the same plan of the same document, from that number on, as
    /// [`Draws::packed`] gave them; false if they do not fit.
    pub fn join(&mut self, first: usize, packed: &[f64]) -> bool {
        let size = Drawn::packed_size(self.heard.is_some());
        let count = packed.len() / size;
        if !packed.len().is_multiple_of(size) || first.saturating_add(count) > DRAWS {
            return false;
        }
        let places = &mut self.done[first..first + count];
        for (place, row) in places.iter_mut().zip(packed.chunks_exact(size)) {
            *place = Some(Drawn::unpacked(row));
        }
        true
    }

    /// Those that are there, in the order of their numbers.
    fn made(&self) -> impl Iterator<Item = &Drawn> {
        self.done.iter().flatten()
    }

    /// Whether they are also those of a plan of another document.
    #[must_use]
    pub fn are_of(&self, prepared: &Prepared, plan: usize) -> bool {
        let plan = prepared.scenario.plans.get(plan);
        plan.is_some_and(|plan| Subject::of(prepared, plan) == self.of)
    }

    /// Whether all are made.
    #[must_use]
    pub fn are_complete(&self) -> bool {
        self.done.iter().all(Option::is_some)
    }

    fn draw(&self, number: u64) -> Drawn {
        let draw = Draw {
            seed: self.seed,
            number,
        };
        let deal = Deal::drawn(draw, self.of.fit.as_deref());
        let room = self.doubts.drawn(&self.room, &deal);
        let factor = self.doubts.model_factor(&deal);
        let fields = fields(&room);
        let bands = t20_and_sums_of(&fields);
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
                .map(|heard| heard.shares(&fields, &bands)),
        }
    }

    /// The middle decay of every draw, s; infinite where the sound does not decay.
    #[must_use]
    pub fn mids_s(&self) -> Vec<f64> {
        self.made().map(|drawn| drawn.mid_s).collect()
    }

    /// The 8-in-10 ranges and the chance that the goal is met.
    #[must_use]
    pub fn report(&self, goal_s: (f64, f64)) -> RangesReport {
        let bands = std::array::from_fn::<_, BANDS, _>(|band| {
            eight_in_ten(self.made().map(|drawn| drawn.t20_s[band]).collect())
        });
        let mids = self.mids_s();
        let count = mids.len();
        let met = mids
            .iter()
            .filter(|mid_s| (goal_s.0..=goal_s.1).contains(*mid_s))
            .count();
        let (low_s, high_s) = eight_in_ten(mids);
        RangesReport {
            draws: count,
            decay: DecayRange {
                low_s: Series(bands.iter().map(|(low, _)| *low).collect()),
                high_s: Series(bands.iter().map(|(_, high)| *high).collect()),
            },
            mid: Mid {
                t20_s: self.mid_s,
                low_s: Some(low_s),
                high_s: Some(high_s),
                goal_met: Some(met as f64 / count as f64),
            },
            seat: self.share_ranges(),
            differences: Vec::new(),
            checked: self
                .described_s
                .as_ref()
                .map(|described_s| self.middle(described_s)),
        }
    }

    /// What half of the draws exceed, beside the room as it is described.
    fn middle(&self, (t20_s, mid_s): &([Option<f64>; BANDS], Option<f64>)) -> Middle {
        let of_band = |band| median(self.made().map(|drawn| drawn.t20_s[band]).collect());
        let middles_s: [f64; BANDS] = std::array::from_fn(of_band);
        let over = |time_s: f64, described_s: Option<f64>| {
            described_s.map_or(f64::NAN, |described_s| time_s / described_s)
        };
        let factors = middles_s.iter().zip(t20_s);
        let middle_s = median(self.mids_s());
        Middle {
            factor: Series(
                factors
                    .map(|(middle, described)| over(*middle, *described))
                    .collect(),
            ),
            mid_factor: over(middle_s, *mid_s),
            t20_s: Series(middles_s.to_vec()),
            mid_s: middle_s,
        }
    }

    /// Ranges of the shares at the seat.
    fn share_ranges(&self) -> Option<ShareRanges> {
        self.heard.as_ref()?;
        let [direct_share, early_share, late_share] = [0, 1, 2].map(|share| {
            let limits = |band: usize| {
                let of_draw = |drawn: &Drawn| drawn.shares.map(|shares| shares[share][band]);
                eight_in_ten(self.made().filter_map(of_draw).collect())
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
        let pairs = self.made().zip(other.made());
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

/// T20 by band and the middle decay of the room as it is described, s.
fn described_s(prepared: &Prepared, plan: &Plan) -> ([Option<f64>; BANDS], Option<f64>) {
    let room = prepared.described_room(plan);
    let decay = decay(&room);
    (decay.t20_s, mid(&decay, room.volume_m3()).0)
}

/// The value that half of them exceed; NaN for one that is not finite.
fn median(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    let middle = quantile(&values, 0.5);
    if middle.is_finite() { middle } else { f64::NAN }
}

/// The limits within which 8 of 10 values lie; NaN for a limit that is not finite.
pub(super) fn eight_in_ten(mut values: Vec<f64>) -> (f64, f64) {
    values.sort_by(f64::total_cmp);
    let limit = |share| match quantile(&values, share) {
        value if value.is_finite() => value,
        _ => f64::NAN,
    };
    (limit(0.1), limit(0.9))
}
