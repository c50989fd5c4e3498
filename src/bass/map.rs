//! The bass over the floor at ear height: level of all sources together, and how even it is.

use glam::DVec3;
use num_complex::Complex64;

use super::coupled::Coupled;
use super::modes::{Mode, axis_shape};
use crate::numeric::energy_to_db;

/// Nominal middles of the third-octaves that are mapped, Hz.
///
/// # Source
/// IEC 61260-1:2014, nominal mid-band frequencies.
const LAYERS_HZ: [f64; 8] = [25.0, 31.5, 40.0, 50.0, 63.0, 80.0, 100.0, 125.0];

/// Half a third-octave as a ratio of frequencies, 10^(1/20).
const HALF_BAND: f64 = 1.122_018_454;

/// Widest distance between places, m, as long as there are not too many.
const STEP_M: f64 = 0.1;

/// Most places.
const MOST_PLACES: f64 = 4000.0;

/// Least energy that has a level, so that silence is a number.
const LEAST_ENERGY: f64 = 1e-20;

/// Levels on a grid over the floor.
#[derive(Clone, Debug, PartialEq)]
pub struct Map {
    /// Middle of the band of each layer, Hz.
    pub frequency_hz: Vec<f64>,
    /// Places from left to right, m.
    pub x_m: Vec<f64>,
    /// Places from front to back, m.
    pub y_m: Vec<f64>,
    /// Level re one source's free field at 1 m, dB: layer by layer, in it row by row from the front, in it left to right.
    pub level_db: Vec<f64>,
    /// Standard deviation of a place's levels over the layers, dB, row by row from the front.
    pub unevenness_db: Vec<f64>,
}

/// A place that hears the bass more evenly.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EvenerPlace {
    /// From the left wall, m.
    pub x_m: f64,
    /// From the front wall, m.
    pub y_m: f64,
    /// Standard deviation of the third-octave levels there, dB.
    pub unevenness_db: f64,
    /// The same at the place asked about, dB.
    pub from_db: f64,
}

impl Map {
    /// The place with the least unevenness within a distance of another one, if that one is not it.
    #[must_use]
    pub fn evener_within(&self, x_m: f64, y_m: f64, within_m: f64) -> Option<EvenerPlace> {
        let nearest = |places: &[f64], at: f64| {
            (0..places.len())
                .min_by(|&a, &b| (places[a] - at).abs().total_cmp(&(places[b] - at).abs()))
        };
        let columns = self.x_m.len();
        let here = nearest(&self.y_m, y_m)? * columns + nearest(&self.x_m, x_m)?;
        let place = |i: usize| (self.x_m[i % columns], self.y_m[i / columns]);
        let away_m = |i: usize| (place(i).0 - x_m).hypot(place(i).1 - y_m);
        let best = (0..self.unevenness_db.len())
            .filter(|&i| away_m(i) <= within_m)
            .min_by(|&a, &b| self.unevenness_db[a].total_cmp(&self.unevenness_db[b]))?;
        (best != here).then(|| EvenerPlace {
            x_m: place(best).0,
            y_m: place(best).1,
            unevenness_db: self.unevenness_db[best],
            from_db: self.unevenness_db[here],
        })
    }
}

/// Gathers energies frequency by frequency.
pub(super) struct Mapper {
    x_m: Vec<f64>,
    y_m: Vec<f64>,
    /// φ of each number of half waves at each place.
    along_x: Vec<Vec<f64>>,
    along_y: Vec<Vec<f64>>,
    /// φ along z of each note at ear height.
    at_ear: Vec<f64>,
    modes: Vec<Mode>,
    layers: Vec<Layer>,
}

struct Layer {
    middle_hz: f64,
    count: f64,
    energy: Vec<f64>,
}

