//! Late decay, resolved by direction: the answer to how long sound lingers.
//!
//! Formulas of an even field fail where absorption sits on one or two surfaces. Here energy is followed per direction:
//! each direction loses at the walls it meets, in the air and at furniture, and scattering moves energy between directions.
//! Bent decays come out by themselves. Left out: positions of furniture, any field that is uneven in space.

use std::ops::Range;
use std::sync::OnceLock;

use crate::bands::{BANDS, Banded};
use crate::decay_curve::{CURVE_POINTS, ExponentialSum};
use crate::numeric::{exp, gauss_legendre, gauss_rule, gauss_rules};
use crate::room::Room;
use crate::surface::Wall;

/// Lanczos steps of the final pass, and of the first, which only serves the correction.
///
/// Accuracy: `tests/decay.rs` sweeps random rooms against a fine solution in time; T20 within 0.5 %.
const STEPS: usize = 14;
const FIRST_STEPS: usize = 8;

/// The same for one draw of many, whose range is far wider than what is lost: T20 within 1 %.
const DRAW_STEPS: usize = 10;
const FIRST_DRAW_STEPS: usize = 6;

/// Points over each angle of the octant.
const ANGLES: usize = 8;
const DIRECTIONS: usize = ANGLES * ANGLES;

/// Steps in time of [`Field::arriving_shares`].
const MARCH_STEPS: usize = 60;

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
/// walls (`corrected_loss`).
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
    let sums = Field::sums(&fields, FIRST_STEPS, STEPS);
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
    let sums = Field::sums(fields, FIRST_DRAW_STEPS, DRAW_STEPS);
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

/// What one axis' pair of walls does in one band.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pair {
    /// Crossings of the axis per second by sound that runs along it: c / L, 1/s.
    pub crossings_per_s: f64,
    /// Absorption of the two walls, below 1.
    pub absorption: [f64; 2],
    /// Scattering of the two walls.
    pub scattering: [f64; 2],
}

impl Pair {
    /// Log rate of the pair: loss per crossing of sound that stays in its direction.
    #[must_use]
    pub fn log_loss(&self) -> f64 {
        self.log_loss_and_scattered().0
    }

    /// ρ: scattered share per crossing.
    #[must_use]
    pub fn scattered(&self) -> f64 {
        self.log_loss_and_scattered().1
    }

    /// Both, which share their logarithms.
    fn log_loss_and_scattered(&self) -> (f64, f64) {
        let logs = self.absorption.map(|a| (-a).ln_1p());
        let one = |wall: usize| {
            let a = self.absorption[wall];
            let steep = if a < 1e-9 {
                1.0
            } else {
                (1.0 - a) * -logs[wall] / a
            };
            self.scattering[wall] * steep
        };
        (
            -0.5 * logs.iter().sum::<f64>(),
            0.5 * [0, 1].map(one).iter().sum::<f64>(),
        )
    }

    /// λ of sound that was scattered into a direction at a random phase of its crossing.
    ///
    /// ```text
    /// λ = 1 / stay(σ) − σ,   stay(σ) = (1/σ) [1 + S (1 − e)/σ],   e = exp(−σ),   r = 1 − a
    /// S = [(r1 + r2)/2 − 1 + (r1 r2 − (r1 + r2)/2) e] / (1 − r1 r2 e²) = N / M
    /// λ = −σ N (1 − e) / (σ M + N (1 − e))            the same, without the difference of near numbers
    /// ```
    ///
    /// `sigma`: net loss per crossing besides this pair's own. Limits: (a1 + a2)/2 for large σ, 0 without absorption.
    #[inline(always)]
    fn corrected_loss(mean: f64, product: f64, sigma: f64) -> f64 {
        let e = exp(-sigma);
        let numerator = (mean - 1.0 + (product - mean) * e) * (1.0 - e);
        let denominator = sigma * (1.0 - product * e * e);
        -sigma * numerator / (denominator + numerator)
    }
}

