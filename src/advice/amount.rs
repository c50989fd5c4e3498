//! How many pieces of one kind a room needs: until the middle decay is in the goal, until that is 8 times in 10 so, and from
//! where on more of them is too much.
//!
//! The pieces go where the kind may be, each to the surface where it shortens the middle decay most.

use serde::Serialize;

use crate::geometry::Surface;
use crate::scenario::document::{Piece, Place, Plan};
use crate::simulate::{DRAWS, Draws, Prepared};

use super::cover::MOST_PIECES;
use super::places::Spot;
use super::plan::Writer;
use super::rules::Home;
use super::scales::{Change, Load, Scales};
use super::surfaces::{best_kind, fitting};
use super::table::{Table, shapes};

/// A goal is sure once so many of the draws meet it: the 8-in-10 of every range on the page.
const SURE: f64 = 0.8;

/// The treble is overdone where it dies away in less than this part of the middle decay: 25 % below it. Our choice.
const TREBLE_AT_LEAST: f64 = 0.75;

/// The two octaves of the treble among those that are weighed.
const TREBLE: std::ops::Range<usize> = 4..6;

/// Pieces beyond the first that is short enough 8 times in 10 at which the goal is looked for that is met as often.
const LOOKED_BEYOND: usize = 4;

/// So many pieces.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Count {
    /// New ones.
    pub pieces: usize,
    /// Their area, m².
    pub area_m2: f64,
    /// Of walls and ceiling.
    pub share: f64,
    /// What they cost.
    pub price: f64,
    /// Middle decay with them, s.
    pub middle_s: Option<f64>,
    /// Share of the draws that meet the goal, where they were made.
    pub met: Option<f64>,
}

/// What is overdone first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Overdone {
    /// The middle decay is shorter than the goal.
    Decay,
    /// The treble is gone before the middle, and more of the kind makes that worse.
    Treble,
}

/// How many are needed.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Amount {
    /// The kind: the one that was asked for, or of those that hang the one of which a single piece does most; none if none may
    /// be anywhere.
    pub kit: Option<String>,
    /// Middle decay now, s.
    pub middle_s: Option<f64>,
    /// All that fit, or those with which the decay is too short for the goal already.
    pub most: Option<Count>,
    /// The fewest with which the middle decay is in the goal at its middle estimate.
    pub middle: Option<Count>,
    /// The fewest with which it is so 8 times in 10.
    pub sure: Option<Count>,
    /// Where that cannot be had: those with which it is so most often, of the numbers that were looked at.
    pub surest: Option<Count>,
    /// The fewest that are too many, and why.
    pub too_many: Option<(Count, Overdone)>,
    /// The pieces in their order; each count is of the first of them.
    #[serde(skip)]
    pub pieces: Vec<Piece>,
}

/// Works it out.
#[derive(Clone, Debug)]
pub struct AmountWork {
    found: Amount,
    line: Option<Line>,
    /// Shares of draws that meet the goal and that are short enough for it, by number of pieces.
    asked: Vec<(usize, f64, f64)>,
    drawing: Option<(usize, Box<Draws>, usize)>,
    /// Fewer than these are not short enough 8 times in 10.
    from: usize,
    /// These are; none as long as none are known.
    fewest: Option<usize>,
}

/// Pieces in their order.
#[derive(Clone, Debug)]
struct Line {
    prepared: Prepared,
    plan: Plan,
    added: Vec<Piece>,
    piece_m2: f64,
    price: f64,
    of_m2: f64,
    goal_s: (f64, f64),
    /// By number of pieces, as far as it was asked for.
    middle_s: Vec<Option<Option<f64>>>,
}

impl AmountWork {
    /// All but the draws, with the kind of the scales' candidates of which one piece does most.
    #[must_use]
    pub fn new(scales: &mut Scales, writer: Writer<'_>, plan: &Plan) -> Self {
        let found = Amount {
            kit: None,
            middle_s: writer.prepared.middle_s(&plan.pieces, writer.listening),
            most: None,
            middle: None,
            sure: None,
            surest: None,
            too_many: None,
            pieces: Vec::new(),
        };
        let mut work = Self {
            found,
            line: None,
            asked: Vec::new(),
            drawing: None,
            from: 0,
            fewest: None,
        };
        // Panels rather than a rug, where any may hang.
        let hung = best_kind(scales, |on| on != Surface::Floor);
        if let Some(candidate) = hung.or_else(|| best_kind(scales, |_| true)) {
            work.lay(scales, writer, plan, candidate);
        }
        work
    }

