//! What is built in: bands, finishes, furnishings, the kinds of the shelf.

use serde::Serialize;
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

use super::cross::to_js;
use super::session::Session;
use crate::air::Air;
use crate::bands::NOMINAL_HZ;
use crate::finish::{FINISHES, Finish};
use crate::furnishing::{FURNISHINGS, Furnishing};
use crate::report::Series;
use crate::scenario::document::{Kind, Stands};
use crate::shelf::{self, Entry};
use crate::simulate::KindFacts;

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

#[wasm_bindgen]
impl Session {
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
}
