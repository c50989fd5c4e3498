//! The direction-resolved decay against an independent ray tracer, a fine solution in time, and closed limits.

mod support;

use seatward::decay::{Field, Pair, decay, fields};
use seatward::finish::scattering_bands;
use seatward::geometry::Rect;
use seatward::surface::{Facing, Patch, Wall};
use support::core_room::{as_room, facing};
use support::fine_solution::{FineField, FinePair, STEP_S};
use support::generator::Generator;
use support::reading::{backward_integral_db, sixty_db_time_s};
use support::rooms::twelve_rooms;
use support::tracer::trace;

/// Rays per room: noise of T20 below 1 % (worst room 0.9 % over ten seeds).
const RAYS: usize = 20_000;

/// A pair of walls.
fn pair(length_m: f64, absorption: [f64; 2], scattering: f64) -> Pair {
    Pair {
        crossings_per_s: 343.2 / length_m,
        absorption,
        scattering: [scattering; 2],
    }
}

/// A field without air or furniture.
fn bare(size_m: [f64; 3], absorption: [[f64; 2]; 3], scattering: f64) -> Field {
    let pairs = [0, 1, 2].map(|axis| pair(size_m[axis], absorption[axis], scattering));
    Field {
        pairs,
        air_per_s: 0.0,
        furniture_hits_per_s: 0.0,
        furniture_absorption: 0.0,
    }
}

/// Relative error, %.
fn percent(value: f64, truth: f64) -> f64 {
    100.0 * (value / truth - 1.0)
}

#[test]
fn twelve_rooms_agree_with_the_ray_tracer() {
    // Source: the independent tracer of tests/support. Limits: each furnished room 5 %; unfurnished rooms median 5 %,
    // each 14 %, which is where a bare room with one very soft surface is known to err.
    let mut bare_errors = Vec::new();
    for (name, traced) in twelve_rooms() {
        let truth = trace(&traced, RAYS, 1);
        let ours = decay(&as_room(&traced));
        let t20 = percent(ours.t20_s[13].expect("the room absorbs"), truth.t20_s);
        let edt = percent(ours.edt_s[13].expect("the room absorbs"), truth.edt_s);
        println!(
            "{name:40} T20 {:.3} s, error {t20:+.1} %; EDT {:.3} s, error {edt:+.1} %",
            truth.t20_s, truth.edt_s
        );
        if traced.object_surface_m2 > 0.0 {
            assert!(
                t20.abs() < 5.0 && edt.abs() < 5.0,
                "{name}: T20 {t20:+.1} %, EDT {edt:+.1} %"
            );
        } else {
            assert!(t20.abs() < 14.0, "{name}: T20 {t20:+.1} %");
            bare_errors.push(t20.abs());
        }
    }
    bare_errors.sort_by(f64::total_cmp);
    let median = bare_errors[bare_errors.len() / 2];
    assert!(median < 5.0, "median over unfurnished rooms {median:.1} %");
}

/// The same field for the fine solution.
fn finely(field: &Field) -> FineField {
    FineField {
        pairs: field.pairs.map(|pair| FinePair {
            crossings_per_s: pair.crossings_per_s,
            absorption: pair.absorption,
            scattering: pair.scattering[0],
        }),
        air_per_s: field.air_per_s,
        furniture_hits_per_s: field.furniture_hits_per_s,
        furniture_absorption: field.furniture_absorption,
    }
}

/// T20 of a sampled decay: backward integration, least squares between −5 and −25 dB.
fn t20_of(curve: &[f64], step: f64) -> f64 {
    sixty_db_time_s(&backward_integral_db(curve), step, -5.0, -25.0)
}

#[test]
fn the_fast_solution_is_within_one_percent_of_the_equations_solved_finely() {
    let mut random = Generator::new(20);
    for case in 0..4 {
        let size_m = [
            random.between(2.5, 6.0),
            random.between(3.0, 9.0),
            random.between(2.2, 3.5),
        ];
        let absorption = [0, 1, 2].map(|_| [random.between(0.03, 0.6), random.between(0.03, 0.3)]);
        let mut field = bare(size_m, absorption, random.between(0.05, 0.5));
        field.furniture_hits_per_s = if case % 2 == 0 { 0.0 } else { 25.0 };
        field.furniture_absorption = 0.3;
        let first = field
            .log_rate_decay(40)
            .time_s(-5.0, -25.0)
            .expect("it absorbs");
        let rate = 13.8155 / first;
        let fast = field
            .corrected_decay(rate, 14)
            .time_s(-5.0, -25.0)
            .expect("it absorbs");
        let curve = finely(&field).energy(rate, -55.0);
        let error = percent(fast, t20_of(&curve, STEP_S));
        println!("case {case}: {fast:.4} s, error {error:+.3} %");
        assert!(error.abs() < 1.0, "case {case}: {error:+.2} %");
    }
}

