/**
 * A picture of the room from the seat, from the door or from outside, for whoever has to live with it. For looking only:
 * nothing in it can be moved, and nothing is measured off it. Loaded on request, drawn when a gesture is over.
 *
 * Our own projection to SVG and no library for scenes: a few dozen upright boxes need no more than two hundred lines, take the
 * same hatches, line weights, dark and forced colours and print as the rest of the page, and cost 5 KB instead of 150.
 *
 * @import { Look, Reflection, SurfaceName } from "../model/types.js"
 * @import { Camera, Vec } from "../model/camera.js"
 * @import { Side, Solid } from "../model/solids.js"
 * @import { Scene } from "./scene.js"
 */
import { html, nothing, svg } from "../vendor.js";
import { FIRST_LOOK, cameraOf, doorOf, dot, facedSurface, lineSeen, minus, outlineSeen, pictured, seen, turned } from "../model/camera.js";
import { number } from "../model/format.js";
import { SURFACES, kindById, surfaceSize, toPoint } from "../model/geometry.js";
import { wayOf } from "../model/lit.js";
import { INWARD, fromBehind, solidsOf } from "../model/solids.js";
import { surfaceName } from "../model/words.js";
import { px } from "./draw.js";
import { origin } from "./origin.js";
import { patternOf } from "./patterns.js";

const RATIO = 0.62;
const MOST_HEIGHT_PX = 430;
/** A step of a button or an arrow key, and of Shift with it. */
const STEP_DEG = 12;
const FINE_DEG = 3;
const NEARER = 0.8;
/** So many degrees for a pixel of a drag. */
const DRAG_DEG = 0.3;

/** @type {readonly [Look["from"], string][]} */
const PLACES = [["seat", "from the seat"], ["door", "from the door"], ["free", "free, from outside"]];

/**
 * @param {Scene} scene
 * @param {number} width_px
 */
export function roomView(scene, width_px) {
  const look = scene.state.shows.look ?? FIRST_LOOK;
  const height_px = Math.min(MOST_HEIGHT_PX, Math.round(width_px * RATIO));
  const camera = cameraOf(scene.document.room, scene.listening, look, { width_px, height_px });
  const words = reading(scene, camera, look, { width_px, height_px });
  return html`<div class="room-view">${picks(scene, look)}
    <p class="says" role="status">${words}</p>
    <svg class="chart scene" viewBox="${-width_px / 2} ${-height_px / 2} ${width_px} ${height_px}" width=${width_px} height=${height_px}
      role="img" tabindex="0" aria-label="Picture of the room. ${words} Arrows turn it, Page Up and Page Down go nearer and farther, Home starts anew."
      @keydown=${(/** @type {KeyboardEvent} */ event) => byKey(event, scene, look)} @pointerdown=${(/** @type {PointerEvent} */ event) => startTurning(event, scene, look)}>
      <clipPath id="scene-frame"><rect x=${-width_px / 2} y=${-height_px / 2} width=${width_px} height=${height_px} /></clipPath>
      <g clip-path="url(#scene-frame)">${picture(scene, camera, look)}</g>
      <rect class="rim" x=${-width_px / 2} y=${-height_px / 2} width=${width_px} height=${height_px} /></svg>
    ${buttons(scene, look)}${origin("picture", "The picture")}</div>`;
}

/**
 * @param {Scene} scene
 * @param {Look} look
 */
function picks({ dispatch, document, listening }, look) {
  const places = PLACES.filter(([from]) => (from === "seat" ? listening.seat !== undefined : from !== "door" || doorOf(document.room) !== null));
  return html`<p class="picks"><label>Look <select @change=${(/** @type {Event} */ event) => dispatch({ type: "show", shows: {
    look: { ...FIRST_LOOK, from: /** @type {Look["from"]} */ (/** @type {HTMLSelectElement} */ (event.target).value) },
  } })}>${places.map(([from, words]) => html`<option value=${from} .selected=${from === look.from}>${words}</option>`)}</select></label></p>`;
}

/**
 * The way without a drag.
 * @param {Scene} scene
 * @param {Look} look
 */
