//! Late decay, resolved by direction: the answer to how long sound lingers.
//!
//! Formulas of an even field fail where absorption sits on one or two surfaces. Here energy is followed per direction:
//! each direction loses at the walls it meets, in the air and at furniture, and scattering moves energy between directions.
//! Bent decays come out by themselves. Left out: positions of furniture, any field that is uneven in space.

use std::sync::OnceLock;

use crate::bands::BANDS;
use crate::numeric::{energy_to_db, fitted_slope, gauss_legendre, gauss_rule};
use crate::room::Room;
use crate::surface::Wall;

/// Points of the curve that a report carries.
const CURVE_POINTS: usize = 49;

/// Level that the last point of the curve has about reached, dB.
const CURVE_FLOOR_DB: f64 = -60.0;

/// Lanczos steps of the final pass, and of the first, which only serves the correction.
///
/// Accuracy: `tests/decay.rs` sweeps random rooms against a fine solution in time; T20 within 0.5 %.
const STEPS: usize = 14;
const FIRST_STEPS: usize = 8;

/// Points over each angle of the octant.
const ANGLES: usize = 8;
const DIRECTIONS: usize = ANGLES * ANGLES;

/// Decay rates below this never show in any room, 1/s; a field that has one does not decay.
const NO_DECAY_PER_S: f64 = 1e-7;

/// Decay time of a rate: 60 dB of energy.
///
/// ```text
/// T = 6 ln(10) / rate
/// ```
const DECAY_60_DB: f64 = 13.815_510_557_964_274;

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
    let bands: Vec<BandDecay> = fields(room).iter().map(Field::decay).collect();
    let pick = |f: fn(&BandDecay) -> Option<f64>| std::array::from_fn(|band| f(&bands[band]));
    Decay {
        t20_s: pick(|band| band.t20_s),
        t30_s: pick(|band| band.t30_s),
        edt_s: pick(|band| band.edt_s),
        curve_step_s: pick(|band| band.curve_step_s),
        curve_db: bands.into_iter().map(|band| band.curve_db).collect(),
    }
}

/// Readings of one band, as [`Decay`].
struct BandDecay {
    t20_s: Option<f64>,
    t30_s: Option<f64>,
    edt_s: Option<f64>,
    curve_step_s: Option<f64>,
    curve_db: Vec<f64>,
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
    fn log_loss(&self) -> f64 {
        -0.5 * self.absorption.iter().map(|a| (-a).ln_1p()).sum::<f64>()
    }

    /// ρ: scattered share per crossing.
    fn scattered(&self) -> f64 {
        let one = |(a, s): (&f64, &f64)| {
            let steep = if *a < 1e-9 {
                1.0
            } else {
                (1.0 - a) * -(-a).ln_1p() / a
            };
            s * steep
        };
        0.5 * self
            .absorption
            .iter()
            .zip(&self.scattering)
            .map(one)
            .sum::<f64>()
    }

