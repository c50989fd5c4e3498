//! What the late sound of one band meets: pairs of walls, air and furniture.

use crate::bands::{BANDS, Banded};
use crate::numeric::exp;
use crate::room::Room;
use crate::surface::Wall;

use super::directions::{DIRECTIONS, directions, dot};

/// Steps in time of [`Field::arriving_shares`].
const MARCH_STEPS: usize = 60;

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
    pub(super) fn log_loss_and_scattered(&self) -> (f64, f64) {
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
}

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

    /// Which pair of walls the sound still meets after a time, as shares of all energy that arrives at walls.
    ///
    /// Marches the equations of [`super::decay`] with exponential steps; in a decay that is even in direction the shares are those
    /// of the areas.
    #[must_use]
    pub fn arriving_shares(&self, time_s: f64) -> [f64; 3] {
        let grid = directions();
        let pairs = self.pairs.map(|pair| pair.log_loss_and_scattered());
        let lost_per_s = [0, 1, 2].map(|axis| {
            let (log_loss, scattered) = pairs[axis];
            self.pairs[axis].crossings_per_s * (log_loss + scattered)
        });
        let gain = [0, 1, 2]
            .map(|axis| self.pairs[axis].crossings_per_s * pairs[axis].1 / grid.mean[axis]);
        let back = self.furniture_hits_per_s * (1.0 - self.furniture_absorption);
        let step_s = time_s / MARCH_STEPS as f64;
        let (mut kept, mut gained) = ([0.0; DIRECTIONS], [0.0; DIRECTIONS]);
        for d in 0..DIRECTIONS {
            let at_walls = (0..3).map(|axis| lost_per_s[axis] * grid.along[axis][d]);
            let damping = self.loss_between_walls_per_s() + at_walls.sum::<f64>();
            kept[d] = exp(-damping * step_s);
            gained[d] = (1.0 - kept[d]) / damping;
        }
        let mut field = grid.root_weight;
        for _ in 0..MARCH_STEPS {
            let [x, y, z] = [0, 1, 2].map(|axis| gain[axis] * dot(&grid.weighted[axis], &field));
            let even = back * dot(&grid.root_weight, &field);
            let [wx, wy, wz] = &grid.weighted;
            for d in 0..DIRECTIONS {
                let coupling = x * wx[d] + y * wy[d] + z * wz[d] + even * grid.root_weight[d];
                field[d] = field[d] * kept[d] + coupling * gained[d];
            }
        }
        let arriving = [0, 1, 2]
            .map(|axis| self.pairs[axis].crossings_per_s * dot(&grid.weighted[axis], &field));
        let all: f64 = arriving.iter().sum();
        arriving.map(|share| share / all)
    }

    /// Loss in the air and hits of furniture, 1/s.
    pub(super) fn loss_between_walls_per_s(&self) -> f64 {
        self.air_per_s + self.furniture_hits_per_s
    }
}
