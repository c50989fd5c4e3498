//! Reads a scenario from JSON, field by field, with the limits of each.

use serde_json::Value;

use super::document::{
    Edge, Footprint, Furnished, Goal, HomeLimits, KeepClear, Listening, Looks, Loudspeaker,
    Measured, OwnFinish, OwnFurnishing, Part, Piece, Place, Plan, Role, RoomFacts, Scattering,
    Scenario, Spot, SurfaceFacts, Taste,
};
use super::limits::{CURRENCY_LENGTH, NAME_LENGTH, RATIO, most};
use super::read_kind::{LOOKS, band_values, frequencies, kind, same_length, scattering};
use super::reader::{Fields, Log, Span, text, word};
use crate::directivity::Directivity;
use crate::error::Code;
use crate::geometry::{Rect, Surface};

/// The format that this version writes.
pub const FORMAT: u32 = 1;

/// Characters of a path in `assumed`.
const PATH_LENGTH: usize = 120;

/// Sides of the room.
const SIDE: Span = Span::new(1.2, 25.0, "m");
/// A position in the room; what matters more is checked against the room itself.
const POSITION: Span = Span::new(0.0, 25.0, "m");
/// A side of a part, a zone or a piece of furniture.
const EXTENT: Span = Span::new(0.01, 25.0, "m");

/// The surfaces by name.
const SURFACES: [(&str, Surface); 6] = {
    let [left, right, front, back, floor, ceiling] = Surface::ALL;
    [
        (left.name(), left),
        (right.name(), right),
        (front.name(), front),
        (back.name(), back),
        (floor.name(), floor),
        (ceiling.name(), ceiling),
    ]
};

/// Reads the whole document; the log holds what is wrong with it.
pub fn scenario(value: &Value, log: &Log) -> Scenario {
    let fields = Fields::of(value, String::new(), log);
    let format = fields.count("format", Span::new(1.0, 1_000_000.0, ""));
    if format > FORMAT {
        log.forgive_unknown_keys();
    }
    let scenario = Scenario {
        format,
        title: fields.text("title", NAME_LENGTH),
        room: fields.object("room").map_or_else(no_room, room),
        listening: fields.object("listening").map_or_else(
            || Listening {
                loudspeakers: Vec::new(),
                seat: None,
            },
            listening,
        ),
        goal: fields.object_or_none("goal").and_then(goal),
        limits: fields.object_or_none("limits").map(limits),
        currency: fields.text_or_none("currency", CURRENCY_LENGTH),
        kit: each(fields.items_or_none("kit", most::KINDS), log, kind),
        plans: each(fields.items("plans", most::PLANS), log, plan),
        measured: each(
            fields.items_or_none("measured", most::MEASURED),
            log,
            measured,
        ),
        own_finishes: each(
            fields.items_or_none("own_finishes", most::OWN),
            log,
            own_finish,
        ),
        own_furnishings: each(
            fields.items_or_none("own_furnishings", most::OWN),
            log,
            own_furnishing,
        ),
        assumed: texts(&fields, "assumed", most::ASSUMED, PATH_LENGTH),
    };
    fields.finish();
    scenario
}

