//! The bass: a small room's single notes, what the loudspeakers feed and the seat hears of them, and the response they give.
//!
//! The notes of the rigid box, coupled by the admittance of its walls, are solved for frequency by frequency. Left out:
//! furniture and people, the loudspeakers' own size, doors and walls that give way as a whole.

pub mod admittance;
pub mod behind;
mod beyond;
pub mod coupled;
pub mod map;
pub mod modes;
pub mod notes;
pub mod pieces;
pub mod response;
pub mod room;
mod symmetric;
mod walls;
pub mod words;

use glam::DVec3;
use num_complex::Complex64;

pub use admittance::{Admittance, real_admittance};
pub use behind::Behind;
pub use map::{EvenerPlace, Map};
pub use modes::Mode;
pub use notes::Note;
pub use response::Response;
pub use room::{BassRoom, BassWall};

use coupled::Coupled;
use map::Mapper;
use response::Seat;

/// Farthest that a move of the seat is suggested, m.
const MOVE_WITHIN_M: f64 = 0.5;

/// Least gain in evenness that a move is suggested for, dB.
const WORTH_MOVING_DB: f64 = 1.0;

/// All about the bass of one plan.
#[derive(Clone, Debug, PartialEq)]
pub struct Bass {
    /// Every note up to the top of the response, lowest first.
    pub notes: Vec<Note>,
    /// Pairs of notes that coincide, by index.
    pub coincident: Vec<[usize; 2]>,
    /// At the seat.
    pub response: Response,
    /// Frequency up to which single notes are followed, Hz.
    pub stops_at_hz: f64,
    /// Over the floor at the height of the seat.
    pub map: Map,
    /// Dips of the walls behind the loudspeakers.
    pub behind: Vec<Behind>,
    /// A place nearby that hears the bass more evenly, if it is worth moving there.
    pub evener: Option<EvenerPlace>,
    /// What matters, first things first.
    pub words: Vec<String>,
}

/// Computes the bass of a room.
///
/// # Units
/// - `sources_m`, `receiver_m`: in the room's frame, m
/// - `highest_hz`: top of the response, Hz; it ends earlier where the notes become too many
#[must_use]
pub fn bass(room: &BassRoom, sources_m: &[DVec3], receiver_m: DVec3, highest_hz: f64) -> Bass {
    bass_and_maps(room, sources_m, &[], receiver_m, highest_hz).0
}

/// The bass of a room, and how it lies over the floor with the sources at other places: those share its solution.
///
/// # Units
/// - `sources_m`, `others_m`, `receiver_m`: in the room's frame, m
/// - `highest_hz`: as for [`bass`]
#[must_use]
pub fn bass_and_maps(
    room: &BassRoom,
    sources_m: &[DVec3],
    others_m: &[Vec<DVec3>],
    receiver_m: DVec3,
    highest_hz: f64,
) -> (Bass, Vec<Map>) {
    let coupled = Coupled::new(room, highest_hz);
    let stops_at_hz = coupled.stops_at_hz();
    let (response, map, others) =
        response_and_maps(room, &coupled, sources_m, others_m, receiver_m);
    let notes = notes::notes(&coupled, room.size_m, sources_m, receiver_m, stops_at_hz);
    let coincident = notes::coincident(&notes);
    let mut words = words::leading(&notes, &coincident);
    let evener = map.evener_within(receiver_m.x, receiver_m.y, MOVE_WITHIN_M);
    let worth = evener.filter(|place| place.from_db - place.unevenness_db >= WORTH_MOVING_DB);
    words.extend(worth.map(|place| words::evener(&place, receiver_m.x, receiver_m.y)));
    words.extend((stops_at_hz < highest_hz).then(|| words::stops(stops_at_hz)));
    let bass = Bass {
        notes,
        coincident,
        response,
        stops_at_hz,
        map,
        behind: behind::behind(room, sources_m, receiver_m),
        evener: worth,
        words,
    };
    (bass, others)
}

/// All in one pass over the frequencies, as they share the solution.
fn response_and_maps(
    room: &BassRoom,
    coupled: &Coupled,
    sources_m: &[DVec3],
    others_m: &[Vec<DVec3>],
    receiver_m: DVec3,
) -> (Response, Map, Vec<Map>) {
    let seat = Seat::new(room, coupled, sources_m, receiver_m);
    let mapper = || Mapper::new(coupled, room.size_m, receiver_m.z);
    let mut here = mapper();
    let mut elsewhere: Vec<Mapper> = others_m.iter().map(|_| mapper()).collect();
    let all_m: Vec<DVec3> = sources_m
        .iter()
        .chain(others_m.iter().flatten())
        .copied()
        .collect();
    let frequency_hz = response::frequencies_hz(coupled.stops_at_hz());
    let mut pressure: Vec<Vec<Complex64>> = vec![Vec::new(); sources_m.len()];
    for &hz in &frequency_hz {
        let amplitudes = coupled.amplitudes(hz, &all_m);
        let (own, mut rest) = amplitudes.split_at(sources_m.len());
        here.add(hz, own);
        for (mapper, sources) in elsewhere.iter_mut().zip(others_m) {
            let (next, after) = rest.split_at(sources.len());
            mapper.add(hz, next);
            rest = after;
        }
        for (series, value) in pressure.iter_mut().zip(seat.pressure(hz, own)) {
            series.push(value);
        }
    }
    let response = Response {
        frequency_hz,
        pressure,
    };
    let others = elsewhere.into_iter().map(Mapper::finish).collect();
    (response, here.finish(), others)
}
