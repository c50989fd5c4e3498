//! From scenario to report: builds the room of each plan and asks decay, classical formulas and image sources.

use crate::absorber::Absorber;
use crate::air::Air;
use crate::bands::{BAND_1K, Banded, NOMINAL_HZ};
use crate::classical;
use crate::decay::{Decay, decay, mid_s};
use crate::finish::{self, octaves_to_bands, scattering_bands};
use crate::furnishing;
use crate::geometry::Surface;
use crate::image_source::{self, Reflection};
use crate::porous::Layer;
use crate::report::{
    AbsorptionAreas, Cost, DecayReport, Difference, Mid, PlanReport, ReflectionReport, Report,
    RoomSummary, Series, SurfaceSeries,
};
use crate::room::Room;
use crate::scenario::document::{
    BandValues, Kind, LayerFacts, Loudspeaker, MadeOf, Place, Plan, Scattering,
};
use crate::scenario::{Scenario, piece_rect};
use crate::surface::{Facing, Patch, Wall};

/// Scattering of a flat piece from 500 Hz up, as of a flat wall. Common practice, no source.
const PIECE_SCATTERING: f64 = 0.10;

/// The middle of the range starts here, Hz, or where statistics start if that is higher.
const MID_FROM_HZ: f64 = 250.0;

/// A valid scenario with what depends on its kit and its air alone, computed once.
#[derive(Clone, Debug)]
pub struct Prepared {
    scenario: Scenario,
    air: Air,
    kit: Vec<KindFacts>,
    building: Building,
}

/// The room without any kit: what depends on its facts and the user's own figures alone.
#[derive(Clone, Debug)]
struct Building {
    walls: [Wall; 6],
    furniture_absorption_m2: Banded,
    furniture_surface_m2: f64,
}

/// What the core makes of one kind.
#[derive(Clone, Debug, PartialEq)]
pub struct KindFacts {
    kind: Kind,
    /// How far it stands out, m.
    pub depth_m: f64,
    /// What sound meets on it.
    pub facing: Facing,
}

impl KindFacts {
    fn of(kind: &Kind, air: &Air) -> Self {
        let absorber = absorber(kind);
        let facing = Facing {
            absorption: absorber.absorption(air),
            scattering: kind_scattering(kind),
        };
        Self {
            kind: kind.clone(),
            depth_m: absorber.depth_m(),
            facing,
        }
    }

    /// The kind's name in the document.
    #[must_use]
    pub fn id(&self) -> &str {
        &self.kind.id
    }

    /// Where its absorption comes from, in words.
    #[must_use]
    pub fn source(&self) -> &'static str {
        match self.kind.absorber {
            MadeOf::Layers { .. } => {
                "Computed from its layers: impedance of porous materials after Miki 1990, sound from all directions after Paris 1928. Stated for frequencies of 0.01 to 1 times the flow resistivity; below that it is carried on, so the lowest notes of dense layers are least sure."
            }
            MadeOf::DataSheet(_) => {
                "Typed from a data sheet; straight lines between the figures, the nearest figure beyond them."
            }
        }
    }
}

impl Prepared {
    /// Prepares a valid scenario.
    #[must_use]
    pub fn new(scenario: Scenario) -> Self {
        Self::after(scenario, None)
    }

    /// Prepares a valid scenario, taking over what an earlier one already computed for the same kinds in the same air.
    #[must_use]
    pub fn after(scenario: Scenario, before: Option<&Self>) -> Self {
        let air = Air::at(
            scenario.room.temperature_c.unwrap_or(20.0),
            scenario.room.humidity_percent.unwrap_or(50.0),
        );
        let known = before
            .filter(|before| before.air == air)
            .map_or(&[][..], |before| &before.kit);
        let facts = |kind: &Kind| {
            known
                .iter()
                .find(|facts| facts.kind == *kind)
                .cloned()
                .unwrap_or_else(|| KindFacts::of(kind, &air))
        };
        let kit = scenario.kit.iter().map(facts).collect();
        let same = before.filter(|before| same_building(&before.scenario, &scenario));
        let building =
            same.map_or_else(|| Building::of(&scenario), |before| before.building.clone());
        Self {
            scenario,
            air,
            kit,
            building,
        }
    }

