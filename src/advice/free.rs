//! What costs nothing: another place for the seat or the loudspeakers, and pieces that are better taken away.

use serde::Serialize;

use crate::bass::Map;
use crate::scenario::document::{Listening, Piece, Plan};
use crate::simulate::Prepared;

use super::moving::{LOUDSPEAKER_FROM_WALL_M, Moving, SEAT_FROM_LOUDSPEAKER_M, SEAT_FROM_WALL_M};
use super::objective::{FIGURES, Steps};
use super::scales::{Change, Load, Scales};
use super::table::Table;

/// How far a seat is moved, forward and back, m, and in which steps.
const SEAT_REACH_M: f64 = 0.6;
const SEAT_STEP_M: f64 = 0.1;

/// How far both loudspeakers are moved, m.
const LOUDSPEAKER_MOVES_M: [f64; 4] = [-0.3, -0.15, 0.15, 0.3];

/// What is moved.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Moved {
    /// The seat.
    Seat,
    /// Both loudspeakers.
    Loudspeakers,
    /// Pieces that are taken away.
    Pieces,
}

/// Something to do that costs nothing.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FreeMove {
    /// What.
    pub what: Moved,
    /// How far towards the back wall, m; negative: towards the front wall.
    pub back_m: f64,
    /// Loudspeakers and seat after it, where they move.
    pub listening: Option<Listening>,
    /// Pieces taken away, by number in the plan.
    pub removed: Vec<usize>,
    /// Standard deviation of the bass over its third-octaves at the seat, dB, before and after; where it was weighed.
    pub bass_db: Option<[f64; 2]>,
    /// Sound before and after.
    pub before: Steps,
    /// After.
    pub after: Steps,
    /// Steps gained, the bass included.
    pub gained: f64,
    /// Steps that it gains beside the pieces of the best plan, the bass included; none where one of them would be in its way, and
    /// for pieces, as the best plan does without them already.
    pub beside_best: Option<f64>,
}

/// What the bass does, and what could be done about it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Boom {
    /// Frequency of two lowest notes that fall together, Hz.
    pub together_hz: Option<f64>,
    /// Standard deviation at the seat, dB.
    pub now_db: f64,
    /// With the best plan's pieces, dB.
    pub plan_db: f64,
    /// At the best seat within reach, dB, and how far back that is, m.
    pub seat_db: f64,
    /// How far back that seat is, m; negative: forward.
    pub seat_back_m: f64,
}

/// All that costs nothing, best first.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct FreeAdvice {
    /// The moves.
    pub moves: Vec<FreeMove>,
    /// The bass; none without a seat and two loudspeakers.
    pub boom: Option<Boom>,
}

/// Where it is done.
#[derive(Clone, Copy, Debug)]
pub struct Here<'a> {
    /// The document.
    pub prepared: &'a Prepared,
    /// The plan it starts from.
    pub plan: &'a Plan,
}

/// Both loudspeakers moved.
#[derive(Clone, Debug)]
pub struct LoudspeakerPlace {
    /// How far towards the back wall, m.
    pub back_m: f64,
    /// Where they and the seat are then.
    pub listening: Listening,
}

/// The bass with some pieces.
#[derive(Clone, Debug)]
pub struct BassHere {
    /// Over the floor, with the loudspeakers where they are.
    pub map: Map,
    /// With the loudspeakers at each of the other places that were asked for.
    pub elsewhere: Vec<Map>,
    /// Frequency of two lowest notes that fall together, Hz.
    pub together_hz: Option<f64>,
}

