//! Rooms that several tests share, and how levels are compared.

use glam::DVec3;
use num_complex::Complex64;
use seatward::air::Air;
use seatward::bass::coupled::Coupled;
use seatward::bass::response::Seat;
use seatward::bass::{Admittance, BassRoom, BassWall};
use seatward::geometry::{Rect, Surface};
use seatward::layers::{Layer, surface_impedance};

/// Speed of sound of the stories' oracles, m/s.
pub const SPEED_OF_SOUND_M_PER_S: f64 = 343.2;

/// Half the width of a sixth of an octave, in octaves.
const HALF_SIXTH: f64 = 1.0 / 12.0 + 1e-9;

/// A long living room with two loudspeakers and a seat.
pub const LONG_ROOM_M: DVec3 = DVec3::new(3.3, 8.4, 2.7);
pub const LOUDSPEAKERS_M: [DVec3; 2] = [DVec3::new(0.65, 1.1, 0.9), DVec3::new(2.65, 1.1, 0.9)];
pub const SEAT_M: DVec3 = DVec3::new(1.65, 3.9, 1.3);

pub fn real(admittance: f64) -> Admittance {
    Admittance::constant(Complex64::from(admittance))
}

/// A room with one admittance per surface.
pub fn room_with(size_m: DVec3, bare: impl Fn(Surface) -> Admittance) -> BassRoom {
    BassRoom {
        size_m,
        speed_of_sound_m_per_s: SPEED_OF_SOUND_M_PER_S,
        walls: Surface::ALL.map(|surface| BassWall {
            extent: surface.extent(size_m),
            bare: bare(surface),
            patches: Vec::new(),
        }),
    }
}

pub fn room(size_m: DVec3, admittance: f64) -> BassRoom {
    room_with(size_m, |_| real(admittance))
}

/// A porous slab of 8 kPa s/m² over a gap, at normal incidence.
pub fn porous(thickness_m: f64, gap_m: f64) -> Admittance {
    let air = Air::at(20.0, 50.0);
    let layers = [
        Layer::Porous {
            thickness_m,
            flow_resistivity_pa_s_per_m2: 8000.0,
        },
        Layer::Gap { thickness_m: gap_m },
    ];
    Admittance::sampled(|hz| air.impedance_pa_s_per_m() / surface_impedance(&layers, hz, 0.0, &air))
}

pub fn rect(u_m: f64, v_m: f64, width_m: f64, height_m: f64) -> Rect {
    Rect {
        u_m,
        v_m,
        width_m,
        height_m,
    }
}

/// Pressure of each source at the receiver, frequency by frequency.
pub fn pressures(
    room: &BassRoom,
    highest_hz: f64,
    sources_m: &[DVec3],
    receiver_m: DVec3,
    frequency_hz: &[f64],
) -> Vec<Vec<Complex64>> {
    let coupled = Coupled::new(room, highest_hz);
    let seat = Seat::new(room, &coupled, sources_m, receiver_m);
    let at = |&hz: &f64| seat.pressure(hz, &coupled.amplitudes(hz, sources_m));
    frequency_hz.iter().map(at).collect()
}

/// Energy of all sources together.
pub fn energies(pressures: &[Vec<Complex64>]) -> Vec<f64> {
    let together = |sources: &Vec<Complex64>| sources.iter().sum::<Complex64>().norm_sqr();
    pressures.iter().map(together).collect()
}

/// Level of the mean energy over a sixth of an octave round each frequency, dB.
pub fn smoothed_db(frequency_hz: &[f64], energy: &[f64]) -> Vec<f64> {
    let level = |middle: &f64| {
        let near = |(hz, _): &(&f64, &f64)| (*hz / middle).log2().abs() <= HALF_SIXTH;
        let within: Vec<f64> = frequency_hz
            .iter()
            .zip(energy)
            .filter(near)
            .map(|(_, e)| *e)
            .collect();
        10.0 * (within.iter().sum::<f64>() / within.len() as f64).log10()
    };
    frequency_hz.iter().map(level).collect()
}

/// Root mean square and largest difference.
pub fn differences(a: &[f64], b: &[f64]) -> (f64, f64) {
    let apart: Vec<f64> = a.iter().zip(b).map(|(a, b)| a - b).collect();
    let square = apart.iter().map(|d| d * d).sum::<f64>() / apart.len() as f64;
    (
        square.sqrt(),
        apart.iter().fold(0.0, |most, d| most.max(d.abs())),
    )
}
