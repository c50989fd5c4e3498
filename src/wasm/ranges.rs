//! Ranges, in slices.

use serde::Serialize;
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

use super::cross::{js_error, no_such_plan, nothing_open, to_js};
use super::session::Session;
use crate::report::RangesReport;
use crate::scenario::goal_s;
use crate::simulate::Draws;

/// What a slice of draws comes to.
#[derive(Serialize)]
struct MoreRanges {
    ranges: Option<RangesReport>,
}

#[wasm_bindgen]
impl Session {
    /// Starts the ranges of one plan of the open document; draws already made for the same plan are taken over.
    ///
    /// # Errors
    /// An `Error` with `code` and `field` if nothing is open or there is no such plan.
    pub fn start_ranges(&mut self, plan: usize) -> Result<(), JsValue> {
        self.checked()?;
        let prepared = self.prepared.as_ref().ok_or_else(nothing_open)?;
        let known = self.made.get(&plan);
        let known = known.filter(|draws| draws.are_of(prepared, plan)).cloned();
        let draws = known.or_else(|| Draws::start_after(prepared, plan, &mut self.memory));
        let draws = draws.ok_or_else(|| no_such_plan(plan))?;
        self.making = Some((plan, draws));
        Ok(())
    }

    /// Makes up to `count` more draws; the answer holds the ranges once all are made.
    ///
    /// # Errors
    /// An `Error` with `code` and `field` if no ranges were started or nothing is open.
    pub fn more_ranges(&mut self, count: usize) -> Result<JsValue, JsValue> {
        let Some((_, draws)) = &mut self.making else {
            return Err(nothing_started());
        };
        draws.more(count);
        self.answer()
    }

    /// Starts those draws of a plan alone that are numbered `first` up to `end`: several workers make them together.
    ///
    /// # Errors
    /// An `Error` with `code` and `field` if nothing is open or there is no such plan.
    pub fn start_part(&mut self, plan: usize, first: usize, end: usize) -> Result<(), JsValue> {
        self.checked()?;
        let prepared = self.prepared.as_ref().ok_or_else(nothing_open)?;
        let making = self.making.take();
        let known = making.filter(|(of, draws)| *of == plan && draws.are_of(prepared, plan));
        let draws = known.map(|(_, draws)| draws);
        let draws = draws.or_else(|| Draws::start_after(prepared, plan, &mut self.memory));
        let part = draws.ok_or_else(|| no_such_plan(plan))?;
        self.making = Some((plan, part.turned_to(first, end)));
        Ok(())
    }

    /// What the draws of a part gave, for the worker that joins them; `null` until all of the part are made.
    ///
    /// # Errors
    /// An `Error` with `code` and `field` if no draws were started.
    pub fn packed(&self) -> Result<Option<Vec<f64>>, JsValue> {
        let (_, draws) = self.making.as_ref().ok_or_else(nothing_started)?;
        Ok(draws.are_made().then(|| draws.packed()))
    }

    /// Takes in draws of the plan under way that another worker made, from the number `first` on; the answer holds the ranges
    /// once all are there.
    ///
    /// # Errors
    /// An `Error` with `code` and `field` if no draws were started, or if these are of something else.
    pub fn join(&mut self, first: usize, packed: &[f64]) -> Result<JsValue, JsValue> {
        let (_, draws) = self.making.as_mut().ok_or_else(nothing_started)?;
        if !draws.join(first, packed) {
            let message = "These draws are not of the plan under way.";
            return Err(js_error("out-of-limits", "packed", message));
        }
        self.answer()
    }
}

fn nothing_started() -> JsValue {
    js_error("missing", "plan", "No ranges were started.")
}

impl Session {
    /// The ranges of the plan under way, if all its draws are there.
    fn answer(&mut self) -> Result<JsValue, JsValue> {
        let (plan, draws) = self.making.as_ref().ok_or_else(nothing_started)?;
        if !draws.are_complete() {
            return to_js(&MoreRanges { ranges: None });
        }
        let plan = *plan;
        self.made.insert(plan, draws.clone());
        to_js(&MoreRanges {
            ranges: Some(self.ranges(plan)?),
        })
    }

    /// The ranges of a plan whose draws are made, with its differences from every other such plan of the open document.
    fn ranges(&self, plan: usize) -> Result<RangesReport, JsValue> {
        let prepared = self.prepared()?;
        let scenario = prepared.scenario();
        let draws = self.made.get(&plan).ok_or_else(|| no_such_plan(plan))?;
        let others = self
            .made
            .iter()
            .filter(|(other, draws)| **other != plan && draws.are_of(prepared, **other));
        let name = |plan: usize| &scenario.plans[plan].name;
        let differences = others.map(|(other, against)| {
            if *other < plan {
                against.difference(name(*other), draws, name(plan))
            } else {
                draws.difference(name(plan), against, name(*other))
            }
        });
        Ok(RangesReport {
            differences: differences.collect(),
            ..draws.report(goal_s(scenario))
        })
    }
}
