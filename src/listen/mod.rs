//! The room to the ears: the response from each loudspeaker to a listener's two ears, from the same images, decay and notes
//! that make the figures; sounds to send through it, and how loud they come out.
//!
//! Left out: any real head, ears' outer shape, a head that turns, edges and furniture beyond what the figures have, and the
//! loudspeakers' own sound. It shows the difference between plans, not how a room will sound.

mod clock;
mod crossover;
mod dry;
mod first_part;
mod head;
mod late;
mod loudness;
mod low;
mod mixing;
mod noise;
mod octaves;
mod ways;

pub use clock::{LEAD_S, RATE_HZ};
pub use crossover::{held_back_treble, lower_pressure, upper_pressure};
pub use dry::{DRY_SOUNDS, DrySound, dry_sound};
pub use head::{AtEar, EARS, Pickup, RADIUS_M, Sphere};
pub use late::LateSlices;
pub use loudness::{HeardLevel, K_WEIGHTING, heard_level, loudness_lkfs};
pub use low::{Ringing, notes};
pub use noise::{Noise, PERIOD, SLICE};
pub use ways::{Way, render_ways};

use crate::bands::exact_hz;
use first_part::EDGE_S;
use ways::render_with_energies;

/// Length of the fade at the end of a response, s.
const FADE_S: f64 = 0.02;

/// What one loudspeaker sends to the seat.
#[derive(Clone, Debug, PartialEq)]
pub struct Sent {
    /// The direct sound first, then the images.
    pub ways: Vec<Way>,
    /// The rest, above the joining frequency.
    pub late: LateSlices,
    /// The room's notes, below it.
    pub notes: Vec<Ringing>,
}

/// What comes from all loudspeakers of a plan to a listener.
#[derive(Clone, Debug, PartialEq)]
pub struct ToSeat {
    /// Each loudspeaker, the leftmost first.
    pub sent: Vec<Sent>,
    /// Speed of sound, m/s.
    pub speed_of_sound_m_per_s: f64,
    /// Where notes give way to images and late sound, Hz; none where there are no notes.
    pub joining_hz: Option<f64>,
    /// When nothing is heard any more, s after the sound left.
    pub until_s: f64,
}

/// The response from every loudspeaker to every channel of a pickup.
#[derive(Clone, Debug, PartialEq)]
pub struct Response {
    /// By loudspeaker, then channel (left ear, right ear): pressure re the direct sound on axis at 1 m, all of one length,
    /// sample n is [`LEAD_S`] before n / [`RATE_HZ`] after the sound left.
    pub samples: Vec<Vec<Vec<f32>>>,
}

/// Renders a plan's response; the same for the same plan, whenever it is asked for.
#[must_use]
pub fn render(to_seat: &ToSeat, noise: &mut Noise) -> Response {
    let sphere = Sphere::new(to_seat.speed_of_sound_m_per_s);
    let length = ((LEAD_S + to_seat.until_s) * RATE_HZ) as usize;
    let joining_hz = to_seat.joining_hz;
    let late_end = to_seat.sent.iter().map(|sent| sent.late.end()).max();
    let setting = late::Setting::new(length.min(late_end.unwrap_or(0)));
    let one = |(number, sent): (usize, &Sent)| {
        let late = late::render_late(length, &sent.late, number, noise, joining_hz, &setting);
        let mut samples = render_early(sent, &sphere, &late.samples, noise, joining_hz);
        for (sum, late) in samples.iter_mut().zip(&late.samples) {
            sum.resize(length, 0.0);
            add(sum, late);
        }
        if let Some(joining_hz) = joining_hz {
            let mut notes = low::followed(&sent.notes, samples.len(), length);
            mixing::mix(&mut notes, &sent.notes, &late, joining_hz);
            low::add_coarse(&mut samples, &notes);
        }
        samples.iter_mut().for_each(|channel| fade_out(channel));
        samples
    };
    Response {
        samples: to_seat.sent.iter().enumerate().map(one).collect(),
    }
}

/// Direct sound and images, those of the first 50 ms as loud as the report counts them.
fn render_early(
    sent: &Sent,
    sphere: &Sphere,
    late: &[Vec<f32>],
    noise: &Noise,
    joining_hz: Option<f64>,
) -> Vec<Vec<f32>> {
    let rendered = |ways: &[Way]| render_with_energies(ways, sphere, noise.pickup(), joining_hz);
    let Some((direct, images)) = sent.ways.split_first() else {
        return rendered(&[]).samples;
    };
    let edge_s = direct.time_s + EDGE_S;
    let (near, later): (Vec<Way>, Vec<Way>) =
        images.iter().cloned().partition(|way| way.time_s < edge_s);
    let direct = rendered(std::slice::from_ref(direct));
    let mut near = rendered(&near);
    let slices = (EDGE_S * RATE_HZ) as usize / SLICE;
    let late_energy = late::heard_energy(&sent.late, slices, noise, joining_hz);
    let targets = std::array::from_fn(|octave| {
        let thirds = first_part::FIRST_BAND + 3 * octave;
        let thirds = thirds - 1..=thirds + 1;
        let width: f64 = thirds.clone().map(exact_hz).sum();
        let late: f64 = thirds.map(|band| exact_hz(band) * late_energy[band]).sum();
        direct.energy[octave]
            + near.energy[octave]
            + noise.pickup().channels() as f64 * late / width
    });
    let edge = ((LEAD_S + edge_s) * RATE_HZ).round() as usize;
    let mut beside = direct.samples.clone();
    for (sum, late) in beside.iter_mut().zip(late) {
        add(sum, late);
    }
    first_part::set_images(&mut near.samples, &beside, edge, &targets);
    let mut samples = rendered(&later).samples;
    for (sum, (direct, near)) in samples
        .iter_mut()
        .zip(direct.samples.iter().zip(&near.samples))
    {
        add(sum, direct);
        add(sum, near);
    }
    samples
}

/// Adds samples, of which there may be more or fewer.
fn add(sum: &mut Vec<f32>, samples: &[f32]) {
    if sum.len() < samples.len() {
        sum.resize(samples.len(), 0.0);
    }
    for (sum, sample) in sum.iter_mut().zip(samples) {
        *sum += sample;
    }
}

/// Lets the end run out without a step.
fn fade_out(samples: &mut [f32]) {
    let count = ((FADE_S * RATE_HZ) as usize).min(samples.len());
    for (n, sample) in samples.iter_mut().rev().take(count).enumerate() {
        *sample *= n as f32 / count as f32;
    }
}
