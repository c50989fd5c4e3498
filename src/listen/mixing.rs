//! Notes that overlap, evened out together with the late sound beside them: in octaves that have the decay of statistics.
//!
//! Where notes overlap, how a few of them beat at the ear is chance of the centimetre, as phases of images are, and a reading by
//! octaves would take a beat for a part of the decay. Each note keeps its energy. Octaves in which notes ring each with its own
//! decay keep their beats, and so do the first 50 ms, in which notes add up to the direct sound and to images.

use realfft::RealFftPlanner;

use super::clock::RATE_HZ;
use super::first_part::EDGE_S;
use super::late::RenderedLate;
use super::low::{EVERY, Ringing};
use super::noise::SLICE;
use super::octaves::{OCTAVES, Share, gains, lower_edge_hz, shape};

/// Changes the notes of each channel so that they and the late sound bring in every slice what the notes bring each for itself,
/// and the late sound's bands.
///
/// # Units
/// - `coarse`: by channel, the notes at every so many samples
pub fn mix(coarse: &mut [Vec<f64>], notes: &[Ringing], late: &RenderedLate, joining_hz: f64) {
    let size = late.size / EVERY;
    let mut planner = RealFftPlanner::<f32>::new();
    let forward = planner.plan_fft_forward(size);
    let inverse = planner.plan_fft_inverse(size);
    let shares: Vec<Share> = mixing(joining_hz)
        .map(|octave| Share::new(octave, late.size))
        .collect();
    for (channel, (coarse, bass)) in coarse.iter_mut().zip(&late.bass).enumerate() {
        let mut samples = forward.make_input_vec();
        for (sample, note) in samples.iter_mut().zip(coarse.iter()) {
            *sample = *note as f32;
        }
        let mut both = forward.make_output_vec();
        // Both ways fail for wrong lengths only, and those are their own.
        let _ = forward.process(&mut samples, &mut both);
        for (both, late) in both.iter_mut().zip(bass) {
            *both += late / EVERY as f32;
        }
        for share in &shares {
            let mut part = inverse.make_input_vec();
            share.take(&mut part, &both, 1.0 / size as f32);
            let _ = inverse.process(&mut part, &mut samples);
            let wanted = wanted(notes, channel, late, share);
            let changed = evened(&samples, wanted, late.start / EVERY, share.reach);
            for (note, (changed, sample)) in coarse.iter_mut().zip(changed.iter().zip(&samples)) {
                *note += f64::from(changed - sample);
            }
        }
    }
}

/// Octaves that hold notes, all of which have the damping of statistics: those from half an octave below the joining frequency on.
fn mixing(joining_hz: f64) -> impl Iterator<Item = usize> {
    let half = std::f64::consts::SQRT_2;
    (0..OCTAVES).filter(move |octave| {
        (joining_hz / half..joining_hz * half).contains(&lower_edge_hz(*octave))
    })
}

/// Energy that an octave is to bring in each slice.
///
/// ```text
/// ∫ (A e^(−δt))² / 2 dt      of a note, each for itself
/// ```
fn wanted(notes: &[Ringing], channel: usize, late: &RenderedLate, share: &Share) -> Vec<f64> {
    let mut wanted = share.of_bands(&late.wanted);
    for note in notes {
        let kept = share.at_hz(note.omega_rad_per_s / std::f64::consts::TAU);
        if kept == 0.0 {
            continue;
        }
        let rate_per_s = 2.0 * note.damping_per_s;
        let size = kept * note.size_per_s[channel];
        let fall = (-rate_per_s * SLICE as f64 / RATE_HZ).exp();
        let mut energy = 0.5 * size * size / (rate_per_s * RATE_HZ)
            * (-rate_per_s * late.from_s).exp()
            * (1.0 - fall);
        for wanted in &mut wanted {
            *wanted += energy;
            energy *= fall;
        }
    }
    wanted
}

/// An octave with the energies wanted, but for the first 50 ms.
fn evened(samples: &[f32], mut wanted: Vec<f64>, start: usize, reach: usize) -> Vec<f32> {
    let slice = SLICE / EVERY;
    let mut brought = vec![0.0; wanted.len()];
    for (brought, part) in brought.iter_mut().zip(samples[start..].chunks(slice)) {
        *brought = EVERY as f64 * part.iter().map(|x| f64::from(x * x)).sum::<f64>();
    }
    let first = ((EDGE_S * RATE_HZ) as usize / SLICE).min(wanted.len());
    wanted[..first].copy_from_slice(&brought[..first]);
    let mut gains = gains(&wanted, &brought, reach);
    gains[..first].fill(1.0);
    let mut changed = samples.to_vec();
    shape(&mut changed, start, slice, &gains);
    changed
}