    fn lay(&mut self, scales: &Scales, writer: Writer<'_>, plan: &Plan, candidate: usize) {
        let kind = scales.table.candidates[candidate].kind;
        let kit = &writer.prepared.scenario().kit[kind];
        let spots = fitting_everywhere(&scales.table, writer, kind);
        self.found.kit = Some(kit.id.clone());
        let (prepared, plan) = unheard(writer.prepared, plan);
        let goal_s = scales.table.objective.goal_s;
        let (added, treble) = ordered(&prepared, spots, goal_s);
        let surfaces = Surface::ALL
            .into_iter()
            .filter(|one| *one != Surface::Floor);
        let size_m = prepared.scenario().room.size_m();
        let mut line = Line {
            middle_s: vec![None; added.len() + 1],
            piece_m2: kit.width_m * kit.height_m,
            price: kit.price_of_one().unwrap_or(0.0),
            of_m2: surfaces.map(|one| one.extent(size_m).area_m2()).sum(),
            prepared,
            plan,
            added,
            goal_s,
        };
        let most = line.added.len();
        self.found.pieces.clone_from(&line.added);
        self.found.most = Some(line.count(most, None));
        let (low_s, high_s) = goal_s;
        // No piece makes a decay longer: what is too short stays so.
        let is_dry = line.middle_s(0).is_some_and(|middle_s| middle_s < low_s);
        let enough = line.first(|middle_s| middle_s <= high_s);
        let dry = line.first(|middle_s| middle_s < low_s);
        let treble = treble.map(|count| (count, Overdone::Treble));
        let too_many = treble
            .into_iter()
            .chain(dry.map(|count| (count, Overdone::Decay)));
        let too_many = too_many.min_by_key(|(count, _)| *count);
        self.found.too_many = too_many.map(|(count, why)| (line.count(count, None), why));
        let enough = enough.filter(|count| !is_dry && dry.is_none_or(|dry| dry > *count));
        self.found.middle = enough.map(|count| line.count(count, None));
        if let Some(first) = enough {
            self.from = first;
            self.ask(&line, first);
        }
        self.line = Some(line);
    }

    fn ask(&mut self, line: &Line, pieces: usize) {
        let draws = Draws::start(&line.with(pieces), 0);
        self.drawing = draws.map(|draws| (pieces, Box::new(draws), 0));
    }

    /// How far it is.
    #[must_use]
    pub fn progress(&self) -> f64 {
        let made = self.drawing.as_ref().map_or(0, |(.., made)| *made);
        let taken = self.asked.len() as f64 + made as f64 / DRAWS as f64;
        taken / (taken + 3.0)
    }

    /// A few draws more; the answer once all are made.
    pub fn more(&mut self, count: usize) -> Option<Amount> {
        let Some((pieces, draws, made)) = &mut self.drawing else {
            return Some(self.found.clone());
        };
        draws.more(count);
        *made += count;
        if !draws.are_complete() {
            return None;
        }
        let mut line = self.line.take()?;
        let mids_s = draws.mids_s();
        let share = |meets: &dyn Fn(f64) -> bool| {
            mids_s.iter().filter(|mid_s| meets(**mid_s)).count() as f64 / mids_s.len() as f64
        };
        let (low_s, high_s) = line.goal_s;
        let met = share(&|mid_s| (low_s..=high_s).contains(&mid_s));
        let short = share(&|mid_s| mid_s <= high_s);
        let pieces = *pieces;
        self.asked.push((pieces, met, short));
        self.drawing = None;
        match self.next(line.added.len()) {
            Some(next) => self.ask(&line, next),
            None => self.settle(&mut line),
        }
        self.line = Some(line);
        self.drawing.is_none().then(|| self.found.clone())
    }

