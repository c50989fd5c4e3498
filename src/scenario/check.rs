//! Relations between the fields of a scenario: names that must exist, things that must fit and not collide.

use super::document::{KeepClear, Part, Piece, Place, Plan, Role, Scenario, Spot};
use super::limits::most;
use super::reader::{Log, shortened};
use super::standing::Upright;
use crate::error::Code;
use crate::finish;
use crate::furnishing;
use crate::geometry::{Rect, Surface, TOUCH_M};

/// Places and the box round a turned foot are stored to 0.1 mm, which may move a side by this, m.
const ROUNDING_M: f64 = 1e-4;

/// Notes everything in the scenario that does not fit together.
pub fn check(scenario: &Scenario, log: &Log) {
    names(scenario, log);
    parts(scenario, log);
    furniture(scenario, log);
    let listenings = [("listening".to_owned(), &scenario.listening)]
        .into_iter()
        .chain(scenario.plans.iter().enumerate().filter_map(|(i, plan)| {
            Some((format!("plans[{i}].listening"), plan.listening.as_ref()?))
        }));
    for (path, listening) in listenings {
        for (i, loudspeaker) in listening.loudspeakers.iter().enumerate() {
            inside(
                scenario,
                &format!("{path}.loudspeakers[{i}]"),
                loudspeaker.spot,
                log,
            );
        }
        if let Some(seat) = listening.seat {
            inside(scenario, &format!("{path}.seat"), seat, log);
        }
    }
    for (i, plan) in scenario.plans.iter().enumerate() {
        pieces(scenario, plan, &format!("plans[{i}].pieces"), log);
    }
}

/// Names: unique where they must be, and referring to something.
fn names(scenario: &Scenario, log: &Log) {
    if scenario.plans.is_empty() {
        log.note(
            "plans",
            Code::OutOfLimits,
            "plans must hold at least one plan, the room as it is.".to_owned(),
        );
    }
    unique(
        scenario.plans.iter().map(|plan| plan.name.as_str()),
        "plans",
        "name",
        log,
    );
    unique(
        scenario.kit.iter().map(|kind| kind.id.as_str()),
        "kit",
        "id",
        log,
    );
    let finishes = finish::FINISHES
        .iter()
        .map(|finish| finish.id)
        .collect::<Vec<_>>();
    let furnishings = furnishing::FURNISHINGS
        .iter()
        .map(|furnishing| furnishing.id)
        .collect::<Vec<_>>();
    let own_finishes: Vec<&str> = scenario
        .own_finishes
        .iter()
        .map(|own| own.id.as_str())
        .collect();
    let own_furnishings: Vec<&str> = scenario
        .own_furnishings
        .iter()
        .map(|own| own.id.as_str())
        .collect();
    unique(own_finishes.iter().copied(), "own_finishes", "id", log);
    unique(
        own_furnishings.iter().copied(),
        "own_furnishings",
        "id",
        log,
    );
    not_taken(&own_finishes, &finishes, "own_finishes", log);
    not_taken(&own_furnishings, &furnishings, "own_furnishings", log);
    let known_finishes = [finishes, own_finishes].concat();
    for surface in Surface::ALL {
        let facts = scenario.surface(surface);
        let path = format!("room.surfaces.{}", surface.name());
        known(
            &facts.finish,
            &known_finishes,
            &format!("{path}.finish"),
            "finish",
            log,
        );
        for (i, part) in facts.parts.iter().enumerate() {
            known(
                &part.finish,
                &known_finishes,
                &format!("{path}.parts[{i}].finish"),
                "finish",
                log,
            );
        }
    }
    let known_furnishings = [furnishings, own_furnishings].concat();
    for (i, item) in scenario.room.furnishings.iter().enumerate() {
        known(
            &item.kind,
            &known_furnishings,
            &format!("room.furnishings[{i}].kind"),
            "furnishing",
            log,
        );
    }
    let plan_names: Vec<&str> = scenario
        .plans
        .iter()
        .map(|plan| plan.name.as_str())
        .collect();
    for (i, measured) in scenario.measured.iter().enumerate() {
        known(
            &measured.plan,
            &plan_names,
            &format!("measured[{i}].plan"),
            "plan",
            log,
        );
    }
}

