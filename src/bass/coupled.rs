//! The response of a room at low frequencies: the notes of the rigid box, coupled by what its walls do.
//!
//! The pressure is expanded in the rigid box's cosines and the dense system is solved at each frequency. The near field of
//! soft walls and of the source, which needs many notes, is added in closed form. Left out: air, furniture, people.

use std::f64::consts::{PI, TAU};

use glam::DVec3;
use num_complex::Complex64;

use super::modes::{Mode, axis_shape, frequency_of_count, modes_up_to};
use super::room::BassRoom;
use super::symmetric::{Factored, Symmetric};
use super::walls::{At, Drawn, WallTerms};

/// How far above a frequency the notes reach that are solved for there.
pub const REACH: f64 = 1.5;

/// Most notes that are solved for; time grows with their cube.
pub const MOST_MODES: usize = 450;

/// Fewest notes that are solved for, however low the frequency.
const LEAST_MODES: usize = 160;

/// Room for the list of notes beyond the count that is expected on average.
const SPARE: f64 = 1.5;

/// Share of its energy that sound loses in the air per radian, so that no peak of a rigid room is infinite.
const LEAST_LOSS: f64 = 1e-6;

/// A room made ready to be asked about any frequency up to a highest one.
pub struct Coupled {
    size_m: DVec3,
    speed_of_sound_m_per_s: f64,
    modes: Vec<Mode>,
    drawn: [Drawn; 3],
    walls: Vec<WallTerms>,
    solved_hz: f64,
    stops_at_hz: f64,
}

impl Coupled {
    /// For frequencies up to `highest_hz`, or up to where the notes become too many.
    #[must_use]
    pub fn new(room: &BassRoom, highest_hz: f64) -> Self {
        let (modes, solved_hz) = solved_modes(room, REACH * highest_hz);
        let drawn = [0, 1, 2].map(|axis| Drawn::new(room, &modes, axis));
        let terms = |(i, wall)| WallTerms::new(wall, &drawn[i / 2]);
        Self {
            size_m: room.size_m,
            speed_of_sound_m_per_s: room.speed_of_sound_m_per_s,
            walls: room.walls.iter().enumerate().map(terms).collect(),
            modes,
            drawn,
            solved_hz,
            stops_at_hz: highest_hz.min(solved_hz / REACH),
        }
    }

    /// The notes that are solved for, lowest first.
    #[must_use]
    pub fn modes(&self) -> &[Mode] {
        &self.modes
    }

    /// Frequency up to which no note is left out of [`Self::modes`], Hz.
    #[must_use]
    pub fn solved_hz(&self) -> f64 {
        self.solved_hz
    }

    /// Frequency up to which the response holds, Hz.
    #[must_use]
    pub fn stops_at_hz(&self) -> f64 {
        self.stops_at_hz
    }

    /// Rate at which the pressure of a note dies away, to first order in the admittance, 1/s.
    ///
    /// ```text
    /// δ = (c/2) Re ∮ β ψ² dS / ∫ ψ² dV = (c/2) Σ_w ε_w Re β_w / L   for walls of one admittance each
    /// ```
    ///
    /// ε = 2 where the note meets the wall, 1 where it runs along it.
    ///
    /// # Source
    /// Morse & Bolt, Rev. Mod. Phys. 16 (1944) 69–150; from memory.
    #[must_use]
    pub fn damping_per_s(&self, mode: usize) -> f64 {
        self.first_order_per_s(mode).re
    }

    /// By how much the walls move the pitch of a note, to first order in the admittance, rad/s.
    ///
    /// ```text
    /// Δω = −(c/2) Im ∮ β ψ² dS / ∫ ψ² dV      from k_n² − k² + j k B_nn = 0
    /// ```
    ///
    /// # Source
    /// As [`Self::damping_per_s`].
    #[must_use]
    pub fn detuning_rad_per_s(&self, mode: usize) -> f64 {
        -self.first_order_per_s(mode).im
    }

    fn first_order_per_s(&self, mode: usize) -> Complex64 {
        let frequency_hz = self.modes[mode].frequency_hz;
        let wall = |(i, terms): (usize, &WallTerms)| {
            let drawn = &self.drawn[i / 2];
            terms.own(frequency_hz, drawn.shape_of[mode]) * drawn.end[mode].powi(2)
        };
        let walls = self.walls.iter().enumerate().map(wall);
        walls.sum::<Complex64>() * (0.5 * self.speed_of_sound_m_per_s)
    }

