/**
 * The parts of a surface as they are seen on it: window, door, opening, built-in.
 *
 * @import { Part } from "../model/types.js"
 * @import { Face } from "./fold.js"
 */
import { nothing, svg } from "../vendor.js";
import { boxOf, inset, line, middle } from "./draw.js";

/** Widest pane of a window, m. */
const PANE_M = 0.9;

/** A frame or a panel moulding, px. */
const FRAME_PX = 3;

/**
 * @param {Face} face
 * @param {Part} part
 * @param {string} name  what is written on it
 */
export function partDrawing(face, part, name) {
  const box = boxOf(face, part);
  return svg`<g class="part part-${part.role}">
    <rect class=${outlineClass(part)} x=${box.x} y=${box.y} width=${box.width} height=${box.height} />
    ${inside(face, part)}
    ${label(face, box, name)}
  </g>`;
}

/** @param {Part} part */
function outlineClass(part) {
  if (part.role === "window") return "glass";
  if (part.role === "opening") return "open";
  return part.role === "wall" ? "other" : "out face";
}

/**
 * @param {Face} face
 * @param {Part} part
 */
function inside(face, part) {
  if (part.role === "window") return svg`<path class="thin" d=${panes(face, part)} />${frame(face, part)}`;
  if (part.role === "door") return svg`${frame(face, part)}<path class="thin" d=${handle(face, part)} />`;
  if (part.role === "opening") return svg`<path class="hair" d=${cross(face, part)} />`;
  return part.role === "built-in" ? svg`<path class="hair" d=${shelves(face, part)} />` : nothing;
}

/**
 * @param {Face} face
 * @param {Part} part
 */
function frame(face, part) {
  const box = inset(boxOf(face, part), FRAME_PX);
  return svg`<rect class="thin" x=${box.x} y=${box.y} width=${box.width} height=${box.height} />`;
}

/**
 * Mullions, and a transom a third below the head.
 * @param {Face} face
 * @param {Part} part
 */
function panes(face, part) {
  const count = Math.max(1, Math.round(part.width_m / PANE_M));
  const top_m = part.v_m + part.height_m;
  let path = line(face, [part.u_m, top_m - part.height_m * 0.35], [part.u_m + part.width_m, top_m - part.height_m * 0.35]);
  for (let i = 1; i < count; i += 1) {
    const u = part.u_m + (part.width_m * i) / count;
    path += line(face, [u, part.v_m], [u, top_m]);
  }
  return path;
}

/**
 * @param {Face} face
 * @param {Part} part
 */
function handle(face, part) {
  const v = part.v_m + Math.min(1.05, part.height_m / 2);
  const u = part.u_m + part.width_m;
  return line(face, [u - 0.2, v], [u - 0.1, v]);
}

/**
 * @param {Face} face
 * @param {Part} part
 */
export function cross(face, part) {
  const [u, v] = [part.u_m + part.width_m, part.v_m + part.height_m];
  return line(face, [part.u_m, part.v_m], [u, v]) + line(face, [part.u_m, v], [u, part.v_m]);
}

/**
 * Shelves for what is as deep as books; a chimney breast or a cupboard stays blank.
 * @param {Face} face
 * @param {Part} part
 */
function shelves(face, part) {
  if (!/book|shel/.test(part.finish)) return "";
  const count = Math.max(1, Math.round(part.height_m / 0.33));
  let path = "";
  for (let i = 1; i < count; i += 1) {
    const v = part.v_m + (part.height_m * i) / count;
    path += line(face, [part.u_m, v], [part.u_m + part.width_m, v]);
  }
  return path;
}

/**
 * A name only where it fits, at the edge where bounce marks seldom are.
 * @param {Face} face
 * @param {import("./draw.js").Box} box
 * @param {string} name
 */
function label(face, box, name) {
  if (!name || box.height < 20 || box.width < name.length * 6) return nothing;
  const y = face.side === "top" || face.side === "alone" ? box.y + Math.min(20, box.height / 2 + 4) : box.y + box.height - 8;
  return svg`<text class="note halo" x=${middle(box).x} y=${y} text-anchor="middle">${name}</text>`;
}
