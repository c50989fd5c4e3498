//! Where a piece may be: what the building, the furniture and the person's own limits allow. Every refusal names its rule.

use serde::Serialize;

use crate::geometry::{Rect, Surface};
use crate::scenario::Scenario;
use crate::scenario::document::{HomeLimits, Kind, Listening, Looks, Part, Piece, Place, Role};
use crate::scenario::standing::{self, SILL_M, Upright, corner_leg_m, far};

use super::route::{Floor, ROUTE_M};

/// Why a piece may not be somewhere.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Rule {
    /// The surface is kept bare.
    Bare,
    /// It would need holes.
    NoDrilling,
    /// It does not look like what the home allows.
    Looks,
    /// It is deeper than allowed.
    Depth,
    /// It reaches below the lowest fixing.
    Lowest,
    /// It reaches above the highest fixing.
    Highest,
    /// No more pieces may be seen.
    Visible,
    /// A zone must stay clear.
    Zone,
    /// A door.
    Door,
    /// A window, which must open.
    Window,
    /// An opening.
    Opening,
    /// Something built in.
    BuiltIn,
    /// Furniture stands there.
    Furniture,
    /// A way or the swing of a door.
    Way,
    /// No way to walk would be left between two doors, or from a door to the seat.
    Route,
    /// Another piece.
    Piece,
    /// A loudspeaker or the seat.
    Listener,
    /// Between a loudspeaker and the seat.
    DirectSound,
    /// It does not fit on the surface.
    TooLarge,
    /// Its kind is not meant for the surface: a rug on a wall, a curtain where no window is.
    Elsewhere,
}

/// Kept free beside a window, m. Common practice, no source.
const WINDOW_MARGIN_M: f64 = 0.05;

/// Half the side of what a loudspeaker and a person in the seat take of the floor, m. Common practice, no source.
const LOUDSPEAKER_M: f64 = 0.15;
const SEAT_M: f64 = 0.25;

/// What stands out from a wall by no more than this leaves a way as wide as it was, and who walks passes below what begins
/// higher than this, m.
///
/// # Source
/// 2010 ADA Standards for Accessible Design, 307.2 and 307.4: objects protrude at most 4 inches into a way, headroom at least
/// 80 inches (from memory).
const SLIM_M: f64 = 0.1016;
const HEAD_M: f64 = 2.032;

/// Who stands this near to a seat has arrived, m. Common practice, no source.
const LAST_STEP_M: f64 = 0.3;

/// Reaches past every surface, so that what covers all of it leaves no place at its rim, m.
const BEYOND_M: f64 = 1.0;

/// Room for rounding in a depth, m.
const DEPTH_ROUNDING_M: f64 = 1e-9;

/// An area of a surface that a piece may not overlap.
pub(super) type Obstacle = (Rect, Rule);

/// The home of a document, heard from one place.
#[derive(Clone, Copy, Debug)]
pub struct Home<'a> {
    /// The document.
    pub scenario: &'a Scenario,
    /// Where loudspeakers and seat are.
    pub listening: &'a Listening,
}

/// A kind with the depth that it stands out by, m.
#[derive(Clone, Copy, Debug)]
pub struct Shape<'a> {
    /// The kind.
    pub kind: &'a Kind,
    /// Depth, m.
    pub depth_m: f64,
}

/// What a piece covers, in ways that can be compared.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Covered {
    /// Of surfaces.
    pub on: Vec<(Surface, Rect)>,
    /// Above the floor: stands and corner pieces.
    pub stands: Option<Upright>,
}

impl Covered {
    /// Whether two pieces are in each other's way.
    #[must_use]
    pub fn meets(&self, other: &Self) -> bool {
        let both = |a: &Rect, b: &Rect| a.overlaps(*b);
        let standing = self.stands.iter().zip(&other.stands);
        standing.into_iter().any(|(a, b)| a.meets(b))
            || self
                .on
                .iter()
                .any(|(surface, a)| other.on.iter().any(|(on, b)| surface == on && both(a, b)))
    }
}

/// Whether a place needs holes: what stands, hangs from a rod or lies on the floor does not.
#[must_use]
pub fn needs_holes(place: &Place) -> bool {
    match place {
        Place::Stand { .. } | Place::Curtain { .. } => false,
        Place::Surface { surface, .. } => *surface != Surface::Floor,
        Place::Corner { .. } => true,
    }
}

