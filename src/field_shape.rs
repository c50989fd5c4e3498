//! How the late sound lies in the room: whether its decay is bent, between which walls it lingers, where it flutters.

use crate::bands::NOMINAL_HZ;
use crate::decay::{DECAY_60_DB, Decay, mid_s};
use crate::geometry::Surface;
use crate::room::Room;

/// Band of the shares that each pair of walls carries: 1 kHz.
const CARRIED_BAND: usize = crate::bands::BAND_1K;

/// Band in which flutter is looked for: 2 kHz.
const FLUTTER_BAND: usize = 16;

/// Walls that absorb more than this are not hard. Common practice, no source.
const HARD_UP_TO: f64 = 0.1;

/// Repeats that fall by no more than this each are heard as a train, dB: fifteen of them within 30 dB. Common practice, no
/// source.
const TRAIN_DB: f64 = 2.0;

/// Sound along an axis that outlasts the rest by this factor is heard as flutter too. Common practice, no source.
const FLUTTER_FACTOR: f64 = 1.5;

/// An early decay time below this part of T20 makes a decay that is called bent. Common practice, no source.
const BENT_BELOW: f64 = 0.85;

/// Two walls that face each other.
pub type Facing = (Surface, Surface);

/// The three pairs, in the order of the axes.
pub const PAIRS: [Facing; 3] = [
    (Surface::Left, Surface::Right),
    (Surface::Front, Surface::Back),
    (Surface::Floor, Surface::Ceiling),
];

/// A pair of walls between which sound runs to and fro.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Flutter {
    /// The two walls.
    pub pair: Facing,
    /// Repeats per second.
    pub repeats_per_s: f64,
}

/// Pairs of hard walls between which a clap comes back as a train, at 2 kHz: each repeat is hardly weaker than the one before,
/// or the train outlasts the rest of the room.
///
/// ```text
/// T_axis = 6 ln 10 / [m c + μ + (c / L)(λ + ρ)],      rate = c / 2L
/// 60 dB / (rate T_axis) <= 2 dB    or    T_axis > 1.5 T20
/// ```
///
/// λ, ρ: log rate and scattered share of the pair, μ: hits of furniture, as in `decay`: what scatters leaves the axis. The
/// first of the two is what an empty room meets: there the rest is as hard, and no pair outlasts it.
///
/// # Source
/// The rate: time of one way there and back. The borders are common practice, no source. Left out: how loud the rest of the
/// sound is beside the train.
#[must_use]
pub fn flutter(decay: &Decay) -> Vec<Flutter> {
    let Some(t20_s) = decay.t20_s[FLUTTER_BAND] else {
        return Vec::new();
    };
    let field = &decay.fields[FLUTTER_BAND];
    let between_walls_per_s = field.air_per_s + field.furniture_hits_per_s;
    let is_train = |axis: &usize| {
        let pair = &field.pairs[*axis];
        let rate_per_s =
            between_walls_per_s + pair.crossings_per_s * (pair.log_loss() + pair.scattered());
        let own_s = DECAY_60_DB / rate_per_s;
        let repeats = own_s * pair.crossings_per_s / 2.0;
        let is_hard = pair.absorption.iter().all(|share| *share <= HARD_UP_TO);
        is_hard && (60.0 / repeats <= TRAIN_DB || own_s > FLUTTER_FACTOR * t20_s)
    };
    (0..3)
        .filter(is_train)
        .map(|axis| Flutter {
            pair: PAIRS[axis],
            repeats_per_s: field.pairs[axis].crossings_per_s / 2.0,
        })
        .collect()
}

/// Shares of the late sound at 1 kHz that arrive at each pair of walls once it has fallen by 20 dB; none where it does not.
#[must_use]
pub fn carried(decay: &Decay) -> Option<[f64; 3]> {
    let t20_s = decay.t20_s[CARRIED_BAND]?;
    Some(decay.fields[CARRIED_BAND].arriving_shares(t20_s / 3.0))
}

