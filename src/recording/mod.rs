//! Reads a recorded impulse response: from the bytes of a file to decay times and clarity per band, as ISO 3382 reads them,
//! or to words on why not. Left out: how the response was recorded, loudspeaker and microphone included.

mod band_filter;
mod impulse;
mod noise;
mod wav;

pub use band_filter::{BandFilter, Width};
pub use impulse::{BandFigures, Impulse};
pub use noise::{Crossing, crossing};
pub use wav::{MOST_BYTES, Recorded, read_wav, write_wav};

use crate::bands::{BANDS, NOMINAL_HZ, exact_hz};

/// Bands of the third octaves that are middles of octaves: 63 Hz … 8 kHz.
const OCTAVE_BANDS: [usize; 8] = [1, 4, 7, 10, 13, 16, 19, 22];

/// A recorded response, read.
#[derive(Clone, Debug, PartialEq)]
pub struct Reading {
    /// Samples per second.
    pub sample_rate_hz: f64,
    /// Channels in the file; figures are means over those that carry them.
    pub channels: usize,
    /// Length of the recording, s.
    pub duration_s: f64,
    /// Octaves, 63 Hz … 8 kHz.
    pub octaves: Vec<Band>,
    /// Third octaves, 50 Hz … 10 kHz.
    pub thirds: Vec<Band>,
}

/// What is read in one band.
#[derive(Clone, Debug, PartialEq)]
pub struct Band {
    /// Nominal middle, Hz.
    pub center_hz: f64,
    /// Means over the channels.
    pub figures: BandFigures,
}

/// Reads a response from the bytes of a WAV file.
///
/// # Errors
/// A sentence that says what is wrong with the file.
pub fn read_recording(bytes: &[u8]) -> Result<Reading, String> {
    read_response(&read_wav(bytes)?)
}

/// Reads a recorded response.
///
/// # Errors
/// A sentence, where nothing can be read in any band.
pub fn read_response(recorded: &Recorded) -> Result<Reading, String> {
    let heard = |samples: &&Vec<f32>| samples.iter().any(|sample| *sample != 0.0);
    let impulses: Vec<Impulse> = recorded
        .channels
        .iter()
        .filter(heard)
        .map(|samples| Impulse::new(samples, recorded.sample_rate_hz))
        .collect();
    let band = |width: Width| {
        let impulses = &impulses;
        move |band: usize| Band {
            center_hz: NOMINAL_HZ[band],
            figures: mean_figures(impulses, exact_hz(band), width),
        }
    };
    let octaves: Vec<Band> = OCTAVE_BANDS.into_iter().map(band(Width::Octave)).collect();
    if octaves.iter().all(|octave| octave.figures.edt_s.is_none()) {
        return Err(
            "No decay can be read in any band: this may not be the response to a short bang or a sweep turned into one, or \
             the noise is too loud."
                .to_owned(),
        );
    }
    Ok(Reading {
        sample_rate_hz: recorded.sample_rate_hz,
        channels: recorded.channels.len(),
        duration_s: recorded.duration_s,
        octaves,
        thirds: (0..BANDS).map(band(Width::Third)).collect(),
    })
}

/// Figures of a band, each the mean over the channels that carry it; the words of a channel that does not.
fn mean_figures(impulses: &[Impulse], center_hz: f64, width: Width) -> BandFigures {
    let each: Vec<BandFigures> = impulses
        .iter()
        .map(|impulse| impulse.read(center_hz, width))
        .collect();
    let mean = |figure: fn(&BandFigures) -> Option<f64>| {
        let told: Vec<f64> = each.iter().filter_map(figure).collect();
        (!told.is_empty()).then(|| told.iter().sum::<f64>() / told.len() as f64)
    };
    let fewest = each.iter().min_by_key(|figures| figures.refused.len());
    BandFigures {
        above_noise_db: mean(|figures| figures.above_noise_db),
        edt_s: mean(|figures| figures.edt_s),
        t20_s: mean(|figures| figures.t20_s),
        t30_s: mean(|figures| figures.t30_s),
        c50_db: mean(|figures| figures.c50_db),
        c80_db: mean(|figures| figures.c80_db),
        refused: fewest.map_or_else(Vec::new, |figures| figures.refused.clone()),
    }
}
