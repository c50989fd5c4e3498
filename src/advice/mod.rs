//! Advice: what to do in this room, within what its home allows.

mod objective;
mod places;
mod rules;
mod scales;
mod search;
mod space;
mod table;

pub use objective::{Objective, Outcome, Steps, Weights};
pub use places::{Mark, Places, Refusal, Spot};
pub use rules::{Home, Rule, Shape, is_visible, needs_holes};
pub use scales::{Change, Load, Scales};
pub use search::{Bought, Bounds, Search};
pub use table::{Candidate, Table, places, shapes};
