//! The clock that everything is rendered to.

/// Samples per second of everything that is rendered.
pub const RATE_HZ: f64 = 48_000.0;

/// Time before a loudspeaker's sound leaves it, s: room for what a filter without phase sends ahead.
pub const LEAD_S: f64 = 0.02;
