//! Response of a room at low frequencies.

use std::f64::consts::{PI, TAU};

use glam::DVec3;
use num_complex::Complex64;

use super::symmetric::{Symmetric, Factored};
use super::modes::{Mode, axis_shape, modes_up_to};
use super::room::BassRoom;
use super::walls::{Drawn, WallMatrix, WallTerms};

pub struct Coupled {
    size_m: DVec3,
    c: f64,
    pub modes: Vec<Mode>,
    drawn: [Drawn; 3],
    walls: Vec<WallTerms>,
}

pub struct System<'a> {
    coupled: &'a Coupled,
    count: usize,
    factored: Factored,
}

impl Coupled {
    pub fn new(room: &BassRoom, up_to_hz: f64, cap: usize) -> Self {
        let mut modes = modes_up_to(room.size_m, room.speed_of_sound_m_per_s, up_to_hz);
        modes.truncate(cap);
        let drawn = [0, 1, 2].map(|axis| Drawn::new(room, &modes, axis));
        let walls = room.walls.iter().enumerate().map(|(i, wall)| WallTerms::new(wall, &drawn[i / 2])).collect();
        Self { size_m: room.size_m, c: room.speed_of_sound_m_per_s, modes, drawn, walls }
    }
    pub fn at(&self, f: f64, basis_hz: f64) -> System<'_> {
        let count = self.modes.partition_point(|m| m.frequency_hz <= basis_hz);
        let k = TAU * f / self.c;
        let mut a = Symmetric::zero(count);
        for n in 0..count {
            let kn = TAU * self.modes[n].frequency_hz / self.c;
            a.row_mut(n).0[0] = kn * kn - k * k;
        }
        for axis in 0..3 {
            let d = &self.drawn[axis];
            let m = d.count_up_to(basis_hz);
            let both = [1.0, -1.0].map(|sign| {
                let mut w = WallMatrix::zero(m);
                self.walls[2 * axis].add_to(&mut w, 1.0, f);
                self.walls[2 * axis + 1].add_to(&mut w, sign, f);
                w
            });
            for n in 0..count {
                let g = k * d.end[n][0];
                let even = self.modes[n].n[axis] % 2;
                let rows = [both[even as usize].row(d.shape_of[n]), both[1 - even as usize].row(d.shape_of[n])];
                let (re, im) = a.row_mut(n);
                for (j, (re, im)) in re.iter_mut().zip(im).enumerate() {
                    let o = n + j;
                    let (sr, si) = rows[(self.modes[o].n[axis] % 2) as usize];
                    let gg = g * d.end[o][0];
                    let s = d.shape_of[o];
                    *re -= gg * si[s];
                    *im += gg * sr[s];
                }
            }
        }
        System { coupled: self, count, factored: a.factor() }
    }
    pub fn shape(&self, n: usize, p: DVec3) -> f64 {
        (0..3).map(|a| axis_shape(self.modes[n].n[a], p[a], self.size_m[a])).product()
    }
}

impl System<'_> {
    pub fn solve(&self, source: DVec3) -> Vec<Complex64> {
        let b: Vec<f64> = (0..self.count).map(|n| 4.0 * PI * self.coupled.shape(n, source)).collect();
        self.factored.solve(&b)
    }
    pub fn pressure(&self, x: &[Complex64], p: DVec3) -> Complex64 {
        (0..self.count).map(|n| x[n] * self.coupled.shape(n, p)).sum()
    }
}
