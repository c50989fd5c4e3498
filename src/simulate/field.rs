//! Words and figures on how the late sound of a plan lies in its room.

use crate::decay::Decay;
use crate::field_shape::{PAIRS, bent, carried, flutter};
use crate::report::{Carrier, FieldReport, FlutterReport};
use crate::room::Room;

/// Bent decay in words, and which walls the late sound meets.
pub(super) fn field_report(room: &Room, decay: &Decay) -> FieldReport {
    let Some(shares) = carried(decay) else {
        return FieldReport {
            bent: None,
            carriers: Vec::new(),
        };
    };
    let carrier = |(pair, share): (&(_, _), f64)| Carrier {
        surfaces: [pair.0, pair.1],
        share,
    };
    FieldReport {
        bent: bent(room, decay, &shares),
        carriers: PAIRS.iter().zip(shares).map(carrier).collect(),
    }
}

/// Pairs of walls that flutter.
pub(super) fn flutter_report(decay: &Decay) -> Vec<FlutterReport> {
    let found = flutter(decay).into_iter();
    found
        .map(|flutter| FlutterReport {
            surfaces: [flutter.pair.0, flutter.pair.1],
            repeats_per_s: flutter.repeats_per_s,
        })
        .collect()
}