    /// λ of sound that was scattered into a direction at a random phase of its crossing.
    ///
    /// ```text
    /// λ = 1 / stay(σ) − σ,   stay(σ) = (1/σ) [1 + S (1 − e)/σ],   e = exp(−σ),   r = 1 − a
    /// S = [(r1 + r2)/2 − 1 + (r1 r2 − (r1 + r2)/2) e] / (1 − r1 r2 e²)
    /// ```
    ///
    /// `sigma`: net loss per crossing besides this pair's own. Limits: (a1 + a2)/2 for large σ, 0 without absorption.
    fn corrected_loss(&self, sigma: f64) -> f64 {
        let [r1, r2] = self.absorption.map(|a| 1.0 - a);
        let e = (-sigma).exp();
        let mean = 0.5 * (r1 + r2);
        let s = (mean - 1.0 + (r1 * r2 - mean) * e) / (1.0 - r1 * r2 * e * e);
        let stay = (1.0 + s * (1.0 - e) / sigma) / sigma;
        1.0 / stay - sigma
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
    let c = room.air.speed_of_sound_m_per_s;
    let absorption = room.walls.each_ref().map(Wall::mean_absorption);
    let scattering = room.walls.each_ref().map(Wall::mean_scattering);
    let surface_m2 = room.furniture_surface_m2;
    let pair = |axis: usize, band: usize| {
        let walls = [2 * axis, 2 * axis + 1];
        Pair {
            crossings_per_s: c / room.size_m[axis],
            absorption: walls.map(|wall| absorption[wall][band]),
            scattering: walls.map(|wall| scattering[wall][band]),
        }
    };
    let field = |band: usize| Field {
        pairs: [0, 1, 2].map(|axis| pair(axis, band)),
        air_per_s: room.air.attenuation_per_m[band] * c,
        furniture_hits_per_s: c * room.furniture_hits_per_m(),
        furniture_absorption: if surface_m2 > 0.0 {
            (room.furniture_absorption_m2[band] / surface_m2).clamp(0.0, 1.0)
        } else {
            0.0
        },
    };
    (0..BANDS).map(field).collect()
}

impl Field {
    /// All readings, after one correction of the loss.
    fn decay(&self) -> BandDecay {
        let Some(first_t20_s) = self.log_rate_decay(FIRST_STEPS).time_s(-5.0, -25.0) else {
            return BandDecay {
                t20_s: None,
                t30_s: None,
                edt_s: None,
                curve_step_s: None,
                curve_db: vec![0.0; CURVE_POINTS],
            };
        };
        let sum = self.corrected_decay(DECAY_60_DB / first_t20_s, STEPS);
        let [t20_s, t30_s, edt_s] = sum.readings_s();
        let step_s = t20_s.map(|t| t * -CURVE_FLOOR_DB / 60.0 / (CURVE_POINTS - 1) as f64);
        BandDecay {
            t20_s,
            t30_s,
            edt_s,
            curve_step_s: step_s,
            curve_db: step_s.map_or_else(
                || vec![0.0; CURVE_POINTS],
                |step| sum.curve_db(0.0, step, CURVE_POINTS),
            ),
        }
    }

    /// Decay at the plain log rate, the first pass.
    #[must_use]
    pub fn log_rate_decay(&self, steps: usize) -> ExponentialSum {
        let rates = self.crossing_rates();
        let damping = directions()
            .map_damping(|direction| self.damping_per_s(direction, &rates, rates.log_loss));
        self.solve(&damping, &rates, steps)
    }

    /// Decay with the loss corrected for the overall rate `rate_per_s` of a pass before.
    #[must_use]
    pub fn corrected_decay(&self, rate_per_s: f64, steps: usize) -> ExponentialSum {
        let rates = self.crossing_rates();
        let damping = directions().map_damping(|direction| {
            self.damping_per_s(
                direction,
                &rates,
                self.corrected_losses(direction, &rates, rate_per_s),
            )
        });
        self.solve(&damping, &rates, steps)
    }

    /// What each pair does per crossing at the log rate.
    fn crossing_rates(&self) -> CrossingRates {
        CrossingRates {
            log_loss: self.pairs.map(|pair| pair.log_loss()),
            scattered: self.pairs.map(|pair| pair.scattered()),
        }
    }

    /// λ of each pair for one direction.
    fn corrected_losses(
        &self,
        direction: &[f64; 3],
        rates: &CrossingRates,
        rate_per_s: f64,
    ) -> [f64; 3] {
        let all = self.damping_per_s(direction, rates, rates.log_loss);
        [0, 1, 2].map(|axis| {
            let pair = &self.pairs[axis];
            let crossings = pair.crossings_per_s * direction[axis];
            let others =
                all - crossings * (rates.log_loss[axis] + rates.scattered[axis]) - rate_per_s;
            pair.corrected_loss((others / crossings).clamp(SIGMA_RANGE.0, SIGMA_RANGE.1))
        })
    }

