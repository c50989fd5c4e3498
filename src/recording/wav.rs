//! A recording out of the bytes of a WAV file, and samples into such a file. Whatever the bytes are, reading ends, takes no
//! more memory than they warrant, and answers with samples or with one sentence.

use std::io::Cursor;

use hound::{SampleFormat, WavReader, WavSpec, WavWriter};

/// Largest file that is read, bytes: two channels of 30 s at 192 kHz in 32 bits are 46 MB.
pub const MOST_BYTES: usize = 64 << 20;

/// Rates that are read, Hz.
const RATES_HZ: (u32, u32) = (8_000, 384_000);

/// Shortest recording that can hold a decay, s.
const LEAST_DURATION_S: f64 = 0.05;

/// What is kept of a channel before and after its direct sound, s: room for a filter to ring into, and longer than any room at
/// home decays.
pub(super) const KEPT_S: (f64, f64) = (0.2, 12.0);

/// Level re the peak at which the direct sound begins, dB.
///
/// # Source
/// ISO 3382-1:2009, A.3.4 (from memory).
pub(super) const ONSET_DB: f64 = -20.0;

/// A recorded response.
#[derive(Clone, Debug, PartialEq)]
pub struct Recorded {
    /// Samples per second.
    pub sample_rate_hz: f64,
    /// Length of the whole recording, s.
    pub duration_s: f64,
    /// One or two channels, full scale 1: of each what is read, from 0.2 s before its direct sound to 12 s after.
    pub channels: Vec<Vec<f32>>,
}

/// Reads a WAV file of 8 to 32 bits or of 32-bit floats.
///
/// Samples are gone through twice and kept once, and only those that are read: what is taken of memory depends on the rate, not
/// on the length of the file.
///
/// # Errors
/// A sentence that says what is wrong with the file.
pub fn read_wav(bytes: &[u8]) -> Result<Recorded, String> {
    if bytes.len() > MOST_BYTES {
        return Err(format!(
            "The file has {} MB; at most {} MB are read. Cut the silence off its end.",
            bytes.len() >> 20,
            MOST_BYTES >> 20
        ));
    }
    let reader = WavReader::new(Cursor::new(bytes)).map_err(|error| not_read(&error))?;
    let spec = reader.spec();
    check_form(spec)?;
    let channels = usize::from(spec.channels);
    let mut peaks = vec![0.0_f32; channels];
    let mut count = 0;
    each_sample(reader, |channel, sample| {
        count += 1;
        // A float file may hold any number; squares of huge ones would run over.
        if sample.is_nan() || sample.abs() > MOST_SAMPLE {
            return Err("The file holds values that are no sound: it may be damaged.".to_owned());
        }
        peaks[channel] = peaks[channel].max(sample.abs());
        Ok(())
    })?;
    let sample_rate_hz = f64::from(spec.sample_rate);
    let duration_s = (count / channels) as f64 / sample_rate_hz;
    check_sound(duration_s, &peaks)?;
    let mut kept: Vec<Kept> = peaks
        .iter()
        .map(|peak| Kept::new(*peak, sample_rate_hz, count / channels))
        .collect();
    let again = WavReader::new(Cursor::new(bytes)).map_err(|error| not_read(&error))?;
    each_sample(again, |channel, sample| {
        kept[channel].take(sample);
        Ok(())
    })?;
    Ok(Recorded {
        sample_rate_hz,
        duration_s,
        channels: kept.into_iter().map(|kept| kept.samples).collect(),
    })
}

/// What is kept of one channel.
struct Kept {
    limit: f32,
    /// Most samples before the direct sound, and from it on.
    most: (usize, usize),
    samples: Vec<f32>,
    /// Where the direct sound begins among them.
    onset: Option<usize>,
}

impl Kept {
    fn new(peak: f32, sample_rate_hz: f64, count: usize) -> Self {
        let [before, after] = [KEPT_S.0, KEPT_S.1].map(|s| (s * sample_rate_hz) as usize);
        Self {
            limit: (f64::from(peak) * 10f64.powf(ONSET_DB / 20.0)) as f32,
            most: (before, after),
            samples: Vec::with_capacity(count.min(2 * before + after)),
            onset: None,
        }
    }

