//! Which surface first: what covering a surface does, a quarter after the other, and why in this room.

use serde::Serialize;

use crate::bands::BAND_1K;
use crate::decay::decay;
use crate::field_shape::carried;
use crate::geometry::Surface;
use crate::scenario::document::{Kind, Piece, Place, Plan};
use crate::simulate::{Draws, Prepared};

use super::cover::{MOST_PIECES, Wanted};
use super::places::{Refusal, Spot, is_meant};
use super::plan::{Writer, bounces_db};
use super::rules::{Home, Rule, is_visible};
use super::scales::{Change, Scales};
use super::table::{Candidate, Table, marks, shapes};

/// Shares of the free area that are looked at.
const SHARES: [f64; 4] = [0.25, 0.5, 0.75, 1.0];

/// Draws of each difference: enough for limits of 8 in 10.
const DRAWS: usize = 60;

/// A surface that absorbs this much at 1 kHz is called soft. Common practice, no source.
const SOFT: f64 = 0.35;

/// A pair that carries this many times its part of the area is where the late sound lives.
const LINGERS: f64 = 1.15;

/// Why a surface does what it does in this room.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Why {
    /// Late sound runs between this pair longer than elsewhere.
    Lingers,
    /// It is soft already: covering what absorbs buys little.
    SoftAlready,
    /// The facing surface is soft already.
    PairIsSoft,
    /// It is hard, and its bounce is among the first.
    HardAndNear,
    /// It is hard.
    Hard,
}

/// One share of the free area covered.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Cover {
    /// Share of what fits.
    pub share: f64,
    /// Number of pieces.
    pub pieces: usize,
    /// Their area, m².
    pub area_m2: f64,
    /// What they cost.
    pub price: f64,
    /// Middle decay then, s.
    pub middle_s: Option<f64>,
    /// First bounces then, dB re direct.
    pub bounces_db: Option<f64>,
    /// Steps gained in sound.
    pub gained: f64,
    /// Of them, in evenness over the octaves; negative where it gets worse.
    pub evenness_gained: f64,
    /// How much it changes the middle decay, 8 times in 10, s.
    pub range_s: Option<(f64, f64)>,
    /// Whether more pieces would be seen than the home allows.
    pub shows_too_many: bool,
}

/// What one surface offers.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SurfaceAdvice {
    /// The surface.
    pub surface: Surface,
    /// The kind that does most there, or the one that was asked for; none if it may not be there.
    pub kit: Option<String>,
    /// What keeps every kind from it, or the one that was asked for.
    pub rule: Option<Rule>,
    /// What of it is free for that kind, m².
    pub free_m2: f64,
    /// Quarter by quarter.
    pub covers: Vec<Cover>,
    /// All that fit, nearest to a bounce mark first; each share is of the first of them.
    #[serde(skip)]
    pub fitting: Vec<Piece>,
    /// Middle decay before, s.
    pub middle_s: Option<f64>,
    /// First bounces before, dB re direct.
    pub bounces_db: Option<f64>,
    /// Absorption of the surface at 1 kHz now.
    pub absorption: f64,
    /// Share of the late sound that its pair carries over the pair's share of the area.
    pub carries: Option<f64>,
    /// Why.
    pub why: Why,
}

/// Works out one surface.
#[derive(Clone, Debug)]
pub struct SurfaceWork {
    found: SurfaceAdvice,
    /// Of the plan as it is, then of each share; empty where nothing is drawn.
    draws: Vec<Draws>,
    drawn: usize,
}

impl SurfaceWork {
    /// All but the draws, with the kind of the scales' candidates that does most on the surface.
    #[must_use]
    pub fn new(scales: &mut Scales, writer: Writer<'_>, plan: &Plan, surface: Surface) -> Self {
        let best = best_kind(scales, |on| on == surface);
        let (spots, free_m2) = best.map_or((Vec::new(), 0.0), |candidate| {
            fitting(&scales.table, writer, candidate, surface)
        });
        let there = scales.table.there;
        let before = scales.load((0..there).collect());
        let bounces_db = bounces_db(scales, &before);
        let (absorption, carries) = facts(writer.prepared, plan, surface);
        let rule = rule_against(&scales.table, writer, surface).filter(|_| spots.is_empty());
        let table = scales.table.with(writer.prepared, writer.listening, spots);
        let mut covered = Scales::new(std::sync::Arc::new(table));
        let kit = best.map(|one| scales.table.candidates[one].piece.kit.clone());
        let found = SurfaceAdvice {
            surface,
            kit,
            rule,
            free_m2,
            covers: covers(&mut covered, writer),
            fitting: covered.table.candidates[there..]
                .iter()
                .map(|one| one.piece.clone())
                .collect(),
            middle_s: writer.prepared.middle_s(&plan.pieces, writer.listening),
            bounces_db,
            absorption,
            carries,
            why: why(writer.prepared, plan, surface, absorption, carries),
        };
        let sets: Vec<Vec<Piece>> = found
            .covers
            .iter()
            .map(|cover| with_pieces(&covered, cover.pieces))
            .collect();
        Self {
            draws: drawn(writer.prepared, plan, sets),
            found,
            drawn: 0,
        }
    }

