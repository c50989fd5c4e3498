//! The bass against published tables of modes, closed forms, a finite-element solution, and its own symmetries.

#[path = "../support/generator.rs"]
#[allow(dead_code)]
mod generator;
#[path = "../support/table.rs"]
mod table;

mod admittances;
mod closed_form;
mod finite_elements;
mod modes;
mod properties;
mod response;
mod rooms;
mod seat_words;
