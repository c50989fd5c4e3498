//! What crosses: documents and summaries as plain objects, series as typed arrays, faults as errors with a code.

use js_sys::{Error as JsError, Float64Array, JSON, Reflect};
use serde::{Serialize, Serializer};
use serde_wasm_bindgen::preserve;
use wasm_bindgen::prelude::JsValue;

use crate::report::Series;

impl Serialize for Series {
    /// Copies the series once into a `Float64Array`; NaN stays for what is not defined.
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        preserve::serialize(&Float64Array::from(&self.0[..]), serializer)
    }
}

pub(super) fn nothing_open() -> JsValue {
    js_error("missing", "document", "No document is open.")
}

pub(super) fn no_such_plan(plan: usize) -> JsValue {
    let message = format!("There is no plan number {plan}.");
    js_error("no-such-name", "plan", &message)
}

/// The document as JSON text, which the browser writes several times faster than it lets its fields be walked.
pub(super) fn as_text(document: &JsValue) -> Result<String, JsValue> {
    let text = JSON::stringify(document)
        .ok()
        .and_then(|text| text.as_string());
    text.ok_or_else(|| js_error("not-a-document", "", "The document is not plain data."))
}

/// A plain object of what is given.
pub(super) fn to_js(value: &impl Serialize) -> Result<JsValue, JsValue> {
    let plain = serde_wasm_bindgen::Serializer::json_compatible();
    value
        .serialize(&plain)
        .map_err(|error| js_error("internal", "", &error.to_string()))
}

/// A JavaScript `Error` with the kind of fault and the field beside its message.
pub(super) fn js_error(code: &str, field: &str, message: &str) -> JsValue {
    let error = JsError::new(message);
    for (key, text) in [("code", code), ("field", field)] {
        // Setting a property of a fresh error cannot fail; if it did, the message would still tell.
        let _ = Reflect::set(&error, &key.into(), &text.into());
    }
    error.into()
}
