//! Reads kinds of kit: what a piece is made of, and the figures of data sheets.

use super::document::{BandValues, Kind, LayerFacts, Looks, MadeOf, Profile, Scattering, Stands};
use super::limits::{NAME_LENGTH, RATIO, most};
use super::reader::{Fields, Span, items, number};
use crate::error::Code;

/// A side of a piece of kit.
const PIECE_SIDE: Span = Span::new(0.05, 6.0, "m");
/// Absorption as typed: data sheets exceed 1.
const ABSORPTION: Span = Span::new(0.0, 1.3, "");
const FREQUENCY: Span = Span::new(20.0, 20_000.0, "Hz");

/// What pieces may look like, by name.
pub const LOOKS: [(&str, Looks); 2] =
    [("picture", Looks::Picture), ("furniture", Looks::Furniture)];

/// A kind of kit.
pub fn kind(fields: Fields) -> Kind {
    const STANDS: [(&str, Stands); 5] = [
        ("surface", Stands::Surface),
        ("corner", Stands::Corner),
        ("stand", Stands::Stand),
        ("curtain", Stands::Curtain),
        ("floor", Stands::Floor),
    ];
    let kind = Kind {
        id: fields.text("id", NAME_LENGTH),
        name: fields.text("name", NAME_LENGTH),
        width_m: fields.number("width_m", PIECE_SIDE),
        height_m: fields.number("height_m", PIECE_SIDE),
        price: fields.number_or_none("price", Span::new(0.0, 1e6, "")),
        price_per_m2: fields.number_or_none("price_per_m2", Span::new(0.0, 1e6, "")),
        mass_kg: fields.number_or_none("mass_kg", Span::new(0.0, 1000.0, "kg")),
        depth_mm: fields.number_or_none("depth_mm", Span::new(0.0, 1000.0, "mm")),
        scattering: scattering(&fields),
        stands: fields.word_or_none("stands", &STANDS),
        fullness: fields.number_or_none("fullness", Span::new(1.0, 3.0, "")),
        looks: fields.word_or_none("looks", &LOOKS),
        absorber: fields
            .object("absorber")
            .map_or_else(|| MadeOf::Layers { layers: Vec::new() }, made_of),
    };
    if let (Some(Scattering::PerBand(values)), made) = (&kind.scattering, &kind.absorber) {
        let wanted = if let MadeOf::DataSheet(sheet) = made {
            sheet.bands_hz.len()
        } else {
            0
        };
        same_length(&fields, "scattering", values.len(), wanted);
    }
    fields.finish();
    kind
}

/// Scattering as one number or one per band.
pub fn scattering(fields: &Fields) -> Option<Scattering> {
    let (value, path) = fields.raw_or_none("scattering")?;
    if !value.is_array() {
        return Some(Scattering::Single(number(
            value,
            &path,
            RATIO,
            fields.log(),
        )));
    }
    let list = items(value, &path, most::BAND_VALUES, fields.log());
    Some(Scattering::PerBand(
        list.iter()
            .map(|(item, path)| number(item, path, RATIO, fields.log()))
            .collect(),
    ))
}

fn made_of(fields: Fields) -> MadeOf {
    let log = fields.log();
    let made = if fields.has("layers") {
        let layers = fields.items("layers", most::LAYERS);
        if layers.is_empty() {
            log.note(
                &fields.at("layers"),
                Code::OutOfLimits,
                format!("{} must hold at least one layer.", fields.at("layers")),
            );
        }
        MadeOf::Layers {
            layers: layers
                .iter()
                .filter_map(|(v, path)| layer(Fields::of(v, path.clone(), log)))
                .collect(),
        }
    } else if let Some(profile) = fields
        .has("scattering")
        .then(|| fields.object("scattering"))
    {
        MadeOf::Scattering {
            scattering: profile.map_or_else(no_profile, self::profile),
        }
    } else {
        MadeOf::DataSheet(band_values(&fields))
    };
    fields.finish();
    made
}

/// Stands in for a profile that is not there.
fn no_profile() -> Profile {
    Profile {
        depth_mm: f64::NAN,
        period_mm: f64::NAN,
    }
}

fn profile(fields: Fields) -> Profile {
    let profile = Profile {
        depth_mm: fields.number("depth_mm", Span::new(5.0, 600.0, "mm")),
        period_mm: fields.number("period_mm", Span::new(20.0, 5000.0, "mm")),
    };
    fields.finish();
    profile
}

/// Reads the fields of one sort of layer.
type ReadLayer = fn(&Fields) -> LayerFacts;

/// Every sort of layer by its key.
const LAYERS: [(&str, ReadLayer); 7] = [
    ("porous", porous),
    ("gap", gap),
    ("perforated", perforated),
    ("slotted", slotted),
    ("membrane", membrane),
    ("cloth", cloth),
    ("board", board),
];

