/**
 * Bounce marks: where sound of a loudspeaker meets a surface on its way to the seat. Ring left, diamond right. The small box
 * round a mark is how far it wanders over the seat, the heads and the drivers.
 *
 * @import { Listening, Lit, PlanReport, Reflection, Room, SurfaceName } from "../model/types.js"
 * @import { Face } from "./fold.js"
 * @import { Box, Spot } from "./draw.js"
 */
import { nothing, svg } from "../vendor.js";
import { number } from "../model/format.js";
import { isWall, toSurface } from "../model/geometry.js";
import { isLit, litText } from "../model/lit.js";
import { spreadOf } from "../model/spread.js";
import { surfaceName } from "../model/words.js";
import { at, boxOf } from "./draw.js";
import { presenceLevel } from "./levels.js";

/** Marks nearer than this would write over each other, px. */
const CROWDED_PX = 36;

/** @typedef {{sign: number, spot: Spot, text: string, bounce: Reflection}} Mark */

/**
 * The marks of a surface. The pointer goes through them to the piece below; what it is near to is found by place.
 * @param {Face} face
 * @param {{shown: PlanReport|null, document: {room: Room}, listening: Listening, state: {shows: {lit?: Lit|null}}}} scene
 * @param {boolean} stop  whether the first one is reached by Tab; the others by arrows
 */
export function bounceMarks(face, { shown, document, listening, state }, stop) {
  const marks = marksOn(face, shown);
  const { lit } = state.shows;
  return svg`<g class="marks" role="group" aria-label="Bounce marks, ${surfaceName(face.surface)}">${marks.map((mark, index) => {
    const chosen = isLit(lit, face.surface, mark.sign);
    return svg`${spreadBox(face, document.room, listening, mark.sign)}
      ${markDrawing(mark, face, { crowded: isCrowded(marks, index), chosen, tabbable: chosen || (stop && index === 0) })}`;
  })}</g>`;
}

/**
 * @param {Face} face
 * @param {Room} room
 * @param {Listening} listening
 * @param {number} loudspeaker
 */
function spreadBox(face, room, { loudspeakers, seat }, loudspeaker) {
  const from = loudspeakers[loudspeaker];
  const rect = from && seat ? spreadOf(room, face.surface, from, seat) : null;
  if (!rect) return nothing;
  /** @type {Box} */
  const box = boxOf(face, rect);
  return svg`<rect class="wander" x=${box.x} y=${box.y} width=${box.width} height=${box.height} />`;
}

/**
 * @param {Face} face
 * @param {PlanReport|null} report
 * @returns {Mark[]}
 */
export function marksOn(face, report) {
  return (report?.reflections ?? []).filter((one) => isFirstOff(one, face.surface)).map((one) => {
    const { u_m, v_m } = toSurface(face.surface, one.points_m[0]);
    return { sign: one.loudspeaker, spot: at(face, u_m, v_m), text: number(one.delay_s * 1000, 1), bounce: one };
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
 * @param {{crowded: boolean, chosen: boolean, tabbable: boolean}} look
 */
function markDrawing(mark, face, { crowded, chosen, tabbable }) {
  const { x, y } = mark.spot;
  const text = textSpot(face, crowded);
  return svg`<g class="mark ${chosen ? "is-lit" : ""}" transform="translate(${x} ${y})" role="button" tabindex=${tabbable ? 0 : -1}
    aria-label=${aloud(mark, face.surface)} data-mark=${litText({ surface: face.surface, loudspeaker: mark.sign, by: "focus" })}>
    <rect class="hit" x="-13" y="-13" width="26" height="26" />
    ${sign(mark.sign)}<path class="cross" d="M-8.7 0h17.4M0 -8.7v17.4" />
    <text class="ms" x=${text.x} y=${text.y} text-anchor=${text.anchor}>${mark.text}</text></g>`;
}

/**
 * @param {Mark} mark
 * @param {SurfaceName} surface
 */
function aloud({ sign: loudspeaker, text, bounce }, surface) {
  return `${surfaceName(surface)}, ${loudspeaker === 0 ? "left" : "right"} loudspeaker: ${text} milliseconds later, ${presenceLevel(bounce)} decibels; Enter goes to its row`;
}

/** @param {number} loudspeaker */
function sign(loudspeaker) {
  return loudspeaker === 0 ? svg`<circle class="sign-shape" r="5.2" />` : svg`<path class="sign-shape" d="M0 -6.2l6.2 6.2l-6.2 6.2l-6.2 -6.2z" />`;
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
      ${sign(loudspeaker)}<path class="cross" d="M-8.7 0h17.4M0 -8.7v17.4" /></g>`;
}
