//! Legal places for every kind of piece: the bounce marks first, then rows and columns about them, corners and windows.
//!
//! Each wanted place goes to the nearest one that the rules allow; where there is none, the rule that stands in the way is
//! noted instead.

use serde::Serialize;

use crate::geometry::{Rect, Surface, stored_m};
use crate::scenario::Scenario;
use crate::scenario::document::{Edge, Kind, Looks, MadeOf, Piece, Place, Role, Stands};

use super::route::{Floor, Joined};
use super::rules::{Home, Obstacle, Rule, Shape, allows, foot_m, is_wall};
use super::space::{Block, metres, nearest_free, ticks, ticks_above, ticks_below};

/// Where a bounce of first order meets a surface.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mark {
    /// The surface.
    pub surface: Surface,
    /// Number of the loudspeaker.
    pub loudspeaker: usize,
    /// The point on the surface, m.
    pub uv_m: (f64, f64),
}

/// A place that a piece may have.
#[derive(Clone, Debug, PartialEq)]
pub struct Spot {
    /// Number of its kind in the kit.
    pub kind: usize,
    /// The piece there.
    pub piece: Piece,
}

/// A kind that found no place where one was wanted.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Refusal {
    /// The kind.
    pub kit: String,
    /// The surface.
    pub surface: Surface,
    /// The loudspeaker whose bounce mark was wanted; none: the whole surface.
    pub loudspeaker: Option<usize>,
    /// What stands in the way.
    pub rule: Rule,
    /// Whether another place near the mark was found.
    pub moved: bool,
}

/// Between pieces in rows and columns, m. Common practice, no source.
const GAP_M: f64 = 0.1;

/// Farthest that a place is moved from a bounce mark, m; in a row it is half a step, so that every gap is found.
const MARK_REACH_M: f64 = 0.3;

/// From the floor to the lower edge of a screen on feet, m.
const FEET_M: f64 = 0.05;

/// From a wall to the middle of a screen before it, m.
const BEFORE_WALL_M: f64 = 0.3;

/// Beside a place in which a screen would close a way: so far along its wall, and so much nearer to it, m.
const ALONG_M: [f64; 9] = [0.0, 0.15, -0.15, 0.3, -0.3, 0.45, -0.45, 0.6, -0.6];
const NEARER_M: [f64; 3] = [0.0, 0.1, 0.2];

/// A place that is tried beside another is moved no farther by what stands there, m.
const BESIDE_REACH_M: f64 = 0.1;

/// A curtain's rail hangs this far above its window, m.
const ABOVE_WINDOW_M: f64 = 0.15;

/// Most places of one kind on one surface.
const MOST_PLACES: usize = 28;

/// A data sheet this thin and this wide is taken for a rug, m.
const RUG_BELOW_M: f64 = 0.04;
const RUG_FROM_M: f64 = 1.2;

/// All places of all kinds, and what found none.
#[derive(Clone, Debug, Default)]
pub struct Places {
    /// The places, kind by kind, surface by surface, marks first.
    pub spots: Vec<Spot>,
    /// What was refused.
    pub refusals: Vec<Refusal>,
}

/// Finds places for kinds.
#[derive(Clone, Copy, Debug)]
pub struct Finder<'a> {
    /// The home.
    pub home: Home<'a>,
    /// The bounce marks.
    pub marks: &'a [Mark],
    /// Pieces that are there already: places beside them are looked for as well.
    pub there: &'a [(Surface, Rect)],
    /// Ways to walk beside those pieces.
    pub(super) ways: &'a Walked,
}

/// Ways to walk beside the pieces that are there.
#[derive(Clone, Debug)]
pub(super) struct Walked {
    pub floor: Floor,
    /// What the pieces take of them.
    pub there: Vec<Rect>,
    pub joined: Joined,
}

