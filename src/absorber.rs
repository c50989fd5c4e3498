//! What a piece of kit is made of: layers in front of the wall, a hard profile, or the figures of a data sheet.

use num_complex::Complex64;

use crate::air::Air;
use crate::bands::{BAND_1K, BANDS, Banded};
use crate::layers::{self, Layer};
use crate::reacting;
use crate::scatterer::Scatterer;

/// What a piece does to sound.
#[derive(Clone, Debug, PartialEq)]
pub enum Absorber {
    /// Layers from the room side to the wall.
    Layers(Vec<Layer>),
    /// A hard piece with a profile.
    Scatterer(Scatterer),
    /// Absorption as typed from a data sheet, and the depth of the piece in m.
    DataSheet {
        /// Absorption per band; may exceed 1.
        absorption: Banded,
        /// Depth, m.
        depth_m: f64,
    },
}

impl Absorber {
    /// Absorption at random incidence: computed from layers, small for a profile, or as typed.
    #[must_use]
    pub fn absorption(&self, air: &Air) -> Banded {
        match self {
            Self::Layers(layers) => layers::absorption_bands(layers, air),
            Self::Scatterer(_) => Scatterer::absorption(),
            Self::DataSheet { absorption, .. } => *absorption,
        }
    }

    /// How far it stands out from the wall, m.
    #[must_use]
    pub fn depth_m(&self) -> f64 {
        match self {
            Self::Layers(layers) => layers.iter().map(Layer::thickness_m).sum(),
            Self::Scatterer(scatterer) => scatterer.depth_m,
            Self::DataSheet { depth_m, .. } => *depth_m,
        }
    }

    /// Scattering that follows from what it is made of; none where only the eye can tell.
    #[must_use]
    pub fn scattering(&self, air: &Air) -> Option<Banded> {
        match self {
            Self::Scatterer(scatterer) => Some(scatterer.scattering(air)),
            Self::Layers(_) | Self::DataSheet { .. } => None,
        }
    }

    /// Pressure reflection factor at the face, of an endless piece.
    ///
    /// Layers react in bulk, see [`layers::reflection`]; a profile mirrors from its mean depth, see
    /// [`Scatterer::reflection`]; a data sheet knows neither angle nor phase and is taken for the
    /// locally reacting surface that [`reacting::impedance`] fits to it.
    ///
    /// # Units
    /// - `frequency_hz`: Hz, > 0
    /// - `cosine`: of the angle of incidence, 0 … 1
    /// - returns: ratio of pressures for exp(+jωt), at most 1 in magnitude
    #[must_use]
    pub fn reflection(&self, frequency_hz: f64, cosine: f64, air: &Air) -> Complex64 {
        self.reflections(frequency_hz, &[cosine], air)[0]
    }

    /// [`Self::reflection`] at several cosines, for hardly more work than one.
    #[must_use]
    pub fn reflections(&self, frequency_hz: f64, cosines: &[f64], air: &Air) -> Vec<Complex64> {
        match self {
            Self::Layers(layers) => layers::reflections(layers, frequency_hz, cosines, air),
            Self::Scatterer(scatterer) => {
                let one = |&cosine: &f64| scatterer.reflection(frequency_hz, cosine, air);
                cosines.iter().map(one).collect()
            }
            Self::DataSheet {
                absorption,
                depth_m,
            } => {
                let z = sheet_impedance(absorption, *depth_m, frequency_hz, air);
                let one = |&cosine: &f64| reacting::reflection(z, cosine);
                cosines.iter().map(one).collect()
            }
        }
    }

    /// Admittance of the face at normal incidence: ρ c over its surface impedance.
    ///
    /// # Units
    /// - `frequency_hz`: Hz, > 0
    /// - returns: ratio; 0 for a rigid face
    #[must_use]
    pub fn admittance(&self, frequency_hz: f64, air: &Air) -> Complex64 {
        match self {
            Self::Layers(layers) => {
                let z = layers::surface_impedance(layers, frequency_hz, 0.0, air);
                if z.is_finite() {
                    air.impedance_pa_s_per_m() / z
                } else {
                    Complex64::ZERO
                }
            }
            Self::Scatterer(scatterer) => scatterer.admittance(frequency_hz, air),
            Self::DataSheet {
                absorption,
                depth_m,
            } => sheet_impedance(absorption, *depth_m, frequency_hz, air).inv(),
        }
    }
}

/// The impedance fitted to a data sheet, that of the nearest band's absorption.
fn sheet_impedance(absorption: &Banded, depth_m: f64, frequency_hz: f64, air: &Air) -> Complex64 {
    reacting::impedance(
        absorption[band_of(frequency_hz)],
        depth_m,
        frequency_hz,
        air,
    )
}

/// The band in which a frequency lies, or the nearest.
fn band_of(frequency_hz: f64) -> usize {
    let bands_up = (10.0 * (frequency_hz / 1000.0).log10()).round();
    (bands_up + BAND_1K as f64).clamp(0.0, (BANDS - 1) as f64) as usize
}