    /// Amplitude of every note under each source at one frequency.
    ///
    /// ```text
    /// (k_n² − k²) a_n + j k Σ_m B_nm a_m = 4π ψ_n(s),   B_nm = ∮ β ψ_n ψ_m dS,   p = Σ a_n ψ_n
    /// ```
    ///
    /// # Units
    /// - pressure re the source's free field at 1 m, which is e^{−jkr}/r
    ///
    /// # Source
    /// Galerkin's method on the Helmholtz equation with ∂p/∂n = −jkβ p on the walls; for instance Kuttruff, Room Acoustics,
    /// chapter 3 (from memory).
    #[must_use]
    pub fn amplitudes(&self, frequency_hz: f64, sources_m: &[DVec3]) -> Vec<Vec<Complex64>> {
        let top_hz = (REACH * frequency_hz).max(self.least_hz());
        let count = self
            .modes
            .partition_point(|mode| mode.frequency_hz <= top_hz);
        let factored = self.factored(frequency_hz, count);
        let solved = |&source_m: &DVec3| {
            let mut driven = self.shapes_at(source_m);
            driven.iter_mut().for_each(|shape| *shape *= 4.0 * PI);
            let mut amplitudes = factored.solve(&driven[..count]);
            amplitudes.extend(self.following(frequency_hz, count, &driven));
            amplitudes
        };
        sources_m.iter().map(solved).collect()
    }

    /// What the notes from `count` on do: far below their pitch they follow, each for itself.
    fn following(&self, frequency_hz: f64, count: usize, driven: &[f64]) -> Vec<Complex64> {
        let square = self.per_m(frequency_hz).powi(2);
        let one = |(mode, drive): (&Mode, &f64)| {
            Complex64::from(drive / (self.per_m(mode.frequency_hz).powi(2) - square))
        };
        self.modes.iter().zip(driven).skip(count).map(one).collect()
    }

    fn least_hz(&self) -> f64 {
        self.modes
            .get(LEAST_MODES)
            .map_or(self.solved_hz, |mode| mode.frequency_hz)
    }

    fn per_m(&self, frequency_hz: f64) -> f64 {
        TAU * frequency_hz / self.speed_of_sound_m_per_s
    }

    /// ψ of every note at a point, its square integrating to 1 over the room.
    #[must_use]
    pub fn shapes_at(&self, point_m: DVec3) -> Vec<f64> {
        let along =
            |mode: &Mode, axis: usize| axis_shape(mode.n[axis], point_m[axis], self.size_m[axis]);
        let shape = |mode: &Mode| (0..3).map(|axis| along(mode, axis)).product();
        self.modes.iter().map(shape).collect()
    }

    fn factored(&self, frequency_hz: f64, count: usize) -> Factored {
        let per_m = self.per_m(frequency_hz);
        let mut matrix = Symmetric::zero(count);
        for (row, mode) in self.modes.iter().enumerate().take(count) {
            let (re, im) = matrix.row_mut(row);
            re[0] = self.per_m(mode.frequency_hz).powi(2) - per_m * per_m;
            im[0] = LEAST_LOSS * per_m * per_m;
        }
        for axis in 0..3 {
            self.add_walls(&mut matrix, axis, frequency_hz, count);
        }
        matrix.factor()
    }

    /// Adds j k B of the two walls of an axis: their sum between notes that have the same sign at both, else their difference.
    fn add_walls(&self, matrix: &mut Symmetric, axis: usize, frequency_hz: f64, count: usize) {
        let drawn = &self.drawn[axis];
        let per_m = self.per_m(frequency_hz);
        let give = drawn.give(per_m, count);
        let at = At {
            frequency_hz,
            wave_number_per_m: per_m,
            give: &give,
        };
        let [near, far] = [2 * axis, 2 * axis + 1].map(|wall| self.walls[wall].matrix(at));
        let [same, other] = [1.0, -1.0].map(|sign| near.with(sign, &far));
        for row in 0..count {
            let shape = drawn.shape_of[row];
            let by_sign = [same.row(shape), other.row(shape)];
            let (re, im) = matrix.row_mut(row);
            for (column, (re, im)) in (row..).zip(re.iter_mut().zip(im)) {
                let differ = (drawn.half_waves[row] + drawn.half_waves[column]) % 2;
                let (wall_re, wall_im) = by_sign[differ as usize];
                let weight = per_m * drawn.end[row] * drawn.end[column];
                *re -= weight * wall_im[drawn.shape_of[column]];
                *im += weight * wall_re[drawn.shape_of[column]];
            }
        }
    }
}

/// The notes to be solved for, lowest first, and the frequency up to which none is left out.
fn solved_modes(room: &BassRoom, wanted_hz: f64) -> (Vec<Mode>, f64) {
    let speed = room.speed_of_sound_m_per_s;
    let holding = |count: usize| frequency_of_count(room.size_m, speed, SPARE * count as f64);
    let listed_hz = wanted_hz.clamp(holding(LEAST_MODES), holding(MOST_MODES));
    let mut modes = modes_up_to(room.size_m, speed, listed_hz);
    let wanted = modes.partition_point(|mode| mode.frequency_hz <= wanted_hz);
    let count = wanted.clamp(LEAST_MODES, MOST_MODES);
    let next_hz = modes.get(count).map_or(listed_hz, |mode| mode.frequency_hz);
    modes.retain(|mode| mode.frequency_hz < next_hz);
    let last_hz = modes.last().map_or(0.0, |mode| mode.frequency_hz);
    let solved_hz = if wanted_hz < next_hz {
        last_hz.max(wanted_hz)
    } else {
        last_hz
    };
    (modes, solved_hz)
}
