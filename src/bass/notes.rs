//! The notes of a room one by one: how long each rings, which source feeds it, what the seat hears of it, which coincide.

use std::f64::consts::TAU;

use glam::DVec3;

use super::coupled::Coupled;
use super::modes::Mode;

/// Nepers in a decay by 60 dB: 3 ln 10.
const SIXTY_DB: f64 = 6.907_755_278_982_137;

/// Slowest decay that is called one, s; beyond, a note does not die away.
const LONGEST_S: f64 = 1000.0;

/// Pitches closer than this are one to the ear, whatever the damping, Hz: common practice, no source.
const LEAST_APART_HZ: f64 = 1.0;

/// One note of the room.
#[derive(Clone, Debug, PartialEq)]
pub struct Note {
    /// Its half waves and pitch in the rigid box.
    pub mode: Mode,
    /// Time to die away by 60 dB, s; none if nothing damps it.
    pub decay_s: Option<f64>,
    /// From its pitch to where its peak has fallen by 3 dB, Hz.
    pub half_width_hz: f64,
    /// How far each source lies towards a place of most pressure, 0 … 1.
    pub fed_by: Vec<f64>,
    /// The same of all sources playing the same; 0 where they cancel.
    pub fed: f64,
    /// The same of the seat.
    pub heard: f64,
}

impl Note {
    /// How much it matters at the seat: what is fed into it and heard of it, 0 … 1.
    #[must_use]
    pub fn weight(&self) -> f64 {
        self.fed * self.heard
    }
}

/// Every note up to a frequency but the constant pressure, lowest first.
///
/// ```text
/// T = 3 ln 10 / δ,   half width = δ / 2π
/// ```
#[must_use]
pub fn notes(
    coupled: &Coupled,
    size_m: DVec3,
    sources_m: &[DVec3],
    receiver_m: DVec3,
    highest_hz: f64,
) -> Vec<Note> {
    let note = |(i, mode): (usize, &Mode)| {
        let damping_per_s = coupled.damping_per_s(i);
        let shapes: Vec<f64> = sources_m
            .iter()
            .map(|&at_m| mode.shape(at_m, size_m))
            .collect();
        let decay_s = SIXTY_DB / damping_per_s;
        Note {
            mode: *mode,
            decay_s: (decay_s < LONGEST_S).then_some(decay_s),
            half_width_hz: damping_per_s / TAU,
            fed: (shapes.iter().sum::<f64>() / shapes.len().max(1) as f64).abs(),
            fed_by: shapes.iter().map(|shape| shape.abs()).collect(),
            heard: mode.shape(receiver_m, size_m).abs(),
        }
    };
    let modes = coupled.modes().iter().enumerate().skip(1);
    modes
        .take_while(|(_, mode)| mode.frequency_hz <= highest_hz)
        .map(note)
        .collect()
}

/// Pairs of notes along one axis each whose pitches are closer than the half width of the wider one, or than 1 Hz.
///
/// Notes along one axis are the strongest; that they should not coincide is common practice, no source. Higher up every
/// note has a neighbour as close, which is as it should be.
#[must_use]
pub fn coincident(notes: &[Note]) -> Vec<[usize; 2]> {
    let axial: Vec<usize> = (0..notes.len())
        .filter(|&i| notes[i].mode.axes() == 1)
        .collect();
    let mut pairs = Vec::new();
    for (place, &low) in axial.iter().enumerate() {
        for &high in &axial[place + 1..] {
            let [a, b] = [&notes[low], &notes[high]];
            let width_hz = a.half_width_hz.max(b.half_width_hz).max(LEAST_APART_HZ);
            if b.mode.frequency_hz - a.mode.frequency_hz < width_hz {
                pairs.push([low, high]);
            }
        }
    }
    pairs
}
