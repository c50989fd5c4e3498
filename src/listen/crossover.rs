//! Where modes give way to ways and noise, and where the treble ends.

use std::f64::consts::PI;

/// Share of the pressure above the joining frequency that ways and late sound keep at a frequency.
///
/// ```text
/// √w,   w = 3x² − 2x³,   x = log2(f / f_join) + ½, held to 0 … 1
/// ```
///
/// Energies add up to one, as in [`crate::seat::join`]: the two models do not agree in phase.
#[must_use]
pub fn upper_pressure(frequency_hz: f64, joining_hz: f64) -> f64 {
    upper_energy(frequency_hz, joining_hz).sqrt()
}

/// The same of the modes, below it.
#[must_use]
pub fn lower_pressure(frequency_hz: f64, joining_hz: f64) -> f64 {
    (1.0 - upper_energy(frequency_hz, joining_hz)).sqrt()
}

fn upper_energy(frequency_hz: f64, joining_hz: f64) -> f64 {
    if frequency_hz <= 0.0 {
        return 0.0;
    }
    let x = ((frequency_hz / joining_hz).log2() + 0.5).clamp(0.0, 1.0);
    x * x * (3.0 - 2.0 * x)
}

/// Pressure that is left near half the sample rate: all below 20 kHz, none at 24 kHz.
#[must_use]
pub fn held_back_treble(frequency_hz: f64) -> f64 {
    let x = ((frequency_hz - 20_000.0) / 4_000.0).clamp(0.0, 1.0);
    0.5 + 0.5 * (PI * x).cos()
}
