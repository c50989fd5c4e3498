//! The work of advice in tasks that do not depend on one another, so that any number of workers comes to the same answers.
//! Each goes on in slices.

use std::sync::Arc;

use serde::Serialize;

use crate::geometry::Surface;
use crate::report::Mid;
use crate::scenario::document::{HomeLimits, Kind, Listening, Looks, Plan};
use crate::scenario::{Scenario, goal_s};
use crate::shelf;
use crate::simulate::{DRAWS, Draws, Prepared};

use super::amount::{Amount, AmountWork};
use super::free::{Boom, FreeAdvice, Here, removals, unevenness_db, worth};
use super::objective::{FIGURES, Objective};
use super::places::{Mark, Refusal, may_look};
use super::plan::{Bite, PlanAdvice, Today, Writer};
use super::scales::{Load, Scales};
use super::search::{Bounds, Search};
use super::surfaces::{SurfaceAdvice, SurfaceWork};
use super::table::Table;
use super::windows::{AtWindow, WindowBounce, on_windows};

/// Plans along the budget.
pub const LEVELS: usize = 8;

/// Without a budget the ladder ends at this many pieces of the mean price.
const PIECES_WITHOUT_BUDGET: usize = 16;

/// Kinds of the shelf that stand in where a document has none of its own.
const STAND_IN: [&str; 5] = ["thick", "thick-gap", "curtain-heavy", "rug", "screen"];

/// And what hangs like a picture, where only that may.
const PICTURE: &str = "printed";

/// A plan under search is told again once it has gained this, steps.
const TOLD_AGAIN: f64 = 0.1;

/// One task.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Task {
    /// The best plan within budget and limits, and the best order of buying.
    Best,
    /// How the plan in hand stands to the goal.
    Verdict,
    /// What costs nothing.
    Free,
    /// What covering a surface does.
    Surface(Surface),
    /// How many pieces of one kind are needed.
    Amount,
    /// What to do about bounces off windows.
    Windows,
    /// The best plan for a part of the budget, in eighths.
    Level(usize),
    /// The best plan that leaves out what the best one uses most.
    Other,
    /// The best plan if the home set no limits but money.
    Unlimited,
}

/// What a task found.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "task", rename_all = "kebab-case")]
#[allow(
    missing_docs,
    reason = "the fields are told where their types are defined"
)]
pub enum Found {
    Best {
        plan: PlanAdvice,
        order: Vec<Bite>,
        today: Today,
        refusals: Vec<Refusal>,
    },
    /// Of the draws of the plan in hand.
    Verdict {
        mid: Mid,
    },
    Free {
        free: FreeAdvice,
    },
    Surface {
        surface: SurfaceAdvice,
    },
    Amount {
        amount: Amount,
    },
    Windows {
        bounces: Vec<WindowBounce>,
    },
    Level {
        level: usize,
        budget: f64,
        plan: PlanAdvice,
    },
    /// None where nothing else comes near.
    Other {
        plan: Option<PlanAdvice>,
    },
    Unlimited {
        plan: PlanAdvice,
    },
}

/// Advice on one plan of a document.
#[derive(Clone, Debug)]
pub struct Adviser {
    prepared: Prepared,
    plan: usize,
    scales: Scales,
    covering: Option<Covering>,
    /// Kinds that were taken from the shelf because the document has none.
    pub stand_ins: Vec<Kind>,
}

/// The kind that surfaces are covered with, on scales of its own.
#[derive(Clone, Debug)]
struct Covering {
    kit: String,
    scales: Scales,
}

/// A task under way.
#[derive(Clone, Debug)]
pub struct Work {
    task: Task,
    state: State,
    /// Steps of the plan that was told last.
    told: Option<f64>,
}