    /// The scenario.
    #[must_use]
    pub fn scenario(&self) -> &Scenario {
        &self.scenario
    }

    /// The kinds of its kit.
    #[must_use]
    pub fn kit(&self) -> &[KindFacts] {
        &self.kit
    }

    /// The report of one plan; none if there is no such plan.
    #[must_use]
    pub fn predict(&self, plan: usize) -> Option<PlanReport> {
        let plan = self.scenario.plans.get(plan)?;
        let room = self.room(plan);
        let decay = decay(&room);
        let (mid, statistics_from_hz) = mid(&decay, room.volume_m3());
        Some(PlanReport {
            name: plan.name.clone(),
            room: RoomSummary {
                volume_m3: room.volume_m3(),
                area_m2: room.area_m2(),
                mean_free_path_m: room.mean_free_path_m(),
                statistics_from_hz,
            },
            absorption: surface_series(&room),
            absorption_area_m2: absorption_areas(&room),
            decay: decay_report(&room, decay),
            mid: Mid { t20_s: mid },
            reflections: self.reflections(&room, plan),
            cost: self.cost(plan),
            notes: self.notes(&room, plan, statistics_from_hz),
        })
    }

    /// The report of every plan.
    #[must_use]
    pub fn report(&self) -> Report {
        let plans: Vec<PlanReport> = (0..self.scenario.plans.len())
            .filter_map(|plan| self.predict(plan))
            .collect();
        Report {
            version: env!("CARGO_PKG_VERSION"),
            title: self.scenario.title.clone(),
            bands_hz: Banded(NOMINAL_HZ).into(),
            differences: differences(&plans),
            plans,
        }
    }

    /// The room with one plan's pieces in it.
    fn room(&self, plan: &Plan) -> Room {
        let mut walls = self.building.walls.clone();
        for (surface, wall) in Surface::ALL.into_iter().zip(&mut walls) {
            wall.pieces = self
                .pieces_on(surface, plan)
                .map(|(_, patch)| patch)
                .collect();
        }
        Room {
            size_m: self.scenario.room.size_m(),
            air: self.air,
            walls,
            furniture_absorption_m2: self.building.furniture_absorption_m2,
            furniture_surface_m2: self.building.furniture_surface_m2,
        }
    }

