//! What each piece does by itself, in figures that add up: for advice, which weighs very many sets of pieces.

use crate::bands::Banded;
use crate::bass::{Bass, Map, bass_and_maps};
use crate::decay::decay;
use crate::early::{Direct, FirstBounces, Source, first_bounces};
use crate::geometry::Surface;
use crate::room::Room;
use crate::scenario::document::{Listening, Piece, Plan};
use crate::spectrum::{FINE, Spectrum};
use crate::surface::WallSums;

use super::bass::bass_room;
use super::bounces::Bounce;
use super::figures::mid;
use super::prepared::Prepared;
use super::screens::{Screens, corners_m};

/// The map's highest third-octave ends below this, Hz: nothing above is followed.
const MAP_TOP_HZ: f64 = 142.0;

/// A room without kit, with what reaches the seat of one listening place.
#[derive(Clone, Debug)]
pub struct Ground {
    /// The room without kit.
    pub room: Room,
    /// Of each wall without kit.
    pub sums: [WallSums; 6],
    /// The bounces of first order; none without a seat or loudspeakers.
    pub bounces: Option<FirstBounces>,
    directs: Vec<Direct>,
    listening: Listening,
    sources: Vec<Source>,
}

/// What one piece adds to a room without kit.
#[derive(Clone, Debug)]
pub struct Effect {
    /// Of each wall that it covers: what it adds to the sums, and what it changes of the bounce of each loudspeaker.
    pub walls: Vec<(Surface, WallSums, Vec<Spectrum<FINE>>)>,
    /// Of a screen that stands free.
    pub screen: Option<Screen>,
}

/// What a screen on a stand does.
#[derive(Clone, Debug)]
pub struct Screen {
    /// Equivalent absorption area, m².
    pub absorption_m2: Banded,
    /// Both faces, m².
    pub surface_m2: f64,
    /// Share of the pressure that passes it, by loudspeaker and surface of the bounce; none where it is not in the way.
    pub passing: Vec<[Option<Box<Spectrum<FINE>>>; 6]>,
    /// Bounces off its own faces: loudspeaker, delay in s, energy re the direct sound.
    pub own: Vec<(usize, f64, Banded)>,
}

impl Prepared {
    /// The room without kit, heard from one listening place.
    #[must_use]
    pub fn ground(&self, listening: &Listening) -> Ground {
        let plan = self.of_pieces(Vec::new(), listening);
        let room = self.room(&plan);
        let sources = self.sources(&plan);
        let seat = listening.seat.filter(|_| !sources.is_empty());
        let heard = seat.map(|seat| first_bounces(&room, &sources, seat.point_m()));
        let (directs, bounces) = heard.map_or((Vec::new(), None), |(directs, bounces)| {
            (directs, Some(bounces))
        });
        Ground {
            sums: room.walls.each_ref().map(crate::surface::Wall::sums),
            bounces,
            directs,
            listening: listening.clone(),
            room,
            sources,
        }
    }

    /// What a piece adds by itself.
    #[must_use]
    pub fn effect(&self, ground: &Ground, piece: &Piece) -> Effect {
        let plan = self.of_pieces(vec![piece.clone()], &ground.listening);
        let mut walls = Vec::new();
        for surface in Surface::ALL {
            let mut wall = ground.room.wall(surface).clone();
            wall.pieces
                .extend(self.pieces_on(surface, &plan).map(|(_, patch)| patch));
            if wall.pieces.is_empty() {
                continue;
            }
            let added = wall.sums().plus(&ground.sums[surface as usize], -1.0);
            walls.push((surface, added, changes(ground, surface, &wall.pieces)));
        }
        Effect {
            walls,
            screen: self.screen(ground, &plan),
        }
    }

    /// The room of a plan that need not be one of the document.
    #[must_use]
    pub fn room_with(&self, plan: &Plan) -> Room {
        self.room(plan)
    }

    /// Middle decay of some pieces as the report has it, s; none if a band does not decay.
    #[must_use]
    pub fn middle_s(&self, pieces: &[Piece], listening: &Listening) -> Option<f64> {
        let room = self.room(&self.of_pieces(pieces.to_vec(), listening));
        mid(&decay(&room), room.volume_m3()).0
    }

    /// The bass with some pieces, and how it lies over the floor with the loudspeakers at other places; none without a seat and
    /// two loudspeakers.
    #[must_use]
    pub fn bass_and_maps(
        &self,
        pieces: &[Piece],
        listening: &Listening,
        others: &[&Listening],
    ) -> Option<(Bass, Vec<Map>)> {
        let plan = self.of_pieces(pieces.to_vec(), listening);
        let seat_m = listening.seat?.point_m();
        let positions_m = |listening: &Listening| {
            let sources = self.sources(&self.of_pieces(Vec::new(), listening));
            sources
                .iter()
                .map(|source| source.position_m)
                .collect::<Vec<_>>()
        };
        let here_m = positions_m(listening);
        (here_m.len() == 2).then_some(())?;
        let others_m: Vec<_> = others.iter().map(|other| positions_m(other)).collect();
        let room = bass_room(&self.room(&plan));
        Some(bass_and_maps(&room, &here_m, &others_m, seat_m, MAP_TOP_HZ))
    }

    fn of_pieces(&self, pieces: Vec<Piece>, listening: &Listening) -> Plan {
        Plan {
            name: String::new(),
            pieces,
            listening: Some(listening.clone()),
        }
    }

    /// Of the one stand of a plan.
    fn screen(&self, ground: &Ground, plan: &Plan) -> Option<Screen> {
        let stands = self.stands(plan);
        let stand = stands.first()?;
        let screens = Screens {
            stands: &stands,
            speed_of_sound_m_per_s: self.air.speed_of_sound_m_per_s,
        };
        let mut screen = Screen {
            absorption_m2: stand.absorption_m2(),
            surface_m2: stand.surface_m2(),
            passing: Vec::new(),
            own: Vec::new(),
        };
        let (Some(seat), Some(bounces)) = (ground.listening.seat, &ground.bounces) else {
            return Some(screen);
        };
        let seat_m = seat.point_m();
        for (number, source) in ground.sources.iter().enumerate() {
            screen.passing.push(Surface::ALL.map(|surface| {
                let path = &bounces.ways(surface)[number].path;
                screens
                    .passing(&corners_m(source.position_m, path, seat_m), None)
                    .map(Box::new)
            }));
            let direct = &ground.directs[number];
            let off = self.bounces(plan, source.position_m, seat_m);
            let own = off.iter().filter(|bounce| bounce.piece().is_some());
            screen.own.extend(own.map(|bounce: &Bounce| {
                let heard = bounce.heard(&ground.room, source, direct, seat_m, &screens);
                let level = Banded::from_fn(|band| heard.energy[band] / direct.energy[band]);
                (number, heard.delay_s, level)
            }));
        }
        Some(screen)
    }
}

/// What the patches of one piece change together of each loudspeaker's bounce off a wall.
fn changes(
    ground: &Ground,
    surface: Surface,
    patches: &[crate::surface::Patch],
) -> Vec<Spectrum<FINE>> {
    let Some(bounces) = &ground.bounces else {
        return Vec::new();
    };
    let mut sum = vec![Spectrum::ZERO; bounces.ways(surface).len()];
    for patch in patches {
        for (sum, change) in sum.iter_mut().zip(bounces.change(surface, patch)) {
            sum.add(&change);
        }
    }
    sum
}
