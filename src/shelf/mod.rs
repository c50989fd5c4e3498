//! The kinds of piece that the page's shelf offers in any room: generic, no maker, no price.

mod entry;
mod household;
mod soft;
mod tuned;

pub use entry::Entry;

use crate::scenario::document::Kind;

/// Every kind with its texts: soft pieces, tuned ones, things of the household, scattering pieces.
#[must_use]
pub fn entries() -> Vec<Entry> {
    [
        soft::panels(),
        household::rugs(),
        soft::faced(),
        soft::corners(),
        household::curtains(),
        vec![soft::screen()],
        tuned::bass(),
        tuned::perforated(),
        tuned::slotted(),
        soft::tiles(),
        household::scatterers(),
    ]
    .concat()
}

/// The kinds alone, as a document would have them.
#[must_use]
pub fn kinds() -> Vec<Kind> {
    entries().into_iter().map(|entry| entry.kind).collect()
}
