//! A whole plan as it is offered: its pieces, what each is for, what it costs and what it changes.

use serde::Serialize;

use crate::geometry::Surface;
use crate::numeric::energy_to_db;
use crate::scenario::document::{Listening, Piece};
use crate::simulate::Prepared;

use super::objective::Steps;
use super::scales::{Change, Load, Scales};
use super::search::Bought;

/// What a piece is there for: what would be worse without it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Purpose {
    /// The middle decay.
    Decay,
    /// Octaves that stray.
    Evenness,
    /// First bounces.
    Bounces,
    /// Left and right alike.
    Likeness,
}

/// A piece of a plan that is not there yet.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Reason {
    /// Number of the piece in the plan.
    pub piece: usize,
    /// What it does most for.
    pub purpose: Purpose,
    /// Steps that the plan would lose without it.
    pub steps: f64,
    /// The loudspeaker whose bounce mark it covers, and where.
    pub mark: Option<(usize, Surface)>,
}

/// A whole plan.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PlanAdvice {
    /// All pieces, those that are there included.
    pub pieces: Vec<Piece>,
    /// Why each new piece is there.
    pub reasons: Vec<Reason>,
    /// Pieces of the plan it started from that are taken away, by number.
    pub removed: Vec<usize>,
    /// Price of the new pieces.
    pub price: f64,
    /// Before and after.
    pub before: Steps,
    /// After.
    pub after: Steps,
    /// Middle decay, s, before and after; none if a band does not decay.
    pub middle_s: [Option<f64>; 2],
    /// First bounces of a loudspeaker together, dB re its direct sound, before and after; none without a seat.
    pub bounces_db: Option<[f64; 2]>,
}

/// One step of the best order.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Bite {
    /// The new pieces of this step: one, or two that are alike.
    pub pieces: Vec<Piece>,
    /// What all new pieces up to here cost.
    pub price: f64,
    /// Steps gained in sound up to here.
    pub gained: f64,
    /// Middle decay then, s.
    pub middle_s: Option<f64>,
    /// First bounces then, dB re direct.
    pub bounces_db: Option<f64>,
}

/// What the pieces that are there do already, beside the same room without them.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Today {
    /// How many there are.
    pub pieces: usize,
    /// What they cost, those that are owned apart.
    pub price: f64,
    /// Steps gained in sound; negative where they do harm.
    pub gained: f64,
    /// Middle decay without them, s.
    pub bare_s: Option<f64>,
    /// First bounces without them, dB re direct.
    pub bare_bounces_db: Option<f64>,
}

/// Writes plans down.
#[derive(Clone, Copy, Debug)]
pub struct Writer<'a> {
    /// The document.
    pub prepared: &'a Prepared,
    /// Where it is heard from.
    pub listening: &'a Listening,
}

impl Writer<'_> {
    /// A plan of chosen pieces.
    #[must_use]
    pub fn plan(&self, scales: &mut Scales, load: &Load) -> PlanAdvice {
        let table = std::sync::Arc::clone(&scales.table);
        let start: Vec<usize> = (0..table.there).collect();
        let before = scales.load(start.clone());
        let piece = |number: &usize| table.candidates[*number].piece.clone();
        let pieces: Vec<Piece> = load.chosen.iter().map(piece).collect();
        let places = load.chosen.iter().enumerate();
        let reasons = places
            .filter(|(_, number)| **number >= table.there)
            .map(|(place, number)| reason(scales, load, place, *number))
            .collect();
        let there: Vec<Piece> = start.iter().map(piece).collect();
        let levels = [&before, load].map(|load| bounces_db(scales, load));
        PlanAdvice {
            middle_s: [
                self.prepared.middle_s(&there, self.listening),
                self.prepared.middle_s(&pieces, self.listening),
            ],
            bounces_db: levels[0].zip(levels[1]).map(|(from, to)| [from, to]),
            pieces,
            reasons,
            removed: start.into_iter().filter(|one| !load.has(*one)).collect(),
            price: load
                .chosen
                .iter()
                .map(|one| table.candidates[*one].price)
                .sum(),
            before: before.steps,
            after: load.steps,
        }
    }

    /// What is there already.
    #[must_use]
    pub fn today(&self, scales: &mut Scales) -> Today {
        let table = std::sync::Arc::clone(&scales.table);
        let there = scales.load((0..table.there).collect());
        let bare = scales.load(Vec::new());
        Today {
            pieces: table.there,
            price: table.candidates[..table.there]
                .iter()
                .map(|one| one.price)
                .sum(),
            gained: bare.steps.sound() - there.steps.sound(),
            bare_s: self.prepared.middle_s(&[], self.listening),
            bare_bounces_db: bounces_db(scales, &bare),
        }
    }

    /// The best order of buying.
    #[must_use]
    pub fn order(&self, scales: &mut Scales, order: &[Bought]) -> Vec<Bite> {
        let table = std::sync::Arc::clone(&scales.table);
        let mut chosen: Vec<usize> = (0..table.there).collect();
        let before = scales.load(chosen.clone()).steps;
        let mut bites = Vec::new();
        for bought in order {
            chosen.extend(&bought.added);
            let piece = |number: &usize| table.candidates[*number].piece.clone();
            let pieces: Vec<Piece> = chosen.iter().map(piece).collect();
            let load = scales.load(chosen.clone());
            bites.push(Bite {
                pieces: bought.added.iter().map(piece).collect(),
                price: bought.price,
                gained: before.sound() - load.steps.sound(),
                middle_s: self.prepared.middle_s(&pieces, self.listening),
                bounces_db: bounces_db(scales, &load),
            });
        }
        bites
    }
}

/// First bounces of a loudspeaker together, dB re its direct sound.
pub(super) fn bounces_db(scales: &mut Scales, load: &Load) -> Option<f64> {
    let is_heard = !scales.table.bounces.is_empty();
    let outcome = scales.outcome(load, Change::default());
    is_heard.then(|| energy_to_db(outcome.bounces))
}

/// What a piece is there for.
fn reason(scales: &mut Scales, load: &Load, place: usize, number: usize) -> Reason {
    let change = Change {
        out: &[number],
        into: &[],
    };
    let without = scales.steps(load, change);
    let with = load.steps;
    let lost = [
        (Purpose::Decay, without.decay - with.decay),
        (Purpose::Evenness, without.evenness - with.evenness),
        (Purpose::Bounces, without.bounces - with.bounces),
        (Purpose::Likeness, without.likeness - with.likeness),
    ];
    let most = lost
        .iter()
        .copied()
        .fold(lost[0], |most, one| if one.1 > most.1 { one } else { most });
    Reason {
        piece: place,
        purpose: most.0,
        steps: without.sum() - with.sum(),
        mark: scales.table.mark_under(number),
    }
}