#[derive(Clone, Debug)]
enum State {
    Searching(Box<Search>),
    /// A search in a document of its own.
    Elsewhere(Box<Adviser>, Box<Search>),
    Drawing(Box<Draws>, usize),
    Covering(Box<SurfaceWork>),
    Counting(Box<AmountWork>),
    /// One mark after the other: those that are left, of how many, and what was found.
    AtWindows(Vec<Mark>, usize, Vec<WindowBounce>),
    /// The best plan first, then the bass.
    Freeing(Box<Search>),
    /// The best plan first, then another without what it uses most.
    Differing(Box<Search>, Option<Box<Search>>),
}

impl Adviser {
    /// For a plan; none if there is no such plan.
    #[must_use]
    pub fn new(prepared: Prepared, plan: usize) -> Option<Self> {
        let (prepared, stand_ins) = stocked(prepared);
        let table = Table::of(&prepared, plan)?;
        Some(Self {
            scales: Scales::new(Arc::new(table)),
            prepared,
            plan,
            covering: None,
            stand_ins,
        })
    }

    /// Covers surfaces with one kind of the kit or of the stand-ins from now on, and without one with what does most on each;
    /// false if there is no such kind.
    #[must_use]
    pub fn cover_with(&mut self, kit: Option<&str>) -> bool {
        let covering = self.covering.as_ref().map(|one| one.kit.as_str());
        if covering == kit {
            return true;
        }
        let Some(kit) = kit else {
            self.covering = None;
            return true;
        };
        let kinds = &self.prepared.scenario().kit;
        let number = kinds.iter().position(|kind| kind.id == kit);
        let table = number.and_then(|kind| Table::of_kind(&self.prepared, self.plan, kind));
        let Some(table) = table else {
            return false;
        };
        self.covering = Some(Covering {
            kit: kit.to_owned(),
            scales: Scales::new(Arc::new(table)),
        });
        true
    }

    /// Its tasks, the most wanted first.
    #[must_use]
    pub fn tasks(&self) -> Vec<Task> {
        let mut tasks = vec![Task::Best, Task::Verdict, Task::Free];
        tasks.extend(Surface::ALL.map(Task::Surface));
        tasks.extend((1..=LEVELS).map(Task::Level));
        tasks.push(Task::Amount);
        if !on_windows(self.prepared.scenario(), &self.scales.table).is_empty() {
            tasks.push(Task::Windows);
        }
        tasks.push(Task::Other);
        let limits = self.prepared.scenario().limits.as_ref();
        if limits.is_some_and(|limits| *limits != money_only(limits)) {
            tasks.push(Task::Unlimited);
        }
        tasks
    }

    /// What is aimed for.
    #[must_use]
    pub fn objective(&self) -> &Objective {
        &self.scales.table.objective
    }

    /// Whether plans are made of kinds with a price; if not, the ladder counts pieces and no budget can be kept to.
    #[must_use]
    pub fn is_priced(&self) -> bool {
        self.scales.table.is_priced
    }

    /// The money that the ladder leads up to.
    #[must_use]
    pub fn top(&self) -> f64 {
        let kinds = self.prepared.scenario().kit.iter();
        let prices: Vec<f64> = kinds
            .filter_map(Kind::price_of_one)
            .filter(|price| *price > 0.0)
            .collect();
        let mean = prices.iter().sum::<f64>() / prices.len().max(1) as f64;
        let budget = self.objective().budget;
        budget.unwrap_or(mean * PIECES_WITHOUT_BUDGET as f64)
    }

