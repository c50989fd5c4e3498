//! The early reflections of a plan, as the report lists them.

use glam::DVec3;

use crate::bands::Banded;
use crate::directivity::{Directivity, axis};
use crate::early::{Direct, Early, Source, SourceEarly, Zone, early, early_with_pressure};
use crate::report::{DipReport, ReflectionReport, ZoneReport};
use crate::room::Room;
use crate::scenario::document::{Loudspeaker, Plan};
use crate::seat::comb_dips;

use super::bounces::Bounce;
use super::memory::Memory;
use super::prepared::Prepared;
use super::screens::{Screens, corners_m};
use super::stand::Stand;

impl Prepared {
    /// The loudspeakers of a plan as the physics takes them.
    pub(super) fn sources(&self, plan: &Plan) -> Vec<Source> {
        let width_m = self.scenario.room.width_m;
        let loudspeakers = &self.scenario.listening_of(plan).loudspeakers;
        loudspeakers
            .iter()
            .map(|loudspeaker| source(loudspeaker, width_m))
            .collect()
    }

    /// What every loudspeaker of a plan sends to the seat early: images as screens leave them, then bounces off what stands
    /// in the room, which meet no surface; nothing without a seat. The pressure serves a response alone.
    pub(super) fn sounds(
        &self,
        room: &Room,
        plan: &Plan,
        sources: &[Source],
        memory: &mut Memory,
        with_pressure: bool,
    ) -> Vec<SourceEarly> {
        let Some(seat) = self.scenario.listening_of(plan).seat else {
            return Vec::new();
        };
        let (seat_m, stands) = (seat.point_m(), self.stands(plan));
        let screens = self.screens(&stands);
        let follow = if with_pressure {
            early_with_pressure
        } else {
            early
        };
        let mut sounds = follow(room, sources, seat_m, &mut memory.early);
        for (sound, source) in sounds.iter_mut().zip(sources) {
            screens.cover(room, source.position_m, seat_m, sound);
            let bounces = self.bounces(plan, source.position_m, seat_m);
            let heard =
                |bounce: &Bounce| bounce.heard(room, source, &sound.direct, seat_m, &screens);
            let heard: Vec<Early> = bounces.iter().map(heard).collect();
            sound.reflections.extend(heard);
        }
        sounds
    }

    fn screens<'a>(&self, stands: &'a [Stand]) -> Screens<'a> {
        Screens {
            stands,
            speed_of_sound_m_per_s: self.air.speed_of_sound_m_per_s,
        }
    }

    /// The reflections up to an order that the report lists, one loudspeaker after the other.
    pub(super) fn reflections(
        &self,
        plan: &Plan,
        sounds: &[SourceEarly],
        highest_order: usize,
    ) -> Vec<ReflectionReport> {
        let listening = self.scenario.listening_of(plan);
        let Some(seat) = listening.seat else {
            return Vec::new();
        };
        let stands = self.stands(plan);
        let heard = listening.loudspeakers.iter().zip(sounds).enumerate();
        heard
            .flat_map(|(loudspeaker, (of, sound))| {
                let lister = Lister {
                    prepared: self,
                    plan,
                    screens: self.screens(&stands),
                    loudspeaker,
                    source_m: of.spot.point_m(),
                    seat_m: seat.point_m(),
                    direct: &sound.direct,
                    highest_order,
                };
                lister.all(&sound.reflections)
            })
            .collect()
    }
}

/// Lists the reflections of one loudspeaker.
struct Lister<'a> {
    prepared: &'a Prepared,
    plan: &'a Plan,
    screens: Screens<'a>,
    loudspeaker: usize,
    source_m: DVec3,
    seat_m: DVec3,
    direct: &'a Direct,
    highest_order: usize,
}

