//! Where the figures of a kind come from, in words.

use crate::scenario::document::LayerFacts;

/// A data sheet.
pub(super) const OF_SHEET: &str =
    "Typed from a data sheet; straight lines between the figures, the nearest figure beyond them.";

/// A hard profile.
pub(super) const OF_PROFILE: &str = "Absorption: one published row for a profile of wells (Cox & D'Antonio 2017, Appendix A, a maker's measurement), taken for all. Scattering: computed from depth and period by the mean phase of the profile (Beckmann & Spizzichino 1963) and the grating equation; lobes in single directions are left out.";

/// What every stack says.
const STACK: &str = "Computed from its layers for sound from all directions (Paris 1928).";

/// Layers, with the models that they use.
pub(super) fn of_layers(layers: &[LayerFacts]) -> String {
    let said = layers
        .iter()
        .map(of_layer)
        .fold(vec![STACK], |mut all, one| {
            all.extend(one.filter(|one| !all.contains(one)));
            all
        });
    said.join(" ")
}

/// The model of one layer; air needs none.
fn of_layer(layer: &LayerFacts) -> Option<&'static str> {
    match layer {
        LayerFacts::Gap { .. } => None,
        LayerFacts::Porous { .. } => Some(
            "Porous material after Miki 1990, stated for frequencies of 0.01 to 1 times the flow resistivity; below that it is carried on, so the lowest notes of dense layers are least sure.",
        ),
        LayerFacts::Perforated { .. } | LayerFacts::Slotted { .. } => Some(
            "Openings after Johnson, Koplik and Dashen 1987 with ends after Ingard 1953 (holes) and Smits and Kosten 1951 (slots); the board does not move.",
        ),
        LayerFacts::Membrane { .. } | LayerFacts::Board { .. } => Some(
            "Sheet or board as a limp mass: its stiffness and how it is fixed are left out, so its resonance is sure to about a third of an octave.",
        ),
        LayerFacts::Cloth { .. } => Some("Cloth by its flow resistance."),
    }
}