/// Every name but empty ones, which could not be read, once only.
fn unique<'a>(names: impl Iterator<Item = &'a str>, list: &str, key: &str, log: &Log) {
    let mut seen: Vec<&str> = Vec::new();
    for (i, name) in names.enumerate() {
        if !name.is_empty() && seen.contains(&name) {
            let path = format!("{list}[{i}].{key}");
            log.note(
                &path,
                Code::NotUnique,
                format!(
                    "{path}: “{}” is used twice; each {key} must differ.",
                    shortened(name)
                ),
            );
        }
        seen.push(name);
    }
}

fn not_taken(own: &[&str], library: &[&str], list: &str, log: &Log) {
    for (i, id) in own
        .iter()
        .enumerate()
        .filter(|(_, id)| library.contains(id))
    {
        let path = format!("{list}[{i}].id");
        log.note(
            &path,
            Code::NotUnique,
            format!("{path}: “{id}” is a name of the built-in library; choose another."),
        );
    }
}

fn known(name: &str, names: &[&str], path: &str, what: &str, log: &Log) {
    if !name.is_empty() && !names.contains(&name) {
        log.note(
            path,
            Code::NoSuchName,
            format!("{path}: there is no {what} “{}”.", shortened(name)),
        );
    }
}

/// Parts and keep-clear zones: on their surface, parts apart from one another.
fn parts(scenario: &Scenario, log: &Log) {
    let count: usize = scenario
        .room
        .surfaces
        .iter()
        .map(|surface| surface.parts.len())
        .sum();
    if count > most::PARTS {
        let message = format!(
            "room.surfaces has {count} parts; at most {} are allowed.",
            most::PARTS
        );
        log.note("room.surfaces", Code::OutOfLimits, message);
    }
    for surface in Surface::ALL {
        let parts = &scenario.surface(surface).parts;
        let path = |i: usize| format!("room.surfaces.{}.parts[{i}]", surface.name());
        for (i, part) in parts.iter().enumerate() {
            on_surface(scenario, surface, part.rect, &path(i), log);
            if let Some(other) = parts[..i]
                .iter()
                .position(|other| other.rect.overlaps(part.rect))
            {
                log.note(
                    &path(i),
                    Code::Overlap,
                    format!(
                        "{} overlaps {}; parts lie side by side.",
                        path(i),
                        path(other)
                    ),
                );
            }
        }
    }
    for (i, zone) in scenario.room.keep_clear.iter().enumerate() {
        on_surface(
            scenario,
            zone.surface,
            zone.rect,
            &format!("room.keep_clear[{i}]"),
            log,
        );
    }
}

/// Notes a rectangle that reaches beyond its surface.
fn on_surface(scenario: &Scenario, surface: Surface, rect: Rect, path: &str, log: &Log) {
    let extent = surface.extent(scenario.room.size_m());
    for (key, from, length, end) in [
        ("u_m", rect.u_m, rect.width_m, extent.width_m),
        ("v_m", rect.v_m, rect.height_m, extent.height_m),
    ] {
        if from + length > end + TOUCH_M {
            let path = format!("{path}.{key}");
            let message = format!(
                "{path}: its far edge lies at {:.4} m, but the {} ends at {end} m.",
                from + length,
                surface.in_words()
            );
            log.note(&path, Code::OutsideRoom, message);
        }
    }
}

/// Furniture with a place stands in the room.
fn furniture(scenario: &Scenario, log: &Log) {
    let size_m = scenario.room.size_m();
    for (i, item) in scenario.room.furnishings.iter().enumerate() {
        let Some(at) = item.at else { continue };
        for (key, end, limit) in [
            ("x_m", at.x_m + at.width_m, size_m.x),
            ("y_m", at.y_m + at.depth_m, size_m.y),
        ] {
            if end > limit + TOUCH_M {
                let path = format!("room.furnishings[{i}].at.{key}");
                log.note(
                    &path,
                    Code::OutsideRoom,
                    format!(
                        "{path}: its far side stands at {end:.4} m, but the room ends at {limit} m."
                    ),
                );
            }
        }
    }
}

/// Notes a point outside the room.
fn inside(scenario: &Scenario, path: &str, spot: Spot, log: &Log) {
    let size_m = scenario.room.size_m();
    for (key, value, limit) in [
        ("x_m", spot.x_m, size_m.x),
        ("y_m", spot.y_m, size_m.y),
        ("z_m", spot.z_m, size_m.z),
    ] {
        if value > limit {
            let path = format!("{path}.{key}");
            log.note(
                &path,
                Code::OutsideRoom,
                format!("{path} is {value} m; the room ends at {limit} m."),
            );
        }
    }
}

