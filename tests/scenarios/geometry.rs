//! Exact geometry of the six rooms: bounce points, delays, levels by distance, notes, dips. Computed by hand from the
//! documents' lengths with image points and c = 343.2 m/s, rounded as printed.

use glam::DVec3;
use num_complex::Complex64;
use seatward::air::Air;
use seatward::bass::behind::behind;
use seatward::bass::modes::modes_up_to;
use seatward::bass::{Admittance, BassRoom, BassWall, Behind};
use seatward::geometry::Surface;
use seatward::report::PlanReport;
use seatward::simulate::Prepared;

use crate::stories::{
    CORNER_ROOM, DEN, LOFT, STORIES, STUDY, TALL_ROOM, TERRACE, mid_s, off, story,
};

const SPEED_OF_SOUND_M_PER_S: f64 = 343.2;

/// Rounding of the last digit of what is rounded to hundredths, tenths and whole numbers.
const HUNDREDTH: f64 = 0.005 + 1e-6;
const TENTH: f64 = 0.05 + 1e-6;
const WHOLE: f64 = 0.5 + 1e-6;

/// A bounce of the left loudspeaker.
struct Bounce {
    story: &'static str,
    surface: Surface,
    point_m: [f64; 3],
    late_ms: f64,
    level_db: f64,
    first_dip_hz: f64,
}

#[rustfmt::skip]
const BOUNCES: [Bounce; 13] = [
    Bounce { story: CORNER_ROOM, surface: Surface::Left, point_m: [0.0, 1.50, 0.98], late_ms: 2.02, level_db: -1.8, first_dip_hz: 248.0 },
    Bounce { story: CORNER_ROOM, surface: Surface::Floor, point_m: [1.13, 1.93, 0.0], late_ms: 1.76, level_db: -1.6, first_dip_hz: 285.0 },
    Bounce { story: CORNER_ROOM, surface: Surface::Ceiling, point_m: [1.16, 2.05, 2.45], late_ms: 3.40, level_db: -2.8, first_dip_hz: 147.0 },
    Bounce { story: TERRACE, surface: Surface::Left, point_m: [0.0, 1.89, 0.93], late_ms: 1.89, level_db: -1.7, first_dip_hz: 264.0 },
    Bounce { story: TERRACE, surface: Surface::Back, point_m: [1.27, 8.40, 0.96], late_ms: 25.84, level_db: -12.0, first_dip_hz: 19.0 },
    Bounce { story: LOFT, surface: Surface::Left, point_m: [0.0, 2.38, 1.02], late_ms: 14.61, level_db: -7.7, first_dip_hz: 34.0 },
    Bounce { story: LOFT, surface: Surface::Ceiling, point_m: [3.96, 2.67, 3.40], late_ms: 6.94, level_db: -4.5, first_dip_hz: 72.0 },
    Bounce { story: STUDY, surface: Surface::Left, point_m: [0.0, 0.95, 1.05], late_ms: 3.50, level_db: -5.0, first_dip_hz: 143.0 },
    Bounce { story: STUDY, surface: Surface::Floor, point_m: [1.16, 1.10, 0.0], late_ms: 3.18, level_db: -4.6, first_dip_hz: 157.0 },
    Bounce { story: DEN, surface: Surface::Left, point_m: [0.0, 1.60, 0.93], late_ms: 2.46, level_db: -2.3, first_dip_hz: 203.0 },
    Bounce { story: DEN, surface: Surface::Ceiling, point_m: [1.27, 2.13, 2.11], late_ms: 2.41, level_db: -2.2, first_dip_hz: 207.0 },
    Bounce { story: TALL_ROOM, surface: Surface::Left, point_m: [0.0, 1.60, 0.99], late_ms: 6.37, level_db: -5.2, first_dip_hz: 78.0 },
    Bounce { story: TALL_ROOM, surface: Surface::Right, point_m: [5.35, 2.14, 1.01], late_ms: 12.31, level_db: -8.2, first_dip_hz: 41.0 },
];