function buttons({ dispatch }, look) {
  /** @param {string} words @param {Parameters<typeof turned>[1]} by */
  const button = (words, by) => html`<button type="button" class="word-button" @click=${() => dispatch({ type: "show", shows: { look: turned(look, by) } })}>${words}</button>`;
  return html`<div class="view-buttons" role="group" aria-label="Turn the picture">
    ${button("left", { turn_deg: -STEP_DEG })}${button("right", { turn_deg: STEP_DEG })}${button("up", { tilt_deg: STEP_DEG })}${button("down", { tilt_deg: -STEP_DEG })}
    ${button("nearer", { away: NEARER })}${button("farther", { away: 1 / NEARER })}
    <button type="button" class="word-button" @click=${() => dispatch({ type: "show", shows: { look: { ...FIRST_LOOK, from: look.from } } })}>start anew</button></div>`;
}

/**
 * @param {KeyboardEvent} event
 * @param {Scene} scene
 * @param {Look} look
 */
function byKey(event, { dispatch }, look) {
  if (event.ctrlKey || event.metaKey || event.altKey) return;
  const step = event.shiftKey ? FINE_DEG : STEP_DEG;
  /** @type {Record<string, Parameters<typeof turned>[1]>} */
  const turns = {
    ArrowLeft: { turn_deg: -step }, ArrowRight: { turn_deg: step }, ArrowUp: { tilt_deg: step }, ArrowDown: { tilt_deg: -step },
    PageUp: { away: NEARER }, PageDown: { away: 1 / NEARER },
  };
  const by = turns[event.key];
  if (!by && event.key !== "Home") return;
  event.preventDefault();
  dispatch({ type: "show", shows: { look: by ? turned(look, by) : { ...FIRST_LOOK, from: look.from } } });
}

/**
 * Turning by a drag: the room goes with the pointer. A move is drawn with the next frame, however many came.
 * @param {PointerEvent} event
 * @param {Scene} scene
 * @param {Look} look  as it was when the drag began
 */
function startTurning(event, { dispatch }, look) {
  if (event.button !== 0 || !event.isPrimary) return;
  const target = /** @type {SVGElement} */ (event.currentTarget);
  const [x, y] = [event.clientX, event.clientY];
  const way = look.from === "free" ? 1 : -1;
  target.setPointerCapture(event.pointerId);
  /** @param {PointerEvent} move */
  const turn = (move) => dispatch({ type: "show", shows: { look: turned(look, { turn_deg: way * (move.clientX - x) * DRAG_DEG, tilt_deg: -way * (move.clientY - y) * DRAG_DEG }) } });
  /** @param {Event} end */
  const stop = (end) => {
    if (end.type === "pointercancel") dispatch({ type: "show", shows: { look } });
    target.removeEventListener("pointermove", turn);
    for (const type of ["pointerup", "pointercancel"]) target.removeEventListener(type, stop);
  };
  target.addEventListener("pointermove", turn);
  for (const type of ["pointerup", "pointercancel"]) target.addEventListener(type, stop);
}

/**
 * The room's own surfaces first, as all else is before them; ways and marks last, as they must be seen.
 * @param {Scene} scene
 * @param {Camera} camera
 * @param {Look} look
 */
function picture(scene, camera, look) {
  const { document, plan, listening } = scene;
  const shown = SURFACES.filter((surface) => facesEye(document.room, surface, camera));
  const solids = fromBehind(solidsOf(document, plan, listening), camera.eye_m);
  return svg`${shown.map((surface) => svg`<path class="face" d=${pathOf(outlineSeen(camera, corners(scene, surface)))} />${parts(scene, camera, surface)}`)}
    ${solids.map((solid) => solidDrawing(scene, camera, solid, shown))}
    ${ways(scene, camera)}${look.from === "seat" ? nothing : seatMark(scene, camera)}`;
}

/**
 * @param {Scene["document"]["room"]} room
 * @param {SurfaceName} surface
 * @param {Camera} camera
 */
