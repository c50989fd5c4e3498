//! Comb filter: the dips that one reflection makes in the response at the seat.

use crate::bands::{BAND_1K, BANDS, Banded};

/// Highest frequency at which dips are told, Hz.
const HIGHEST_HZ: f64 = 10_000.0;

/// Dips that are told per reflection; higher ones lie too close together to be heard one by one.
const MOST_DIPS: usize = 3;

/// Largest depth told, dB: beyond it a dip is as good as silence.
const MOST_DEPTH_DB: f64 = 60.0;

/// One dip.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dip {
    /// Where, Hz.
    pub frequency_hz: f64,
    /// From the peaks beside it, dB.
    pub depth_db: f64,
}

/// The lowest dips that a reflection makes, up to 10 kHz.
///
/// ```text
/// f_n = (n + ½) / Δt,   depth = 20 lg[(1 + g) / |1 − g|],   g = 10^(level / 20)
/// ```
///
/// # Units
/// - `delay_s`: after the direct sound, s; without one there is no dip
/// - `level_db`: re the direct sound, per band
///
/// # Source
/// Everest, The Master Handbook of Acoustics, 4th ed. 2001, comb filters. A reflection at a hard wall keeps its sign.
#[must_use]
pub fn comb_dips(delay_s: f64, level_db: &Banded) -> Vec<Dip> {
    if delay_s <= 0.0 {
        return Vec::new();
    }
    (0..MOST_DIPS)
        .map(|n| (n as f64 + 0.5) / delay_s)
        .take_while(|frequency_hz| *frequency_hz <= HIGHEST_HZ)
        .map(|frequency_hz| Dip {
            frequency_hz,
            depth_db: depth_db(level_db[band_of(frequency_hz)]),
        })
        .collect()
}

/// Depth of the dips of a reflection of some level re the direct sound, dB.
fn depth_db(level_db: f64) -> f64 {
    let g = 10f64.powf(level_db / 20.0);
    (20.0 * ((1.0 + g) / (1.0 - g).abs()).log10()).min(MOST_DEPTH_DB)
}

/// The band that a frequency lies in, or the nearest.
fn band_of(frequency_hz: f64) -> usize {
    let band = BAND_1K as f64 + 10.0 * (frequency_hz / 1000.0).log10();
    band.round().clamp(0.0, (BANDS - 1) as f64) as usize
}
