//! The response at the seat over all frequencies: images and late sound above, the room's modes below.

use std::sync::Arc;

use num_complex::Complex64;

use crate::bands::{BANDS, Banded};
use crate::bass;
use crate::decay::Decay;
use crate::early::SourceEarly;
use crate::report::{Levels, ResponseReport, Series};
use crate::room::Room;
use crate::seat::{
    Above, Covered, LateBand, LateSound, Response, Tail, Wave, above, frequencies_hz, join,
    levels_db, third_octaves,
};
use crate::spectrum::{FINE, frequency_hz};

/// Images of this order and above are summed as energy.
const WITHOUT_PHASE: usize = 3;

/// What is heard above the bass.
pub(super) struct Heard {
    frequency_hz: Vec<f64>,
    response: Option<Response>,
}

impl Heard {
    /// Of two loudspeakers; of any other number nothing is computed.
    pub fn new(
        room: &Room,
        decay: &Decay,
        early: &[SourceEarly],
        late: &[Arc<LateSound>],
        covered: &Covered,
    ) -> Self {
        let frequency_hz = frequencies_hz();
        let tails = tails(room, decay, covered);
        let mut loudspeakers = early
            .iter()
            .zip(late)
            .map(|(early, late)| heard_of(early, late, &tails));
        let response = match (loudspeakers.next(), loudspeakers.next()) {
            (Some(left), Some(right)) => Some(above(&[left, right], &frequency_hz)),
            _ => None,
        };
        Self {
            frequency_hz,
            response,
        }
    }

    /// With the modes below.
    pub fn joined(&self, modes: &bass::Response, joining_hz: f64) -> Option<ResponseReport> {
        let response = self.response.as_ref()?;
        let with = |low: Vec<f64>, high: &[f64]| {
            let low: Vec<(f64, f64)> = modes.frequency_hz.iter().copied().zip(low).collect();
            join(&low, high, &self.frequency_hz, joining_hz)
        };
        let left = with(modes.energy(0), &response.each[0]);
        let right = with(modes.energy(1), &response.each[1]);
        let both = with(modes.energy_together(), &response.both);
        let thirds = [&left, &right, &both].map(|energy| third_octaves(&self.frequency_hz, energy));
        let energies =
            |series: &[(f64, f64)]| series.iter().map(|point| point.1).collect::<Vec<_>>();
        Some(ResponseReport {
            levels: levels(&self.frequency_hz, [&left, &right, &both]),
            third_octave: levels(
                &thirds[0].iter().map(|point| point.0).collect::<Vec<_>>(),
                thirds
                    .each_ref()
                    .map(|series| energies(series))
                    .each_ref()
                    .map(Vec::as_slice),
            ),
        })
    }
}

fn levels(frequency_hz: &[f64], [left, right, both]: [&[f64]; 3]) -> Levels {
    Levels {
        frequency_hz: Series(frequency_hz.to_vec()),
        left_db: Series(levels_db(left)),
        right_db: Series(levels_db(right)),
        both_db: Series(levels_db(both)),
    }
}

/// The late sound that is alike everywhere, per band.
pub(super) fn tails<'a>(room: &Room, decay: &'a Decay, covered: &Covered) -> Vec<Tail<'a>> {
    let c = room.air.speed_of_sound_m_per_s;
    (0..BANDS)
        .map(|band| {
            let late = LateBand::new(&decay.fields[band], &decay.sums[band].terms);
            Tail::new(covered, late, c)
        })
        .collect()
}

/// One loudspeaker: direct sound and images of low order as waves, the rest as energy.
fn heard_of(early: &SourceEarly, late: &LateSound, tails: &[Tail<'_>]) -> Above {
    let direct_s = early.direct.time_s;
    let with_phase = |image: &&crate::early::Early| image.path.order() < WITHOUT_PHASE;
    let images = early
        .reflections
        .iter()
        .filter(with_phase)
        .map(|image| Wave {
            time_s: direct_s + image.delay_s,
            pressure: image.pressure.clone(),
        });
    let without_phase = early
        .reflections
        .iter()
        .filter(|image| !with_phase(image))
        .fold(Banded::constant(0.0), |sum, image| sum + image.energy);
    let tail = Banded::from_fn(|band| late.after(band, &tails[band], 0.0));
    Above {
        waves: std::iter::once(direct_wave(early)).chain(images).collect(),
        late: without_phase + tail,
    }
}

fn direct_wave(early: &SourceEarly) -> Wave {
    let pressure = |i: usize| {
        let hz = frequency_hz::<FINE>(i);
        (
            hz,
            Complex64::new(early.direct.energy.at_hz(hz).sqrt(), 0.0),
        )
    };
    Wave {
        time_s: early.direct.time_s,
        pressure: (0..FINE).map(pressure).collect(),
    }
}
