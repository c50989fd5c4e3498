//! Furniture that stands free: what each kind absorbs, and for things with a place which flat faces throw sound back and
//! what they stand in the way of.

use glam::DVec3;

use crate::bands::Banded;
use crate::finish::{octaves_to_bands, scattering_bands};
use crate::furnishing;
use crate::geometry::TOUCH_M;
use crate::scenario::Scenario;
use crate::scenario::document::Footprint;
use crate::surface::Facing;

use super::kit::banded;
use super::plate::Plate;

/// Absorption area and surface of one furnishing of the library or of the user's own, m².
pub(super) fn one(scenario: &Scenario, id: &str) -> Option<(Banded, f64)> {
    let own = scenario.own_furnishings.iter().find(|own| own.id == id);
    own.map(|own| {
        let absorption_m2 = banded(&own.bands_hz, &own.absorption_area_m2);
        (absorption_m2, own.surface_m2)
    })
    .or_else(|| {
        let kind = furnishing::furnishing(id)?;
        Some((octaves_to_bands(&kind.absorption_area_m2), kind.surface_m2))
    })
}

/// Scattering of a flat face of furniture from 500 Hz up, as of a flat wall. Common practice, no source.
const FLAT: f64 = 0.10;

/// Scattering of a shelf full of books. Common practice, no source.
const SHELF: f64 = 0.50;

/// A furnishing as sound of one path meets it.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Form {
    /// A board at its height with air below.
    Board,
    /// A body that reaches down to the floor, with the scattering of its top and of its sides where they are flat and hard.
    Body {
        top: Option<f64>,
        sides: Option<f64>,
    },
}

/// The form of a kind; none of what is neither in the way nor a mirror: chairs, plants.
///
/// Tops and sides of seats, beds and people are neither flat nor hard. A thing of the user's own is taken for a box.
/// Common practice, no source.
fn form(id: &str) -> Option<Form> {
    let body = |top, sides| Some(Form::Body { top, sides });
    match id {
        "dining-table" | "coffee-table" | "desk" => Some(Form::Board),
        "sideboard" => body(Some(FLAT), Some(FLAT)),
        "television-stand" | "wardrobe" | "boiler" => body(None, Some(FLAT)),
        "bookcase-filled" => body(None, Some(SHELF)),
        "sofa-fabric" | "sofa-fabric-small" | "sofa-leather" | "armchair-fabric"
        | "armchair-leather" | "bed-double" | "daybed" | "person-seated" => body(None, None),
        other => furnishing::furnishing(other)
            .is_none()
            .then_some(Form::Body {
                top: Some(FLAT),
                sides: Some(FLAT),
            }),
    }
}

/// A furnishing with a place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Placed {
    /// Number among the furnishings of the room.
    pub number: usize,
    form: Form,
    low_m: DVec3,
    high_m: DVec3,
    /// Absorption of its surface on the mean.
    absorption: Banded,
}

/// All furnishings of a room that have a place and a form.
pub(super) fn placed(scenario: &Scenario) -> Vec<Placed> {
    let items = scenario.room.furnishings.iter().enumerate();
    items
        .filter_map(|(number, item)| {
            let (absorption_m2, surface_m2) = one(scenario, &item.kind)?;
            Some(Placed::new(
                number,
                form(&item.kind)?,
                item.at?,
                absorption_m2 * (1.0 / surface_m2),
            ))
        })
        .collect()
}

impl Placed {
    fn new(number: usize, form: Form, at: Footprint, absorption: Banded) -> Self {
        let extent_m = DVec3::new(at.width_m, at.depth_m, at.height_m);
        let low_m = DVec3::new(at.x_m, at.y_m, 0.0);
        Self {
            number,
            form,
            low_m,
            high_m: low_m + extent_m,
            absorption: absorption.map(|a| a.clamp(0.0, 1.0)),
        }
    }

    /// Its flat faces, each with what sound meets on it.
    ///
    /// What the thing absorbs is spread evenly over its surface. Common practice, no source.
    pub fn faces(&self) -> Vec<(Plate, Facing)> {
        let (top, sides) = match self.form {
            Form::Board => (Some(FLAT), None),
            Form::Body { top, sides } => (top, sides),
        };
        let facing = |scattering: f64| Facing {
            absorption: self.absorption,
            scattering: scattering_bands(scattering),
        };
        let top = top.map(|scattering| (self.face(2, true), facing(scattering)));
        let sides = sides.into_iter().flat_map(|scattering| {
            [(0, false), (0, true), (1, false), (1, true)]
                .map(|(axis, is_far)| (self.face(axis, is_far), facing(scattering)))
        });
        top.into_iter().chain(sides).collect()
    }

    /// The face square to a room axis, with its mirroring side outwards.
    fn face(&self, axis: usize, is_far: bool) -> Plate {
        let (first, second) = ((axis + 1) % 3, (axis + 2) % 3);
        let extent_m = self.high_m - self.low_m;
        let mut corner_m = self.low_m;
        if is_far {
            corner_m[axis] = self.high_m[axis];
        }
        Plate {
            corner_m,
            sides: [DVec3::AXES[first], DVec3::AXES[second]],
            extent_m: [extent_m[first], extent_m[second]],
            normal: DVec3::AXES[axis] * if is_far { 1.0 } else { -1.0 },
        }
    }

    /// Whether a straight line from point to point goes through it.
    pub fn is_crossed(&self, from_m: DVec3, to_m: DVec3) -> bool {
        match self.form {
            Form::Board => self.face(2, true).is_crossed(from_m, to_m),
            Form::Body { .. } => self.length_inside_m(from_m, to_m) > TOUCH_M,
        }
    }

    /// Whether it holds a person at the seat, or has the seat or a loudspeaker inside: then it is not in the way, as it is
    /// not the solid box that it is taken for.
    pub fn holds(&self, source_m: DVec3, seat_m: DVec3) -> bool {
        let is_body = self.form != Form::Board;
        let inside = |axis: usize, point_m: DVec3| {
            (self.low_m[axis]..=self.high_m[axis]).contains(&point_m[axis])
        };
        let sat_on = inside(0, seat_m) && inside(1, seat_m);
        is_body && (sat_on || (0..3).all(|axis| inside(axis, source_m)))
    }

    /// Length of a straight line inside its box, m.
    fn length_inside_m(&self, from_m: DVec3, to_m: DVec3) -> f64 {
        let way = to_m - from_m;
        let (mut enters, mut leaves) = (0.0_f64, 1.0_f64);
        for axis in 0..3 {
            let (low, high) = (
                self.low_m[axis] - from_m[axis],
                self.high_m[axis] - from_m[axis],
            );
            if way[axis].abs() < f64::EPSILON {
                if low >= 0.0 || high <= 0.0 {
                    return 0.0;
                }
                continue;
            }
            let (a, b) = (low / way[axis], high / way[axis]);
            enters = enters.max(a.min(b));
            leaves = leaves.min(a.max(b));
        }
        (leaves - enters).max(0.0) * way.length()
    }
}