    /// Begins work that is about one kind: the chosen one, where one is.
    fn with_kind_to_cover<W>(
        &mut self,
        begin: impl FnOnce(&mut Scales, Writer<'_>, &Plan) -> W,
    ) -> W {
        let plan = self.plan().clone();
        let listening = self.listening().clone();
        let writer = Writer {
            prepared: &self.prepared,
            listening: &listening,
        };
        let covering = self.covering.as_mut();
        let scales = covering.map_or(&mut self.scales, |one| &mut one.scales);
        begin(scales, writer, &plan)
    }

    /// Begins a task.
    #[must_use]
    pub fn start(&mut self, task: Task) -> Option<Work> {
        let budget = self.objective().budget;
        let state = match task {
            Task::Best => State::Searching(Box::new(self.search(self.within(budget)))),
            Task::Level(level) => {
                let bounds = self.bounds_of(level);
                State::Searching(Box::new(self.search(bounds)))
            }
            Task::Free => State::Freeing(Box::new(self.search(self.within(budget)))),
            Task::Other => State::Differing(Box::new(self.search(self.within(budget))), None),
            Task::Verdict => State::Drawing(Box::new(Draws::start(&self.prepared, self.plan)?), 0),
            Task::Surface(surface) => {
                let work = self.with_kind_to_cover(|scales, writer, plan| {
                    SurfaceWork::new(scales, writer, plan, surface)
                });
                State::Covering(Box::new(work))
            }
            Task::Amount => State::Counting(Box::new(self.with_kind_to_cover(AmountWork::new))),
            Task::Windows => {
                let marks = on_windows(self.prepared.scenario(), &self.scales.table);
                let count = marks.len();
                State::AtWindows(marks, count, Vec::new())
            }
            Task::Unlimited => {
                let mut other = self.unlimited()?;
                let bounds = other.within(budget);
                let search = other.search(bounds);
                State::Elsewhere(Box::new(other), Box::new(search))
            }
        };
        Some(Work {
            task,
            state,
            told: None,
        })
    }

    fn plan(&self) -> &Plan {
        &self.prepared.scenario().plans[self.plan]
    }

    fn listening(&self) -> &Listening {
        self.prepared.scenario().listening_of(self.plan())
    }

    fn within(&self, budget: Option<f64>) -> Bounds {
        Bounds {
            budget,
            ..Bounds::default()
        }
    }

    /// A level of the ladder: money, or pieces where nothing has a price.
    fn bounds_of(&self, level: usize) -> Bounds {
        if self.scales.table.is_priced {
            return self.within(Some(self.top() * level as f64 / LEVELS as f64));
        }
        let most = PIECES_WITHOUT_BUDGET * level / LEVELS;
        Bounds {
            most_pieces: Some(self.scales.table.there + most),
            ..Bounds::default()
        }
    }

    fn search(&mut self, bounds: Bounds) -> Search {
        Search::new(&mut self.scales, bounds)
    }

    /// The same document without the limits of the home but money.
    fn unlimited(&self) -> Option<Self> {
        let mut scenario = self.prepared.scenario().clone();
        let limits = scenario.limits.as_mut()?;
        *limits = money_only(limits);
        let prepared = Prepared::after(scenario, Some(&self.prepared));
        Self::new(prepared, self.plan)
    }

    fn written(&mut self, load: &Load) -> PlanAdvice {
        let listening = self.listening().clone();
        let writer = Writer {
            prepared: &self.prepared,
            listening: &listening,
        };
        writer.plan(&mut self.scales, load)
    }

    /// What a search for the best came to.
    fn best(&mut self, search: &Search) -> Found {
        let listening = self.listening().clone();
        let writer = Writer {
            prepared: &self.prepared,
            listening: &listening,
        };
        let order = writer.order(&mut self.scales, &search.order);
        let today = writer.today(&mut self.scales);
        Found::Best {
            plan: self.written(search.best()),
            order,
            today,
            refusals: self.scales.table.refusals.clone(),
        }
    }

    fn free(&mut self, best: &Load) -> FreeAdvice {
        let removal = removals(&mut self.scales);
        let here = Here {
            prepared: &self.prepared,
            plan: self.plan(),
        };
        let places = here.loudspeaker_places();
        let bass = here.bass(&self.plan().pieces, &places);
        let loudspeakers = here.loudspeakers(&places, bass.as_ref());
        let (Some(bass), Some(seat)) = (bass, self.listening().seat) else {
            return FreeAdvice {
                moves: worth([Vec::new(), loudspeakers], removal),
                boom: None,
            };
        };
        let seats = here.seats(&bass.map);
        let now_db = unevenness_db(&bass.map, seat.x_m, seat.y_m);
        let evenest = seats
            .iter()
            .filter_map(|one| Some((one.bass_db?[1], one.back_m)))
            .min_by(|a, b| a.0.total_cmp(&b.0));
        let (seat_db, seat_back_m) = evenest.unwrap_or((now_db, 0.0));
        let mut moves = worth([seats, loudspeakers], removal);
        let table = &self.scales.table;
        let piece = |one: &usize| table.candidates[*one].piece.clone();
        let pieces: Vec<_> = best.chosen.iter().map(piece).collect();
        let plan_db = here.beside(&mut moves, &pieces).unwrap_or(now_db);
        FreeAdvice {
            moves,
            boom: Some(Boom {
                together_hz: bass.together_hz,
                now_db,
                plan_db,
                seat_db,
                seat_back_m,
            }),
        }
    }

    /// What the best plan uses most: the surface with most of its new pieces, or their kind if they are all on one.
    fn most_used(&self, load: &Load) -> Vec<usize> {
        let table = &self.scales.table;
        let new: Vec<usize> = load
            .chosen
            .iter()
            .copied()
            .filter(|one| *one >= table.there)
            .collect();
        let surface = |one: &usize| table.surface_of(*one);
        let count = |of: &usize| new.iter().filter(|one| surface(one) == surface(of)).count();
        // Of equal ones the first.
        let Some(most) = new.iter().rev().max_by_key(|one| count(one)) else {
            return Vec::new();
        };
        let all_on_one = count(most) == new.len();
        let same = |one: &usize| {
            if all_on_one {
                table.candidates[*one].kind == table.candidates[*most].kind
            } else {
                surface(one) == surface(most)
            }
        };
        (table.there..table.candidates.len()).filter(same).collect()
    }
}

/// A document without kinds of its own that its home allows gets some of the shelf.
fn stocked(prepared: Prepared) -> (Prepared, Vec<Kind>) {
    let has_offer = |scenario: &Scenario| {
        scenario.kit.iter().any(|kind| {
            kind.price_of_one().is_none_or(|price| price > 0.0) && may_look(scenario, kind)
        })
    };
    if has_offer(prepared.scenario()) {
        return (prepared, Vec::new());
    }
    let taken = |id: &str| prepared.scenario().kind(id).is_some();
    let entries = shelf::entries().into_iter().map(|entry| entry.kind);
    let limits = prepared.scenario().limits.as_ref();
    let wants_pictures = limits.is_some_and(|limits| limits.looks_like.contains(&Looks::Picture));
    let stands_in = |id: &str| STAND_IN.contains(&id) || (wants_pictures && id == PICTURE);
    let kinds: Vec<Kind> = entries
        .filter(|kind| stands_in(&kind.id) && !taken(&kind.id))
        .collect();
    let mut scenario = prepared.scenario().clone();
    scenario.kit.extend(kinds.iter().cloned());
    (Prepared::after(scenario, Some(&prepared)), kinds)
}

fn money_only(limits: &HomeLimits) -> HomeLimits {
    HomeLimits {
        budget: limits.budget,
        ..HomeLimits::default()
    }
}

impl Work {
    /// Its task.
    #[must_use]
    pub fn task(&self) -> Task {
        self.task
    }

