//! The late sound of one band: what the decay still holds beyond the images that are counted one by one.

use super::covered::{Covered, STEPS};
use crate::decay::Field;
use crate::decay_curve::{Falling, NO_DECAY_PER_S, NO_SHARE};
use crate::numeric::{exp, larger};

/// What scatters: the six walls, in the order of the surfaces, and the furniture.
pub const SCATTERERS: usize = 7;

/// What the late sound of one band follows from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LateBand<'a> {
    /// The decay g as (rate in 1/s, share), the shares summing to 1.
    pub terms: &'a [(f64, f64)],
    /// Share of the energy that goes on in its direction after each wall of the pairs along x, y, z: (1 − α)(1 − s).
    pub carried: [[f64; 2]; 3],
    /// Share that a wall scatters, (1 − α) s.
    pub scattered: [[f64; 2]; 3],
    /// Sound that furniture sends on, scattered, 1/s: its hits times (1 − a).
    pub furniture_per_s: f64,
    /// Loss on the way, m c + μ, 1/s.
    pub loss_per_s: f64,
}

impl<'a> LateBand<'a> {
    /// Of a field and its decay.
    #[must_use]
    pub fn new(field: &Field, terms: &'a [(f64, f64)]) -> Self {
        Self {
            terms,
            carried: field.pairs.map(|pair| {
                [0, 1].map(|wall| (1.0 - pair.absorption[wall]) * (1.0 - pair.scattering[wall]))
            }),
            scattered: field.pairs.map(|pair| {
                [0, 1].map(|wall| (1.0 - pair.absorption[wall]) * pair.scattering[wall])
            }),
            furniture_per_s: field.furniture_hits_per_s * (1.0 - field.furniture_absorption),
            loss_per_s: field.air_per_s + field.furniture_hits_per_s,
        }
    }

    /// Time integral of g over all times, s; infinite if some of the sound stays for good.
    #[must_use]
    pub fn whole_s(&self) -> f64 {
        self.beyond_s(0.0)
    }

    /// Time integral of g from a time on, s.
    fn beyond_s(&self, time_s: f64) -> f64 {
        self.terms
            .iter()
            .filter(|(_, share)| *share > NO_SHARE)
            .map(|(rate, share)| {
                if *rate > NO_DECAY_PER_S {
                    share / rate * exp(-rate * time_s)
                } else {
                    f64::INFINITY
                }
            })
            .sum()
    }
}

/// The late sound over time, re the energy of the source at the start.
#[derive(Clone, Copy, Debug)]
pub struct Tail<'a> {
    band: LateBand<'a>,
    step_s: f64,
    /// Share that each wall, and last the furniture on a metre of way, scatters.
    sent_on: [f64; SCATTERERS],
    to_wall_m: f64,
    /// max(0, g − g_cov − g_once) at the steps of the table.
    density: [f64; STEPS + 1],
    /// Its time integral from each step on, s.
    after_s: [f64; STEPS + 1],
}

impl<'a> Tail<'a> {
    /// Splits the decay of a band.
    ///
    /// ```text
    /// tail(t) = max(0, g(t) − g_cov(t) − g_once(t)),   g_cov = exp(−(m c + μ) t) Σ_n P_n(c t) Π (1 − α)(1 − s)
    /// g_once = exp(−(m c + μ) t) ( W(c t) Σ S (1 − α) s / Σ S + R(c t) μ (1 − a) / c )
    /// ```
    ///
    /// W and R: [`Covered::once`].
    ///
    /// # Accuracy
    /// Trapezoids over the table's steps, closed form beyond it: see `tests/seat.rs`.
    #[must_use]
    pub fn new(covered: &Covered, band: LateBand<'a>, speed_of_sound_m_per_s: f64) -> Self {
        let step_s = covered.step_m() / speed_of_sound_m_per_s;
        let whole = energies(band.terms, step_s);
        let carried = covered.carried(&band.carried);
        let once = covered.once();
        let from_walls = covered.mean_of_walls(&band.scattered);
        let from_furniture = band.furniture_per_s / speed_of_sound_m_per_s;
        let kept = exp(-band.loss_per_s * step_s);
        let mut on_the_way = 1.0;
        let mut density = [0.0; STEPS + 1];
        for step in 0..=STEPS {
            let scattered =
                from_walls * once.from_walls[step] + from_furniture * once.from_places_m[step];
            let apart = carried[step] + scattered;
            density[step] = larger(whole[step] - on_the_way * apart, 0.0);
            on_the_way *= kept;
        }
        let mut after_s = [band.beyond_s(STEPS as f64 * step_s); STEPS + 1];
        for step in (0..STEPS).rev() {
            after_s[step] = after_s[step + 1] + 0.5 * step_s * (density[step] + density[step + 1]);
        }
        Self {
            sent_on: sent_on(&band, speed_of_sound_m_per_s),
            to_wall_m: once.to_wall_m,
            band,
            step_s,
            density,
            after_s,
        }
    }

    /// Share of its energy that each wall scatters, and last the furniture on a metre of way, 1/m.
    #[must_use]
    pub fn sent_on(&self) -> [f64; SCATTERERS] {
        self.sent_on
    }

    /// Mean way from any place in any direction to the first wall, m.
    #[must_use]
    pub fn to_wall_m(&self) -> f64 {
        self.to_wall_m
    }

    /// Time integral of the tail from a time after the start on, s.
    #[must_use]
    pub fn after_s(&self, time_s: f64) -> f64 {
        let steps = time_s.max(0.0) / self.step_s;
        if steps >= STEPS as f64 {
            return self.band.beyond_s(time_s);
        }
        let step = steps as usize;
        let part = steps - step as f64;
        let (near, far) = (self.density[step], self.density[step + 1]);
        self.after_s[step] - self.step_s * part * (near + 0.5 * part * (far - near))
    }
}

fn sent_on(band: &LateBand<'_>, speed_of_sound_m_per_s: f64) -> [f64; SCATTERERS] {
    let [[left, right], [front, back], [floor, ceiling]] = band.scattered;
    let furniture = band.furniture_per_s / speed_of_sound_m_per_s;
    [left, right, front, back, floor, ceiling, furniture]
}

/// g at the steps of the table.
fn energies(terms: &[(f64, f64)], step_s: f64) -> [f64; STEPS + 1] {
    let mut falling = Falling::new(terms, |_, share| share, step_s);
    std::array::from_fn(|_| {
        let now = falling.sum();
        falling.step();
        now
    })
}

/// Level of the late sound of a source without directivity: energy per second re its direct sound at 1 m.
///
/// ```text
/// 4π c / V
/// ```
///
/// # Source
/// Kuttruff, Room Acoustics, 6th ed. 2016, section 5.1.
#[must_use]
pub fn level_per_s(speed_of_sound_m_per_s: f64, volume_m3: f64) -> f64 {
    4.0 * std::f64::consts::PI * speed_of_sound_m_per_s / volume_m3
}
