//! Bounces off what stands in the room: table tops, fronts of furniture, screens. Each is a further path of first order.
//!
//! A face carries its part of the bounce like a piece on a wall: with Kirchhoff's weight of its rectangle about the point of
//! its mirror. Such a bounce counts beside what furniture scatters on the mean, of which one thing is a few percent.

use glam::DVec3;
use num_complex::Complex64;

use crate::bands::Banded;
use crate::early::{Direct, Early, Source, on_the_way};
use crate::image_source::ImagePath;
use crate::room::Room;
use crate::scenario::document::Plan;
use crate::spectrum::{FINE, Spectrum, band_means, frequency_hz};
use crate::surface::{Facing, MOST_ABSORPTION};

use super::plate::{Plate, Way};
use super::prepared::Prepared;
use super::screens::Screens;
use super::stand::Face;

/// A face is asked about where it comes as near to the point of its mirror as the rim of the area that matters at this
/// frequency, Hz. Common practice, no source.
const NEAR_AT_HZ: f64 = 250.0;

/// What a bounce comes off, by number in the document.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Off {
    /// A furnishing of the room.
    Furnishing(usize),
    /// A piece of the plan.
    Piece(usize),
}

/// One bounce, before it is known what it brings.
#[derive(Clone, Debug)]
pub(super) struct Bounce {
    pub off: Off,
    pub way: Way,
    plate: Plate,
    face: Face,
}

impl Prepared {
    /// The bounces from one place to another, in the order of furnishings, then pieces.
    pub(super) fn bounces(&self, plan: &Plan, source_m: DVec3, seat_m: DVec3) -> Vec<Bounce> {
        let placed = self.building.placed.iter();
        let of_furniture = placed.flat_map(|placed| {
            let off = Off::Furnishing(placed.number);
            let hard = move |(plate, facing)| {
                (
                    off,
                    plate,
                    Face {
                        facing,
                        front: None,
                    },
                )
            };
            placed.faces().into_iter().map(hard)
        });
        let stands = self.stands(plan);
        let of_stands = stands.iter().flat_map(|stand| {
            let off = Off::Piece(stand.number);
            stand
                .sides()
                .map(|(plate, face)| (off, plate, face.clone()))
        });
        let c = self.air.speed_of_sound_m_per_s;
        of_furniture
            .chain(of_stands)
            .filter_map(|(off, plate, face)| {
                let way = plate.way(source_m, seat_m)?;
                plate.is_near(&way, reach_m(&way, c)).then_some(Bounce {
                    off,
                    way,
                    plate,
                    face,
                })
            })
            .collect()
    }
}

/// Half the axis of the area that matters to a way on its plane, across the way's trace, m.
///
/// ```text
/// √(λ r1 r2 / (r1 + r2))
/// ```
///
/// # Source
/// First Fresnel zone, see `early`.
fn reach_m(way: &Way, speed_of_sound_m_per_s: f64) -> f64 {
    let [before_m, after_m] = way.halves_m;
    let wavelength_m = speed_of_sound_m_per_s / NEAR_AT_HZ;
    (wavelength_m * before_m * after_m / (before_m + after_m)).sqrt()
}

impl Bounce {
    /// What it brings to the seat.
    ///
    /// ```text
    /// energy = D(leaving) / r² · exp(−m r) · exp(−S_obj r / 4V) · mean over the band of |R W|²,   at most that of |R|²
    /// ```
    pub fn heard(
        &self,
        room: &Room,
        source: &Source,
        direct: &Direct,
        seat_m: DVec3,
        screens: &Screens<'_>,
    ) -> Early {
        let c = room.air.speed_of_sound_m_per_s;
        let reflected = self.face.reflection(self.way.cosine);
        let mut carried = reflected.times(&self.plate.weight(&self.way, c));
        let points_m = self.points_m(source.position_m, seat_m);
        if let Some(passing) = screens.passing(&points_m, self.piece()) {
            carried = carried.times(&passing);
        }
        let (most, share) = (
            band_means(&reflected.energy()),
            band_means(&carried.energy()),
        );
        let [towards, from] = self.way.travels;
        let way = on_the_way(
            room,
            source,
            self.way.distance_m(),
            towards.dot(source.axis),
            room.furniture_hits_per_m(),
        );
        Early {
            path: ImagePath {
                hits: Vec::new(),
                distance_m: self.way.distance_m(),
                direction: -from,
                leaving: towards,
            },
            delay_s: (self.way.distance_m() - direct.distance_m) / c,
            energy: Banded::from_fn(|band| way[band] * share[band].min(most[band])),
            pressure: (0..FINE)
                .map(|i| with_way(frequency_hz::<FINE>(i), carried.at(i), &way))
                .collect(),
            under: Vec::new(),
            zone: None,
        }
    }

    /// Its path from loudspeaker to seat.
    pub fn points_m(&self, source_m: DVec3, seat_m: DVec3) -> [DVec3; 3] {
        [source_m, self.way.point_m, seat_m]
    }

    /// The piece that it comes off, if it is one.
    pub fn piece(&self) -> Option<usize> {
        match self.off {
            Off::Piece(number) => Some(number),
            Off::Furnishing(_) => None,
        }
    }

    /// The furnishing that it comes off, if it is one.
    pub fn furnishing(&self) -> Option<usize> {
        match self.off {
            Off::Furnishing(number) => Some(number),
            Off::Piece(_) => None,
        }
    }
}

fn with_way(hz: f64, carried: Complex64, way: &Banded) -> (f64, Complex64) {
    (hz, carried * way.at_hz(hz).sqrt())
}

impl Face {
    /// Reflection at its surface, what it scatters taken out; neither part falls below 0.01.
    fn reflection(&self, cosine: f64) -> Spectrum<FINE> {
        let Facing {
            absorption,
            scattering,
        } = &self.facing;
        let kept = |part: f64| (1.0 - part).max(1.0 - MOST_ABSORPTION);
        let mirrored = scattering.map(|s| kept(s).sqrt());
        match &self.front {
            Some(front) => front.reflection::<FINE>(cosine).scaled(&mirrored),
            None => Spectrum::of_bands(&absorption.map(|a| kept(a).sqrt())).scaled(&mirrored),
        }
    }
}