    /// D of one direction, 1/s.
    fn damping_per_s(&self, direction: &[f64; 3], rates: &CrossingRates, losses: [f64; 3]) -> f64 {
        let wall = |axis: usize| {
            self.pairs[axis].crossings_per_s
                * direction[axis]
                * (losses[axis] + rates.scattered[axis])
        };
        self.air_per_s + self.furniture_hits_per_s + wall(0) + wall(1) + wall(2)
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
        let grid = directions();
        let gain = [0, 1, 2]
            .map(|axis| self.pairs[axis].crossings_per_s * rates.scattered[axis] / grid.mean[axis]);
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
        ExponentialSum {
            terms: gauss_rule(&diagonal, &beside, 1.0),
        }
    }
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
    /// |Ω| of each direction.
    unit: [[f64; 3]; DIRECTIONS],
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
        let mut unit = [[0.0; 3]; DIRECTIONS];
        let mut root_weight = [0.0; DIRECTIONS];
        for (i, (cosine, cosine_weight)) in crowded.iter().enumerate() {
            for (j, (turn, turn_weight)) in crowded.iter().enumerate() {
                let (sin_phi, cos_phi) = (turn * std::f64::consts::FRAC_PI_2).sin_cos();
                let sine = (1.0 - cosine * cosine).sqrt();
                unit[i * ANGLES + j] = [sine * cos_phi, sine * sin_phi, *cosine];
                root_weight[i * ANGLES + j] = (cosine_weight * turn_weight / total).sqrt();
            }
        }
        let weighted =
            [0, 1, 2].map(|axis| std::array::from_fn(|d| root_weight[d] * unit[d][axis]));
        let mean = [0, 1, 2].map(|axis| dot(&weighted[axis], &root_weight));
        Directions {
            unit,
            root_weight,
            weighted,
            mean,
        }
    })
}

impl Directions {
    /// The damping of every direction.
    fn map_damping(&self, damping: impl Fn(&[f64; 3]) -> f64) -> [f64; DIRECTIONS] {
        std::array::from_fn(|d| damping(&self.unit[d]))
    }

    /// Rate of loss of a field given per direction, in the weighted form of [`Field::solve`].
    fn apply(
        &self,
        damping: &[f64; DIRECTIONS],
        gain: [f64; 3],
        back: f64,
        field: &[f64; DIRECTIONS],
    ) -> [f64; DIRECTIONS] {
        let [x, y, z] = [0, 1, 2].map(|axis| gain[axis] * dot(&self.weighted[axis], field));
        let even = back * dot(&self.root_weight, field);
        let [wx, wy, wz] = &self.weighted;
        std::array::from_fn(|d| {
            damping[d] * field[d] - x * wx[d] - y * wy[d] - z * wz[d] - even * self.root_weight[d]
        })
    }
}

/// A decay as a sum of exponentials: pairs of rate in 1/s and share of the energy at the start.
#[derive(Clone, Debug, PartialEq)]
pub struct ExponentialSum {
    /// (rate, share).
    pub terms: Vec<(f64, f64)>,
}

impl ExponentialSum {
    /// Energy at a time re the start.
    #[must_use]
    pub fn energy(&self, time_s: f64) -> f64 {
        self.terms
            .iter()
            .map(|(rate, share)| share * (-rate * time_s).exp())
            .sum()
    }

    /// Whether some of the energy never decays.
    fn lingers(&self) -> bool {
        self.terms
            .iter()
            .any(|(rate, share)| *rate < NO_DECAY_PER_S && *share > 1e-12)
    }

    /// The backward-integrated decay.
    ///
    /// ```text
    /// ∫_t^∞ g = Σ (share / rate) exp(−rate t)
    /// ```
    ///
    /// # Source
    /// Schroeder, New method of measuring reverberation time, J. Acoust. Soc. Am. 37 (1965) 409–412.
    fn integrated(&self) -> Self {
        Self {
            terms: self
                .terms
                .iter()
                .map(|(rate, share)| (*rate, share / rate))
                .collect(),
        }
    }

