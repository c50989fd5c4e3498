//! What holds in every room: symmetries, and that nothing is ever undefined.

use glam::DVec3;
use num_complex::Complex64;
use seatward::bass::{Admittance, BassRoom, bass};

use crate::generator::Generator;
use crate::rooms::{LONG_ROOM_M, LOUDSPEAKERS_M, SEAT_M, porous, pressures, real, rect, room};

const FREQUENCIES_HZ: [f64; 5] = [21.0, 43.0, 69.0, 110.0, 180.0];

fn point_in(random: &mut Generator, size_m: DVec3) -> DVec3 {
    DVec3::from_array([0, 1, 2].map(|axis| size_m[axis] * random.unit()))
}

/// A room with up to five patches of some admittance anywhere, also across its edges.
fn random_room(random: &mut Generator, smallest_m: f64, largest_m: f64) -> BassRoom {
    let size_m = DVec3::from_array([0, 1, 2].map(|_| random.between(smallest_m, largest_m)));
    let mut room = room(size_m, 0.1 * random.unit().powi(2));
    for _ in 0..random.below(6) {
        let wall = random.below(6);
        let extent = room.walls[wall].extent;
        let spot = rect(
            extent.width_m * random.between(-0.2, 1.0),
            extent.height_m * random.between(-0.2, 1.0),
            random.between(0.0, 2.0),
            random.between(0.0, 2.0),
        );
        let beta = Complex64::new(random.unit(), random.between(-1.0, 2.0));
        room.walls[wall]
            .patches
            .push((spot, Admittance::constant(beta)));
    }
    room
}

fn assert_same(a: &[Vec<Complex64>], b: &[Vec<Complex64>], tolerance: f64, what: &str) {
    for (a, b) in a.iter().flatten().zip(b.iter().flatten()) {
        assert!(
            (a - b).norm() <= tolerance * (a.norm() + 1e-3),
            "{what}: {a} against {b}"
        );
    }
}

#[test]
fn source_and_receiver_may_be_swapped() {
    let mut random = Generator::new(41);
    for _ in 0..20 {
        let room = random_room(&mut random, 1.2, 8.0);
        let (a_m, b_m) = (
            point_in(&mut random, room.size_m),
            point_in(&mut random, room.size_m),
        );
        let there = pressures(&room, 200.0, &[a_m], b_m, &FREQUENCIES_HZ);
        let back = pressures(&room, 200.0, &[b_m], a_m, &FREQUENCIES_HZ);
        assert_same(&there, &back, 1e-6, &format!("{}", room.size_m));
    }
}

#[test]
fn a_room_and_its_mirror_image_sound_alike() {
    let mut random = Generator::new(42);
    for _ in 0..10 {
        let room = random_room(&mut random, 2.0, 7.0);
        let (from_m, to_m) = (
            point_in(&mut random, room.size_m),
            point_in(&mut random, room.size_m),
        );
        let mirror_m = |p: DVec3| DVec3::new(room.size_m.x - p.x, p.y, p.z);
        let mut mirrored = room.clone();
        mirrored.walls.swap(0, 1);
        for wall in &mut mirrored.walls[2..] {
            for (rect, _) in &mut wall.patches {
                rect.u_m = room.size_m.x - rect.u_m - rect.width_m;
            }
        }
        let here = pressures(&room, 200.0, &[from_m], to_m, &FREQUENCIES_HZ);
        let there = pressures(
            &mirrored,
            200.0,
            &[mirror_m(from_m)],
            mirror_m(to_m),
            &FREQUENCIES_HZ,
        );
        assert_same(&here, &there, 1e-6, &format!("{}", room.size_m));
    }
}

#[test]
fn a_patch_over_a_whole_wall_is_that_wall() {
    let mut covered = room(LONG_ROOM_M, 0.01);
    let mut bare = covered.clone();
    let extent = covered.walls[5].extent;
    covered.walls[5].patches.push((extent, porous(0.1, 0.1)));
    bare.walls[5].bare = porous(0.1, 0.1);
    let a = pressures(&covered, 200.0, &LOUDSPEAKERS_M, SEAT_M, &FREQUENCIES_HZ);
    let b = pressures(&bare, 200.0, &LOUDSPEAKERS_M, SEAT_M, &FREQUENCIES_HZ);
    assert_same(&a, &b, 1e-9, "whole ceiling");
}

#[test]
fn a_later_patch_covers_an_earlier_one() {
    let with = |patches: Vec<_>| {
        let mut room = room(LONG_ROOM_M, 0.01);
        room.walls[0].patches = patches;
        pressures(&room, 200.0, &LOUDSPEAKERS_M, SEAT_M, &FREQUENCIES_HZ)
    };
    let window = |u_m, v_m, width_m, height_m| (rect(u_m, v_m, width_m, height_m), real(0.02));
    let piece = (rect(2.0, 1.2, 1.0, 0.9), porous(0.2, 0.0));
    let overlapping = with(vec![window(1.0, 0.8, 1.5, 1.0), piece.clone()]);
    let cut = with(vec![
        window(1.0, 0.8, 1.0, 1.0),
        window(2.0, 0.8, 0.5, 0.4),
        piece,
    ]);
    assert_same(&overlapping, &cut, 1e-9, "a window half covered");
}

#[test]
fn nothing_is_ever_undefined() {
    let mut random = Generator::new(43);
    for case in 0..12 {
        let room = match case % 3 {
            0 => random_room(&mut random, 1.2, 3.0),
            1 => random_room(&mut random, 2.0, 10.0),
            _ => random_room(&mut random, 1.2, 25.0),
        };
        let receiver_m = point_in(&mut random, room.size_m);
        let sources: Vec<DVec3> = match case % 4 {
            0 => vec![receiver_m],
            1 => vec![DVec3::ZERO, room.size_m],
            _ => vec![
                point_in(&mut random, room.size_m),
                point_in(&mut random, room.size_m),
            ],
        };
        let found = bass(&room, &sources, receiver_m, 80.0);
        let finite = found
            .response
            .pressure
            .iter()
            .flatten()
            .all(|p| p.is_finite())
            && found
                .map
                .level_db
                .iter()
                .chain(&found.map.unevenness_db)
                .all(|db| db.is_finite())
            && found
                .notes
                .iter()
                .all(|note| note.decay_s.is_none_or(|s| s > 0.0 && s.is_finite()));
        assert!(finite, "case {case}: {}", room.size_m);
        assert!(
            found.stops_at_hz > 20.0
                && !found.words.is_empty()
                && !found.response.frequency_hz.is_empty()
        );
        let places = found.map.x_m.len() * found.map.y_m.len();
        assert_eq!(
            found.map.level_db.len(),
            places * found.map.frequency_hz.len()
        );
        assert!(places <= 4400, "{places}");
    }
}

#[test]
fn a_rigid_room_on_its_own_pitch_is_loud_and_finite() {
    let rigid = room(DVec3::new(4.0, 4.0, 4.0), 0.0);
    let pitch_hz = 343.2 / 8.0;
    let on_pitch = pressures(
        &rigid,
        200.0,
        &[DVec3::ZERO],
        DVec3::splat(0.1),
        &[pitch_hz],
    )[0][0];
    assert!(on_pitch.is_finite() && on_pitch.norm() > 1e3, "{on_pitch}");
}
