//! Who walks through a room, by rules written down here once more: a square that goes from point to point of a grid.

use seatward::geometry::{Rect, Surface};
use seatward::scenario::Scenario;
use seatward::scenario::document::{Edge, Piece, Place, Role};

use crate::legal::{depth_m, doors, floor_before};

const STEP_M: f64 = 0.05;

/// A way is this wide; the grid is asked about one that is surely wider and one that is surely narrower.
const ROUTE_M: f64 = 0.9;
const WIDER_M: f64 = 1.0;
const NARROWER_M: f64 = 0.8;

/// What is slimmer than this, hangs higher than this or is nearer to the seat than this does not matter.
const SLIM_M: f64 = 0.1016;
const HEAD_M: f64 = 2.032;
const LAST_STEP_M: f64 = 0.3;

/// A room that pieces are put into.
pub struct Walker<'a> {
    scenario: &'a Scenario,
    ends: Vec<Rect>,
    /// Pairs of ends that a wider way joins without pieces.
    joined: Vec<bool>,
    standing: Vec<Rect>,
}

fn square(x_m: f64, y_m: f64, half_m: f64) -> Rect {
    Rect {
        u_m: x_m - half_m,
        v_m: y_m - half_m,
        width_m: 2.0 * half_m,
        height_m: 2.0 * half_m,
    }
}

fn footprints(scenario: &Scenario) -> Vec<Rect> {
    let placed = scenario.room.furnishings.iter().filter_map(|item| item.at);
    placed
        .map(|at| Rect {
            u_m: at.x_m,
            v_m: at.y_m,
            width_m: at.width_m,
            height_m: at.depth_m,
        })
        .collect()
}

fn standing(scenario: &Scenario) -> Vec<Rect> {
    let mut all = footprints(scenario);
    for wall in Surface::ALL.into_iter().take(4) {
        let parts = scenario.surface(wall).parts.iter();
        let built_in = parts.filter(|part| part.role == Role::BuiltIn && part.rect.v_m <= 0.1);
        all.extend(built_in.filter_map(|part| {
            let depth_m = part.depth_m.filter(|depth_m| *depth_m > 0.0)?;
            Some(floor_before(scenario, wall, part.rect, depth_m))
        }));
    }
    let listening = &scenario.listening;
    all.extend(
        listening
            .loudspeakers
            .iter()
            .map(|one| square(one.spot.x_m, one.spot.y_m, 0.15)),
    );
    all.extend(
        listening
            .seat
            .iter()
            .map(|seat| square(seat.x_m, seat.y_m, 0.25)),
    );
    all
}

fn ends(scenario: &Scenario) -> Vec<Rect> {
    let widened = |way: Rect| {
        let (x_m, y_m) = (way.u_m + way.width_m / 2.0, way.v_m + way.height_m / 2.0);
        let [width_m, height_m] = [way.width_m, way.height_m].map(|side_m| side_m.max(ROUTE_M));
        Rect {
            u_m: x_m - width_m / 2.0,
            v_m: y_m - height_m / 2.0,
            width_m,
            height_m,
        }
    };
    let seat = scenario.listening.seat.map(|seat| {
        let own = footprints(scenario)
            .into_iter()
            .find(|foot| foot.contains((seat.x_m, seat.y_m)));
        own.unwrap_or_else(|| square(seat.x_m, seat.y_m, 0.25))
            .grown(ROUTE_M / 2.0 + LAST_STEP_M)
    });
    doors(scenario).map(widened).chain(seat).collect()
}

