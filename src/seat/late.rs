//! The late sound of one loudspeaker at one seat: what of it depends on where the two are.
//!
//! Sound that was scattered once comes to the seat from the wall or the piece of furniture that did it, and is summed over
//! them. What was scattered more often is alike everywhere; it comes a little later where loudspeaker and seat are far
//! from the walls.

use glam::DVec3;

use super::tail::{SCATTERERS, Tail, level_per_s};
use crate::bands::Banded;
use crate::directivity::Directivity;
use crate::numeric::exp;

/// Steps of the table over time, s; the edges of the figures of a seat are whole numbers of it.
const STEP_S: f64 = 0.002_5;

/// Steps of the table: 100 ms, after which sound that was scattered once is over in any room that people live in.
const STEPS: usize = 40;

/// Directions in which the sound of a loudspeaker is followed: within 0.002 of the shares of many (`tests/seat.rs`).
const DIRECTIONS: usize = 512;

/// Nearer to the seat than this a scattering place counts as at this distance, m: an ear is no point.
const NEAREST_M: f64 = 0.1;

/// Where a loudspeaker and a seat are, and what the way through the room takes.
#[derive(Clone, Debug, PartialEq)]
pub struct Placing {
    /// Size of the box, m.
    pub size_m: DVec3,
    /// Loudspeaker, m.
    pub source_m: DVec3,
    /// Its main axis, of unit length.
    pub axis: DVec3,
    /// How it spreads its sound.
    pub directivity: Directivity,
    /// Seat, m.
    pub seat_m: DVec3,
    /// Meetings with furniture, 1/m.
    pub furniture_per_m: f64,
    /// Attenuation by air, 1/m.
    pub air_per_m: Banded,
    /// Speed of sound, m/s.
    pub speed_of_sound_m_per_s: f64,
}

/// The late sound of a loudspeaker at a seat, for any absorption and scattering.
#[derive(Clone, Debug, PartialEq)]
pub struct LateSound {
    placing: Placing,
    direct_s: f64,
    /// From each step after the direct sound on, by what scattered it: energy re direct on axis at 1 m, if all were sent on.
    after: Vec<[Banded; SCATTERERS]>,
    /// Mean way to the first wall, from loudspeaker and from seat, m.
    to_wall_m: Banded,
    /// Level of sound that is alike everywhere: energy per second re direct on axis at 1 m.
    level_per_s: Banded,
}

impl LateSound {
    /// Follows the sound of a loudspeaker to all that it meets first, and from there to the seat.
    ///
    /// ```text
    /// wall:       D dΩ (1 − α) s cos θ₂ / (π r₂²)        θ₂ off the wall's normal, by Lambert's law
    /// furniture:  D dΩ dr₁ μ (1 − a) / (4π r₂²)          each times exp(−(m + μ)(r₁ + r₂))
    /// ```
    ///
    /// # Accuracy
    /// Against an independent ray tracer: see `tests/seat.rs`.
    #[must_use]
    pub fn new(placing: Placing) -> Self {
        let pattern = placing.directivity.pattern();
        let mut followed = Followed::new(&placing);
        let share = 4.0 * std::f64::consts::PI / DIRECTIONS as f64;
        let mut weights = Banded::constant(0.0);
        let mut ways_m = Banded::constant(0.0);
        let mut seat_way_m = 0.0;
        for direction in directions() {
            let power = pattern.energies(direction.dot(placing.axis)) * share;
            let wall = Wall::ahead(placing.size_m, placing.source_m, direction);
            followed.meet_wall(&wall, power);
            followed.meet_furniture(direction, wall.way_m, power);
            weights = weights + power;
            ways_m = ways_m + power * wall.way_m;
            seat_way_m += Wall::ahead(placing.size_m, placing.seat_m, direction).way_m;
        }
        let seat_way_m = seat_way_m / DIRECTIONS as f64;
        let c = placing.speed_of_sound_m_per_s;
        let level_per_s = level_per_s(c, placing.size_m.element_product());
        let q = pattern.q();
        Self {
            direct_s: followed.direct_m / c,
            after: followed.after(),
            to_wall_m: Banded::from_fn(|band| 0.5 * (ways_m[band] / weights[band] + seat_way_m)),
            level_per_s: Banded::from_fn(|band| level_per_s / q[band]),
            placing,
        }
    }

    /// What it was worked out for.
    #[must_use]
    pub fn placing(&self) -> &Placing {
        &self.placing
    }

    /// Energy of the late sound in a band from a time after the direct sound on, re direct on axis at 1 m; the tail is that
    /// of the band.
    ///
    /// ```text
    /// once(t) + 4π c / (V Q) ∫ tail(t′) dt′,   t′ ≥ direct + t − (l − < l >) / c
    /// ```
    ///
    /// l: mean way to the first wall, the mean of loudspeaker and seat; < l >: from everywhere. That half of the sum of both
    /// fits best has been found by comparison with the ray tracer, it has no other source.
    #[must_use]
    pub fn after(&self, band: usize, tail: &Tail<'_>, since_s: f64) -> f64 {
        let behind_m = self.to_wall_m[band] - tail.to_wall_m();
        let from_s = self.direct_s + since_s - behind_m / self.placing.speed_of_sound_m_per_s;
        self.once_after(band, tail, since_s) + self.level_per_s[band] * tail.after_s(from_s)
    }