    /// The plan's pieces on a surface that are computed, each with its index in the plan.
    fn pieces_on<'a>(
        &'a self,
        surface: Surface,
        plan: &'a Plan,
    ) -> impl Iterator<Item = (usize, Patch)> + 'a {
        plan.pieces
            .iter()
            .enumerate()
            .filter_map(move |(i, piece)| {
                let (on, rect) = piece_rect(&self.scenario, piece)
                    .filter(|_| matches!(piece.place, Place::Surface { .. }))?;
                let facing = self
                    .kit
                    .iter()
                    .find(|facts| facts.kind.id == piece.kit)?
                    .facing;
                (on == surface).then_some((i, Patch { rect, facing }))
            })
    }

    /// First-order reflections of every loudspeaker at the seat; none without a seat.
    fn reflections(&self, room: &Room, plan: &Plan) -> Vec<ReflectionReport> {
        let listening = self.scenario.listening_of(plan);
        let Some(seat) = listening.seat else {
            return Vec::new();
        };
        let of_one = |(loudspeaker, source): (usize, &Loudspeaker)| {
            let found = image_source::first_order(room, source.spot.point_m(), seat.point_m());
            found
                .into_iter()
                .map(move |reflection| self.reflection(loudspeaker, reflection, plan))
        };
        listening
            .loudspeakers
            .iter()
            .enumerate()
            .flat_map(of_one)
            .collect()
    }

    /// One reflection for the report, with the plan's own numbers of the pieces under it.
    fn reflection(
        &self,
        loudspeaker: usize,
        reflection: Reflection,
        plan: &Plan,
    ) -> ReflectionReport {
        let path = reflection.path;
        let numbers: Vec<usize> = self
            .pieces_on(path.surface, plan)
            .map(|(number, _)| number)
            .collect();
        ReflectionReport {
            loudspeaker,
            order: 1,
            surfaces: vec![path.surface],
            points_m: vec![path.point_m.to_array()],
            distance_m: path.distance_m,
            delay_s: reflection.delay_s,
            level_db: reflection.level_db.into(),
            direction: path.direction.to_array(),
            pieces: reflection
                .under
                .pieces
                .iter()
                .map(|&on_wall| numbers[on_wall])
                .collect(),
            parts: reflection.under.parts,
        }
    }

    /// Price, mass and area of a plan's pieces.
    fn cost(&self, plan: &Plan) -> Cost {
        let mut cost = Cost::default();
        for kind in plan
            .pieces
            .iter()
            .filter_map(|piece| self.scenario.kind(&piece.kit))
        {
            cost.known += kind.price.unwrap_or(0.0);
            cost.unpriced += usize::from(kind.price.is_none());
            cost.mass_kg += kind.mass_kg.unwrap_or(0.0);
            cost.area_m2 += kind.width_m * kind.height_m;
        }
        cost
    }

    /// What the model does not cover here, in plain words.
    fn notes(&self, room: &Room, plan: &Plan, statistics_from_hz: Option<f64>) -> Vec<String> {
        let mut notes = Vec::new();
        if let Some(from_hz) = statistics_from_hz {
            notes.push(format!(
                "Below about {from_hz:.0} Hz this room rings at separate notes; one decay time does not describe it there."
            ));
        }
        notes.push("A piece under the point of a reflection is taken as covering all of it; small pieces do less at low frequencies.".to_owned());
        let left_out = plan
            .pieces
            .iter()
            .filter(|piece| !matches!(piece.place, Place::Surface { .. }))
            .count();
        if left_out > 0 {
            notes.push(format!("{left_out} corner pieces, stands or curtains are in this plan but not yet in its figures."));
        }
        notes.extend(odd_room(room).into_iter().map(str::to_owned));
        if self.sits_at_a_loudspeaker(plan) {
            notes.push("The seat is nearer than 0.5 m to a loudspeaker: the direct sound there is not what this model takes it for.".to_owned());
        }
        notes
    }

    /// Whether the seat is so near a loudspeaker that it hears one driver rather than the whole.
    fn sits_at_a_loudspeaker(&self, plan: &Plan) -> bool {
        let listening = self.scenario.listening_of(plan);
        listening.seat.is_some_and(|seat| {
            let near = |loudspeaker: &Loudspeaker| {
                loudspeaker.spot.point_m().distance(seat.point_m()) < NEAR_FIELD_M
            };
            listening.loudspeakers.iter().any(near)
        })
    }
}

impl Building {
    fn of(scenario: &Scenario) -> Self {
        let (furniture_absorption_m2, furniture_surface_m2) = furniture(scenario);
        Self {
            walls: Surface::ALL.map(|surface| bare_wall(scenario, surface)),
            furniture_absorption_m2,
            furniture_surface_m2,
        }
    }
}

/// Whether two scenarios describe the same room, kit and plans apart.
fn same_building(a: &Scenario, b: &Scenario) -> bool {
    a.room == b.room && a.own_finishes == b.own_finishes && a.own_furnishings == b.own_furnishings
}

/// One wall with its parts and no pieces.
fn bare_wall(scenario: &Scenario, surface: Surface) -> Wall {
    let facts = scenario.surface(surface);
    let parts = facts.parts.iter().map(|part| Patch {
        rect: part.rect,
        facing: finish_facing(scenario, &part.finish),
    });
    Wall {
        extent: surface.extent(scenario.room.size_m()),
        bare: finish_facing(scenario, &facts.finish),
        parts: parts.collect(),
        pieces: Vec::new(),
    }
}