impl Here<'_> {
    fn listening(&self) -> &Listening {
        self.prepared.scenario().listening_of(self.plan)
    }

    /// The bass with some pieces, with the loudspeakers where they are and at other places; none without a seat and two
    /// loudspeakers.
    #[must_use]
    pub fn bass(&self, pieces: &[Piece], places: &[LoudspeakerPlace]) -> Option<BassHere> {
        let others: Vec<&Listening> = places.iter().map(|place| &place.listening).collect();
        let weighed = self
            .prepared
            .bass_and_maps(pieces, self.listening(), &others);
        let (bass, elsewhere) = weighed?;
        // The lowest two that fall together are the boom of a square room.
        let lowest = bass.coincident.iter().find(|pair| pair[0] == 0);
        Some(BassHere {
            together_hz: lowest.map(|pair| bass.notes[pair[0]].mode.frequency_hz),
            map: bass.map,
            elsewhere,
        })
    }

    /// What the sound of some pieces at another place comes to, the bass apart; none where the table cannot be made.
    fn sound_at(&self, listening: &Listening, pieces: &[Piece]) -> Option<Steps> {
        let mut scenario = self.prepared.scenario().clone();
        scenario.plans = vec![Plan {
            listening: Some(listening.clone()),
            pieces: pieces.to_vec(),
            ..self.plan.clone()
        }];
        let prepared = Prepared::after(scenario, Some(self.prepared));
        let table = Table::there(&prepared, 0)?;
        let count = table.there;
        let mut scales = Scales::new(std::sync::Arc::new(table));
        Some(scales.load((0..count).collect()).steps)
    }

    /// Moves of the seat, best first; the bass as a map says.
    #[must_use]
    pub fn seats(&self, map: &Map) -> Vec<FreeMove> {
        let listening = self.listening();
        let Some(seat) = listening.seat else {
            return Vec::new();
        };
        let pieces = &self.plan.pieces;
        let Some(before) = self.sound_at(listening, pieces) else {
            return Vec::new();
        };
        let now_db = unevenness_db(map, seat.x_m, seat.y_m);
        let count = (SEAT_REACH_M / SEAT_STEP_M).round() as i32;
        let steps = (-count..=count).filter(|step| *step != 0);
        let mut moves: Vec<FreeMove> = steps
            .filter_map(|step| {
                let back_m = f64::from(step) * SEAT_STEP_M;
                let mut to = listening.clone();
                let moved = to.seat.as_mut()?;
                moved.y_m = stored_m(moved.y_m + back_m);
                let y_m = moved.y_m;
                (self.may_sit(&to) && self.is_free(&to)).then_some(())?;
                let bass_db = [now_db, unevenness_db(map, seat.x_m, y_m)];
                let after = self.sound_at(&to, pieces)?;
                Some(moved_to(
                    Moved::Seat,
                    back_m,
                    to,
                    Some(bass_db),
                    (before, after),
                ))
            })
            .collect();
        moves.sort_by(|a, b| b.gained.total_cmp(&a.gained));
        moves
    }

    fn may_sit(&self, listening: &Listening) -> bool {
        let length_m = self.prepared.scenario().room.length_m;
        let Some(seat) = listening.seat else {
            return false;
        };
        let inside = (SEAT_FROM_WALL_M..=length_m - SEAT_FROM_WALL_M).contains(&seat.y_m);
        let far = listening
            .loudspeakers
            .iter()
            .all(|one| one.spot.point_m().distance(seat.point_m()) >= SEAT_FROM_LOUDSPEAKER_M);
        inside && far
    }

    fn moving(&self) -> Moving<'_> {
        Moving {
            prepared: self.prepared,
            plan: self.plan,
        }
    }

    /// Whether the floor is free where the seat and the loudspeakers go.
    fn is_free(&self, to: &Listening) -> bool {
        self.moving().in_the_way(to).is_none()
    }

    /// Where both loudspeakers may go.
    #[must_use]
    pub fn loudspeaker_places(&self) -> Vec<LoudspeakerPlace> {
        let listening = self.listening();
        let moved = LOUDSPEAKER_MOVES_M.into_iter().map(|back_m| {
            let mut to = listening.clone();
            for one in &mut to.loudspeakers {
                one.spot.y_m = stored_m(one.spot.y_m + back_m);
            }
            (back_m, to)
        });
        let is_away = |to: &Listening| {
            let mut all = to.loudspeakers.iter();
            all.all(|one| one.spot.y_m >= LOUDSPEAKER_FROM_WALL_M)
        };
        moved
            .filter(|(_, to)| is_away(to) && self.may_sit(to) && self.is_free(to))
            .map(|(back_m, listening)| LoudspeakerPlace { back_m, listening })
            .collect()
    }

    /// Moves of both loudspeakers, best first; the bass as it was worked out for the same places, where it was.
    #[must_use]
    pub fn loudspeakers(
        &self,
        places: &[LoudspeakerPlace],
        bass: Option<&BassHere>,
    ) -> Vec<FreeMove> {
        let listening = self.listening();
        let pieces = &self.plan.pieces;
        let (Some(seat), Some(before)) = (listening.seat, self.sound_at(listening, pieces)) else {
            return Vec::new();
        };
        let at_seat_db = |map: &Map| unevenness_db(map, seat.x_m, seat.y_m);
        let mut moves: Vec<FreeMove> = places
            .iter()
            .enumerate()
            .filter_map(|(number, place)| {
                let after = self.sound_at(&place.listening, pieces)?;
                let bass_db =
                    bass.map(|bass| [at_seat_db(&bass.map), at_seat_db(&bass.elsewhere[number])]);
                Some(moved_to(
                    Moved::Loudspeakers,
                    place.back_m,
                    place.listening.clone(),
                    bass_db,
                    (before, after),
                ))
            })
            .collect();
        moves.sort_by(|a, b| b.gained.total_cmp(&a.gained));
        moves
    }

    /// Notes what each move gains beside other pieces than those that are there, and what the bass at the seat is with them, dB;
    /// none where the bass is not weighed.
    pub fn beside(&self, moves: &mut [FreeMove], pieces: &[Piece]) -> Option<f64> {
        let is_loudspeakers = |one: &&FreeMove| one.what == Moved::Loudspeakers;
        let places: Vec<LoudspeakerPlace> = moves
            .iter()
            .filter(is_loudspeakers)
            .filter_map(|one| {
                Some(LoudspeakerPlace {
                    back_m: one.back_m,
                    listening: one.listening.clone()?,
                })
            })
            .collect();
        let bass = self.bass(pieces, &places)?;
        let seat = self.listening().seat?;
        let now_db = unevenness_db(&bass.map, seat.x_m, seat.y_m);
        let before = self.sound_at(self.listening(), pieces)?;
        let mut elsewhere = bass.elsewhere.iter();
        for one in moves {
            let (Some(to), Some(to_seat)) = (
                &one.listening,
                one.listening.as_ref().and_then(|to| to.seat),
            ) else {
                continue;
            };
            let map = if one.what == Moved::Loudspeakers {
                elsewhere.next()?
            } else {
                &bass.map
            };
            let to_db = unevenness_db(map, to_seat.x_m, to_seat.y_m);
            let after = self.sound_at(to, pieces)?;
            let gained = before.sound() - after.sound() + bass_steps([now_db, to_db]);
            one.beside_best = self.leaves_alone(to, pieces).then_some(gained);
        }
        Some(now_db)
    }

    /// Whether pieces that may be where they are still may once the listening place is another one.
    fn leaves_alone(&self, to: &Listening, pieces: &[Piece]) -> bool {
        self.moving().spoilt(to, pieces).is_none()
    }
}

