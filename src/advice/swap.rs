//! Another wall behind the loudspeakers: the set-up is carried as it is before each of the other walls, where the room lets it.

use glam::DVec3;

use crate::directivity::axis;
use crate::geometry::{Surface, stored_m};
use crate::scenario::document::{Listening, Spot};

use super::moving::{LOUDSPEAKER_FROM_WALL_M, Moving, SEAT_FROM_LOUDSPEAKER_M, SEAT_FROM_WALL_M};
use super::rules::{Rule, is_wall};

/// From the middle of the wall to either side, m: the nearest place that is free is taken.
const SHIFTS_M: [f64; 9] = [0.0, 0.25, -0.25, 0.5, -0.5, 0.75, -0.75, 1.0, -1.0];

/// The walls that are not behind the loudspeakers now.
pub(super) fn other_walls(listening: &Listening) -> impl Iterator<Item = Surface> + use<> {
    let ahead = listening.wall_ahead();
    let walls = Surface::ALL.into_iter().filter(|wall| is_wall(*wall));
    walls.filter(move |wall| *wall != ahead)
}

/// A quarter of a circle or more, about the vertical through the middle of a room.
#[derive(Clone, Copy, Debug)]
pub(super) struct Turn {
    /// The wall behind the loudspeakers before.
    pub from: Surface,
    /// And after.
    pub to: Surface,
}

impl Turn {
    fn direction(self, direction: DVec3) -> DVec3 {
        self.to.from_front(self.from.as_front(direction))
    }

    /// The surface that takes the place of another one about the listener.
    pub fn surface(self, surface: Surface) -> Surface {
        if !is_wall(surface) {
            return surface;
        }
        let mut out = DVec3::ZERO;
        out[surface.axis()] = if surface.is_far() { 1.0 } else { -1.0 };
        let turned = self.direction(out);
        let (axis, far) = if turned.x.abs() > turned.y.abs() {
            (0, turned.x > 0.0)
        } else {
            (1, turned.y > 0.0)
        };
        Surface::ALL[2 * axis + usize::from(far)]
    }

    /// The set-up before its new wall, as far from it as it was, its middle so far from that of the wall. The seat comes
    /// nearer where the room ends before it.
    fn carried(self, listening: &Listening, size_m: DVec3, shift_m: f64) -> Option<Listening> {
        let middle = 0.5 * size_m.truncate().extend(0.0);
        let [deep_from_m, deep_m] = [self.from, self.to].map(|wall| size_m[wall.axis()]);
        let local = |spot: Spot| self.from.as_front(spot.point_m() - middle);
        let count = listening.loudspeakers.len();
        let sum: f64 = listening
            .loudspeakers
            .iter()
            .map(|one| local(one.spot).x)
            .sum();
        let beside_m = shift_m - sum / count as f64;
        let moved = |spot: Spot, most_m: f64| {
            let at = local(spot);
            let from_wall_m = (at.y + deep_from_m / 2.0).min(most_m);
            let there = DVec3::new(at.x + beside_m, from_wall_m - deep_m / 2.0, at.z);
            let point_m = self.to.from_front(there) + middle;
            Spot {
                x_m: stored_m(point_m.x),
                y_m: stored_m(point_m.y),
                z_m: spot.z_m,
            }
        };
        let mut to = listening.clone();
        for one in &mut to.loudspeakers {
            let points = axis(one.spot.x_m, size_m.x, one.toe_in_deg.unwrap_or(0.0));
            one.spot = moved(one.spot, f64::INFINITY);
            one.toe_in_deg = Some(toe_in_deg(one.spot.x_m, size_m.x, self.direction(points))?);
        }
        to.seat = to.seat.map(|seat| moved(seat, deep_m - SEAT_FROM_WALL_M));
        Some(to)
    }
}

/// The toe-in by which a loudspeaker points that way; none for one in the middle of the room that points aside.
fn toe_in_deg(x_m: f64, width_m: f64, points: DVec3) -> Option<f64> {
    let aside = points.x * (width_m / 2.0 - x_m).signum();
    let is_in_the_middle = x_m == width_m / 2.0;
    (!is_in_the_middle || points.x.abs() < 1e-9).then(|| {
        let degrees = aside.atan2(points.y).to_degrees();
        (degrees * 10.0).round() / 10.0
    })
}

/// Places before a wall where the set-up may be, the nearest to the middle first; the rule against the middle if there is none.
pub(super) fn before(moving: Moving<'_>, turn: Turn) -> Result<Vec<Listening>, Rule> {
    let scenario = moving.prepared.scenario();
    let listening = scenario.listening_of(moving.plan);
    let size_m = scenario.room.size_m();
    let mut first = None;
    let mut found = Vec::new();
    for shift_m in SHIFTS_M {
        let Some(to) = turn.carried(listening, size_m, shift_m) else {
            continue;
        };
        match against(moving, &to, size_m) {
            None => found.push(to),
            Some(rule) => {
                first.get_or_insert(rule);
            }
        }
    }
    if found.is_empty() {
        return Err(first.unwrap_or(Rule::TooLarge));
    }
    Ok(found)
}

fn against(moving: Moving<'_>, to: &Listening, size_m: DVec3) -> Option<Rule> {
    let seat = to.seat?;
    let is_off = |spot: Spot, least_m: f64| {
        let along = |at_m: f64, side_m: f64| !(least_m..=side_m - least_m).contains(&at_m);
        along(spot.x_m, size_m.x) || along(spot.y_m, size_m.y)
    };
    let mut loudspeakers = to.loudspeakers.iter();
    let is_tight = loudspeakers.any(|one| {
        is_off(one.spot, LOUDSPEAKER_FROM_WALL_M)
            || one.spot.point_m().distance(seat.point_m()) < SEAT_FROM_LOUDSPEAKER_M
    });
    if is_tight || is_off(seat, SEAT_FROM_WALL_M) {
        return Some(Rule::TooLarge);
    }
    moving
        .in_the_way(to)
        .or_else(|| moving.spoilt(to, &moving.plan.pieces))
        .or_else(|| moving.closes_a_way(to).then_some(Rule::Route))
}