/// Whether a piece shows as treatment: curtains and rugs belong to a home.
#[must_use]
pub fn is_visible(place: &Place) -> bool {
    match place {
        Place::Curtain { .. } => false,
        Place::Surface { surface, .. } => *surface != Surface::Floor,
        Place::Stand { .. } | Place::Corner { .. } => true,
    }
}

/// What a piece may be taken for: what its kind says, and curtains and rugs for what a home has anyway.
#[must_use]
pub fn looks(kind: &Kind, place: &Place) -> Option<Looks> {
    kind.looks
        .or_else(|| (!is_visible(place)).then_some(Looks::Furniture))
}

/// Whether the limits of a home allow a look; without a limit on looks every one.
pub(super) fn allows(limits: &HomeLimits, looks: Option<Looks>) -> bool {
    limits.looks_like.is_empty() || looks.is_some_and(|one| limits.looks_like.contains(&one))
}

pub(super) fn is_wall(surface: Surface) -> bool {
    surface.axis() < 2
}

/// Width and depth of the box round a turned foot, m.
pub(super) fn foot_m(shape: Shape<'_>, turn_deg: f64) -> (f64, f64) {
    standing::foot_m(shape.kind.width_m, shape.depth_m, turn_deg)
}

impl Home<'_> {
    /// The person's limits.
    fn limits(&self) -> Option<&HomeLimits> {
        self.scenario.limits.as_ref()
    }

    /// What a piece covers.
    #[must_use]
    pub fn covered(&self, shape: Shape<'_>, place: &Place) -> Covered {
        let size_m = self.scenario.room.size_m();
        let on = match *place {
            Place::Surface {
                surface,
                u_m,
                v_m,
                turned,
            } => vec![(surface, shape.kind.rect(u_m, v_m, turned))],
            Place::Curtain {
                surface, u_m, v_m, ..
            } => vec![(surface, shape.kind.rect(u_m, v_m, false))],
            Place::Corner { edge, z_m } => {
                let leg_m = corner_leg_m(shape.kind);
                let beside_edge = |(wall, beside): (Surface, Surface)| {
                    let side_m = wall.extent(size_m).width_m;
                    let rect = Rect {
                        u_m: far(beside, side_m, leg_m),
                        v_m: z_m,
                        width_m: leg_m,
                        height_m: shape.kind.height_m,
                    };
                    (wall, rect)
                };
                edge.walls().map(beside_edge).to_vec()
            }
            Place::Stand { .. } => Vec::new(),
        };
        Covered {
            on,
            stands: Upright::piece(shape.kind, shape.depth_m, place, size_m),
        }
    }

    /// The rule that refuses a piece, pieces apart; none if it may be there.
    #[must_use]
    pub fn refused(&self, shape: Shape<'_>, place: &Place) -> Option<Rule> {
        let refused = self.refused_there(shape, place);
        refused.or_else(|| {
            let foot = self.in_the_way(shape, place)?;
            let floor = self.floor();
            let before = floor.joined(&[]);
            (!floor.keeps(&before, &[foot])).then_some(Rule::Route)
        })
    }

    /// The same, ways to walk apart.
    fn refused_there(&self, shape: Shape<'_>, place: &Place) -> Option<Rule> {
        if let Some(rule) = self.refused_anywhere(shape, place) {
            return Some(rule);
        }
        let covered = self.covered(shape, place);
        let size_m = self.scenario.room.size_m();
        for (surface, rect) in &covered.on {
            if !holds(surface.extent(size_m), *rect) {
                return Some(Rule::TooLarge);
            }
            let obstacles = self.obstacles(*surface, shape, place);
            if let Some((_, rule)) = obstacles.iter().find(|(area, _)| area.overlaps(*rect)) {
                return Some(*rule);
            }
        }
        let body = covered.stands?;
        if !matches!(place, Place::Stand { .. }) {
            let kept = self.kept_free().into_iter();
            return kept
                .filter(|(one, _)| one.meets(&body))
                .map(|(_, rule)| rule)
                .next();
        }
        let is_too_tall = body.high_m > size_m.z + crate::geometry::TOUCH_M;
        if is_too_tall || !holds(Surface::Floor.extent(size_m), body.foot) {
            return Some(Rule::TooLarge);
        }
        let obstacles = self.floor_obstacles(body.high_m);
        let stood_on = obstacles.iter().find(|(area, _)| area.overlaps(body.foot));
        stood_on.map(|(_, rule)| *rule).or_else(|| {
            self.is_before_the_seat(body.foot)
                .then_some(Rule::DirectSound)
        })
    }

    /// The floor as it is walked, pieces apart.
    pub(super) fn floor(&self) -> Floor {
        let extent = Surface::Floor.extent(self.scenario.room.size_m());
        let furniture = self.furniture();
        let mut ends: Vec<Rect> = self.ways().map(at_least_a_route).collect();
        let seat = self.listening.seat;
        ends.extend(seat.map(|seat| {
            let is_in = |foot: &&Rect| foot.contains((seat.x_m, seat.y_m));
            let own = furniture.iter().find(is_in).copied();
            let around = own.unwrap_or_else(|| round(seat.x_m, seat.y_m, SEAT_M));
            around.grown(ROUTE_M / 2.0 + LAST_STEP_M)
        }));
        let built_in = self.built_in_on_floor().chain(self.listeners());
        let standing = built_in
            .map(|(area, _)| area)
            .chain(furniture.iter().copied());
        Floor::new(extent, ends, standing.collect())
    }

    /// What a piece takes of a way to walk; none for what lies, for cloth, and for what is slim or hangs above heads.
    pub(super) fn in_the_way(&self, shape: Shape<'_>, place: &Place) -> Option<Rect> {
        let covered = self.covered(shape, place);
        if let Some(body) = covered.stands {
            return (body.low_m < HEAD_M).then_some(body.foot);
        }
        let Place::Surface { surface, .. } = *place else {
            return None;
        };
        let (_, rect) = covered.on.into_iter().next()?;
        let is_in_it = is_wall(surface) && shape.depth_m > SLIM_M && rect.v_m < HEAD_M;
        let size_m = self.scenario.room.size_m();
        is_in_it.then(|| Upright::before(surface, rect, shape.depth_m, size_m).foot)
    }

    /// Of the floor: furniture in its place.
    fn furniture(&self) -> Vec<Rect> {
        let placed = self.scenario.room.furnishings.iter();
        let placed = placed.filter_map(|item| item.at);
        placed.map(|at| Upright::furniture(at).foot).collect()
    }

    /// Of the floor: what lies before doors and openings.
    fn ways(&self) -> impl Iterator<Item = Rect> {
        let size_m = self.scenario.room.size_m();
        self.wall_parts()
            .filter_map(move |(wall, part)| Upright::way(wall, part, size_m))
            .map(|body| body.foot)
    }

    /// The rule that refuses a kind wherever it is.
    pub(super) fn refused_anywhere(&self, shape: Shape<'_>, place: &Place) -> Option<Rule> {
        let limits = self.limits()?;
        let is_stand = matches!(place, Place::Stand { .. });
        let too_deep = |most_m: f64| shape.depth_m > most_m + DEPTH_ROUNDING_M;
        if limits.no_drilling == Some(true) && needs_holes(place) {
            return Some(Rule::NoDrilling);
        }
        if !allows(limits, looks(shape.kind, place)) {
            return Some(Rule::Looks);
        }
        (!is_stand && limits.max_depth_m.is_some_and(too_deep)).then_some(Rule::Depth)
    }

    /// What a piece may not overlap on a surface, pieces apart.
    pub(super) fn obstacles(
        &self,
        surface: Surface,
        shape: Shape<'_>,
        place: &Place,
    ) -> Vec<Obstacle> {
        let is_curtain = matches!(place, Place::Curtain { .. });
        let room = &self.scenario.room;
        let mut found = self.limit_obstacles(surface);
        let parts = self.scenario.surface(surface).parts.iter();
        found.extend(parts.filter_map(|part| part_obstacle(part, is_curtain)));
        let zones = room
            .keep_clear
            .iter()
            .filter(|zone| zone.surface == surface);
        found.extend(zones.map(|zone| (zone.rect.grown(zone.margin_m), Rule::Zone)));
        if surface == Surface::Floor {
            found.extend(self.built_in_on_floor());
        }
        if !is_curtain && is_wall(surface) {
            let size_m = room.size_m();
            let placed = room.furnishings.iter().filter_map(|item| item.at);
            let furniture = placed.map(|at| (Upright::furniture(at), Rule::Furniture));
            let near = furniture.chain(self.sweeps_beside(surface));
            let near = near.filter(|(body, _)| body.gap_m(surface, size_m) < shape.depth_m);
            found.extend(near.map(|(body, rule)| (body.shadow(surface), rule)));
        }
        found
    }

    /// Parts of the walls, each with its wall.
    fn wall_parts(&self) -> impl Iterator<Item = (Surface, &Part)> {
        let walls = Surface::ALL.into_iter().filter(|wall| is_wall(*wall));
        walls.flat_map(|wall| {
            let parts = self.scenario.surface(wall).parts.iter();
            parts.map(move |part| (wall, part))
        })
    }

    /// What the leaves of doors in the other walls sweep.
    fn sweeps_beside(&self, surface: Surface) -> impl Iterator<Item = (Upright, Rule)> {
        let size_m = self.scenario.room.size_m();
        self.wall_parts()
            .filter(move |(wall, _)| *wall != surface)
            .filter_map(move |(wall, part)| Upright::sweep(wall, part, size_m))
            .map(|body| (body, Rule::Way))
    }

    /// What is built in and stands on the floor.
    fn built_in_on_floor(&self) -> impl Iterator<Item = Obstacle> {
        let built_in = self
            .wall_parts()
            .filter(|(_, part)| part.role == Role::BuiltIn);
        built_in
            .filter_map(|(wall, part)| self.part_before(wall, part))
            .map(|(body, rule)| (body.foot, rule))
    }

    /// The person's limits on a surface.
    fn limit_obstacles(&self, surface: Surface) -> Vec<Obstacle> {
        let Some(limits) = self.limits() else {
            return Vec::new();
        };
        let extent = surface.extent(self.scenario.room.size_m());
        let whole = extent.grown(BEYOND_M);
        let mut found = Vec::new();
        if limits.bare.contains(&surface) {
            found.push((whole, Rule::Bare));
        }
        let is_above = |most_m: f64| most_m < self.scenario.room.height_m;
        if surface == Surface::Ceiling && limits.max_height_m.is_some_and(is_above) {
            found.push((whole, Rule::Highest));
        }
        if !is_wall(surface) {
            return found;
        }
        if let Some(least_m) = limits.min_height_m {
            let height_m = BEYOND_M + least_m;
            found.push((Rect { height_m, ..whole }, Rule::Lowest));
        }
        if let Some(most_m) = limits.max_height_m {
            let height_m = (extent.height_m - most_m).max(0.0) + BEYOND_M;
            let above = Rect {
                v_m: most_m,
                height_m,
                ..whole
            };
            found.push((above, Rule::Highest));
        }
        found
    }

    /// What must stay free before walls, above the floor and below the ceiling: ways, what is built in, and zones.
    fn kept_free(&self) -> Vec<(Upright, Rule)> {
        let room = &self.scenario.room;
        let zones = room.keep_clear.iter();
        let zones = zones.map(|zone| (Upright::zone(zone, room.size_m()), Rule::Zone));
        self.wall_parts()
            .filter_map(|(wall, part)| self.part_before(wall, part))
            .chain(zones)
            .collect()
    }

    /// What a stand of that height may not stand on, pieces apart.
    pub(super) fn floor_obstacles(&self, high_m: f64) -> Vec<Obstacle> {
        let room = &self.scenario.room;
        let placed = room.furnishings.iter().filter_map(|item| item.at);
        self.kept_free()
            .into_iter()
            .filter(|(body, _)| body.low_m < high_m && body.high_m > 0.0)
            .chain(placed.map(|at| (Upright::furniture(at), Rule::Furniture)))
            .map(|(body, rule)| (body.foot, rule))
            .chain(self.listeners())
            .collect()
    }

    fn listeners(&self) -> impl Iterator<Item = Obstacle> {
        let loudspeakers = self.listening.loudspeakers.iter();
        let seat = self.listening.seat.iter();
        loudspeakers
            .map(|one| round(one.spot.x_m, one.spot.y_m, LOUDSPEAKER_M))
            .chain(seat.map(|seat| round(seat.x_m, seat.y_m, SEAT_M)))
            .map(|area| (area, Rule::Listener))
    }

    /// A door with its swing, the way through an opening, the depth of a built-in.
    fn part_before(&self, wall: Surface, part: &Part) -> Option<(Upright, Rule)> {
        let size_m = self.scenario.room.size_m();
        if part.role != Role::BuiltIn {
            return Upright::way(wall, part, size_m).map(|body| (body, Rule::Way));
        }
        let depth_m = part.depth_m.filter(|depth_m| *depth_m > 0.0)?;
        let stands = part.rect.v_m <= SILL_M;
        stands.then(|| {
            (
                Upright::before(wall, part.rect, depth_m, size_m),
                Rule::BuiltIn,
            )
        })
    }

    /// Whether a screen there stands between a loudspeaker and the seat.
    fn is_before_the_seat(&self, foot: Rect) -> bool {
        let Some(seat) = self.listening.seat else {
            return false;
        };
        let loudspeakers = self.listening.loudspeakers.iter();
        let mut ways = loudspeakers.map(|one| [[one.spot.x_m, one.spot.y_m], [seat.x_m, seat.y_m]]);
        ways.any(|way| crosses(foot, way))
    }
}

