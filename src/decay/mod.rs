//! Late decay, resolved by direction: the answer to how long sound lingers.
//!
//! Formulas of an even field fail where absorption sits on one or two surfaces. Here energy is followed per direction:
//! each direction loses at the walls it meets, in the air and at furniture, and scattering moves energy between directions.
//! Bent decays come out by themselves. Left out: positions of furniture, any field that is uneven in space.

mod directions;
mod field;
mod lanes;

use std::ops::Range;

use wide::f64x4;

use crate::bands::BANDS;
use crate::decay_curve::{CURVE_POINTS, ExponentialSum};
use crate::gauss::LANES;
use crate::room::Room;

pub use field::{Field, Pair, fields};
use lanes::Lanes;

/// Lanczos steps of the final pass, and of the first, which only serves the correction.
///
/// Accuracy: `tests/decay.rs` sweeps random rooms against a fine solution in time; T20 within 0.5 %.
const STEPS: usize = 14;
const FIRST_STEPS: usize = 8;

/// The same for one draw of many, whose range is far wider than what is lost: T20 within 1 %.
const DRAW_STEPS: usize = 10;
const FIRST_DRAW_STEPS: usize = 6;

/// Decay time of a rate: 60 dB of energy.
///
/// ```text
/// T = 6 ln(10) / rate
/// ```
pub const DECAY_60_DB: f64 = 13.815_510_557_964_274;

/// The decay of all bands. A time is `None` where the sound does not decay.
#[derive(Clone, Debug, PartialEq)]
pub struct Decay {
    /// From −5 to −25 dB, s.
    pub t20_s: [Option<f64>; BANDS],
    /// From −5 to −35 dB, s.
    pub t30_s: [Option<f64>; BANDS],
    /// From 0 to −10 dB, s.
    pub edt_s: [Option<f64>; BANDS],
    /// Time between points of the curve, s.
    pub curve_step_s: [Option<f64>; BANDS],
    /// Integrated decay curve, dB, 0 at the start.
    pub curve_db: Vec<Vec<f64>>,
    /// The decay g(t) itself as a sum of exponentials; one of rate 0 where the sound does not decay.
    pub sums: Vec<ExponentialSum>,
    /// What it was computed from.
    pub fields: Vec<Field>,
}

/// Late decay of a room in every band.
///
/// ```text
/// dE/dt = −D E + Σ_i 2 |Ω_i| <q_i E> + <q_obj E>,     g(t) = <E>,   E(0) = 1,   i = x, y, z
/// ν_i = c |Ω_i| / L_i,   D = m c + μ + Σ_i ν_i (λ_i + ρ_i),   q_i = ν_i ρ_i,   q_obj = μ (1 − a_obj)
/// ρ_i = ½ Σ s (1 − a)(−ln(1 − a)) / a over the pair of walls,   μ = c S_obj / (4 V)
/// ```
///
/// λ starts as the logarithmic rate of the pair and is corrected once for the phase at which scattered energy meets the
/// walls (`lanes::corrected_loss`).
///
/// # Source
/// Energy balance of this project over directions of a box; the pieces are Kuttruff, Room Acoustics, 6th ed. 2016,
/// chapters 4 and 5 (log rate, mean free path), Cauchy's cross-section for furniture. Readings as ISO 3382-1:2009.
///
/// # Accuracy
/// Against an independent ray tracer: see `tests/decay.rs`.
#[must_use]
pub fn decay(room: &Room) -> Decay {
    let fields = fields(room);
    let sums = sums(&fields, FIRST_STEPS, STEPS);
    let bands: Vec<BandDecay> = sums.into_iter().map(BandDecay::of).collect();
    let pick = |f: fn(&BandDecay) -> Option<f64>| std::array::from_fn(|band| f(&bands[band]));
    let [t20_s, t30_s, edt_s, curve_step_s] = [
        |band: &BandDecay| band.t20_s,
        |band: &BandDecay| band.t30_s,
        |band: &BandDecay| band.edt_s,
        |band: &BandDecay| band.curve_step_s,
    ]
    .map(pick);
    let (curve_db, sums) = bands
        .into_iter()
        .map(|band| (band.curve_db, ExponentialSum { terms: band.terms }))
        .unzip();
    Decay {
        t20_s,
        t30_s,
        edt_s,
        curve_step_s,
        curve_db,
        sums,
        fields,
    }
}

/// The decay of every band alone, without curves and with one reading, T20 in s: what a draw of many needs.
#[must_use]
pub fn t20_and_sums(room: &Room) -> Vec<Option<(f64, ExponentialSum)>> {
    t20_and_sums_of(&fields(room))
}

/// As [`t20_and_sums`], of the fields of every band.
#[must_use]
pub fn t20_and_sums_of(fields: &[Field]) -> Vec<Option<(f64, ExponentialSum)>> {
    let read = |(_, sum): (f64, ExponentialSum)| Some((sum.time_s(-5.0, -25.0)?, sum));
    let sums = sums(fields, FIRST_DRAW_STEPS, DRAW_STEPS);
    sums.into_iter().map(|sum| read(sum?)).collect()
}

