//! Stands: screens that stand free, open to sound on both sides.

use std::sync::Arc;

use glam::DVec3;

use crate::bands::Banded;
use crate::finish::scattering_bands;
use crate::front::Front;
use crate::scenario::document::{Kind, LayerFacts, MadeOf};
use crate::surface::Facing;

use super::kit::KindFacts;
use super::plate::Plate;

/// Absorption and scattering of the hard back of a screen, as of a light board. Common practice, no source.
const HARD_BACK: f64 = 0.05;
const HARD_SCATTERING: f64 = 0.10;

/// What one face of a screen does.
#[derive(Clone, Debug)]
pub(super) struct Face {
    pub facing: Facing,
    /// None of a hard back.
    pub front: Option<Arc<Front>>,
}

/// A screen where it stands.
#[derive(Clone, Debug)]
pub(super) struct Stand {
    /// Number of the piece in its plan.
    pub number: usize,
    /// Its middle plane; the normal points to the side of its front.
    pub plate: Plate,
    /// How thick it is, m.
    pub depth_m: f64,
    /// Front and back.
    pub faces: [Face; 2],
}

impl Stand {
    /// Both faces, m².
    pub fn surface_m2(&self) -> f64 {
        2.0 * self.plate.extent_m[0] * self.plate.extent_m[1]
    }

    /// What its two faces absorb on the mean, of a face's area; a data sheet may exceed 1.
    pub fn mean_absorption(&self) -> Banded {
        (self.faces[0].facing.absorption + self.faces[1].facing.absorption) * 0.5
    }

    /// Equivalent absorption area, m².
    pub fn absorption_m2(&self) -> Banded {
        self.mean_absorption() * self.surface_m2()
    }

    /// The two faces as they lie, each with the side that mirrors outwards.
    pub fn sides(&self) -> [(Plate, &Face); 2] {
        let half_m = self.depth_m / 2.0;
        [
            (self.plate.raised(half_m), &self.faces[0]),
            (self.plate.reversed().raised(half_m), &self.faces[1]),
        ]
    }
}

/// The rectangle of a screen: `at_m` is the middle of its lower edge. At 0° it stands parallel to the front wall with its
/// front towards the listener; it turns from x towards y, clockwise as seen from above.
pub(super) fn plate(kind: &Kind, at_m: DVec3, turn_deg: f64) -> Plate {
    let (sine, cosine) = turn_deg.to_radians().sin_cos();
    let along = DVec3::new(cosine, sine, 0.0);
    Plate {
        corner_m: at_m - along * (kind.width_m / 2.0),
        sides: [along, DVec3::Z],
        extent_m: [kind.width_m, kind.height_m],
        normal: DVec3::new(-sine, cosine, 0.0),
    }
}

/// Front and back of a kind that stands free, from the facts of its [`free`] build.
///
/// A build of porous layers and cloth has no hard back: both faces absorb. So do those of a data sheet, as typed, which leaves open what
/// the sheet's floor added in the bass. Any other build is taken for a front before a hard board.
pub(super) fn faces(kind: &Kind, facts: &KindFacts) -> [Face; 2] {
    let front = Face {
        facing: facts.facing,
        front: Some(Arc::clone(&facts.front)),
    };
    let back = if is_open(kind) {
        front.clone()
    } else {
        Face {
            facing: Facing {
                absorption: Banded::constant(HARD_BACK),
                scattering: scattering_bands(HARD_SCATTERING),
            },
            front: None,
        }
    };
    [front, back]
}

/// The kind as one of its two faces is computed: half of its porous layers before a hard middle.
///
/// Sound that is alike on both sides does not go through the middle, as before a hard wall there. Long waves are alike, as
/// they bend round the screen; short ones do not come so deep that it matters. In between a screen absorbs somewhat more
/// than this, as sound that differs between the sides blows through. A gap behind the layers has no wall to end at and is
/// left out. Symmetry is exact; that it stands for all sound is common practice, no source.
pub(super) fn free(kind: &Kind) -> Kind {
    let MadeOf::Layers { layers } = &kind.absorber else {
        return kind.clone();
    };
    if !is_open(kind) {
        return kind.clone();
    }
    let last = layers.iter().rposition(|layer| !is_gap(layer));
    let kept = last.map_or(&[][..], |last| &layers[..=last]);
    Kind {
        absorber: MadeOf::Layers {
            layers: kept.iter().map(halved).collect(),
        },
        ..kind.clone()
    }
}

/// Whether it is open on both sides.
pub(super) fn is_open(kind: &Kind) -> bool {
    let lets_air_through = |layer: &LayerFacts| {
        let soft = matches!(layer, LayerFacts::Porous { .. } | LayerFacts::Cloth { .. });
        soft || is_gap(layer)
    };
    match &kind.absorber {
        MadeOf::Layers { layers } => layers.iter().all(lets_air_through),
        other => matches!(other, MadeOf::DataSheet(_)),
    }
}

fn is_gap(layer: &LayerFacts) -> bool {
    matches!(layer, LayerFacts::Gap { .. })
}

fn halved(layer: &LayerFacts) -> LayerFacts {
    let mut half = *layer;
    if let LayerFacts::Porous { thickness_mm, .. } = &mut half {
        *thickness_mm /= 2.0;
    }
    if let LayerFacts::Gap { thickness_mm } = &mut half {
        *thickness_mm /= 2.0;
    }
    half
}
