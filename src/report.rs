//! The report: what is computed for a scenario, in the shape in which it leaves the core.

use serde::Serialize;

use crate::bands::{BANDS, Banded};
use crate::geometry::Surface;

/// A series of numbers; NaN stands for a value that is not defined and is written as `null`.
///
/// On the way to JavaScript it becomes a typed array (see `wasm`), where NaN stays.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Series(pub Vec<f64>);

#[cfg(not(target_arch = "wasm32"))]
impl Serialize for Series {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_seq(
            self.0
                .iter()
                .map(|value| value.is_finite().then_some(value)),
        )
    }
}

impl From<Banded> for Series {
    fn from(values: Banded) -> Self {
        Self(values.0.to_vec())
    }
}

impl From<&[Option<f64>; BANDS]> for Series {
    fn from(values: &[Option<f64>; BANDS]) -> Self {
        Self(
            values
                .iter()
                .map(|value| value.unwrap_or(f64::NAN))
                .collect(),
        )
    }
}

/// The report of a whole scenario.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the report, described in README.md"
)]
pub struct Report {
    pub version: &'static str,
    pub title: String,
    pub bands_hz: Series,
    pub plans: Vec<PlanReport>,
    pub differences: Vec<Difference>,
    /// None where nothing was measured.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub checkup: Option<CheckupReport>,
}

/// What one plan comes to.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the report, described in README.md"
)]
pub struct PlanReport {
    pub name: String,
    pub room: RoomSummary,
    pub absorption: SurfaceSeries,
    pub absorption_area_m2: AbsorptionAreas,
    pub absorbers: Vec<AbsorberReport>,
    pub decay: DecayReport,
    pub mid: Mid,
    /// What would make the range narrower.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub surer: Option<SurerReport>,
    pub reflections: Vec<ReflectionReport>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub seat: Option<SeatReport>,
    pub field: FieldReport,
    pub flutter: Vec<FlutterReport>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub response: Option<ResponseReport>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub modes: Option<Vec<ModeReport>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub bass: Option<BassMore>,
    pub cost: Cost,
    pub notes: Vec<String>,
}

/// The box in figures.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the report, described in README.md"
)]
pub struct RoomSummary {
    pub volume_m3: f64,
    pub area_m2: f64,
    pub mean_free_path_m: f64,
    pub statistics_from_hz: Option<f64>,
}

/// One series per surface.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(missing_docs, reason = "the fields are the names of the surfaces")]
pub struct SurfaceSeries {
    pub left: Series,
    pub right: Series,
    pub front: Series,
    pub back: Series,
    pub floor: Series,
    pub ceiling: Series,
}

/// Equivalent absorption areas, m².
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the report, described in README.md"
)]
pub struct AbsorptionAreas {
    pub surfaces: Series,
    pub pieces: Series,
    pub furnishings: Series,
    pub air: Series,
}

/// What something that absorbs is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Absorbing {
    /// What is bare of a surface.
    Surface,
    /// A part of the building.
    Part,
    /// All pieces of one kind.
    Piece,
    /// Furniture of one entry.
    Furnishing,
    /// The air.
    Air,
}

/// How much one thing absorbs; all of them sum up to the whole.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the report, described in README.md"
)]
pub struct AbsorberReport {
    pub what: Absorbing,
    pub name: String,
    pub area_m2: Series,
}

/// Decay times and curves per band.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the report, described in README.md"
)]
pub struct DecayReport {
    pub t20_s: Series,
    pub t30_s: Series,
    pub edt_s: Series,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub low_s: Option<Series>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub high_s: Option<Series>,
    pub sabine_s: Series,
    pub eyring_s: Series,
    pub curve_step_s: Series,
    pub curve_db: Vec<Series>,
}

/// 8-in-10 range of T20 per band.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the report, described in README.md"
)]
pub struct DecayRange {
    pub low_s: Series,
    pub high_s: Series,
}

/// The figure of the answer, and how sure it is where that was asked for.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Mid {
    /// Mean of T20 over the middle bands, s.
    pub t20_s: Option<f64>,
    /// Lower limit of the 8-in-10 range, s; NaN where the sound may not decay.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub low_s: Option<f64>,
    /// Upper limit, s.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub high_s: Option<f64>,
    /// Share of the draws that meet the goal.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub goal_met: Option<f64>,
}

