//! Advice, task by task and slice by slice.

use serde::Serialize;
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

use super::cross::{js_error, no_such_plan, to_js};
use super::session::Session;
use crate::advice::{Adviser, Found, Objective, Task, Work, refused_pieces};
use crate::scenario::document::Kind;

/// Advice on one plan.
#[wasm_bindgen]
pub struct Advice {
    adviser: Adviser,
    tasks: Vec<Task>,
    work: Option<Work>,
}

/// What the tasks are, and what is aimed for.
#[derive(Serialize)]
struct About<'a> {
    tasks: &'a [Task],
    objective: &'a Objective,
    is_priced: bool,
    top: f64,
    stand_ins: &'a [Kind],
}

/// What a slice comes to.
#[derive(Serialize)]
struct Slice {
    /// The answer, once it is there.
    found: Option<Found>,
    /// A first plan, and again each that is clearly better, while the best is looked for.
    so_far: Option<Found>,
    progress: f64,
}

#[wasm_bindgen]
impl Session {
    /// Advice on a plan of the open document; its doubts are those that its measured decays leave.
    ///
    /// # Errors
    /// An `Error` with `code` and `field` if nothing is open or there is no such plan.
    pub fn advise(&mut self, plan: usize) -> Result<Advice, JsValue> {
        let prepared = self.checked()?.clone();
        let adviser = Adviser::new(prepared, plan).ok_or_else(|| no_such_plan(plan))?;
        Ok(Advice {
            tasks: adviser.tasks(),
            adviser,
            work: None,
        })
    }

    /// Of each piece of a plan the rule that would refuse it there, or `null`.
    ///
    /// # Errors
    /// An `Error` with `code` and `field` if nothing is open.
    pub fn refused_pieces(&self, plan: usize) -> Result<JsValue, JsValue> {
        to_js(&refused_pieces(self.prepared()?, plan))
    }
}

#[wasm_bindgen]
impl Advice {
    /// The tasks, and what is aimed for.
    ///
    /// # Errors
    /// An `Error` with `code` and `field` if the answer cannot cross.
    pub fn about(&self) -> Result<JsValue, JsValue> {
        to_js(&About {
            tasks: &self.tasks,
            objective: self.adviser.objective(),
            is_priced: self.adviser.is_priced(),
            top: self.adviser.top(),
            stand_ins: &self.adviser.stand_ins,
        })
    }

    /// Covers surfaces with one kind from now on, by its id; without one with what does most on each.
    ///
    /// # Errors
    /// An `Error` with `code` and `field` if neither the kit nor the stand-ins have that kind.
    pub fn cover_with(&mut self, kit: Option<String>) -> Result<(), JsValue> {
        let missing = |kit: &str| {
            let words = format!("There is no kind \"{kit}\".");
            js_error("no-such-name", "kit", &words)
        };
        if self.adviser.cover_with(kit.as_deref()) {
            return Ok(());
        }
        Err(missing(&kit.unwrap_or_default()))
    }

    /// Begins a task, by its number.
    ///
    /// # Errors
    /// An `Error` with `code` and `field` if there is no such task.
    pub fn start(&mut self, task: usize) -> Result<(), JsValue> {
        let begun = self.tasks.get(task).copied();
        let work = begun.and_then(|task| self.adviser.start(task));
        let missing = || js_error("no-such-name", "task", &format!("There is no task {task}."));
        self.work = Some(work.ok_or_else(missing)?);
        Ok(())
    }

    /// Goes on for some steps.
    ///
    /// # Errors
    /// An `Error` with `code` and `field` if no task was begun.
    pub fn more(&mut self, steps: usize) -> Result<JsValue, JsValue> {
        let Some(work) = &mut self.work else {
            return Err(js_error("missing", "task", "No task was begun."));
        };
        let found = work.more(&mut self.adviser, steps);
        let so_far = if found.is_none() {
            work.so_far(&mut self.adviser)
        } else {
            None
        };
        let progress = if found.is_some() {
            1.0
        } else {
            work.progress()
        };
        to_js(&Slice {
            found,
            so_far,
            progress,
        })
    }
}