    /// How far it is.
    #[must_use]
    pub fn progress(&self) -> f64 {
        self.drawn as f64 / DRAWS as f64
    }

    /// A few draws more; the answer once all are made.
    pub fn more(&mut self, count: usize) -> Option<SurfaceAdvice> {
        let Some((from, shares)) = self.draws.split_first_mut() else {
            return Some(self.found.clone());
        };
        let count = count.min(DRAWS - self.drawn);
        from.more(count);
        for to in shares.iter_mut() {
            to.more(count);
        }
        self.drawn += count;
        if self.drawn < DRAWS {
            return None;
        }
        for (cover, to) in self.found.covers.iter_mut().zip(shares) {
            let difference = from.difference("", to, "");
            cover.range_s = Some((difference.low_s, difference.high_s));
        }
        self.draws.clear();
        Some(self.found.clone())
    }
}

/// Draws of a plan and of the same with other pieces; none if there are no others.
fn drawn(prepared: &Prepared, plan: &Plan, sets: Vec<Vec<Piece>>) -> Vec<Draws> {
    if sets.is_empty() {
        return Vec::new();
    }
    let mut scenario = prepared.scenario().clone();
    // The figures of the decay alone are asked for.
    let mut listening = scenario.listening.clone();
    listening.seat = None;
    let of = |pieces| Plan {
        name: String::new(),
        pieces,
        listening: Some(listening.clone()),
    };
    scenario.plans = std::iter::once(plan.pieces.clone())
        .chain(sets)
        .map(of)
        .collect();
    let prepared = Prepared::after(scenario, Some(prepared));
    let plans = 0..prepared.scenario().plans.len();
    plans
        .filter_map(|plan| Draws::start(&prepared, plan))
        .collect()
}

/// The pieces that are there and the first of those that are added.
fn with_pieces(scales: &Scales, added: usize) -> Vec<Piece> {
    let all = &scales.table.candidates[..scales.table.there + added];
    all.iter().map(|one| one.piece.clone()).collect()
}

/// The candidate that gains most by itself of those that lie where it is asked for: its kind is the one to cover that with.
pub(super) fn best_kind(scales: &mut Scales, is_there: impl Fn(Surface) -> bool) -> Option<usize> {
    let table = std::sync::Arc::clone(&scales.table);
    let barred = |number: usize| {
        let one = &table.candidates[number];
        let is_unseen =
            |refusal: &Refusal| refusal.rule == Rule::Visible && refusal.kit == one.piece.kit;
        one.is_visible && table.refusals.iter().any(is_unseen)
    };
    let load = scales.load((0..table.there).collect());
    let mut best: Option<(f64, usize)> = None;
    for number in table.there..table.candidates.len() {
        let lies = matches!(
            table.candidates[number].piece.place,
            Place::Surface { .. } | Place::Curtain { .. }
        );
        let is_elsewhere = !table.surface_of(number).is_some_and(&is_there);
        if !lies || is_elsewhere || barred(number) {
            continue;
        }
        let change = Change {
            out: &[],
            into: &[number],
        };
        let gain = load.steps.sum() - scales.steps(&load, change).sum();
        if best.is_none_or(|(most, _)| gain > most) {
            best = Some((gain, number));
        }
    }
    best.map(|(_, number)| number)
}

/// All pieces of a candidate's kind that fit on a surface beside what is there, and the area that is free for them, m².
pub(super) fn fitting(
    table: &Table,
    writer: Writer<'_>,
    candidate: usize,
    surface: Surface,
) -> (Vec<Spot>, f64) {
    let one = &table.candidates[candidate];
    let hangs_m = match one.piece.place {
        Place::Curtain { v_m, .. } => v_m,
        _ => 0.0,
    };
    let wanted = Wanted {
        home: Home {
            scenario: writer.prepared.scenario(),
            listening: writer.listening,
        },
        kind: one.kind,
        shape: shapes(writer.prepared)[one.kind],
        surface,
        there: &table.covered_there(surface),
        hangs_m,
    };
    let most = MOST_PIECES.saturating_sub(table.there);
    let spots = wanted.fitting(&marks(&table.ground));
    let mut spots = table.leaving_ways(wanted.home, wanted.shape, spots);
    spots.truncate(most);
    (spots, wanted.free_m2())
}

