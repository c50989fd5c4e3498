//! From scenario to report: builds the room of each plan and asks decay, classical formulas and image sources.

mod absorbers;
mod bass;
mod bounces;
mod building;
mod builds;
mod causes;
mod checkup;
mod corner;
mod curtain;
mod deal;
mod detail;
mod doubts;
mod field;
mod figures;
mod fit;
mod fitting;
mod furniture;
mod heard;
mod inputs;
mod kit;
mod kit_sources;
mod known;
mod listen;
mod memory;
mod misfit;
mod notes;
mod observed;
mod odd;
mod outlook;
mod plate;
mod prepared;
mod ranges;
mod reflections;
mod response;
mod screens;
mod seat;
mod spreads;
mod stand;
mod surer;
mod weighed;

use crate::bands::{Banded, NOMINAL_HZ};
use crate::decay::decay;
use crate::report::{Difference, Mid, PlanReport, Report, RoomSummary};
use crate::room::Room;
use crate::scenario::goal_s;

use detail::Detail;
use field::{field_report, flutter_report};
use figures::{absorption_areas, decay_report, mid, surface_series};
pub use fit::Fit;
pub use kit::KindFacts;
pub use memory::Memory;
pub use prepared::Prepared;
pub use ranges::{DRAWS, Draws};
use seat::seat_report;
pub use surer::Shares;
pub use weighed::{Effect, Ground, Screen};

impl Prepared {
    /// The report of one plan, without what takes longer than a frame; none if there is no such plan.
    #[must_use]
    pub fn predict(&self, plan: usize) -> Option<PlanReport> {
        self.predict_after(plan, &mut Memory::default())
    }

    /// As [`Prepared::predict`], with what earlier reports left in a memory.
    pub fn predict_after(&self, plan: usize, memory: &mut Memory) -> Option<PlanReport> {
        self.report_in(Detail::All, plan, memory)
    }

    /// As [`Prepared::predict_after`], without what nobody reads while something is dragged: reflections of second order, the
    /// list of what absorbs, and the points of decay curves. What is there is the same.
    pub fn follow(&self, plan: usize, memory: &mut Memory) -> Option<PlanReport> {
        self.report_in(Detail::Moving, plan, memory)
    }

    fn report_in(&self, detail: Detail, plan: usize, memory: &mut Memory) -> Option<PlanReport> {
        let plan = self.scenario.plans.get(plan)?;
        let room = self.room(plan);
        let decay = decay(&room);
        let (mid, statistics_from_hz) = mid(&decay, room.volume_m3());
        let sources = self.sources(plan);
        let sounds = self.sounds(&room, plan, &sources, memory, false);
        let late = self.late_sounds(&room, plan, &sources, memory);
        let covered = memory.covered(room.size_m);
        Some(PlanReport {
            name: plan.name.clone(),
            room: RoomSummary {
                volume_m3: room.volume_m3(),
                area_m2: room.area_m2(),
                mean_free_path_m: room.mean_free_path_m(),
                statistics_from_hz,
            },
            absorption: surface_series(&room),
            absorption_area_m2: absorption_areas(&room, &self.stands(plan)),
            absorbers: detail.only_at_rest(|| self.absorbers(&room, plan)),
            mid: Mid {
                t20_s: mid,
                low_s: None,
                high_s: None,
                goal_met: None,
            },
            surer: None,
            reflections: self.reflections(plan, &sounds, detail.highest_order()),
            seat: seat_report(&room, &decay, &sources, &sounds, &late, covered),
            field: field_report(&room, &decay),
            flutter: flutter_report(&decay),
            response: None,
            modes: None,
            bass: None,
            decay: decay_report(&room, decay, detail),
            cost: self.cost(plan),
            notes: self.notes(&room, plan, statistics_from_hz),
        })
    }

    /// The room of a plan as the physics takes it; none if there is no such plan.
    #[must_use]
    pub fn room_of(&self, plan: usize) -> Option<Room> {
        Some(self.room(self.scenario.plans.get(plan)?))
    }

    /// The report of every plan, with all that takes longer than a frame.
    #[must_use]
    pub fn report(&self) -> Report {
        let mut checked = self.clone();
        checked.check_up();
        checked.report_as_checked()
    }

    fn report_as_checked(&self) -> Report {
        let draws: Vec<Draws> = (0..self.scenario.plans.len())
            .filter_map(|plan| Draws::complete(self, plan))
            .collect();
        let mut memory = Memory::default();
        let plans = (0..)
            .zip(&draws)
            .filter_map(|(plan, draws)| {
                let mut report = self.predict_after(plan, &mut memory)?;
                let ranges = draws.report(goal_s(&self.scenario));
                report.decay.low_s = Some(ranges.decay.low_s);
                report.decay.high_s = Some(ranges.decay.high_s);
                report.mid = ranges.mid;
                report.surer = self.surer(plan);
                if let Some(seat) = &mut report.seat {
                    seat.ranges = ranges.seat;
                }
                if let Some(bass) = self.bass(plan) {
                    report.response = Some(bass.response);
                    report.modes = Some(bass.modes);
                    report.bass = Some(bass.more);
                }
                Some(report)
            })
            .collect();
        Report {
            version: env!("CARGO_PKG_VERSION"),
            title: self.scenario.title.clone(),
            bands_hz: Banded(NOMINAL_HZ).into(),
            plans,
            differences: self.differences(&draws),
            checkup: self.checkup().cloned(),
        }
    }

    /// Middle decay of each later plan against each earlier one.
    fn differences(&self, draws: &[Draws]) -> Vec<Difference> {
        let pairs = (0..draws.len()).flat_map(|to| (0..to).map(move |from| (from, to)));
        let name = |plan: usize| &self.scenario.plans[plan].name;
        pairs
            .map(|(from, to)| draws[from].difference(name(from), &draws[to], name(to)))
            .collect()
    }
}
