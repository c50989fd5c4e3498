//! What several test files share. Each of them uses a part only, hence the `allow`.
#![allow(dead_code)]

pub mod core_room;
pub mod fine_solution;
pub mod generator;
pub mod reading;
pub mod rooms;
pub mod tracer;
