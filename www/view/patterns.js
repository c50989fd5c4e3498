/**
 * The hatches of the drawing, defined once for the page, and which one a kind of piece wears.
 *
 * @import { Kind, SurfaceName } from "../model/types.js"
 */
import { html, svg } from "../vendor.js";

/** A porous piece thinner than this is drawn as thin, mm. */
const THIN_BELOW_MM = 40;

/** A flat data-sheet kind at least this wide is taken for a rug on the shelf, m. */
const RUG_FROM_M = 1.2;

/** @typedef {"thin"|"thick"|"gap"|"rug"} Pattern */

/**
 * @param {Kind} kind
 * @param {SurfaceName} [surface]  where it lies; unknown on the shelf
 * @returns {Pattern}
 */
export function patternOf(kind, surface) {
  const absorber = kind.absorber;
  if (!("layers" in absorber)) return sheetPattern(kind, surface);
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
  const isThin = (kind.depth_mm ?? 0) < THIN_BELOW_MM;
  const isRug = surface ? surface === "floor" : isThin && Math.min(kind.width_m, kind.height_m) >= RUG_FROM_M;
  if (isRug) return "rug";
  return isThin ? "thin" : "thick";
}

/**
 * The hatches of pieces: one set takes the colour of the plan in hand, one is that of the shelf, always minium, and one is
 * ink, for today in charts.
 * @param {"k"|"s"|"n"} set  first letter of their ids
 */
function pieceHatches(set) {
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
