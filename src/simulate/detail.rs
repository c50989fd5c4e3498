//! How much of a report is wanted: what follows a drag leaves out what is read at rest alone.

/// How much of a report is wanted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Detail {
    /// Everything.
    All,
    /// What follows a drag.
    Moving,
}

impl Detail {
    /// A list that nobody reads during a drag.
    pub fn only_at_rest<T>(self, list: impl FnOnce() -> Vec<T>) -> Vec<T> {
        match self {
            Self::All => list(),
            Self::Moving => Vec::new(),
        }
    }

    /// Highest order of the reflections that are listed.
    pub fn highest_order(self) -> usize {
        match self {
            Self::All => 2,
            Self::Moving => 1,
        }
    }
}