function facesEye(room, surface, camera) {
  return dot(INWARD[surface], minus(camera.eye_m, toPoint(surface, 0, 0, room))) > 0;
}

/**
 * @param {Scene} scene
 * @param {SurfaceName} surface
 * @param {import("../model/types.js").Rect} [rect]  all of the surface without one
 * @returns {Vec[]}
 */
function corners({ document: { room } }, surface, rect) {
  const size = surfaceSize(room, surface);
  const { u_m, v_m, width_m, height_m } = rect ?? { u_m: 0, v_m: 0, width_m: size.u_m, height_m: size.v_m };
  return [[u_m, v_m], [u_m + width_m, v_m], [u_m + width_m, v_m + height_m], [u_m, v_m + height_m]].map(([u, v]) => toPoint(surface, u, v, room));
}

/**
 * @param {Scene} scene
 * @param {Camera} camera
 * @param {SurfaceName} surface
 */
function parts(scene, camera, surface) {
  return (scene.document.room.surfaces[surface].parts ?? []).filter((part) => part.role !== "built-in").map((part) => (
    svg`<path class=${part.role === "window" || part.role === "opening" ? "glass" : "other"} d=${pathOf(outlineSeen(camera, corners(scene, surface, part)))} />`));
}

/**
 * What hangs on a wall that is looked through is a dashed outline.
 * @param {Scene} scene
 * @param {Camera} camera
 * @param {Solid} solid
 * @param {SurfaceName[]} shown
 */
function solidDrawing(scene, camera, solid, shown) {
  const through = solid.surface !== null && !shown.includes(solid.surface);
  const sides = solid.sides.filter((side) => (through ? side.isFront : dot(side.normal, minus(camera.eye_m, side.corners_m[0])) > 0));
  const pattern = solid.what === "piece" ? hatchOf(scene, solid) : "";
  if (!sides.some((side) => outlineSeen(camera, side.corners_m).length > 2)) return nothing;
  return svg`<g class="solid is-${solid.what} ${through ? "is-through" : ""}">${sides.map((side) => sideDrawing(camera, side, through ? "" : pattern))}${
    through ? nothing : signOf(camera, solid, sides)}</g>`;
}

/**
 * @param {Scene} scene
 * @param {Solid} solid
 */
function hatchOf({ document, plan }, { index, name, surface }) {
  const kind = kindById(document, name);
  return kind ? `url(#k-${patternOf(kind, surface ?? undefined, plan.pieces[index]?.place)})` : "";
}

/**
 * @param {Camera} camera
 * @param {Side} side
 * @param {string} hatch
 */
function sideDrawing(camera, side, hatch) {
  const path = pathOf(outlineSeen(camera, side.corners_m));
  if (!path) return nothing;
  return svg`<path class="flank" d=${path} />${side.isFront && hatch ? svg`<path class="hatch" fill=${hatch} d=${path} />` : nothing}`;
}

/**
 * The number of a piece, the sign of a loudspeaker, on the side that faces the eye.
 * @param {Camera} camera
 * @param {Solid} solid
 * @param {Side[]} sides
 */
function signOf(camera, { what, index }, sides) {
  const side = sides.find(({ isFront }) => isFront) ?? (what === "piece" ? sides[0] : undefined);
  if (!side) return nothing;
  const middle = /** @type {Vec} */ ([0, 1, 2].map((axis) => side.corners_m.reduce((sum, corner) => sum + corner[axis], 0) / side.corners_m.length));
  const at = seen(camera, middle);
  if (at[2] < 0.3) return nothing;
  const { x, y } = pictured(camera, at);
  if (what === "loudspeaker") return svg`<g transform="translate(${px(x)} ${px(y)})">${index === 0 ? svg`<circle class="sign-shape" r="4.6" />` : svg`<path class="sign-shape" d="M0 -5.4l5.4 5.4l-5.4 5.4l-5.4 -5.4z" />`}</g>`;
  return what === "piece" ? svg`<rect class="tag" x=${px(x - 8)} y=${px(y - 8)} width="16" height="16" /><text class="num" x=${px(x)} y=${px(y + 4.4)} text-anchor="middle">${index + 1}</text>` : nothing;
}

