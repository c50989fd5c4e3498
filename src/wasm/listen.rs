//! What is listened to, and what is read off a recording: for the workers alone.

use std::collections::BTreeMap;

use js_sys::{Float32Array, Uint8Array};
use serde::Serialize;
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

use super::cross::{as_text, js_error, nothing_open, to_js};
use crate::bands::BANDS;
use crate::error::Finding;
use crate::listen::{
    DRY_SOUNDS, DrySound, HeardLevel, Noise, Pickup, Response, ToSeat, dry_sound, heard_level,
    render,
};
use crate::recording::{self, Reading};
use crate::scenario;
use crate::simulate::{Memory, Prepared};

/// What `open` answers.
#[derive(Serialize)]
struct Opened {
    findings: Vec<Finding>,
}

/// What `level` answers.
#[derive(Serialize)]
struct Level {
    loudness_lkfs: f64,
    peak: f64,
}

impl From<HeardLevel> for Level {
    fn from(heard: HeardLevel) -> Self {
        Self {
            loudness_lkfs: heard.loudness_lkfs,
            peak: heard.peak,
        }
    }
}

/// One band of a reading; what it does not carry is `null`.
#[derive(Serialize)]
struct BandRead {
    center_hz: f64,
    above_noise_db: Option<f64>,
    edt_s: Option<f64>,
    t20_s: Option<f64>,
    t30_s: Option<f64>,
    c50_db: Option<f64>,
    c80_db: Option<f64>,
    refused: Vec<String>,
}

/// What `read_recording` answers: bands, or the sentence that says why not.
#[derive(Default, Serialize)]
struct Read {
    problem: Option<String>,
    sample_rate_hz: f64,
    channels: usize,
    duration_s: f64,
    octaves: Vec<BandRead>,
    thirds: Vec<BandRead>,
}

/// Renders the plans of a document for two ears, and keeps what it rendered until a plan changes.
#[wasm_bindgen]
pub struct Listener {
    prepared: Option<Prepared>,
    memory: Memory,
    noise: Noise,
    /// By plan, with what each was rendered from.
    rendered: BTreeMap<usize, (ToSeat, Response)>,
    renderings: usize,
}

#[wasm_bindgen]
impl Listener {
    /// With nothing open.
    #[wasm_bindgen(constructor)]
    #[must_use]
    pub fn new() -> Self {
        Self {
            prepared: None,
            memory: Memory::default(),
            noise: Noise::new(Pickup::Head),
            rendered: BTreeMap::new(),
            renderings: 0,
        }
    }

    /// Makes the noise of one of the 24 bands, which any response needs: whoever does so beforehand does not wait for it later.
    pub fn make_noise(&mut self, band: usize) {
        if band < BANDS {
            self.noise.band(band);
        }
    }

    /// Takes a document, or says what is wrong with it.
    ///
    /// # Errors
    /// An `Error` with `code` and `field` if the value is not plain data.
    pub fn open(&mut self, document: &JsValue) -> Result<JsValue, JsValue> {
        let findings = match scenario::from_json(&as_text(document)?) {
            Ok(scenario) => {
                self.prepared = Some(Prepared::after(scenario, self.prepared.as_ref()));
                Vec::new()
            }
            Err(error) => error.findings,
        };
        to_js(&Opened { findings })
    }

    /// The response of a plan, one series for each way from a loudspeaker to an ear: left to left, left to right, right to left,
    /// right to right, one after the other, at 48 kHz. One loudspeaker alone plays both channels at half their pressure. A
    /// plan that has not changed is not rendered again.
    ///
    /// # Errors
    /// An `Error` with `code` and a sentence if there is nothing to hear.
    pub fn response(&mut self, plan: usize) -> Result<Float32Array, JsValue> {
        let response = self.rendered(plan)?;
        let [left, right] = [response.samples.first(), response.samples.last()];
        let mut all = Vec::new();
        let share = if response.samples.len() == 1 {
            0.5
        } else {
            1.0
        };
        for samples in [left, right].into_iter().flatten().flatten() {
            all.extend(samples.iter().map(|sample| share * sample));
        }
        Ok(Float32Array::from(&all[..]))
    }

