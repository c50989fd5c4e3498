//! Every piece that advice may use, each with what it does by itself: its own part of the late sums, of the first bounces, of
//! the price, and which others it cannot be beside.

use std::sync::Arc;

use num_complex::Complex64;

use crate::geometry::{Rect, Surface};
use crate::scenario::Scenario;
use crate::scenario::document::{Kind, Listening, Piece, Place};
use crate::simulate::{Effect, Ground, Prepared, Screen};
use crate::spectrum::{FINE, Spectrum};
use crate::surface::WallSums;

use super::objective::{Objective, counts};
use super::places::{Finder, Mark, Places, Refusal, Spot, Walked, may_look, mirrored};
use super::route::{Floor, Joined};
use super::rules::{Covered, Home, Rule, Shape, is_visible, visible};

/// Thirds that first bounces are weighed over: 500 Hz to 4 kHz.
const THIRDS: std::ops::Range<usize> = 10..20;

/// Frequencies in a third.
const PER_THIRD: usize = FINE / crate::bands::BANDS;

/// Frequencies that first bounces are weighed at.
pub(super) const POINTS: usize = 10 * PER_THIRD;

/// Pressure of one bounce at the frequencies that count.
pub(super) type Row = [Complex64; POINTS];

/// A piece that advice may use.
#[derive(Clone, Debug)]
pub struct Candidate {
    /// Number of its kind in the kit.
    pub kind: usize,
    /// The piece.
    pub piece: Piece,
    /// What it adds to the price; nothing where it is owned.
    pub price: f64,
    /// Whether it is not in the plan yet.
    pub is_new: bool,
    /// Whether it shows as treatment.
    pub is_visible: bool,
    /// The candidate on the other side of the room; itself for one in the middle.
    pub twin: Option<usize>,
    /// Number of its late effect among the distinct ones.
    pub(super) class: usize,
    /// What it changes of each loudspeaker's bounce off a wall.
    pub(super) walls: Vec<(usize, Vec<Row>)>,
    pub(super) screen: Option<ScreenRows>,
    covered: Covered,
    meets: Vec<bool>,
    /// What it takes of ways to walk, and the wall that it hangs on; none for one that stands.
    way: Option<(Rect, Option<Surface>)>,
}

/// A screen at the frequencies that count.
#[derive(Clone, Debug)]
pub(super) struct ScreenRows {
    /// Share of the pressure that passes, by loudspeaker and wall.
    pub passing: Vec<[Option<Row>; 6]>,
    /// Energy of the bounces off its own faces, by loudspeaker, weighted.
    pub own: Vec<f64>,
}

/// What one piece adds to the late sums.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Late {
    pub walls: Vec<(Surface, WallSums)>,
    pub furniture: Option<(crate::bands::Banded, f64)>,
}

/// One loudspeaker's bounce off one wall without kit.
#[derive(Clone, Debug)]
pub(super) struct Bounce {
    pub row: Row,
    /// What a reflected energy of 1 counts, by third.
    pub level: [f64; 10],
}

/// All that a search needs to know of a document.
#[derive(Clone, Debug)]
pub struct Table {
    /// What is aimed for.
    pub objective: Objective,
    /// The pieces; those that are there come first.
    pub candidates: Vec<Candidate>,
    /// How many of them are there already.
    pub there: usize,
    /// Most pieces that may be seen.
    pub most_visible: usize,
    /// What found no place.
    pub refusals: Vec<Refusal>,
    /// The walls at either side of who listens.
    pub(super) sides: [Surface; 2],
    /// Whether any kind that may be looked at has a price; what is owned has none that counts.
    pub is_priced: bool,
    /// Kinds that places were looked for, by their numbers in the kit.
    pub(super) kinds: Vec<usize>,
    pub(super) ground: Arc<Ground>,
    pub(super) classes: Vec<Late>,
    /// By loudspeaker, then by wall.
    pub(super) bounces: Vec<Vec<Bounce>>,
    floor: Floor,
    /// With the pieces that are there.
    joined: Joined,
    /// Before each wall with candidates in the way of who walks, as deep and as long as all of them.
    strips: Vec<Rect>,
}

fn has_price(kind: &Kind) -> bool {
    kind.price_of_one().is_some_and(|price| price > 0.0)
}

