//! Curtains: cloth in folds that hangs over a part of its width and is gathered over the rest.

use crate::geometry::{Rect, TOUCH_M};
use crate::scenario::document::{Kind, Scattering};

/// Scattering of a curtain from 500 Hz up where its kind tells none. Common practice, no source.
const SCATTERING: f64 = 0.20;

/// Width of the bundle of a gathered curtain over the width that it covered. Common practice, no source.
const BUNDLE: f64 = 1.0 / 6.0;

/// Denser folds than this count as this, the most that a kind may have: a bundle is a body rather than a sheet, and nothing
/// is published for it. Common practice, no source.
const MOST_FULLNESS: f64 = 3.0;

/// How the cloth of a part of a curtain hangs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Folds {
    /// As its kind says.
    Drawn,
    /// Pushed together into a bundle.
    Gathered,
}

/// What a curtain covers: the bundle at its low end, then what still hangs drawn.
///
/// ```text
/// drawn: (1 − open) of the width,   bundle: a sixth of the rest
/// ```
pub(super) fn rects(whole: Rect, open: f64) -> Vec<(Rect, Folds)> {
    let bundle_m = whole.width_m * open * BUNDLE;
    let part = |from_m: f64, width_m: f64| Rect {
        u_m: whole.u_m + from_m,
        width_m,
        ..whole
    };
    [
        (part(0.0, bundle_m), Folds::Gathered),
        (part(bundle_m, whole.width_m * (1.0 - open)), Folds::Drawn),
    ]
    .into_iter()
    .filter(|(rect, _)| rect.width_m > TOUCH_M)
    .collect()
}

/// The kind as its cloth hangs: gathered, it lies in denser folds. What folds do to cloth is told with its layers; figures of
/// a data sheet stay as typed, as they are those of a curtain in folds.
pub(super) fn hung(kind: &Kind, folds: Folds) -> Kind {
    let gathered = || (kind.fullness.unwrap_or(1.0) / BUNDLE).min(MOST_FULLNESS);
    Kind {
        fullness: match folds {
            Folds::Drawn => kind.fullness,
            Folds::Gathered => Some(gathered()),
        },
        scattering: kind
            .scattering
            .clone()
            .or(Some(Scattering::Single(SCATTERING))),
        ..kind.clone()
    }
}
