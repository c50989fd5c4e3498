//! Why figures may not fit a room: other descriptions of it are tried, and ranked by how well the figures fit those.
//!
//! Tried are other finishes, more or less furniture, an opening more, another size, another plan on the walls, and a time
//! that was read off another fall than 60 dB. Of each family the best one stands for all.

use crate::bands::{BANDS, Banded};
use crate::decay::t20_of_bands;
use crate::finish::{FINISHES, finish};
use crate::geometry::Surface;
use crate::report::Cause;
use crate::room::Room;
use crate::scenario::Scenario;
use crate::scenario::document::Plan;

use super::absorbers::lower_first;
use super::misfit::Misfit;
use super::observed::Reading;
use super::prepared::Prepared;

/// Likely causes that are named.
const NAMED: usize = 3;

/// Taken for a decay that never ends, s.
const ENDLESS_S: f64 = 60.0;

/// Absorption of an opening, as in the design of openings of the library.
const OPEN: f64 = 0.99;

/// What is tried of a quantity. Our choice.
const FURNITURE: [f64; 5] = [0.25, 0.5, 2.0, 3.0, 4.0];
const OPENINGS_M2: [f64; 4] = [0.5, 1.0, 2.0, 4.0];
const SIZES: [f64; 4] = [0.8, 0.9, 1.1, 1.25];

/// Shares of 60 dB over which a decay may have been read and not stretched to 60 dB, and the other way round.
const FALLS: [(f64, &str); 3] = [
    (
        1.0 / 3.0,
        "The time may be that of a fall by 20 dB: three times as long would fit",
    ),
    (
        0.5,
        "The time may be that of a fall by 30 dB: twice as long would fit",
    ),
    (
        2.0,
        "The time may have been doubled once too often: half of it would fit",
    ),
];

/// One other description, and by how much longer each reading would be predicted, as logarithms.
struct Suspect {
    words: String,
    longer: Vec<f64>,
}

/// The readings of one plan that do not fit.
pub(super) struct Case<'a> {
    pub plan: &'a Plan,
    pub readings: &'a [Reading],
    pub misfit: &'a Misfit,
}

impl Prepared {
    /// The likeliest causes, best first.
    pub(super) fn causes(&self, case: &Case) -> Vec<Cause> {
        let described = self.described_room(case.plan);
        let as_described = ln_t20(&described);
        let longer = |room: &Room| {
            let ln = ln_t20(room);
            let readings = case.readings.iter();
            readings
                .map(|reading| reading.of(&ln) - reading.of(&as_described))
                .collect::<Vec<_>>()
        };
        let families = [
            self.other_finishes(&described, &longer),
            vec![furniture(&described, &longer)],
            vec![openings(&described, &longer)],
            vec![sizes(&described, &longer)],
            vec![self.other_plans(case, &longer)],
            vec![falls(case)],
        ];
        let whole = case.misfit.distance().max(f64::MIN_POSITIVE);
        let best = |suspects: Vec<Suspect>| {
            let judged = suspects.into_iter().map(|suspect| Cause {
                left: case.misfit.distance_if_longer(&suspect.longer) / whole,
                words: suspect.words,
            });
            judged.min_by(|a, b| a.left.total_cmp(&b.left))
        };
        let mut causes: Vec<Cause> = families.into_iter().flatten().filter_map(best).collect();
        causes.sort_by(|a, b| a.left.total_cmp(&b.left));
        causes.truncate(NAMED);
        causes
    }

    /// For each finish of the room's surfaces, every other one that suits them.
    fn other_finishes(
        &self,
        described: &Room,
        longer: &dyn Fn(&Room) -> Vec<f64>,
    ) -> Vec<Vec<Suspect>> {
        let mut seen: Vec<&str> = Vec::new();
        let mut families = Vec::new();
        for surface in Surface::ALL {
            let id = self.scenario.surface(surface).finish.as_str();
            if seen.contains(&id) {
                continue;
            }
            seen.push(id);
            let others = FINISHES.iter().filter(|other| {
                other.id != id && other.suits.split(' ').any(|suit| suit == suits(surface))
            });
            let suspects = others.map(|other| Suspect {
                words: finish_words(&self.scenario, id, surface, other.name),
                longer: longer(&refinished(
                    &self.scenario,
                    described,
                    id,
                    other.absorption(),
                )),
            });
            families.push(suspects.collect());
        }
        families
    }