/// What a wave meets on a finish of the library or of the user's own.
fn finish_facing(scenario: &Scenario, id: &str) -> Facing {
    let own = scenario.own_finishes.iter().find(|own| own.id == id);
    own.map(|own| Facing {
        absorption: values(&own.values),
        scattering: scattering(own.scattering.as_ref(), &own.values.bands_hz),
    })
    .or_else(|| {
        finish::finish(id).map(|finish| Facing {
            absorption: finish.absorption(),
            scattering: finish.scattering(),
        })
    })
    .unwrap_or(Facing {
        absorption: Banded::constant(0.0),
        scattering: Banded::constant(0.0),
    })
}

/// Absorption area and surface of all furniture that stands free, m².
fn furniture(scenario: &Scenario) -> (Banded, f64) {
    let mut sum = (Banded::constant(0.0), 0.0);
    for item in &scenario.room.furnishings {
        let own = scenario
            .own_furnishings
            .iter()
            .find(|own| own.id == item.kind);
        let one = own
            .map(|own| {
                (
                    banded(&own.bands_hz, &own.absorption_area_m2),
                    own.surface_m2,
                )
            })
            .or_else(|| {
                furnishing::furnishing(&item.kind)
                    .map(|kind| (octaves_to_bands(&kind.absorption_area_m2), kind.surface_m2))
            });
        if let Some((absorption_m2, surface_m2)) = one {
            let count = f64::from(item.count);
            sum = (sum.0 + absorption_m2 * count, sum.1 + surface_m2 * count);
        }
    }
    sum
}

/// Sides and volumes for which the model was tried. Common practice, no source.
const TRUSTED_SIDE_M: std::ops::RangeInclusive<f64> = 1.8..=15.0;
const TRUSTED_VOLUME_M3: std::ops::RangeInclusive<f64> = 10.0..=500.0;

/// A room that absorbs more than this on average, at 1 kHz, is no room to live in. Common practice, no source.
const MOST_MEAN_ABSORPTION: f64 = 0.6;

/// Nearer than this a loudspeaker is not one point. Common practice, no source.
const NEAR_FIELD_M: f64 = 0.5;

/// What is unusual about the room itself, in words.
fn odd_room(room: &Room) -> Vec<&'static str> {
    let absorption_m2: f64 = Surface::ALL
        .into_iter()
        .map(|surface| {
            room.wall(surface).mean_absorption()[BAND_1K] * surface.extent(room.size_m).area_m2()
        })
        .sum();
    let rules = [
        (
            room.size_m
                .to_array()
                .iter()
                .any(|side| !TRUSTED_SIDE_M.contains(side)),
            "A side of this room is outside the range we trust, 1.8 to 15 m.",
        ),
        (
            !TRUSTED_VOLUME_M3.contains(&room.volume_m3()),
            "The volume of this room is outside the range we trust, 10 to 500 m³.",
        ),
        (
            absorption_m2 / room.area_m2() > MOST_MEAN_ABSORPTION,
            "More like a recording booth than a room: check the surfaces.",
        ),
    ];
    rules
        .into_iter()
        .filter(|(applies, _)| *applies)
        .map(|(_, words)| words)
        .collect()
}

/// Values at some frequencies, carried to all bands.
fn banded(bands_hz: &[f64], values: &[f64]) -> Banded {
    Banded::interpolated(
        &bands_hz
            .iter()
            .copied()
            .zip(values.iter().copied())
            .collect::<Vec<_>>(),
    )
}

fn values(sheet: &BandValues) -> Banded {
    banded(&sheet.bands_hz, &sheet.absorption)
}

/// Scattering as typed, or that of a flat surface.
fn scattering(typed: Option<&Scattering>, bands_hz: &[f64]) -> Banded {
    match typed {
        None => scattering_bands(PIECE_SCATTERING),
        Some(Scattering::Single(value)) => scattering_bands(*value),
        Some(Scattering::PerBand(values)) => banded(bands_hz, values),
    }
}

