//! What can be wrong with a request: a list of findings, each a whole sentence that can be shown as it is.

use std::fmt;

use serde::Serialize;

/// One thing that is wrong with a scenario: which field, what kind of fault, and a sentence with the value and the limit.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Finding {
    /// Path of the field in the document, such as `plans[1].pieces[0].u_m`; empty for the document as a whole.
    pub path: String,
    /// The kind of fault, for programs.
    pub code: Code,
    /// The sentence for people: names the thing, the value, the limit and the unit.
    pub message: String,
}

/// Kinds of fault, split by what the user can do about them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Code {
    /// The text is not JSON, or not a document of this format.
    NotADocument,
    /// A field that must be there is not.
    Missing,
    /// A field that this format does not know.
    Unknown,
    /// A value of another type than the field takes.
    WrongType,
    /// A number, a text or a list outside its limits.
    OutOfLimits,
    /// A name that refers to nothing.
    NoSuchName,
    /// Two things share a name that must be unique.
    NotUnique,
    /// Something reaches beyond its surface or the room.
    OutsideRoom,
    /// Two things want the same place.
    Overlap,
}

/// Everything that is wrong with a scenario, all findings at once.
#[derive(Clone, Debug, PartialEq)]
pub struct Error {
    /// The findings, in the order of the document; never empty.
    pub findings: Vec<Finding>,
}

impl fmt::Display for Error {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (i, finding) in self.findings.iter().enumerate() {
            if i > 0 {
                writeln!(f)?;
            }
            if finding.path.is_empty() {
                write!(f, "{}", finding.message)?;
            } else {
                write!(f, "{}: {}", finding.path, finding.message)?;
            }
        }
        Ok(())
    }
}

impl std::error::Error for Error {}