/// A room's notes.
struct Notes {
    story: &'static str,
    axial_hz: [f64; 3],
    up_to_120_hz: usize,
    wall_behind_hz: f64,
    statistics_hz: f64,
}

#[rustfmt::skip]
const NOTES: [Notes; 6] = [
    Notes { story: CORNER_ROOM, axial_hz: [55.4, 39.9, 70.0], up_to_120_hz: 14, wall_behind_hz: 156.0, statistics_hz: 221.0 },
    Notes { story: TERRACE, axial_hz: [52.0, 20.4, 63.6], up_to_120_hz: 24, wall_behind_hz: 78.0, statistics_hz: 146.0 },
    Notes { story: LOFT, axial_hz: [18.7, 24.2, 50.5], up_to_120_hz: 66, wall_behind_hz: 86.0, statistics_hz: 85.0 },
    Notes { story: STUDY, axial_hz: [56.3, 56.3, 68.6], up_to_120_hz: 9, wall_behind_hz: 191.0, statistics_hz: 262.0 },
    Notes { story: DEN, axial_hz: [50.4, 33.4, 81.4], up_to_120_hz: 15, wall_behind_hz: 115.0, statistics_hz: 208.0 },
    Notes { story: TALL_ROOM, axial_hz: [32.1, 42.4, 47.7], up_to_120_hz: 26, wall_behind_hz: 123.0, statistics_hz: 143.0 },
];

/// The decay for which the limits of statistics above are, s.
const STATISTICS_AT_S: f64 = 0.4;

fn close(ours: f64, theirs: f64, within: f64, what: &str) {
    assert!(
        (ours - theirs).abs() <= within,
        "{what}: {ours} against {theirs}"
    );
}

/// How much slower or faster sound is in the room's own air.
fn speed_ratio(prepared: &Prepared) -> f64 {
    let room = &prepared.scenario().room;
    let air = Air::at(
        room.temperature_c.unwrap_or(20.0),
        room.humidity_percent.unwrap_or(50.0),
    );
    air.speed_of_sound_m_per_s / SPEED_OF_SOUND_M_PER_S
}

fn seat_m(prepared: &Prepared) -> DVec3 {
    let seat = prepared.scenario().listening.seat;
    seat.expect("every story has a seat").point_m()
}

fn loudspeakers_m(prepared: &Prepared) -> Vec<DVec3> {
    let loudspeakers = prepared.scenario().listening.loudspeakers.iter();
    loudspeakers.map(|one| one.spot.point_m()).collect()
}

/// From the left loudspeaker to the seat, m.
fn direct_m(prepared: &Prepared) -> f64 {
    loudspeakers_m(prepared)[0].distance(seat_m(prepared))
}

/// Dips of the walls behind the loudspeakers; they hang on the box alone.
fn dips_behind(prepared: &Prepared) -> Vec<Behind> {
    let size_m = prepared.scenario().room.size_m();
    let rigid = |surface: Surface| BassWall {
        extent: surface.extent(size_m),
        bare: Admittance::sampled(|_| Complex64::new(0.0, 0.0)),
        patches: Vec::new(),
    };
    let room = BassRoom {
        size_m,
        speed_of_sound_m_per_s: SPEED_OF_SOUND_M_PER_S,
        walls: Surface::ALL.map(rigid),
    };
    behind(&room, &loudspeakers_m(prepared), seat_m(prepared))
}

fn check_bounce(bounce: &Bounce, prepared: &Prepared, report: &PlanReport) {
    let found = off(report, 0, bounce.surface);
    let what = format!("{}, {:?}", bounce.story, bounce.surface);
    for (ours, theirs) in found.points_m[0].into_iter().zip(bounce.point_m) {
        close(ours, theirs, HUNDREDTH, &what);
    }
    let late_s = found.delay_s * speed_ratio(prepared);
    close(1e3 * late_s, bounce.late_ms, HUNDREDTH, &what);
    close(0.5 / late_s, bounce.first_dip_hz, WHOLE, &what);
    let level_db = 20.0 * (direct_m(prepared) / found.distance_m).log10();
    close(level_db, bounce.level_db, TENTH, &what);
}

