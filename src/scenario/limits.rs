//! Limits that several readers share.

use super::reader::Span;

/// Characters of the sign of a currency.
pub const CURRENCY_LENGTH: usize = 8;

/// Characters of a title or name.
pub const NAME_LENGTH: usize = 60;

/// A share.
pub const RATIO: Span = Span::new(0.0, 1.0, "");

/// Most entries of each list.
pub mod most {
    pub const PIECES: usize = 200;
    pub const PARTS: usize = 60;
    pub const FURNISHINGS: usize = 40;
    pub const PLANS: usize = 8;
    pub const KINDS: usize = 40;
    pub const KEEP_CLEAR: usize = 60;
    pub const CONDITIONS: usize = 20;
    pub const LOUDSPEAKERS: usize = 2;
    pub const LAYERS: usize = 8;
    pub const BAND_VALUES: usize = 31;
    pub const MEASURED: usize = 40;
    pub const OWN: usize = 40;
    pub const ASSUMED: usize = 500;
}
