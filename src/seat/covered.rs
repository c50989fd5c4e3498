//! How much of the sound that images of low order carry is still on its way, on the average over all places in the room.
//!
//! Sound that goes straight crosses the room along each axis at a pace set by its direction. How often it has met the walls
//! after a given way is a matter of geometry alone, so it is tabulated once per size of room; what it has lost at them is a
//! product per number of meetings. It leaves out what has been scattered, which belongs to the late sound.

use glam::DVec3;

use super::once::{ANGLES, Once};
use crate::gauss::{gauss_legendre, octant};

/// Highest order of the images that are counted one by one.
pub const HIGHEST_ORDER: usize = 3;

/// Numbers of meetings with the walls across x, y and z that sum to [`HIGHEST_ORDER`] at most.
pub const MEETINGS: usize = 20;

/// Steps of the table over the way: integrals of the tail err by less than 5e-4 of it (`tests/seat.rs`).
pub const STEPS: usize = 64;

/// Counts per axis that occur: 0 … [`HIGHEST_ORDER`].
const COUNTS: usize = HIGHEST_ORDER + 1;

/// Probabilities of every number of meetings with the walls, along the way of sound through a box of one size.
#[derive(Clone, Debug, PartialEq)]
pub struct Covered {
    size_m: DVec3,
    step_m: f64,
    /// At equal steps from 0 to where even sound along the longest side has met a fourth wall.
    shares: Vec<[f64; MEETINGS]>,
    once: Once,
}

impl Covered {
    /// Tabulates a box.
    ///
    /// ```text
    /// P_n(r) = < Π_i p(n_i, r |Ω_i| / L_i) >,   p(n, x) = max(0, 1 − |x − n|)   for x ≥ 0
    /// ```
    ///
    /// < >: mean over the octant of directions. p is the chance that sound starting at a random place passes n walls that
    /// stand 1 apart within a way x. The table ends at 4 L of the longest side, beyond which
    /// less than 2e-4 is left.
    ///
    /// # Source
    /// Geometry of the image lattice, Kuttruff, Room Acoustics, 6th ed. 2016, section 4.1.
    #[must_use]
    pub fn new(size_m: DVec3) -> Self {
        let step_m = (HIGHEST_ORDER + 1) as f64 * size_m.max_element() / STEPS as f64;
        let mut shares = vec![[0.0; MEETINGS]; STEPS + 1];
        for (unit, weight) in octant(&gauss_legendre(ANGLES)) {
            for (step, share) in shares.iter_mut().enumerate() {
                add_direction(share, unit / size_m * (step as f64 * step_m), weight);
            }
        }
        Self {
            size_m,
            step_m,
            shares,
            once: Once::new(size_m, step_m, STEPS),
        }
    }

    /// Size of the box, m.
    #[must_use]
    pub fn size_m(&self) -> DVec3 {
        self.size_m
    }

    /// Volume of the box, m³.
    #[must_use]
    pub fn volume_m3(&self) -> f64 {
        self.size_m.element_product()
    }

    /// Way between two rows of the table, m.
    #[must_use]
    pub fn step_m(&self) -> f64 {
        self.step_m
    }

    /// What was scattered once, at the same steps.
    #[must_use]
    pub fn once(&self) -> &Once {
        &self.once
    }

    /// Mean over the area of the walls of what each of the pairs has.
    #[must_use]
    pub fn mean_of_walls(&self, values: &[[f64; 2]; 3]) -> f64 {
        let [x, y, z] = self.size_m.to_array();
        let areas_m2 = [y * z, z * x, x * y];
        let pairs = areas_m2.iter().zip(values);
        let sum: f64 = pairs
            .map(|(area_m2, [one, other])| area_m2 * (one + other))
            .sum();
        sum / (2.0 * areas_m2.iter().sum::<f64>())
    }

    /// Probability of that many meetings across x, y and z after `step` steps; 0 above [`HIGHEST_ORDER`] in all.
    #[must_use]
    pub fn probability(&self, step: usize, counts: [usize; 3]) -> f64 {
        place(counts).map_or(0.0, |place| self.shares[step][place])
    }

    /// What sound of the counted orders still carries at every step, without air and furniture.
    ///
    /// `carried`: share of the energy that goes on in its direction after each wall of the pairs, (1 − α)(1 − s).
    #[must_use]
    pub fn carried(&self, carried: &[[f64; 2]; 3]) -> [f64; STEPS + 1] {
        let products = products(carried);
        std::array::from_fn(|step| dot(&self.shares[step], &products))
    }
}

/// Adds one direction whose ways along the axes, in room sizes, are `crossings`.
fn add_direction(share: &mut [f64; MEETINGS], crossings: DVec3, weight: f64) {
    let below = crossings.floor();
    if below.element_sum() > HIGHEST_ORDER as f64 {
        return;
    }
    let above = crossings - below;
    for corner in 0..8 {
        let mut counts = [0; 3];
        let mut chance = weight;
        for axis in 0..3 {
            let one_more = corner >> axis & 1;
            counts[axis] = below[axis] as usize + one_more;
            chance *= if one_more == 1 {
                above[axis]
            } else {
                1.0 - above[axis]
            };
        }
        if let Some(place) = place(counts) {
            share[place] += chance;
        }
    }
}

/// All counts with their places in the table.
const PLACES: [[[Option<usize>; COUNTS]; COUNTS]; COUNTS] = {
    let mut places = [[[None; COUNTS]; COUNTS]; COUNTS];
    let mut next = 0;
    let mut code = 0;
    while code < COUNTS * COUNTS * COUNTS {
        let (x, y, z) = (
            code / (COUNTS * COUNTS),
            code / COUNTS % COUNTS,
            code % COUNTS,
        );
        if x + y + z <= HIGHEST_ORDER {
            places[x][y][z] = Some(next);
            next += 1;
        }
        code += 1;
    }
    places
};

/// Place of the counts in the table, if they are counted.
fn place([x, y, z]: [usize; 3]) -> Option<usize> {
    *PLACES.get(x)?.get(y)?.get(z)?
}

/// What is left after each number of meetings, in the order of the table.
fn products(carried: &[[f64; 2]; 3]) -> [f64; MEETINGS] {
    let [x, y, z] = carried.map(powers);
    let mut products = [0.0; MEETINGS];
    for (nx, left_x) in x.iter().enumerate() {
        for (ny, left_y) in y.iter().enumerate() {
            for (nz, left_z) in z.iter().enumerate() {
                if let Some(place) = place([nx, ny, nz]) {
                    products[place] = left_x * left_y * left_z;
                }
            }
        }
    }
    products
}

/// What is left after 0 … 3 meetings with a pair of walls in turn; either may come first.
fn powers([one, other]: [f64; 2]) -> [f64; COUNTS] {
    let mean = 0.5 * (one + other);
    [1.0, mean, one * other, one * other * mean]
}

/// Inner product in four sums side by side.
fn dot(a: &[f64; MEETINGS], b: &[f64; MEETINGS]) -> f64 {
    let mut sums = [0.0; 4];
    for (x, y) in a.chunks_exact(4).zip(b.chunks_exact(4)) {
        for (lane, sum) in sums.iter_mut().enumerate() {
            *sum += x[lane] * y[lane];
        }
    }
    sums.iter().sum()
}
