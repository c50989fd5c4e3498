//! The decays of four bands, computed side by side: a vector holds one number of each band.

use wide::f64x4;

use crate::decay_curve::ExponentialSum;
use crate::gauss::{LANES, gauss_rules};
use crate::numeric::exp_of_four;

use super::directions::{DIRECTIONS, directions};
use super::field::{Field, Pair};

/// A number per direction.
pub(super) type Directed = [f64x4; DIRECTIONS];

/// The fields of up to four bands.
pub(super) struct Lanes {
    pairs: [PairLanes; 3],
    /// Loss in the air and hits of furniture, 1/s.
    between_per_s: f64x4,
    /// What furniture sends back, 1/s.
    back_per_s: f64x4,
}

/// What a pair of walls does.
struct PairLanes {
    crossings_per_s: f64x4,
    /// λ per crossing at the log rate.
    log_loss: f64x4,
    /// ρ per crossing.
    scattered: f64x4,
    /// Mean and product of what the two walls reflect.
    mean: f64x4,
    product: f64x4,
    /// What scattering sends on, per unit of what runs along the pair, in the weighted form of [`Lanes::decays`], 1/s.
    gain_per_s: f64x4,
}

/// Range to which the net loss per crossing is held in [`corrected_loss`].
const SIGMA_RANGE: (f64, f64) = (0.001, 60.0);

impl Lanes {
    /// Of at least one field; lanes that are left over repeat the last.
    pub fn of(fields: &[Field]) -> Self {
        let lanes = |of: &dyn Fn(&Field) -> f64| {
            f64x4::new(std::array::from_fn(|lane| {
                of(&fields[lane.min(fields.len() - 1)])
            }))
        };
        // Both at once, as they share their logarithms.
        let rates: [[(f64, f64); 3]; LANES] = std::array::from_fn(|lane| {
            let field = &fields[lane.min(fields.len() - 1)];
            field.pairs.map(|pair| pair.log_loss_and_scattered())
        });
        let pair = |axis: usize| {
            let of_pair = |of: fn(&Pair) -> f64| lanes(&|field| of(&field.pairs[axis]));
            let crossings_per_s = of_pair(|pair| pair.crossings_per_s);
            let scattered = f64x4::new(rates.map(|pairs| pairs[axis].1));
            PairLanes {
                crossings_per_s,
                log_loss: f64x4::new(rates.map(|pairs| pairs[axis].0)),
                scattered,
                mean: of_pair(|pair| 1.0 - 0.5 * (pair.absorption[0] + pair.absorption[1])),
                product: of_pair(|pair| (1.0 - pair.absorption[0]) * (1.0 - pair.absorption[1])),
                gain_per_s: crossings_per_s * scattered / directions().mean[axis],
            }
        };
        Self {
            pairs: [0, 1, 2].map(pair),
            between_per_s: lanes(&Field::loss_between_walls_per_s),
            back_per_s: lanes(&|field| {
                field.furniture_hits_per_s * (1.0 - field.furniture_absorption)
            }),
        }
    }

    /// D of every direction at the log rate, 1/s.
    pub fn log_rate_damping(&self) -> Directed {
        let along = &directions().along;
        let [x, y, z] = self
            .pairs
            .each_ref()
            .map(|pair| pair.crossings_per_s * (pair.log_loss + pair.scattered));
        let mut damping = [self.between_per_s; DIRECTIONS];
        for (d, sum) in damping.iter_mut().enumerate() {
            *sum += x * along[0][d] + y * along[1][d] + z * along[2][d];
        }
        damping
    }

    /// D of every direction with the loss corrected for the overall rate, 1/s, from that at the log rate.
    pub fn corrected_damping(&self, log_rate: &Directed, rate_per_s: f64x4) -> Directed {
        let along = &directions().along;
        let (least, most) = (f64x4::splat(SIGMA_RANGE.0), f64x4::splat(SIGMA_RANGE.1));
        let mut damping = [self.between_per_s; DIRECTIONS];
        for (pair, along) in self.pairs.iter().zip(along) {
            let own = pair.log_loss + pair.scattered;
            for d in 0..DIRECTIONS {
                let crossings = pair.crossings_per_s * along[d];
                let others = log_rate[d] - crossings * own - rate_per_s;
                let sigma = (others / crossings).fast_max(least).fast_min(most);
                let loss = corrected_loss(pair.mean, pair.product, sigma);
                damping[d] += crossings * (loss + pair.scattered);
            }
        }
        damping
    }