#[test]
fn the_lanczos_steps_are_enough_for_every_room() {
    let mut random = Generator::new(7);
    for case in 0..200 {
        let size_m = [
            random.between(1.5, 12.0),
            random.between(1.5, 12.0),
            random.between(2.0, 6.0),
        ];
        let absorption = [0, 1, 2].map(|_| [random.between(0.01, 0.9), random.between(0.01, 0.9)]);
        let field = bare(size_m, absorption, random.between(0.05, 1.0));
        let few = field
            .corrected_decay(30.0, 14)
            .time_s(-5.0, -25.0)
            .expect("it absorbs");
        let many = field
            .corrected_decay(30.0, 60)
            .time_s(-5.0, -25.0)
            .expect("it absorbs");
        assert!(
            percent(few, many).abs() < 0.5,
            "case {case}: {few} against {many} s"
        );
    }
}

#[test]
fn an_even_scattering_room_follows_eyring_with_kuttruffs_correction() {
    // Kuttruff, Room Acoustics: T = 24 ln10 V / (c S a''), a'' = −ln(1−a)(1 + γ²/2 · ln(1−a)); γ² by shape from his table
    // (from memory, medium). Limit 3 %. The cube ends at 0.35: at 0.5 his second-order term overshoots the tracer by 2 %.
    let shapes = [
        ([4.0, 4.0, 4.0], 0.342, 0.35),
        ([3.0, 3.0, 6.0], 0.356, 0.5),
        ([2.5, 5.0, 5.0], 0.363, 0.5),
    ];
    for (size_m, variance, most) in shapes {
        for a in [0.05, 0.1, 0.2, 0.35, 0.5]
            .into_iter()
            .filter(|a| *a <= most)
        {
            let ours = updated_t20_s(&bare(size_m, [[a; 2]; 3], 1.0));
            let truth = kuttruff_s(size_m, a, variance);
            let error = percent(ours, truth);
            println!("{size_m:?}, a = {a}: {ours:.3} s, Kuttruff {truth:.3} s, {error:+.2} %");
            assert!(error.abs() < 3.0, "{size_m:?}, a = {a}: {error:+.2} %");
        }
    }
}

/// T20 after the first pass and one update, s.
fn updated_t20_s(field: &Field) -> f64 {
    let first = field
        .log_rate_decay(18)
        .time_s(-5.0, -25.0)
        .expect("it absorbs");
    field
        .corrected_decay(13.8155 / first, 18)
        .time_s(-5.0, -25.0)
        .expect("it absorbs")
}

/// Eyring's time with Kuttruff's correction for the spread of free paths, s.
fn kuttruff_s([x, y, z]: [f64; 3], a: f64, variance: f64) -> f64 {
    let log = -(1.0 - a).ln();
    let area = 2.0 * (x * y + x * z + y * z);
    24.0 * 10f64.ln() * x * y * z / (343.2 * area * log * (1.0 - variance / 2.0 * log))
}

/// Energy in a box with mirror walls, averaged over all positions: each direction decays on its own, and at any time it has
/// met the two walls of an axis in turn from an even phase.
fn mirror_box_energy(size_m: [f64; 3], absorption: [[f64; 2]; 3], time_s: f64) -> f64 {
    let side = 80;
    let mut sum = 0.0;
    for i in 0..side {
        for j in 0..side {
            let z = (i as f64 + 0.5) / side as f64;
            let phi = (j as f64 + 0.5) / side as f64 * std::f64::consts::FRAC_PI_2;
            let sine = (1.0 - z * z).sqrt();
            let direction = [sine * phi.cos(), sine * phi.sin(), z];
            sum += (0..3)
                .map(|axis| {
                    axis_energy(
                        absorption[axis],
                        343.2 * direction[axis] * time_s / size_m[axis],
                    )
                })
                .product::<f64>();
        }
    }
    sum / f64::from(side * side)
}