/// λ at the log rate and ρ of each pair.
struct CrossingRates {
    log_loss: [f64; 3],
    scattered: [f64; 3],
}

/// Range to which the net loss per crossing is held in [`Pair::corrected_loss`].
const SIGMA_RANGE: (f64, f64) = (0.001, 60.0);

/// The field of one band: pairs of walls, air and furniture.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Field {
    /// The pairs along x, y, z.
    pub pairs: [Pair; 3],
    /// Loss in the air, m c, 1/s.
    pub air_per_s: f64,
    /// Hits of furniture, μ, 1/s.
    pub furniture_hits_per_s: f64,
    /// Absorption of the furniture's surface.
    pub furniture_absorption: f64,
}

/// The fields of a room in all bands.
#[must_use]
pub fn fields(room: &Room) -> Vec<Field> {
    let absorption = room.walls.each_ref().map(Wall::mean_absorption);
    let scattering = room.walls.each_ref().map(Wall::mean_scattering);
    let field = |band: usize| Field::of(room, &absorption, &scattering, band);
    (0..BANDS).map(field).collect()
}

impl Field {
    /// Of a room whose walls have these means, in one band; what is on the walls of `room` is not looked at.
    #[must_use]
    pub fn of(
        room: &Room,
        absorption: &[Banded; 6],
        scattering: &[Banded; 6],
        band: usize,
    ) -> Self {
        let c = room.air.speed_of_sound_m_per_s;
        let surface_m2 = room.furniture_surface_m2;
        let pair = |axis: usize| {
            let walls = [2 * axis, 2 * axis + 1];
            Pair {
                crossings_per_s: c / room.size_m[axis],
                absorption: walls.map(|wall| absorption[wall][band]),
                scattering: walls.map(|wall| scattering[wall][band]),
            }
        };
        Self {
            pairs: [0, 1, 2].map(pair),
            air_per_s: room.air.attenuation_per_m[band] * c,
            furniture_hits_per_s: c * room.furniture_hits_per_m(),
            furniture_absorption: if surface_m2 > 0.0 {
                (room.furniture_absorption_m2[band] / surface_m2).clamp(0.0, 1.0)
            } else {
                0.0
            },
        }
    }

    /// T20 in s and the decay, as one draw of many has them; none where the sound does not decay.
    #[must_use]
    pub fn t20_and_sum(&self) -> Option<(f64, ExponentialSum)> {
        t20_and_sums_of(std::slice::from_ref(self)).pop()?
    }

    /// Of each field T20 of a first pass, s, and the decay after the correction; none where the sound does not decay.
    fn sums(
        fields: &[Self],
        first_steps: usize,
        steps: usize,
    ) -> Vec<Option<(f64, ExponentialSum)>> {
        let groups = fields.chunks(LANES);
        groups
            .flat_map(|group| Self::sums_of_group(group, first_steps, steps))
            .collect()
    }

    /// [`Self::sums`] of up to [`LANES`] fields.
    fn sums_of_group(
        group: &[Self],
        first_steps: usize,
        steps: usize,
    ) -> Vec<Option<(f64, ExponentialSum)>> {
        let prepared = group.iter().map(|field| {
            let rates = field.crossing_rates();
            let log_rate = field.log_rate_damping(&rates);
            (field, rates, log_rate)
        });
        let prepared: Vec<_> = prepared.collect();
        let first = prepared
            .iter()
            .map(|(field, rates, log_rate)| field.tridiagonal(log_rate, rates, first_steps));
        let first_t20_s: Vec<Option<f64>> = decays(&first.collect::<Vec<_>>())
            .iter()
            .map(|sum| sum.time_s(-5.0, -25.0))
            .collect();
        let second = prepared
            .iter()
            .zip(&first_t20_s)
            .map(|((field, rates, log_rate), t20_s)| {
                let damping =
                    |t20_s: f64| field.corrected_damping(rates, log_rate, DECAY_60_DB / t20_s);
                t20_s.map_or_else(Tridiagonal::default, |t20_s| {
                    field.tridiagonal(&damping(t20_s), rates, steps)
                })
            });
        let sums = decays(&second.collect::<Vec<_>>());
        first_t20_s
            .into_iter()
            .zip(sums)
            .map(|(t20_s, sum)| Some((t20_s?, (!sum.lingers()).then_some(sum)?)))
            .collect()
    }

