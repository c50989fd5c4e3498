//! Bare surfaces of homes: absorption by octave with its published spread, and scattering.
//!
//! Figures are facts from published tables, read from transcriptions of the printed pages, not from the books themselves;
//! a transcriber's slip is possible. `low` and `high` are the lowest and highest published row of a group in each octave.
//! Below 125 Hz and above 4 kHz nothing is published for most surfaces: the nearest octave is held, which is an assumption.

use serde::Serialize;

use crate::bands::{Banded, NOMINAL_HZ};

/// Octave centres of the published figures, Hz.
pub const OCTAVES_HZ: [f64; 6] = [125.0, 250.0, 500.0, 1000.0, 2000.0, 4000.0];

/// From here up a surface scatters with its full figure, Hz.
const FULL_SCATTERING_HZ: f64 = 500.0;

/// Share of the full scattering figure by frequency, (Hz, share); common practice, no source.
const SCATTERING_RISE: [(f64, f64); 3] = [(125.0, 0.5), (250.0, 0.7), (FULL_SCATTERING_HZ, 1.0)];

/// Least scattering of anything in a room; common practice, no source.
const LEAST_SCATTERING: f64 = 0.05;

/// Scattering of a flat wall, floor or window from 500 Hz up; common practice, no source.
const FLAT: f64 = 0.10;

/// Scattering of a curtain from 500 Hz up; common practice, no source.
const CURTAIN: f64 = 0.20;

/// A bare surface as the library knows it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Finish {
    /// Key in a scenario, in kebab case.
    pub id: &'static str,
    /// Name for people.
    pub name: &'static str,
    /// Random-incidence absorption taken for a home, at [`OCTAVES_HZ`].
    pub typical: [f64; 6],
    /// Lowest published absorption, at [`OCTAVES_HZ`].
    pub low: [f64; 6],
    /// Highest published absorption, at [`OCTAVES_HZ`]; may exceed 1, as laboratory figures do.
    pub high: [f64; 6],
    /// Scattering below 500 Hz, before the fall towards the bass.
    pub scattering_low: f64,
    /// Scattering from 500 Hz up.
    pub scattering: f64,
    /// What it may be used for, separated by spaces: wall, floor, ceiling, window, door, opening, built-in.
    pub suits: &'static str,
    /// Where the figures are from, or that they have no source.
    pub source: &'static str,
}

impl Finish {
    /// The typical absorption in every band: linear over log frequency between octaves, held beyond them.
    #[must_use]
    pub fn absorption(&self) -> Banded {
        octaves_to_bands(&self.typical)
    }

    /// Scattering in every band, see [`scattering_bands`].
    #[must_use]
    pub fn scattering(&self) -> Banded {
        let (below, above) = (
            scattering_bands(self.scattering_low),
            scattering_bands(self.scattering),
        );
        Banded::from_fn(|band| {
            if NOMINAL_HZ[band] < FULL_SCATTERING_HZ {
                below[band]
            } else {
                above[band]
            }
        })
    }
}

/// Octave values carried to every band: linear over log frequency between octaves, held beyond them.
#[must_use]
pub fn octaves_to_bands(octaves: &[f64; 6]) -> Banded {
    let points: [(f64, f64); 6] = std::array::from_fn(|i| (OCTAVES_HZ[i], octaves[i]));
    Banded::interpolated(&points)
}

/// Scattering in every band of a surface with one known figure.
///
/// ```text
/// s(f) = max(0.05, s × share),  share 0.5 up to 125 Hz, 0.7 at 250 Hz, 1 from 500 Hz
/// ```
///
/// # Units
/// - `at_500_hz_and_up`: share of reflected energy that leaves off the mirror direction, 0 … 1
///
/// # Source
/// Common practice, no source.
#[must_use]
pub fn scattering_bands(at_500_hz_and_up: f64) -> Banded {
    Banded::interpolated(&SCATTERING_RISE)
        .map(|share| (share * at_500_hz_and_up).max(LEAST_SCATTERING))
}

/// The finish with this key.
#[must_use]
pub fn finish(id: &str) -> Option<&'static Finish> {
    FINISHES.iter().find(|finish| finish.id == id)
}