    /// The number of pieces to ask about next; none once it is settled.
    fn next(&mut self, most: usize) -> Option<usize> {
        let &(pieces, _, short) = self.asked.last()?;
        if self.fewest.is_none_or(|fewest| self.from < fewest) {
            // Fewer draws are short enough with fewer pieces.
            if short >= SURE {
                self.fewest = Some(pieces);
            } else {
                self.from = self.from.max(pieces + 1);
            }
        }
        let Some(fewest) = self.fewest else {
            return (self.from <= most).then_some(most);
        };
        if self.from < fewest {
            return Some(self.from.midpoint(fewest));
        }
        // Short enough 8 times in 10, but now and then too short: a few more are looked at as long as the goal is met more often.
        let met = |count: usize| {
            let mut asked = self.asked.iter();
            asked
                .find(|(one, ..)| *one == count)
                .map(|(_, met, _)| *met)
        };
        let next = (fewest..).find(|count| met(*count).is_none())?;
        let looked: Vec<f64> = (fewest..next).filter_map(met).collect();
        let is_sure = looked.iter().any(|met| *met >= SURE);
        let rises = looked.windows(2).all(|pair| pair[0] < pair[1]);
        let is_near = next <= most.min(fewest + LOOKED_BEYOND);
        (!is_sure && rises && is_near).then_some(next)
    }

    fn settle(&mut self, line: &mut Line) {
        let mut asked = self.asked.clone();
        asked.sort_by_key(|(pieces, ..)| *pieces);
        let sure = asked.iter().find(|(_, met, _)| *met >= SURE);
        self.found.sure = sure.map(|(pieces, met, _)| line.count(*pieces, Some(*met)));
        // Of equal ones the fewest.
        let surest = asked.iter().rev().max_by(|a, b| a.1.total_cmp(&b.1));
        self.found.surest = surest
            .filter(|_| sure.is_none())
            .map(|(pieces, met, _)| line.count(*pieces, Some(*met)));
        if let Some(middle) = &mut self.found.middle {
            let own = asked.iter().find(|(pieces, ..)| *pieces == middle.pieces);
            middle.met = own.map(|(_, met, _)| *met);
        }
    }
}

impl Line {
    /// The document with the first of the pieces as its one plan.
    fn with(&self, pieces: usize) -> Prepared {
        let mut scenario = self.prepared.scenario().clone();
        scenario.plans[0].pieces = self.pieces(pieces);
        Prepared::after(scenario, Some(&self.prepared))
    }

    fn pieces(&self, count: usize) -> Vec<Piece> {
        let added = &self.added[..count];
        self.plan.pieces.iter().chain(added).cloned().collect()
    }

    fn middle_s(&mut self, count: usize) -> Option<f64> {
        if let Some(known) = self.middle_s[count] {
            return known;
        }
        let listening = self.prepared.scenario().listening.clone();
        let middle_s = self.prepared.middle_s(&self.pieces(count), &listening);
        self.middle_s[count] = Some(middle_s);
        middle_s
    }

    /// The fewest pieces with which the middle decay is as asked for, which more of them do not undo.
    fn first(&mut self, is_so: impl Fn(f64) -> bool) -> Option<usize> {
        let is_so_with = |line: &mut Self, count| line.middle_s(count).is_some_and(&is_so);
        let (mut low, mut high) = (0, self.added.len());
        if !is_so_with(self, high) {
            return None;
        }
        while low < high {
            let middle = low.midpoint(high);
            if is_so_with(self, middle) {
                high = middle;
            } else {
                low = middle + 1;
            }
        }
        Some(high)
    }

    fn count(&mut self, pieces: usize, met: Option<f64>) -> Count {
        let area_m2 = pieces as f64 * self.piece_m2;
        Count {
            pieces,
            area_m2,
            share: area_m2 / self.of_m2,
            price: pieces as f64 * self.price,
            middle_s: self.middle_s(pieces),
            met,
        }
    }
}

