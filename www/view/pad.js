/**
 * Four arrows that move something as they point on the drawing: the way without a drag.
 *
 * @import { Units } from "../model/format.js"
 * @import { Face } from "./fold.js"
 */
import { html, svg } from "../vendor.js";

const ARROWS = /** @type {const} */ ([
  { name: "left", path: "M13 8H3M7 4L3 8l4 4", x: -1, y: 0 },
  { name: "right", path: "M3 8h10M9 4l4 4l-4 4", x: 1, y: 0 },
  { name: "up", path: "M8 13V3M4 7l4 -4l4 4", x: 0, y: -1 },
  { name: "down", path: "M8 3v10M4 9l4 4l4 -4", x: 0, y: 1 },
]);

/** Plain and with Shift, m. */
const STEP_M = Object.freeze({ metric: [0.01, 0.1], imperial: [0.0127, 0.1016] });

/**
 * @param {Units} units
 * @param {Face|undefined} face  the one that it moves on; without one it stands upright
 * @param {(du_m: number, dv_m: number) => void} step
 */
export function nudgePad(units, face, step) {
  const says = units === "imperial" ? "1/2 in, with Shift 4 in" : "1 cm, with Shift 10 cm";
  return html`<div class="pad" role="group" aria-label="Nudge by ${says}">${ARROWS.map((arrow) => html`<button type="button" aria-label=${arrow.name}
    @click=${(/** @type {MouseEvent} */ event) => step(...along(arrow, face, STEP_M[units][event.shiftKey ? 1 : 0]))}>
    <svg width="16" height="16" aria-hidden="true">${svg`<path d=${arrow.path} />`}</svg></button>`)}</div>`;
}

/**
 * @param {{x: number, y: number}} arrow
 * @param {Face|undefined} face
 * @param {number} step_m
 * @returns {[number, number]} metres along u and v
 */
function along(arrow, face, step_m) {
  if (!face) return [arrow.x * step_m, -arrow.y * step_m];
  const size = Math.hypot(face.ux, face.uy) || 1;
  return [((arrow.x * face.ux + arrow.y * face.uy) / size) * step_m, ((arrow.x * face.vx + arrow.y * face.vy) / size) * step_m];
}