fn layer(fields: Fields) -> Option<LayerFacts> {
    let sort = LAYERS.iter().find(|(key, _)| fields.has(key));
    if sort.is_none() && fields.is_object() {
        let keys = LAYERS.map(|(key, _)| key).join(", ");
        let path = fields.path();
        fields.log().note(
            path,
            Code::Missing,
            format!("{path} must be one of {keys}."),
        );
    }
    let read = sort.and_then(|&(key, read)| {
        let inner = fields.object(key)?;
        let layer = read(&inner);
        inner.finish();
        Some(layer)
    });
    fields.finish();
    read
}

fn porous(fields: &Fields) -> LayerFacts {
    LayerFacts::Porous {
        thickness_mm: fields.number("thickness_mm", Span::new(1.0, 1000.0, "mm")),
        flow_resistivity_pa_s_per_m2: fields.number(
            "flow_resistivity_pa_s_per_m2",
            Span::new(500.0, 200_000.0, "Pa s/m²"),
        ),
    }
}

fn gap(fields: &Fields) -> LayerFacts {
    LayerFacts::Gap {
        thickness_mm: fields.number("thickness_mm", Span::new(0.0, 1000.0, "mm")),
    }
}

fn perforated(fields: &Fields) -> LayerFacts {
    let hole_mm = fields.number("hole_mm", Span::new(0.2, 100.0, "mm"));
    let pitch_mm = fields.number("pitch_mm", Span::new(0.5, 500.0, "mm"));
    narrower(fields, "hole_mm", hole_mm, pitch_mm);
    LayerFacts::Perforated {
        thickness_mm: fields.number("thickness_mm", Span::new(0.2, 100.0, "mm")),
        hole_mm,
        pitch_mm,
    }
}

fn slotted(fields: &Fields) -> LayerFacts {
    let slot_mm = fields.number("slot_mm", Span::new(0.2, 100.0, "mm"));
    let pitch_mm = fields.number("pitch_mm", Span::new(0.5, 500.0, "mm"));
    narrower(fields, "slot_mm", slot_mm, pitch_mm);
    LayerFacts::Slotted {
        thickness_mm: fields.number("thickness_mm", Span::new(0.2, 100.0, "mm")),
        slot_mm,
        pitch_mm,
    }
}

/// Notes an opening that leaves no board before the next.
fn narrower(fields: &Fields, key: &str, opening_mm: f64, pitch_mm: f64) {
    if opening_mm >= pitch_mm {
        let path = fields.at(key);
        let message =
            format!("{path} is {opening_mm} mm; it must be below pitch_mm, {pitch_mm} mm.");
        fields.log().note(&path, Code::OutOfLimits, message);
    }
}

fn membrane(fields: &Fields) -> LayerFacts {
    LayerFacts::Membrane {
        mass_kg_per_m2: fields.number("mass_kg_per_m2", Span::new(0.05, 50.0, "kg/m²")),
        loss: fields.number_or_none("loss", RATIO),
    }
}

fn cloth(fields: &Fields) -> LayerFacts {
    LayerFacts::Cloth {
        flow_resistance_pa_s_per_m: fields.number(
            "flow_resistance_pa_s_per_m",
            Span::new(1.0, 10_000.0, "Pa s/m"),
        ),
        mass_kg_per_m2: fields.number_or_none("mass_kg_per_m2", Span::new(0.01, 10.0, "kg/m²")),
    }
}

fn board(fields: &Fields) -> LayerFacts {
    LayerFacts::Board {
        thickness_mm: fields.number("thickness_mm", Span::new(0.5, 100.0, "mm")),
        density_kg_per_m3: fields.number("density_kg_per_m3", Span::new(50.0, 8000.0, "kg/m³")),
    }
}

/// Frequencies and absorption of a data sheet.
pub fn band_values(fields: &Fields) -> BandValues {
    let bands_hz = frequencies(fields);
    let absorption = fields.numbers("absorption", most::BAND_VALUES, ABSORPTION);
    same_length(fields, "absorption", absorption.len(), bands_hz.len());
    BandValues {
        bands_hz,
        absorption,
    }
}

/// `bands_hz`: at least one, ascending.
pub fn frequencies(fields: &Fields) -> Vec<f64> {
    let bands_hz = fields.numbers("bands_hz", most::BAND_VALUES, FREQUENCY);
    let path = fields.at("bands_hz");
    if bands_hz.is_empty() && fields.has("bands_hz") {
        fields.log().note(
            &path,
            Code::OutOfLimits,
            format!("{path} must hold at least one frequency."),
        );
    }
    if let Some(pair) = bands_hz.windows(2).find(|pair| pair[0] >= pair[1]) {
        fields.log().note(
            &path,
            Code::OutOfLimits,
            format!(
                "{path} must ascend, but {} Hz is followed by {} Hz.",
                pair[0], pair[1]
            ),
        );
    }
    bands_hz
}

/// Notes a list that does not have one value per frequency.
pub fn same_length(fields: &Fields, key: &str, length: usize, wanted: usize) {
    if length != wanted {
        let message = format!(
            "{} has {length} values; there are {wanted} frequencies in bands_hz.",
            fields.at(key)
        );
        fields
            .log()
            .note(&fields.at(key), Code::OutOfLimits, message);
    }
}
