// What a piece takes of the room: its box, the walls that it lies on and those that it stands before.

/**
 * @import { Piece, Rect, Room, Scenario, SurfaceName } from "./types.js"
 * @typedef {{low_m: number[], high_m: number[]}} Box   room axes
 * @typedef {{surface: SurfaceName, rect: Rect}} Covered
 */
import { SURFACES, isWall, kindById, surfaceAxes, toPoint } from "./geometry.js";
import { kindDepth } from "./kinds.js";
import { cornerLeg, edgeWalls, lay, laidRect } from "./laid.js";

/** What only touches does not meet. */
const TOUCHING_M = 1e-6;

/** Where it lies on surfaces: a corner piece on both of its walls, a stand on none. @param {Scenario} document @param {Piece} piece @returns {Covered[]} */
export function coveredBy(document, piece) {
  if (piece.place === "stand") return [];
  const surfaces = piece.place === "corner" ? edgeWalls(piece.edge) : [piece.surface];
  return surfaces.map((surface) => ({ surface, rect: laidRect(document, lay(document, piece, surface)) }));
}

/** @param {Scenario} document @param {Piece} piece @returns {Covered[]} */
export function coveredOfWalls(document, piece) {
  return coveredBy(document, piece).filter(({ surface }) => isWall(surface));
}

/** The box round a piece. @param {Scenario} document @param {Piece} piece @returns {Box} */
export function bodyOf(document, piece) {
  const kind = kindById(document, piece.kit);
  if (piece.place === "stand") {
    const foot = laidRect(document, lay(document, piece));
    return { low_m: [foot.u_m, foot.v_m, 0], high_m: [foot.u_m + foot.width_m, foot.v_m + foot.height_m, piece.z_m + (kind?.height_m ?? 0)] };
  }
  const [{ surface, rect }] = coveredBy(document, piece);
  return boxBefore(document.room, surface, rect, piece.place === "corner" ? cornerLeg(kind) : kind ? kindDepth(kind) : 0);
}

/** The box before a rectangle of a surface, that far into the room. @param {Room} room @param {SurfaceName} surface @param {Rect} rect @param {number} out_m @returns {Box} */
export function boxBefore(room, surface, rect, out_m) {
  const low_m = toPoint(surface, rect.u_m, rect.v_m, room);
  const high_m = toPoint(surface, rect.u_m + rect.width_m, rect.v_m + rect.height_m, room);
  const { u, v } = surfaceAxes(surface);
  const across = ["x", "y", "z"].findIndex((axis) => axis !== u && axis !== v);
  const isFar = surface === "right" || surface === "back" || surface === "ceiling";
  if (isFar) low_m[across] -= out_m; else high_m[across] += out_m;
  return { low_m, high_m };
}

/** Whether two boxes come nearer than this along every axis. @param {Box} a @param {Box} b @param {number} margin_m @returns {boolean} */
export function comesNear(a, b, margin_m) {
  return [0, 1, 2].every((axis) => a.high_m[axis] + margin_m > b.low_m[axis] + TOUCHING_M && b.high_m[axis] + margin_m > a.low_m[axis] + TOUCHING_M);
}

/** The walls that it lies on, or stands before within this. @param {Scenario} document @param {Piece} piece @param {number} within_m @returns {SurfaceName[]} */
export function wallsBehind(document, piece, within_m) {
  if (piece.place !== "stand") return coveredOfWalls(document, piece).map(({ surface }) => surface);
  const { room } = document;
  const body = bodyOf(document, piece);
  const gaps = { left: body.low_m[0], right: room.width_m - body.high_m[0], front: body.low_m[1], back: room.length_m - body.high_m[1], floor: Infinity, ceiling: Infinity };
  return SURFACES.filter((surface) => gaps[surface] <= within_m);
}