impl Lister<'_> {
    /// Images, then bounces.
    fn all(&self, reflections: &[Early]) -> Vec<ReflectionReport> {
        let (bounced, images): (Vec<&Early>, Vec<&Early>) = reflections
            .iter()
            .partition(|early| early.path.order() == 0);
        let images = images
            .into_iter()
            .filter(|early| early.path.order() <= self.highest_order)
            .map(|early| self.image(early));
        let bounces = self.prepared.bounces(self.plan, self.source_m, self.seat_m);
        let bounces = bounced
            .into_iter()
            .zip(&bounces)
            .filter(|(early, _)| self.is_heard(early))
            .map(|(early, bounce)| self.bounce(early, bounce));
        images.chain(bounces).collect()
    }

    /// Whether a bounce is worth a line of its own.
    fn is_heard(&self, early: &Early) -> bool {
        let level_db = early.level_db(self.direct);
        level_db.iter().any(|level_db| level_db > LEAST_LISTED_DB)
    }

    /// An image, with the plan's own numbers of the pieces under it; parts of first order only, whose numbers are of one
    /// surface.
    fn image(&self, early: &Early) -> ReflectionReport {
        let first_order = early.path.order() == 1;
        let points_m = corners_m(self.source_m, &early.path, self.seat_m);
        ReflectionReport {
            order: early.path.order(),
            surfaces: early.path.surfaces().collect(),
            pieces: self.pieces_under(early),
            parts: if first_order {
                early.under[0].parts.clone()
            } else {
                Vec::new()
            },
            zones: early.zone.iter().map(zone_report).collect(),
            dips: if first_order {
                dips(early.delay_s, &early.level_db(self.direct))
            } else {
                Vec::new()
            },
            ..self.path(early, &points_m, None, None)
        }
    }

    /// A bounce off what stands in the room.
    fn bounce(&self, early: &Early, bounce: &Bounce) -> ReflectionReport {
        let points_m = bounce.points_m(self.source_m, self.seat_m);
        ReflectionReport {
            pieces: bounce.piece().into_iter().collect(),
            dips: dips(early.delay_s, &early.level_db(self.direct)),
            ..self.path(early, &points_m, bounce.furnishing(), bounce.piece())
        }
    }

    /// What any path has, taken for one of first order, by its points from loudspeaker to seat and what it comes off.
    fn path(
        &self,
        early: &Early,
        points_m: &[DVec3],
        furnishing: Option<usize>,
        piece: Option<usize>,
    ) -> ReflectionReport {
        let inner = &points_m[1..points_m.len() - 1];
        ReflectionReport {
            loudspeaker: self.loudspeaker,
            order: 1,
            surfaces: Vec::new(),
            points_m: inner.iter().map(DVec3::to_array).collect(),
            distance_m: early.path.distance_m,
            delay_s: early.delay_s,
            level_db: early.level_db(self.direct).into(),
            direction: early.path.direction.to_array(),
            pieces: Vec::new(),
            parts: Vec::new(),
            furnishing,
            blocked_by: self.prepared.in_the_way(points_m, furnishing),
            screened_by: self.screens.crossed(points_m, piece),
            zones: Vec::new(),
            dips: Vec::new(),
        }
    }

    /// Numbers of the pieces under the points of an image, each point for itself.
    fn pieces_under(&self, early: &Early) -> Vec<usize> {
        let mut pieces = Vec::new();
        for (surface, under) in early.path.surfaces().zip(&early.under) {
            let on_wall = self.prepared.pieces_on(surface, self.plan);
            let numbers: Vec<usize> = on_wall.map(|(number, _)| number).collect();
            let mut here: Vec<usize> = under.pieces.iter().map(|&patch| numbers[patch]).collect();
            here.dedup();
            pieces.extend(here);
        }
        pieces
    }
}

/// Bounces that stay below this in every band, dB re the direct sound, count but are not listed. Common practice, no source.
const LEAST_LISTED_DB: f64 = -25.0;

fn zone_report(zone: &Zone) -> ZoneReport {
    ZoneReport {
        semi_along_m: zone.semi_along_m,
        semi_across_m: zone.semi_across_m,
        along: [zone.along.0, zone.along.1],
    }
}

/// The dips of a reflection alone.
fn dips(delay_s: f64, level_db: &Banded) -> Vec<DipReport> {
    let found = comb_dips(delay_s, level_db).into_iter();
    found
        .map(|dip| DipReport {
            frequency_hz: dip.frequency_hz,
            depth_db: dip.depth_db,
        })
        .collect()
}

/// A loudspeaker of the document as the physics takes it; an ordinary one without toe-in where nothing is said.
fn source(loudspeaker: &Loudspeaker, width_m: f64) -> Source {
    let toe_in_deg = loudspeaker.toe_in_deg.unwrap_or(0.0);
    Source {
        position_m: loudspeaker.spot.point_m(),
        axis: axis(loudspeaker.spot.x_m, width_m, toe_in_deg),
        directivity: loudspeaker.directivity.unwrap_or(Directivity::Ordinary),
    }
}
