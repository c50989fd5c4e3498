//! Which surface first: what covering a surface does, a quarter after the other, and why in this room.

use serde::Serialize;

use crate::bands::BAND_1K;
use crate::decay::decay;
use crate::field_shape::carried;
use crate::geometry::Surface;
use crate::scenario::document::{Kind, Piece, Plan};
use crate::simulate::{Draws, Prepared};

use super::plan::{Writer, bounces_db};
use super::rules::Rule;
use super::scales::Scales;
use super::table::Table;

/// Shares of the free area that are looked at.
const SHARES: [f64; 4] = [0.25, 0.5, 0.75, 1.0];

/// The share whose difference is drawn, and by how many draws: enough for limits of 8 in 10.
const DRAWN_SHARE: usize = 1;
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
}

/// What one surface offers.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SurfaceAdvice {
    /// The surface.
    pub surface: Surface,
    /// The kind that does most there; none if no kind may be there.
    pub kit: Option<String>,
    /// What keeps every kind from it.
    pub rule: Option<Rule>,
    /// Quarter by quarter.
    pub covers: Vec<Cover>,
    /// Middle decay before, s.
    pub middle_s: Option<f64>,
    /// First bounces before, dB re direct.
    pub bounces_db: Option<f64>,
    /// How much half of it changes the middle decay, 8 times in 10, s.
    pub range_s: Option<(f64, f64)>,
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
    surface: Surface,
    found: SurfaceAdvice,
    draws: Option<[Draws; 2]>,
    drawn: usize,
}

impl SurfaceWork {
    /// All but the draws.
    #[must_use]
    pub fn new(scales: &mut Scales, writer: Writer<'_>, plan: &Plan, surface: Surface) -> Self {
        let best = best_kind(scales, surface);
        let order = best.map_or(Vec::new(), |kind| fitting(&scales.table, kind, surface));
        let there: Vec<usize> = (0..scales.table.there).collect();
        let before = scales.load(there.clone());
        let (absorption, carries) = facts(writer.prepared, plan, surface);
        let found = SurfaceAdvice {
            surface,
            kit: best.map(|kind| writer.prepared.scenario().kit[kind].id.clone()),
            rule: first_rule(&scales.table, surface).filter(|_| order.is_empty()),
            covers: covers(scales, writer, &there, &order),
            middle_s: writer.prepared.middle_s(&plan.pieces, writer.listening),
            bounces_db: bounces_db(scales, &before),
            range_s: None,
            absorption,
            carries,
            why: why(writer.prepared, plan, surface, absorption, carries),
        };
        let draws = found.covers.get(DRAWN_SHARE).and_then(|cover| {
            let with = with_pieces(scales, &there, &order[..cover.pieces]);
            pair(writer.prepared, plan, with)
        });
        Self {
            surface,
            found,
            draws,
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
        let Some([from, to]) = &mut self.draws else {
            return Some(self.found.clone());
        };
        let count = count.min(DRAWS - self.drawn);
        from.more(count);
        to.more(count);
        self.drawn += count;
        if self.drawn < DRAWS {
            return None;
        }
        let difference = from.difference("", to, self.surface.name());
        self.found.range_s = Some((difference.low_s, difference.high_s));
        self.draws = None;
        Some(self.found.clone())
    }
}

/// Draws of a plan and of the same with other pieces.
fn pair(prepared: &Prepared, plan: &Plan, pieces: Vec<Piece>) -> Option<[Draws; 2]> {
    let mut scenario = prepared.scenario().clone();
    let listening = plan.listening.clone();
    scenario.plans = vec![
        plan.clone(),
        Plan {
            name: String::new(),
            pieces,
            listening,
        },
    ];
    // The figures of the decay alone are asked for.
    for plan in &mut scenario.plans {
        let mut listening = scenario.listening.clone();
        listening.seat = None;
        plan.listening = Some(listening);
    }
    let prepared = Prepared::after(scenario, Some(prepared));
    Some([Draws::start(&prepared, 0)?, Draws::start(&prepared, 1)?])
}

fn with_pieces(scales: &Scales, there: &[usize], added: &[usize]) -> Vec<Piece> {
    let all = there.iter().chain(added);
    all.map(|one| scales.table.candidates[*one].piece.clone())
        .collect()
}

/// The kind whose best piece on the surface gains most.
fn best_kind(scales: &mut Scales, surface: Surface) -> Option<usize> {
    let table = std::sync::Arc::clone(&scales.table);
    let load = scales.load((0..table.there).collect());
    let mut best: Option<(f64, usize)> = None;
    for number in table.there..table.candidates.len() {
        if table.surface_of(number) != Some(surface) {
            continue;
        }
        let into = [number];
        let change = super::scales::Change {
            out: &[],
            into: &into,
        };
        let gain = load.steps.sum() - scales.steps(&load, change).sum();
        if best.is_none_or(|(most, _)| gain > most) {
            best = Some((gain, table.candidates[number].kind));
        }
    }
    best.map(|(_, kind)| kind)
}

/// Pieces of a kind that fit on a surface beside one another and beside what is there, marks first.
fn fitting(table: &Table, kind: usize, surface: Surface) -> Vec<usize> {
    let mut kept: Vec<usize> = Vec::new();
    for number in table.there..table.candidates.len() {
        let is_it =
            table.candidates[number].kind == kind && table.surface_of(number) == Some(surface);
        let is_free = |other: &usize| !table.meet(number, *other);
        if is_it && (0..table.there).all(|other| is_free(&other)) && kept.iter().all(is_free) {
            kept.push(number);
        }
    }
    kept
}

fn covers(scales: &mut Scales, writer: Writer<'_>, there: &[usize], order: &[usize]) -> Vec<Cover> {
    if order.is_empty() {
        return Vec::new();
    }
    let before = scales.load(there.to_vec()).steps;
    let cover = |share: f64| {
        let count = (share * order.len() as f64).ceil() as usize;
        let added = &order[..count];
        let load = scales.load(there.iter().chain(added).copied().collect());
        let pieces = with_pieces(scales, there, added);
        let kit = &writer.prepared.scenario().kit;
        let of_kind = |one: &usize| &kit[scales.table.candidates[*one].kind];
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
            middle_s: writer.prepared.middle_s(&pieces, writer.listening),
            bounces_db: bounces_db(scales, &load),
            gained: before.sound() - load.steps.sound(),
            evenness_gained: before.evenness - load.steps.evenness,
        }
    };
    SHARES.map(cover).to_vec()
}

/// The first rule that kept a kind from all of a surface.
fn first_rule(table: &Table, surface: Surface) -> Option<Rule> {
    let of_surface = table.refusals.iter().filter(|one| one.surface == surface);
    of_surface
        .filter(|one| one.loudspeaker.is_none())
        .map(|one| one.rule)
        .next()
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
