//! Advice: what to do in this room, within what its home allows.

mod amount;
mod cover;
mod free;
mod moving;
mod objective;
mod places;
mod plan;
mod route;
mod rules;
mod scales;
mod search;
mod space;
mod surfaces;
mod swap;
mod table;
mod tasks;
mod windows;

pub use amount::{Amount, Count, Overdone};
pub use free::{Boom, FreeAdvice, FreeMove, Moved};
pub use objective::{FIGURES, Figures, Objective, Outcome, Steps, Weights};
pub use places::{Mark, Places, Refusal, Spot};
pub use plan::{Bite, PlanAdvice, Purpose, Reason, Today, Writer};
pub use rules::{Home, Rule, Shape, is_visible, looks, needs_holes};
pub use scales::{Change, Load, Scales};
pub use search::{Bought, Bounds, Search};
pub use surfaces::{Cover, SurfaceAdvice, SurfaceWork, Why};
pub use table::{Candidate, Table, places, refused_pieces, shapes};
pub use tasks::{Adviser, Found, LEVELS, Task, Work};
pub use windows::{Instead, WindowBounce, WindowWay};