/// How sure the figures of one plan are.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct RangesReport {
    /// Number of draws.
    pub draws: usize,
    /// Of T20 per band.
    pub decay: DecayRange,
    /// Of the middle decay.
    pub mid: Mid,
    /// Of the shares at the seat; none without loudspeakers or seat.
    pub seat: Option<ShareRanges>,
    /// Against every other plan whose draws are made.
    pub differences: Vec<Difference>,
    /// Where the draws rest on a check-up, the middle of them.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub checked: Option<Middle>,
}

/// What half of the draws exceed.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Middle {
    /// T20 per band, s.
    pub t20_s: Series,
    /// The middle decay, s.
    pub mid_s: f64,
    /// T20 over that of the room as it is described, per band: what the page makes of its own prediction between answers.
    pub factor: Series,
    /// The same of the middle decay.
    pub mid_factor: f64,
}

/// 8-in-10 range of a series.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Span {
    /// Lower limits.
    pub low: Series,
    /// Upper limits.
    pub high: Series,
}

/// Ranges of the shares of energy at the seat.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the report, described in README.md"
)]
pub struct ShareRanges {
    pub direct_share: Span,
    pub early_share: Span,
    pub late_share: Span,
}

/// One early reflection.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the report, described in README.md"
)]
pub struct ReflectionReport {
    pub loudspeaker: usize,
    pub order: usize,
    pub surfaces: Vec<Surface>,
    pub points_m: Vec<[f64; 3]>,
    pub distance_m: f64,
    pub delay_s: f64,
    pub level_db: Series,
    pub direction: [f64; 3],
    pub pieces: Vec<usize>,
    pub parts: Vec<usize>,
    /// The furnishing that it comes off; such a reflection names no surface.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub furnishing: Option<usize>,
    /// Furnishings in its way.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub blocked_by: Vec<usize>,
    /// Pieces in its way: screens that stand free.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub screened_by: Vec<usize>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub zones: Vec<ZoneReport>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub dips: Vec<DipReport>,
}

/// First Fresnel zone of a reflection on its surface at 1 kHz, an ellipse round the point; it grows as 1 / √f.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the report, described in README.md"
)]
pub struct ZoneReport {
    pub semi_along_m: f64,
    pub semi_across_m: f64,
    pub along: [f64; 2],
}

/// A dip that one reflection alone makes in the response.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the report, described in README.md"
)]
pub struct DipReport {
    pub frequency_hz: f64,
    pub depth_db: f64,
}

/// What reaches the seat: shares of energy, clarity, distance at which direct and late sound are equal.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the report, described in README.md"
)]
pub struct SeatReport {
    pub direct_share: Series,
    pub early_share: Series,
    pub late_share: Series,
    pub c50_db: Series,
    pub c80_db: Series,
    pub critical_distance_m: Series,
    pub index_db: Vec<Series>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub ranges: Option<ShareRanges>,
}

/// How the late sound lies in the room.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the report, described in README.md"
)]
pub struct FieldReport {
    pub bent: Option<String>,
    pub carriers: Vec<Carrier>,
}

/// Share of the late sound at 1 kHz that arrives at two facing walls.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the report, described in README.md"
)]
pub struct Carrier {
    pub surfaces: [Surface; 2],
    pub share: f64,
}

/// Sound that runs to and fro between two facing walls and outlasts the rest.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the report, described in README.md"
)]
pub struct FlutterReport {
    pub surfaces: [Surface; 2],
    pub repeats_per_s: f64,
}

/// What the pieces cost, weigh and cover.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the report, described in README.md"
)]
pub struct Cost {
    pub known: f64,
    pub unpriced: usize,
    pub mass_kg: f64,
    pub area_m2: f64,
}

/// How the middle decay of one plan differs from that of another.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the report, described in README.md"
)]
pub struct Difference {
    pub from: String,
    pub to: String,
    pub mid_s: Option<f64>,
    pub low_s: f64,
    pub high_s: f64,
}

/// Levels of left, right and both loudspeakers over frequency, dB re the direct sound of one on axis at 1 m.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the report, described in README.md"
)]
pub struct Levels {
    pub frequency_hz: Series,
    pub left_db: Series,
    pub right_db: Series,
    pub both_db: Series,
}

/// Response at the seat, fine and in thirds of an octave.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the report, described in README.md"
)]
pub struct ResponseReport {
    #[serde(flatten)]
    pub levels: Levels,
    pub third_octave: Levels,
}

/// The bass of one plan.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the report, described in README.md"
)]
pub struct BassReport {
    pub response: ResponseReport,
    pub modes: Vec<ModeReport>,
    #[serde(flatten)]
    pub more: BassMore,
}

