//! WAV files of every kind that is promised, and files that are none.

use std::io::Cursor;
use std::time::Instant;

use hound::{SampleFormat, WavSpec, WavWriter};
use seatward::recording::{MOST_BYTES, read_recording, read_wav, write_wav};

use crate::generator::Generator;

fn decay(n: usize) -> f64 {
    let mut random = Generator::new(n as u64);
    0.9 * (2.0 * random.unit() - 1.0) * 10f64.powf(-3.0 * n as f64 / 48_000.0 / 0.3)
}

/// A file of the form given, its channels the same decay, the second at half the level.
fn file(
    bits_per_sample: u16,
    sample_format: SampleFormat,
    channels: u16,
    sample_rate: u32,
) -> Vec<u8> {
    let spec = WavSpec {
        channels,
        sample_rate,
        bits_per_sample,
        sample_format,
    };
    let mut bytes = Cursor::new(Vec::new());
    let mut writer = WavWriter::new(&mut bytes, spec).expect("a form that hound writes");
    for n in 0..sample_rate as usize / 2 {
        for channel in 0..channels {
            let sample = decay(n) / f64::from(channel + 1);
            let written = if sample_format == SampleFormat::Float {
                writer.write_sample(sample as f32)
            } else {
                writer.write_sample(
                    (sample * (2f64.powi(i32::from(bits_per_sample) - 1) - 1.0)) as i32,
                )
            };
            written.expect("a sample in range");
        }
    }
    writer.finalize().expect("a whole file");
    bytes.into_inner()
}

#[test]
fn every_form_that_is_promised_is_read() {
    let forms = [
        (16, SampleFormat::Int),
        (24, SampleFormat::Int),
        (32, SampleFormat::Int),
        (32, SampleFormat::Float),
    ];
    for (bits, format) in forms {
        for channels in [1, 2] {
            for rate in [8_000, 44_100, 192_000] {
                let what = format!("{bits} bits, {format:?}, {channels} channels, {rate} Hz");
                let read = read_wav(&file(bits, format, channels, rate));
                let read = read.unwrap_or_else(|words| panic!("{what}: {words}"));
                assert_eq!(read.sample_rate_hz, f64::from(rate), "{what}");
                assert_eq!(read.channels.len(), usize::from(channels), "{what}");
                // Written to the nearest step towards 0 of a scale one step short.
                let step = 2f64.powi(1 - i32::from(bits.min(24)));
                for (number, channel) in read.channels.iter().enumerate() {
                    assert_eq!(channel.len(), rate as usize / 2, "{what}");
                    let off = |(n, sample): (usize, &f64)| {
                        (sample - decay(n) / (number + 1) as f64).abs()
                    };
                    let most = channel.iter().enumerate().map(off).fold(0.0, f64::max);
                    assert!(most < 2.1 * step, "{what}: off by {most}");
                }
            }
        }
    }
}

#[test]
fn what_is_written_is_read_again() {
    let left: Vec<f32> = (0..4800).map(|n| decay(n) as f32).collect();
    let right: Vec<f32> = left.iter().map(|sample| -sample).collect();
    let bytes = write_wav(&[&left, &right], 48_000).expect("a file");
    let read = read_wav(&bytes).expect("a file that is read");
    for (n, sample) in left.iter().enumerate() {
        assert!((read.channels[0][n] - f64::from(*sample)).abs() < 3e-7);
        assert!((read.channels[1][n] + f64::from(*sample)).abs() < 3e-7);
    }
    assert!(write_wav(&[], 48_000).is_err());
}

/// The sentence for a file.
fn refusal(bytes: &[u8]) -> String {
    read_recording(bytes).expect_err("a file to refuse")
}

