/**
 * The hatches of the drawing, defined once for the page, and which one a kind of piece wears.
 *
 * @import { Kind, Piece, SurfaceName } from "../model/types.js"
 */
import { html, svg } from "../vendor.js";
import { isRug } from "../model/kinds.js";

/** A porous piece thinner than this is drawn as thin, mm. */
const THIN_BELOW_MM = 40;

/** A data sheet that scatters at least this much is drawn as a scattering piece. */
const SCATTERS_FROM = 0.3;

/** @typedef {"thin"|"thick"|"gap"|"rug"|"corner"|"stand"|"curtain"|"scatter"|"holes"|"slots"|"sheet"} Pattern */

/**
 * @param {Kind} kind
 * @param {SurfaceName} [surface]  where it lies; unknown on the shelf
 * @param {Piece["place"]} [place]
 * @returns {Pattern}
 */
export function patternOf(kind, surface, place) {
  const stands = place && place !== "surface" ? place : kind.stands;
  if (stands === "corner" || stands === "stand" || stands === "curtain") return stands;
  const absorber = kind.absorber;
  if ("scattering" in absorber) return "scatter";
  if (!("layers" in absorber)) return sheetPattern(kind, surface);
  const has = (/** @type {string} */ layer) => absorber.layers.some((one) => layer in one);
  if (has("perforated")) return "holes";
  if (has("slotted")) return "slots";
  if (has("membrane") || has("board")) return "sheet";
  if (absorber.layers.some((layer) => "gap" in layer)) return "gap";
  const thickness_mm = absorber.layers.reduce((sum, layer) => sum + ("porous" in layer ? layer.porous.thickness_mm : 0), 0);
  return thickness_mm < THIN_BELOW_MM ? "thin" : "thick";
}

/**
 * @param {Kind} kind
 * @param {SurfaceName} [surface]
 * @returns {Pattern}
 */
function sheetPattern(kind, surface) {
  if (Math.max(...[kind.scattering ?? 0].flat()) >= SCATTERS_FROM) return "scatter";
  const isThin = (kind.depth_mm ?? 0) < THIN_BELOW_MM;
  if (surface ? surface === "floor" : isRug(kind)) return "rug";
  return isThin ? "thin" : "thick";
}

/**
 * The hatches of pieces: one set takes the colour of the plan in hand, one is that of the shelf, always minium, and one is
 * ink, for today in charts.
 * @param {"k"|"s"|"n"|"p"} set  first letter of their ids
 */
export function pieceHatches(set) {
  return svg`<g class="set-${set}">
    <pattern id="${set}-thin" width="5" height="5" patternUnits="userSpaceOnUse">
      <circle class="pd" cx="1.25" cy="1.25" r=".85" /><circle class="pd" cx="3.75" cy="3.75" r=".85" />
    </pattern>
    <pattern id="${set}-thick" width="6" height="6" patternUnits="userSpaceOnUse">
      <path class="pl" d="M-1 7L7 -1M-1 1L1 -1M5 7L7 5" />
    </pattern>
    <pattern id="${set}-gap" width="6" height="6" patternUnits="userSpaceOnUse">
      <path class="pl" d="M-1 -1L7 7M5 -1L7 1M-1 5L1 7" />
    </pattern>
    <pattern id="${set}-rug" width="8" height="8" patternUnits="userSpaceOnUse"><path class="pl" d="M1 2h3M5 6h3" /></pattern>
    <pattern id="${set}-corner" width="9" height="8" patternUnits="userSpaceOnUse"><path class="pd" d="M1 7L4.5 1.5L8 7z" /></pattern>
    <pattern id="${set}-scatter" width="8" height="6" patternUnits="userSpaceOnUse"><path class="pl" d="M-1 5.5L0 4.5L4 1.5L8 4.5L9 5.5" /></pattern>
    <pattern id="${set}-curtain" width="7" height="16" patternUnits="userSpaceOnUse"><path class="pl" d="M3.5 0Q6 4 3.5 8Q1 12 3.5 16" /></pattern>
    <pattern id="${set}-curtain-lies" width="16" height="7" patternUnits="userSpaceOnUse"><path class="pl" d="M0 3.5Q4 6 8 3.5Q12 1 16 3.5" /></pattern>
    <pattern id="${set}-holes" width="7" height="7" patternUnits="userSpaceOnUse"><circle class="pl" cx="3.5" cy="3.5" r="1.7" /></pattern>
    <pattern id="${set}-slots" width="5" height="8" patternUnits="userSpaceOnUse"><path class="pl" d="M1 0V8M2.6 0V8" /></pattern>
    <pattern id="${set}-sheet" width="10" height="10" patternUnits="userSpaceOnUse"><path class="pl" d="M0 0L10 10M10 0L0 10" /></pattern>
    <pattern id="${set}-stand" width="8" height="8" patternUnits="userSpaceOnUse"><path class="pl" d="M1 7L3 5M5 3L7 1" /></pattern>
  </g>`;
}

/** The definitions; every drawing of the page refers to them. */
export const patterns = html`<svg class="defs" width="0" height="0" aria-hidden="true">
  <defs>
    ${pieceHatches("k")}${pieceHatches("s")}${pieceHatches("n")}
    <pattern id="h-unsure" width="7" height="7" patternUnits="userSpaceOnUse">
      <path class="pu" d="M-1 8L8 -1M-1 1L1 -1M6 8L8 6" />
    </pattern>
    <pattern id="h-cut" width="4" height="4" patternUnits="userSpaceOnUse">
      <path class="pp" d="M-1 5L5 -1M-1 1L1 -1M3 5L5 3" />
    </pattern>
    <pattern id="h-keep" width="6" height="6" patternUnits="userSpaceOnUse">
      <path class="pk" d="M-1 7L7 -1M-1 1L1 -1M5 7L7 5" />
    </pattern>
  </defs>
</svg>`;