/// Pieces of one plan: of a known kind, in their place, clear of everything that must stay clear.
fn pieces(scenario: &Scenario, plan: &Plan, list: &str, log: &Log) {
    let mut placed: Vec<(usize, Surface, Rect)> = Vec::new();
    let mut standing: Vec<(usize, Upright)> = Vec::new();
    for (i, piece) in plan.pieces.iter().enumerate() {
        let path = format!("{list}[{i}]");
        if scenario.kind(&piece.kit).is_none() {
            known(
                &piece.kit,
                &[],
                &format!("{path}.kit"),
                "kind of piece",
                log,
            );
            continue;
        }
        match piece.place {
            Place::Corner { z_m, .. } => below_ceiling(scenario, piece, z_m, &path, log),
            Place::Stand { x_m, y_m, z_m, .. } => {
                inside(scenario, &path, Spot { x_m, y_m, z_m }, log);
                below_ceiling(scenario, piece, z_m, &path, log);
            }
            Place::Surface { .. } | Place::Curtain { .. } => {
                if let Some((surface, rect)) = piece_rect(scenario, piece) {
                    on_surface(scenario, surface, rect, &path, log);
                }
            }
        }
        free_of_ways(scenario, piece, &path, log);
        if let Some(body) = body(scenario, piece) {
            let is_stand = matches!(piece.place, Place::Stand { .. });
            if is_stand {
                within_walls(scenario, &body, &path, log);
                if let Some((other, _)) = standing.iter().find(|(_, with)| with.meets(&body)) {
                    log.note(
                        &path,
                        Code::Overlap,
                        format!("{path} overlaps {list}[{other}]; stands stand side by side."),
                    );
                }
                standing.push((i, body));
            }
            let zones = scenario.room.keep_clear.iter().enumerate();
            let mut floor = zones.filter(|(_, zone)| zone.surface == Surface::Floor);
            let size_m = scenario.room.size_m();
            if let Some((i, zone)) =
                floor.find(|(_, zone)| Upright::zone(zone, size_m).meets(&body))
            {
                near_zone(zone, i, &path, log);
            }
        }
        for (surface, rect) in hidden(scenario, piece) {
            clear(scenario, piece, surface, rect, &path, log);
            if let Some((other, ..)) = placed
                .iter()
                .find(|(number, on, with)| *number != i && *on == surface && with.overlaps(rect))
            {
                log.note(
                    &path,
                    Code::Overlap,
                    format!("{path} overlaps {list}[{other}]; pieces hang side by side."),
                );
            }
            placed.push((i, surface, rect));
        }
    }
}

/// The rectangles of walls that a piece hides; a corner piece hides the two short sides of its triangle.
fn hidden(scenario: &Scenario, piece: &Piece) -> Vec<(Surface, Rect)> {
    let (Place::Corner { edge, z_m }, Some(kind)) = (&piece.place, scenario.kind(&piece.kit))
    else {
        return piece_rect(scenario, piece).into_iter().collect();
    };
    let size_m = scenario.room.size_m();
    let leg_m = kind.width_m * std::f64::consts::FRAC_1_SQRT_2;
    edge.walls()
        .map(|(wall, beside)| {
            let side_m = wall.extent(size_m).width_m;
            let rect = Rect {
                u_m: if beside.is_far() { side_m - leg_m } else { 0.0 },
                v_m: *z_m,
                width_m: leg_m,
                height_m: kind.height_m,
            };
            (wall, rect)
        })
        .to_vec()
}

/// Surface and rectangle of a piece on a surface; none for the others.
#[must_use]
pub fn piece_rect(scenario: &Scenario, piece: &Piece) -> Option<(Surface, Rect)> {
    let kind = scenario.kind(&piece.kit)?;
    match piece.place {
        Place::Surface {
            surface,
            u_m,
            v_m,
            turned,
        } => Some((surface, kind.rect(u_m, v_m, turned))),
        Place::Curtain {
            surface, u_m, v_m, ..
        } => Some((surface, kind.rect(u_m, v_m, false))),
        Place::Corner { .. } | Place::Stand { .. } => None,
    }
}

/// What a stand or a corner piece takes above the floor, less what rounding may add; none for the others.
fn body(scenario: &Scenario, piece: &Piece) -> Option<Upright> {
    let kind = scenario.kind(&piece.kit)?;
    let whole = Upright::piece(kind, kind.depth_m(), &piece.place, scenario.room.size_m())?;
    Some(Upright {
        foot: whole.foot.grown(-ROUNDING_M),
        ..whole
    })
}