/// Every finish of the library.
///
/// # Source
/// Beside each. Books: Cox & D'Antonio, Acoustic Absorbers and Diffusers, 3rd ed. (2017); Vorländer, Auralization (2008);
/// Bies, Hansen & Howard, Engineering Noise Control, 5th ed. (2017), Table 6.2; Long, Architectural Acoustics, 2nd ed.
/// (2014), Table 7.1; Arau-Puchades, ABC de la acústica arquitectónica (1999), Table 6.1; Everest, The Master Handbook of
/// Acoustics, 4th ed. (2001); Barron, Industrial Noise Control and Acoustics (2003); Olson, Music, Physics and
/// Engineering (1967).
pub const FINISHES: &[Finish] = &[
    Finish {
        id: "plaster-on-brick",
        name: "Plaster on brick or concrete",
        typical: [0.013, 0.015, 0.02, 0.03, 0.04, 0.05],
        low: [0.01, 0.015, 0.02, 0.02, 0.02, 0.02],
        high: [0.12, 0.09, 0.07, 0.05, 0.07, 0.08],
        scattering_low: FLAT,
        scattering: FLAT,
        suits: "wall ceiling built-in",
        source: "Typical: smooth gypsum or lime plaster on tile or brick (Cox & D'Antonio 2017, Appendix A, after \
                 Harris 1991; the same in three more books). Range: 8 rows of Cox & D'Antonio 2017, Vorländer 2008 \
                 and Long 2014.",
    },
    Finish {
        id: "board-on-studs",
        name: "Plasterboard on studs, one layer",
        typical: [0.24, 0.115, 0.05, 0.045, 0.05, 0.05],
        low: [0.08, 0.08, 0.05, 0.03, 0.02, 0.03],
        high: [0.3, 0.14, 0.09, 0.06, 0.07, 0.09],
        scattering_low: FLAT,
        scattering: FLAT,
        suits: "wall ceiling built-in",
        source: "Typical: median of the 6 rows. Range: 5 rows of Cox & D'Antonio 2017, Appendix A, and 1 of \
                 Arau-Puchades 1999. Below 250 Hz the board resonates: the cavity decides, not the name.",
    },
    Finish {
        id: "double-board-on-studs",
        name: "Plasterboard on studs, two layers",
        typical: [0.15, 0.1, 0.06, 0.04, 0.04, 0.05],
        low: [0.15, 0.1, 0.06, 0.04, 0.04, 0.05],
        high: [0.15, 0.1, 0.06, 0.04, 0.04, 0.05],
        scattering_low: FLAT,
        scattering: FLAT,
        suits: "wall ceiling",
        source: "2 × 13 mm board, 50 mm mineral wool in the cavity (Vorländer 2008, annex; also in Cox & D'Antonio \
                 2017). One published row, so no spread is known.",
    },
    Finish {
        id: "concrete",
        name: "Concrete, smooth",
        typical: [0.01, 0.01, 0.02, 0.02, 0.02, 0.05],
        low: [0.01, 0.01, 0.01, 0.02, 0.02, 0.02],
        high: [0.02, 0.03, 0.03, 0.03, 0.04, 0.07],
        scattering_low: FLAT,
        scattering: FLAT,
        suits: "wall floor ceiling",
        source: "Typical: smooth unpainted concrete (Vorländer 2008, annex, after Bobran 1973). Range: 4 rows of \
                 Vorländer 2008, Cox & D'Antonio 2017 and Long 2014.",
    },
    Finish {
        id: "concrete-block-bare",
        name: "Concrete block, coarse, unpainted",
        typical: [0.36, 0.44, 0.31, 0.29, 0.39, 0.25],
        low: [0.36, 0.44, 0.31, 0.29, 0.39, 0.25],
        high: [0.36, 0.44, 0.31, 0.29, 0.39, 0.25],
        scattering_low: FLAT,
        scattering: FLAT,
        suits: "wall",
        source: "Cox & D'Antonio 2017, Appendix A, after Harris 1991; Everest 2001 and Barron 2003 agree. One \
                 published row, so no spread is known. Long 2014 prints 0.51 at 500 Hz, taken as a misprint of 0.31.",
    },
    Finish {
        id: "concrete-block-painted",
        name: "Concrete block, painted",
        typical: [0.1, 0.05, 0.06, 0.07, 0.09, 0.08],
        low: [0.1, 0.05, 0.06, 0.07, 0.09, 0.08],
        high: [0.1, 0.05, 0.06, 0.07, 0.09, 0.08],
        scattering_low: FLAT,
        scattering: FLAT,
        suits: "wall",
        source: "Cox & D'Antonio 2017, Appendix A, after Harris 1991; four books agree. One published row, so no \
                 spread is known. Bies et al. 2017 prints 0.01 at 125 Hz, taken as a misprint of 0.10.",
    },
    Finish {
        id: "brick",
        name: "Brick, bare",
        typical: [0.03, 0.03, 0.03, 0.04, 0.05, 0.07],
        low: [0.01, 0.01, 0.02, 0.02, 0.02, 0.03],
        high: [0.08, 0.09, 0.12, 0.16, 0.22, 0.24],
        scattering_low: FLAT,
        scattering: FLAT,
        suits: "wall built-in",
        source: "Typical: unglazed, unpainted brick (Cox & D'Antonio 2017, Appendix A, after Harris 1991). Range: 4 \
                 rows of Cox & D'Antonio 2017 and 1 of Vorländer 2008, from painted brick to deep pointing.",
    },
    Finish {
        id: "lath-and-plaster",
        name: "Plaster on laths or battens",
        typical: [0.2, 0.1, 0.1, 0.05, 0.04, 0.03],
        low: [0.02, 0.02, 0.03, 0.04, 0.04, 0.02],
        high: [0.3, 0.15, 0.1, 0.08, 0.04, 0.05],
        scattering_low: FLAT,
        scattering: FLAT,
        suits: "ceiling wall",
        source: "Typical: median of the 5 rows. Range: 3 rows of Cox & D'Antonio 2017, Appendix A, 1 of Long 2014 and \
                 1 of Vorländer 2008; they differ fifteenfold at 125 Hz, where thickness and backing decide.",
    },
    Finish {
        id: "suspended-ceiling",
        name: "Suspended mineral-fibre ceiling",
        typical: [0.68, 0.76, 0.6, 0.65, 0.82, 0.76],
        low: [0.07, 0.21, 0.53, 0.65, 0.62, 0.49],
        high: [0.77, 0.84, 0.78, 0.95, 1.01, 1.02],
        scattering_low: FLAT,
        scattering: FLAT,
        suits: "ceiling",
        source: "Typical: 16 mm mineral fibre tile, 400 mm air space (Long 2014, Table 7.1). Range: 8 rows of Bies et \
                 al. 2017, Long 2014, Vorländer 2008 and Everest 2001; the lowest bass figures are tiles fixed to the \
                 slab.",
    },
    Finish {
        id: "boards-on-joists",
        name: "Floor boards on joists",
        typical: [0.15, 0.11, 0.1, 0.07, 0.06, 0.07],
        low: [0.05, 0.03, 0.06, 0.07, 0.06, 0.07],
        high: [0.18, 0.2, 0.1, 0.1, 0.1, 0.2],
        scattering_low: FLAT,
        scattering: FLAT,
        suits: "floor",
        source: "Typical: wood floor on joists (Cox & D'Antonio 2017, Appendix A, after Harris 1991; the same in \
                 three more books). Range: 5 rows of Cox & D'Antonio 2017, Bies et al. 2017, Vorländer 2008 and \
                 Arau-Puchades 1999.",
    },
    Finish {
        id: "parquet-on-concrete",
        name: "Parquet or laminate on concrete",
        typical: [0.04, 0.04, 0.07, 0.06, 0.06, 0.07],
        low: [0.04, 0.04, 0.03, 0.03, 0.03, 0.02],
        high: [0.04, 0.04, 0.07, 0.06, 0.06, 0.07],
        scattering_low: FLAT,
        scattering: FLAT,
        suits: "floor",
        source: "Typical: parquet fixed with asphalt on concrete (Cox & D'Antonio 2017, Appendix A, after Beranek \
                 1954). Range: 2 rows of the same. Laminate has no row of its own: taken as parquet, common practice, \
                 no source.",
    },
    Finish {
        id: "hard-floor",
        name: "Tile, linoleum or vinyl on concrete",
        typical: [0.02, 0.02, 0.03, 0.04, 0.04, 0.05],
        low: [0.01, 0.01, 0.01, 0.02, 0.02, 0.02],
        high: [0.02, 0.04, 0.05, 0.05, 0.1, 0.05],
        scattering_low: FLAT,
        scattering: FLAT,
        suits: "floor",
        source: "Typical: linoleum or vinyl stuck to concrete (Cox & D'Antonio 2017, Appendix A). Range: 4 rows of \
                 Cox & D'Antonio 2017 and 1 of Vorländer 2008, from tile to rubber.",
    },
    Finish {
        id: "carpet-thin",
        name: "Carpet, thin, on a hard floor",
        typical: [0.02, 0.04, 0.08, 0.2, 0.35, 0.5],
        low: [0.01, 0.02, 0.05, 0.1, 0.3, 0.4],
        high: [0.05, 0.05, 0.1, 0.2, 0.45, 0.65],
        scattering_low: FLAT,
        scattering: FLAT,
        suits: "floor",
        source: "Typical: median of the 5 rows. Range: 2 rows of Cox & D'Antonio 2017, 1 each of Vorländer 2008, Bies \
                 et al. 2017 and Long 2014.",
    },
    Finish {
        id: "carpet-heavy",
        name: "Carpet, heavy, on a hard floor",
        typical: [0.02, 0.06, 0.14, 0.37, 0.6, 0.65],
        low: [0.02, 0.06, 0.12, 0.26, 0.27, 0.37],
        high: [0.17, 0.18, 0.21, 0.5, 0.63, 0.83],
        scattering_low: FLAT,
        scattering: FLAT,
        suits: "floor",
        source: "Typical: heavy carpet on concrete, no underlay (Cox & D'Antonio 2017, Appendix A, after Harris 1991; \
                 the same in three more books). Range: 5 rows of the same. Long 2014 prints 0.57 at 1 kHz, taken as a \
                 misprint of 0.37.",
    },
    Finish {
        id: "carpet-with-underlay",
        name: "Carpet, heavy, on underlay",
        typical: [0.08, 0.24, 0.57, 0.69, 0.71, 0.73],
        low: [0.03, 0.08, 0.2, 0.31, 0.33, 0.44],
        high: [0.2, 0.4, 0.62, 0.79, 0.75, 0.88],
        scattering_low: FLAT,
        scattering: FLAT,
        suits: "floor",
        source: "Typical: heavy carpet on foam rubber or hair felt (Cox & D'Antonio 2017, Appendix A, after Harris \
                 1991; the same in five more books). Range: 6 rows of Cox & D'Antonio 2017 and 3 of Vorländer 2008.",
    },
    Finish {
        id: "rug-on-floor",
        name: "Rug on felt",
        typical: [0.07, 0.25, 0.5, 0.5, 0.6, 0.65],
        low: [0.07, 0.15, 0.25, 0.3, 0.3, 0.3],
        high: [0.1, 0.25, 0.5, 0.5, 0.6, 0.65],
        scattering_low: FLAT,
        scattering: FLAT,
        suits: "floor",
        source: "Typical: pile rug or carpet and thick felt (Cox & D'Antonio 2017, Appendix A, after Fry 1987). \
                 Range: this and the haircord row of the same. Both are tabled as carpet: no published row for a \
                 loose rug was found. A third row is left out, as it repeats figures of a curtain.",
    },
    Finish {
        id: "window",
        name: "Window",
        typical: [0.1, 0.07, 0.05, 0.03, 0.02, 0.02],
        low: [0.04, 0.04, 0.03, 0.03, 0.02, 0.02],
        high: [0.35, 0.25, 0.18, 0.12, 0.07, 0.05],
        scattering_low: FLAT,
        scattering: FLAT,
        suits: "window wall",
        source: "Typical: double glazing with a 10 mm gap (Vorländer 2008, annex). Range: 7 rows of Cox & D'Antonio \
                 2017, Vorländer 2008 and Arau-Puchades 1999; at 125 Hz they differ ninefold, as pane and frame \
                 decide.",
    },
    Finish {
        id: "large-heavy-glass",
        name: "Large panes of heavy glass",
        typical: [0.18, 0.06, 0.04, 0.03, 0.02, 0.02],
        low: [0.18, 0.06, 0.04, 0.03, 0.02, 0.02],
        high: [0.18, 0.06, 0.04, 0.03, 0.02, 0.02],
        scattering_low: FLAT,
        scattering: FLAT,
        suits: "window wall door",
        source: "Cox & D'Antonio 2017, Appendix A, after Harris 1991; the same in three more books. One published \
                 row, so no spread is known.",
    },
    Finish {
        id: "wooden-door",
        name: "Wooden door",
        typical: [0.14, 0.1, 0.06, 0.08, 0.1, 0.1],
        low: [0.1, 0.07, 0.05, 0.04, 0.04, 0.04],
        high: [0.14, 0.1, 0.06, 0.08, 0.1, 0.1],
        scattering_low: FLAT,
        scattering: FLAT,
        suits: "door",
        source: "Typical: solid wooden door (Vorländer 2008, annex, after Bobran 1973; the same in two more books). \
                 Range: this and the panel door of Barron 2003.",
    },
    Finish {
        id: "wood-panelling",
        name: "Wood panelling over an air space",
        typical: [0.28, 0.22, 0.17, 0.09, 0.1, 0.11],
        low: [0.27, 0.18, 0.08, 0.05, 0.04, 0.03],
        high: [0.6, 0.43, 0.22, 0.17, 0.15, 0.11],
        scattering_low: FLAT,
        scattering: FLAT,
        suits: "wall ceiling built-in",
        source: "Typical: 10 mm plywood panelling (Cox & D'Antonio 2017, Appendix A, after Harris 1991; also in \
                 Everest 2001). Range: 4 rows of Cox & D'Antonio 2017, 2 of Vorländer 2008, 1 of Long 2014 and 1 of \
                 Arau-Puchades 1999.",
    },
    Finish {
        id: "curtain-light",
        name: "Curtain, light",
        typical: [0.05, 0.15, 0.35, 0.4, 0.5, 0.5],
        low: [0.03, 0.04, 0.11, 0.17, 0.24, 0.35],
        high: [0.05, 0.15, 0.39, 0.63, 0.7, 0.73],
        scattering_low: CURTAIN,
        scattering: CURTAIN,
        suits: "wall window opening",
        source: "Typical: light velour 0.34 kg/m², in folds on the wall (Bies et al. 2017, Table 6.2). Range: 5 rows \
                 of Bies et al. 2017, Vorländer 2008 and Olson 1967, from flat on the wall to 90 mm before it.",
    },
    Finish {
        id: "curtain-medium",
        name: "Curtain, medium",
        typical: [0.07, 0.31, 0.49, 0.75, 0.7, 0.6],
        low: [0.03, 0.07, 0.13, 0.22, 0.32, 0.35],
        high: [0.07, 0.37, 0.49, 0.81, 0.7, 0.6],
        scattering_low: CURTAIN,
        scattering: CURTAIN,
        suits: "wall window opening",
        source: "Typical: velour 0.475 kg/m², draped to half its area (Cox & D'Antonio 2017, Appendix A, after \
                 Beranek 1954; the same in four more books). Range: 5 rows of the same, from flat to half its area.",
    },
    Finish {
        id: "curtain-heavy",
        name: "Curtain, heavy",
        typical: [0.14, 0.35, 0.55, 0.72, 0.7, 0.65],
        low: [0.05, 0.12, 0.35, 0.48, 0.38, 0.36],
        high: [0.3, 0.6, 0.98, 1.0, 1.0, 1.0],
        scattering_low: CURTAIN,
        scattering: CURTAIN,
        suits: "wall window opening",
        source: "Typical: velour 0.61 kg/m², draped to half its area (Bies et al. 2017, Table 6.2; the same in three \
                 more books). Range: 5 rows of Bies et al. 2017, Cox & D'Antonio 2017, Olson 1967 and Vorländer 2008, \
                 from flat to deep folds 150 mm before the wall.",
    },
    Finish {
        id: "open-archway",
        name: "Open archway to another room",
        typical: [0.99, 0.99, 0.99, 0.99, 0.99, 0.99],
        low: [0.7, 0.7, 0.7, 0.7, 0.7, 0.7],
        high: [1.0, 1.0, 1.0, 1.0, 1.0, 1.0],
        scattering_low: FLAT,
        scattering: FLAT,
        suits: "opening",
        source: "Common practice, no source: what leaves through an opening is gone; a furnished room behind it sends \
                 up to 0.3 of it back.",
    },
    Finish {
        id: "filled-bookshelf",
        name: "Bookshelf, filled",
        typical: [0.2, 0.2, 0.25, 0.3, 0.3, 0.3],
        low: [0.1, 0.1, 0.125, 0.15, 0.15, 0.15],
        high: [0.4, 0.4, 0.5, 0.6, 0.6, 0.6],
        scattering_low: 0.3,
        scattering: 0.5,
        suits: "built-in wall",
        source: "Common practice, no source: no published measurement of a filled bookcase was found. The spread is a \
                 factor of two either way. For comparison: A = V^(2/3) of EN 12354-6 for hard objects gives a shelf \
                 of 1.0 × 0.3 × 2.0 m 0.36 per m² of its front.",
    },
    Finish {
        id: "wardrobe-front",
        name: "Wardrobe front",
        typical: [0.28, 0.22, 0.17, 0.09, 0.1, 0.11],
        low: [0.27, 0.18, 0.08, 0.05, 0.04, 0.03],
        high: [0.6, 0.43, 0.22, 0.17, 0.15, 0.11],
        scattering_low: FLAT,
        scattering: FLAT,
        suits: "built-in wall",
        source: "Common practice, no source: taken as wood panelling over an air space, whose rows are in Cox & \
                 D'Antonio 2017, Vorländer 2008, Long 2014 and Arau-Puchades 1999.",
    },
];
