/**
 * Bounce marks: where sound of a loudspeaker meets a surface on its way to the seat. Ring left, diamond right.
 *
 * @import { PlanReport, Reflection, SurfaceName } from "../model/types.js"
 * @import { Face } from "./fold.js"
 * @import { Spot } from "./draw.js"
 */
import { svg } from "../vendor.js";
import { number } from "../model/format.js";
import { isWall, toSurface } from "../model/geometry.js";
import { at } from "./draw.js";

/** Marks nearer than this would write over each other, px. */
const CROWDED_PX = 36;

/** @typedef {{sign: number, spot: Spot, text: string}} Mark */

/**
 * @param {Face} face
 * @param {PlanReport|null} report
 */
export function bounceMarks(face, report) {
  const marks = marksOn(face, report);
  return svg`<g class="marks" aria-hidden="true">${marks.map((mark, index) => markDrawing(mark, face, isCrowded(marks, index)))}</g>`;
}

/**
 * @param {Face} face
 * @param {PlanReport|null} report
 * @returns {Mark[]}
 */
export function marksOn(face, report) {
  return (report?.reflections ?? []).filter((one) => isFirstOff(one, face.surface)).map((one) => {
    const { u_m, v_m } = toSurface(face.surface, one.points_m[0]);
    return { sign: one.loudspeaker, spot: at(face, u_m, v_m), text: number(one.delay_s * 1000, 1) };
  });
}

/**
 * @param {Reflection} reflection
 * @param {SurfaceName} surface
 */
function isFirstOff(reflection, surface) {
  return reflection.order === 1 && reflection.surfaces[0] === surface && reflection.points_m.length > 0;
}

/**
 * Whether an earlier mark is so near that this one's figure goes to the other side.
 * @param {Mark[]} marks
 * @param {number} index
 */
function isCrowded(marks, index) {
  const { spot } = marks[index];
  return marks.slice(0, index).some((other) => Math.abs(other.spot.x - spot.x) < CROWDED_PX && Math.abs(other.spot.y - spot.y) < CROWDED_PX / 2);
}

/**
 * @param {Mark} mark
 * @param {Face} face
 * @param {boolean} crowded
 */
function markDrawing(mark, face, crowded) {
  const { x, y } = mark.spot;
  const text = textSpot(face, crowded);
  return svg`<g class="mark" transform="translate(${x} ${y})">
    ${mark.sign === 0 ? svg`<circle r="5.2" />` : svg`<path d="M0 -6.2l6.2 6.2l-6.2 6.2l-6.2 -6.2z" />`}
    <path class="cross" d="M-8.7 0h17.4M0 -8.7v17.4" />
    <text class="ms" x=${text.x} y=${text.y} text-anchor=${text.anchor}>${mark.text}</text></g>`;
}

/**
 * @param {Face} face
 * @param {boolean} crowded
 * @returns {{x: number, y: number, anchor: "start"|"middle"|"end"}}
 */
function textSpot(face, crowded) {
  const above = { x: 0, y: -12, anchor: /** @type {const} */ ("middle") };
  const below = { x: 0, y: 20, anchor: /** @type {const} */ ("middle") };
  if (face.side === "bottom") return crowded ? below : above;
  if (face.side === "top" || (face.side === "alone" && isWall(face.surface))) return crowded ? above : below;
  const before = face.side === "after" ? !crowded : crowded;
  return before ? { x: -12, y: 4, anchor: "end" } : { x: 12, y: 4, anchor: "start" };
}

/** The sign of a loudspeaker with its path, for keys and tables. @param {number} loudspeaker */
export function signWithPath(loudspeaker) {
  return svg`<path class="path ${loudspeaker === 0 ? "" : "dash"}" d="M0 9h36" />
    <g class="mark" transform="translate(18 9)">
      ${loudspeaker === 0 ? svg`<circle r="5.2" />` : svg`<path d="M0 -6.2l6.2 6.2l-6.2 6.2l-6.2 -6.2z" />`}
      <path class="cross" d="M-8.7 0h17.4M0 -8.7v17.4" /></g>`;
}
