//! Holes and slots in a stiff board: mass and friction of the air in them and beside them.

use std::f64::consts::{FRAC_PI_2, FRAC_PI_4, PI, TAU};

use num_complex::Complex64;

use super::layer::Layer;

/// Dynamic viscosity of air, Pa s.
///
/// # Source
/// Allard & Atalla, Propagation of Sound in Porous Media, 2nd ed. (2009): 1.84e-5; temperature moves it by 0.3 % per 1 °C.
const VISCOSITY_PA_S: f64 = 1.84e-5;

/// End of a round hole alone in a wide board, over its radius.
///
/// # Source
/// 8 / (3 π): Rayleigh; also Ingard, J. Acoust. Soc. Am. 25 (1953) 1037–1061.
const ROUND_END: f64 = 8.0 / (3.0 * PI);

/// The openings of a board.
#[derive(Clone, Copy, Debug)]
pub(super) struct Openings {
    /// Thickness of the board, m.
    thickness_m: f64,
    /// Air that swings along on each side, as a length of the opening, m.
    end_m: f64,
    /// Open share of the board.
    pub share: f64,
    /// From one opening to the next, m.
    pitch_m: f64,
    /// Twice the area over the edge of an opening, m.
    hydraulic_m: f64,
    /// Steady resistance of an opening over its length, Pa s/m².
    resistivity: f64,
}

impl Openings {
    /// The openings of a layer; none for a layer that is no perforated or slotted board.
    pub fn of(layer: &Layer) -> Option<Self> {
        match *layer {
            Layer::Perforated {
                thickness_m,
                hole_m,
                pitch_m,
            } => Some(Self::round(thickness_m, hole_m, pitch_m)),
            Layer::Slotted {
                thickness_m,
                slot_m,
                pitch_m,
            } => Some(Self::long(thickness_m, slot_m, pitch_m)),
            _ => None,
        }
    }

    /// Round holes of diameter d in a square grid of pitch b.
    ///
    /// ```text
    /// ε = π d² / (4 b²),   σ = 32 η / d²
    /// end = 8 / (3 π) d/2 (1 − 1.13 x − 0.09 x² + 0.27 x³),   x = d / b
    /// ```
    ///
    /// # Source
    /// Correction of the end for the neighbours: Ingard 1953 as a polynomial in Allard & Atalla 2009, chapter 9; from memory.
    fn round(thickness_m: f64, hole_m: f64, pitch_m: f64) -> Self {
        let x = (hole_m / pitch_m).min(1.0);
        let neighbours = 1.0 + x * (-1.13 + x * (-0.09 + x * 0.27));
        Self {
            thickness_m,
            end_m: ROUND_END * hole_m / 2.0 * neighbours,
            share: FRAC_PI_4 * x * x,
            pitch_m,
            hydraulic_m: hole_m / 2.0,
            resistivity: 32.0 * VISCOSITY_PA_S / (hole_m * hole_m),
        }
    }

    /// Long slots of width w at pitch b.
    ///
    /// ```text
    /// ε = w / b,   σ = 12 η / w²
    /// end = −(w / π) ln sin(π ε / 2)
    /// ```
    ///
    /// # Source
    /// Smits & Kosten, Acustica 1 (1951) 114–122, as in Cox & D'Antonio, Acoustic Absorbers and Diffusers; from memory.
    fn long(thickness_m: f64, slot_m: f64, pitch_m: f64) -> Self {
        let share = (slot_m / pitch_m).min(1.0);
        Self {
            thickness_m,
            end_m: -slot_m / PI * (FRAC_PI_2 * share).sin().ln(),
            share,
            pitch_m,
            hydraulic_m: slot_m,
            resistivity: 12.0 * VISCOSITY_PA_S / (slot_m * slot_m),
        }
    }

    /// Impedance of the board: pressure across it over the mean velocity.
    ///
    /// ```text
    /// Z = [j ω ρ l + √((σ t)² + 4 j ω ρ η l² / Λ²) + j ω ρ end Σ (ρ̃ − 1)] / ε,   l = t + 2 end
    /// ```
    ///
    /// Λ is the radius of a hole or the width of a slot; the sum counts the porous material that the ends reach into on
    /// either side. For wide holes the root tends to the (2 t / r + 3.4) √(2 η ω ρ) / 2 of a sharp edge.
    ///
    /// # Units
    /// - `density_kg_per_m3`: of air
    /// - `beside`: density of what touches the board on either side over that of air
    /// - returns: Pa s/m
    ///
    /// # Valid
    /// A board that does not move; openings and thickness small beside the wavelength, pitch below half of it; sound that is not
    /// loud enough to make jets.
    ///
    /// # Source
    /// Johnson, Koplik & Dashen, J. Fluid Mech. 176 (1987), for straight holes; ends and what touches them: Atalla & Sgard,
    /// J. Sound Vib. 303 (2007) 195–208; from memory.
    pub fn impedance(
        &self,
        frequency_hz: f64,
        density_kg_per_m3: f64,
        beside: [Complex64; 2],
    ) -> Complex64 {
        let inertia = Complex64::new(0.0, TAU * frequency_hz * density_kg_per_m3);
        let length_m = self.thickness_m + 2.0 * self.end_m;
        let edge = 4.0 * VISCOSITY_PA_S * (length_m / self.hydraulic_m).powi(2);
        let friction = ((self.resistivity * self.thickness_m).powi(2) + inertia * edge).sqrt();
        let heavier = beside[0] + beside[1] - 2.0;
        (inertia * (length_m + self.end_m * heavier) + friction) / self.share
    }

    /// Density that the air of an end has where a porous layer touches the board, over that of air.
    ///
    /// ```text
    /// ρ̃' = 1 + (ρ̃ − 1) (1 − exp(−4 π t / b))
    /// ```
    ///
    /// The flow into an opening evens out as exp(−2 π z / b): a thin layer holds a part of its energy only.
    pub fn density_beside(&self, porous: Complex64, thickness_m: f64) -> Complex64 {
        let within = 1.0 - (-2.0 * TAU * thickness_m / self.pitch_m).exp();
        1.0 + (porous - 1.0) * within
    }
}