/// Kinds that are offered, by number: with a price if any that may be looked at has one. What costs nothing is owned, and no
/// more of it is offered.
fn offered(scenario: &Scenario) -> Vec<usize> {
    let priced = |kind: &usize| has_price(&scenario.kit[*kind]);
    let all = 0..scenario.kit.len();
    let with_price: Vec<usize> = all.clone().filter(priced).collect();
    let looks_right = |kind: &usize| may_look(scenario, &scenario.kit[*kind]);
    if with_price.iter().any(looks_right) {
        return with_price;
    }
    let is_open = |kind: &usize| priced(kind) || scenario.kit[*kind].price_of_one().is_none();
    all.filter(is_open).collect()
}

/// The bounce marks of first order.
#[must_use]
pub fn marks(ground: &Ground) -> Vec<Mark> {
    let Some(bounces) = &ground.bounces else {
        return Vec::new();
    };
    let of_wall = |surface: Surface| {
        let ways = bounces.ways(surface).iter().enumerate();
        ways.map(move |(loudspeaker, way)| Mark {
            surface,
            loudspeaker,
            uv_m: surface.uv(way.path.hits[0].point_m),
        })
    };
    Surface::ALL.into_iter().flat_map(of_wall).collect()
}

/// Shapes of the kinds of a kit, by number.
#[must_use]
pub fn shapes(prepared: &Prepared) -> Vec<Shape<'_>> {
    let kit = prepared.scenario().kit.iter().zip(prepared.kit());
    kit.map(|(kind, facts)| Shape {
        kind,
        depth_m: facts.depth_m,
    })
    .collect()
}

/// Legal places for the kinds offered in a plan.
#[must_use]
pub fn places(prepared: &Prepared, plan: usize) -> Places {
    let scenario = prepared.scenario();
    let Some(plan) = scenario.plans.get(plan) else {
        return Places::default();
    };
    let listening = scenario.listening_of(plan);
    let ground = prepared.ground(listening);
    let kinds = offered(scenario);
    places_about(prepared, &ground, listening, &plan.pieces, &kinds)
}

