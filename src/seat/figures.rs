//! Figures of a seat: how much of the sound there is direct, early and late, and how clear it is.

use std::f64::consts::PI;
use std::sync::Arc;

use super::covered::Covered;
use super::late::LateSound;
use super::tail::{LateBand, Tail, level_per_s};
use crate::bands::{BANDS, Banded};
use crate::numeric::{energy_to_db, sort_few};

/// Until when after the direct sound a reflection counts as early, s.
pub const EARLY_S: f64 = 0.020;

/// Edges of the clarity figures after the direct sound, s.
///
/// # Source
/// ISO 3382-1:2009, Annex A.
const CLARITY_EDGES_S: [f64; 2] = [0.050, 0.080];

/// What one image brings to the seat.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Arrival {
    /// After the direct sound, s.
    pub delay_s: f64,
    /// Energy re the direct sound on axis at 1 m.
    pub energy: Banded,
}

/// Puts arrivals in the order in which they come; those that come together stay in the order given.
pub fn sort_arrivals(arrivals: &mut [Arrival]) {
    sort_few(arrivals, |a, b| a.delay_s.total_cmp(&b.delay_s));
}

/// What one loudspeaker sends to the seat apart from the late sound.
#[derive(Clone, Debug, PartialEq)]
pub struct Sound {
    /// Energy of the direct sound at the seat re on axis at 1 m; above 0.
    pub direct: Banded,
    /// Directivity factor of the loudspeaker on axis.
    pub q: Banded,
    /// The images of order 1 to 3, in any order.
    pub arrivals: Vec<Arrival>,
    /// All that comes otherwise.
    pub late: Arc<LateSound>,
}

/// What the late sound of the room follows from.
#[derive(Clone, Copy, Debug)]
pub struct Late<'a> {
    /// Geometry of the counted images.
    pub covered: &'a Covered,
    /// Every band, in order.
    pub bands: &'a [LateBand<'a>; BANDS],
    /// Speed of sound, m/s.
    pub speed_of_sound_m_per_s: f64,
}

/// Figures per band; NaN where sound does not decay at all.
#[derive(Clone, Debug, PartialEq)]
pub struct SeatFigures {
    /// Share of the energy that is direct sound.
    pub direct_share: Banded,
    /// Share that comes within [`EARLY_S`] after it.
    pub early_share: Banded,
    /// Share that comes later.
    pub late_share: Banded,
    /// Energy of the first 50 ms over the rest, dB.
    pub c50_db: Banded,
    /// Energy of the first 80 ms over the rest, dB.
    pub c80_db: Banded,
    /// Where direct and late sound would be equally strong on axis, m.
    pub critical_distance_m: Banded,
}

/// Figures of a seat: mean energy of the loudspeakers, each re its own direct sound.
///
/// ```text
/// direct + images + scattered once + 4π c / (V Q) · max(0, g(t) − g_cov(t) − g_once(t)),   t ≥ arrival of the direct sound
/// ```
///
/// # Source
/// Level of the reverberant sound as in Kuttruff, Room Acoustics, 6th ed. 2016, section 5.1; split by images as this project
/// does. C50 and C80: ISO 3382-1:2009, Annex A.
///
/// # Accuracy
/// Against an independent ray tracer: see `tests/seat.rs`.
#[must_use]
pub fn figures(late: &Late<'_>, sounds: &[Sound]) -> SeatFigures {
    let images: Vec<ImagesAfter> = sounds.iter().map(ImagesAfter::of).collect();
    let bands: [BandFigures; BANDS] =
        std::array::from_fn(|band| BandFigures::new(late, sounds, &images, band));
    let pick = |f: fn(&BandFigures) -> f64| Banded::from_fn(|band| f(&bands[band]));
    SeatFigures {
        direct_share: pick(|band| band.direct_share),
        early_share: pick(|band| band.early_share),
        late_share: pick(|band| band.late_share),
        c50_db: pick(|band| band.c50_db),
        c80_db: pick(|band| band.c80_db),
        critical_distance_m: pick(|band| band.critical_distance_m),
    }
}

