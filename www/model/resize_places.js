// Resizing what does not hang flat on a surface: a corner piece on one of its walls, a screen on the floor plan.

/**
 * @import { Kind, Scenario } from "./types.js"
 * @import { Laid } from "./laid.js"
 * @import { CornerName, Resized } from "./resize.js"
 * @import { SnapOptions } from "./snap.js"
 */
import { kindById } from "./geometry.js";
import { resizedKind } from "./kinds.js";
import { edgeWalls, lay, laidRect } from "./laid.js";
import { MOST } from "./limits.js";
import { place } from "./placing.js";
import { withPiece } from "./sheet.js";

const GRID_M = Object.freeze({ metric: 0.05, imperial: 0.0508 });
/** What a resized piece may be shifted by to lie on the stored step, m. */
const ROUNDING_M = 2e-4;

/**
 * A corner piece: its upper and lower ends go up and down, the side away from the edge makes its face wider.
 * @param {Scenario} base @param {number} planIndex @param {number} index @param {Laid & {place: "corner", edge: string}} from
 * @param {CornerName} corner @param {{u_m: number, v_m: number}} wanted @param {SnapOptions} options @returns {Resized}
 */
export function resizeCorner(base, planIndex, index, from, corner, wanted, options) {
  const kind = kindById(base, from.kit);
  if (!kind) return refused(base, from, "its kind is missing");
  const rect = laidRect(base, from);
  const onGrid = gridder(options);
  const isFar = ["right", "back"].includes(edgeWalls(from.edge).find((wall) => wall !== from.surface) ?? "");
  const leg_m = isFar === (corner[0] === "-") ? Math.abs(onGrid(wanted.u_m) - (isFar ? rect.u_m + rect.width_m : 0)) : rect.width_m;
  const fixed_m = corner[1] === "+" ? rect.v_m : rect.v_m + rect.height_m;
  const height_m = Math.max(0, corner[1] === "+" ? onGrid(wanted.v_m) - fixed_m : fixed_m - onGrid(wanted.v_m));
  const low_m = (/** @type {number} */ made_m) => (corner[1] === "+" ? fixed_m : fixed_m - made_m);
  const width_m = leg_m === rect.width_m ? kind.width_m : leg_m * Math.SQRT2;
  return remade(base, planIndex, index, from, { width_m, height_m }, (made) => lay(made.document, {
    kit: made.kind.id, place: "corner", edge: from.edge, z_m: rounded(low_m(made.kind.height_m)),
  }, from.surface), options);
}

/**
 * A screen seen from above: the end that is taken hold of goes along its length, the other end stays.
 * @param {Scenario} base @param {number} planIndex @param {number} index @param {Laid & {place: "stand", x_m: number, y_m: number, z_m: number, turn_deg: number}} from
 * @param {CornerName} corner @param {{u_m: number, v_m: number}} wanted @param {SnapOptions} options @returns {Resized}
 */
export function resizeStand(base, planIndex, index, from, corner, wanted, options) {
  const kind = kindById(base, from.kit);
  if (!kind) return refused(base, from, "its kind is missing");
  const turn = (from.turn_deg * Math.PI) / 180;
  const sign = corner[0] === "+" ? 1 : -1;
  const axis = { x: sign * Math.cos(turn), y: sign * Math.sin(turn) };
  const fixed = { x_m: from.x_m - axis.x * (kind.width_m / 2), y_m: from.y_m - axis.y * (kind.width_m / 2) };
  const along_m = (wanted.u_m - fixed.x_m) * axis.x + (wanted.v_m - fixed.y_m) * axis.y;
  const size = { width_m: gridder(options)(along_m), height_m: kind.height_m };
  return remade(base, planIndex, index, from, size, (made) => lay(made.document, {
    kit: made.kind.id, place: "stand", z_m: from.z_m, turn_deg: from.turn_deg,
    x_m: rounded(fixed.x_m + axis.x * (made.kind.width_m / 2)), y_m: rounded(fixed.y_m + axis.y * (made.kind.width_m / 2)),
  }), options);
}

/**
 * The piece with a variant of its kind, if that has its place; otherwise it stays as it was.
 * @param {Scenario} base @param {number} planIndex @param {number} index @param {Laid} from @param {{width_m: number, height_m: number}} size
 * @param {(made: {document: Scenario, kind: Kind}) => Laid} layAnew @param {SnapOptions} options @returns {Resized}
 */
function remade(base, planIndex, index, from, size, layAnew, options) {
  const old = kindById(base, from.kit);
  const resized = old && resizedKind(base, old, size);
  if (!resized) return refused(base, from, `at most ${MOST.kinds} kinds of piece in one document`);
  const kind = kindById(resized.document, resized.id);
  if (!kind) return refused(base, from, "its kind is missing");
  const piece = layAnew({ document: resized.document, kind });
  const placed = place(resized.document, planIndex, piece, index, piece, { tolerance_m: 0, units: options.units });
  const stays = placed.legal && Math.abs(placed.piece.u_m - piece.u_m) <= ROUNDING_M && Math.abs(placed.piece.v_m - piece.v_m) <= ROUNDING_M;
  if (!stays) return { document: base, piece: from, legal: true, reason: placed.reason ?? "no room for another size here", guides: [] };
  return { document: withPiece(resized.document, planIndex, index, piece), piece, legal: true, reason: null, guides: [] };
}

/** @param {Scenario} document @param {Laid} piece @param {string} reason @returns {Resized} */
function refused(document, piece, reason) {
  return { document, piece, legal: false, reason, guides: [] };
}

/** Holds at the grid when it is near. @param {SnapOptions} options @returns {(value_m: number) => number} */
function gridder({ tolerance_m, units = "metric" }) {
  return (value_m) => {
    const grid_m = Math.round(value_m / GRID_M[units]) * GRID_M[units];
    return Math.abs(grid_m - value_m) <= tolerance_m ? grid_m : value_m;
  };
}

/** @param {number} value_m @returns {number} */
function rounded(value_m) {
  return Math.round(value_m * 1e4) / 1e4;
}