    /// Decay time read from a window of the integrated curve, s; none if the sound does not decay.
    ///
    /// # Source
    /// ISO 3382-1:2009, 3.4 and 3.6: straight line of least squares through the window, carried to 60 dB.
    #[must_use]
    pub fn time_s(&self, from_db: f64, to_db: f64) -> Option<f64> {
        if self.lingers() {
            return None;
        }
        let integrated = self.integrated();
        let start_s = integrated.time_of_level(from_db, 0.0);
        let end_s = integrated.time_of_level(to_db, start_s);
        Some(integrated.fitted_time_s(start_s, end_s))
    }

    /// T20, T30 and EDT, whose windows share their edges, s.
    fn readings_s(&self) -> [Option<f64>; 3] {
        if self.lingers() {
            return [None; 3];
        }
        let integrated = self.integrated();
        let mut time_s = 0.0;
        let [at_5, at_10, at_25, at_35] = [-5.0, -10.0, -25.0, -35.0].map(|level_db| {
            time_s = integrated.time_of_level(level_db, time_s);
            time_s
        });
        [(at_5, at_25), (at_5, at_35), (0.0, at_10)]
            .map(|(start_s, end_s)| Some(integrated.fitted_time_s(start_s, end_s)))
    }

    /// Decay time of the straight line that fits an integrated curve between two times, s.
    fn fitted_time_s(&self, start_s: f64, end_s: f64) -> f64 {
        let step_s = (end_s - start_s) / (FIT_POINTS - 1) as f64;
        -60.0 / fitted_slope(&self.levels_db(start_s, step_s, FIT_POINTS), step_s)
    }

    /// Integrated curve from a time on, dB re its start.
    #[must_use]
    pub fn curve_db(&self, start_s: f64, step_s: f64, points: usize) -> Vec<f64> {
        self.integrated().levels_db(start_s, step_s, points)
    }

    /// Levels at equal steps, dB re time 0.
    fn levels_db(&self, start_s: f64, step_s: f64, points: usize) -> Vec<f64> {
        let total: f64 = self.terms.iter().map(|(_, share)| share).sum();
        let mut parts: Vec<(f64, f64)> = self
            .terms
            .iter()
            .map(|(rate, share)| {
                (
                    share / total * (-rate * start_s).exp(),
                    (-rate * step_s).exp(),
                )
            })
            .collect();
        (0..points)
            .map(|_| {
                let energy: f64 = parts.iter().map(|(part, _)| part).sum();
                parts.iter_mut().for_each(|(part, factor)| *part *= *factor);
                energy_to_db(energy)
            })
            .collect()
    }

    /// When the level re time 0 falls to `level_db`, s. Newton's iteration on the logarithm, which is convex and falling:
    /// from the left it never passes the answer.
    fn time_of_level(&self, level_db: f64, from_s: f64) -> f64 {
        let total: f64 = self.terms.iter().map(|(_, share)| share).sum();
        let target = (total * 10f64.powf(level_db / 10.0)).ln();
        let mut time_s = from_s;
        for _ in 0..MOST_NEWTON_STEPS {
            let (mut energy, mut fall) = (0.0, 0.0);
            for (rate, share) in &self.terms {
                let part = share * (-rate * time_s).exp();
                energy += part;
                fall += rate * part;
            }
            let step_s = (energy.ln() - target) * energy / fall;
            time_s += step_s;
            if step_s.abs() <= EDGE_ACCURACY * time_s {
                break;
            }
        }
        time_s
    }
}

/// Points of the straight-line fit.
const FIT_POINTS: usize = 17;

/// Relative accuracy of a window's edge; the slope of the line between hardly depends on it.
const EDGE_ACCURACY: f64 = 1e-4;

/// Newton steps at most; three or four are usual.
const MOST_NEWTON_STEPS: usize = 30;

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
