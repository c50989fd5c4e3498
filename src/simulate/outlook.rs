//! How long sound lingers in one plan's room, as a function of what its things are dealt.

use std::ops::Range;

use crate::bands::{BANDS, NOMINAL_HZ};
use crate::chance::Draw;
use crate::decay::{decay, mid_s, t20_of_bands};
use crate::room::Room;
use crate::scenario::document::Plan;

use super::deal::Deal;
use super::doubts::Doubts;
use super::figures::{mid, middle_from_hz};
use super::fit::Fit;
use super::prepared::Prepared;
use super::ranges::SEED;

/// Taken for a decay that never ends, s.
const ENDLESS_S: f64 = 60.0;

/// Half the step over which a slope is taken, standard deviations. Wide enough to bridge the kink of a spread at its middle.
const STEP: f64 = 0.5;

/// One plan's room with all that is not known about it.
#[derive(Clone, Debug)]
pub(super) struct Outlook {
    room: Room,
    doubts: Doubts,
    middle_from_hz: f64,
    /// The bands that are looked at.
    bands: Range<usize>,
    /// Below this the room rings at single notes, Hz.
    pub statistics_from_hz: f64,
}

impl Outlook {
    /// Of the bands given alone; the others are not computed.
    pub fn of(prepared: &Prepared, plan: &Plan, bands: Range<usize>) -> Self {
        let room = prepared.described_room(plan);
        let decay = decay(&room);
        let volume_m3 = room.volume_m3();
        Self {
            doubts: Doubts::of(prepared, plan, &room),
            middle_from_hz: middle_from_hz(&decay, volume_m3),
            statistics_from_hz: mid(&decay, volume_m3).1.unwrap_or(0.0),
            room,
            bands,
        }
    }

    /// Names of all that is not known.
    pub fn names(&self) -> Vec<String> {
        self.doubts.names()
    }

    /// Logarithms of T20 in s, by band; 0 in a band that is not looked at.
    pub fn ln_t20(&self, deal: &Deal) -> [f64; BANDS] {
        let factor = self.doubts.model_factor(deal);
        let room = self.doubts.drawn(&self.room, deal);
        let times_s = t20_of_bands(&room, self.bands.clone());
        let mut ln_t20 = [0.0; BANDS];
        for (ln, time_s) in ln_t20[self.bands.clone()].iter_mut().zip(times_s) {
            *ln = (factor * time_s.unwrap_or(ENDLESS_S)).ln();
        }
        ln_t20
    }

    /// How the logarithms change with each of the names, per standard deviation.
    pub fn slopes(&self, deal: &Deal, names: &[String]) -> Vec<[f64; BANDS]> {
        let slope = |name: &String| {
            let at = deal.normal(name);
            let [low, high] =
                [-STEP, STEP].map(|off| self.ln_t20(&deal.clone().holding(name, at + off)));
            std::array::from_fn(|band| (high[band] - low[band]) / (2.0 * STEP))
        };
        names.iter().map(slope).collect()
    }

    /// The middle decay in each of the draws that ranges are made of, s; infinite where sound does not decay. One thing may
    /// be held at the middle of what is known; what a check-up tied to it follows.
    pub fn mids_s(&self, draws: usize, fit: Option<&Fit>, held: Option<&str>) -> Vec<f64> {
        let middle = Deal::middle(fit.map_or(&[], Fit::means));
        let following = held
            .zip(fit)
            .map_or_else(Vec::new, |(name, fit)| fit.following(name));
        let mid_of = |number: usize| {
            let draw = Draw {
                seed: SEED,
                number: number as u64,
            };
            let mut deal = Deal::drawn(draw, fit);
            if let Some(name) = held {
                let off = middle.normal(name) - deal.normal(name);
                for (other, slope) in &following {
                    let at = deal.normal(other) + slope * off;
                    deal = deal.holding(other, at);
                }
                deal = deal.holding(name, middle.normal(name));
            }
            self.mid_s(&deal)
        };
        (0..draws).map(mid_of).collect()
    }

    fn mid_s(&self, deal: &Deal) -> f64 {
        let is_middle = |hz: &f64| (self.middle_from_hz..=4000.0).contains(hz);
        let from = NOMINAL_HZ.iter().position(is_middle).unwrap_or(BANDS);
        let end = NOMINAL_HZ
            .iter()
            .rposition(is_middle)
            .map_or(from, |last| last + 1);
        let times_s = t20_of_bands(&self.doubts.drawn(&self.room, deal), from..end);
        let mut all = [None; BANDS];
        all[from..end].copy_from_slice(&times_s);
        let mid_s = mid_s(&all, self.middle_from_hz, &NOMINAL_HZ);
        mid_s.map_or(f64::INFINITY, |mid_s| {
            mid_s * self.doubts.model_factor(deal)
        })
    }
}