/**
 * First bounces: the ways, and a sign where each meets its surface.
 * @param {Scene} scene
 * @param {Camera} camera
 */
function ways({ shown, listening }, camera) {
  const bounces = (shown?.reflections ?? []).filter((one) => one.order === 1 && one.surfaces.length > 0);
  return svg`<g class="ways">${bounces.map((bounce) => way(wayOf(listening, bounce), bounce, camera))}${bounces.map((bounce) => mark(bounce, camera))}</g>`;
}

/**
 * @param {Vec[]} corners_m
 * @param {Reflection} bounce
 * @param {Camera} camera
 */
function way(corners_m, { loudspeaker }, camera) {
  const legs = corners_m.slice(1).map((to_m, index) => lineSeen(camera, corners_m[index], to_m));
  const path = legs.filter((leg) => leg.length === 2).map(([a, b]) => `M${px(a.x)} ${px(a.y)}L${px(b.x)} ${px(b.y)}`).join("");
  return path ? svg`<path class="path ${loudspeaker === 0 ? "" : "dash"}" d=${path} />` : nothing;
}

/**
 * @param {Reflection} bounce
 * @param {Camera} camera
 */
function mark({ loudspeaker, points_m, delay_s }, camera) {
  const at = seen(camera, points_m[0]);
  if (at[2] < 0.3) return nothing;
  const { x, y } = pictured(camera, at);
  return svg`<g class="mark" transform="translate(${px(x)} ${px(y)})">${loudspeaker === 0 ? svg`<circle class="sign-shape" r="4.4" />` : svg`<path class="sign-shape" d="M0 -5.2l5.2 5.2l-5.2 5.2l-5.2 -5.2z" />`}
    <text class="ms" x="9" y="4">${number(delay_s * 1000, 1)}</text></g>`;
}

/**
 * @param {Scene} scene
 * @param {Camera} camera
 */
function seatMark({ listening: { seat } }, camera) {
  if (!seat) return nothing;
  const at = seen(camera, [seat.x_m, seat.y_m, seat.z_m]);
  if (at[2] < 0.3) return nothing;
  const { x, y } = pictured(camera, at);
  return svg`<circle class="seat-spot" cx=${px(x)} cy=${px(y)} r="6.5" /><circle class="seat-dot" cx=${px(x)} cy=${px(y)} r="2" /><text class="note halo" x=${px(x + 11)} y=${px(y + 4)}>seat</text>`;
}

/** @param {{x: number, y: number}[]} points */
function pathOf(points) {
  return points.length > 2 ? `M${points.map(({ x, y }) => `${px(x)} ${px(y)}`).join("L")}z` : "";
}

/**
 * One sentence: from where, towards what, and how many pieces are in it.
 * @param {Scene} scene
 * @param {Camera} camera
 * @param {Look} look
 * @param {{width_px: number, height_px: number}} frame
 */
function reading({ document, plan, listening }, camera, look, frame) {
  const pieces = solidsOf(document, plan, listening).filter((solid) => solid.what === "piece");
  const inView = pieces.filter((solid) => isInView(camera, solid, frame)).length;
  const from = look.from === "seat" ? "From the seat" : look.from === "door" ? "From the door" : "From outside";
  const count = pieces.length === 0 ? "no piece is in the plan" : `${inView === pieces.length ? `all ${pieces.length}` : `${inView} of ${pieces.length}`} pieces are in view`;
  return `${from}, towards the ${surfaceName(facedSurface(camera))}: ${count}.`;
}

/**
 * @param {Camera} camera
 * @param {Solid} solid
 * @param {{width_px: number, height_px: number}} frame
 */
function isInView(camera, { least_m, most_m }, { width_px, height_px }) {
  const at = seen(camera, /** @type {Vec} */ (least_m.map((low, axis) => (low + most_m[axis]) / 2)));
  if (at[2] < 0.1) return false;
  const { x, y } = pictured(camera, at);
  return Math.abs(x) <= width_px / 2 && Math.abs(y) <= height_px / 2;
}
