//! What reaches the seat: direct, early and late sound put together, in energy and over frequency.
//!
//! Early sound comes as images of the loudspeakers up to third order, late sound as the decay less what those images still
//! carry, so that nothing counts twice and no level is free. What was scattered once is followed from where that was to the
//! seat. Left out: that sound scattered more often differs from place to place.

mod comb;
mod covered;
mod figures;
mod late;
mod once;
mod response;
mod tail;

pub use comb::{Dip, comb_dips};
pub use covered::{Covered, HIGHEST_ORDER, STEPS};
pub use figures::{
    Arrival, EARLY_S, Late, SeatFigures, Sound, critical_distance_m, figures, sort_arrivals,
};
pub use late::{LateSound, Placing};
pub use once::Once;
pub use response::{
    Above, LOWEST_HZ, PER_OCTAVE, POINTS, Response, Wave, above, frequencies_hz, join, levels_db,
    phasor, third_octaves,
};
pub use tail::{LateBand, Tail, level_per_s};
