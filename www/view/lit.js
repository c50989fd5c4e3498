/**
 * The bounce that is looked at: its way on the drawing, its figures beside the mark, and a sentence below the table.
 *
 * @import { Reflection } from "../model/types.js"
 * @import { Face } from "./fold.js"
 * @import { Scene } from "./scene.js"
 */
import { html, nothing, svg } from "../vendor.js";
import { frequency, length, milliseconds, size } from "../model/format.js";
import { toSurface } from "../model/geometry.js";
import { directDistance, firstBounce, litBounces, wayOf } from "../model/lit.js";
import { spreadOf } from "../model/spread.js";
import { planName, sentence, surfaceName } from "../model/words.js";
import { at, line } from "./draw.js";
import { presenceLevel } from "./levels.js";

/** Words beside a mark need this much, px. */
const LABEL_PX = 168;

/** Marks this far apart stand beside each other, not above each other, px. */
const BESIDE_PX = 16;

/**
 * Ways seen from above on the floor, and square to the surface that they meet: there the way is one straight line, as the
 * mirror image lies right behind the loudspeaker.
 * @param {Scene} scene
 * @param {Face} face
 */
export function litDrawing(scene, face) {
  const bounces = litBounces(scene.shown, scene.state.shows.lit);
  if (bounces.length === 0) return nothing;
  const here = bounces.filter((one) => one.surfaces[0] === face.surface);
  const drawn = face.surface === "floor" ? bounces : here;
  return svg`<g class="lit" aria-hidden="true">${drawn.map((one) => way(scene, face, one))}${here.map((one) => label(scene, face, one, here.filter((other) => other !== one)))}</g>`;
}

/**
 * @param {Scene} scene
 * @param {Face} face
 * @param {Reflection} bounce
 */
function way({ listening }, face, bounce) {
  const [from, point, to] = wayOf(listening, bounce).map((corner) => {
    const { u_m, v_m } = toSurface(face.surface, corner);
    return /** @type {[number, number]} */ ([u_m, v_m]);
  });
  if (!from || !point || !to) return nothing;
  const ends = [at(face, ...from), at(face, ...to)];
  return svg`<path class="lit-way ${bounce.loudspeaker === 0 ? "" : "dash"}" d=${line(face, from, point) + line(face, point, to)} />
    ${ends.map(({ x, y }) => svg`<circle class="lit-end" cx=${x} cy=${y} r="2.6" />`)}`;
}

/**
 * Two lines beside a mark that is alone; one line each, away from each other, where two are lit.
 * @param {Scene} scene
 * @param {Face} face
 * @param {Reflection} bounce
 * @param {Reflection[]} others  lit on the same face
 */
function label(scene, face, bounce, others) {
  const { x, y } = spotOf(face, bounce);
  const isFirst = others.some((other) => spotOf(face, other).x > x + BESIDE_PX);
  const before = isFirst || x + LABEL_PX > scene.fold[face.sheet].width_px;
  const at_x = x + (before ? -14 : 14);
  const lines = [`${milliseconds(bounce.delay_s)} later, ${presenceLevel(bounce)} dB`, ...(others.length === 0 ? [distances(scene, bounce)] : [])];
  return svg`<text class="lit-label" x=${at_x} y=${y - 18 * lines.length + 3} text-anchor=${before ? "end" : "start"}>${lines.map((text, index) => (
    svg`<tspan x=${at_x} dy=${index === 0 ? 0 : 15}>${text}</tspan>`))}</text>`;
}

/**
 * @param {Face} face
 * @param {Reflection} bounce
 */
function spotOf(face, bounce) {
  const { u_m, v_m } = toSurface(face.surface, bounce.points_m[0]);
  return at(face, u_m, v_m);
}

/**
 * @param {Scene} scene
 * @param {Reflection} bounce
 */
function distances({ listening, state }, bounce) {
  const direct_m = directDistance(listening, bounce.loudspeaker) ?? 0;
  return `${length(bounce.distance_m, state.units)}, straight ${length(direct_m, state.units)}`;
}

/** What is said where nothing is looked at. */
const INVITATION = "Point at a mark or a row, or go to it by Tab, to see its way.";

/**
 * Below the table, in a place that is there before anything is looked at.
 * @param {Scene} scene
 */
export function litWords(scene) {
  const bounces = litBounces(scene.shown, scene.state.shows.lit);
  return html`<div class="lit-words">${bounces.length === 0 ? html`<p class="also">${INVITATION}</p>`
    : bounces.map((one) => html`<p>${litSentence(scene, one, bounces.length === 1)}</p>`)}
    ${bounces.length === 0 ? nothing : html`<button type="button" class="word-button" data-show-mark>show it on the drawing</button>`}</div>`;
}

/**
 * "Left wall, left loudspeaker: 3.24 m instead of 2.59 m, so 1.9 ms later; −10 dB with Plan A, −7 dB today. …"
 * @param {Scene} scene
 * @param {Reflection} bounce
 * @param {boolean} whole  with its dip and its spread, where it is the only one
 */
export function litSentence(scene, bounce, whole) {
  const { listening, state, now, plan } = scene;
  const { units } = state;
  const [surface] = bounce.surfaces;
  const direct_m = directDistance(listening, bounce.loudspeaker) ?? 0;
  const today = firstBounce(now, surface, bounce.loudspeaker);
  const level = state.shown > 0 ? `${presenceLevel(bounce)} dB with ${planName(plan.name)}, ${presenceLevel(today)} dB today` : `${presenceLevel(bounce)} dB`;
  return `${markName(bounce)}: ${length(bounce.distance_m, units)} instead of ${length(direct_m, units)}, so ${milliseconds(bounce.delay_s)} later; ${level}.${whole ? `${dip(bounce)}${spread(scene, bounce)}` : ""}`;
}

/** "Left wall, left loudspeaker". @param {Reflection} bounce */
export function markName({ surfaces, loudspeaker }) {
  return `${sentence(surfaceName(surfaces[0]))}, ${loudspeaker === 0 ? "left" : "right"} loudspeaker`;
}

/** @param {Reflection} bounce */
function dip({ dips = [] }) {
  return dips[0] ? ` Alone it would make its first dip at ${frequency(dips[0].frequency_hz)}.` : "";
}

/**
 * @param {Scene} scene
 * @param {Reflection} bounce
 */
function spread({ listening, document, state }, { surfaces, loudspeaker }) {
  const from = listening.loudspeakers[loudspeaker];
  const rect = from && listening.seat ? spreadOf(document.room, surfaces[0], from, listening.seat) : null;
  return rect ? ` Heads and drivers move it within ${size(rect, state.units)}.` : "";
}
