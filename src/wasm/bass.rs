//! What rings in the bass.

use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

use super::cross::{no_such_plan, to_js};
use super::session::Session;

#[wasm_bindgen]
impl Session {
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
}
