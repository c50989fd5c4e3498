//! The scenario document: everything that the user decides. Keys carry their unit; lengths are metres.
//!
//! The shapes here are what is written; reading and its limits are in `read`, relations between fields in `check`.

use serde::{Serialize, Serializer};

use crate::directivity::Directivity;
use crate::geometry::{Rect, Surface};

/// A whole scenario.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the document, described in README.md"
)]
pub struct Scenario {
    pub format: u32,
    pub title: String,
    pub room: RoomFacts,
    pub listening: Listening,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub goal: Option<Goal>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub limits: Option<HomeLimits>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub currency: Option<String>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub kit: Vec<Kind>,
    pub plans: Vec<Plan>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub measured: Vec<Measured>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub own_finishes: Vec<OwnFinish>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub own_furnishings: Vec<OwnFurnishing>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub assumed: Vec<String>,
}

/// Size of the room and what belongs to it.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the document, described in README.md"
)]
pub struct RoomFacts {
    pub width_m: f64,
    pub length_m: f64,
    pub height_m: f64,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub temperature_c: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub humidity_percent: Option<f64>,
    #[serde(serialize_with = "by_surface")]
    pub surfaces: [SurfaceFacts; 6],
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub furnishings: Vec<Furnished>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub keep_clear: Vec<KeepClear>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub conditions: Vec<String>,
}

/// Writes the six surfaces as an object by name.
fn by_surface<S: Serializer>(
    surfaces: &[SurfaceFacts; 6],
    serializer: S,
) -> Result<S::Ok, S::Error> {
    serializer.collect_map(Surface::ALL.into_iter().map(Surface::name).zip(surfaces))
}

/// Finish and parts of one surface.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the document, described in README.md"
)]
pub struct SurfaceFacts {
    pub finish: String,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub parts: Vec<Part>,
}

/// What a part is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Role {
    /// Another piece of wall.
    Wall,
    /// A door.
    Door,
    /// A window.
    Window,
    /// An opening into another room.
    Opening,
    /// A bookcase, wardrobe or chimney breast.
    BuiltIn,
}

/// A part of the building set into a surface.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the document, described in README.md"
)]
pub struct Part {
    pub role: Role,
    pub finish: String,
    #[serde(flatten)]
    pub rect: Rect,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub depth_m: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub swing_m: Option<f64>,
}

/// Free-standing furniture of one kind.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the document, described in README.md"
)]
pub struct Furnished {
    pub kind: String,
    pub count: u32,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub at: Option<Footprint>,
}

/// Where a piece of furniture stands.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the document, described in README.md"
)]
pub struct Footprint {
    pub x_m: f64,
    pub y_m: f64,
    pub width_m: f64,
    pub depth_m: f64,
    pub height_m: f64,
}

/// A zone that pieces keep clear of.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the document, described in README.md"
)]
pub struct KeepClear {
    pub surface: Surface,
    #[serde(flatten)]
    pub rect: Rect,
    pub margin_m: f64,
    pub why: String,
}

/// Loudspeakers and seat.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the document, described in README.md"
)]
pub struct Listening {
    pub loudspeakers: Vec<Loudspeaker>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub seat: Option<Spot>,
}

/// A point in the room.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the document, described in README.md"
)]
pub struct Spot {
    pub x_m: f64,
    pub y_m: f64,
    pub z_m: f64,
}

/// One loudspeaker.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the document, described in README.md"
)]
pub struct Loudspeaker {
    #[serde(flatten)]
    pub spot: Spot,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub directivity: Option<Directivity>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub toe_in_deg: Option<f64>,
}

/// What the decay should come to.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(untagged)]
pub enum Goal {
    /// One of the named tastes.
    Taste {
        /// The taste.
        taste: Taste,
    },
    /// The user's own limits.
    Range {
        /// Lower limit, s.
        low_s: f64,
        /// Upper limit, s.
        high_s: f64,
    },
}

/// Named goals.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Taste {
    /// Close and precise.
    Focused,
    /// Clear music, normal conversation.
    LivedIn,
    /// Roomy.
    Spacious,
}

/// What the home allows.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the document, described in README.md"
)]
pub struct HomeLimits {
    #[serde(skip_serializing_if = "Option::is_none")]
    pub budget: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub no_drilling: Option<bool>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub bare: Vec<Surface>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub max_depth_m: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub min_height_m: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub max_height_m: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub max_visible: Option<u32>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub looks_like: Vec<Looks>,
}