fn covers(scales: &mut Scales, writer: Writer<'_>) -> Vec<Cover> {
    let table = std::sync::Arc::clone(&scales.table);
    let all = table.candidates.len() - table.there;
    if all == 0 {
        return Vec::new();
    }
    let before = scales.load((0..table.there).collect()).steps;
    let kit = &writer.prepared.scenario().kit;
    let cover = |share: f64| {
        let count = (share * all as f64).ceil() as usize;
        let end = table.there + count;
        let added = &table.candidates[table.there..end];
        let load = scales.load((0..end).collect());
        let of_kind = |one: &Candidate| &kit[one.kind];
        let visible = table.candidates[..end]
            .iter()
            .filter(|one| is_visible(&one.piece.place));
        Cover {
            share,
            pieces: count,
            area_m2: added
                .iter()
                .map(of_kind)
                .map(|kind| kind.width_m * kind.height_m)
                .sum(),
            price: added
                .iter()
                .map(of_kind)
                .filter_map(Kind::price_of_one)
                .sum(),
            middle_s: writer
                .prepared
                .middle_s(&with_pieces(scales, count), writer.listening),
            bounces_db: bounces_db(scales, &load),
            gained: before.sound() - load.steps.sound(),
            evenness_gained: before.evenness - load.steps.evenness,
            range_s: None,
            shows_too_many: visible.count() > table.most_visible,
        }
    };
    SHARES.map(cover).to_vec()
}

/// The first rule that kept a kind from all of a surface.
fn rule_against(table: &Table, writer: Writer<'_>, surface: Surface) -> Option<Rule> {
    let of_surface = table.refusals.iter().filter(|one| one.surface == surface);
    let refused = of_surface
        .filter(|one| one.loudspeaker.is_none() && !one.moved)
        .map(|one| one.rule)
        .next();
    let shapes = shapes(writer.prepared);
    let is_meant = |kind: &usize| is_meant(writer.prepared.scenario(), shapes[*kind], surface);
    refused.or_else(|| {
        if !table.kinds.iter().any(is_meant) {
            return Some(Rule::Elsewhere);
        }
        // Where each place that is wanted is one that a piece has already, nothing is refused.
        let is_taken = |number: usize| {
            table.kinds.contains(&table.candidates[number].kind)
                && table.surface_of(number) == Some(surface)
        };
        let is_full = (0..table.there).any(is_taken);
        is_full.then_some(Rule::Piece)
    })
}

/// Absorption of a surface at 1 kHz, and what its pair carries of the late sound over its share of the area.
fn facts(prepared: &Prepared, plan: &Plan, surface: Surface) -> (f64, Option<f64>) {
    let room = prepared.room_with(plan);
    let absorption = room.wall(surface).mean_absorption()[BAND_1K];
    let area = |axis: usize| Surface::ALL[2 * axis].extent(room.size_m).area_m2();
    let all: f64 = (0..3).map(area).sum();
    let share = area(surface.axis()) / all;
    let carries = carried(&decay(&room)).map(|shares| shares[surface.axis()] / share);
    (absorption, carries)
}

fn why(
    prepared: &Prepared,
    plan: &Plan,
    surface: Surface,
    absorption: f64,
    carries: Option<f64>,
) -> Why {
    let facing = Surface::ALL[surface as usize ^ 1];
    if absorption > SOFT {
        return Why::SoftAlready;
    }
    if carries.is_some_and(|times| times > LINGERS) {
        return Why::Lingers;
    }
    if facts(prepared, plan, facing).0 > SOFT {
        return Why::PairIsSoft;
    }
    let listening = prepared.scenario().listening_of(plan);
    if is_near(prepared, listening, surface) {
        Why::HardAndNear
    } else {
        Why::Hard
    }
}

/// Whether a first bounce off the surface comes so early that it counts fully.
fn is_near(
    prepared: &Prepared,
    listening: &crate::scenario::document::Listening,
    surface: Surface,
) -> bool {
    let ground = prepared.ground(listening);
    let bounces = ground.bounces.as_ref();
    bounces.is_some_and(|bounces| {
        let mut ways = bounces.ways(surface).iter();
        ways.any(|way| super::objective::counts(way.delay_s) >= 1.0)
    })
}
