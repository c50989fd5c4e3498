//! Advice: legal places, plans, and how good they are.

mod amount;
mod chosen_kind;
mod covering;
mod figures;
mod free;
#[path = "../support/generator.rs"]
#[allow(dead_code, reason = "only some draws are needed here")]
mod generator;
mod legal;
mod looks;
mod prices;
mod quality;
mod refusals;
mod refused;
mod rooms;
mod route;
mod stories;
mod swap;
mod walker;
mod windows;
