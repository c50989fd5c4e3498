//! What a user asks for: one JSON document, read and validated with every finding at once.

mod check;
pub mod document;
mod goal;
mod limits;
mod read;
mod read_kind;
mod reader;
pub(crate) mod standing;

use serde_json::Value;

pub use check::piece_rect;
pub use document::Scenario;
pub use goal::goal_s;
pub use read::FORMAT;

use crate::error::{Code, Error, Finding};

/// Largest document that is read, bytes of JSON text.
pub const MOST_BYTES: usize = 256 * 1024;

/// Reads a scenario from JSON text.
///
/// # Errors
/// All findings of a text that is not a valid scenario.
pub fn from_json(text: &str) -> Result<Scenario, Error> {
    if text.len() > MOST_BYTES {
        let message = format!(
            "The document has {} bytes; at most {MOST_BYTES} are read.",
            text.len()
        );
        return Err(refused(Code::OutOfLimits, message));
    }
    from_value(&parsed(text)?)
}

/// Reads a scenario from a JSON value. One of a newer format is read as far as it is understood.
///
/// # Errors
/// All findings of a value that is not a valid scenario.
pub fn from_value(value: &Value) -> Result<Scenario, Error> {
    let log = reader::Log::new();
    let scenario = read::scenario(value, &log);
    checked(scenario, log)
}

/// The scenario with another piece in the place of one, out of JSON text. What a piece may do wrong is checked as in a whole
/// document.
///
/// # Errors
/// All findings of what is not a valid scenario then, or a fault if there is no such piece.
pub fn with_piece(
    mut scenario: Scenario,
    plan: usize,
    piece: usize,
    text: &str,
) -> Result<Scenario, Error> {
    let value = parsed(text)?;
    let log = reader::Log::new();
    let path = format!("plans[{plan}].pieces[{piece}]");
    let place = scenario
        .plans
        .get_mut(plan)
        .and_then(|plan| plan.pieces.get_mut(piece))
        .ok_or_else(|| refused(Code::NoSuchName, format!("There is no {path}.")))?;
    *place = read::piece_at(&value, path, scenario.format, &log);
    checked(scenario, log)
}

fn parsed(text: &str) -> Result<Value, Error> {
    serde_json::from_str(text)
        .map_err(|error| refused(Code::NotADocument, format!("This is not JSON: {error}.")))
}

/// What was read, unless reading or its relations between fields have findings.
fn checked(scenario: Scenario, log: reader::Log) -> Result<Scenario, Error> {
    check::check(&scenario, &log);
    let findings = log.into_findings();
    if findings.is_empty() {
        Ok(scenario)
    } else {
        Err(Error { findings })
    }
}

/// A fault of the document as a whole.
fn refused(code: Code, message: String) -> Error {
    Error {
        findings: vec![Finding {
            path: String::new(),
            code,
            message,
        }],
    }
}
