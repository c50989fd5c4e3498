// Frames and rectangles of the six surfaces. Pure, in metres; no mirror images.

/**
 * @import { Kind, Piece, Rect, Room, Scenario, SurfaceName, SurfacePiece } from "./types.js"
 * @typedef {"x"|"y"|"z"} Axis
 */

/** The six surfaces in the order of the scenario. @type {readonly SurfaceName[]} */
export const SURFACES = Object.freeze(["left", "right", "front", "back", "floor", "ceiling"]);

/** @type {Readonly<Record<SurfaceName, {u: Axis, v: Axis}>>} */
const AXES = Object.freeze({
  left: { u: "y", v: "z" }, right: { u: "y", v: "z" },
  front: { u: "x", v: "z" }, back: { u: "x", v: "z" },
  floor: { u: "x", v: "y" }, ceiling: { u: "x", v: "y" },
});

/** @type {Readonly<Record<SurfaceName, SurfaceName>>} */
const OPPOSITE = Object.freeze({
  left: "right", right: "left", front: "back", back: "front", floor: "ceiling", ceiling: "floor",
});

/** A difference in metres that is no difference: far below the 0.1 mm that is stored. */
const TOUCHING_M = 1e-6;

/** The room axes along u and v of a surface. @param {SurfaceName} surface @returns {{u: Axis, v: Axis}} */
export function surfaceAxes(surface) {
  return AXES[surface];
}

/** The surface that faces this one. @param {SurfaceName} surface @returns {SurfaceName} */
export function opposite(surface) {
  return OPPOSITE[surface];
}

/** @param {SurfaceName} surface @returns {boolean} */
export function isWall(surface) {
  return surface !== "floor" && surface !== "ceiling";
}

/** The length of the room along an axis. @param {Room} room @param {Axis} axis @returns {number} metres */
export function roomSide(room, axis) {
  return axis === "x" ? room.width_m : axis === "y" ? room.length_m : room.height_m;
}

/** @param {Room} room @param {SurfaceName} surface @returns {{u_m: number, v_m: number}} */
export function surfaceSize(room, surface) {
  const { u, v } = AXES[surface];
  return { u_m: roomSide(room, u), v_m: roomSide(room, v) };
}

/** @param {Piece} piece @returns {piece is SurfacePiece} */
export function isSurfacePiece(piece) {
  return piece.place === undefined || piece.place === "surface";
}

/** The kind of a piece, or null if the document does not have it. @param {Scenario} document @param {string} id @returns {Kind|null} */
export function kindById(document, id) {
  return document.kit?.find((kind) => kind.id === id) ?? null;
}

/**
 * Width along u and height along v of a kind as it hangs.
 * @param {Kind|null} kind @param {boolean} [turned] swaps the two @returns {{width_m: number, height_m: number}}
 */
export function hungSize(kind, turned) {
  if (!kind) return { width_m: 0, height_m: 0 };
  return turned ? { width_m: kind.height_m, height_m: kind.width_m } : { width_m: kind.width_m, height_m: kind.height_m };
}

/** The rectangle that a piece covers on its surface. @param {Scenario} document @param {SurfacePiece} piece @returns {Rect} */
export function pieceRect(document, piece) {
  return { u_m: piece.u_m, v_m: piece.v_m, ...hungSize(kindById(document, piece.kit), piece.turned) };
}

/** Whether two rectangles share area; touching edges do not. @param {Rect} a @param {Rect} b @returns {boolean} */
export function rectOverlap(a, b) {
  return a.u_m + a.width_m > b.u_m + TOUCHING_M && b.u_m + b.width_m > a.u_m + TOUCHING_M
    && a.v_m + a.height_m > b.v_m + TOUCHING_M && b.v_m + b.height_m > a.v_m + TOUCHING_M;
}

/** Grown by a margin on every side, with square corners. @param {Rect} rect @param {number} margin_m @returns {Rect} */
export function grown(rect, margin_m) {
  return {
    u_m: rect.u_m - margin_m, v_m: rect.v_m - margin_m,
    width_m: rect.width_m + 2 * margin_m, height_m: rect.height_m + 2 * margin_m,
  };
}