#[test]
fn every_bounce_lies_where_its_mirror_image_says() {
    for name in STORIES {
        let prepared = story(name);
        let report = prepared
            .predict(0)
            .expect("every story has a room as it is");
        let of_this = BOUNCES.iter().filter(|bounce| bounce.story == name);
        assert!(of_this.clone().count() >= 2, "{name}");
        of_this.for_each(|bounce| check_bounce(bounce, &prepared, &report));
    }
}

#[test]
fn the_rooms_have_as_many_notes_as_counted_by_hand() {
    for notes in &NOTES {
        let size_m = story(notes.story).scenario().room.size_m();
        let found = modes_up_to(size_m, SPEED_OF_SOUND_M_PER_S, 120.0);
        // The constant pressure leads the list and is no note.
        assert_eq!(found.len() - 1, notes.up_to_120_hz, "{}", notes.story);
        for (axis, hz) in notes.axial_hz.into_iter().enumerate() {
            let mut n = [0; 3];
            n[axis] = 1;
            let note = found.iter().find(|mode| mode.n == n);
            let ours = note.expect("the axial notes lie below 120 Hz").frequency_hz;
            close(ours, hz, TENTH, notes.story);
        }
    }
}

#[test]
fn the_wall_behind_takes_out_the_note_of_four_distances() {
    for notes in &NOTES {
        let dips = dips_behind(&story(notes.story));
        assert_eq!(dips.len(), 2, "{}", notes.story);
        for dip in dips {
            assert_eq!(dip.wall, Surface::Front, "{}", notes.story);
            close(dip.dip_hz, notes.wall_behind_hz, WHOLE, notes.story);
        }
    }
}

#[test]
fn statistics_begin_where_volume_and_decay_say() {
    for notes in &NOTES {
        let prepared = story(notes.story);
        let report = prepared
            .predict(0)
            .expect("every story has a room as it is");
        let from_hz = report.room.statistics_from_hz.expect("the room absorbs");
        let scaled_hz = from_hz * (STATISTICS_AT_S / mid_s(&report)).sqrt();
        close(scaled_hz, notes.statistics_hz, WHOLE, notes.story);
    }
}

#[test]
fn in_the_terrace_room_two_dips_coincide() {
    // The wall behind at 78 Hz, the bounce off the far side at 79 Hz: no place along the wall cures both.
    let prepared = story(TERRACE);
    let report = prepared
        .predict(0)
        .expect("every story has a room as it is");
    let far_s = off(&report, 0, Surface::Right).delay_s * speed_ratio(&prepared);
    close(0.5 / far_s, 79.0, 1.0, "far side");
    let behind_hz = dips_behind(&prepared)[0].dip_hz;
    close(0.5 / far_s, behind_hz, 2.0, "far side and wall behind");
}

#[test]
fn in_the_den_the_ceiling_answers_as_strongly_as_the_side() {
    let prepared = story(DEN);
    let report = prepared
        .predict(0)
        .expect("every story has a room as it is");
    let [side, above] = [Surface::Left, Surface::Ceiling].map(|surface| off(&report, 0, surface));
    close(1e3 * side.delay_s, 1e3 * above.delay_s, 0.1, "delay, ms");
    let apart_db = 20.0 * (side.distance_m / above.distance_m).log10();
    close(apart_db, 0.0, 0.1, "level by distance, dB");
}

#[test]
fn the_back_wall_of_the_terrace_room_is_far_enough_to_scatter() {
    // Trade advice asks for 2 to 3 m before a scattering piece.
    let prepared = story(TERRACE);
    let behind_m = prepared.scenario().room.length_m - seat_m(&prepared).y;
    close(behind_m, 4.5, 1e-9, "behind the seat, m");
}