fn kind_scattering(kind: &Kind) -> Banded {
    let bands_hz = if let MadeOf::DataSheet(sheet) = &kind.absorber {
        &sheet.bands_hz[..]
    } else {
        &[]
    };
    scattering(kind.scattering.as_ref(), bands_hz)
}

/// What a kind is made of, for the physics.
fn absorber(kind: &Kind) -> Absorber {
    match &kind.absorber {
        MadeOf::Layers { layers } => Absorber::Layers(layers.iter().map(layer).collect()),
        MadeOf::DataSheet(sheet) => Absorber::DataSheet {
            absorption: values(sheet),
            depth_m: kind.depth_mm.unwrap_or(0.0) / 1000.0,
        },
    }
}

fn layer(facts: &LayerFacts) -> Layer {
    match *facts {
        LayerFacts::Porous {
            thickness_mm,
            flow_resistivity_pa_s_per_m2,
        } => Layer::Porous {
            thickness_m: thickness_mm / 1000.0,
            flow_resistivity_pa_s_per_m2,
        },
        LayerFacts::Gap { thickness_mm } => Layer::Gap {
            thickness_m: thickness_mm / 1000.0,
        },
    }
}

/// Mean decay of the middle bands, and the frequency from which statistics hold with it.
///
/// ```text
/// f = 2000 √(T / V)
/// ```
///
/// # Source
/// Schroeder & Kuttruff, On frequency response curves in rooms, J. Acoust. Soc. Am. 34 (1962) 76–80.
fn mid(decay: &Decay, volume_m3: f64) -> (Option<f64>, Option<f64>) {
    let limit_hz = |t20_s: f64| 2000.0 * (t20_s / volume_m3).sqrt();
    let wide = mid_s(&decay.t20_s, MID_FROM_HZ, &NOMINAL_HZ);
    let from_hz = wide.map_or(MID_FROM_HZ, |t20_s| limit_hz(t20_s).max(MID_FROM_HZ));
    let mid = mid_s(&decay.t20_s, from_hz, &NOMINAL_HZ).or(wide);
    (mid, mid.map(limit_hz))
}

fn surface_series(room: &Room) -> SurfaceSeries {
    let [left, right, front, back, floor, ceiling] = room
        .walls
        .each_ref()
        .map(|wall| Series::from(wall.mean_absorption()));
    SurfaceSeries {
        left,
        right,
        front,
        back,
        floor,
        ceiling,
    }
}

fn absorption_areas(room: &Room) -> AbsorptionAreas {
    let zero = Banded::constant(0.0);
    let (surfaces, pieces) = room
        .walls
        .iter()
        .map(Wall::absorption_areas_m2)
        .fold((zero, zero), |sum, wall| (sum.0 + wall.0, sum.1 + wall.1));
    AbsorptionAreas {
        surfaces: surfaces.into(),
        pieces: pieces.into(),
        furnishings: room.furniture_absorption_m2.into(),
        air: (room.air.attenuation_per_m * (4.0 * room.volume_m3())).into(),
    }
}

fn decay_report(room: &Room, decay: Decay) -> DecayReport {
    DecayReport {
        t20_s: (&decay.t20_s).into(),
        t30_s: (&decay.t30_s).into(),
        edt_s: (&decay.edt_s).into(),
        sabine_s: classical::sabine_s(room).into(),
        eyring_s: classical::eyring_s(room).into(),
        curve_step_s: (&decay.curve_step_s).into(),
        curve_db: decay.curve_db.into_iter().map(Series).collect(),
    }
}

/// Middle decay of each later plan against each earlier one.
fn differences(plans: &[PlanReport]) -> Vec<Difference> {
    let pairs = (0..plans.len()).flat_map(|to| (0..to).map(move |from| (from, to)));
    pairs
        .map(|(from, to)| Difference {
            from: plans[from].name.clone(),
            to: plans[to].name.clone(),
            mid_s: plans[to]
                .mid
                .t20_s
                .zip(plans[from].mid.t20_s)
                .map(|(to, from)| to - from),
        })
        .collect()
}