/// Every object of a list.
fn each<'a, T>(
    items: Vec<(&'a Value, String)>,
    log: &'a Log,
    read: impl Fn(Fields<'a>) -> T,
) -> Vec<T> {
    items
        .into_iter()
        .map(|(value, path)| read(Fields::of(value, path, log)))
        .collect()
}

/// A list of texts.
fn texts(fields: &Fields, key: &'static str, most: usize, length: usize) -> Vec<String> {
    fields
        .items_or_none(key, most)
        .iter()
        .map(|(value, path)| text(value, path, length, fields.log()))
        .collect()
}

/// Stands in for a room that is not there.
fn no_room() -> RoomFacts {
    RoomFacts {
        width_m: f64::NAN,
        length_m: f64::NAN,
        height_m: f64::NAN,
        temperature_c: None,
        humidity_percent: None,
        surfaces: Default::default(),
        furnishings: Vec::new(),
        keep_clear: Vec::new(),
        conditions: Vec::new(),
    }
}

fn room(fields: Fields) -> RoomFacts {
    let log = fields.log();
    let room = RoomFacts {
        width_m: fields.number("width_m", SIDE),
        length_m: fields.number("length_m", SIDE),
        height_m: fields.number("height_m", SIDE),
        temperature_c: fields.number_or_none("temperature_c", Span::new(-10.0, 45.0, "°C")),
        humidity_percent: fields.number_or_none("humidity_percent", Span::new(5.0, 100.0, "%")),
        surfaces: fields
            .object("surfaces")
            .map_or_else(Default::default, surfaces),
        furnishings: each(
            fields.items_or_none("furnishings", most::FURNISHINGS),
            log,
            furnished,
        ),
        keep_clear: each(
            fields.items_or_none("keep_clear", most::KEEP_CLEAR),
            log,
            keep_clear,
        ),
        conditions: texts(&fields, "conditions", most::CONDITIONS, NAME_LENGTH),
    };
    fields.finish();
    room
}

fn surfaces(fields: Fields) -> [SurfaceFacts; 6] {
    let read = Surface::ALL.map(|surface| {
        fields
            .object(surface.name())
            .map_or_else(SurfaceFacts::default, surface_facts)
    });
    fields.finish();
    read
}

fn surface_facts(fields: Fields) -> SurfaceFacts {
    let log = fields.log();
    let facts = SurfaceFacts {
        finish: fields.text("finish", NAME_LENGTH),
        parts: each(fields.items_or_none("parts", most::PARTS), log, part),
    };
    fields.finish();
    facts
}

fn rect(fields: &Fields) -> Rect {
    Rect {
        u_m: fields.number("u_m", POSITION),
        v_m: fields.number("v_m", POSITION),
        width_m: fields.number("width_m", EXTENT),
        height_m: fields.number("height_m", EXTENT),
    }
}

fn part(fields: Fields) -> Part {
    const ROLES: [(&str, Role); 5] = [
        ("wall", Role::Wall),
        ("door", Role::Door),
        ("window", Role::Window),
        ("opening", Role::Opening),
        ("built-in", Role::BuiltIn),
    ];
    let part = Part {
        role: fields.word("role", &ROLES).unwrap_or(Role::Wall),
        finish: fields.text("finish", NAME_LENGTH),
        rect: rect(&fields),
        depth_m: fields.number_or_none("depth_m", Span::new(0.0, 5.0, "m")),
        swing_m: fields.number_or_none("swing_m", Span::new(0.0, 3.0, "m")),
    };
    fields.finish();
    part
}

fn furnished(fields: Fields) -> Furnished {
    let furnished = Furnished {
        kind: fields.text("kind", NAME_LENGTH),
        count: fields.count("count", Span::new(1.0, 100.0, "")),
        at: fields.object_or_none("at").map(footprint),
    };
    fields.finish();
    furnished
}

fn footprint(fields: Fields) -> Footprint {
    let footprint = Footprint {
        x_m: fields.number("x_m", POSITION),
        y_m: fields.number("y_m", POSITION),
        width_m: fields.number("width_m", EXTENT),
        depth_m: fields.number("depth_m", EXTENT),
        height_m: fields.number("height_m", EXTENT),
    };
    fields.finish();
    footprint
}

fn keep_clear(fields: Fields) -> KeepClear {
    let zone = KeepClear {
        surface: fields.word("surface", &SURFACES).unwrap_or(Surface::Left),
        rect: rect(&fields),
        margin_m: fields.number("margin_m", Span::new(0.0, 5.0, "m")),
        why: fields.text("why", NAME_LENGTH),
    };
    fields.finish();
    zone
}

fn spot(fields: &Fields) -> Spot {
    Spot {
        x_m: fields.number("x_m", POSITION),
        y_m: fields.number("y_m", POSITION),
        z_m: fields.number("z_m", POSITION),
    }
}

fn listening(fields: Fields) -> Listening {
    let log = fields.log();
    let listening = Listening {
        loudspeakers: each(
            fields.items("loudspeakers", most::LOUDSPEAKERS),
            log,
            loudspeaker,
        ),
        seat: fields.object_or_none("seat").map(|seat| {
            let at = spot(&seat);
            seat.finish();
            at
        }),
    };
    fields.finish();
    listening
}

fn loudspeaker(fields: Fields) -> Loudspeaker {
    const KINDS: [(&str, Directivity); 3] = [
        ("narrow", Directivity::Narrow),
        ("ordinary", Directivity::Ordinary),
        ("wide", Directivity::Wide),
    ];
    let loudspeaker = Loudspeaker {
        spot: spot(&fields),
        directivity: fields.word_or_none("directivity", &KINDS),
        toe_in_deg: fields.number_or_none("toe_in_deg", Span::new(-180.0, 180.0, "°")),
    };
    fields.finish();
    loudspeaker
}

fn goal(fields: Fields) -> Option<Goal> {
    const TASTES: [(&str, Taste); 3] = [
        ("focused", Taste::Focused),
        ("lived-in", Taste::LivedIn),
        ("spacious", Taste::Spacious),
    ];
    const SECONDS: Span = Span::new(0.05, 10.0, "s");
    let goal = if fields.has("low_s") || fields.has("high_s") {
        let (low_s, high_s) = (
            fields.number("low_s", SECONDS),
            fields.number("high_s", SECONDS),
        );
        if low_s >= high_s {
            let message =
                format!("goal.low_s is {low_s} s; it must be below goal.high_s, {high_s} s.");
            fields
                .log()
                .note(&fields.at("low_s"), Code::OutOfLimits, message);
        }
        Some(Goal::Range { low_s, high_s })
    } else {
        fields
            .word("taste", &TASTES)
            .map(|taste| Goal::Taste { taste })
    };
    fields.finish();
    goal
}

fn limits(fields: Fields) -> HomeLimits {
    const HEIGHT: Span = Span::new(0.0, 25.0, "m");
    let log = fields.log();
    let bare = fields.items_or_none("bare", Surface::ALL.len());
    let limits = HomeLimits {
        budget: fields.number_or_none("budget", Span::new(0.0, 1e7, "")),
        no_drilling: fields.flag_or_none("no_drilling"),
        bare: bare
            .iter()
            .filter_map(|(value, path)| word(value, path, &SURFACES, log))
            .collect(),
        max_depth_m: fields.number_or_none("max_depth_m", Span::new(0.0, 2.0, "m")),
        min_height_m: fields.number_or_none("min_height_m", HEIGHT),
        max_height_m: fields.number_or_none("max_height_m", HEIGHT),
        max_visible: fields.count_or_none("max_visible", Span::new(0.0, 200.0, "")),
        looks_like: looks_like(&fields),
    };
    fields.finish();
    limits
}

/// What pieces may look like; a list that allows nothing is a finding, as one that is left out allows everything.
fn looks_like(fields: &Fields) -> Vec<Looks> {
    let list = fields.items_or_none("looks_like", LOOKS.len());
    if list.is_empty() && fields.has("looks_like") {
        let path = fields.at("looks_like");
        let message = format!(
            "{path} must name at least one of picture, furniture; without it any look is allowed."
        );
        fields.log().note(&path, Code::OutOfLimits, message);
    }
    list.iter()
        .filter_map(|(value, path)| word(value, path, &LOOKS, fields.log()))
        .collect()
}

fn plan(fields: Fields) -> Plan {
    let log = fields.log();
    let plan = Plan {
        name: fields.text("name", NAME_LENGTH),
        pieces: each(fields.items("pieces", most::PIECES), log, piece),
        listening: fields.object_or_none("listening").map(listening),
    };
    fields.finish();
    plan
}

/// A single piece of a document of some format.
pub fn piece_at(value: &Value, path: String, format: u32, log: &Log) -> Piece {
    if format > FORMAT {
        log.forgive_unknown_keys();
    }
    piece(Fields::of(value, path, log))
}

/// Where a piece may be.
#[derive(Clone, Copy)]
enum PlaceKind {
    Surface,
    Corner,
    Stand,
    Curtain,
}

fn piece(fields: Fields) -> Piece {
    const PLACES: [(&str, PlaceKind); 4] = [
        ("surface", PlaceKind::Surface),
        ("corner", PlaceKind::Corner),
        ("stand", PlaceKind::Stand),
        ("curtain", PlaceKind::Curtain),
    ];
    let kit = fields.text("kit", NAME_LENGTH);
    let place = match fields
        .word_or_none("place", &PLACES)
        .unwrap_or(PlaceKind::Surface)
    {
        PlaceKind::Surface => on_surface(&fields),
        PlaceKind::Corner => in_corner(&fields),
        PlaceKind::Stand => on_stand(&fields),
        PlaceKind::Curtain => as_curtain(&fields),
    };
    fields.finish();
    Piece { kit, place }
}

fn on_surface(fields: &Fields) -> Place {
    Place::Surface {
        surface: fields.word("surface", &SURFACES).unwrap_or(Surface::Left),
        u_m: fields.number("u_m", POSITION),
        v_m: fields.number("v_m", POSITION),
        turned: fields.flag_or_none("turned").unwrap_or(false),
    }
}

fn in_corner(fields: &Fields) -> Place {
    const EDGES: [(&str, Edge); 4] = [
        ("front-left", Edge::FrontLeft),
        ("front-right", Edge::FrontRight),
        ("back-left", Edge::BackLeft),
        ("back-right", Edge::BackRight),
    ];
    Place::Corner {
        edge: fields.word("edge", &EDGES).unwrap_or(Edge::FrontLeft),
        z_m: fields.number("z_m", POSITION),
    }
}

fn on_stand(fields: &Fields) -> Place {
    let Spot { x_m, y_m, z_m } = spot(fields);
    Place::Stand {
        x_m,
        y_m,
        z_m,
        turn_deg: fields.number("turn_deg", Span::new(-360.0, 360.0, "°")),
    }
}

fn as_curtain(fields: &Fields) -> Place {
    Place::Curtain {
        surface: fields.word("surface", &SURFACES).unwrap_or(Surface::Left),
        u_m: fields.number("u_m", POSITION),
        v_m: fields.number("v_m", POSITION),
        open: fields.number_or_none("open", RATIO).unwrap_or(0.0),
    }
}

fn measured(fields: Fields) -> Measured {
    let bands_hz = frequencies(&fields);
    let decay_s = fields.numbers("decay_s", most::BAND_VALUES, Span::new(0.05, 20.0, "s"));
    same_length(&fields, "decay_s", decay_s.len(), bands_hz.len());
    let measured = Measured {
        plan: fields.text("plan", NAME_LENGTH),
        bands_hz,
        decay_s,
    };
    fields.finish();
    measured
}

fn own_finish(fields: Fields) -> OwnFinish {
    let finish = OwnFinish {
        id: fields.text("id", NAME_LENGTH),
        name: fields.text("name", NAME_LENGTH),
        values: band_values(&fields),
        scattering: scattering(&fields),
    };
    if let Some(Scattering::PerBand(values)) = &finish.scattering {
        same_length(
            &fields,
            "scattering",
            values.len(),
            finish.values.bands_hz.len(),
        );
    }
    fields.finish();
    finish
}

fn own_furnishing(fields: Fields) -> OwnFurnishing {
    let bands_hz = frequencies(&fields);
    let absorption_area_m2 = fields.numbers(
        "absorption_area_m2",
        most::BAND_VALUES,
        Span::new(0.0, 50.0, "m²"),
    );
    same_length(
        &fields,
        "absorption_area_m2",
        absorption_area_m2.len(),
        bands_hz.len(),
    );
    let furnishing = OwnFurnishing {
        id: fields.text("id", NAME_LENGTH),
        name: fields.text("name", NAME_LENGTH),
        bands_hz,
        absorption_area_m2,
        surface_m2: fields.number("surface_m2", Span::new(0.1, 100.0, "m²")),
    };
    fields.finish();
    furnishing
}