/// A kind of piece, as it hangs upright.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the document, described in README.md"
)]
pub struct Kind {
    pub id: String,
    pub name: String,
    pub width_m: f64,
    pub height_m: f64,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub price: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub price_per_m2: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub mass_kg: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub depth_mm: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub scattering: Option<Scattering>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub stands: Option<Stands>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub fullness: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub looks: Option<Looks>,
    pub absorber: MadeOf,
}

impl Kind {
    /// What one piece costs: its own price, or that of its face; none if neither is known.
    #[must_use]
    pub fn price_of_one(&self) -> Option<f64> {
        let by_area = || Some(self.price_per_m2? * self.width_m * self.height_m);
        self.price.or_else(by_area)
    }

    /// How far a piece stands out from the wall, m.
    #[must_use]
    pub fn depth_m(&self) -> f64 {
        match &self.absorber {
            MadeOf::Layers { layers } => layers.iter().map(LayerFacts::thickness_m).sum(),
            MadeOf::Scattering { scattering } => scattering.depth_mm / 1000.0,
            MadeOf::DataSheet(_) => self.depth_mm.unwrap_or(0.0) / 1000.0,
        }
    }
}

/// How a kind is meant to be placed; a hint for the page, no limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Stands {
    /// On a wall or the ceiling.
    Surface,
    /// Across a vertical edge of the room.
    Corner,
    /// Free, on its own feet.
    Stand,
    /// From a rail.
    Curtain,
    /// On the floor.
    Floor,
}

/// What a piece may be taken for; one that says nothing is plainly a panel.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Looks {
    /// A picture.
    Picture,
    /// A piece of furniture.
    Furniture,
}

/// Scattering: one number, or one per band of the data beside it.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(untagged)]
pub enum Scattering {
    /// From 500 Hz up; less below.
    Single(f64),
    /// One value per frequency given.
    PerBand(Vec<f64>),
}

/// What a kind is made of.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(untagged)]
pub enum MadeOf {
    /// Layers from the room side to the wall.
    Layers {
        /// The layers.
        layers: Vec<LayerFacts>,
    },
    /// A hard piece with a profile.
    Scattering {
        /// The profile.
        scattering: Profile,
    },
    /// Figures of a data sheet.
    DataSheet(BandValues),
}

/// The profile of a scattering piece.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the document, described in README.md"
)]
pub struct Profile {
    pub depth_mm: f64,
    pub period_mm: f64,
}

/// One layer.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum LayerFacts {
    /// A porous layer.
    Porous {
        /// Thickness, mm.
        thickness_mm: f64,
        /// Flow resistivity, Pa s/m².
        flow_resistivity_pa_s_per_m2: f64,
    },
    /// An air gap.
    Gap {
        /// Thickness, mm.
        thickness_mm: f64,
    },
    /// A stiff board with round holes in a square grid.
    Perforated {
        /// Thickness, mm.
        thickness_mm: f64,
        /// Diameter of a hole, mm.
        hole_mm: f64,
        /// From hole to hole, middle to middle, mm.
        pitch_mm: f64,
    },
    /// A stiff board with long slots, or slats.
    Slotted {
        /// Thickness, mm.
        thickness_mm: f64,
        /// Width of a slot, mm.
        slot_mm: f64,
        /// From slot to slot, middle to middle, mm.
        pitch_mm: f64,
    },
    /// A thin limp sheet.
    Membrane {
        /// Mass, kg/m².
        mass_kg_per_m2: f64,
        /// Resistance over mass reactance; none if not given.
        #[serde(skip_serializing_if = "Option::is_none")]
        loss: Option<f64>,
    },
    /// Cloth or fleece without thickness.
    Cloth {
        /// Flow resistance, Pa s/m.
        flow_resistance_pa_s_per_m: f64,
        /// Mass of a cloth that hangs free, kg/m²; held still if not given.
        #[serde(skip_serializing_if = "Option::is_none")]
        mass_kg_per_m2: Option<f64>,
    },
    /// A board without holes.
    Board {
        /// Thickness, mm.
        thickness_mm: f64,
        /// Density, kg/m³.
        density_kg_per_m3: f64,
    },
}

impl LayerFacts {
    /// Thickness, m; sheets and cloth count as nothing.
    #[must_use]
    pub fn thickness_m(&self) -> f64 {
        match *self {
            Self::Porous { thickness_mm, .. }
            | Self::Gap { thickness_mm }
            | Self::Perforated { thickness_mm, .. }
            | Self::Slotted { thickness_mm, .. }
            | Self::Board { thickness_mm, .. } => thickness_mm / 1000.0,
            Self::Membrane { .. } | Self::Cloth { .. } => 0.0,
        }
    }
}

/// Absorption at some frequencies.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the document, described in README.md"
)]
pub struct BandValues {
    pub bands_hz: Vec<f64>,
    pub absorption: Vec<f64>,
}

