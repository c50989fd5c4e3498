//! From scenario to report: builds the room of each plan and asks decay, classical formulas and image sources.

mod building;
mod doubts;
mod figures;
mod kit;
mod notes;
mod prepared;
mod ranges;
mod reflections;

use crate::bands::{Banded, NOMINAL_HZ};
use crate::decay::decay;
use crate::report::{Difference, Mid, PlanReport, Report, RoomSummary};
use crate::scenario::goal_s;

use figures::{absorption_areas, decay_report, mid, surface_series};
pub use kit::KindFacts;
pub use prepared::Prepared;
pub use ranges::{DRAWS, Draws};

impl Prepared {
    /// The report of one plan; none if there is no such plan.
    #[must_use]
    pub fn predict(&self, plan: usize) -> Option<PlanReport> {
        let plan = self.scenario.plans.get(plan)?;
        let room = self.room(plan);
        let decay = decay(&room);
        let (mid, statistics_from_hz) = mid(&decay, room.volume_m3());
        Some(PlanReport {
            name: plan.name.clone(),
            room: RoomSummary {
                volume_m3: room.volume_m3(),
                area_m2: room.area_m2(),
                mean_free_path_m: room.mean_free_path_m(),
                statistics_from_hz,
            },
            absorption: surface_series(&room),
            absorption_area_m2: absorption_areas(&room),
            decay: decay_report(&room, decay),
            mid: Mid {
                t20_s: mid,
                low_s: None,
                high_s: None,
                goal_met: None,
            },
            reflections: self.reflections(&room, plan),
            cost: self.cost(plan),
            notes: self.notes(&room, plan, statistics_from_hz),
        })
    }

    /// The report of every plan, with all that takes longer than a frame.
    #[must_use]
    pub fn report(&self) -> Report {
        let draws: Vec<Draws> = (0..self.scenario.plans.len())
            .filter_map(|plan| Draws::complete(self, plan))
            .collect();
        let plans = (0..)
            .zip(&draws)
            .filter_map(|(plan, draws)| {
                let mut report = self.predict(plan)?;
                let ranges = draws.report(goal_s(&self.scenario));
                report.decay.low_s = Some(ranges.decay.low_s);
                report.decay.high_s = Some(ranges.decay.high_s);
                report.mid = ranges.mid;
                Some(report)
            })
            .collect();
        Report {
            version: env!("CARGO_PKG_VERSION"),
            title: self.scenario.title.clone(),
            bands_hz: Banded(NOMINAL_HZ).into(),
            plans,
            differences: self.differences(&draws),
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
