/**
 * A surface as it is faced, with its openings, zones, limits and pieces, and running measures from the named corner. A surface
 * too long for its width is drawn in parts that overlap.
 *
 * @import { HangItem } from "../../model/hang.js"
 * @import { SurfaceName } from "../../model/types.js"
 * @import { Face } from "../fold.js"
 * @import { Scene } from "../scene.js"
 */
import { html, nothing, svg } from "../../vendor.js";
import { surfaceSize } from "../../model/geometry.js";
import { alsoSeen, measuredFrom } from "../../model/hang.js";
import { bounceMarks } from "../../model/marks.js";
import { at, boxOf, faceBox, middle } from "../draw.js";
import { listeners, standing } from "../floorplan.js";
import { patternOf } from "../patterns.js";
import { body } from "../piece.js";
import { surfaceDrawing } from "../surface.js";
import { runningMeasures } from "./running.js";

/** Width of the text of a page, and what the figures beside a drawing take, px. */
const WIDTH_PX = 640;
const BESIDE_PX = 96;
const TOP_PX = 8;
const LEAST_PX_PER_M = 30;
/** A surface is drawn lower only while a piece 0.5 m wide has room for its number. */
const LOWER_PX_PER_M = 45;
const MOST_HIGH_PX = 240;
const OVERLAP_M = 0.5;
/** A mark this near to the middle of a piece covers its number, px. */
const COVERS_PX = 18;

/**
 * @param {Scene} scene
 * @param {SurfaceName} surface
 * @param {HangItem[]} items
 * @param {number} wanted_px  how high at most, if its pieces can still be read
 */
export function elevation(scene, surface, items, wanted_px) {
  const size = surfaceSize(scene.document.room, surface);
  const high_px = Math.min(MOST_HIGH_PX, Math.max(wanted_px, size.v_m * LOWER_PX_PER_M));
  return partsOf(size.u_m, WIDTH_PX - BESIDE_PX).map((span, index, spans) => {
    const face = faceOf(surface, size, span, { width_px: WIDTH_PX - BESIDE_PX, height_px: high_px, beside_px: BESIDE_PX });
    return drawing(scene, face, span, items, spans.length > 1 ? `part ${index + 1} of ${spans.length}` : "");
  });
}

/**
 * Without measures, smaller: for the sheet with nothing to hang.
 * @param {Scene} scene
 * @param {SurfaceName} surface
 * @param {{width_px: number, height_px: number}} space
 */
export function smallElevation(scene, surface, { width_px, height_px }) {
  const size = surfaceSize(scene.document.room, surface);
  const face = faceOf(surface, size, { from_m: 0, to_m: size.u_m }, { width_px: width_px - 4, height_px: height_px - TOP_PX - 4, beside_px: 2 });
  const box = faceBox(face);
  return html`<svg class="elevation" viewBox="0 0 ${width_px} ${box.y + box.height + 4}" width=${width_px} height=${box.y + box.height + 4} aria-hidden="true">
    ${surfaceDrawing(face, scene.document, scene.library, scene.state.units)}${marks(scene, face)}</svg>`;
}

/**
 * @param {number} across_m
 * @param {number} room_px
 * @returns {{from_m: number, to_m: number}[]}
 */
function partsOf(across_m, room_px) {
  const count = Math.max(1, Math.ceil((across_m * LEAST_PX_PER_M) / room_px));
  const each_m = across_m / count;
  return Array.from({ length: count }, (_, index) => ({
    from_m: Math.max(0, index * each_m - (index > 0 ? OVERLAP_M / 2 : 0)), to_m: Math.min(across_m, (index + 1) * each_m + (index < count - 1 ? OVERLAP_M / 2 : 0)),
  }));
}

/**
 * Facing the left or the back wall its corner is at the right; floor and ceiling have the front wall on top.
 * @param {SurfaceName} surface
 * @param {{u_m: number, v_m: number}} size
 * @param {{from_m: number, to_m: number}} span
 * @param {{width_px: number, height_px: number, beside_px: number}} space
 * @returns {Face}
 */
function faceOf(surface, size, { from_m, to_m }, { width_px, height_px, beside_px }) {
  const s = Math.min(width_px / (to_m - from_m), height_px / size.v_m);
  const flat = surface === "floor" || surface === "ceiling";
  const mirrored = surface === "left" || surface === "back";
  const left = mirrored ? width_px - (to_m - from_m) * s : beside_px;
  return {
    surface, side: surface === "floor" ? "floor" : "alone", sheet: "box", still: true, width_m: size.u_m, height_m: size.v_m, vx: 0, uy: 0,
    x_px: mirrored ? left + to_m * s : left - from_m * s, ux: mirrored ? -s : s,
    y_px: flat ? TOP_PX : TOP_PX + size.v_m * s, vy: flat ? s : -s,
  };
}