    /// Which pair of walls the sound still meets after a time, as shares of all energy that arrives at walls.
    ///
    /// Marches the equations of [`decay`] with exponential steps; in a decay that is even in direction the shares are those
    /// of the areas.
    #[must_use]
    pub fn arriving_shares(&self, time_s: f64) -> [f64; 3] {
        let grid = directions();
        let rates = self.crossing_rates();
        let step_s = time_s / MARCH_STEPS as f64;
        let damping = self.log_rate_damping(&rates);
        let kept = damping.map(|rate| exp(-rate * step_s));
        let gained: [f64; DIRECTIONS] = std::array::from_fn(|d| (1.0 - kept[d]) / damping[d]);
        let back = self.furniture_hits_per_s * (1.0 - self.furniture_absorption);
        let mut field = grid.root_weight;
        for _ in 0..MARCH_STEPS {
            let coupling = grid.scattered(self.gains(&rates), back, &field);
            field = std::array::from_fn(|d| field[d] * kept[d] + coupling[d] * gained[d]);
        }
        let arriving = [0, 1, 2]
            .map(|axis| self.pairs[axis].crossings_per_s * dot(&grid.weighted[axis], &field));
        let all: f64 = arriving.iter().sum();
        arriving.map(|share| share / all)
    }

    /// What scattering at each pair sends on, per unit of what runs along it, in the weighted form of [`Field::solve`].
    fn gains(&self, rates: &CrossingRates) -> [f64; 3] {
        let mean = directions().mean;
        [0, 1, 2].map(|axis| self.pairs[axis].crossings_per_s * rates.scattered[axis] / mean[axis])
    }

    /// Decay at the plain log rate, the first pass.
    #[must_use]
    pub fn log_rate_decay(&self, steps: usize) -> ExponentialSum {
        let rates = self.crossing_rates();
        self.solve(&self.log_rate_damping(&rates), &rates, steps)
    }

    /// Decay with the loss corrected for the overall rate `rate_per_s` of a pass before.
    #[must_use]
    pub fn corrected_decay(&self, rate_per_s: f64, steps: usize) -> ExponentialSum {
        let rates = self.crossing_rates();
        let log_rate = self.log_rate_damping(&rates);
        let damping = self.corrected_damping(&rates, &log_rate, rate_per_s);
        self.solve(&damping, &rates, steps)
    }

    /// D of every direction with the loss corrected for the overall rate, 1/s, from that at the log rate.
    fn corrected_damping(
        &self,
        rates: &CrossingRates,
        log_rate: &[f64; DIRECTIONS],
        rate_per_s: f64,
    ) -> [f64; DIRECTIONS] {
        let grid = directions();
        let mut damping = [self.loss_between_walls_per_s(); DIRECTIONS];
        for (axis, pair) in self.pairs.iter().enumerate() {
            let [r1, r2] = pair.absorption.map(|a| 1.0 - a);
            let (mean, product) = (0.5 * (r1 + r2), r1 * r2);
            let (log_loss, scattered) = (rates.log_loss[axis], rates.scattered[axis]);
            for d in 0..DIRECTIONS {
                let crossings = pair.crossings_per_s * grid.along[axis][d];
                let others = log_rate[d] - crossings * (log_loss + scattered) - rate_per_s;
                let sigma = (others / crossings).clamp(SIGMA_RANGE.0, SIGMA_RANGE.1);
                damping[d] += crossings * (Pair::corrected_loss(mean, product, sigma) + scattered);
            }
        }
        damping
    }

