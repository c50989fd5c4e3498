//! Sound that has met one thing in the room and was scattered by it, on the average over all places.
//!
//! It is still on its way to the next thing. What it carries is taken off the late sound, which is alike everywhere; at a
//! seat it is followed place by place instead (`late`).

use glam::DVec3;

use crate::gauss::{gauss_legendre, octant};

/// Gauss points over each angle of the octant of directions.
pub(super) const ANGLES: usize = 24;

/// Steps of the integrals to each step asked for.
const FINE: usize = 4;

/// Chances along the way of sound through a box, at equal steps from 0.
#[derive(Clone, Debug, PartialEq)]
pub struct Once {
    /// That it has met a wall, was scattered there and has met nothing since.
    pub from_walls: Vec<f64>,
    /// The same of a place in the room, per place and metre of way, m.
    pub from_places_m: Vec<f64>,
    /// Mean way from any place in any direction to the first wall, m.
    pub to_wall_m: f64,
}

impl Once {
    /// Of a box.
    ///
    /// ```text
    /// P(r) = < Π_i max(0, 1 − r |Ω_i| / L_i) >          chance to have met no wall, from any place in any direction
    /// F(r) = −4 V / S · P′(r)                           the same from any place of the walls, by Lambert's law
    /// from_walls = ∫ −P′(r′) F(r − r′) dr′,   from_places_m = ∫ P(r′) P(r − r′) dr′,   to_wall_m = ∫ P dr
    /// ```
    ///
    /// # Source
    /// F: chords of a convex body, Santaló, Integral Geometry and Geometric Probability, 1976, section I.4 (from memory).
    pub fn new(size_m: DVec3, step_m: f64, steps: usize) -> Self {
        let fine_m = step_m / FINE as f64;
        let free = free(size_m, fine_m, steps * FINE);
        let met: Vec<f64> = free
            .windows(2)
            .map(|pair| (pair[0] - pair[1]) / fine_m)
            .collect();
        let [x, y, z] = size_m.to_array();
        let mean_chord_m = 2.0 * x * y * z / (x * y + y * z + z * x);
        let from_walls = |step: usize| {
            let pairs = met[..step * FINE]
                .iter()
                .zip(met[..step * FINE].iter().rev());
            mean_chord_m * fine_m * pairs.map(|(one, other)| one * other).sum::<f64>()
        };
        let from_places_m = |step: usize| {
            let pairs = free[..=step * FINE]
                .iter()
                .zip(free[..=step * FINE].iter().rev());
            let ends = free[0] * free[step * FINE];
            fine_m * (pairs.map(|(one, other)| one * other).sum::<f64>() - ends)
        };
        Self {
            from_walls: (0..=steps).map(from_walls).collect(),
            from_places_m: (0..=steps).map(from_places_m).collect(),
            to_wall_m: fine_m * (free.iter().sum::<f64>() - 0.5 * free[0]),
        }
    }
}

/// P at equal steps.
fn free(size_m: DVec3, step_m: f64, steps: usize) -> Vec<f64> {
    let mut free = vec![0.0; steps + 1];
    for (unit, weight) in octant(&gauss_legendre(ANGLES)) {
        let rate = unit / size_m;
        let way_m = rate.max_element().recip();
        let inside = ((way_m / step_m) as usize).min(steps);
        for (step, sum) in free[..=inside].iter_mut().enumerate() {
            let left = DVec3::ONE - rate * (step as f64 * step_m);
            *sum += weight * left.element_product();
        }
    }
    free
}
