/**
 * What a surface is made of, as faintly as a drawing shows it: boards, tiles, the flecks of a carpet.
 *
 * @import { Face } from "./fold.js"
 */
import { nothing, svg } from "../vendor.js";
import { line } from "./draw.js";

const BOARD_M = 0.15;
const TILE_M = 0.6;

/**
 * @param {Face} face
 * @param {string} finish  id in the library
 */
export function finishDrawing(face, finish) {
  if (/board-floor|boards|wood|parquet|laminate/.test(finish)) return svg`<path class="boards" d=${boards(face)} />`;
  if (/tile/.test(finish)) return svg`<path class="boards" d=${boards(face, TILE_M) + seams(face)} />`;
  if (/carpet/.test(finish)) return svg`<path class="flecks" d=${flecks(face)} />`;
  return nothing;
}

/**
 * Lines along v, a board apart.
 * @param {Face} face
 * @param {number} [apart_m]
 */
function boards(face, apart_m = BOARD_M) {
  let path = "";
  for (let u = apart_m; u < face.width_m - 0.01; u += apart_m) path += line(face, [u, 0], [u, face.height_m]);
  return path;
}

/** @param {Face} face */
function seams(face) {
  let path = "";
  for (let v = TILE_M; v < face.height_m - 0.01; v += TILE_M) path += line(face, [0, v], [face.width_m, v]);
  return path;
}

/**
 * Short dashes in staggered rows.
 * @param {Face} face
 */
function flecks(face) {
  const apart_m = 0.3;
  let path = "";
  let row = 0;
  for (let u = apart_m / 2; u < face.width_m; u += apart_m) {
    row += 1;
    for (let v = row % 2 ? 0.1 : 0.25; v + 0.05 < face.height_m; v += apart_m) path += line(face, [u, v], [u, v + 0.05]);
  }
  return path;
}