fn places_about(
    prepared: &Prepared,
    ground: &Ground,
    listening: &Listening,
    pieces: &[Piece],
    kinds: &[usize],
) -> Places {
    let shapes = shapes(prepared);
    let scenario = prepared.scenario();
    let home = Home {
        scenario,
        listening,
    };
    let there: Vec<(Surface, Rect)> = pieces
        .iter()
        .filter_map(|piece| {
            let number = kind_number(scenario, piece)?;
            Some(home.covered(shapes[number], &piece.place).on)
        })
        .flatten()
        .collect();
    let finder = Finder {
        home,
        marks: &marks(ground),
        there: &there,
        ways: &walked(prepared, home, pieces),
    };
    let kinds: Vec<(usize, Shape<'_>)> = kinds
        .iter()
        .map(|number| (*number, shapes[*number]))
        .collect();
    finder.places(&kinds)
}

/// Of each piece of a plan the rule that would refuse it there, if any does.
#[must_use]
pub fn refused_pieces(prepared: &Prepared, plan: usize) -> Vec<Option<Rule>> {
    let scenario = prepared.scenario();
    let Some(plan) = scenario.plans.get(plan) else {
        return Vec::new();
    };
    let home = Home {
        scenario,
        listening: scenario.listening_of(plan),
    };
    let shapes = shapes(prepared);
    let covered: Vec<Option<Covered>> = plan
        .pieces
        .iter()
        .map(|piece| Some(home.covered(shapes[kind_number(scenario, piece)?], &piece.place)))
        .collect();
    let floor = home.floor();
    let feet: Vec<Option<Rect>> = plan
        .pieces
        .iter()
        .map(|piece| home.in_the_way(shapes[kind_number(scenario, piece)?], &piece.place))
        .collect();
    let closes_a_way = |number: usize| {
        let others = || feet.iter().enumerate().filter(|(one, _)| *one != number);
        let there: Vec<Rect> = others().filter_map(|(_, foot)| *foot).collect();
        let with = [&there[..], &[feet[number]?]].concat();
        (!floor.keeps(&floor.joined(&there), &with)).then_some(Rule::Route)
    };
    let refused = |(number, piece): (usize, &Piece)| {
        let shape = shapes[kind_number(scenario, piece)?];
        let own = covered[number].as_ref()?;
        let others = covered.iter().enumerate();
        let meets = |(other, area): (usize, &Option<Covered>)| {
            other != number && area.as_ref().is_some_and(|area| area.meets(own))
        };
        home.refused(shape, &piece.place)
            .or_else(|| others.into_iter().any(meets).then_some(Rule::Piece))
            .or_else(|| closes_a_way(number))
    };
    plan.pieces.iter().enumerate().map(refused).collect()
}

fn kind_number(scenario: &Scenario, piece: &Piece) -> Option<usize> {
    scenario.kit.iter().position(|kind| kind.id == piece.kit)
}

impl Table {
    /// Of a plan; none if there is no such plan.
    #[must_use]
    pub fn of(prepared: &Prepared, plan: usize) -> Option<Self> {
        Self::made(prepared, plan, &offered(prepared.scenario()))
    }

    /// Of the pieces that are there alone.
    #[must_use]
    pub fn there(prepared: &Prepared, plan: usize) -> Option<Self> {
        Self::made(prepared, plan, &[])
    }

    /// Of a plan with one kind, by its number in the kit, whether or not it is offered.
    #[must_use]
    pub fn of_kind(prepared: &Prepared, plan: usize, kind: usize) -> Option<Self> {
        Self::made(prepared, plan, &[kind])
    }

    fn made(prepared: &Prepared, plan: usize, kinds: &[usize]) -> Option<Self> {
        let scenario = prepared.scenario();
        let pieces = &scenario.plans.get(plan)?.pieces;
        let listening = scenario.listening_of(&scenario.plans[plan]);
        let ground = prepared.ground(listening);
        let places = places_about(prepared, &ground, listening, pieces, kinds);
        let there = pieces.iter().filter_map(|piece| {
            Some(Spot {
                kind: kind_number(scenario, piece)?,
                piece: piece.clone(),
            })
        });
        let mut spots: Vec<Spot> = there.collect();
        let count = spots.len();
        let home = Home {
            scenario,
            listening,
        };
        let ways = walked(prepared, home, pieces);
        let shapes = shapes(prepared);
        // Without others that is a matter of the rules for the piece alone.
        let closes = |spot: &Spot| {
            let shape = shapes[spot.kind];
            !ways.there.is_empty() && ways.closes(home, shape, &spot.piece.place)
        };
        let fresh = |spot: &Spot| !pieces.contains(&spot.piece) && !closes(spot);
        let mut refusals = places.refusals;
        refusals.extend(refused_spots(&places.spots, Rule::Route, closes));
        refusals.extend(unseen(scenario, pieces, &places.spots));
        spots.extend(places.spots.into_iter().filter(fresh));
        let mut table = Self {
            objective: Objective::of(scenario),
            candidates: Vec::new(),
            there: count,
            most_visible: most_visible(scenario, pieces),
            sides: sides(listening.wall_ahead()),
            refusals,
            is_priced: scenario
                .kit
                .iter()
                .any(|kind| has_price(kind) && may_look(scenario, kind)),
            kinds: kinds.to_vec(),
            bounces: bounces(&ground),
            ground: Arc::new(ground),
            classes: Vec::new(),
            floor: ways.floor.clone(),
            joined: ways.joined.clone(),
            strips: Vec::new(),
        };
        table.take(prepared, listening, spots);
        Some(table)
    }

    /// The pieces that are there with others than the candidates found.
    pub(super) fn with(
        &self,
        prepared: &Prepared,
        listening: &Listening,
        added: Vec<Spot>,
    ) -> Self {
        let there = self.candidates[..self.there].iter().map(|one| Spot {
            kind: one.kind,
            piece: one.piece.clone(),
        });
        let mut table = Self {
            candidates: Vec::new(),
            refusals: Vec::new(),
            classes: Vec::new(),
            ..self.clone()
        };
        table.take(prepared, listening, there.chain(added).collect());
        table
    }

    /// What the pieces that are there cover of a surface.
    pub(super) fn covered_there(&self, surface: Surface) -> Vec<Rect> {
        let there = self.candidates[..self.there].iter();
        let on = there.flat_map(|one| &one.covered.on);
        on.filter(|(on, _)| *on == surface)
            .map(|(_, rect)| *rect)
            .collect()
    }

    /// Takes the pieces in, each with what it does.
    fn take(&mut self, prepared: &Prepared, listening: &Listening, spots: Vec<Spot>) {
        let scenario = prepared.scenario();
        let shapes = shapes(prepared);
        let home = Home {
            scenario,
            listening,
        };
        let owned = &scenario.plans[0].pieces;
        for (number, spot) in spots.into_iter().enumerate() {
            let effect = prepared.effect(&self.ground, &spot.piece);
            let class = self.class(&effect);
            let is_new = number >= self.there;
            let is_owned = !is_new && owned.contains(&spot.piece);
            let price = scenario.kit[spot.kind].price_of_one().unwrap_or(0.0);
            self.candidates.push(Candidate {
                kind: spot.kind,
                price: if is_owned { 0.0 } else { price },
                is_new: !is_owned,
                is_visible: is_visible(&spot.piece.place),
                twin: None,
                class,
                walls: wall_rows(&effect),
                screen: effect.screen.as_ref().map(|screen| self.screen(screen)),
                covered: home.covered(shapes[spot.kind], &spot.piece.place),
                meets: Vec::new(),
                way: home
                    .in_the_way(shapes[spot.kind], &spot.piece.place)
                    .map(|foot| (foot, wall_of(&spot.piece.place))),
                piece: spot.piece,
            });
        }
        self.strips = self.strips();
        self.relate(&shapes, scenario.room.width_m);
    }

    /// What all candidates on walls together take of ways to walk, wall by wall.
    fn strips(&self) -> Vec<Rect> {
        let on = |wall: Surface| {
            let ways = self.candidates.iter().filter_map(|one| one.way);
            ways.filter(move |(_, on)| *on == Some(wall))
                .map(|(foot, _)| foot)
        };
        let walls = Surface::ALL.into_iter();
        walls.filter_map(|wall| on(wall).reduce(hull)).collect()
    }

    /// Whether a set of candidates leaves every way to walk that there is with the pieces that are there.
    #[must_use]
    pub fn leaves_ways(&self, set: &[usize]) -> bool {
        let of = |number: &usize| self.candidates[*number].way;
        let is_new = |number: &&usize| **number >= self.there;
        if set.iter().filter(is_new).all(|one| of(one).is_none()) {
            return true;
        }
        let standing = || set.iter().filter_map(of).filter(|(_, on)| on.is_none());
        let feet = |(foot, _): (Rect, Option<Surface>)| foot;
        // Mostly there is room for all that could hang on the walls.
        let with_all: Vec<Rect> = standing().map(feet).chain(self.strips.clone()).collect();
        let with: Vec<Rect> = set.iter().filter_map(of).map(feet).collect();
        self.floor.keeps(&self.joined, &with_all) || self.floor.keeps(&self.joined, &with)
    }

    /// Whether a candidate takes something of ways to walk.
    pub(super) fn is_in_the_way(&self, number: usize) -> bool {
        self.candidates[number].way.is_some()
    }

    /// Pieces that leave ways to walk, one after the other, beside those that are there.
    pub(super) fn leaving_ways(
        &self,
        home: Home<'_>,
        shape: Shape<'_>,
        mut spots: Vec<Spot>,
    ) -> Vec<Spot> {
        let there = self.candidates[..self.there].iter();
        let mut feet: Vec<Rect> = there
            .filter_map(|one| one.way)
            .map(|(foot, _)| foot)
            .collect();
        let stays = |spot: &Spot| {
            let Some(foot) = home.in_the_way(shape, &spot.piece.place) else {
                return true;
            };
            feet.push(foot);
            let leaves = self.floor.keeps(&self.joined, &feet);
            if !leaves {
                feet.pop();
            }
            leaves
        };
        spots.retain(stays);
        spots
    }

    /// Notes which candidates are in each other's way, and which are each other's like.
    fn relate(&mut self, shapes: &[Shape<'_>], width_m: f64) {
        let covered: Vec<Covered> = self
            .candidates
            .iter()
            .map(|one| one.covered.clone())
            .collect();
        let pieces: Vec<Piece> = self
            .candidates
            .iter()
            .map(|one| one.piece.clone())
            .collect();
        for (number, candidate) in self.candidates.iter_mut().enumerate() {
            candidate.meets = covered
                .iter()
                .enumerate()
                .map(|(other, area)| other != number && area.meets(&candidate.covered))
                .collect();
            let twin = mirrored(&candidate.piece.place, shapes[candidate.kind], width_m);
            candidate.twin = twin.and_then(|place| {
                let is_it =
                    |piece: &Piece| piece.kit == candidate.piece.kit && near(&piece.place, &place);
                pieces.iter().position(is_it)
            });
        }
    }

    /// Number of a late effect among the distinct ones.
    fn class(&mut self, effect: &Effect) -> usize {
        let late = Late {
            walls: effect
                .walls
                .iter()
                .map(|(surface, sums, _)| (*surface, *sums))
                .collect(),
            furniture: effect
                .screen
                .as_ref()
                .map(|screen| (screen.absorption_m2, screen.surface_m2)),
        };
        let known = self.classes.iter().position(|class| *class == late);
        known.unwrap_or_else(|| {
            self.classes.push(late);
            self.classes.len() - 1
        })
    }

    fn screen(&self, screen: &Screen) -> ScreenRows {
        let mut own = vec![0.0; self.bounces.len()];
        for (loudspeaker, delay_s, energy) in &screen.own {
            let mean = THIRDS.map(|third| energy[third]).sum::<f64>() / THIRDS.len() as f64;
            own[*loudspeaker] += mean * counts(*delay_s);
        }
        let rows = |by_wall: &[Option<Box<Spectrum<FINE>>>; 6]| {
            by_wall.each_ref().map(|one| one.as_deref().map(row))
        };
        ScreenRows {
            passing: screen.passing.iter().map(rows).collect(),
            own,
        }
    }

    /// Whether two candidates cannot both be there.
    #[must_use]
    pub fn meet(&self, one: usize, other: usize) -> bool {
        self.candidates[one].meets[other]
    }

    /// The bounce mark that a candidate covers: loudspeaker and surface.
    #[must_use]
    pub fn mark_under(&self, candidate: usize) -> Option<(usize, Surface)> {
        let covered = &self.candidates[candidate].covered.on;
        let marks = marks(&self.ground).into_iter();
        let mut under = marks.filter(|mark| {
            let mut on = covered.iter().filter(|(on, _)| *on == mark.surface);
            on.any(|(_, rect)| rect.contains(mark.uv_m))
        });
        under.next().map(|mark| (mark.loudspeaker, mark.surface))
    }

    /// Whether a piece that is there covers a bounce mark.
    pub(super) fn covers_there(&self, mark: &Mark) -> bool {
        let there = self.candidates[..self.there].iter();
        let mut on = there.flat_map(|one| &one.covered.on);
        on.any(|(on, rect)| *on == mark.surface && rect.contains(mark.uv_m))
    }

    /// How late the bounce of a mark comes, s.
    pub(super) fn delay_s(&self, mark: &Mark) -> f64 {
        let bounces = self.ground.bounces.as_ref();
        let way = bounces.map(|bounces| &bounces.ways(mark.surface)[mark.loudspeaker]);
        way.map_or(f64::INFINITY, |way| way.delay_s)
    }

    /// Which surface a candidate lies on; none for a stand.
    #[must_use]
    pub fn surface_of(&self, candidate: usize) -> Option<Surface> {
        let covered = &self.candidates[candidate].covered.on;
        covered.first().map(|(surface, _)| *surface)
    }
}

/// Most that may be seen; a plan that shows more already may keep it.
fn most_visible(scenario: &Scenario, pieces: &[Piece]) -> usize {
    let limit = scenario
        .limits
        .as_ref()
        .and_then(|limits| limits.max_visible);
    limit.map_or(usize::MAX, |most| (most as usize).max(visible(pieces)))
}

/// Kinds that have places where one more piece would be seen than the home allows.
fn unseen(scenario: &Scenario, pieces: &[Piece], spots: &[Spot]) -> Vec<Refusal> {
    let limits = scenario.limits.as_ref();
    let most = limits.and_then(|limits| limits.max_visible);
    if most.is_none_or(|most| visible(pieces) < most as usize) {
        return Vec::new();
    }
    refused_spots(spots, Rule::Visible, |spot| is_visible(&spot.piece.place))
}

/// Refusals of places that a rule keeps out, each kind and surface once.
fn refused_spots(spots: &[Spot], rule: Rule, is_out: impl Fn(&Spot) -> bool) -> Vec<Refusal> {
    let mut found: Vec<Refusal> = Vec::new();
    for spot in spots.iter().filter(|spot| is_out(spot)) {
        let surface = match spot.piece.place {
            Place::Surface { surface, .. } | Place::Curtain { surface, .. } => surface,
            Place::Corner { .. } | Place::Stand { .. } => Surface::Floor,
        };
        let refusal = Refusal {
            kit: spot.piece.kit.clone(),
            surface,
            loudspeaker: None,
            rule,
            moved: false,
        };
        if !found.contains(&refusal) {
            found.push(refusal);
        }
    }
    found
}

/// Ways to walk beside pieces that are there.
pub(super) fn walked(prepared: &Prepared, home: Home<'_>, pieces: &[Piece]) -> Walked {
    let shapes = shapes(prepared);
    let floor = home.floor();
    let foot = |piece: &Piece| {
        let shape = shapes[kind_number(home.scenario, piece)?];
        home.in_the_way(shape, &piece.place)
    };
    let there: Vec<Rect> = pieces.iter().filter_map(foot).collect();
    Walked {
        joined: floor.joined(&there),
        floor,
        there,
    }
}

/// The walls at either side of who faces a wall.
const fn sides(ahead: Surface) -> [Surface; 2] {
    match ahead {
        Surface::Left | Surface::Right => [Surface::Front, Surface::Back],
        _ => [Surface::Left, Surface::Right],
    }
}

/// The wall that a piece hangs on.
fn wall_of(place: &Place) -> Option<Surface> {
    match place {
        Place::Surface { surface, .. } => Some(*surface),
        _ => None,
    }
}

/// The least rectangle round two.
fn hull(one: Rect, other: Rect) -> Rect {
    let (u_m, v_m) = (one.u_m.min(other.u_m), one.v_m.min(other.v_m));
    let end = |rect: Rect| (rect.u_m + rect.width_m, rect.v_m + rect.height_m);
    Rect {
        u_m,
        v_m,
        width_m: end(one).0.max(end(other).0) - u_m,
        height_m: end(one).1.max(end(other).1) - v_m,
    }
}

/// Places that differ by less than a millimetre are one.
fn near(a: &Place, b: &Place) -> bool {
    const SAME_M: f64 = 1e-3;
    let close = |a: f64, b: f64| (a - b).abs() < SAME_M;
    match (a, b) {
        (
            Place::Surface {
                surface: s,
                u_m: u,
                v_m: v,
                turned: t,
            },
            Place::Surface {
                surface,
                u_m,
                v_m,
                turned,
            },
        ) => s == surface && t == turned && close(*u, *u_m) && close(*v, *v_m),
        (
            Place::Curtain {
                surface: s,
                u_m: u,
                v_m: v,
                ..
            },
            Place::Curtain {
                surface, u_m, v_m, ..
            },
        ) => s == surface && close(*u, *u_m) && close(*v, *v_m),
        (
            Place::Stand {
                x_m: x,
                y_m: y,
                turn_deg: t,
                ..
            },
            Place::Stand {
                x_m, y_m, turn_deg, ..
            },
        ) => close(*x, *x_m) && close(*y, *y_m) && close(*t, *turn_deg),
        _ => a == b,
    }
}

fn wall_rows(effect: &Effect) -> Vec<(usize, Vec<Row>)> {
    let walls = effect.walls.iter();
    walls
        .map(|(surface, _, changes)| (*surface as usize, changes.iter().map(row).collect()))
        .collect()
}

fn row(spectrum: &Spectrum<FINE>) -> Row {
    std::array::from_fn(|i| spectrum.at(THIRDS.start * PER_THIRD + i))
}

/// The bounces of a room without kit, by loudspeaker and wall.
fn bounces(ground: &Ground) -> Vec<Vec<Bounce>> {
    let Some(bounces) = &ground.bounces else {
        return Vec::new();
    };
    let one = |loudspeaker: usize, surface: Surface| {
        let way = &bounces.ways(surface)[loudspeaker];
        let part = counts(way.delay_s) / THIRDS.len() as f64;
        Bounce {
            row: row(&bounces.reflected(surface)[loudspeaker]),
            level: std::array::from_fn(|i| way.energy[THIRDS.start + i] * part),
        }
    };
    (0..bounces.ways(Surface::Left).len())
        .map(|loudspeaker| {
            Surface::ALL
                .map(|surface| one(loudspeaker, surface))
                .to_vec()
        })
        .collect()
}

impl Bounce {
    /// What it counts with a pressure as given and a share that passes screens.
    pub fn energy(&self, row: &Row, passing: Option<&Row>) -> f64 {
        (0..THIRDS.len())
            .map(|third| {
                let mean = |row: &Row| {
                    let points = &row[third * PER_THIRD..][..PER_THIRD];
                    points.iter().map(Complex64::norm_sqr).sum::<f64>() / PER_THIRD as f64
                };
                // Ripples beside a shadow add nothing.
                let passed = passing.map_or(1.0, |passing| mean(passing).min(1.0));
                self.level[third] * mean(row) * passed
            })
            .sum()
    }
}
