//! The response against closed forms.

use std::f64::consts::{PI, TAU};

use glam::DVec3;
use num_complex::Complex64;
use seatward::bass::Admittance;
use seatward::bass::coupled::Coupled;
use seatward::bass::response::frequencies_hz;

use crate::closed_form::TwoSoftWalls;
use crate::rooms::{
    LONG_ROOM_M, LOUDSPEAKERS_M, SEAT_M, SPEED_OF_SOUND_M_PER_S, differences, energies, porous,
    pressures, real, room, room_with, smoothed_db,
};

fn wave_number(hz: f64) -> f64 {
    TAU * hz / SPEED_OF_SOUND_M_PER_S
}

/// rms and largest error of the level in sixths of an octave, and rms error of the level as it is, dB.
fn errors_db(axis: usize, near: &Admittance, far: &Admittance, highest_hz: f64) -> (f64, f64, f64) {
    let room = room_with(LONG_ROOM_M, |surface| {
        match (surface.axis() == axis, surface.is_far()) {
            (true, false) => near.clone(),
            (true, true) => far.clone(),
            _ => real(0.0),
        }
    });
    let hz: Vec<f64> = frequencies_hz(highest_hz).into_iter().step_by(2).collect();
    let found = energies(&pressures(&room, highest_hz, &LOUDSPEAKERS_M, SEAT_M, &hz));
    let exact = |&hz: &f64| {
        let closed = TwoSoftWalls {
            size_m: LONG_ROOM_M,
            axis,
            beta: [near.at(hz), far.at(hz)],
        };
        let each = LOUDSPEAKERS_M
            .iter()
            .map(|&from_m| closed.pressure(wave_number(hz), from_m, SEAT_M));
        each.sum::<Complex64>().norm_sqr()
    };
    let exact: Vec<f64> = hz.iter().map(exact).collect();
    let level = |energy: &[f64]| -> Vec<f64> { energy.iter().map(|e| 10.0 * e.log10()).collect() };
    let (rms, most) = differences(&smoothed_db(&hz, &found), &smoothed_db(&hz, &exact));
    (rms, most, differences(&level(&found), &level(&exact)).0)
}

/// Closed form of `closed_form.rs`: separation of variables on the Helmholtz equation.
#[test]
fn two_soft_walls_of_any_kind_agree_with_the_closed_form() {
    let hard = real(0.03);
    let spring = Admittance::constant(Complex64::new(0.05, 1.0));
    for (name, axis, near, far, allowed_db) in [
        (
            "hard floor and ceiling",
            2,
            hard.clone(),
            hard.clone(),
            0.05,
        ),
        ("deep ceiling", 2, hard.clone(), porous(0.1, 0.2), 0.3),
        ("front wall", 1, porous(0.1, 0.0), hard.clone(), 0.3),
        ("right wall", 0, hard.clone(), porous(0.2, 0.0), 0.3),
        (
            "floor and ceiling",
            2,
            porous(0.1, 0.0),
            porous(0.1, 0.0),
            0.3,
        ),
        ("springy ceiling", 2, hard.clone(), spring, 0.5),
    ] {
        for highest_hz in [120.0, 206.0] {
            let (rms, most, raw) = errors_db(axis, &near, &far, highest_hz);
            println!(
                "{name}, up to {highest_hz} Hz: sixths {rms:.2} dB rms, {most:.2} dB at most; as it is {raw:.2} dB rms"
            );
            assert!(
                rms <= allowed_db && most <= 4.0 * allowed_db,
                "{name}: {rms} dB, {most} dB"
            );
        }
    }
}

#[test]
fn a_rigid_room_has_its_green_function() {
    let rigid = room(LONG_ROOM_M, 0.0);
    let closed = TwoSoftWalls {
        size_m: LONG_ROOM_M,
        axis: 1,
        beta: [Complex64::ZERO; 2],
    };
    for hz in [23.0, 37.0, 61.7, 90.0, 133.0, 171.0] {
        let found = pressures(&rigid, 200.0, &LOUDSPEAKERS_M[..1], SEAT_M, &[hz])[0][0];
        let exact = closed.pressure(wave_number(hz), LOUDSPEAKERS_M[0], SEAT_M);
        assert!(
            (found - exact).norm() < 0.02 * exact.norm().max(1.0 / 3.0),
            "{hz} Hz: {found} against {exact}"
        );
    }
}

/// A single note on its pitch: p = 4π ψ(s) ψ(r) / (∫ψ² j k Σ ε β / L), all others small beside it.
#[test]
fn a_hardly_damped_note_peaks_as_if_it_were_alone() {
    let size_m = DVec3::new(3.1, 4.3, 2.45);
    let (beta, corner, other) = (1e-5, DVec3::ZERO, DVec3::new(0.3, 0.2, 0.1));
    let coupled = Coupled::new(&room(size_m, beta), 200.0);
    for mode in &coupled.modes()[1..6] {
        let found = pressures(
            &room(size_m, beta),
            200.0,
            &[corner],
            other,
            &[mode.frequency_hz],
        )[0][0];
        let k = wave_number(mode.frequency_hz);
        let meets = |axis: usize| if mode.n[axis] > 0 { 2.0 } else { 1.0 };
        let share: f64 = (0..3).map(meets).product();
        let loss: f64 = (0..3)
            .map(|axis| 2.0 * meets(axis) * beta / size_m[axis])
            .sum::<f64>();
        let volume_m3 = size_m.x * size_m.y * size_m.z;
        // The air's own loss of the model, 1e-6 k², stands beside it.
        let alone =
            4.0 * PI * share * mode.shape(other, size_m) / volume_m3 / (k * loss + 1e-6 * k * k);
        assert!(
            (found.norm() / alone.abs() - 1.0).abs() < 0.01,
            "{:?}: {found} against {alone}",
            mode.n
        );
        assert!(
            found.re.abs() < 0.05 * found.im.abs(),
            "{:?}: {found}",
            mode.n
        );
    }
}
