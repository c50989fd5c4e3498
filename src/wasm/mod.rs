//! The door to JavaScript: one session that holds a scenario and answers for it. Nothing here computes.
//!
//! It is built twice: once with what must answer within a frame, for the page, and once with everything, for the workers
//! (feature `later`), so that nobody waits for what is not yet asked.

#[cfg(feature = "later")]
mod advice;
#[cfg(feature = "later")]
mod bass;
#[cfg(feature = "later")]
mod checkup;
mod cross;
mod library;
#[cfg(feature = "later")]
mod listen;
#[cfg(feature = "later")]
mod ranges;
mod session;

use wasm_bindgen::prelude::wasm_bindgen;

/// Reports a panic, which is always a fault of this code, in the browser's console.
#[wasm_bindgen(start)]
fn start() {
    std::panic::set_hook(Box::new(|panic| {
        web_sys::console::error_1(&panic.to_string().into());
    }));
}