    /// Of it, what was scattered once.
    fn once_after(&self, band: usize, tail: &Tail<'_>, since_s: f64) -> f64 {
        let steps = (since_s / STEP_S).max(0.0);
        let step = steps as usize;
        let Some(next) = self.after.get(step + 1) else {
            return 0.0;
        };
        let sent_on = tail.sent_on();
        let sum = |row: &[Banded; SCATTERERS]| {
            let energies = row.iter().zip(sent_on);
            energies.map(|(energy, on)| energy[band] * on).sum::<f64>()
        };
        let near = sum(&self.after[step]);
        near + (steps - step as f64) * (sum(next) - near)
    }
}

/// Directions that fill the sphere evenly, on a spiral.
///
/// # Source
/// Fibonacci lattice: González, Measurement of areas on a sphere using Fibonacci and latitude–longitude lattices,
/// Mathematical Geosciences 42 (2010) 49–64.
fn directions() -> impl Iterator<Item = DVec3> {
    let golden = std::f64::consts::PI * (3.0 - 5f64.sqrt());
    (0..DIRECTIONS).map(move |number| {
        let z = 1.0 - (2.0 * number as f64 + 1.0) / DIRECTIONS as f64;
        let beside = (1.0 - z * z).sqrt();
        let (sine, cosine) = (golden * number as f64).sin_cos();
        DVec3::new(beside * cosine, beside * sine, z)
    })
}

/// Where a straight way meets its first wall.
struct Wall {
    way_m: f64,
    point_m: DVec3,
    /// In the order of the surfaces.
    number: usize,
}

impl Wall {
    fn ahead(size_m: DVec3, from_m: DVec3, direction: DVec3) -> Self {
        let mut nearest = (f64::INFINITY, 0);
        for axis in 0..3 {
            let side = usize::from(direction[axis] > 0.0);
            let way_m = (size_m[axis] * side as f64 - from_m[axis]) / direction[axis];
            if direction[axis] != 0.0 && way_m < nearest.0 {
                nearest = (way_m.max(0.0), 2 * axis + side);
            }
        }
        Self {
            way_m: nearest.0,
            point_m: from_m + nearest.0 * direction,
            number: nearest.1,
        }
    }
}

/// Sums of the sound that is followed.
struct Followed<'a> {
    placing: &'a Placing,
    to_seat: DVec3,
    direct_m: f64,
    step_m: f64,
    bins: Vec<[Banded; SCATTERERS]>,
}

impl<'a> Followed<'a> {
    fn new(placing: &'a Placing) -> Self {
        let to_seat = placing.seat_m - placing.source_m;
        Self {
            placing,
            to_seat,
            direct_m: to_seat.length().max(NEAREST_M),
            step_m: STEP_S * placing.speed_of_sound_m_per_s,
            bins: vec![[Banded::constant(0.0); SCATTERERS]; STEPS],
        }
    }

    /// Sound of some power that a wall scatters.
    fn meet_wall(&mut self, wall: &Wall, power: Banded) {
        let away = self.placing.seat_m - wall.point_m;
        let away_m = away.length().max(NEAREST_M);
        let cosine = away[wall.number / 2].abs() / away_m;
        let way_m = wall.way_m + away_m;
        let bin = ((way_m - self.direct_m) / self.step_m).max(0.0) as usize;
        if let Some(bin) = self.bins.get_mut(bin) {
            let past_furniture = exp(-self.placing.furniture_per_m * way_m);
            let share = cosine / (std::f64::consts::PI * away_m * away_m) * past_furniture;
            add(&mut bin[wall.number], power, share);
        }
    }

    /// Sound of some power on its way to a wall, along which furniture may scatter it.
    ///
    /// ```text
    /// ∫ dr / r₂² = [ atan((r − a) / d) ] / d        a along, d beside the way: where the seat is
    /// ```
    ///
    /// By the bounds of the steps: those of a way r + r₂ are at r = (way² − r₀²) / (2 (way − a)).
    fn meet_furniture(&mut self, direction: DVec3, until_m: f64, power: Banded) {
        if self.placing.furniture_per_m == 0.0 {
            return;
        }
        let along_m = self.to_seat.dot(direction);
        let beside_m = (self.direct_m * self.direct_m - along_m * along_m)
            .max(0.0)
            .sqrt();
        let beside_m = beside_m.max(NEAREST_M);
        let angle = |at_m: f64| ((at_m - along_m) / beside_m).atan();
        let mut before = angle(0.0);
        for bin in 0..STEPS {
            let way_m = self.direct_m + (bin + 1) as f64 * self.step_m;
            let at_m = 0.5 * (way_m * way_m - self.direct_m * self.direct_m) / (way_m - along_m);
            let now = angle(at_m.min(until_m));
            let middle_m = way_m - 0.5 * self.step_m;
            let past_furniture = exp(-self.placing.furniture_per_m * middle_m);
            let share = (now - before) / (4.0 * std::f64::consts::PI * beside_m) * past_furniture;
            add(&mut self.bins[bin][SCATTERERS - 1], power, share);
            if at_m >= until_m {
                return;
            }
            before = now;
        }
    }

    /// Sums from each step on, with what the air takes.
    fn after(self) -> Vec<[Banded; SCATTERERS]> {
        let mut after = vec![[Banded::constant(0.0); SCATTERERS]; STEPS + 1];
        for step in (0..STEPS).rev() {
            let way_m = self.direct_m + (step as f64 + 0.5) * self.step_m;
            let left = self.placing.air_per_m.map(|per_m| exp(-per_m * way_m));
            let later = after[step + 1];
            after[step] = std::array::from_fn(|scatterer| {
                let now = &self.bins[step][scatterer];
                later[scatterer] + Banded::from_fn(|band| now[band] * left[band])
            });
        }
        after
    }
}

fn add(sum: &mut Banded, power: Banded, share: f64) {
    *sum = *sum + power * share;
}