/// Places of a kind on all surfaces, surface by surface; together they leave ways to walk.
fn fitting_everywhere(table: &Table, writer: Writer<'_>, kind: usize) -> Vec<Vec<Spot>> {
    let candidates = table.candidates.iter().enumerate().skip(table.there);
    let of_kind: Vec<usize> = candidates
        .filter(|(_, one)| one.kind == kind)
        .map(|(number, _)| number)
        .collect();
    let on = |surface: Surface| {
        let mut all = of_kind.iter();
        let first = all.find(|one| table.surface_of(**one) == Some(surface));
        first.map_or(Vec::new(), |first| {
            fitting(table, writer, *first, surface).0
        })
    };
    let home = Home {
        scenario: writer.prepared.scenario(),
        listening: writer.listening,
    };
    let shape = shapes(writer.prepared)[kind];
    let all = Surface::ALL.into_iter().flat_map(on).collect();
    let mut all = table.leaving_ways(home, shape, all);
    all.truncate(MOST_PIECES.saturating_sub(table.there));
    let lies_on = |spot: &Spot, surface: Surface| match spot.piece.place {
        Place::Surface { surface: on, .. } | Place::Curtain { surface: on, .. } => on == surface,
        _ => false,
    };
    let of = |surface: Surface| {
        let on_it = all.iter().filter(|spot| lies_on(spot, surface));
        on_it.cloned().collect()
    };
    Surface::ALL.map(of).to_vec()
}

/// The document with one plan and nobody in it: what is heard does not matter to the decay.
fn unheard(prepared: &Prepared, plan: &Plan) -> (Prepared, Plan) {
    let mut scenario = prepared.scenario().clone();
    scenario.listening.seat = None;
    let plan = Plan {
        listening: None,
        ..plan.clone()
    };
    scenario.plans = vec![plan.clone()];
    (Prepared::after(scenario, Some(prepared)), plan)
}

/// Pieces in the order of how much they shorten the middle decay, until it is clearly shorter than the goal; and with how many
/// the treble is overdone first.
fn ordered(
    prepared: &Prepared,
    spots: Vec<Vec<Spot>>,
    (low_s, _): (f64, f64),
) -> (Vec<Piece>, Option<usize>) {
    /// Clearly: the middle decay of the report is worked out over other bands.
    const CLEARLY: f64 = 0.9;
    let listening = prepared.scenario().listening.clone();
    let Some(empty) = Table::there(prepared, 0) else {
        return (Vec::new(), None);
    };
    let there = empty.there;
    let mut next = there;
    let mut lanes: Vec<std::ops::Range<usize>> = Vec::new();
    for on_it in &spots {
        lanes.push(next..next + on_it.len());
        next += on_it.len();
    }
    let all = spots.into_iter().flatten().collect();
    let table = empty.with(prepared, &listening, all);
    let mut scales = Scales::new(std::sync::Arc::new(table));
    let mut load = scales.load((0..there).collect());
    let mut added = Vec::new();
    let mut parts = Vec::new();
    loop {
        let (middle_s, treble_s) = times_s(&mut scales, &load, &[]);
        parts.push(treble_s / middle_s);
        if middle_s < CLEARLY * low_s {
            break;
        }
        let mut best: Option<(f64, usize)> = None;
        for (lane, left) in lanes.iter().enumerate() {
            let Some(number) = left.clone().next() else {
                continue;
            };
            let (then_s, _) = times_s(&mut scales, &load, &[number]);
            if best.is_none_or(|(least_s, _)| then_s < least_s) {
                best = Some((then_s, lane));
            }
        }
        let Some(number) = best.and_then(|(_, lane)| lanes[lane].next()) else {
            break;
        };
        added.push(scales.table.candidates[number].piece.clone());
        let chosen = load.chosen.iter().copied().chain([number]);
        load = scales.load(chosen.collect());
    }
    (added, overdone(&parts))
}

/// From how many pieces on the treble is too short a part of the middle, where they shorten it; by the parts of each number.
fn overdone(parts: &[f64]) -> Option<usize> {
    let first = parts.first()?;
    let is_worse = |count: usize| parts.get(count.max(1)).is_some_and(|part| part < first);
    (0..parts.len()).find(|count| parts[*count] < TREBLE_AT_LEAST && is_worse(*count))
}

/// Decay of the middle and of the treble with one more piece, s.
fn times_s(scales: &mut Scales, load: &Load, into: &[usize]) -> (f64, f64) {
    let change = Change { out: &[], into };
    let t20_s = scales.outcome(load, change).t20_s;
    let treble_s = t20_s[TREBLE].iter().sum::<f64>() / TREBLE.len() as f64;
    (scales.table.objective.middle_s(&t20_s), treble_s)
}