/// A plan: pieces, and perhaps another place for loudspeakers and seat.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the document, described in README.md"
)]
pub struct Plan {
    pub name: String,
    pub pieces: Vec<Piece>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub listening: Option<Listening>,
}

/// One piece of kit where it is.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the document, described in README.md"
)]
pub struct Piece {
    pub kit: String,
    #[serde(flatten)]
    pub place: Place,
}

/// Where a piece is.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "place", rename_all = "kebab-case")]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the document, described in README.md"
)]
pub enum Place {
    Surface {
        surface: Surface,
        u_m: f64,
        v_m: f64,
        turned: bool,
    },
    Corner {
        edge: Edge,
        z_m: f64,
    },
    Stand {
        x_m: f64,
        y_m: f64,
        z_m: f64,
        turn_deg: f64,
    },
    Curtain {
        surface: Surface,
        u_m: f64,
        v_m: f64,
        open: f64,
    },
}

/// A vertical edge of the room.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Edge {
    /// x = 0, y = 0.
    FrontLeft,
    /// x = width, y = 0.
    FrontRight,
    /// x = 0, y = length.
    BackLeft,
    /// x = width, y = length.
    BackRight,
}

impl Edge {
    /// Its two walls, each with the other one.
    #[must_use]
    pub const fn walls(self) -> [(Surface, Surface); 2] {
        let (side, end) = match self {
            Self::FrontLeft => (Surface::Left, Surface::Front),
            Self::FrontRight => (Surface::Right, Surface::Front),
            Self::BackLeft => (Surface::Left, Surface::Back),
            Self::BackRight => (Surface::Right, Surface::Back),
        };
        [(side, end), (end, side)]
    }
}

/// A measured decay.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the document, described in README.md"
)]
pub struct Measured {
    pub plan: String,
    pub bands_hz: Vec<f64>,
    pub decay_s: Vec<f64>,
}

/// A finish of the user's own.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the document, described in README.md"
)]
pub struct OwnFinish {
    pub id: String,
    pub name: String,
    #[serde(flatten)]
    pub values: BandValues,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub scattering: Option<Scattering>,
}

/// A furnishing of the user's own.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the document, described in README.md"
)]
pub struct OwnFurnishing {
    pub id: String,
    pub name: String,
    pub bands_hz: Vec<f64>,
    pub absorption_area_m2: Vec<f64>,
    pub surface_m2: f64,
}

impl Scenario {
    /// The kind of that id.
    #[must_use]
    pub fn kind(&self, id: &str) -> Option<&Kind> {
        self.kit.iter().find(|kind| kind.id == id)
    }

    /// The surface's facts.
    #[must_use]
    pub fn surface(&self, surface: Surface) -> &SurfaceFacts {
        &self.room.surfaces[surface as usize]
    }

    /// Loudspeakers and seat of a plan: its own, or the scenario's.
    #[must_use]
    pub fn listening_of<'a>(&'a self, plan: &'a Plan) -> &'a Listening {
        plan.listening.as_ref().unwrap_or(&self.listening)
    }
}

impl Listening {
    /// The wall that whoever sits there has ahead, behind the loudspeakers; without a seat or loudspeakers the front wall.
    #[must_use]
    pub fn wall_ahead(&self) -> Surface {
        let Some(seat) = self.seat else {
            return Surface::Front;
        };
        let ways = self.loudspeakers.iter();
        let ahead: glam::DVec3 = ways.map(|one| one.spot.point_m() - seat.point_m()).sum();
        if ahead.x.abs() > ahead.y.abs() {
            return if ahead.x < 0.0 {
                Surface::Left
            } else {
                Surface::Right
            };
        }
        if ahead.y > 0.0 {
            Surface::Back
        } else {
            Surface::Front
        }
    }
}

impl RoomFacts {
    /// Width, length and height, m.
    #[must_use]
    pub fn size_m(&self) -> glam::DVec3 {
        glam::DVec3::new(self.width_m, self.length_m, self.height_m)
    }
}

impl Spot {
    /// As a vector, m.
    #[must_use]
    pub fn point_m(self) -> glam::DVec3 {
        glam::DVec3::new(self.x_m, self.y_m, self.z_m)
    }
}

impl Kind {
    /// The rectangle of a piece of this kind with its corner at (u, v); `turned` swaps width and height.
    #[must_use]
    pub fn rect(&self, u_m: f64, v_m: f64, turned: bool) -> Rect {
        let (width_m, height_m) = if turned {
            (self.height_m, self.width_m)
        } else {
            (self.width_m, self.height_m)
        };
        Rect {
            u_m,
            v_m,
            width_m,
            height_m,
        }
    }
}