    /// Every other plan on the walls instead.
    fn other_plans(&self, case: &Case, longer: &dyn Fn(&Room) -> Vec<f64>) -> Vec<Suspect> {
        let plans = self.scenario.plans.iter();
        let others = plans.filter(|plan| plan.pieces != case.plan.pieces);
        others
            .map(|plan| Suspect {
                words: format!(
                    "The room may have been as in plan {}, not as in plan {}",
                    plan.name, case.plan.name
                ),
                longer: longer(&self.described_room(plan)),
            })
            .collect()
    }
}

/// What a finish of that surface must suit.
fn suits(surface: Surface) -> &'static str {
    match surface {
        Surface::Floor => "floor",
        Surface::Ceiling => "ceiling",
        _ => "wall",
    }
}

fn finish_words(scenario: &Scenario, id: &str, first: Surface, other: &str) -> String {
    let own = scenario.own_finishes.iter().find(|own| own.id == id);
    let name = own.map(|own| own.name.as_str());
    let name = name
        .or_else(|| finish(id).map(|finish| finish.name))
        .unwrap_or(id);
    let others = Surface::ALL
        .into_iter()
        .filter(|surface| *surface != first && scenario.surface(*surface).finish == id);
    let place = if others.count() > 0 {
        "walls"
    } else {
        first.in_words()
    };
    format!(
        "The {place} may not be “{}”: “{}” would fit better",
        lower_first(name),
        lower_first(other)
    )
}

/// The room with another absorption wherever a finish is bare.
fn refinished(scenario: &Scenario, described: &Room, id: &str, absorption: Banded) -> Room {
    let mut room = described.clone();
    for (surface, wall) in Surface::ALL.into_iter().zip(&mut room.walls) {
        if scenario.surface(surface).finish == id {
            wall.bare.absorption = absorption;
        }
    }
    room
}

fn furniture(described: &Room, longer: &dyn Fn(&Room) -> Vec<f64>) -> Vec<Suspect> {
    let words = |factor: f64| {
        if factor < 1.0 {
            "There may be less soft furniture in the room than described".to_owned()
        } else {
            "There may be more soft furniture in the room than described".to_owned()
        }
    };
    let suspects = FURNITURE.into_iter().map(|factor| {
        let mut room = described.clone();
        room.furniture_absorption_m2 = room.furniture_absorption_m2 * factor;
        room.furniture_surface_m2 *= factor;
        Suspect {
            words: words(factor),
            longer: longer(&room),
        }
    });
    suspects.collect()
}

/// An opening more is taken for a thing that absorbs all that meets it.
fn openings(described: &Room, longer: &dyn Fn(&Room) -> Vec<f64>) -> Vec<Suspect> {
    let suspects = OPENINGS_M2.into_iter().map(|area_m2| {
        let mut room = described.clone();
        room.furniture_absorption_m2 =
            room.furniture_absorption_m2 + Banded::constant(OPEN * area_m2);
        room.furniture_surface_m2 += area_m2;
        Suspect {
            words: format!("A door or an opening of about {area_m2} m² may have stood open"),
            longer: longer(&room),
        }
    });
    suspects.collect()
}

fn sizes(described: &Room, longer: &dyn Fn(&Room) -> Vec<f64>) -> Vec<Suspect> {
    let suspects = SIZES.into_iter().map(|factor| {
        let mut room = described.clone();
        room.size_m *= factor;
        for (surface, wall) in Surface::ALL.into_iter().zip(&mut room.walls) {
            wall.extent = surface.extent(room.size_m);
        }
        let words = if factor < 1.0 { "smaller" } else { "larger" };
        Suspect {
            words: format!("A side or the height may be wrong: a {words} room would fit"),
            longer: longer(&room),
        }
    });
    suspects.collect()
}

fn falls(case: &Case) -> Vec<Suspect> {
    let suspects = FALLS.into_iter().map(|(share, words)| Suspect {
        words: words.to_owned(),
        longer: vec![share.ln(); case.readings.len()],
    });
    suspects.collect()
}

/// Logarithms of T20 in s.
fn ln_t20(room: &Room) -> [f64; BANDS] {
    let times_s = t20_of_bands(room, 0..BANDS);
    std::array::from_fn(|band| times_s[band].unwrap_or(ENDLESS_S).ln())
}
