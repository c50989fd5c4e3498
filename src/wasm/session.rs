//! A scenario that is open: reading it, and the report that follows a drag.

use serde::Serialize;
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

use super::cross::{as_text, no_such_plan, nothing_open, to_js};
use crate::error::{Error, Finding};
use crate::report::Series;
use crate::scenario::{self, FORMAT, Scenario};
#[cfg(feature = "later")]
use crate::simulate::Draws;
use crate::simulate::{KindFacts, Memory, Prepared};

/// What `open` answers.
#[derive(Serialize)]
struct Opened {
    findings: Vec<Finding>,
    newer: bool,
}

/// One kind of the scenario's kit.
#[derive(Serialize)]
struct KindInfo<'a> {
    id: &'a str,
    depth_m: f64,
    absorption: Series,
    scattering: Series,
    source: String,
}

impl<'a> KindInfo<'a> {
    fn of(facts: &'a KindFacts) -> Self {
        Self {
            id: facts.id(),
            depth_m: facts.depth_m,
            absorption: facts.facing.absorption.into(),
            scattering: facts.facing.scattering.into(),
            source: facts.source(),
        }
    }
}

/// A scenario that is open, and what was prepared for it.
#[wasm_bindgen]
#[derive(Default)]
pub struct Session {
    pub(super) prepared: Option<Prepared>,
    pub(super) memory: Memory,
    /// Draws that are complete, by plan, for the differences between plans.
    #[cfg(feature = "later")]
    pub(super) made: std::collections::BTreeMap<usize, Draws>,
    /// The plan whose draws are under way.
    #[cfg(feature = "later")]
    pub(super) making: Option<(usize, Draws)>,
}

#[wasm_bindgen]
impl Session {
    /// A session with nothing open.
    #[wasm_bindgen(constructor)]
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// Validates a document and keeps it if nothing is wrong; otherwise the one before stays open.
    ///
    /// # Errors
    /// An `Error` with `code` and `field` if the value is not plain data.
    pub fn open(&mut self, document: &JsValue) -> Result<JsValue, JsValue> {
        let read = scenario::from_json(&as_text(document)?);
        self.keep(read)
    }

    /// Puts another piece in the place of one of the open document and answers as `open` does: in a drag the rest of the
    /// document need not be read again.
    ///
    /// # Errors
    /// An `Error` with `code` and `field` if nothing is open or the value is not plain data.
    pub fn move_piece(
        &mut self,
        plan: usize,
        piece: usize,
        content: &JsValue,
    ) -> Result<JsValue, JsValue> {
        let text = as_text(content)?;
        let open = self.prepared()?.scenario().clone();
        self.keep(scenario::with_piece(open, plan, piece, &text))
    }

    /// The report of one plan of the open document.
    ///
    /// # Errors
    /// An `Error` with `code` and `field` if nothing is open or there is no such plan.
    pub fn predict(&mut self, plan: usize) -> Result<JsValue, JsValue> {
        let prepared = self.prepared.as_ref().ok_or_else(nothing_open)?;
        let report = prepared.predict_after(plan, &mut self.memory);
        report.map_or_else(|| Err(no_such_plan(plan)), |report| to_js(&report))
    }

    /// As `predict`, without what nobody reads while something is dragged.
    ///
    /// # Errors
    /// An `Error` with `code` and `field` if nothing is open or there is no such plan.
    pub fn follow(&mut self, plan: usize) -> Result<JsValue, JsValue> {
        let prepared = self.prepared.as_ref().ok_or_else(nothing_open)?;
        let report = prepared.follow(plan, &mut self.memory);
        report.map_or_else(|| Err(no_such_plan(plan)), |report| to_js(&report))
    }

    /// What the kinds of the open document's kit do.
    ///
    /// # Errors
    /// An `Error` with `code` and `field` if nothing is open.
    pub fn kit(&self) -> Result<JsValue, JsValue> {
        to_js(
            &self
                .prepared()?
                .kit()
                .iter()
                .map(KindInfo::of)
                .collect::<Vec<_>>(),
        )
    }

    /// The open document as it would be saved.
    ///
    /// # Errors
    /// An `Error` with `code` and `field` if nothing is open.
    #[cfg(feature = "later")]
    pub fn document(&self) -> Result<JsValue, JsValue> {
        to_js(self.prepared()?.scenario())
    }
}

impl Session {
    /// Keeps what was read if nothing is wrong with it.
    fn keep(&mut self, read: Result<Scenario, Error>) -> Result<JsValue, JsValue> {
        match read {
            Ok(scenario) => {
                let newer = scenario.format > FORMAT;
                self.prepared = Some(Prepared::after(scenario, self.prepared.as_ref()));
                to_js(&Opened {
                    findings: Vec::new(),
                    newer,
                })
            }
            Err(error) => to_js(&Opened {
                findings: error.findings,
                newer: false,
            }),
        }
    }

    /// What is open, with its check-up made.
    ///
    /// # Errors
    /// An `Error` with `code` and `field` if nothing is open.
    #[cfg(feature = "later")]
    pub(super) fn checked(&mut self) -> Result<&Prepared, JsValue> {
        let prepared = self.prepared.as_mut().ok_or_else(nothing_open)?;
        prepared.check_up();
        Ok(prepared)
    }

    /// What is open.
    pub(super) fn prepared(&self) -> Result<&Prepared, JsValue> {
        self.prepared.as_ref().ok_or_else(nothing_open)
    }
}
