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
                    let off = |(n, sample): (usize, &f32)| {
                        (f64::from(*sample) - decay(n) / (number + 1) as f64).abs()
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
        assert!((read.channels[0][n] - sample).abs() < 3e-7);
        assert!((read.channels[1][n] + sample).abs() < 3e-7);
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

/// What is kept of a file that goes on for long is what is read of it, in 4 bytes a sample, whatever its length.
#[test]
fn a_long_file_takes_the_memory_of_what_is_read() {
    let rate = 8_000;
    let length: usize = 100 * rate;
    let spec = WavSpec {
        channels: 2,
        sample_rate: rate as u32,
        bits_per_sample: 8,
        sample_format: SampleFormat::Int,
    };
    let mut bytes = Cursor::new(Vec::new());
    let mut writer = WavWriter::new(&mut bytes, spec).expect("a form that hound writes");
    // Silence of 3 and of 40 s, then a decay.
    let starts = [3 * rate, 40 * rate];
    for n in 0..length {
        for start in starts {
            let sample = n.checked_sub(start).map_or(0.0, |n| 127.0 * decay(6 * n));
            writer.write_sample(sample as i8).expect("a sample");
        }
    }
    writer.finalize().expect("a whole file");
    let read = read_wav(&bytes.into_inner()).expect("a recording");
    assert_eq!(read.duration_s, 100.0);
    let most = (12.4 * rate as f64) as usize;
    for channel in &read.channels {
        assert!(channel.capacity() <= most, "{}", channel.capacity());
        // 0.2 s before the direct sound, and the 12 s after it.
        let peak = channel.iter().fold(0.0_f32, |most, s| most.max(s.abs()));
        let onset = channel.iter().position(|s| s.abs() >= 0.1 * peak);
        assert_eq!(onset, Some(rate / 5));
        assert_eq!(channel.len(), rate / 5 + 12 * rate);
    }
}

/// Time of the fastest of three readings, s: what else runs on the machine is left out.
fn least_s(bytes: &[u8]) -> f64 {
    let once = |_| {
        let began = Instant::now();
        let _ = read_recording(bytes);
        began.elapsed().as_secs_f64()
    };
    (0..3).map(once).fold(f64::INFINITY, f64::min)
}

/// Hundreds of files with a few bytes changed, most of them in the header, some cut short, go through the whole reading: each is
/// answered, in figures or in a sentence, and none takes three times as long as a whole file of as many bytes that is read
/// through at the highest rate that so few bytes can have.
#[test]
fn spoilt_files_are_answered_as_fast_as_whole_ones() {
    const MOST: usize = 3600;
    let mut random = Generator::new(2024);
    let kinds = [
        (16, SampleFormat::Int, 1),
        (24, SampleFormat::Int, 2),
        (32, SampleFormat::Float, 2),
        (8, SampleFormat::Int, 1),
    ];
    let kinds = kinds.map(|(bits, format, channels)| file(bits, format, channels, 8_000));
    // Some of the bytes are the header.
    let highest_rate = ((MOST - 100) as f64 / 0.05) as u32;
    let mut whole = cut_whole(&file(8, SampleFormat::Int, 1, 8_000), MOST);
    // Samples and bytes a second, which are as many here.
    whole[24..28].copy_from_slice(&highest_rate.to_le_bytes());
    whole[28..32].copy_from_slice(&highest_rate.to_le_bytes());
    assert_eq!(read_wav(&whole).map(|read| read.channels.len()), Ok(1));
    let whole_s = least_s(&whole);
    let (mut analysed, mut refused) = (0, 0);
    for _ in 0..800 {
        let bytes = &kinds[random.below(kinds.len())];
        let mut bytes = cut_whole(bytes, 600 + random.below(MOST - 600));
        for _ in 0..=random.below(3) {
            let reach = if random.unit() < 0.5 { 60 } else { bytes.len() };
            let place = random.below(reach);
            bytes[place] = random.next_u64() as u8;
        }
        if random.unit() < 0.3 {
            bytes.truncate(random.below(bytes.len()));
        }
        let began = Instant::now();
        let answer = read_recording(&bytes);
        let took_s = began.elapsed().as_secs_f64();
        if took_s > 3.0 * whole_s {
            let least_s = least_s(&bytes);
            assert!(least_s < 3.0 * whole_s, "{least_s} s, whole {whole_s} s");
        }
        match answer {
            Ok(_) => analysed += 1,
            Err(words) => {
                assert!(words.ends_with('.') && words.len() < 200, "{words}");
                // Filtered and looked through, and nothing found.
                if words.starts_with("No decay can be read") {
                    analysed += 1;
                } else {
                    refused += 1;
                }
            }
        }
    }
    println!("{analysed} analysed, {refused} refused; a whole one takes {whole_s:.4} s");
    assert!(
        analysed > 100 && refused > 100,
        "{analysed} analysed, {refused} refused"
    );
}

/// A whole file of the first so many bytes of another: its header tells of no more than it holds.
fn cut_whole(bytes: &[u8], length: usize) -> Vec<u8> {
    let data = bytes.windows(4).position(|four| four == b"data");
    let from = data.expect("samples") + 8;
    let mut cut = bytes[..length.min(bytes.len())].to_vec();
    let held = (cut.len() - from) / 24 * 24;
    cut.truncate(from + held);
    cut[from - 4..from].copy_from_slice(&(held as u32).to_le_bytes());
    cut
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