impl Walked {
    /// Whether one more piece closes a way.
    pub fn closes(&self, home: Home<'_>, shape: Shape<'_>, place: &Place) -> bool {
        home.in_the_way(shape, place).is_some_and(|foot| {
            let with = [&self.there[..], &[foot]].concat();
            !self.floor.keeps(&self.joined, &with)
        })
    }
}

/// A kind under search, with the surface it is tried on.
#[derive(Clone, Copy)]
struct Try<'a> {
    number: usize,
    shape: Shape<'a>,
    surface: Surface,
}

/// How a kind is placed; a rug that does not say so is told by its shape.
#[must_use]
pub fn stands(shape: Shape<'_>) -> Stands {
    let Kind {
        absorber,
        width_m,
        height_m,
        ..
    } = shape.kind;
    shape.kind.stands.unwrap_or_else(|| {
        let is_rug = !matches!(absorber, MadeOf::Layers { .. })
            && shape.depth_m < RUG_BELOW_M
            && width_m.min(*height_m) >= RUG_FROM_M;
        if is_rug {
            Stands::Floor
        } else {
            Stands::Surface
        }
    })
}

fn lies_on(shape: Shape<'_>, surface: Surface) -> bool {
    match stands(shape) {
        // What looks like furniture hangs under no ceiling.
        Stands::Surface if shape.kind.looks == Some(Looks::Furniture) => is_wall(surface),
        Stands::Surface => surface != Surface::Floor,
        Stands::Floor => surface == Surface::Floor,
        Stands::Curtain => is_wall(surface),
        Stands::Corner | Stands::Stand => false,
    }
}

/// Whether a kind looks like what the home allows, in the places that it is meant for.
pub(super) fn may_look(scenario: &Scenario, kind: &Kind) -> bool {
    let is_soft_furnishing = || {
        let depth_m = kind.depth_m();
        matches!(
            stands(Shape { kind, depth_m }),
            Stands::Curtain | Stands::Floor
        )
    };
    let looks = kind
        .looks
        .or_else(|| is_soft_furnishing().then_some(Looks::Furniture));
    let limits = scenario.limits.as_ref();
    limits.is_none_or(|limits| allows(limits, looks))
}

/// Whether a kind is meant for a surface: a curtain hangs where a window is, and anywhere in a room without windows.
#[must_use]
pub fn is_meant(scenario: &Scenario, shape: Shape<'_>, surface: Surface) -> bool {
    let has_window = |on: Surface| {
        let mut parts = scenario.surface(on).parts.iter();
        parts.any(|part| part.role == Role::Window)
    };
    let hangs = || has_window(surface) || !Surface::ALL.into_iter().any(has_window);
    lies_on(shape, surface) && (stands(shape) != Stands::Curtain || hangs())
}

