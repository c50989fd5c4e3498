//! The demo rooms by name, and their reports.

use seatward::geometry::Surface;
use seatward::report::{PlanReport, ReflectionReport};
use seatward::scenario;
use seatward::simulate::Prepared;

/// No holes in the walls; one bounce on the window.
pub const CORNER_ROOM: &str = "rented-corner-room";
/// Half the room behind the sofa.
pub const TERRACE: &str = "long-terrace-room";
/// Large and hard, with sprinklers over the bounce.
pub const LOFT: &str = "concrete-loft";
/// Too dull already, and it booms.
pub const STUDY: &str = "square-study";
/// Low, in feet and inches, with an escape window.
pub const DEN: &str = "basement-den";
/// A ceiling to leave alone.
pub const TALL_ROOM: &str = "tall-room";

pub const STORIES: [&str; 6] = [CORNER_ROOM, TERRACE, LOFT, STUDY, DEN, TALL_ROOM];

/// Third-octave bands by their index.
pub const BAND_125: usize = 4;
pub const BAND_500: usize = 10;
pub const BAND_1K: usize = 13;
pub const BAND_4K: usize = 19;

/// The document of a story, as text.
pub fn text(name: &str) -> String {
    let path = format!("{}/scenarios/{name}.json", env!("CARGO_MANIFEST_DIR"));
    std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{path}: {error}"))
}

pub fn prepared(json: &str) -> Prepared {
    Prepared::new(scenario::from_json(json).unwrap_or_else(|error| panic!("{error}")))
}

pub fn story(name: &str) -> Prepared {
    prepared(&text(name))
}

/// The report of the plan of that name.
pub fn plan(prepared: &Prepared, name: &str) -> PlanReport {
    prepared
        .predict(plan_number(prepared, name))
        .expect("the plan is in the document")
}

pub fn plan_number(prepared: &Prepared, name: &str) -> usize {
    let plans = &prepared.scenario().plans;
    plans
        .iter()
        .position(|plan| plan.name == name)
        .unwrap_or_else(|| panic!("no plan {name}"))
}

/// The reflection of first order off a surface.
pub fn off(report: &PlanReport, loudspeaker: usize, surface: Surface) -> &ReflectionReport {
    let is_it = |reflection: &&ReflectionReport| {
        reflection.loudspeaker == loudspeaker && reflection.surfaces == [surface]
    };
    report
        .reflections
        .iter()
        .find(is_it)
        .expect("six surfaces throw sound back")
}

/// T20 in a band, s.
pub fn t20_s(report: &PlanReport, band: usize) -> f64 {
    report.decay.t20_s.0[band]
}

pub fn mid_s(report: &PlanReport) -> f64 {
    report.mid.t20_s.expect("the room absorbs")
}
