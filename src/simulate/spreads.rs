//! How far off the absorption of a thing of a scenario may be, and the names under which chance and check-ups know it.

use crate::bands::Banded;
use crate::finish::{self, octaves_to_bands};
use crate::furnishing;
use crate::scenario::Scenario;
use crate::spread::Spread;

use super::kit::{banded, values};

/// A figure that the user typed for a thing may be this many times larger or smaller. Common practice, no source.
const OWN_FURNISHING: f64 = 1.3;

/// Name of a finish.
pub(super) fn finish_name(id: &str) -> String {
    format!("finish {id}")
}

/// Name of a furnishing.
pub(super) fn furnishing_name(id: &str) -> String {
    format!("furnishing {id}")
}

/// Name of a kind of the kit.
pub(super) fn kind_name(id: &str) -> String {
    format!("kind {id}")
}

/// A finish of the library with its published rows, or one of the user's own with the doubt of any measurement.
pub(super) fn finish_spread(scenario: &Scenario, id: &str) -> Spread {
    let own = scenario.own_finishes.iter().find(|own| own.id == id);
    let spread = own
        .map(|own| Spread::measured(values(&own.values)))
        .or_else(|| {
            finish::finish(id).map(|finish| {
                let [low, typical, high] =
                    [&finish.low, &finish.typical, &finish.high].map(octaves_to_bands);
                Spread::between(low, typical, high)
            })
        });
    spread.unwrap_or(Spread::measured(Banded::constant(0.0)))
}

/// All of a kind of furnishing that an entry of the room has; none for a kind that nobody knows.
pub(super) fn furnishing_spread(scenario: &Scenario, id: &str, count: f64) -> Option<Spread> {
    let own = scenario.own_furnishings.iter().find(|own| own.id == id);
    own.map(|own| {
        let area_m2 = banded(&own.bands_hz, &own.absorption_area_m2);
        Spread::factor(area_m2 * count, OWN_FURNISHING)
    })
    .or_else(|| {
        furnishing::furnishing(id)
            .map(|kind| Spread::factor(kind.absorption_area() * count, kind.spread))
    })
}
