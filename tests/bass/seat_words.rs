//! What is said about the bass of a few rooms.

use std::f64::consts::PI;

use glam::DVec3;
use seatward::bass::{Bass, BassRoom, bass, behind, pieces, real_admittance, words};
use seatward::geometry::Surface;

use crate::rooms::{LONG_ROOM_M, LOUDSPEAKERS_M, SEAT_M, porous, rect, room};

/// A square study: 3.05 × 3.05 × 2.50 m, walls of board.
fn study() -> (BassRoom, [DVec3; 2], DVec3) {
    let room = room(DVec3::new(3.05, 3.05, 2.5), real_admittance(0.1));
    let loudspeakers = [DVec3::new(0.85, 0.45, 1.0), DVec3::new(2.2, 0.45, 1.0)];
    (room, loudspeakers, DVec3::new(1.525, 1.85, 1.15))
}

fn study_bass() -> Bass {
    let (room, loudspeakers, seat_m) = study();
    bass(&room, &loudspeakers, seat_m, 150.0)
}

/// 343.2 m/s over 2 · 3.05 m.
#[test]
fn a_square_room_has_two_notes_at_one_pitch_and_says_so() {
    let found = study_bass();
    assert_eq!(found.coincident[0], [0, 1]);
    for note in &found.notes[..2] {
        assert!(
            (note.mode.frequency_hz - 56.3).abs() < 0.1,
            "{:?}",
            note.mode
        );
    }
    let sentence = found.words.iter().find(|words| words.starts_with("56 Hz"));
    assert!(
        sentence.is_some_and(|words| words.contains("across") && words.contains("lengthwise")),
        "{:?}",
        found.words
    );
}

#[test]
fn notes_that_only_one_loudspeaker_at_a_time_feeds_cancel() {
    let found = study_bass();
    let across = found
        .notes
        .iter()
        .find(|note| note.mode.n == [1, 0, 0])
        .expect("the note across");
    assert!(across.fed < 0.1 && across.fed_by[0] > 0.5);
    assert!(across.heard < 1e-9, "the seat is in the middle");
    assert!(words::note_in_words(across).contains("together they cancel"));
    let expected = (PI * 0.45 / 3.05).cos();
    let along = found
        .notes
        .iter()
        .find(|note| note.mode.n == [0, 1, 0])
        .expect("the note along");
    assert!((along.fed - expected).abs() < 1e-12);
}

#[test]
fn the_wall_behind_takes_out_a_quarter_wave() {
    let found = behind::behind(&room(LONG_ROOM_M, 0.01), &LOUDSPEAKERS_M, SEAT_M);
    assert_eq!(found.len(), 2);
    for one in found {
        assert_eq!(one.wall, Surface::Front);
        assert!(
            (one.distance_m - 1.1).abs() < 1e-12 && (one.dip_hz - 78.0).abs() < 0.1,
            "{one:?}"
        );
    }
    let at_wall = [DVec3::new(1.0, 0.0, 1.0)];
    assert!(behind::behind(&room(LONG_ROOM_M, 0.01), &at_wall, SEAT_M).is_empty());
    let beside = [DVec3::new(3.0, 3.9, 1.0)];
    assert_eq!(
        behind::behind(&room(LONG_ROOM_M, 0.01), &beside, SEAT_M)[0].wall,
        Surface::Right
    );
}

#[test]
fn thin_foam_leaves_the_bass_and_deep_absorbers_do_not() {
    let (bare, loudspeakers, seat_m) = study();
    let with = |admittance: seatward::bass::Admittance| {
        let mut room = bare.clone();
        for wall in [0, 1, 3] {
            room.walls[wall]
                .patches
                .push((rect(0.5, 0.6, 2.0, 1.0), admittance.clone()));
        }
        let changes = pieces::changes(&bare, &room, &loudspeakers, seat_m);
        pieces::in_words(&changes).expect("a sentence")
    };
    let (foam, deep) = (with(porous(0.025, 0.0)), with(porous(0.2, 0.2)));
    assert!(foam.contains("hardly touch"), "{foam}");
    assert!(!deep.contains("hardly touch"), "{deep}");
}

#[test]
fn the_map_at_the_seat_agrees_with_the_response_there() {
    let found = study_bass();
    let together = found.response.energy_together();
    let layer = found
        .map
        .frequency_hz
        .iter()
        .position(|&hz| hz == 63.0)
        .expect("63 Hz");
    let within = |hz: f64| (hz / 63.0).log10().abs() < 0.05;
    let of_band: Vec<f64> = found
        .response
        .frequency_hz
        .iter()
        .zip(&together)
        .filter(|(hz, _)| within(**hz))
        .map(|(_, e)| *e)
        .collect();
    let expected_db = 10.0 * (of_band.iter().sum::<f64>() / of_band.len() as f64).log10();
    let columns = found.map.x_m.len();
    let nearest = |places: &[f64], at: f64| {
        places
            .iter()
            .position(|place| (place - at).abs() <= 0.051)
            .expect("a place")
    };
    let place = nearest(&found.map.y_m, 1.85) * columns + nearest(&found.map.x_m, 1.525);
    let found_db = found.map.level_db[layer * columns * found.map.y_m.len() + place];
    assert!(
        (found_db - expected_db).abs() < 1.5,
        "{found_db} against {expected_db}"
    );
}

#[test]
fn a_large_room_says_where_single_notes_end() {
    let loft = room(DVec3::new(9.2, 7.1, 3.4), 0.01);
    let found = bass(
        &loft,
        &[DVec3::new(3.3, 1.0, 1.0)],
        DVec3::new(4.6, 4.3, 1.05),
        250.0,
    );
    assert!(
        found.stops_at_hz < 200.0 && found.stops_at_hz > 120.0,
        "{}",
        found.stops_at_hz
    );
    assert!(
        found
            .response
            .frequency_hz
            .iter()
            .all(|&hz| hz <= found.stops_at_hz)
    );
    let last = found.words.last().expect("words");
    assert!(
        last.starts_with(&format!(
            "Single notes are followed up to {:.0} Hz",
            found.stops_at_hz
        )),
        "{last}"
    );
}

#[test]
fn a_move_of_the_seat_is_told_with_its_gain() {
    let found = study_bass();
    let (_, _, seat_m) = study();
    let place = found
        .map
        .evener_within(seat_m.x, seat_m.y, 0.5)
        .expect("a better place");
    assert!((place.x_m - seat_m.x).hypot(place.y_m - seat_m.y) <= 0.5);
    assert!(place.unevenness_db < place.from_db);
    let told = words::evener(&place, seat_m.x, seat_m.y);
    assert!(
        told.starts_with("Moving the seat ") && told.contains(" cm "),
        "{told}"
    );
}