    /// Solves the coupled directions for g(t) as a sum of exponentials.
    ///
    /// With each direction weighted by the root of its solid angle the system is symmetric: damping on the diagonal less four
    /// terms of rank one. Lanczos' process from the even field makes the Gauss quadrature of its spectrum, whose nodes are
    /// the decay rates and whose weights their shares of g.
    ///
    /// # Source
    /// Golub & Meurant, Matrices, Moments and Quadrature with Applications, 2010, chapters 4 and 6.
    pub fn decays(&self, damping: &Directed, steps: usize) -> [ExponentialSum; LANES] {
        let mut vector = directions().root_weight.map(f64x4::splat);
        let (mut before, mut next) = ([f64x4::ZERO; DIRECTIONS], [f64x4::ZERO; DIRECTIONS]);
        let mut coupling = f64x4::ZERO;
        let (mut diagonal, mut beside) = (Vec::with_capacity(steps), Vec::with_capacity(steps));
        let mut sizes = [0; LANES];
        let mut goes_on = f64x4::ZERO.simd_eq(f64x4::ZERO);
        loop {
            let rate = self.loss(damping, &vector, &mut next);
            diagonal.push(rate);
            let under_way = goes_on.to_bitmask();
            for (lane, size) in sizes.iter_mut().enumerate() {
                *size += (under_way >> lane & 1) as usize;
            }
            if diagonal.len() == steps {
                break;
            }
            let mut squares = f64x4::ZERO;
            for d in 0..DIRECTIONS {
                next[d] -= rate * vector[d] + coupling * before[d];
                squares += next[d] * next[d];
            }
            coupling = squares.sqrt();
            goes_on &= coupling.simd_gt(diagonal[0] * NO_COUPLING);
            if !goes_on.any() {
                break;
            }
            coupling = goes_on.select(coupling, f64x4::ZERO);
            beside.push(coupling);
            let scale = goes_on.select(f64x4::ONE / coupling, f64x4::ZERO);
            for d in 0..DIRECTIONS {
                before[d] = vector[d];
                vector[d] = next[d] * scale;
            }
        }
        gauss_rules(&diagonal, &beside, sizes, 1.0).map(|terms| ExponentialSum { terms })
    }

    /// Rate at which a field is lost per direction, and how much of it lies along the field.
    ///
    /// ```text
    /// D E_d − w_d (Σ_i gain_i |Ω_i|_d Σ_e w_e |Ω_i|_e E_e + back Σ_e w_e E_e)      w: root_weight
    /// ```
    fn loss(&self, damping: &Directed, field: &Directed, lost: &mut Directed) -> f64x4 {
        let grid = directions();
        let [along_x, along_y, along_z] = &grid.along;
        let (mut x, mut y, mut z, mut even) = (f64x4::ZERO, f64x4::ZERO, f64x4::ZERO, f64x4::ZERO);
        for d in 0..DIRECTIONS {
            let part = field[d] * grid.root_weight[d];
            x += part * along_x[d];
            y += part * along_y[d];
            z += part * along_z[d];
            even += part;
        }
        let [px, py, pz] = &self.pairs;
        x *= px.gain_per_s;
        y *= py.gain_per_s;
        z *= pz.gain_per_s;
        even *= self.back_per_s;
        let mut along_field = f64x4::ZERO;
        for d in 0..DIRECTIONS {
            let gained = x * along_x[d] + y * along_y[d] + z * along_z[d] + even;
            lost[d] = damping[d] * field[d] - gained * grid.root_weight[d];
            along_field += lost[d] * field[d];
        }
        along_field
    }
}

/// A coupling that is smaller than this, re the first rate, ends Lanczos' process.
const NO_COUPLING: f64 = 1e-9;

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
fn corrected_loss(mean: f64x4, product: f64x4, sigma: f64x4) -> f64x4 {
    let one = f64x4::ONE;
    let e = exp_of_four(-sigma);
    let numerator = (mean - one + (product - mean) * e) * (one - e);
    let denominator = sigma * (one - product * e * e);
    -sigma * numerator / (denominator + numerator)
}