/// What the report of a plan holds about the bass beside response and modes.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the report, described in README.md"
)]
pub struct BassMore {
    pub stops_at_hz: f64,
    pub words: Vec<String>,
    pub map: MapReport,
    pub behind: Vec<BehindReport>,
    pub coincident: Vec<[usize; 2]>,
    pub thin: Option<String>,
    pub note_kept: Option<f64>,
    pub evener: Option<EvenerReport>,
}

/// A place nearby that hears the bass more evenly than the seat.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the report, described in README.md"
)]
pub struct EvenerReport {
    pub x_m: f64,
    pub y_m: f64,
    pub varies_db: f64,
    pub from_db: f64,
}

/// One mode of the room.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the report, described in README.md"
)]
pub struct ModeReport {
    pub n: [u32; 3],
    pub frequency_hz: f64,
    pub decay_s: Option<f64>,
    pub note: String,
    pub fed: f64,
    pub heard: f64,
}

/// Levels over the floor at the height of the ears: layer by layer, in it row by row from the front, in it left to right.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the report, described in README.md"
)]
pub struct MapReport {
    pub frequency_hz: Series,
    pub nx: usize,
    pub ny: usize,
    pub x_m: Series,
    pub y_m: Series,
    pub level_db: Series,
    pub unevenness_db: Series,
}

/// The dip that a wall behind a loudspeaker makes.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the report, described in README.md"
)]
pub struct BehindReport {
    pub loudspeaker: usize,
    pub wall: Surface,
    pub distance_m: f64,
    pub dip_hz: f64,
}

/// What the measured decays say about the room.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CheckupReport {
    /// Whether the ranges of all plans rest on the measurements.
    pub used: bool,
    /// What came of it, in words.
    pub sentence: String,
    /// One for each entry of `measured`.
    pub entries: Vec<CheckupEntry>,
    /// What the room turned out to absorb, where it is not what was assumed; the largest change first.
    pub learnt: Vec<Learnt>,
    /// Likely reasons of figures that do not fit the room, the one that fits best first.
    pub causes: Vec<Cause>,
    /// Middles of the inputs, by name, in standard deviations of what is assumed.
    pub means: Vec<(String, f64)>,
}

/// One measured decay against what is predicted for its plan. Series have one value for each measured band.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the report, described in README.md"
)]
pub struct CheckupEntry {
    pub plan: String,
    pub used: bool,
    pub sentence: String,
    pub bands_hz: Series,
    pub measured_s: Series,
    /// Whether the band counts: not where the room rings at single notes.
    pub counted: Vec<bool>,
    /// As the room is described.
    pub before: Predicted,
    /// After the check-up; none if nothing of it is used.
    pub after: Option<Predicted>,
}

/// A predicted decay with its 8-in-10 range, s.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the report, described in README.md"
)]
pub struct Predicted {
    pub t20_s: Series,
    pub low_s: Series,
    pub high_s: Series,
}

/// How much more or less a thing absorbs than was assumed, with the 8-in-10 range of that factor.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the report, described in README.md"
)]
pub struct Learnt {
    pub name: String,
    pub words: String,
    pub factor: f64,
    pub low: f64,
    pub high: f64,
}

/// A likely reason why figures do not fit.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the report, described in README.md"
)]
pub struct Cause {
    pub words: String,
    /// How far off the figures would be still, as a share of how far off they are.
    pub left: f64,
}

/// What makes the range of a plan wide, and what would make it narrower.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the report, described in README.md"
)]
pub struct SurerReport {
    pub now: Preview,
    /// The weightiest first.
    pub inputs: Vec<SurerInput>,
    /// One decay measured in a plan.
    pub measured: Option<SurerMeasured>,
}

/// One input that is not known well.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SurerInput {
    /// Name under which it is drawn.
    pub name: String,
    /// What it is, in words.
    pub words: String,
    /// What can be done about it, in words.
    pub advice: String,
    /// Its share of the variance of the middle decay.
    pub share: f64,
    /// Its share of the variance of whether the goal is met.
    pub goal_share: f64,
    /// The range if it were known to be as described.
    pub known: Preview,
}

/// The range after one decay is measured, if it comes out as predicted.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SurerMeasured {
    /// The plan to measure.
    pub plan: String,
    /// The range that would be left.
    pub known: Preview,
}

/// A range of the middle decay, s, and the share of the draws that meet the goal.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the fields are the keys of the report, described in README.md"
)]
pub struct Preview {
    pub low_s: f64,
    pub high_s: f64,
    pub goal_met: f64,
}