/// The foot of a stand lies within the walls.
fn within_walls(scenario: &Scenario, body: &Upright, path: &str, log: &Log) {
    let size_m = scenario.room.size_m();
    let foot = body.foot;
    for (key, from_m, to_m, end_m) in [
        ("x_m", foot.u_m, foot.u_m + foot.width_m, size_m.x),
        ("y_m", foot.v_m, foot.v_m + foot.height_m, size_m.y),
    ] {
        let middle_is_in = (0.0..=end_m).contains(&f64::midpoint(from_m, to_m));
        if middle_is_in && (from_m < -TOUCH_M || to_m > end_m + TOUCH_M) {
            let path = format!("{path}.{key}");
            let message =
                format!("{path}: its foot reaches into a wall, from {from_m:.3} to {to_m:.3} m.");
            log.note(&path, Code::OutsideRoom, message);
        }
    }
}

/// A stand keeps out of the ways before doors and openings; what hangs beside a door keeps out of the swing of its leaf.
fn free_of_ways(scenario: &Scenario, piece: &Piece, path: &str, log: &Log) {
    let size_m = scenario.room.size_m();
    let Some(kind) = scenario.kind(&piece.kit) else {
        return;
    };
    let body = body(scenario, piece);
    let is_stand = matches!(piece.place, Place::Stand { .. });
    let hung = piece_rect(scenario, piece)
        .filter(|(wall, _)| wall.axis() < 2 && matches!(piece.place, Place::Surface { .. }));
    for wall in Surface::ALL.into_iter().filter(|wall| wall.axis() < 2) {
        let in_the_way = |part: &Part| {
            let way = Upright::way(wall, part, size_m).filter(|_| is_stand);
            let stands = way.zip(body).is_some_and(|(way, body)| way.meets(&body));
            let sweep = Upright::sweep(wall, part, size_m).zip(hung);
            stands
                || sweep.is_some_and(|(sweep, (on, rect))| {
                    on != wall
                        && sweep.gap_m(on, size_m) < kind.depth_m() - TOUCH_M
                        && sweep.shadow(on).overlaps(rect)
                })
        };
        let parts = &scenario.surface(wall).parts;
        if let Some(i) = parts.iter().position(in_the_way) {
            let message = format!(
                "{path} is in the way before room.surfaces.{}.parts[{i}], which must stay free.",
                wall.name()
            );
            log.note(path, Code::Overlap, message);
        }
    }
}

/// A stand and a corner piece stay below the ceiling.
fn below_ceiling(scenario: &Scenario, piece: &Piece, z_m: f64, path: &str, log: &Log) {
    let top_m = z_m + scenario.kind(&piece.kit).map_or(0.0, |kind| kind.height_m);
    let height_m = scenario.room.height_m;
    if top_m > height_m + TOUCH_M {
        let path = format!("{path}.z_m");
        log.note(
            &path,
            Code::OutsideRoom,
            format!("{path}: its top lies at {top_m:.4} m, but the ceiling is at {height_m} m."),
        );
    }
}

/// A piece keeps clear of doors, openings, built-ins (curtains may cover parts) and of keep-clear zones.
fn clear(scenario: &Scenario, piece: &Piece, surface: Surface, rect: Rect, path: &str, log: &Log) {
    let covers_parts = matches!(piece.place, Place::Curtain { .. });
    let blocks = |part: &Part| {
        matches!(part.role, Role::Door | Role::Opening | Role::BuiltIn) && part.rect.overlaps(rect)
    };
    let parts = &scenario.surface(surface).parts;
    if let Some(i) = parts.iter().position(blocks).filter(|_| !covers_parts) {
        let message = format!(
            "{path} covers room.surfaces.{}.parts[{i}], which must stay free.",
            surface.name()
        );
        log.note(path, Code::Overlap, message);
    }
    let near =
        |zone: &KeepClear| zone.surface == surface && zone.rect.grown(zone.margin_m).overlaps(rect);
    if let Some(i) = scenario.room.keep_clear.iter().position(near) {
        near_zone(&scenario.room.keep_clear[i], i, path, log);
    }
}

fn near_zone(zone: &KeepClear, number: usize, path: &str, log: &Log) {
    let message = format!(
        "{path} comes nearer than {} m to room.keep_clear[{number}] ({}).",
        zone.margin_m,
        shortened(&zone.why)
    );
    log.note(path, Code::Overlap, message);
}