    /// How far it is, 0 to 1.
    #[must_use]
    pub fn progress(&self) -> f64 {
        match &self.state {
            State::Searching(search) | State::Elsewhere(_, search) => search.progress(),
            State::Freeing(search) => 0.5 * search.progress(),
            State::Differing(first, second) => {
                let second = second.as_ref().map_or(0.0, |search| search.progress());
                0.5 * (first.progress() + second)
            }
            State::Drawing(_, made) => *made as f64 / DRAWS as f64,
            State::Covering(work) => work.progress(),
            State::Counting(work) => work.progress(),
            State::AtWindows(left, count, _) => 1.0 - left.len() as f64 / (*count).max(1) as f64,
        }
    }

    /// A whole plan of a search that goes on, each time that it is clearly better than the one told before; none before there
    /// is one.
    #[must_use]
    pub fn so_far(&mut self, adviser: &mut Adviser) -> Option<Found> {
        let State::Searching(search) = &self.state else {
            return None;
        };
        let steps = search.best().steps.sum();
        let is_news = self.told.is_none_or(|told| steps < told - TOLD_AGAIN);
        (self.task == Task::Best && search.has_plan() && is_news).then_some(())?;
        self.told = Some(steps);
        Some(adviser.best(search))
    }

    /// Goes on for some steps; the answer once it is there.
    pub fn more(&mut self, adviser: &mut Adviser, steps: usize) -> Option<Found> {
        for _ in 0..steps.max(1) {
            if let Some(found) = self.step(adviser) {
                return Some(found);
            }
        }
        None
    }

