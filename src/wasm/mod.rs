//! The door to JavaScript: one session that holds a scenario and answers for it.
//!
//! Documents and summaries cross as plain objects, series as typed arrays. Nothing here computes.

use std::collections::BTreeMap;

use js_sys::{Error as JsError, Float64Array, JSON, Reflect};
use serde::{Serialize, Serializer};
use serde_wasm_bindgen::preserve;
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

use crate::air::Air;
use crate::bands::NOMINAL_HZ;
use crate::error::Finding;
use crate::finish::{FINISHES, Finish};
use crate::furnishing::{FURNISHINGS, Furnishing};
use crate::report::{RangesReport, Series};
use crate::scenario::{
    self, FORMAT,
    document::{Kind, Stands},
    goal_s,
};
use crate::shelf::{self, Entry};
use crate::simulate::{Draws, KindFacts, Memory, Prepared};

impl Serialize for Series {
    /// Copies the series once into a `Float64Array`; NaN stays for what is not defined.
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        preserve::serialize(&Float64Array::from(&self.0[..]), serializer)
    }
}

/// Reports a panic, which is always a fault of this code, in the browser's console.
#[wasm_bindgen(start)]
fn start() {
    std::panic::set_hook(Box::new(|panic| {
        web_sys::console::error_1(&panic.to_string().into());
    }));
}

/// What `open` answers.
#[derive(Serialize)]
struct Opened {
    findings: Vec<Finding>,
    newer: bool,
}

/// The built-in library.
#[derive(Serialize)]
struct Library {
    bands_hz: Series,
    finishes: &'static [Finish],
    furnishings: &'static [Furnishing],
    shelf: Vec<Kind>,
    shelf_notes: Vec<ShelfNote>,
}

/// What a buyer wants to know about one kind of the shelf; beside the kind, which goes into documents as it is.
#[derive(Serialize)]
struct ShelfNote {
    id: String,
    good_for: &'static str,
    ask_for: &'static str,
    source: String,
    stands: Stands,
    depth_m: f64,
    absorption: Series,
    scattering: Series,
}

impl ShelfNote {
    /// Computed in the air of an ordinary room.
    fn of(entry: &Entry, air: &Air) -> Self {
        let facts = KindFacts::of(&entry.kind, air);
        Self {
            id: entry.kind.id.clone(),
            good_for: entry.good_for,
            ask_for: entry.ask_for,
            source: format!("{} {}", entry.source, facts.source()),
            stands: entry.kind.stands.unwrap_or(Stands::Surface),
            depth_m: facts.depth_m,
            absorption: facts.facing.absorption.into(),
            scattering: facts.facing.scattering.into(),
        }
    }
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
    prepared: Option<Prepared>,
    memory: Memory,
    /// Draws that are complete, by plan, for the differences between plans.
    made: BTreeMap<usize, Draws>,
    /// The plan whose draws are under way.
    making: Option<(usize, Draws)>,
}

/// What a slice of draws comes to.
#[derive(Serialize)]
struct MoreRanges {
    ranges: Option<RangesReport>,
}

#[wasm_bindgen]
impl Session {
    /// A session with nothing open.
    #[wasm_bindgen(constructor)]
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// Bands, finishes, furnishings and the kinds of the shelf.
    ///
    /// # Errors
    /// An `Error` with `code` and `field` if the answer cannot cross.
    pub fn library(&self) -> Result<JsValue, JsValue> {
        let bands_hz = Series(NOMINAL_HZ.to_vec());
        let entries = shelf::entries();
        let air = Air::at(20.0, 50.0);
        let shelf_notes = entries
            .iter()
            .map(|entry| ShelfNote::of(entry, &air))
            .collect();
        to_js(&Library {
            bands_hz,
            finishes: FINISHES,
            furnishings: FURNISHINGS,
            shelf: entries.into_iter().map(|entry| entry.kind).collect(),
            shelf_notes,
        })
    }

