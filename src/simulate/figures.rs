//! Figures of the report that are sums and means of what the physics answers.

use crate::bands::{Banded, NOMINAL_HZ};
use crate::classical;
use crate::decay::{Decay, mid_s};
use crate::report::{AbsorptionAreas, Cost, DecayReport, Series, SurfaceSeries};
use crate::room::Room;
use crate::scenario::document::Plan;
use crate::surface::Wall;

use super::detail::Detail;
use super::prepared::Prepared;
use super::stand::Stand;

/// The middle of the range starts here, Hz, or where statistics start if that is higher.
const MID_FROM_HZ: f64 = 250.0;

impl Prepared {
    /// Price, mass and area of a plan's pieces.
    pub(super) fn cost(&self, plan: &Plan) -> Cost {
        let mut cost = Cost::default();
        for kind in plan
            .pieces
            .iter()
            .filter_map(|piece| self.scenario.kind(&piece.kit))
        {
            let price = kind.price_of_one();
            cost.known += price.unwrap_or(0.0);
            cost.unpriced += usize::from(price.is_none());
            cost.mass_kg += kind.mass_kg.unwrap_or(0.0);
            cost.area_m2 += kind.width_m * kind.height_m;
        }
        cost
    }
}

/// Mean decay of the middle bands, and the frequency from which statistics hold with it.
///
/// ```text
/// f = 2000 √(T / V)
/// ```
///
/// # Source
/// Schroeder & Kuttruff, On frequency response curves in rooms, J. Acoust. Soc. Am. 34 (1962) 76–80.
pub(super) fn mid(decay: &Decay, volume_m3: f64) -> (Option<f64>, Option<f64>) {
    let from_hz = middle_from_hz(decay, volume_m3);
    let wide = || mid_s(&decay.t20_s, MID_FROM_HZ, &NOMINAL_HZ);
    let mid = mid_s(&decay.t20_s, from_hz, &NOMINAL_HZ).or_else(wide);
    (mid, mid.map(|t20_s| statistics_from_hz(t20_s, volume_m3)))
}

/// Where the middle of the range starts in this room, Hz.
pub(super) fn middle_from_hz(decay: &Decay, volume_m3: f64) -> f64 {
    let wide = mid_s(&decay.t20_s, MID_FROM_HZ, &NOMINAL_HZ);
    wide.map_or(MID_FROM_HZ, |t20_s| {
        statistics_from_hz(t20_s, volume_m3).max(MID_FROM_HZ)
    })
}

fn statistics_from_hz(t20_s: f64, volume_m3: f64) -> f64 {
    2000.0 * (t20_s / volume_m3).sqrt()
}

pub(super) fn surface_series(room: &Room) -> SurfaceSeries {
    let [left, right, front, back, floor, ceiling] = room
        .walls
        .each_ref()
        .map(|wall| Series::from(wall.mean_absorption()));
    SurfaceSeries {
        left,
        right,
        front,
        back,
        floor,
        ceiling,
    }
}

/// Equivalent absorption areas; screens that stand free count as pieces here.
pub(super) fn absorption_areas(room: &Room, stands: &[Stand]) -> AbsorptionAreas {
    let zero = Banded::constant(0.0);
    let free = stands.iter().map(Stand::absorption_m2);
    let free = free.fold(zero, |sum, area_m2| sum + area_m2);
    let (surfaces, pieces) = room
        .walls
        .iter()
        .map(Wall::absorption_areas_m2)
        .fold((zero, zero), |sum, wall| (sum.0 + wall.0, sum.1 + wall.1));
    AbsorptionAreas {
        surfaces: surfaces.into(),
        pieces: (pieces + free).into(),
        furnishings: (room.furniture_absorption_m2 + free * -1.0).into(),
        air: (room.air.attenuation_per_m * (4.0 * room.volume_m3())).into(),
    }
}

pub(super) fn decay_report(room: &Room, decay: Decay, detail: Detail) -> DecayReport {
    DecayReport {
        t20_s: (&decay.t20_s).into(),
        t30_s: (&decay.t30_s).into(),
        edt_s: (&decay.edt_s).into(),
        low_s: None,
        high_s: None,
        sabine_s: classical::sabine_s(room).into(),
        eyring_s: classical::eyring_s(room).into(),
        curve_step_s: (&decay.curve_step_s).into(),
        curve_db: detail.only_at_rest(|| decay.curve_db.into_iter().map(Series).collect()),
    }
}