impl Mapper {
    /// For a floor of the room, ears at `ear_m` above it.
    pub(super) fn new(coupled: &Coupled, size_m: DVec3, ear_m: f64) -> Self {
        let step_m = STEP_M.max((size_m.x * size_m.y / MOST_PLACES).sqrt());
        let [x_m, y_m] = [size_m.x, size_m.y].map(|length_m| places(length_m, step_m));
        let modes = coupled.modes().to_vec();
        let most = |axis: usize| modes.iter().map(|mode| mode.n[axis]).max().unwrap_or(0);
        let along = |axis: usize, at_m: &[f64]| -> Vec<Vec<f64>> {
            let row = |n| {
                at_m.iter()
                    .map(|&at_m| axis_shape(n, at_m, size_m[axis]))
                    .collect()
            };
            (0..=most(axis)).map(row).collect()
        };
        let layer = |middle_hz: f64| Layer {
            middle_hz,
            count: 0.0,
            energy: vec![0.0; x_m.len() * y_m.len()],
        };
        let reached = |hz: &f64| hz * HALF_BAND <= coupled.stops_at_hz();
        Self {
            along_x: along(0, &x_m),
            along_y: along(1, &y_m),
            at_ear: modes
                .iter()
                .map(|mode| axis_shape(mode.n[2], ear_m, size_m.z))
                .collect(),
            modes,
            layers: LAYERS_HZ.into_iter().filter(reached).map(layer).collect(),
            x_m,
            y_m,
        }
    }

    /// Adds the field of all sources together, if a layer holds the frequency.
    pub(super) fn add(&mut self, frequency_hz: f64, amplitudes: &[Vec<Complex64>]) {
        let holds = |layer: &Layer| {
            (layer.middle_hz / HALF_BAND..layer.middle_hz * HALF_BAND).contains(&frequency_hz)
        };
        let Some(index) = self.layers.iter().position(holds) else {
            return;
        };
        let [re, im] = [
            self.field(amplitudes, |a| a.re),
            self.field(amplitudes, |a| a.im),
        ];
        let layer = &mut self.layers[index];
        layer.count += 1.0;
        for ((energy, re), im) in layer.energy.iter_mut().zip(re).zip(im) {
            *energy += re * re + im * im;
        }
    }

    /// One part of the pressure at every place: summed over z for all places at once, then over x, then over y.
    fn field(&self, amplitudes: &[Vec<Complex64>], part: fn(Complex64) -> f64) -> Vec<f64> {
        let columns = self.x_m.len();
        let mut by_y = vec![vec![0.0; columns]; self.along_y.len()];
        for (i, mode) in self.modes.iter().enumerate() {
            let sum: f64 = amplitudes.iter().map(|one| part(one[i])).sum();
            let row = &mut by_y[mode.n[1] as usize];
            add_scaled(row, sum * self.at_ear[i], &self.along_x[mode.n[0] as usize]);
        }
        let mut field = vec![0.0; columns * self.y_m.len()];
        for (row, at_y) in field.chunks_exact_mut(columns).enumerate() {
            for (along_y, along_x) in self.along_y.iter().zip(&by_y) {
                add_scaled(at_y, along_y[row], along_x);
            }
        }
        field
    }

    pub(super) fn finish(self) -> Map {
        let heard: Vec<Layer> = self
            .layers
            .into_iter()
            .filter(|layer| layer.count > 0.0)
            .collect();
        let level =
            |layer: &Layer, energy: &f64| energy_to_db((energy / layer.count).max(LEAST_ENERGY));
        let level_db: Vec<f64> = heard
            .iter()
            .flat_map(|layer| layer.energy.iter().map(move |energy| level(layer, energy)))
            .collect();
        Map {
            unevenness_db: deviations(&level_db, self.x_m.len() * self.y_m.len()),
            frequency_hz: heard.iter().map(|layer| layer.middle_hz).collect(),
            x_m: self.x_m,
            y_m: self.y_m,
            level_db,
        }
    }
}

/// Middles of equal cells over a length.
fn places(length_m: f64, step_m: f64) -> Vec<f64> {
    let count = (length_m / step_m).round().max(1.0) as u32;
    let cell_m = length_m / f64::from(count);
    (0..count).map(|i| cell_m * (f64::from(i) + 0.5)).collect()
}

fn add_scaled(to: &mut [f64], factor: f64, from: &[f64]) {
    for (to, from) in to.iter_mut().zip(from) {
        *to += factor * from;
    }
}

/// Standard deviation over the layers at each place.
fn deviations(level_db: &[f64], places: usize) -> Vec<f64> {
    let at = |place: usize| level_db.iter().skip(place).step_by(places);
    let layers = (level_db.len() / places).max(1) as f64;
    let deviation = |place: usize| {
        let mean = at(place).sum::<f64>() / layers;
        (at(place).map(|db| (db - mean).powi(2)).sum::<f64>() / layers).sqrt()
    };
    (0..places).map(deviation).collect()
}