/// What a piece takes of the floor for who walks.
pub fn foot(scenario: &Scenario, piece: &Piece) -> Option<Rect> {
    let kind = scenario.kind(&piece.kit).expect("a kind of the kit");
    let depth_m = depth_m(scenario, piece);
    let room = &scenario.room;
    match piece.place {
        Place::Stand {
            x_m, y_m, turn_deg, ..
        } => {
            let is_across = (turn_deg / 90.0).rem_euclid(2.0) > 0.5;
            let (width_m, height_m) = if is_across {
                (depth_m, kind.width_m)
            } else {
                (kind.width_m, depth_m)
            };
            Some(Rect {
                u_m: x_m - width_m / 2.0,
                v_m: y_m - height_m / 2.0,
                width_m,
                height_m,
            })
        }
        Place::Corner { edge, z_m } => {
            let leg_m = kind.width_m / std::f64::consts::SQRT_2;
            let (is_right, is_back) = match edge {
                Edge::FrontLeft => (false, false),
                Edge::FrontRight => (true, false),
                Edge::BackLeft => (false, true),
                Edge::BackRight => (true, true),
            };
            let at = |is_far: bool, side_m: f64| if is_far { side_m - leg_m } else { 0.0 };
            (z_m < HEAD_M).then(|| Rect {
                u_m: at(is_right, room.width_m),
                v_m: at(is_back, room.length_m),
                width_m: leg_m,
                height_m: leg_m,
            })
        }
        Place::Surface {
            surface,
            u_m,
            v_m,
            turned,
        } => {
            let rect = kind.rect(u_m, v_m, turned);
            let is_in_it = (surface as usize) < 4 && depth_m > SLIM_M && v_m < HEAD_M;
            is_in_it.then(|| floor_before(scenario, surface, rect, depth_m))
        }
        Place::Curtain { .. } => None,
    }
}

impl<'a> Walker<'a> {
    pub fn new(scenario: &'a Scenario) -> Self {
        let mut walker = Self {
            scenario,
            ends: ends(scenario),
            joined: Vec::new(),
            standing: standing(scenario),
        };
        walker.joined = walker.joined_by(WIDER_M, 0.0, &[]);
        walker
    }

    /// Whether pieces with such feet close a way that is there without them.
    pub fn is_closed_by(&self, feet: &[Rect]) -> bool {
        if !self.joined.contains(&true) || feet.is_empty() {
            return false;
        }
        let after = self.joined_by(NARROWER_M, STEP_M, feet);
        self.joined.iter().zip(after).any(|(was, is)| *was && !is)
    }

    /// Pairs of ends, grown a little, that a square of that side can walk between.
    fn joined_by(&self, side_m: f64, grown_m: f64, feet: &[Rect]) -> Vec<bool> {
        let room = &self.scenario.room;
        let half_m = side_m / 2.0;
        let taken: Vec<Rect> = self
            .standing
            .iter()
            .chain(feet)
            .map(|one| one.grown(half_m))
            .collect();
        let columns = (room.width_m / STEP_M) as usize + 1;
        let rows = (room.length_m / STEP_M) as usize + 1;
        let at = |cell: usize| {
            let (row, column) = (cell / columns, cell % columns);
            (column as f64 * STEP_M, row as f64 * STEP_M)
        };
        let is_free = |(x_m, y_m): (f64, f64)| {
            x_m >= half_m
                && y_m >= half_m
                && x_m <= room.width_m - half_m
                && y_m <= room.length_m - half_m
                && !taken.iter().any(|one| one.contains((x_m, y_m)))
        };
        let free: Vec<bool> = (0..columns * rows).map(|cell| is_free(at(cell))).collect();
        let mut region = vec![0_usize; free.len()];
        let mut number = 0;
        for start in 0..free.len() {
            let mut next = vec![start];
            number += 1;
            while let Some(cell) = next.pop() {
                if !free[cell] || region[cell] != 0 {
                    continue;
                }
                region[cell] = number;
                let column = cell % columns;
                let left = (column > 0).then(|| cell - 1);
                let right = (column + 1 < columns).then(|| cell + 1);
                let up = cell.checked_sub(columns);
                let down = Some(cell + columns).filter(|one| *one < free.len());
                next.extend([left, right, up, down].into_iter().flatten());
            }
        }
        let reached = |end: &Rect| -> Vec<usize> {
            let end = end.grown(grown_m);
            let inside = (0..free.len()).filter(|cell| free[*cell] && end.contains(at(*cell)));
            let mut found: Vec<usize> = inside.map(|cell| region[cell]).collect();
            found.sort_unstable();
            found.dedup();
            found
        };
        let ends: Vec<Vec<usize>> = self.ends.iter().map(reached).collect();
        let pairs = (0..ends.len()).flat_map(|one| (0..one).map(move |other| (one, other)));
        pairs
            .map(|(one, other)| ends[one].iter().any(|region| ends[other].contains(region)))
            .collect()
    }
}
