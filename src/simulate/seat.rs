//! What reaches the seat of a plan: images and decay put together for the report.

use std::sync::Arc;

use crate::bands::BANDS;
use crate::decay::{Decay, Field};
use crate::early::{Source, SourceEarly};
use crate::report::SeatReport;
use crate::room::Room;
use crate::scenario::document::Plan;
use crate::seat::{
    Arrival, Covered, Late, LateBand, LateSound, Placing, SeatFigures, Sound, figures,
};

use super::memory::Memory;
use super::prepared::Prepared;

/// Figures of the seat; none without loudspeakers.
pub(super) fn seat_report(
    room: &Room,
    decay: &Decay,
    sources: &[Source],
    early: &[SourceEarly],
    late: &[Arc<LateSound>],
    covered: &Covered,
) -> Option<SeatReport> {
    if early.is_empty() {
        return None;
    }
    let sounds = at_seat(sources, early, late);
    let terms = |band: usize| &decay.sums[band].terms[..];
    let c = room.air.speed_of_sound_m_per_s;
    let figures = seat_figures(&decay.fields, terms, covered, c, &sounds);
    let index_db = |source: &Source| source.directivity.pattern().index_db().into();
    Some(SeatReport {
        direct_share: figures.direct_share.into(),
        early_share: figures.early_share.into(),
        late_share: figures.late_share.into(),
        c50_db: figures.c50_db.into(),
        c80_db: figures.c80_db.into(),
        critical_distance_m: figures.critical_distance_m.into(),
        index_db: sources.iter().map(index_db).collect(),
        ranges: None,
    })
}

/// Figures from what every loudspeaker sends; `terms` gives the decay of a band.
pub(super) fn seat_figures<'a>(
    fields: &[Field],
    terms: impl Fn(usize) -> &'a [(f64, f64)],
    covered: &Covered,
    speed_of_sound_m_per_s: f64,
    sounds: &[Sound],
) -> SeatFigures {
    let bands: [LateBand<'_>; BANDS] =
        std::array::from_fn(|band| LateBand::new(&fields[band], terms(band)));
    let late = Late {
        covered,
        bands: &bands,
        speed_of_sound_m_per_s,
    };
    figures(&late, sounds)
}

impl Prepared {
    /// The late sound of every loudspeaker of a plan at its seat; nothing without a seat.
    pub(super) fn late_sounds(
        &self,
        room: &Room,
        plan: &Plan,
        sources: &[Source],
        memory: &mut Memory,
    ) -> Vec<Arc<LateSound>> {
        let Some(seat) = self.scenario.listening_of(plan).seat else {
            return Vec::new();
        };
        let placing = |source: &Source| Placing {
            size_m: room.size_m,
            source_m: source.position_m,
            axis: source.axis,
            directivity: source.directivity,
            seat_m: seat.point_m(),
            furniture_per_m: room.furniture_hits_per_m(),
            air_per_m: room.air.attenuation_per_m,
            speed_of_sound_m_per_s: room.air.speed_of_sound_m_per_s,
        };
        memory.late(sources.iter().map(placing).collect())
    }
}

/// What each loudspeaker sends to the seat.
pub(super) fn at_seat(
    sources: &[Source],
    early: &[SourceEarly],
    late: &[Arc<LateSound>],
) -> Vec<Sound> {
    let sounds = sources.iter().zip(early).zip(late);
    sounds
        .map(|((source, early), late)| sound(source, early, late))
        .collect()
}

fn sound(source: &Source, early: &SourceEarly, late: &Arc<LateSound>) -> Sound {
    Sound {
        direct: early.direct.energy,
        q: source.directivity.pattern().q(),
        arrivals: early
            .reflections
            .iter()
            .map(|image| Arrival {
                delay_s: image.delay_s,
                energy: image.energy,
            })
            .collect(),
        late: Arc::clone(late),
    }
}