/// Pieces that are better taken away, one after the other.
#[must_use]
pub fn removals(scales: &mut Scales) -> Option<FreeMove> {
    let start = scales.load((0..scales.table.there).collect());
    let mut load = start.clone();
    while let Some(out) = worst(scales, &load) {
        let kept = load.chosen.iter().copied().filter(|one| *one != out);
        load = scales.load(kept.collect());
    }
    let removed: Vec<usize> = start
        .chosen
        .iter()
        .copied()
        .filter(|one| !load.has(*one))
        .collect();
    let gained = start.steps.sound() - load.steps.sound();
    (!removed.is_empty() && gained >= FIGURES.worth_a_move).then_some(FreeMove {
        what: Moved::Pieces,
        back_m: 0.0,
        listening: None,
        removed,
        bass_db: None,
        before: start.steps,
        after: load.steps,
        gained,
        beside_best: None,
    })
}

/// The piece whose absence gains most in sound.
fn worst(scales: &mut Scales, load: &Load) -> Option<usize> {
    let mut best: Option<(f64, usize)> = None;
    for &number in &load.chosen {
        let change = Change {
            out: &[number],
            into: &[],
        };
        let gain = load.steps.sound() - scales.steps(load, change).sound();
        if gain > 1e-9 && best.is_none_or(|(most, _)| gain > most) {
            best = Some((gain, number));
        }
    }
    best.map(|(_, number)| number)
}

/// Those worth doing of each sort, best first.
#[must_use]
pub fn worth(lists: [Vec<FreeMove>; 2], removal: Option<FreeMove>) -> Vec<FreeMove> {
    let firsts = lists.into_iter().filter_map(|list| list.into_iter().next());
    let mut moves: Vec<FreeMove> = firsts
        .chain(removal)
        .filter(|one| one.gained >= FIGURES.worth_a_move)
        .collect();
    moves.sort_by(|a, b| b.gained.total_cmp(&a.gained));
    moves
}

fn moved_to(
    what: Moved,
    back_m: f64,
    listening: Listening,
    bass_db: Option<[f64; 2]>,
    (before, after): (Steps, Steps),
) -> FreeMove {
    FreeMove {
        what,
        back_m: stored_m(back_m),
        listening: Some(listening),
        removed: Vec::new(),
        bass_db,
        before,
        after,
        gained: before.sound() - after.sound() + bass_db.map_or(0.0, bass_steps),
        beside_best: None,
    }
}

/// Steps by which the bass is more even.
fn bass_steps([from_db, to_db]: [f64; 2]) -> f64 {
    (from_db - to_db) / FIGURES.bass_step_db
}

/// The map's figure nearest to a place.
#[must_use]
pub fn unevenness_db(map: &Map, x_m: f64, y_m: f64) -> f64 {
    let nearest = |places: &[f64], at: f64| {
        let near = (0..places.len())
            .min_by(|&a, &b| (places[a] - at).abs().total_cmp(&(places[b] - at).abs()));
        near.unwrap_or(0)
    };
    let place = nearest(&map.y_m, y_m) * map.x_m.len() + nearest(&map.x_m, x_m);
    map.unevenness_db.get(place).copied().unwrap_or(0.0)
}

fn stored_m(value_m: f64) -> f64 {
    crate::geometry::stored_m(value_m)
}