    /// What each pair does per crossing at the log rate.
    fn crossing_rates(&self) -> CrossingRates {
        let rates = self.pairs.map(|pair| pair.log_loss_and_scattered());
        CrossingRates {
            log_loss: rates.map(|(log_loss, _)| log_loss),
            scattered: rates.map(|(_, scattered)| scattered),
        }
    }

    /// Loss in the air and hits of furniture, 1/s.
    fn loss_between_walls_per_s(&self) -> f64 {
        self.air_per_s + self.furniture_hits_per_s
    }

    /// D of every direction at the log rate, 1/s.
    fn log_rate_damping(&self, rates: &CrossingRates) -> [f64; DIRECTIONS] {
        let along = &directions().along;
        let [x, y, z] = [0, 1, 2].map(|axis| {
            self.pairs[axis].crossings_per_s * (rates.log_loss[axis] + rates.scattered[axis])
        });
        let between = self.loss_between_walls_per_s();
        std::array::from_fn(|d| between + x * along[0][d] + y * along[1][d] + z * along[2][d])
    }

    /// Solves the coupled directions for g(t) as a sum of exponentials.
    ///
    /// With each direction weighted by the root of its solid angle the system is symmetric: damping on the diagonal less four
    /// terms of rank one. Lanczos' process from the even field makes the Gauss quadrature of its spectrum, whose nodes are
    /// the decay rates and whose weights their shares of g.
    ///
    /// # Source
    /// Golub & Meurant, Matrices, Moments and Quadrature with Applications, 2010, chapters 4 and 6.
    fn solve(
        &self,
        damping: &[f64; DIRECTIONS],
        rates: &CrossingRates,
        steps: usize,
    ) -> ExponentialSum {
        self.tridiagonal(damping, rates, steps).decay()
    }

    /// What Lanczos' process makes of the coupled directions.
    fn tridiagonal(
        &self,
        damping: &[f64; DIRECTIONS],
        rates: &CrossingRates,
        steps: usize,
    ) -> Tridiagonal {
        let grid = directions();
        let gain = self.gains(rates);
        let back = self.furniture_hits_per_s * (1.0 - self.furniture_absorption);
        let mut diagonal = Vec::with_capacity(steps);
        let mut beside = Vec::with_capacity(steps);
        let (mut before, mut vector, mut coupling) = ([0.0; DIRECTIONS], grid.root_weight, 0.0);
        loop {
            let mut next = grid.apply(damping, gain, back, &vector);
            let rate = dot(&next, &vector);
            diagonal.push(rate);
            if diagonal.len() == steps {
                break;
            }
            for d in 0..DIRECTIONS {
                next[d] -= rate * vector[d] + coupling * before[d];
            }
            coupling = dot(&next, &next).sqrt();
            if coupling <= 1e-9 * diagonal[0] {
                break;
            }
            beside.push(coupling);
            before = vector;
            vector = next.map(|x| x / coupling);
        }
        Tridiagonal { diagonal, beside }
    }
}

/// Bands whose decays are computed side by side.
const LANES: usize = 4;

/// A symmetric tridiagonal matrix.
#[derive(Default)]
struct Tridiagonal {
    diagonal: Vec<f64>,
    beside: Vec<f64>,
}

impl Tridiagonal {
    fn decay(&self) -> ExponentialSum {
        ExponentialSum {
            terms: gauss_rule(&self.diagonal, &self.beside, 1.0),
        }
    }
}

/// The decays that belong to up to [`LANES`] matrices.
fn decays(matrices: &[Tridiagonal]) -> Vec<ExponentialSum> {
    if let [matrix] = matrices {
        return vec![matrix.decay()];
    }
    let nothing = Tridiagonal::default();
    let rules = gauss_rules::<LANES>(
        std::array::from_fn(|lane| {
            let matrix = matrices.get(lane).unwrap_or(&nothing);
            (&matrix.diagonal[..], &matrix.beside[..])
        }),
        1.0,
    );
    let sums = rules.into_iter().map(|terms| ExponentialSum { terms });
    sums.take(matrices.len()).collect()
}

