//! Predicts what acoustic treatment would do in a box room with two loudspeakers and a seat.
//!
//! A scenario puts pieces on the finishes of a room full of air; image sources give what comes early, decay what comes late,
//! modes what rings in the bass;
//! `simulate` joins them into a report and `wasm` hands it to the page.
//!
//! Frame: origin at the floor corner on the left of the front wall (behind the loudspeakers), x to the right, y to the back,
//! z up. SI units; every name carries its unit. Series have 24 one-third-octave bands, 50 Hz … 10 kHz.
//!
//! Where it stops: box rooms; no diffraction beyond Kirchhoff's; furniture has no place in the decay; spaces behind openings
//! and neighbours are left out.

pub mod absorber;
pub mod advice;
pub mod air;
pub mod bands;
pub mod bass;
pub mod chance;
pub mod classical;
pub mod decay;
pub mod decay_curve;
pub mod directivity;
pub mod early;
mod error;
pub mod field_shape;
pub mod finish;
pub mod finite_size;
pub mod footprint;
pub mod fresnel;
pub mod front;
pub mod furnishing;
pub mod gauss;
pub mod geometry;
pub mod image_source;
pub mod layers;
mod least_squares;
pub mod listen;
pub mod numeric;
pub mod reacting;
pub mod recording;
pub mod report;
pub mod room;
pub mod scatterer;
pub mod scenario;
pub mod seat;
pub mod shelf;
pub mod simulate;
pub mod spectrum;
pub mod spread;
pub mod surface;
#[cfg(target_arch = "wasm32")]
mod wasm;

pub use error::{Code, Error, Finding};