/** @param {Rect} rect @returns {{u_m: number, v_m: number}} */
export function rectCentre(rect) {
  return { u_m: rect.u_m + rect.width_m / 2, v_m: rect.v_m + rect.height_m / 2 };
}

/**
 * A point of a surface in room axes.
 * @param {SurfaceName} surface @param {number} u_m @param {number} v_m @param {Room} room
 * @returns {[number, number, number]} x, y, z in metres
 */
export function toPoint(surface, u_m, v_m, room) {
  switch (surface) {
    case "left": return [0, u_m, v_m];
    case "right": return [room.width_m, u_m, v_m];
    case "front": return [u_m, 0, v_m];
    case "back": return [u_m, room.length_m, v_m];
    case "floor": return [u_m, v_m, 0];
    case "ceiling": return [u_m, v_m, room.height_m];
  }
}

/** A point in room axes seen on a surface. @param {SurfaceName} surface @param {readonly number[]} point_m @returns {{u_m: number, v_m: number}} */
export function toSurface(surface, point_m) {
  const index = { x: 0, y: 1, z: 2 };
  const { u, v } = AXES[surface];
  return { u_m: point_m[index[u]], v_m: point_m[index[v]] };
}

/**
 * Distances from a rectangle to the four ends of its surface, in metres: low u, high u, low v, high v.
 * @param {Room} room @param {SurfaceName} surface @param {Rect} rect
 * @returns {{low_u_m: number, high_u_m: number, low_v_m: number, high_v_m: number}}
 */
export function edgeDistances(room, surface, rect) {
  const size = surfaceSize(room, surface);
  return {
    low_u_m: rect.u_m, high_u_m: size.u_m - rect.u_m - rect.width_m,
    low_v_m: rect.v_m, high_v_m: size.v_m - rect.v_m - rect.height_m,
  };
}

/**
 * Free distances from a piece to the next piece, or to the end of the surface, on all four sides; for the live distances.
 * @param {Scenario} document @param {number} planIndex @param {number} index a surface piece of that plan
 * @returns {{low_u_m: number, high_u_m: number, low_v_m: number, high_v_m: number}}
 */
export function freeDistances(document, planIndex, index) {
  const pieces = document.plans[planIndex].pieces;
  const piece = pieces[index];
  if (!piece || !isSurfacePiece(piece)) return { low_u_m: 0, high_u_m: 0, low_v_m: 0, high_v_m: 0 };
  const rect = pieceRect(document, piece);
  const free = edgeDistances(document.room, piece.surface, rect);
  for (const [other, neighbour] of pieces.entries()) {
    if (other === index || !isSurfacePiece(neighbour) || neighbour.surface !== piece.surface) continue;
    shorten(free, rect, pieceRect(document, neighbour));
  }
  return free;
}

/** @param {{low_u_m: number, high_u_m: number, low_v_m: number, high_v_m: number}} free @param {Rect} rect @param {Rect} other */
function shorten(free, rect, other) {
  const gap = {
    low_u: rect.u_m - other.u_m - other.width_m, high_u: other.u_m - rect.u_m - rect.width_m,
    low_v: rect.v_m - other.v_m - other.height_m, high_v: other.v_m - rect.v_m - rect.height_m,
  };
  const beside = Math.max(gap.low_v, gap.high_v) < -TOUCHING_M;
  const above = Math.max(gap.low_u, gap.high_u) < -TOUCHING_M;
  if (beside && gap.low_u > -TOUCHING_M) free.low_u_m = Math.min(free.low_u_m, gap.low_u);
  if (beside && gap.high_u > -TOUCHING_M) free.high_u_m = Math.min(free.high_u_m, gap.high_u);
  if (above && gap.low_v > -TOUCHING_M) free.low_v_m = Math.min(free.low_v_m, gap.low_v);
  if (above && gap.high_v > -TOUCHING_M) free.high_v_m = Math.min(free.high_v_m, gap.high_v);
}