    /// Validates a document and keeps it if nothing is wrong; otherwise the one before stays open.
    ///
    /// # Errors
    /// An `Error` with `code` and `field` if the value is not plain data.
    pub fn open(&mut self, document: &JsValue) -> Result<JsValue, JsValue> {
        match scenario::from_json(&as_text(document)?) {
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

    /// The report of one plan of the open document.
    ///
    /// # Errors
    /// An `Error` with `code` and `field` if nothing is open or there is no such plan.
    pub fn predict(&mut self, plan: usize) -> Result<JsValue, JsValue> {
        let prepared = self.prepared.as_ref().ok_or_else(nothing_open)?;
        let report = prepared.predict_after(plan, &mut self.memory);
        report.map_or_else(|| Err(no_such_plan(plan)), |report| to_js(&report))
    }

    /// Starts the ranges of one plan of the open document; draws already made for the same plan are taken over.
    ///
    /// # Errors
    /// An `Error` with `code` and `field` if nothing is open or there is no such plan.
    pub fn start_ranges(&mut self, plan: usize) -> Result<(), JsValue> {
        let prepared = self.prepared()?;
        let known = self
            .made
            .get(&plan)
            .filter(|draws| draws.are_of(prepared, plan));
        let draws = known.cloned().or_else(|| Draws::start(prepared, plan));
        let draws = draws.ok_or_else(|| no_such_plan(plan))?;
        self.making = Some((plan, draws));
        Ok(())
    }

    /// Makes up to `count` more draws; the answer holds the ranges once all are made.
    ///
    /// # Errors
    /// An `Error` with `code` and `field` if no ranges were started or nothing is open.
    pub fn more_ranges(&mut self, count: usize) -> Result<JsValue, JsValue> {
        let Some((plan, draws)) = &mut self.making else {
            return Err(js_error("missing", "plan", "No ranges were started."));
        };
        draws.more(count);
        if !draws.are_complete() {
            return to_js(&MoreRanges { ranges: None });
        }
        self.made.insert(*plan, draws.clone());
        let plan = *plan;
        to_js(&MoreRanges {
            ranges: Some(self.ranges(plan)?),
        })
    }

    /// The bass of one plan; `null` without a seat and two loudspeakers.
    ///
    /// # Errors
    /// An `Error` with `code` and `field` if nothing is open or there is no such plan.
    pub fn bass(&self, plan: usize) -> Result<JsValue, JsValue> {
        let prepared = self.prepared()?;
        if plan >= prepared.scenario().plans.len() {
            return Err(no_such_plan(plan));
        }
        to_js(&prepared.bass(plan))
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
    pub fn document(&self) -> Result<JsValue, JsValue> {
        to_js(self.prepared()?.scenario())
    }

    fn prepared(&self) -> Result<&Prepared, JsValue> {
        self.prepared.as_ref().ok_or_else(nothing_open)
    }
}

fn nothing_open() -> JsValue {
    js_error("missing", "document", "No document is open.")
}

fn no_such_plan(plan: usize) -> JsValue {
    let message = format!("There is no plan number {plan}.");
    js_error("no-such-name", "plan", &message)
}

/// The document as JSON text, which the browser writes several times faster than it lets its fields be walked.
fn as_text(document: &JsValue) -> Result<String, JsValue> {
    let text = JSON::stringify(document)
        .ok()
        .and_then(|text| text.as_string());
    text.ok_or_else(|| js_error("not-a-document", "", "The document is not plain data."))
}

/// A plain object of what is given.
fn to_js(value: &impl Serialize) -> Result<JsValue, JsValue> {
    let plain = serde_wasm_bindgen::Serializer::json_compatible();
    value
        .serialize(&plain)
        .map_err(|error| js_error("internal", "", &error.to_string()))
}

/// A JavaScript `Error` with the kind of fault and the field beside its message.
fn js_error(code: &str, field: &str, message: &str) -> JsValue {
    let error = JsError::new(message);
    for (key, text) in [("code", code), ("field", field)] {
        // Setting a property of a fresh error cannot fail; if it did, the message would still tell.
        let _ = Reflect::set(&error, &key.into(), &text.into());
    }
    error.into()
}
