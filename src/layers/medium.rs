//! Air and porous material: impedance and wave number.

use num_complex::Complex64;

/// What a wave of one frequency meets in air or in a porous layer, before the angle is known.
#[derive(Clone, Copy, Debug)]
pub(super) struct Medium {
    /// Thickness, m.
    pub thickness_m: f64,
    /// Characteristic impedance over that of air.
    pub impedance: Complex64,
    /// Square of the wave number over that in air.
    pub index_squared: Complex64,
}

impl Medium {
    /// Air.
    pub fn air(thickness_m: f64) -> Self {
        Self {
            thickness_m,
            impedance: Complex64::ONE,
            index_squared: Complex64::ONE,
        }
    }

    /// A fibrous material.
    ///
    /// ```text
    /// y = f / σ
    /// Zc / (ρ c) = 1 + (0.070 − j 0.107) y^−0.632
    /// k / k0     = 1 + (0.109 − j 0.160) y^−0.618
    /// ```
    ///
    /// # Valid
    /// Stated for 0.01 < y < 1; well behaved below, where it is extrapolation. Fibrous materials of porosity near 1.
    ///
    /// # Source
    /// Miki, J. Acoust. Soc. Jpn (E) 11 (1990), Eq. (30) to (34).
    pub fn porous(thickness_m: f64, flow_resistivity: f64, frequency_hz: f64) -> Self {
        let resistance = flow_resistivity / frequency_hz;
        let index = 1.0 + Complex64::new(0.109, -0.160) * resistance.powf(0.618);
        Self {
            thickness_m,
            impedance: 1.0 + Complex64::new(0.070, -0.107) * resistance.powf(0.632),
            index_squared: index * index,
        }
    }

    /// Its density as sound finds it, over that of air.
    ///
    /// ```text
    /// ρ̃ = Zc k / ω
    /// ```
    pub fn density_ratio(&self) -> Complex64 {
        self.impedance * self.index_squared.sqrt()
    }
}