/// Mean share left after `crossings` of one axis, over the place and the sense of the start.
fn axis_energy([a1, a2]: [f64; 2], crossings: f64) -> f64 {
    let whole = crossings.floor();
    let rest = crossings - whole;
    let after = |hits: f64| {
        let pairs = ((1.0 - a1) * (1.0 - a2)).powf((hits / 2.0).floor());
        if hits % 2.0 == 0.0 {
            pairs
        } else {
            pairs * (1.0 - (a1 + a2) / 2.0)
        }
    };
    (1.0 - rest) * after(whole) + rest * after(whole + 1.0)
}

#[test]
fn a_mirror_room_follows_the_position_averaged_image_sources() {
    // Closed form: the image sources of a box averaged over positions of source and receiver. First pass 1.5 %, updated 3 %.
    for absorption in [
        [[0.1; 2]; 3],
        [[0.05, 0.1], [0.1, 0.1], [0.05, 0.3]],
        [[0.2, 0.05], [0.1, 0.15], [0.1, 0.1]],
    ] {
        let size_m = [4.0, 5.5, 2.6];
        let field = bare(size_m, absorption, 0.0);
        let step = 1e-3;
        let curve: Vec<f64> = (0..2500)
            .map(|i| mirror_box_energy(size_m, absorption, f64::from(i) * step))
            .take_while(|e| *e > 1e-6)
            .collect();
        let truth = t20_of(&curve, step);
        let first = field
            .log_rate_decay(40)
            .time_s(-5.0, -25.0)
            .expect("it absorbs");
        let updated = field
            .corrected_decay(13.8155 / first, 18)
            .time_s(-5.0, -25.0)
            .expect("it absorbs");
        println!("{absorption:?}: images {truth:.3}, first {first:.3}, updated {updated:.3} s");
        assert!(
            percent(first, truth).abs() < 1.5,
            "first pass {:+.2} %",
            percent(first, truth)
        );
        assert!(
            percent(updated, truth).abs() < 3.0,
            "updated {:+.2} %",
            percent(updated, truth)
        );
    }
}

#[test]
fn without_absorption_the_sound_does_not_decay() {
    let mut traced = twelve_rooms().remove(0).1;
    for wall in &mut traced.walls {
        (wall.absorption, wall.patches) = (0.0, Vec::new());
    }
    (traced.object_absorption, traced.air_attenuation_per_m) = (0.0, 0.0);
    let ours = decay(&as_room(&traced));
    assert!(
        ours.t20_s
            .iter()
            .chain(&ours.t30_s)
            .chain(&ours.edt_s)
            .all(Option::is_none)
    );
}

#[test]
fn more_absorption_never_lengthens_the_decay() {
    let mut random = Generator::new(3);
    for (name, mut traced) in twelve_rooms() {
        let before = decay(&as_room(&traced)).t20_s[13].expect("it absorbs");
        let wall = &mut traced.walls[random.below(6)];
        wall.absorption = (wall.absorption + 0.1).min(0.95);
        let after = decay(&as_room(&traced)).t20_s[13].expect("it absorbs");
        assert!(after <= before * 1.000_1, "{name}: {before} → {after} s");
    }
}

#[test]
fn renaming_the_axes_changes_nothing() {
    for (name, traced) in twelve_rooms() {
        let all = fields(&as_room(&traced));
        let field = all[13];
        let turned = Field {
            pairs: [field.pairs[1], field.pairs[2], field.pairs[0]],
            ..field
        };
        let read = |field: &Field| {
            field
                .corrected_decay(20.0, 18)
                .time_s(-5.0, -25.0)
                .expect("it absorbs")
        };
        assert!(percent(read(&turned), read(&field)).abs() < 0.5, "{name}");
    }
}

#[test]
fn the_first_panel_makes_no_jump_in_scattering() {
    let extent = Rect {
        u_m: 0.0,
        v_m: 0.0,
        width_m: 5.0,
        height_m: 2.5,
    };
    let small = Patch::flat(
        Rect {
            width_m: 0.01,
            height_m: 0.01,
            ..extent
        },
        facing(0.8, 0.1),
    );
    let bare = Facing {
        scattering: scattering_bands(0.1),
        ..facing(0.05, 0.1)
    };
    let wall = Wall {
        extent,
        bare,
        parts: Vec::new(),
        pieces: vec![small],
    };
    let gained = wall.mean_scattering()[13] - bare.scattering[13];
    assert!(gained > 0.0 && gained < 1e-4, "{gained}");
}