/// Inner product, in eight sums side by side: one running sum would wait for itself at every step.
fn dot(a: &[f64; DIRECTIONS], b: &[f64; DIRECTIONS]) -> f64 {
    let mut sums = [0.0; 8];
    for (x, y) in a.chunks_exact(8).zip(b.chunks_exact(8)) {
        for (lane, sum) in sums.iter_mut().enumerate() {
            *sum += x[lane] * y[lane];
        }
    }
    sums.iter().sum()
}

/// Gauss points over one octant of directions.
struct Directions {
    /// |Ω_i| of each direction, per axis.
    along: [[f64; DIRECTIONS]; 3],
    /// Root of the share of the octant that each stands for.
    root_weight: [f64; DIRECTIONS],
    /// `root_weight` times |Ω_i|, per axis.
    weighted: [[f64; DIRECTIONS]; 3],
    /// Mean of |Ω_i| over the points, ½ but for the quadrature's error: with it nothing is lost in scattering.
    mean: [f64; 3],
}

/// The points: Gauss over cos θ and over φ, each crowded towards its ends by 3x² − 2x³, since the slowest directions run
/// along walls and axes.
fn directions() -> &'static Directions {
    static GRID: OnceLock<Directions> = OnceLock::new();
    GRID.get_or_init(|| {
        let crowded: Vec<(f64, f64)> = gauss_legendre(ANGLES)
            .into_iter()
            .map(|(x, w)| (x * x * (3.0 - 2.0 * x), w * 6.0 * x * (1.0 - x)))
            .collect();
        let total: f64 = crowded.iter().map(|(_, w)| w).sum::<f64>().powi(2);
        let mut along = [[0.0; DIRECTIONS]; 3];
        let mut root_weight = [0.0; DIRECTIONS];
        for (i, (cosine, cosine_weight)) in crowded.iter().enumerate() {
            for (j, (turn, turn_weight)) in crowded.iter().enumerate() {
                let (sin_phi, cos_phi) = (turn * std::f64::consts::FRAC_PI_2).sin_cos();
                let sine = (1.0 - cosine * cosine).sqrt();
                for (axis, part) in [sine * cos_phi, sine * sin_phi, *cosine]
                    .into_iter()
                    .enumerate()
                {
                    along[axis][i * ANGLES + j] = part;
                }
                root_weight[i * ANGLES + j] = (cosine_weight * turn_weight / total).sqrt();
            }
        }
        let weighted =
            [0, 1, 2].map(|axis| std::array::from_fn(|d| root_weight[d] * along[axis][d]));
        let mean = [0, 1, 2].map(|axis| dot(&weighted[axis], &root_weight));
        Directions {
            along,
            root_weight,
            weighted,
            mean,
        }
    })
}

impl Directions {
    /// Rate of loss of a field given per direction, in the weighted form of [`Field::solve`].
    fn apply(
        &self,
        damping: &[f64; DIRECTIONS],
        gain: [f64; 3],
        back: f64,
        field: &[f64; DIRECTIONS],
    ) -> [f64; DIRECTIONS] {
        let coupling = self.scattered(gain, back, field);
        std::array::from_fn(|d| damping[d] * field[d] - coupling[d])
    }

    /// What scattering at walls and furniture adds to every direction per second.
    fn scattered(&self, gain: [f64; 3], back: f64, field: &[f64; DIRECTIONS]) -> [f64; DIRECTIONS] {
        let [x, y, z] = [0, 1, 2].map(|axis| gain[axis] * dot(&self.weighted[axis], field));
        let even = back * dot(&self.root_weight, field);
        let [wx, wy, wz] = &self.weighted;
        std::array::from_fn(|d| x * wx[d] + y * wy[d] + z * wz[d] + even * self.root_weight[d])
    }
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
