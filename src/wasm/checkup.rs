//! The check-up, and what would make a range narrower.

use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

use super::cross::{no_such_plan, to_js};
use super::session::Session;

#[wasm_bindgen]
impl Session {
    /// What the measured decays of the open document say; `null` if it holds none.
    ///
    /// # Errors
    /// An `Error` with `code` and `field` if nothing is open.
    pub fn checkup(&mut self) -> Result<JsValue, JsValue> {
        to_js(&self.checked()?.checkup())
    }

    /// What makes the range of a plan wide, and what would make it narrower.
    ///
    /// # Errors
    /// An `Error` with `code` and `field` if nothing is open or there is no such plan.
    pub fn surer(&mut self, plan: usize) -> Result<JsValue, JsValue> {
        let surer = self.checked()?.surer(plan);
        surer.map_or_else(|| Err(no_such_plan(plan)), |surer| to_js(&surer))
    }
}
