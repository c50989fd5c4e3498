//! Whether loudspeakers and seat may be somewhere else: the floor is free there, the pieces that are there may stay, and who walks
//! still gets through.

use crate::geometry::Rect;
use crate::scenario::document::{Listening, Piece, Plan};
use crate::simulate::Prepared;

use super::rules::{Home, Rule};
use super::table::{shapes, walked};

/// A seat stays this far from the walls, and from the loudspeakers, m. Common practice, no source.
pub(super) const SEAT_FROM_WALL_M: f64 = 0.3;
pub(super) const SEAT_FROM_LOUDSPEAKER_M: f64 = 1.0;

/// Loudspeakers stay this far from a wall, m. Common practice, no source.
pub(super) const LOUDSPEAKER_FROM_WALL_M: f64 = 0.2;

/// So high reach a person who sits and a loudspeaker on its stand, m: what begins higher is in nobody's way. Common practice, no
/// source.
const LISTENER_HIGH_M: f64 = 1.5;

/// Where loudspeakers and seat are moved from.
#[derive(Clone, Copy, Debug)]
pub(super) struct Moving<'a> {
    /// The document.
    pub prepared: &'a Prepared,
    /// The plan in hand.
    pub plan: &'a Plan,
}

impl<'a> Moving<'a> {
    fn listening(&self) -> &'a Listening {
        self.prepared.scenario().listening_of(self.plan)
    }

    fn home(&self, listening: &'a Listening) -> Home<'a> {
        Home {
            scenario: self.prepared.scenario(),
            listening,
        }
    }

    /// What stands where the seat and the loudspeakers go: furniture, a way, a zone or a piece, but what they are in or on already.
    pub fn in_the_way(&self, to: &'a Listening) -> Option<Rule> {
        // By loudspeaker, then the seat; the rest of the floor is the same before and after.
        let floor = |listening| {
            let areas = self.home(listening).floor_obstacles(LISTENER_HIGH_M);
            let areas = areas.into_iter();
            areas.partition::<Vec<_>, _>(|(_, rule)| *rule == Rule::Listener)
        };
        let (before, rest) = floor(self.listening());
        let (after, _) = floor(to);
        let kinds = shapes(self.prepared);
        let pieces = self.plan.pieces.iter().filter_map(|piece| {
            let shape = kinds.iter().find(|shape| shape.kind.id == piece.kit)?;
            let body = self.home(to).covered(*shape, &piece.place).stands?;
            (body.low_m < LISTENER_HIGH_M).then_some((body.foot, Rule::Piece))
        });
        let taken: Vec<(Rect, Rule)> = rest.into_iter().chain(pieces).collect();
        let mut moves = before.into_iter().zip(after);
        moves.find_map(|((before, _), (after, _))| {
            let mut news = taken.iter().filter(|(one, _)| !one.overlaps(before));
            let met = news.find(|(one, _)| one.overlaps(after))?;
            (before != after).then_some(met.1)
        })
    }

    /// The rule by which a piece that may be where it is may not be there once the listening place is another one.
    pub fn spoilt(&self, to: &'a Listening, pieces: &[Piece]) -> Option<Rule> {
        let kinds = shapes(self.prepared);
        let refused = |listening, piece: &Piece| {
            let shape = kinds.iter().find(|shape| shape.kind.id == piece.kit)?;
            self.home(listening).refused(*shape, &piece.place)
        };
        let here = self.listening();
        let news = |piece: &Piece| refused(to, piece).filter(|_| refused(here, piece).is_none());
        pieces.iter().find_map(news)
    }

    /// Whether a way to walk that there is would close.
    pub fn closes_a_way(&self, to: &'a Listening) -> bool {
        let here = self.home(self.listening());
        let ways = walked(self.prepared, here, &self.plan.pieces);
        !self.home(to).floor().keeps(&ways.joined, &ways.there)
    }
}
