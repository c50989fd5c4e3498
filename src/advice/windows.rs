//! Where a first bounce meets a window, which no panel may cover: what could be done instead, each with what it does to that
//! bounce and to all that counts.

use serde::Serialize;

use crate::geometry::Surface;
use crate::numeric::energy_to_db;
use crate::scenario::Scenario;
use crate::scenario::document::{Kind, Listening, Piece, Plan, Role, Stands};
use crate::shelf;
use crate::simulate::Prepared;

use super::moving::Moving;
use super::objective::{FIGURES, counts};
use super::places::Mark;
use super::rules::Rule;
use super::scales::Scales;
use super::swap::{self, Turn, other_walls};
use super::table::{Table, marks};

/// Both loudspeakers are turned this far from where they point, degrees; to the middle of the room if positive.
const TURNS_DEG: [f64; 4] = [-10.0, 10.0, 20.0, 30.0];

/// Farthest that a loudspeaker is turned in or out, degrees.
const MOST_DEG: f64 = 45.0;

/// Most places before one wall whose bounces are looked at.
const MOST_TRIED: usize = 3;

/// A piece that calms a bounce by less than this does not take it, dB. Common practice, no source.
const LEAST_CALMER_DB: f64 = 1.0;

/// Kinds of the shelf that stand in where the document has none of their sort.
const STAND_IN: [&str; 2] = ["curtain-heavy", "screen"];

/// What could be done.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Instead {
    /// A curtain, drawn.
    Curtain,
    /// A panel on a stand.
    Stand,
    /// Both loudspeakers turned.
    Turn,
    /// Another wall behind the loudspeakers.
    Swap,
    /// Nothing.
    Accept,
}

/// One way to go about it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct WindowWay {
    /// What.
    pub what: Instead,
    /// The piece, where it is one.
    pub piece: Option<Piece>,
    /// Its kind, where the document has none of its sort.
    pub kind: Option<Kind>,
    /// Loudspeakers and seat after it, where those turn.
    pub listening: Option<Listening>,
    /// By how much they turn to the middle of the room, degrees.
    pub turned_deg: Option<f64>,
    /// The wall that is behind the loudspeakers then, where that is another one.
    pub wall: Option<Surface>,
    /// The surface whose bounce takes the place of this one then; none if it comes too late to count.
    pub lands: Option<Surface>,
    /// What keeps other walls from it, where none is left.
    pub barred: Vec<(Surface, Rule)>,
    /// What keeps it from being done; all that follows is as it is then.
    pub rule: Option<Rule>,
    /// The bounce then, dB re the direct sound.
    pub level_db: f64,
    /// Steps gained in all that is heard.
    pub gained: f64,
    /// What it costs.
    pub price: f64,
}

/// One bounce off a window.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct WindowBounce {
    /// Number of the loudspeaker.
    pub loudspeaker: usize,
    /// The surface.
    pub surface: Surface,
    /// After the direct sound, s.
    pub delay_s: f64,
    /// Now, dB re the direct sound, 500 Hz to 4 kHz.
    pub level_db: f64,
    /// What could be done, the most gained first.
    pub ways: Vec<WindowWay>,
}

/// Bounce marks of first order on bare windows that come early enough to count, with what covers none of them yet.
#[must_use]
pub fn on_windows(scenario: &Scenario, table: &Table) -> Vec<Mark> {
    let is_window = |mark: &Mark| {
        let mut parts = scenario.surface(mark.surface).parts.iter();
        parts.any(|part| part.role == Role::Window && part.rect.contains(mark.uv_m))
    };
    let is_bare = |mark: &Mark| !table.covers_there(mark);
    let is_early = |mark: &Mark| counts(table.delay_s(mark)) > 0.0;
    let all = marks(&table.ground).into_iter();
    all.filter(|mark| is_window(mark) && is_bare(mark) && is_early(mark))
        .collect()
}

/// Works out one bounce.
#[derive(Clone, Copy, Debug)]
pub struct AtWindow<'a> {
    /// The document.
    pub prepared: &'a Prepared,
    /// The plan in hand.
    pub plan: &'a Plan,
    /// Where it is heard from.
    pub listening: &'a Listening,
    /// Where the bounce meets the window.
    pub mark: Mark,
}