/// A bent decay in words, with the walls between which the late sound is strongest against an even field.
#[must_use]
pub fn bent(room: &Room, decay: &Decay, carried: &[f64; 3]) -> Option<String> {
    let [edt_s, t20_s] = [&decay.edt_s, &decay.t20_s].map(|times| mid_s(times, 250.0, &NOMINAL_HZ));
    if edt_s? > BENT_BELOW * t20_s? {
        return None;
    }
    let over_even = |axis: usize| {
        let area_m2 = 2.0 * PAIRS[axis].0.extent(room.size_m).area_m2();
        carried[axis] * room.area_m2() / area_m2
    };
    let strongest = (0..3).max_by(|a, b| over_even(*a).total_cmp(&over_even(*b)))?;
    let (one, other) = PAIRS[strongest];
    Some(format!(
        "Sound dies fast at first, then lingers between the {} and the {}.",
        one.in_words(),
        other.in_words()
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::air::Air;
    use crate::bands::Banded;
    use crate::decay::decay;
    use crate::surface::{Facing as Meets, Wall};
    use glam::DVec3;

    /// A box without furniture, every surface even; absorption in the order of the surfaces.
    fn room(absorption: [f64; 6]) -> Room {
        let size_m = DVec3::new(5.0, 4.0, 2.5);
        Room {
            size_m,
            air: Air::at(20.0, 50.0),
            walls: Surface::ALL.map(|surface| Wall {
                extent: surface.extent(size_m),
                bare: Meets {
                    absorption: Banded::constant(absorption[surface as usize]),
                    scattering: Banded::constant(0.1),
                },
                parts: Vec::new(),
                pieces: Vec::new(),
            }),
            furniture_absorption_m2: Banded::constant(0.0),
            furniture_surface_m2: 0.0,
        }
    }

    #[test]
    fn hard_facing_walls_in_a_soft_room_flutter_at_their_own_rate() {
        let room = room([0.02, 0.02, 0.5, 0.5, 0.5, 0.5]);
        let found = flutter(&decay(&room));
        assert_eq!(found.len(), 1);
        assert_eq!(found[0].pair, (Surface::Left, Surface::Right));
        let expected = room.air.speed_of_sound_m_per_s / 10.0;
        assert!((found[0].repeats_per_s - expected).abs() < 1e-9);
    }

    #[test]
    fn a_bare_room_flutters_between_all_its_walls_and_one_soft_wall_ends_it() {
        assert_eq!(flutter(&decay(&room([0.04; 6]))).len(), 3);
        let softened = flutter(&decay(&room([0.04, 0.3, 0.04, 0.04, 0.04, 0.04])));
        let pairs: Vec<Facing> = softened.iter().map(|found| found.pair).collect();
        assert_eq!(pairs, [PAIRS[1], PAIRS[2]]);
    }

    #[test]
    fn furniture_in_the_way_ends_a_train() {
        let mut furnished = room([0.04; 6]);
        furnished.furniture_surface_m2 = 25.0;
        assert!(flutter(&decay(&furnished)).is_empty());
    }

    #[test]
    fn an_even_room_neither_flutters_nor_bends_and_shares_by_area() {
        let room = room([0.2; 6]);
        let decay = decay(&room);
        assert!(flutter(&decay).is_empty());
        let shares = carried(&decay).expect("it decays");
        assert!((shares.iter().sum::<f64>() - 1.0).abs() < 1e-12);
        assert!(bent(&room, &decay, &shares).is_none());
        // Areas 20, 25, 40 of 85 m². What runs along a long side meets fewer walls and lingers, so the long sides gain on
        // their areas and the order stays.
        for (share, area_m2) in shares.iter().zip([20.0, 25.0, 40.0]) {
            assert!((share - area_m2 / 85.0).abs() < 0.10, "{shares:?}");
        }
        assert!(shares[0] < shares[1] && shares[1] < shares[2], "{shares:?}");
    }

    #[test]
    fn soft_floor_and_ceiling_leave_the_late_sound_between_the_walls() {
        let room = room([0.05, 0.05, 0.05, 0.05, 0.5, 0.8]);
        let decay = decay(&room);
        let shares = carried(&decay).expect("it decays");
        assert!(shares[2] < 0.25, "{shares:?}");
        let words = bent(&room, &decay, &shares).expect("a bent decay");
        assert!(words.contains("lingers between the"), "{words}");
        assert!(!words.contains("ceiling"), "{words}");
    }
}
