//! Reading fields of JSON objects, with every fault noted rather than the first one thrown.
//!
//! A field that cannot be read yields a stand-in (NaN, an empty text) and a finding; whoever reads goes on. A document with
//! findings is refused as a whole, so no stand-in gets out.

use std::cell::{Cell, RefCell};

use serde_json::{Map, Value};

use crate::error::{Code, Finding};

/// Findings of one reading, and whether unknown keys are forgiven (a newer format).
pub struct Log {
    findings: RefCell<Vec<Finding>>,
    lenient: Cell<bool>,
}

impl Log {
    pub fn new() -> Self {
        Self {
            findings: RefCell::new(Vec::new()),
            lenient: Cell::new(false),
        }
    }

    /// From now on unknown keys are no fault.
    pub fn forgive_unknown_keys(&self) {
        self.lenient.set(true);
    }

    pub fn note(&self, path: &str, code: Code, message: String) {
        self.findings.borrow_mut().push(Finding {
            path: path.to_owned(),
            code,
            message,
        });
    }

    pub fn into_findings(self) -> Vec<Finding> {
        self.findings.into_inner()
    }
}

/// Limits of a number, with its unit for the sentence.
#[derive(Clone, Copy)]
pub struct Span {
    pub low: f64,
    pub high: f64,
    pub unit: &'static str,
}

impl Span {
    pub const fn new(low: f64, high: f64, unit: &'static str) -> Self {
        Self { low, high, unit }
    }

    fn in_words(self, value: f64) -> String {
        let unit = if self.unit.is_empty() {
            String::new()
        } else {
            format!(" {}", self.unit)
        };
        format!(
            "is {value}{unit}; it must lie between {} and {}{unit}",
            self.low, self.high
        )
    }
}

/// One JSON object being read.
pub struct Fields<'a> {
    path: String,
    map: Option<&'a Map<String, Value>>,
    known: RefCell<Vec<&'static str>>,
    log: &'a Log,
}

impl<'a> Fields<'a> {
    /// Reads `value` as an object.
    pub fn of(value: &'a Value, path: String, log: &'a Log) -> Self {
        let map = value.as_object();
        if map.is_none() {
            log.note(
                &path,
                Code::WrongType,
                format!(
                    "{} must be an object with named fields, but is {}.",
                    named(&path),
                    kind_of(value)
                ),
            );
        }
        Self {
            path,
            map,
            known: RefCell::new(Vec::new()),
            log,
        }
    }

    /// Path of a field.
    pub fn at(&self, key: &str) -> String {
        if self.path.is_empty() {
            key.to_owned()
        } else {
            format!("{}.{key}", self.path)
        }
    }

    /// Path of the object itself.
    pub fn path(&self) -> &str {
        &self.path
    }

    /// Whether there are fields at all.
    pub fn is_object(&self) -> bool {
        self.map.is_some()
    }

