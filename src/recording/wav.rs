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

/// A recorded response.
#[derive(Clone, Debug, PartialEq)]
pub struct Recorded {
    /// Samples per second.
    pub sample_rate_hz: f64,
    /// One or two channels of the same length, full scale 1.
    pub channels: Vec<Vec<f64>>,
}

/// Reads a WAV file of 8 to 32 bits or of 32-bit floats.
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
    // The header may promise more than the file holds.
    let most = bytes.len() / usize::from(spec.bits_per_sample / 8).max(1);
    let count = (reader.len() as usize).min(most);
    let samples = samples(reader, spec, count)?;
    check_samples(&samples, spec)?;
    let channels = usize::from(spec.channels);
    let channel = |first: usize| samples[first..].iter().step_by(channels).copied().collect();
    Ok(Recorded {
        sample_rate_hz: f64::from(spec.sample_rate),
        channels: (0..channels).map(channel).collect(),
    })
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

fn samples(
    reader: WavReader<Cursor<&[u8]>>,
    spec: WavSpec,
    count: usize,
) -> Result<Vec<f64>, String> {
    let mut samples = Vec::with_capacity(count);
    if spec.sample_format == SampleFormat::Float {
        for sample in reader.into_samples::<f32>() {
            samples.push(f64::from(sample.map_err(|error| not_read(&error))?));
        }
    } else {
        let full = f64::from(1_u32 << (spec.bits_per_sample - 1).min(31));
        for sample in reader.into_samples::<i32>() {
            samples.push(f64::from(sample.map_err(|error| not_read(&error))?) / full);
        }
    }
    Ok(samples)
}

fn check_samples(samples: &[f64], spec: WavSpec) -> Result<(), String> {
    let duration_s = samples.len() as f64 / f64::from(spec.channels) / f64::from(spec.sample_rate);
    if duration_s < LEAST_DURATION_S {
        return Err(format!(
            "The recording lasts {:.0} ms; a decay needs {:.0} ms at least.",
            1e3 * duration_s,
            1e3 * LEAST_DURATION_S
        ));
    }
    // A float file may hold any number; squares of huge ones would run over.
    if samples
        .iter()
        .any(|sample| sample.is_nan() || sample.abs() > MOST_SAMPLE)
    {
        return Err("The file holds values that are no sound: it may be damaged.".to_owned());
    }
    if samples.iter().all(|sample| *sample == 0.0) {
        return Err("The recording is silent from end to end.".to_owned());
    }
    Ok(())
}

/// Largest value of a sample that is taken for sound, re full scale.
const MOST_SAMPLE: f64 = 1e9;

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