/// The decay of some bands alone, T20 in s, as [`t20_and_sums`] reads it.
#[must_use]
pub fn t20_of_bands(room: &Room, bands: Range<usize>) -> Vec<Option<f64>> {
    let read = |drawn: Option<(f64, ExponentialSum)>| drawn.map(|(time_s, _)| time_s);
    let drawn = t20_and_sums_of(&fields(room)[bands]);
    drawn.into_iter().map(read).collect()
}

/// Readings of one band, as [`Decay`].
struct BandDecay {
    t20_s: Option<f64>,
    t30_s: Option<f64>,
    edt_s: Option<f64>,
    curve_step_s: Option<f64>,
    curve_db: Vec<f64>,
    terms: Vec<(f64, f64)>,
}

impl BandDecay {
    /// Of the T20 of a first pass, s, and the decay after the correction.
    fn of(sum: Option<(f64, ExponentialSum)>) -> Self {
        let read = || {
            let (first_t20_s, sum) = sum?;
            let step_s = first_t20_s / (CURVE_POINTS - 1) as f64;
            let curve = sum.curve(step_s, -35.0, CURVE_POINTS)?;
            Some(Self {
                t20_s: Some(curve.time_s(-5.0, -25.0)),
                t30_s: Some(curve.time_s(-5.0, -35.0)),
                edt_s: Some(curve.time_s(0.0, -10.0)),
                curve_step_s: Some(step_s),
                curve_db: curve.levels_db(CURVE_POINTS),
                terms: sum.terms,
            })
        };
        read().unwrap_or_else(Self::endless)
    }

    /// Of a field that does not decay: the curve stays at the top.
    fn endless() -> Self {
        Self {
            t20_s: None,
            t30_s: None,
            edt_s: None,
            curve_step_s: None,
            curve_db: vec![0.0; CURVE_POINTS],
            terms: vec![(0.0, 1.0)],
        }
    }
}

impl Field {
    /// Decay at the plain log rate, the first pass.
    #[must_use]
    pub fn log_rate_decay(&self, steps: usize) -> ExponentialSum {
        let lanes = Lanes::of(std::slice::from_ref(self));
        let [sum, ..] = lanes.decays(&lanes.log_rate_damping(), steps);
        sum
    }

    /// Decay with the loss corrected for the overall rate `rate_per_s` of a pass before.
    #[must_use]
    pub fn corrected_decay(&self, rate_per_s: f64, steps: usize) -> ExponentialSum {
        let lanes = Lanes::of(std::slice::from_ref(self));
        let damping = lanes.corrected_damping(&lanes.log_rate_damping(), f64x4::splat(rate_per_s));
        let [sum, ..] = lanes.decays(&damping, steps);
        sum
    }
}

/// Of each field T20 of a first pass, s, and the decay after the correction; none where the sound does not decay.
fn sums(fields: &[Field], first_steps: usize, steps: usize) -> Vec<Option<(f64, ExponentialSum)>> {
    let groups = fields.chunks(LANES);
    groups
        .flat_map(|group| {
            sums_of_group(group, first_steps, steps)
                .into_iter()
                .take(group.len())
        })
        .collect()
}

/// [`sums`] of up to [`LANES`] fields.
fn sums_of_group(
    group: &[Field],
    first_steps: usize,
    steps: usize,
) -> [Option<(f64, ExponentialSum)>; LANES] {
    let lanes = Lanes::of(group);
    let log_rate = lanes.log_rate_damping();
    let first = lanes.decays(&log_rate, first_steps);
    let first_t20_s = first.map(|sum| sum.time_s(-5.0, -25.0));
    // A lane that does not decay computes along at any rate.
    let rates_per_s = first_t20_s.map(|t20_s| DECAY_60_DB / t20_s.unwrap_or(1.0));
    let damping = lanes.corrected_damping(&log_rate, f64x4::new(rates_per_s));
    let mut t20_s = first_t20_s.into_iter();
    lanes
        .decays(&damping, steps)
        .map(|sum| Some((t20_s.next()??, (!sum.lingers()).then_some(sum)?)))
}

/// Mean of a band series over the bands from `from_hz` to 4 kHz, s; none if one of them does not decay.
#[must_use]
pub fn mid_s(t20_s: &[Option<f64>; BANDS], from_hz: f64, centres_hz: &[f64; BANDS]) -> Option<f64> {
    let mut sum = 0.0;
    let mut count = 0.0;
    for (time, centre) in t20_s.iter().zip(centres_hz) {
        if (from_hz..=4000.0).contains(centre) {
            sum += (*time)?;
            count += 1.0;
        }
    }
    (count > 0.0).then(|| sum / count)
}