    pub fn log(&self) -> &'a Log {
        self.log
    }

    /// The field's value, marked as known.
    fn take(&self, key: &'static str) -> Option<&'a Value> {
        self.known.borrow_mut().push(key);
        self.map?.get(key)
    }

    pub fn has(&self, key: &str) -> bool {
        self.map.is_some_and(|map| map.contains_key(key))
    }

    /// A field that must be there.
    fn require(&self, key: &'static str) -> Option<&'a Value> {
        let value = self.take(key);
        if value.is_none() && self.map.is_some() {
            self.log.note(
                &self.at(key),
                Code::Missing,
                format!("{} is missing.", self.at(key)),
            );
        }
        value
    }

    pub fn number(&self, key: &'static str, span: Span) -> f64 {
        self.require(key).map_or(f64::NAN, |value| {
            number(value, &self.at(key), span, self.log)
        })
    }

    pub fn number_or_none(&self, key: &'static str, span: Span) -> Option<f64> {
        self.take(key)
            .map(|value| number(value, &self.at(key), span, self.log))
    }

    /// A whole number, 0 if unreadable.
    pub fn count(&self, key: &'static str, span: Span) -> u32 {
        self.require(key)
            .map_or(0, |value| count(value, &self.at(key), span, self.log))
    }

    pub fn count_or_none(&self, key: &'static str, span: Span) -> Option<u32> {
        self.take(key)
            .map(|value| count(value, &self.at(key), span, self.log))
    }

    pub fn text(&self, key: &'static str, most: usize) -> String {
        self.require(key).map_or_else(String::new, |value| {
            text(value, &self.at(key), most, self.log)
        })
    }

    pub fn text_or_none(&self, key: &'static str, most: usize) -> Option<String> {
        self.take(key)
            .map(|value| text(value, &self.at(key), most, self.log))
    }

    pub fn flag_or_none(&self, key: &'static str) -> Option<bool> {
        let value = self.take(key)?;
        if value.as_bool().is_none() {
            wrong_type(value, &self.at(key), "true or false", self.log);
        }
        value.as_bool()
    }

    /// One of some words; none, with a finding, if it is another.
    pub fn word<T: Copy>(&self, key: &'static str, words: &[(&str, T)]) -> Option<T> {
        self.require(key)
            .and_then(|value| word(value, &self.at(key), words, self.log))
    }

    pub fn word_or_none<T: Copy>(&self, key: &'static str, words: &[(&str, T)]) -> Option<T> {
        self.take(key)
            .and_then(|value| word(value, &self.at(key), words, self.log))
    }

    pub fn object(&self, key: &'static str) -> Option<Fields<'a>> {
        self.require(key)
            .map(|value| Fields::of(value, self.at(key), self.log))
    }

    pub fn object_or_none(&self, key: &'static str) -> Option<Fields<'a>> {
        self.take(key)
            .map(|value| Fields::of(value, self.at(key), self.log))
    }

    /// Items of a list that must be there, with their paths.
    pub fn items(&self, key: &'static str, most: usize) -> Vec<(&'a Value, String)> {
        self.require(key).map_or_else(Vec::new, |value| {
            items(value, &self.at(key), most, self.log)
        })
    }

    pub fn items_or_none(&self, key: &'static str, most: usize) -> Vec<(&'a Value, String)> {
        self.take(key).map_or_else(Vec::new, |value| {
            items(value, &self.at(key), most, self.log)
        })
    }

    /// A list of numbers.
    pub fn numbers(&self, key: &'static str, most: usize, span: Span) -> Vec<f64> {
        self.items(key, most)
            .into_iter()
            .map(|(value, path)| number(value, &path, span, self.log))
            .collect()
    }

    /// A field read by the caller: number or list.
    pub fn raw_or_none(&self, key: &'static str) -> Option<(&'a Value, String)> {
        self.take(key).map(|value| (value, self.at(key)))
    }

    /// Ends the reading: every key that nobody asked for is a fault.
    pub fn finish(self) {
        if self.log.lenient.get() {
            return;
        }
        let known = self.known.borrow();
        for key in self
            .map
            .into_iter()
            .flat_map(Map::keys)
            .filter(|key| !known.contains(&key.as_str()))
        {
            let path = self.at(&shortened(key));
            self.log.note(
                &path,
                Code::Unknown,
                format!("{path} is a field that this format does not know."),
            );
        }
    }
}

/// The field's name for a sentence.
fn named(path: &str) -> &str {
    if path.is_empty() {
        "The document"
    } else {
        path
    }
}

/// What a value is, for a sentence.
fn kind_of(value: &Value) -> &'static str {
    match value {
        Value::Null => "nothing",
        Value::Bool(_) => "true or false",
        Value::Number(_) => "a number",
        Value::String(_) => "a text",
        Value::Array(_) => "a list",
        Value::Object(_) => "an object",
    }
}

fn wrong_type(value: &Value, path: &str, wanted: &str, log: &Log) {
    log.note(
        path,
        Code::WrongType,
        format!(
            "{} must be {wanted}, but is {}.",
            named(path),
            kind_of(value)
        ),
    );
}

/// Text from outside, cut to a length that a sentence can hold.
pub fn shortened(text: &str) -> String {
    const MOST: usize = 60;
    if text.chars().count() <= MOST {
        text.to_owned()
    } else {
        text.chars().take(MOST).chain(['…']).collect()
    }
}

pub fn number(value: &Value, path: &str, span: Span, log: &Log) -> f64 {
    let Some(number) = value.as_f64() else {
        wrong_type(value, path, "a number", log);
        return f64::NAN;
    };
    if !(span.low..=span.high).contains(&number) {
        log.note(
            path,
            Code::OutOfLimits,
            format!("{path} {}.", span.in_words(number)),
        );
    }
    number
}

fn count(value: &Value, path: &str, span: Span, log: &Log) -> u32 {
    let read = number(value, path, span, log);
    if read.fract() != 0.0 && read.is_finite() {
        log.note(
            path,
            Code::WrongType,
            format!("{path} must be a whole number, but is {read}."),
        );
    }
    read as u32
}

pub fn text(value: &Value, path: &str, most: usize, log: &Log) -> String {
    let Some(text) = value.as_str() else {
        wrong_type(value, path, "a text", log);
        return String::new();
    };
    let length = text.chars().count();
    if length > most {
        log.note(
            path,
            Code::OutOfLimits,
            format!("{path} has {length} characters; at most {most} are allowed."),
        );
    }
    text.to_owned()
}

pub fn word<T: Copy>(value: &Value, path: &str, words: &[(&str, T)], log: &Log) -> Option<T> {
    let Some(text) = value.as_str() else {
        wrong_type(value, path, "a text", log);
        return None;
    };
    let found = words.iter().find(|(word, _)| *word == text);
    if found.is_none() {
        let all: Vec<&str> = words.iter().map(|(word, _)| *word).collect();
        log.note(
            path,
            Code::NoSuchName,
            format!(
                "{path} is “{}”; it must be one of {}.",
                shortened(text),
                all.join(", ")
            ),
        );
    }
    found.map(|(_, meaning)| *meaning)
}

/// Items of a list with their paths; those beyond the limit are not read.
pub fn items<'a>(value: &'a Value, path: &str, most: usize, log: &Log) -> Vec<(&'a Value, String)> {
    let Some(list) = value.as_array() else {
        wrong_type(value, path, "a list", log);
        return Vec::new();
    };
    if list.len() > most {
        log.note(
            path,
            Code::OutOfLimits,
            format!(
                "{path} has {} entries; at most {most} are allowed.",
                list.len()
            ),
        );
    }
    list.iter()
        .take(most)
        .enumerate()
        .map(|(i, item)| (item, format!("{path}[{i}]")))
        .collect()
}