fn part_obstacle(part: &Part, is_curtain: bool) -> Option<Obstacle> {
    match part.role {
        Role::Wall => None,
        Role::Window => (!is_curtain).then(|| (part.rect.grown(WINDOW_MARGIN_M), Rule::Window)),
        Role::Door => Some((part.rect, Rule::Door)),
        Role::Opening => Some((part.rect, Rule::Opening)),
        Role::BuiltIn => Some((part.rect, Rule::BuiltIn)),
    }
}

/// The square about a point.
fn round(x_m: f64, y_m: f64, half_m: f64) -> Rect {
    let point = Rect {
        u_m: x_m,
        v_m: y_m,
        width_m: 0.0,
        height_m: 0.0,
    };
    point.grown(half_m)
}

/// A rectangle that who walks can be in the middle of, however narrow the door.
fn at_least_a_route(way: Rect) -> Rect {
    let [more_u, more_v] = [way.width_m, way.height_m].map(|side_m| (ROUTE_M - side_m).max(0.0));
    Rect {
        u_m: way.u_m - more_u / 2.0,
        v_m: way.v_m - more_v / 2.0,
        width_m: way.width_m + more_u,
        height_m: way.height_m + more_v,
    }
}

/// Whether a rectangle lies within another, to what is stored.
fn holds(outer: Rect, inner: Rect) -> bool {
    let touch_m = crate::geometry::TOUCH_M;
    inner.u_m >= outer.u_m - touch_m
        && inner.v_m >= outer.v_m - touch_m
        && inner.u_m + inner.width_m <= outer.u_m + outer.width_m + touch_m
        && inner.v_m + inner.height_m <= outer.v_m + outer.height_m + touch_m
}

/// Whether a straight way goes through a rectangle, by clipping the way to it along each axis.
fn crosses(rect: Rect, [from_m, to_m]: [[f64; 2]; 2]) -> bool {
    let (low, high) = (
        [rect.u_m, rect.v_m],
        [rect.u_m + rect.width_m, rect.v_m + rect.height_m],
    );
    let (mut first, mut last) = (0.0_f64, 1.0_f64);
    for axis in 0..2 {
        let along_m = to_m[axis] - from_m[axis];
        if along_m == 0.0 {
            if from_m[axis] < low[axis] || from_m[axis] > high[axis] {
                return false;
            }
            continue;
        }
        let ends = [low[axis], high[axis]].map(|at| (at - from_m[axis]) / along_m);
        first = first.max(ends[0].min(ends[1]));
        last = last.min(ends[0].max(ends[1]));
    }
    first <= last
}

/// Whether the pieces of a plan keep to the most that may be seen.
#[must_use]
pub fn visible(pieces: &[Piece]) -> usize {
    pieces
        .iter()
        .filter(|piece| is_visible(&piece.place))
        .count()
}