    /// To the end.
    pub fn run(mut self, adviser: &mut Adviser) -> Found {
        loop {
            if let Some(found) = self.step(adviser) {
                return found;
            }
        }
    }

    fn step(&mut self, adviser: &mut Adviser) -> Option<Found> {
        match &mut self.state {
            State::Searching(search) => {
                search.step(&mut adviser.scales).then_some(())?;
                Some(match self.task {
                    Task::Level(level) => Found::Level {
                        level,
                        budget: adviser.top() * level as f64 / LEVELS as f64,
                        plan: adviser.written(search.best()),
                    },
                    _ => adviser.best(search),
                })
            }
            State::Elsewhere(other, search) => {
                search.step(&mut other.scales).then_some(())?;
                Some(Found::Unlimited {
                    plan: other.written(search.best()),
                })
            }
            State::Freeing(search) => {
                search.step(&mut adviser.scales).then_some(())?;
                Some(Found::Free {
                    free: adviser.free(search.best()),
                })
            }
            State::Differing(first, second) => differing(adviser, first, second),
            State::Drawing(draws, made) => {
                draws.more(DRAWS_A_STEP);
                *made += DRAWS_A_STEP;
                draws.are_complete().then(|| Found::Verdict {
                    mid: draws.report(goal_s(adviser.prepared.scenario())).mid,
                })
            }
            State::Covering(work) => work
                .more(DRAWS_A_STEP)
                .map(|surface| Found::Surface { surface }),
            State::Counting(work) => work
                .more(DRAWS_A_STEP)
                .map(|amount| Found::Amount { amount }),
            State::AtWindows(left, _, found) => {
                if !left.is_empty() {
                    let at = AtWindow {
                        prepared: &adviser.prepared,
                        plan: adviser.plan(),
                        listening: adviser.listening(),
                        mark: left.remove(0),
                    };
                    found.extend(at.bounce());
                }
                left.is_empty().then(|| Found::Windows {
                    bounces: std::mem::take(found),
                })
            }
        }
    }
}

/// Draws between two looks at whether to go on.
const DRAWS_A_STEP: usize = 4;

fn differing(
    adviser: &mut Adviser,
    first: &mut Search,
    second: &mut Option<Box<Search>>,
) -> Option<Found> {
    if !first.is_done() {
        first.step(&mut adviser.scales);
        return None;
    }
    let Some(second) = second else {
        let barred = adviser.most_used(first.best());
        if barred.is_empty() {
            return Some(Found::Other { plan: None });
        }
        let bounds = Bounds {
            budget: adviser.objective().budget,
            barred,
            most_pieces: None,
        };
        *second = Some(Box::new(adviser.search(bounds)));
        return None;
    };
    second.step(&mut adviser.scales).then_some(())?;
    let plan = adviser.written(second.best());
    let gained = |load: &Load| plan.before.sum() - load.steps.sum();
    let is_near = gained(second.best()) >= FIGURES.near_the_best * gained(first.best());
    let is_new = !plan.reasons.is_empty() && is_near;
    Some(Found::Other {
        plan: is_new.then_some(plan),
    })
}