impl Finder<'_> {
    /// Places of every kind offered, by its number in the kit.
    #[must_use]
    pub fn places(&self, kinds: &[(usize, Shape<'_>)]) -> Places {
        let mut places = Places::default();
        for &(number, shape) in kinds {
            for surface in Surface::ALL {
                let of = Try {
                    number,
                    shape,
                    surface,
                };
                if lies_on(shape, surface) {
                    self.on_surface(of, &mut places);
                }
            }
            let of = Try {
                number,
                shape,
                surface: Surface::Floor,
            };
            match stands(shape) {
                Stands::Corner => self.in_corners(of, &mut places),
                Stands::Stand => self.standing(of, &mut places),
                _ => {}
            }
        }
        places
    }

    fn on_surface(&self, of: Try<'_>, places: &mut Places) {
        let is_curtain = stands(of.shape) == Stands::Curtain;
        let mut found = self.at_marks(of, places);
        let marks = found.len();
        self.in_rows(of, false, &mut found);
        if !is_curtain && (!is_wall(of.surface) || found.is_empty()) {
            self.in_rows(of, true, &mut found);
        }
        let before = found.len();
        self.beside_the_mirror(of, &mut found, places);
        if found.is_empty() {
            let rule = self.rule_in_the_way(of);
            let seen = rule.map(|rule| refusal(of, None, rule, false));
            places.refusals.extend(seen);
        }
        // Rows are cut off, never the marks nor what was added opposite of others.
        let wanted = marks + found.len() - before;
        found.truncate(MOST_PLACES.max(wanted));
        push(places, of, found);
    }

    /// Centred on the bounce marks of the surface, upright and turned, or as near as the rules allow.
    fn at_marks(&self, of: Try<'_>, places: &mut Places) -> Vec<Place> {
        let mut found = Vec::new();
        if stands(of.shape) == Stands::Curtain {
            return found;
        }
        for mark in self.marks.iter().filter(|mark| mark.surface == of.surface) {
            let [upright, turned] = [false, true].map(|turned| centred(of, turned, mark.uv_m));
            let mut near = self.nearest(of, &upright, MARK_REACH_M);
            near.extend(self.nearest(of, &turned, MARK_REACH_M));
            if let Some(rule) = self.home.refused(of.shape, &upright) {
                let seen = refusal(of, Some(mark.loudspeaker), rule, !near.is_empty());
                places.refusals.push(seen);
            }
            near.into_iter().for_each(|place| add(&mut found, place));
        }
        found
    }

    /// Rows and columns about the marks, or about the middle of the surface; alike on both sides of the room.
    fn in_rows(&self, of: Try<'_>, turned: bool, found: &mut Vec<Place>) {
        let Kind {
            width_m, height_m, ..
        } = of.shape.kind;
        let reach_m = (width_m.max(*height_m) + GAP_M) / 2.0;
        for (u_m, v_m) in self.middles(of, turned) {
            let wanted = centred(of, turned, (u_m, v_m));
            for place in self.nearest(of, &wanted, reach_m) {
                add(found, place);
            }
        }
    }

    /// Middles of places in rows and columns, nearest to the mark first.
    fn middles(&self, of: Try<'_>, turned: bool) -> Vec<(f64, f64)> {
        let extent = of.surface.extent(self.home.scenario.room.size_m());
        let rect = of.shape.kind.rect(0.0, 0.0, turned);
        let mark = self.marks.iter().find(|mark| mark.surface == of.surface);
        let (mark_u, mark_v) = mark.map_or((extent.width_m / 2.0, extent.height_m / 2.0), |mark| {
            mark.uv_m
        });
        if stands(of.shape) == Stands::Curtain {
            return self.over_windows(of, extent);
        }
        let is_side = of.surface.axis() == 0;
        let steps_m = [rect.width_m + GAP_M, rect.height_m + GAP_M];
        // On surfaces that run from left to right columns lie alike about the middle.
        let (from_u, first) = if is_side {
            (mark_u, 0.0)
        } else {
            (extent.width_m / 2.0, 0.5)
        };
        let columns = line(from_u, first, steps_m[0], extent.width_m);
        let rows = line(mark_v, 0.0, steps_m[1], extent.height_m);
        let mut all: Vec<(f64, f64)> = rows
            .iter()
            .flat_map(|v_m| columns.iter().map(|u_m| (*u_m, *v_m)))
            .collect();
        let away = |at: &(f64, f64)| (at.0 - mark_u).hypot(at.1 - mark_v);
        all.sort_by(|a, b| away(a).total_cmp(&away(b)));
        all
    }

    fn has_windows(&self) -> bool {
        let surfaces = self.home.scenario.room.surfaces.iter();
        let mut parts = surfaces.flat_map(|surface| &surface.parts);
        parts.any(|part| part.role == Role::Window)
    }

    /// Side by side over each window; in a room without windows in the middle of the wall.
    fn over_windows(&self, of: Try<'_>, extent: Rect) -> Vec<(f64, f64)> {
        let Kind {
            width_m, height_m, ..
        } = *of.shape.kind;
        let parts = self.home.scenario.surface(of.surface).parts.iter();
        let windows = parts.filter(|part| part.role == Role::Window);
        let mut middles: Vec<(f64, f64)> = windows
            .flat_map(|part| {
                let window = part.rect;
                let top_m = extent
                    .height_m
                    .min(window.v_m + window.height_m + ABOVE_WINDOW_M);
                let v_m = (height_m / 2.0).max(top_m - height_m / 2.0);
                let count = (window.width_m / width_m).round().max(1.0) as usize;
                let middle_m = window.u_m + window.width_m / 2.0;
                (0..count).map(move |i| {
                    let off = i as f64 - (count - 1) as f64 / 2.0;
                    (middle_m + off * width_m, v_m)
                })
            })
            .collect();
        if !self.has_windows() {
            middles.push((extent.width_m / 2.0, height_m / 2.0));
        }
        middles
    }

    /// What lies opposite a place of the facing side, so that both sides can be alike.
    fn beside_the_mirror(&self, of: Try<'_>, found: &mut Vec<Place>, places: &Places) {
        if of.surface != Surface::Right {
            return;
        }
        let opposite = places.spots.iter().filter(|spot| spot.kind == of.number);
        let twins: Vec<Place> = opposite
            .filter_map(|spot| mirrored(&spot.piece.place, of.shape, 0.0))
            .filter(|place| self.home.refused(of.shape, place).is_none())
            .collect();
        // Twins of the other side stand before a row that would be cut off.
        for place in twins.into_iter().rev() {
            if !found.contains(&place) {
                found.insert(0, place);
            }
        }
    }

    /// The nearest places to a wanted one: among the rules alone, and beside the pieces that are there.
    fn nearest(&self, of: Try<'_>, wanted: &Place, reach_m: f64) -> Vec<Place> {
        let obstacles = self.home.obstacles(of.surface, of.shape, wanted);
        let there = self.there.iter().filter(|(on, _)| *on == of.surface);
        let mut with: Vec<Obstacle> = obstacles.clone();
        with.extend(there.map(|(_, rect)| (*rect, Rule::Piece)));
        let mut found = Vec::new();
        for obstacles in [&with, &obstacles] {
            if let Some(place) = self.nearest_among(of, wanted, obstacles, reach_m)
                && !found.contains(&place)
            {
                found.push(place);
            }
        }
        found
    }

    fn nearest_among(
        &self,
        of: Try<'_>,
        wanted: &Place,
        obstacles: &[Obstacle],
        reach_m: f64,
    ) -> Option<Place> {
        let (turned, at) = match *wanted {
            Place::Surface {
                u_m, v_m, turned, ..
            } => (turned, (u_m, v_m)),
            Place::Curtain { u_m, v_m, .. } => (false, (u_m, v_m)),
            _ => return None,
        };
        let rect = of.shape.kind.rect(0.0, 0.0, turned);
        let extent = of.surface.extent(self.home.scenario.room.size_m());
        let (u_m, v_m) = free_corner(at, rect, extent, obstacles, reach_m)?;
        let place = laid(of, turned, u_m, v_m);
        self.home
            .refused(of.shape, &place)
            .is_none()
            .then_some(place)
    }

    /// From the floor up in every corner.
    fn in_corners(&self, of: Try<'_>, places: &mut Places) {
        let height_m = of.shape.kind.height_m;
        let mut found = Vec::new();
        let mut first = None;
        for edge in [
            Edge::FrontLeft,
            Edge::FrontRight,
            Edge::BackLeft,
            Edge::BackRight,
        ] {
            let stack = (self.home.scenario.room.height_m / height_m) as usize;
            for level in 0..stack.max(1) {
                let z_m = stored_m(level as f64 * height_m);
                let place = Place::Corner { edge, z_m };
                match self.home.refused(of.shape, &place) {
                    None => found.push(place),
                    Some(rule) => {
                        first.get_or_insert(rule);
                    }
                }
            }
        }
        if found.is_empty() {
            let rule = first.unwrap_or(Rule::TooLarge);
            places.refusals.push(refusal(of, None, rule, false));
        }
        push(places, of, found);
    }

    /// Before the bounce marks of the walls and before the middle of each wall, turned along them.
    fn standing(&self, of: Try<'_>, places: &mut Places) {
        let size_m = self.home.scenario.room.size_m();
        let walls = self.marks.iter().filter(|mark| is_wall(mark.surface));
        let middles = Surface::ALL.into_iter().filter(|wall| is_wall(*wall));
        let wanted = walls
            .map(|mark| (mark.surface, mark.uv_m.0, Some(mark.loudspeaker)))
            .chain(middles.map(|wall| (wall, wall.extent(size_m).width_m / 2.0, None)));
        let obstacles = self.home.floor_obstacles(FEET_M + of.shape.kind.height_m);
        let mut found = Vec::new();
        for (wall, u_m, loudspeaker) in wanted {
            let before_m = if wall.is_far() {
                size_m[wall.axis()] - BEFORE_WALL_M
            } else {
                BEFORE_WALL_M
            };
            let (at_m, turn_deg) = if wall.axis() == 0 {
                ((before_m, u_m), if wall.is_far() { -90.0 } else { 90.0 })
            } else {
                ((u_m, before_m), 0.0)
            };
            let on = Try {
                surface: wall,
                ..of
            };
            let mut place = self.nearest_stand(of, at_m, turn_deg, (&obstacles, MARK_REACH_M));
            let blocked = place.as_ref().is_some_and(|one| self.is_in_a_way(of, one));
            if blocked {
                place = self.beside_a_way(on, at_m, turn_deg, &obstacles);
                let moved = place.is_some();
                // Where no mark is meant it is the floor that refuses.
                let said = if loudspeaker.is_some() { on } else { of };
                let seen = refusal(said, loudspeaker, Rule::Route, moved);
                places.refusals.push(seen);
            }
            let place = place.filter(|one| self.home.refused(of.shape, one).is_none());
            if let (None, Some(_), false) = (&place, loudspeaker, blocked) {
                let (x_m, y_m) = at_m;
                let z_m = FEET_M;
                let wanted = Place::Stand {
                    x_m,
                    y_m,
                    z_m,
                    turn_deg,
                };
                let rule = self.home.refused(of.shape, &wanted);
                let rule = rule.unwrap_or(Rule::TooLarge);
                places.refusals.push(refusal(on, loudspeaker, rule, false));
            }
            place.into_iter().for_each(|place| add(&mut found, place));
        }
        push(places, of, found);
    }

    /// The nearest free place on the floor, ways to walk and what else there is apart.
    fn nearest_stand(
        &self,
        of: Try<'_>,
        at_m: (f64, f64),
        turn_deg: f64,
        (obstacles, reach_m): (&[Obstacle], f64),
    ) -> Option<Place> {
        let (width_m, height_m) = foot_m(of.shape, turn_deg);
        let rect = Rect {
            u_m: 0.0,
            v_m: 0.0,
            width_m,
            height_m,
        };
        let corner = (at_m.0 - width_m / 2.0, at_m.1 - height_m / 2.0);
        let floor = Surface::Floor.extent(self.home.scenario.room.size_m());
        let (u_m, v_m) = free_corner(corner, rect, floor, obstacles, reach_m)?;
        Some(Place::Stand {
            x_m: stored_m(u_m + width_m / 2.0),
            y_m: stored_m(v_m + height_m / 2.0),
            z_m: FEET_M,
            turn_deg,
        })
    }

    /// Whether a piece closes a way, by itself or with those that are there, and nothing else is against it.
    fn is_in_a_way(&self, of: Try<'_>, place: &Place) -> bool {
        match self.home.refused(of.shape, place) {
            None => self.ways.closes(self.home, of.shape, place),
            rule => rule == Some(Rule::Route),
        }
    }

    /// The nearest place along the wall and nearer to it that leaves every way.
    fn beside_a_way(
        &self,
        of: Try<'_>,
        at_m: (f64, f64),
        turn_deg: f64,
        obstacles: &[Obstacle],
    ) -> Option<Place> {
        let to_wall = if of.surface.is_far() { 1.0 } else { -1.0 };
        let mut tries: Vec<(f64, f64)> = NEARER_M
            .into_iter()
            .flat_map(|nearer_m| ALONG_M.map(|along_m| (along_m, nearer_m)))
            .skip(1)
            .collect();
        tries.sort_by(|a, b| a.0.hypot(a.1).total_cmp(&b.0.hypot(b.1)));
        tries.into_iter().find_map(|(along_m, nearer_m)| {
            let beside_m = if of.surface.axis() == 0 {
                (at_m.0 + to_wall * nearer_m, at_m.1 + along_m)
            } else {
                (at_m.0 + along_m, at_m.1 + to_wall * nearer_m)
            };
            let near = (obstacles, BESIDE_REACH_M);
            let place = self.nearest_stand(of, beside_m, turn_deg, near)?;
            let leaves = self.home.refused(of.shape, &place).is_none()
                && !self.ways.closes(self.home, of.shape, &place);
            leaves.then_some(place)
        })
    }

    /// The rule that refuses most of the places where a kind was wanted on a surface, of equal ones the first; none if it was
    /// wanted nowhere there.
    fn rule_in_the_way(&self, of: Try<'_>) -> Option<Rule> {
        let any = laid(of, false, 0.0, 0.0);
        if let Some(rule) = self.home.refused_anywhere(of.shape, &any) {
            return Some(rule);
        }
        let extent = of.surface.extent(self.home.scenario.room.size_m());
        let rect = of.shape.kind.rect(0.0, 0.0, false);
        let onto = |middle_m: f64, side_m: f64, length_m: f64| {
            (middle_m - side_m / 2.0).clamp(0.0, (length_m - side_m).max(0.0))
        };
        let mut middles = self.middles(of, false);
        if middles.is_empty() && stands(of.shape) != Stands::Curtain {
            middles.push((extent.width_m / 2.0, extent.height_m / 2.0));
        }
        let rules: Vec<Rule> = middles
            .into_iter()
            .filter_map(|(u_m, v_m)| {
                let u_m = stored_m(onto(u_m, rect.width_m, extent.width_m));
                let v_m = stored_m(onto(v_m, rect.height_m, extent.height_m));
                self.home.refused(of.shape, &laid(of, false, u_m, v_m))
            })
            .collect();
        let count = |rule: &Rule| rules.iter().filter(|other| *other == rule).count();
        rules.iter().rev().max_by_key(|rule| count(rule)).copied()
    }
}

/// The free corner nearest to a wanted one, m.
fn free_corner(
    wanted: (f64, f64),
    rect: Rect,
    extent: Rect,
    obstacles: &[Obstacle],
    reach_m: f64,
) -> Option<(f64, f64)> {
    let size = [ticks_above(rect.width_m), ticks_above(rect.height_m)];
    let most = [
        ticks_below(extent.width_m) - size[0],
        ticks_below(extent.height_m) - size[1],
    ];
    let blocks: Vec<Block> = obstacles
        .iter()
        .map(|(area, _)| Block::of(*area, size))
        .collect();
    let wanted = [ticks(wanted.0), ticks(wanted.1)];
    // A place that would have to be moved far to lie on the surface at all is not the one that was wanted.
    let reach = ticks(reach_m);
    let is_off = (0..2).any(|axis| wanted[axis] < -reach || wanted[axis] > most[axis] + reach);
    if is_off {
        return None;
    }
    let free = nearest_free(wanted, ([0, 0], most), &blocks, reach)?;
    Some((metres(free[0]), metres(free[1])))
}

/// Points at equal steps both ways from one, that lie on a line of that length.
fn line(from_m: f64, first: f64, step_m: f64, length_m: f64) -> Vec<f64> {
    let count = (length_m / step_m) as i32 + 2;
    (-count..=count)
        .map(|i| from_m + (f64::from(i) + first) * step_m)
        .filter(|at_m| (0.0..=length_m).contains(at_m))
        .collect()
}

/// Laid with its middle at a point.
fn centred(of: Try<'_>, turned: bool, (u_m, v_m): (f64, f64)) -> Place {
    let rect = of.shape.kind.rect(0.0, 0.0, turned);
    let low = |at_m: f64, side_m: f64| stored_m(at_m - side_m / 2.0);
    laid(of, turned, low(u_m, rect.width_m), low(v_m, rect.height_m))
}

fn laid(of: Try<'_>, turned: bool, u_m: f64, v_m: f64) -> Place {
    laid_at(of.shape, of.surface, turned, (u_m, v_m))
}

/// A piece on a surface with its low corner at a point.
pub(super) fn laid_at(
    shape: Shape<'_>,
    surface: Surface,
    turned: bool,
    (u_m, v_m): (f64, f64),
) -> Place {
    if stands(shape) == Stands::Curtain {
        return Place::Curtain {
            surface,
            u_m,
            v_m,
            open: 0.0,
        };
    }
    Place::Surface {
        surface,
        u_m,
        v_m,
        turned,
    }
}

fn refusal(of: Try<'_>, loudspeaker: Option<usize>, rule: Rule, moved: bool) -> Refusal {
    Refusal {
        kit: of.shape.kind.id.clone(),
        surface: of.surface,
        loudspeaker,
        rule,
        moved,
    }
}

fn add(found: &mut Vec<Place>, place: Place) {
    if !found.contains(&place) {
        found.push(place);
    }
}

fn push(places: &mut Places, of: Try<'_>, found: Vec<Place>) {
    places.spots.extend(found.into_iter().map(|place| Spot {
        kind: of.number,
        piece: Piece {
            kit: of.shape.kind.id.clone(),
            place,
        },
    }));
}

/// The place on the other side of the room's middle; none for a piece that has none.
///
/// # Units
/// - `room_width_m`: m; only places on surfaces that run from left to right, corners and stands need it
#[must_use]
pub fn mirrored(place: &Place, shape: Shape<'_>, room_width_m: f64) -> Option<Place> {
    let other = |surface| match surface {
        Surface::Left => Surface::Right,
        Surface::Right => Surface::Left,
        same => same,
    };
    let across = |surface: Surface, u_m: f64, width_m: f64| {
        if surface.axis() == 0 {
            u_m
        } else {
            stored_m(room_width_m - u_m - width_m)
        }
    };
    Some(match *place {
        Place::Surface {
            surface,
            u_m,
            v_m,
            turned,
        } => Place::Surface {
            surface: other(surface),
            u_m: across(surface, u_m, shape.kind.rect(0.0, 0.0, turned).width_m),
            v_m,
            turned,
        },
        Place::Curtain {
            surface,
            u_m,
            v_m,
            open,
        } if open == 0.0 => Place::Curtain {
            surface: other(surface),
            u_m: across(surface, u_m, shape.kind.width_m),
            v_m,
            open,
        },
        Place::Corner { edge, z_m } => Place::Corner {
            edge: match edge {
                Edge::FrontLeft => Edge::FrontRight,
                Edge::FrontRight => Edge::FrontLeft,
                Edge::BackLeft => Edge::BackRight,
                Edge::BackRight => Edge::BackLeft,
            },
            z_m,
        },
        Place::Stand {
            x_m,
            y_m,
            z_m,
            turn_deg,
        } => Place::Stand {
            x_m: stored_m(room_width_m - x_m),
            y_m,
            z_m,
            turn_deg: if turn_deg == 0.0 { 0.0 } else { -turn_deg },
        },
        Place::Curtain { .. } => return None,
    })
}
