//! Screens on stands in the way of early reflections: what of each goes past them.
//!
//! A screen lets no sound through. Of a leg of a path it takes the part that would go through an opening of its shape, by
//! Kirchhoff's integral, so that the rest is what bends round it. A path that meets a screen on two legs, as near a wall,
//! meets it once: with the leg that it covers more; a screen at a wall then does what a piece on that wall does. Left out:
//! sound that goes through, the direct sound, and images of third order, which meet stands like furniture, on the mean.

use glam::DVec3;

use crate::bands::Banded;
use crate::early::{Early, SourceEarly};
use crate::image_source::ImagePath;
use crate::room::Room;
use crate::spectrum::{FINE, Spectrum, band_means};

use super::prepared::Prepared;
use super::stand::Stand;

/// Highest order of the images that screens stand in the way of.
const HIGHEST_ORDER: usize = 2;

/// The screens of a plan.
#[derive(Clone, Copy, Debug)]
pub(super) struct Screens<'a> {
    pub stands: &'a [Stand],
    pub speed_of_sound_m_per_s: f64,
}

impl Screens<'_> {
    /// Takes from the images of a loudspeaker what the screens keep away.
    ///
    /// Screens whose place is known are not in the way on the mean as well: that share of the furniture is given back.
    pub fn cover(&self, room: &Room, source_m: DVec3, seat_m: DVec3, sound: &mut SourceEarly) {
        if self.stands.is_empty() {
            return;
        }
        let surface_m2: f64 = self.stands.iter().map(Stand::surface_m2).sum();
        let per_m = surface_m2 / (4.0 * room.volume_m3());
        let listed = sound.reflections.iter_mut();
        for early in listed.filter(|early| early.path.order() <= HIGHEST_ORDER) {
            let back = (per_m * early.path.distance_m).exp();
            let points_m = corners_m(source_m, &early.path, seat_m);
            let passing = self.passing(&points_m, None);
            scale(early, back, passing.as_ref());
        }
    }

    /// Share of the pressure on a path through these points that passes all screens but one; none if no screen matters.
    pub fn passing(&self, points_m: &[DVec3], except: Option<usize>) -> Option<Spectrum<FINE>> {
        let others = self
            .stands
            .iter()
            .filter(|stand| Some(stand.number) != except);
        others
            .filter_map(|stand| past(stand, points_m, self.speed_of_sound_m_per_s))
            .reduce(|product, next| product.times(&next))
    }

    /// Numbers of the pieces whose screens a path through these points goes through, but one.
    pub fn crossed(&self, points_m: &[DVec3], except: Option<usize>) -> Vec<usize> {
        let is_crossed = |stand: &&Stand| {
            Some(stand.number) != except
                && legs(points_m).any(|[from_m, to_m]| stand.plate.is_crossed(from_m, to_m))
        };
        let crossed = self.stands.iter().filter(is_crossed);
        crossed.map(|stand| stand.number).collect()
    }
}

/// The straight legs of a path.
pub(super) fn legs(points_m: &[DVec3]) -> impl Iterator<Item = [DVec3; 2]> + '_ {
    points_m.windows(2).map(|pair| [pair[0], pair[1]])
}

/// The points of an image's path from loudspeaker to seat.
pub(super) fn corners_m(source_m: DVec3, path: &ImagePath, seat_m: DVec3) -> Vec<DVec3> {
    let hits = path.points_m();
    std::iter::once(source_m)
        .chain(hits)
        .chain([seat_m])
        .collect()
}

/// Share of the pressure that passes one screen; none if no leg goes through its plane.
fn past(stand: &Stand, points_m: &[DVec3], speed_of_sound_m_per_s: f64) -> Option<Spectrum<FINE>> {
    let whole_m: f64 = legs(points_m)
        .map(|[from_m, to_m]| from_m.distance(to_m))
        .sum();
    let mut before_m = 0.0;
    let mut least: Option<Spectrum<FINE>> = None;
    for leg in legs(points_m) {
        let length_m = leg[0].distance(leg[1]);
        let halves_m = [before_m, whole_m - before_m - length_m];
        before_m += length_m;
        let weight = stand
            .plate
            .weight_on_leg(leg, halves_m, speed_of_sound_m_per_s);
        let Some(weight) = weight else { continue };
        let passed = Spectrum::of_bands(&Banded::constant(1.0)).minus(&weight);
        least = Some(least.map_or(passed, |least| smaller(&least, &passed)));
    }
    least
}

/// The smaller of two values at each frequency.
fn smaller(a: &Spectrum<FINE>, b: &Spectrum<FINE>) -> Spectrum<FINE> {
    let (mut least, b_energy) = (*a, b.energy());
    for (i, a_energy) in a.energy().into_iter().enumerate() {
        if b_energy[i] < a_energy {
            (least.re[i], least.im[i]) = (b.re[i], b.im[i]);
        }
    }
    least
}

/// Scales what an image brings: its energy by a factor, its pressure by what passes. Ripples beside a shadow add nothing
/// to the energy of a band.
fn scale(early: &mut Early, energy: f64, passing: Option<&Spectrum<FINE>>) {
    early.energy = early.energy * energy;
    for (_, pressure) in &mut early.pressure {
        *pressure *= energy.sqrt();
    }
    let Some(passing) = passing else { return };
    let passed = band_means(&passing.energy());
    early.energy = Banded::from_fn(|band| early.energy[band] * passed[band].min(1.0));
    for (i, (_, pressure)) in early.pressure.iter_mut().enumerate().take(FINE) {
        *pressure *= passing.at(i);
    }
}

impl Prepared {
    /// Numbers of the furnishings, but one, that a path through these points goes through.
    pub(super) fn in_the_way(&self, points_m: &[DVec3], except: Option<usize>) -> Vec<usize> {
        let (Some(&source_m), Some(&seat_m)) = (points_m.first(), points_m.last()) else {
            return Vec::new();
        };
        let placed = self.building.placed.iter();
        placed
            .filter(|placed| Some(placed.number) != except && !placed.holds(source_m, seat_m))
            .filter(|placed| legs(points_m).any(|[from_m, to_m]| placed.is_crossed(from_m, to_m)))
            .map(|placed| placed.number)
            .collect()
    }
}
