//! Does what is rendered for the ears say what the report says? Read back with this project's own analysis, and held
//! against closed forms of the head, the clock and the loudness.

mod dry;
mod head;
mod joining;
mod line;
mod loudness;
mod read_back;
mod times;

#[path = "../support/generator.rs"]
#[allow(dead_code, reason = "shared with other tests")]
mod generator;

use realfft::RealFftPlanner;
use seatward::listen::{Noise, Pickup, RATE_HZ, Response, ToSeat, render};
use seatward::recording::Width;
use seatward::scenario;
use seatward::simulate::{Memory, Prepared};

/// A demo room.
fn story(name: &str) -> Prepared {
    let path = format!("{}/scenarios/{name}.json", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{path}: {error}"));
    Prepared::new(scenario::from_json(&text).unwrap_or_else(|error| panic!("{error}")))
}

fn to_seat(prepared: &Prepared, plan: usize, pickup: Pickup, with_notes: bool) -> ToSeat {
    let made = prepared.to_seat(plan, pickup, with_notes, &mut Memory::default());
    made.unwrap_or_else(|words| panic!("{words}"))
}

/// At a point, images and late sound alone.
fn at_a_point(prepared: &Prepared, plan: usize) -> ToSeat {
    to_seat(prepared, plan, Pickup::Point, false)
}

fn rendered(to_seat: &ToSeat, pickup: Pickup) -> Response {
    render(to_seat, &mut Noise::new(pickup))
}

fn wide(samples: &[f32]) -> Vec<f64> {
    samples.iter().map(|sample| f64::from(*sample)).collect()
}

/// Energy of samples in a band with sharp edges, re that of one sample of 1: the mean of |spectrum|² between them.
fn band_energy(samples: &[f32], center_hz: f64, width: Width) -> f64 {
    let size = samples.len().next_power_of_two().max(1 << 15);
    let forward = RealFftPlanner::<f32>::new().plan_fft_forward(size);
    let mut padded = samples.to_vec();
    padded.resize(size, 0.0);
    let mut spectrum = forward.make_output_vec();
    forward
        .process(&mut padded, &mut spectrum)
        .expect("its own lengths");
    let bin = |hz: f64| (hz * size as f64 / RATE_HZ).round() as usize;
    let inside = &spectrum[bin(center_hz / width.to_edge())..bin(center_hz * width.to_edge())];
    inside
        .iter()
        .map(|value| f64::from(value.norm_sqr()))
        .sum::<f64>()
        / inside.len() as f64
}

fn db(ratio: f64) -> f64 {
    10.0 * ratio.log10()
}
