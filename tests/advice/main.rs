//! Advice: legal places, plans, and how good they are.

mod figures;
#[path = "../support/generator.rs"]
#[allow(dead_code, reason = "only some draws are needed here")]
mod generator;
mod legal;
mod quality;
mod refused;
mod rooms;
mod stories;