impl AtWindow<'_> {
    /// What could be done, most gained first.
    #[must_use]
    pub fn bounce(&self) -> Option<WindowBounce> {
        let stocked = stocked(self.prepared, self.plan);
        let mut here = Scales::new(std::sync::Arc::new(Table::there(&stocked, 0)?));
        let now = heard(&mut here, &[], self.mark)?;
        let accept = WindowWay {
            what: Instead::Accept,
            piece: None,
            kind: None,
            listening: None,
            turned_deg: None,
            wall: None,
            lands: None,
            barred: Vec::new(),
            rule: None,
            level_db: now.0,
            gained: 0.0,
            price: 0.0,
        };
        let mut ways = vec![accept.clone()];
        ways.extend(self.hung(&stocked, Stands::Curtain, &accept, now.1));
        ways.extend(self.hung(&stocked, Stands::Stand, &accept, now.1));
        ways.extend(self.turned(&accept, now.1));
        ways.push(self.swapped(&accept, now.1));
        ways.sort_by(|a, b| b.gained.total_cmp(&a.gained));
        Some(WindowBounce {
            loudspeaker: self.mark.loudspeaker,
            surface: self.mark.surface,
            delay_s: here.table.delay_s(&self.mark),
            level_db: now.0,
            ways,
        })
    }

    /// The piece of a sort that gains most of those that calm the bounce; with its rule where none may be there.
    fn hung(
        &self,
        stocked: &Prepared,
        stands: Stands,
        accept: &WindowWay,
        before: f64,
    ) -> Option<WindowWay> {
        let kinds = stocked.scenario().kit.iter().enumerate();
        let mut best: Option<WindowWay> = None;
        let mut rule = None;
        for (number, kind) in kinds.filter(|(_, kind)| kind.stands == Some(stands)) {
            let Some(table) = Table::of_kind(stocked, 0, number) else {
                continue;
            };
            let refused = table.refusals.iter();
            let mut here = refused.filter(|one| {
                one.surface == self.mark.surface
                    && one
                        .loudspeaker
                        .is_none_or(|one| one == self.mark.loudspeaker)
            });
            rule = rule.or_else(|| here.next().map(|one| one.rule));
            let is_own = self.prepared.scenario().kind(&kind.id).is_some();
            let mut scales = Scales::new(std::sync::Arc::new(table));
            for candidate in scales.table.there..scales.table.candidates.len() {
                let Some((level_db, steps)) = heard(&mut scales, &[candidate], self.mark) else {
                    continue;
                };
                let gained = before - steps;
                let is_better = best.as_ref().is_none_or(|best| gained > best.gained);
                if level_db < accept.level_db - LEAST_CALMER_DB && is_better {
                    best = Some(WindowWay {
                        what: sort(stands),
                        piece: Some(scales.table.candidates[candidate].piece.clone()),
                        kind: (!is_own).then(|| kind.clone()),
                        level_db,
                        gained,
                        price: scales.table.candidates[candidate].price,
                        ..accept.clone()
                    });
                }
            }
        }
        best.or_else(|| {
            Some(WindowWay {
                what: sort(stands),
                rule: Some(rule?),
                ..accept.clone()
            })
        })
    }

    /// Both loudspeakers turned by what gains most.
    fn turned(&self, accept: &WindowWay, before: f64) -> Option<WindowWay> {
        let turns = TURNS_DEG.into_iter().filter_map(|turned_deg| {
            let mut to = self.listening.clone();
            for one in &mut to.loudspeakers {
                let toe_in_deg = one.toe_in_deg.unwrap_or(0.0) + turned_deg;
                (toe_in_deg.abs() <= MOST_DEG).then_some(())?;
                one.toe_in_deg = Some(toe_in_deg);
            }
            let mut scales = Scales::new(std::sync::Arc::new(self.table_at(&to)?.1));
            let (level_db, steps) = heard(&mut scales, &[], self.mark)?;
            Some(WindowWay {
                what: Instead::Turn,
                listening: Some(to),
                turned_deg: Some(turned_deg),
                level_db,
                gained: before - steps,
                ..accept.clone()
            })
        });
        turns
            .filter(|way| way.level_db < accept.level_db)
            .max_by(|a, b| a.gained.total_cmp(&b.gained))
    }

    /// The document and the plan in hand with loudspeakers and seat elsewhere.
    fn table_at(&self, to: &Listening) -> Option<(Prepared, Table)> {
        let mut scenario = self.prepared.scenario().clone();
        scenario.plans = vec![Plan {
            listening: Some(to.clone()),
            ..self.plan.clone()
        }];
        let prepared = Prepared::after(scenario, Some(self.prepared));
        let table = Table::there(&prepared, 0)?;
        Some((prepared, table))
    }

    /// The set-up before the other wall that gains most, so that no bounce of it meets a window.
    fn swapped(&self, accept: &WindowWay, before: f64) -> WindowWay {
        let swap = WindowWay {
            what: Instead::Swap,
            ..accept.clone()
        };
        let mut best: Option<WindowWay> = None;
        let mut barred = Vec::new();
        for wall in other_walls(self.listening) {
            match self.behind(wall, &swap, before) {
                Ok(way) if best.as_ref().is_none_or(|best| way.gained > best.gained) => {
                    best = Some(way);
                }
                Ok(_) => {}
                Err(rule) => barred.push((wall, rule)),
            }
        }
        best.unwrap_or_else(|| WindowWay {
            rule: barred.first().map(|(_, rule)| *rule),
            barred,
            ..swap
        })
    }

    /// The set-up before one wall; what keeps it from there if anything does.
    fn behind(&self, wall: Surface, swap: &WindowWay, before: f64) -> Result<WindowWay, Rule> {
        let moving = Moving {
            prepared: self.prepared,
            plan: self.plan,
        };
        let turn = Turn {
            from: self.listening.wall_ahead(),
            to: wall,
        };
        let mark = Mark {
            surface: turn.surface(self.mark.surface),
            ..self.mark
        };
        let places = swap::before(moving, turn)?.into_iter();
        let mut free = places.take(MOST_TRIED).filter_map(|to| {
            let (prepared, table) = self.table_at(&to)?;
            let windows = on_windows(prepared.scenario(), &table);
            let mut scales = Scales::new(std::sync::Arc::new(table));
            let mut levels = windows
                .into_iter()
                .filter_map(|one| heard(&mut scales, &[], one));
            if levels.any(|(level_db, _)| level_db > FIGURES.faint_db) {
                return None;
            }
            let level_db = heard(&mut scales, &[], mark).map(|(level_db, _)| level_db);
            let steps = scales.load((0..scales.table.there).collect()).steps.sound();
            Some(WindowWay {
                listening: Some(to),
                wall: Some(wall),
                lands: level_db.map(|_| mark.surface),
                level_db: level_db.unwrap_or(swap.level_db),
                gained: before - steps,
                ..swap.clone()
            })
        });
        free.next().ok_or(Rule::Window)
    }
}

