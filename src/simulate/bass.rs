//! The bass of a plan: single notes, map and response, in the room as the decay has it.

use num_complex::Complex64;

use crate::bands::Banded;
use crate::bass::{Admittance, Bass, BassRoom, BassWall, bass, pieces, real_admittance, words};
use crate::decay::decay;
use crate::report::{
    BassMore, BassReport, BehindReport, EvenerReport, MapReport, ModeReport, ResponseReport, Series,
};
use crate::room::Room;
use crate::surface::{Patch, Wall};

use super::figures::mid;
use super::memory::Memory;
use super::prepared::Prepared;
use super::response::Heard;

/// The joining frequency of modes and statistics is at most this, Hz.
pub(super) const MOST_JOINING_HZ: f64 = 250.0;

/// The response of the modes reaches at least this far, Hz.
const LEAST_TOP_HZ: f64 = 200.0;

impl Prepared {
    /// The bass of a plan; none without such a plan, a seat and two loudspeakers.
    #[must_use]
    pub fn bass(&self, plan: usize) -> Option<BassReport> {
        let plan = self.scenario.plans.get(plan)?;
        let seat_m = self.scenario.listening_of(plan).seat?.point_m();
        let sources = self.sources(plan);
        let [left, right] = &sources[..] else {
            return None;
        };
        let sources_m = [left.position_m, right.position_m];
        let room = self.room(plan);
        let decay = decay(&room);
        let (_, statistics_from_hz) = mid(&decay, room.volume_m3());
        let joining_hz = statistics_from_hz.map_or(MOST_JOINING_HZ, |hz| hz.min(MOST_JOINING_HZ));
        let top_hz = LEAST_TOP_HZ.max(std::f64::consts::SQRT_2 * joining_hz);
        let with = bass_room(&room);
        let found = bass(&with, &sources_m, seat_m, top_hz);
        let mut memory = Memory::default();
        let early = self.sounds(&room, plan, &sources, &mut memory, true);
        let late = self.late_sounds(&room, plan, &sources, &mut memory);
        let above = Heard::new(&room, &decay, &early, &late, memory.covered(room.size_m));
        // The octave of joining ends where the notes do.
        let joining_hz = joining_hz.min(found.stops_at_hz / std::f64::consts::SQRT_2);
        let response = above.joined(&found.response, joining_hz)?;
        let changes = (!plan.pieces.is_empty())
            .then(|| pieces::changes(&bare(&room), &with, &sources_m, seat_m));
        Some(report(found, response, &changes.unwrap_or_default()))
    }
}

/// The room without the pieces of a plan.
fn bare(room: &Room) -> BassRoom {
    let mut bare = room.clone();
    for wall in &mut bare.walls {
        wall.pieces.clear();
    }
    bass_room(&bare)
}

/// The room as waves meet it.
pub(super) fn bass_room(room: &Room) -> BassRoom {
    BassRoom {
        size_m: room.size_m,
        speed_of_sound_m_per_s: room.air.speed_of_sound_m_per_s,
        walls: room.walls.each_ref().map(bass_wall),
    }
}

fn bass_wall(wall: &Wall) -> BassWall {
    let patches = wall.parts.iter().chain(&wall.pieces);
    BassWall {
        extent: wall.extent,
        bare: plain(&wall.bare.absorption),
        patches: patches
            .map(|patch| (patch.rect, admittance(patch)))
            .collect(),
    }
}

/// Of a piece with its phase; of a part, real, from its absorption.
fn admittance(patch: &Patch) -> Admittance {
    patch.front.as_ref().map_or_else(
        || plain(&patch.facing.absorption),
        |front| Admittance::sampled(|hz| front.admittance(hz)),
    )
}

/// Real, of a plain surface of that absorption at random incidence.
fn plain(absorption: &Banded) -> Admittance {
    Admittance::sampled(|hz| Complex64::new(real_admittance(absorption.at_hz(hz)), 0.0))
}

/// `changes` is what the pieces do to each note; empty without pieces.
fn report(found: Bass, response: ResponseReport, changes: &[pieces::Change]) -> BassReport {
    let mode = |note: &crate::bass::Note| ModeReport {
        n: note.mode.n,
        frequency_hz: note.mode.frequency_hz,
        decay_s: note.decay_s,
        note: words::note_in_words(note),
        fed: note.fed,
        heard: note.heard,
    };
    let behind = |dip: &crate::bass::Behind| BehindReport {
        loudspeaker: dip.loudspeaker,
        wall: dip.wall,
        distance_m: dip.distance_m,
        dip_hz: dip.dip_hz,
    };
    let evener = |place: crate::bass::EvenerPlace| EvenerReport {
        x_m: place.x_m,
        y_m: place.y_m,
        varies_db: place.unevenness_db,
        from_db: place.from_db,
    };
    let more = BassMore {
        stops_at_hz: found.stops_at_hz,
        words: found.words,
        map: MapReport {
            nx: found.map.x_m.len(),
            ny: found.map.y_m.len(),
            frequency_hz: Series(found.map.frequency_hz),
            x_m: Series(found.map.x_m),
            y_m: Series(found.map.y_m),
            level_db: Series(found.map.level_db),
            unevenness_db: Series(found.map.unevenness_db),
        },
        behind: found.behind.iter().map(behind).collect(),
        coincident: found.coincident,
        thin: pieces::in_words(changes),
        note_kept: pieces::of_heaviest(changes).map(pieces::Change::kept),
        evener: found.evener.map(evener),
    };
    BassReport {
        response,
        modes: found.notes.iter().map(mode).collect(),
        more,
    }
}