    fn take(&mut self, sample: f32) {
        let (before, after) = self.most;
        if self.onset.is_none() && sample.abs() >= self.limit {
            self.drop_all_but(before);
            self.onset = Some(self.samples.len());
        }
        match self.onset {
            Some(onset) if self.samples.len() - onset >= after => {}
            None if self.samples.len() >= 2 * before => {
                self.drop_all_but(before);
                self.samples.push(sample);
            }
            _ => self.samples.push(sample),
        }
    }

    fn drop_all_but(&mut self, last: usize) {
        let first = self.samples.len().saturating_sub(last);
        self.samples.drain(..first);
    }
}

fn not_read(error: &hound::Error) -> String {
    match error {
        hound::Error::IoError(_) => "The file ends in the middle: it is not whole.".to_owned(),
        hound::Error::Unsupported => "This kind of WAV file is packed in a way that is not read: \
            save it as plain samples of 16, 24 or 32 bits."
            .to_owned(),
        error => format!("This is not a WAV file that can be read ({error})."),
    }
}

fn check_form(spec: WavSpec) -> Result<(), String> {
    if spec.channels > 2 {
        return Err(format!(
            "The file has {} channels; one or two are read. Save the one you want to read.",
            spec.channels
        ));
    }
    if !(RATES_HZ.0..=RATES_HZ.1).contains(&spec.sample_rate) {
        return Err(format!(
            "The file has {} samples a second; {} to {} are read.",
            spec.sample_rate, RATES_HZ.0, RATES_HZ.1
        ));
    }
    Ok(())
}

/// Hands over every sample with the number of its channel, full scale 1.
fn each_sample(
    reader: WavReader<Cursor<&[u8]>>,
    mut take: impl FnMut(usize, f32) -> Result<(), String>,
) -> Result<(), String> {
    let spec = reader.spec();
    let channels = (0..usize::from(spec.channels)).cycle();
    if spec.sample_format == SampleFormat::Float {
        for (sample, channel) in reader.into_samples::<f32>().zip(channels) {
            take(channel, sample.map_err(|error| not_read(&error))?)?;
        }
    } else {
        let full = f64::from(1_u32 << (spec.bits_per_sample - 1).min(31));
        for (sample, channel) in reader.into_samples::<i32>().zip(channels) {
            let sample = f64::from(sample.map_err(|error| not_read(&error))?);
            take(channel, (sample / full) as f32)?;
        }
    }
    Ok(())
}

fn check_sound(duration_s: f64, peaks: &[f32]) -> Result<(), String> {
    if duration_s < LEAST_DURATION_S {
        return Err(format!(
            "The recording lasts {:.0} ms; a decay needs {:.0} ms at least.",
            1e3 * duration_s,
            1e3 * LEAST_DURATION_S
        ));
    }
    if peaks.iter().all(|peak| *peak == 0.0) {
        return Err("The recording is silent from end to end.".to_owned());
    }
    Ok(())
}

/// Largest value of a sample that is taken for sound, re full scale.
const MOST_SAMPLE: f32 = 1e9;

/// A WAV file of 24-bit samples, channels side by side; what exceeds full scale is held there.
///
/// # Errors
/// A sentence, if there are no channels, more than two, or more samples than a file can hold.
pub fn write_wav(channels: &[&[f32]], sample_rate_hz: u32) -> Result<Vec<u8>, String> {
    let length = channels.iter().map(|channel| channel.len()).min();
    let length = length.unwrap_or(0);
    let spec = WavSpec {
        channels: u16::try_from(channels.len()).unwrap_or(u16::MAX),
        sample_rate: sample_rate_hz,
        bits_per_sample: 24,
        sample_format: SampleFormat::Int,
    };
    if !(1..=2).contains(&channels.len()) || length > MOST_BYTES {
        return Err("Only one or two channels of a few minutes can be written.".to_owned());
    }
    let mut bytes = Cursor::new(Vec::with_capacity(64 + 3 * channels.len() * length));
    let write = |bytes: &mut Cursor<Vec<u8>>| -> Result<(), hound::Error> {
        let mut writer = WavWriter::new(bytes, spec)?;
        for n in 0..length {
            for channel in channels {
                writer.write_sample((channel[n].clamp(-1.0, 1.0) * FULL_24_BITS).round() as i32)?;
            }
        }
        writer.finalize()
    };
    write(&mut bytes).map_err(|error| format!("The file could not be written ({error})."))?;
    Ok(bytes.into_inner())
}

/// The largest sample of 24 bits.
const FULL_24_BITS: f32 = 8_388_607.0;
