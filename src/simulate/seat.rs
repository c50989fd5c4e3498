//! What reaches the seat of a plan: images and decay put together for the report.

use crate::bands::BANDS;
use crate::decay::{Decay, Field};
use crate::early::{Source, SourceEarly};
use crate::report::SeatReport;
use crate::room::Room;
use crate::seat::{Arrival, Covered, Late, LateBand, SeatFigures, Sound, figures};

/// Figures of the seat; none without loudspeakers.
pub(super) fn seat_report(
    room: &Room,
    decay: &Decay,
    sources: &[Source],
    early: &[SourceEarly],
    covered: &Covered,
) -> Option<SeatReport> {
    if early.is_empty() {
        return None;
    }
    let sounds: Vec<Sound> = sources.iter().zip(early).map(sound).collect();
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

/// Direct sound and images of one loudspeaker, without what depends on its place in a list.
pub(super) fn sound((source, early): (&Source, &SourceEarly)) -> Sound {
    Sound {
        direct_s: early.direct.time_s,
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
    }
}