/// The fields of [`SeatFigures`] for one band.
struct BandFigures {
    direct_share: f64,
    early_share: f64,
    late_share: f64,
    c50_db: f64,
    c80_db: f64,
    critical_distance_m: f64,
}

impl BandFigures {
    fn new(late: &Late<'_>, sounds: &[Sound], images: &[ImagesAfter], band: usize) -> Self {
        let tail = Tail::new(late.covered, late.bands[band], late.speed_of_sound_m_per_s);
        let level_per_s = level_per_s(late.speed_of_sound_m_per_s, late.covered.volume_m3());
        let mut after = After::default();
        for (sound, images) in sounds.iter().zip(images) {
            after.add(sound, images, band, &tail);
        }
        let count = sounds.len() as f64;
        let all = count + after.direct;
        let clarity_db = |rest: f64| energy_to_db((all - rest) / rest);
        let mean_q = sounds.iter().map(|sound| sound.q[band]).sum::<f64>() / count;
        Self {
            direct_share: defined(count / all, all),
            early_share: defined((after.direct - after.early) / all, all),
            late_share: defined(after.early / all, all),
            c50_db: defined(clarity_db(after.clarity[0]), all),
            c80_db: defined(clarity_db(after.clarity[1]), all),
            critical_distance_m: defined(
                (mean_q / (level_per_s * late.bands[band].whole_s())).sqrt(),
                all,
            ),
        }
    }
}

/// A value where the whole energy is finite, else NaN.
fn defined(value: f64, all: f64) -> f64 {
    if all.is_finite() { value } else { f64::NAN }
}

/// From these times after the direct sound on the energy is summed, s: after the direct sound itself, after the early
/// reflections, after the edges of clarity.
const EDGES_S: [f64; 4] = [0.0, EARLY_S, CLARITY_EDGES_S[0], CLARITY_EDGES_S[1]];

/// What the images of one loudspeaker bring from each of [`EDGES_S`] on; all bands at once, so that the sums run in vectors.
struct ImagesAfter([Banded; EDGES_S.len()]);

impl ImagesAfter {
    fn of(sound: &Sound) -> Self {
        let mut sums = [Banded::constant(0.0); EDGES_S.len()];
        for arrival in &sound.arrivals {
            for (sum, edge_s) in sums.iter_mut().zip(EDGES_S) {
                if arrival.delay_s >= edge_s {
                    *sum = *sum + arrival.energy;
                }
            }
        }
        Self(sums)
    }
}

/// Energy that comes after certain times, summed over the loudspeakers, each re its direct sound.
#[derive(Default)]
struct After {
    /// After the direct sound itself.
    direct: f64,
    /// After the early reflections.
    early: f64,
    /// After the edges of clarity.
    clarity: [f64; 2],
}

impl After {
    /// Adds a loudspeaker in a band with this tail.
    fn add(&mut self, sound: &Sound, images: &ImagesAfter, band: usize, tail: &Tail<'_>) {
        let after = |edge: usize| {
            let late = sound.late.after(band, tail, EDGES_S[edge]);
            (images.0[edge][band] + late) / sound.direct[band]
        };
        self.direct += after(0);
        self.early += after(1);
        for (sum, edge) in self.clarity.iter_mut().zip([2, 3]) {
            *sum += after(edge);
        }
    }
}

/// Distance at which direct sound on axis and late sound are equally strong, m.
///
/// ```text
/// r_c = √(Q A / 16π)
/// ```
///
/// [`SeatFigures::critical_distance_m`] is this with A = 4 V / (c ∫ g dt), which an exponential decay of Sabine's time has.
///
/// # Units
/// - `q`: directivity factor on axis, > 0
/// - `absorption_area_m2`: m², ≥ 0
///
/// # Source
/// Kuttruff, Room Acoustics, 6th ed. 2016, section 5.1; equal in most books.
#[must_use]
pub fn critical_distance_m(q: f64, absorption_area_m2: f64) -> f64 {
    (q * absorption_area_m2 / (16.0 * PI)).sqrt()
}
