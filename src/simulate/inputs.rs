//! What is drawn, in words: what a named input is, and what a person can do to know it better.

use crate::finish;
use crate::furnishing;
use crate::geometry::Surface;
use crate::scenario::Scenario;

use super::absorbers::role_in_words;
use super::doubts::{MODEL, SCATTERING, SIDES, SIZE_EFFECT};

/// What an input is, and what can be done about it.
pub(super) fn in_words(scenario: &Scenario, name: &str) -> (String, String) {
    let (group, id) = name.split_once(' ').unwrap_or((name, ""));
    let (words, advice) = match group {
        "finish" => (
            finish_words(scenario, id),
            "Find out how it is built up, or ask for tested figures.",
        ),
        "furnishing" => (
            furnishing_words(scenario, id),
            "Few such things have published figures: only a measured decay tells.",
        ),
        "kind" => (
            kind_words(scenario, id),
            "Ask for tested figures of the finished piece.",
        ),
        _ => other_words(name),
    };
    (words, advice.to_owned())
}

fn other_words(name: &str) -> (String, &'static str) {
    let side = SIDES.into_iter().find(|side| *side == name);
    if let Some(side) = side {
        return (
            format!("The room's {side}"),
            "Measure it to the centimetre.",
        );
    }
    let (words, advice) = match name {
        SCATTERING => (
            "How unevenly walls and furniture throw sound back",
            "More furniture makes this matter less.",
        ),
        SIZE_EFFECT => (
            "What the edges of pieces add",
            "Nothing to look up: a decay measured with them in tells.",
        ),
        MODEL => (
            "How far this way of computing is off",
            "Nothing to look up: the range allows for it.",
        ),
        other => (other, ""),
    };
    (words.to_owned(), advice)
}

fn kind_words(scenario: &Scenario, id: &str) -> String {
    let name = scenario.kind(id).map_or(id, |kind| kind.name.as_str());
    format!("What “{name}” absorbs")
}

fn furnishing_words(scenario: &Scenario, id: &str) -> String {
    let own = scenario.own_furnishings.iter().find(|own| own.id == id);
    let name = own
        .map(|own| own.name.as_str())
        .or_else(|| furnishing::furnishing(id).map(|kind| kind.name));
    name.unwrap_or(id).to_owned()
}

/// Name of the finish, and where it is.
fn finish_words(scenario: &Scenario, id: &str) -> String {
    let own = scenario.own_finishes.iter().find(|own| own.id == id);
    let name = own
        .map(|own| own.name.as_str())
        .or_else(|| finish::finish(id).map(|finish| finish.name));
    format!(
        "{} ({})",
        name.unwrap_or(id),
        places(scenario, id).join(", ")
    )
}

/// Every surface and every sort of part that has the finish.
fn places(scenario: &Scenario, id: &str) -> Vec<String> {
    let mut places = Vec::new();
    let mut add = |place: &str| {
        if !places.iter().any(|known| known == place) {
            places.push(place.to_owned());
        }
    };
    for surface in Surface::ALL {
        if scenario.surface(surface).finish == id {
            add(surface.in_words());
        }
    }
    for part in Surface::ALL
        .into_iter()
        .flat_map(|surface| &scenario.surface(surface).parts)
        .filter(|part| part.finish == id)
    {
        add(role_in_words(part.role));
    }
    places
}