/// A bounce with more pieces than are there, dB, and steps of all that is heard.
fn heard(scales: &mut Scales, more: &[usize], mark: Mark) -> Option<(f64, f64)> {
    let there = 0..scales.table.there;
    let load = scales.load(there.chain(more.iter().copied()).collect());
    let energy = scales.bounce(&load, mark.loudspeaker, mark.surface);
    let counts = counts(scales.table.delay_s(&mark));
    (counts > 0.0).then(|| (energy_to_db(energy / counts), load.steps.sound()))
}

fn sort(stands: Stands) -> Instead {
    if stands == Stands::Curtain {
        Instead::Curtain
    } else {
        Instead::Stand
    }
}

/// The document with the plan in hand alone, and with kinds of the shelf for sorts that it has none of.
fn stocked(prepared: &Prepared, plan: &Plan) -> Prepared {
    let mut scenario = prepared.scenario().clone();
    scenario.plans = vec![plan.clone()];
    let missing = |kind: &Kind| {
        let mut kit = prepared.scenario().kit.iter();
        let is_stand_in = STAND_IN.contains(&kind.id.as_str());
        is_stand_in && !kit.any(|one| one.stands == kind.stands || one.id == kind.id)
    };
    let entries = shelf::entries().into_iter().map(|entry| entry.kind);
    scenario.kit.extend(entries.filter(missing));
    Prepared::after(scenario, Some(prepared))
}