#[test]
fn files_that_cannot_be_read_are_refused_in_a_sentence() {
    let good = file(16, SampleFormat::Int, 1, 48_000);
    assert_eq!(
        refusal(&good[..30]),
        "The file ends in the middle: it is not whole."
    );
    assert_eq!(
        refusal(&good[..good.len() - 5000]),
        "The file ends in the middle: it is not whole."
    );
    assert!(
        refusal(b"").starts_with("This is not a WAV file")
            || refusal(b"").starts_with("The file ends")
    );
    assert!(
        refusal(b"ID3 not a wave at all, but long enough").starts_with("This is not a WAV file")
    );
    assert_eq!(
        refusal(&file(16, SampleFormat::Int, 6, 48_000)),
        "The file has 6 channels; one or two are read. Save the one you want to read."
    );
    assert_eq!(
        refusal(&file(16, SampleFormat::Int, 1, 4_000)),
        "The file has 4000 samples a second; 8000 to 384000 are read."
    );
    let short = write_wav(&[&[0.5; 480]], 48_000).expect("a file");
    assert_eq!(
        refusal(&short),
        "The recording lasts 10 ms; a decay needs 50 ms at least."
    );
    let silent = write_wav(&[&[0.0; 48_000]], 48_000).expect("a file");
    assert_eq!(refusal(&silent), "The recording is silent from end to end.");
    let large = vec![0; MOST_BYTES + 1];
    assert!(refusal(&large).starts_with("The file has 64 MB; at most 64 MB are read."));
    let mut packed = good.clone();
    packed[20] = 2;
    assert!(refusal(&packed).starts_with("This kind of WAV file is packed"));
    let mut broken = file(32, SampleFormat::Float, 1, 48_000);
    let last = broken.len();
    broken[last - 4..].copy_from_slice(&f32::NAN.to_le_bytes());
    assert!(refusal(&broken).starts_with("The file holds values that are no sound"));
}

/// Every size that a header can claim, on a file that holds little: an answer at once, and no memory for what is not there.
#[test]
fn a_header_that_promises_too_much_takes_no_memory() {
    let good = file(24, SampleFormat::Int, 2, 48_000);
    for place in [4, 16, 40, good.len().min(56), good.len().min(60)] {
        for size in [0, 1, 0x7fff_fff0_u32, 0x8000_0000, 0xffff_fff0, 0xffff_ffff] {
            let mut bytes = good[..4000].to_vec();
            bytes[place..place + 4].copy_from_slice(&size.to_le_bytes());
            let words = refusal(&bytes);
            assert!(words.ends_with('.'), "size {size} at {place}: {words}");
        }
    }
}

/// Thousands of files with a few bytes changed, most of them in the header, some cut short: each answered, none for long.
#[test]
fn spoilt_files_are_answered_at_once() {
    let mut random = Generator::new(2024);
    let kinds = [
        file(16, SampleFormat::Int, 1, 8_000),
        file(24, SampleFormat::Int, 2, 8_000),
        file(32, SampleFormat::Float, 2, 8_000),
    ];
    let began = Instant::now();
    let (mut read, mut refused) = (0, 0);
    for _ in 0..6000 {
        let mut bytes = kinds[random.below(kinds.len())].clone();
        bytes.truncate(600 + random.below(3000));
        for _ in 0..=random.below(4) {
            let reach = if random.unit() < 0.8 { 80 } else { bytes.len() };
            let place = random.below(reach);
            bytes[place] = random.next_u64() as u8;
        }
        if random.unit() < 0.3 {
            bytes.truncate(random.below(bytes.len()));
        }
        match read_wav(&bytes) {
            Ok(_) => read += 1,
            Err(words) => {
                refused += 1;
                assert!(words.ends_with('.') && words.len() < 200, "{words}");
            }
        }
    }
    println!("{read} read, {refused} refused in {:?}", began.elapsed());
    assert!(refused > 3000);
}

/// Files of any samples at all go through the whole reading without a panic.
#[test]
fn any_samples_at_all_get_an_answer() {
    let mut random = Generator::new(77);
    let kinds: [fn(&mut Generator, usize) -> f64; 5] = [
        |random, _| random.unit() - 0.5,
        |_, n| if n == 0 { 1.0 } else { 0.0 },
        |_, n| if n % 4799 == 7 { -1.0 } else { 0.0 },
        |_, _| 1.0,
        |_, n| if n > 4700 { 1.0 } else { 0.0 },
    ];
    for kind in kinds {
        let samples: Vec<f32> = (0..4800).map(|n| kind(&mut random, n) as f32).collect();
        let bytes = write_wav(&[&samples], 48_000).expect("a file");
        match read_recording(&bytes) {
            Ok(reading) => {
                let told = reading.octaves.iter().chain(&reading.thirds);
                for figures in told.map(|band| &band.figures) {
                    let values = [
                        figures.edt_s,
                        figures.t20_s,
                        figures.t30_s,
                        figures.c50_db,
                        figures.c80_db,
                    ];
                    assert!(
                        values.into_iter().flatten().all(f64::is_finite),
                        "{figures:?}"
                    );
                    assert!(
                        figures.edt_s.is_some() || !figures.refused.is_empty(),
                        "{figures:?}"
                    );
                }
            }
            Err(words) => assert!(words.ends_with('.'), "{words}"),
        }
    }
}
