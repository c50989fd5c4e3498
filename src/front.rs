//! The face of a kind of kit as reflections meet it: complex reflection by angle on the fine grid of frequencies.

use std::sync::OnceLock;

use num_complex::Complex64;

use crate::absorber::Absorber;
use crate::air::Air;
use crate::numeric::through_four;
use crate::spectrum::{FINE, Spectrum, frequency_hz};

/// Steps of the table over the cosine of incidence, 0 … 1.
const STEPS: usize = 48;

/// Reflection of a kind's face; the table is computed at first use. Two are the same if they are made of the same in the
/// same air.
#[derive(Debug)]
pub struct Front {
    absorber: Absorber,
    air: Air,
    table: OnceLock<Vec<Spectrum<FINE>>>,
}

impl PartialEq for Front {
    fn eq(&self, other: &Self) -> bool {
        self.absorber == other.absorber && self.air == other.air
    }
}

impl Front {
    /// The front of an absorber in some air.
    #[must_use]
    pub fn new(absorber: Absorber, air: Air) -> Self {
        Self {
            absorber,
            air,
            table: OnceLock::new(),
        }
    }

    /// Pressure reflection factor at the face, at one angle.
    ///
    /// # Accuracy
    /// Interpolated over the cosine: within 0.01 from 0.1 up for builds up to 300 mm deep.
    #[must_use]
    pub fn reflection<const N: usize>(&self, cosine: f64) -> Spectrum<N> {
        let table = self.table.get_or_init(|| self.computed());
        let place = cosine.clamp(0.0, 1.0) * STEPS as f64;
        let first = (place as usize).saturating_sub(1).min(STEPS - 3);
        let weights = through_four(place - first as f64);
        let (apart, from) = (FINE / N, FINE / N / 2);
        let mut reflection = Spectrum::ZERO;
        for (row, weight) in table[first..].iter().zip(weights) {
            for i in 0..N {
                reflection.re[i] += weight * row.re[i * apart + from];
                reflection.im[i] += weight * row.im[i * apart + from];
            }
        }
        reflection
    }

    /// ρ c over the impedance at the face, at normal incidence.
    #[must_use]
    pub fn admittance(&self, frequency_hz: f64) -> Complex64 {
        self.absorber.admittance(frequency_hz, &self.air)
    }

    /// The table: a row per cosine.
    fn computed(&self) -> Vec<Spectrum<FINE>> {
        let cosines: Vec<f64> = (0..=STEPS).map(|i| i as f64 / STEPS as f64).collect();
        let mut rows = vec![Spectrum::ZERO; cosines.len()];
        for i in 0..FINE {
            let values = self
                .absorber
                .reflections(frequency_hz::<FINE>(i), &cosines, &self.air);
            for (row, value) in rows.iter_mut().zip(values) {
                (row.re[i], row.im[i]) = (value.re, value.im);
            }
        }
        rows
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bands::Banded;
    use crate::layers::Layer;

    fn worst(absorber: Absorber) -> f64 {
        let air = Air::at(20.0, 50.0);
        let front = Front::new(absorber, air);
        let mut worst: f64 = 0.0;
        for step in 0..180 {
            let cosine = 0.1 + 0.9 * f64::from(step) / 179.0;
            let table: Spectrum<FINE> = front.reflection(cosine);
            for i in 0..FINE {
                let exact = front
                    .absorber
                    .reflection(frequency_hz::<FINE>(i), cosine, &air);
                worst = worst.max((table.at(i) - exact).norm());
            }
        }
        worst
    }

    #[test]
    fn the_table_holds_between_its_angles() {
        let porous = |thickness_m, flow_resistivity_pa_s_per_m2| Layer::Porous {
            thickness_m,
            flow_resistivity_pa_s_per_m2,
        };
        let gap = |thickness_m| Layer::Gap { thickness_m };
        for layers in [
            vec![porous(0.05, 10_000.0)],
            vec![porous(0.1, 8_000.0), gap(0.2)],
            vec![porous(0.02, 50_000.0)],
            vec![porous(0.05, 5_000.0), gap(0.1)],
        ] {
            let error = worst(Absorber::Layers(layers.clone()));
            assert!(error < 0.01, "{layers:?}: {error}");
        }
        for absorption in [0.05, 0.5, 0.95] {
            let error = worst(Absorber::DataSheet {
                absorption: Banded::constant(absorption),
                depth_m: 0.06,
            });
            assert!(error < 0.01, "sheet {absorption}: {error}");
        }
    }
}
