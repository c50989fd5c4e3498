//! proto
pub mod admittance;
pub mod coupled;
mod symmetric;
pub mod modes;
pub mod room;
mod walls;