/**
 * @param {Scene} scene
 * @param {Face} face
 * @param {{from_m: number, to_m: number}} span
 * @param {HangItem[]} items
 * @param {string} part
 */
function drawing(scene, face, span, items, part) {
  const { document, library, state: { units } } = scene;
  const box = boxOf(face, { u_m: span.from_m, v_m: 0, width_m: span.to_m - span.from_m, height_m: face.height_m });
  const inside = items.filter(({ rect }) => rect.u_m + rect.width_m > span.from_m && rect.u_m < span.to_m);
  const measures = runningMeasures(face, box, inside, span, units);
  const height = box.y + box.height + measures.height_px;
  const also = alsoSeen(document, scene.state.shown, face.surface);
  const spots = marksOn(scene, face).map(({ u_m, v_m }) => at(face, u_m, v_m));
  const clip = `paper-${face.surface}-${Math.round(span.from_m * 100)}`;
  const name = `${measuredFrom(face.surface).along.replace(/^the /, "")}`;
  return html`<figure class="elevation-figure"><svg class="elevation" viewBox="0 0 ${WIDTH_PX} ${height}" width=${WIDTH_PX} height=${height} role="img" aria-label="Elevation; the table has its measures">
    <clipPath id=${clip}><rect x=${box.x - 2} y=${box.y - 2} width=${box.width + 4} height=${box.height + 4} /></clipPath>
    <g clip-path="url(#${clip})">${surfaceDrawing(face, document, library, units)}${windowNames(scene, face)}
      ${face.surface === "floor" ? svg`${standing(face, document, library, units)}${listeners(face, scene.listening, units, null)}` : nothing}
      ${also.map((one) => piece(face, one, spots))}${inside.map((item) => piece(face, item, spots))}
      ${[...also, ...inside].flatMap((item) => item.fixings.map(({ u_m, v_m }) => fixing(at(face, u_m, v_m))))}${marks(scene, face)}</g>
    ${measures.drawing}<text class="corner" x=${face.ux < 0 ? box.x + box.width : box.x} y=${height - 3} text-anchor=${face.ux < 0 ? "end" : "start"}>${name}</text></svg>
    ${part ? html`<figcaption>${part}, with an overlap</figcaption>` : nothing}</figure>`;
}

/**
 * @param {Face} face
 * @param {Pick<HangItem, "index"|"kind"|"piece"|"rect">} item
 * @param {{x: number, y: number}[]} spots  of bounce marks, which would cover its number
 */
function piece(face, { index, kind, piece: { place }, rect }, spots) {
  const box = boxOf(face, rect);
  const covered = spots.some(({ x, y }) => Math.abs(x - middle(box).x) < COVERS_PX && Math.abs(y - middle(box).y) < COVERS_PX);
  const centre = covered ? { x: box.x + 12, y: box.y + box.height - 11 } : middle(box);
  return svg`<g class="piece">${body(box, patternOf(kind, face.surface, place), { set: "p" })}
    <rect class="tag" x=${centre.x - 10} y=${centre.y - 9} width="20" height="18" /><text class="num" x=${centre.x} y=${centre.y + 5} text-anchor="middle">${index + 1}</text></g>`;
}

/** @param {{x: number, y: number}} spot */
function fixing({ x, y }) {
  return svg`<path class="fixing" d="M${x - 4} ${y}h8M${x} ${y - 4}v8" />`;
}

/**
 * A window has no name on the page's own drawing.
 * @param {Scene} scene
 * @param {Face} face
 */
function windowNames({ document }, face) {
  return (document.room.surfaces[face.surface].parts ?? []).filter(({ role }) => role === "window").map((part) => {
    const box = boxOf(face, part);
    return svg`<text class="note halo" x=${middle(box).x} y=${box.y + box.height - 6} text-anchor="middle">window</text>`;
  });
}

/**
 * @param {Scene} scene
 * @param {Face} face
 */
function marksOn({ document, state }, face) {
  return bounceMarks(document, state.shown).filter(({ surface }) => surface === face.surface);
}

/**
 * @param {Scene} scene
 * @param {Face} face
 */
function marks(scene, face) {
  return marksOn(scene, face).map(({ u_m, v_m, loudspeaker }) => {
    const { x, y } = at(face, u_m, v_m);
    return svg`<g class="bounce-mark" transform="translate(${x} ${y})">${loudspeaker === 0 ? svg`<circle r="5.5" />` : svg`<path d="M0 -6.5L6.5 0L0 6.5L-6.5 0z" />`}
      <path class="cross" d="M-9 0H9M0 -9V9" /></g>`;
  });
}
