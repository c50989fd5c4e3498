//! From scenario to report: builds the room of each plan and asks decay, classical formulas and image sources.

mod building;
mod figures;
mod kit;
mod notes;
mod prepared;
mod reflections;

use crate::bands::{Banded, NOMINAL_HZ};
use crate::decay::decay;
use crate::report::{Mid, PlanReport, Report, RoomSummary};

use figures::{absorption_areas, decay_report, differences, mid, surface_series};
pub use kit::KindFacts;
pub use prepared::Prepared;

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
            mid: Mid { t20_s: mid },
            reflections: self.reflections(&room, plan),
            cost: self.cost(plan),
            notes: self.notes(&room, plan, statistics_from_hz),
        })
    }

    /// The report of every plan.
    #[must_use]
    pub fn report(&self) -> Report {
        let plans: Vec<PlanReport> = (0..self.scenario.plans.len())
            .filter_map(|plan| self.predict(plan))
            .collect();
        Report {
            version: env!("CARGO_PKG_VERSION"),
            title: self.scenario.title.clone(),
            bands_hz: Banded(NOMINAL_HZ).into(),
            differences: differences(&plans),
            plans,
        }
    }
}