    /// How loud a sound comes out in a plan: `loudness_lkfs`, K-weighted after ITU-R BS.1770, ungated, over the length of the
    /// sound, and `peak`, the largest sample of it over and over.
    ///
    /// # Errors
    /// As [`Self::response`].
    pub fn level(&mut self, plan: usize, left: &[f32], right: &[f32]) -> Result<JsValue, JsValue> {
        let response = self.rendered(plan)?;
        let heard = if response.samples.len() == 1 {
            let both: Vec<f32> = left.iter().zip(right).map(|(l, r)| 0.5 * (l + r)).collect();
            heard_level(&[&both], &response.samples)
        } else {
            heard_level(&[left, right], &response.samples)
        };
        to_js(&Level::from(heard))
    }

    /// How many responses were rendered since the beginning.
    #[must_use]
    pub fn renderings(&self) -> usize {
        self.renderings
    }

    /// One round of a sound without a room at 48 kHz: `strings`, `drum`, `vowels`, `click` or `burst`.
    ///
    /// # Errors
    /// An `Error` with `code` if there is no such sound.
    pub fn dry(&self, name: &str) -> Result<Float32Array, JsValue> {
        let sound = DRY_SOUNDS.into_iter().find(|sound| name_of(*sound) == name);
        let sound =
            sound.ok_or_else(|| js_error("no-such-name", "sound", "There is no such sound."))?;
        Ok(Float32Array::from(&dry_sound(sound)[..]))
    }

    /// A WAV file of two channels, 24 bits.
    ///
    /// # Errors
    /// An `Error` with a sentence if there is too much of it.
    pub fn wav(
        &self,
        left: &[f32],
        right: &[f32],
        sample_rate_hz: u32,
    ) -> Result<Uint8Array, JsValue> {
        let bytes = recording::write_wav(&[left, right], sample_rate_hz);
        let bytes = bytes.map_err(|words| js_error("out-of-limits", "sound", &words))?;
        Ok(Uint8Array::from(&bytes[..]))
    }

    /// Reads the response in a WAV file.
    ///
    /// # Errors
    /// An `Error` if the answer cannot cross; what is wrong with the file is in the answer.
    pub fn read_recording(&self, bytes: &[u8]) -> Result<JsValue, JsValue> {
        let read = match recording::read_recording(bytes) {
            Ok(reading) => Read::from(reading),
            Err(problem) => Read {
                problem: Some(problem),
                ..Read::default()
            },
        };
        to_js(&read)
    }

    fn rendered(&mut self, plan: usize) -> Result<&Response, JsValue> {
        let prepared = self.prepared.as_ref().ok_or_else(nothing_open)?;
        let to_seat = prepared.to_seat(plan, Pickup::Head, true, &mut self.memory);
        let to_seat = to_seat.map_err(|words| js_error("nothing-to-hear", "plan", &words))?;
        let known = self
            .rendered
            .remove(&plan)
            .filter(|known| known.0 == to_seat);
        let made = known.unwrap_or_else(|| {
            self.renderings += 1;
            let response = render(&to_seat, &mut self.noise);
            (to_seat, response)
        });
        self.rendered.insert(plan, made);
        self.rendered
            .get(&plan)
            .map(|made| &made.1)
            .ok_or_else(nothing_open)
    }
}

impl Default for Listener {
    fn default() -> Self {
        Self::new()
    }
}

fn name_of(sound: DrySound) -> &'static str {
    match sound {
        DrySound::Click => "click",
        DrySound::Strings => "strings",
        DrySound::Drum => "drum",
        DrySound::Vowels => "vowels",
        DrySound::Burst => "burst",
    }
}

impl From<Reading> for Read {
    fn from(reading: Reading) -> Self {
        let bands = |bands: Vec<recording::Band>| bands.into_iter().map(BandRead::from).collect();
        Self {
            problem: None,
            sample_rate_hz: reading.sample_rate_hz,
            channels: reading.channels,
            duration_s: reading.duration_s,
            octaves: bands(reading.octaves),
            thirds: bands(reading.thirds),
        }
    }
}

impl From<recording::Band> for BandRead {
    fn from(band: recording::Band) -> Self {
        let figures = band.figures;
        Self {
            center_hz: band.center_hz,
            above_noise_db: figures.above_noise_db,
            edt_s: figures.edt_s,
            t20_s: figures.t20_s,
            t30_s: figures.t30_s,
            c50_db: figures.c50_db,
            c80_db: figures.c80_db,
            refused: figures.refused,
        }
    }
}
