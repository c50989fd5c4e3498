// The nearest free place of a rectangle among others, for what belongs to the room itself; and pieces that must make way for it.

/**
 * @import { Piece, Rect, Scenario, SurfaceName } from "./types.js"
 * @import { Tally } from "./refit.js"
 */
import { lay, stored } from "./laid.js";
import { place } from "./placing.js";
import { withPieces, withPlan } from "./sheet.js";
import { blockFor, clampCorner, nearestFree, ticksAbove, ticksBelow, toMetres, toTicks } from "./space.js";

/** Less than this is nothing of a door, a zone or a piece of furniture. */
const LEAST_SIDE_M = 0.05;

/** @param {number} value_m @param {number} least_m @param {number} most_m @returns {number} to 0.1 mm */
function bounded(value_m, least_m, most_m) {
  return Math.round(Math.min(most_m, Math.max(least_m, value_m)) * 1e4) / 1e4;
}

/** Trimmed to its surface and moved onto it. @param {Rect} rect @param {{u_m: number, v_m: number}} size of the surface @returns {Rect} */
export function onto(rect, size) {
  const width_m = bounded(rect.width_m, LEAST_SIDE_M, size.u_m);
  const height_m = bounded(rect.height_m, LEAST_SIDE_M, size.v_m);
  return { width_m, height_m, u_m: bounded(rect.u_m, 0, size.u_m - width_m), v_m: bounded(rect.v_m, 0, size.v_m - height_m) };
}

/**
 * The rectangle where it overlaps none of the others, as near as can be.
 * @param {Rect} rect on the surface @param {{u_m: number, v_m: number}} size of the surface @param {Rect[]} others @returns {Rect|null}
 */
export function freeOf(rect, size, others) {
  const ticks = { u: ticksAbove(rect.width_m), v: ticksAbove(rect.height_m) };
  const bounds = { least: { u: 0, v: 0 }, most: { u: ticksBelow(size.u_m) - ticks.u, v: ticksBelow(size.v_m) - ticks.v } };
  const start = clampCorner({ u: toTicks(rect.u_m), v: toTicks(rect.v_m) }, bounds);
  const free = nearestFree(start, bounds, others.map((other) => blockFor(other, ticks)));
  return free && { ...rect, u_m: toMetres(free.u), v_m: toMetres(free.v) };
}

/**
 * Pieces of all plans that are in the way go to the nearest legal place, or are taken away where there is none.
 * @param {Scenario} document @param {(piece: Piece) => boolean} inTheWay @param {SurfaceName} surface  where a corner piece is looked for first
 * @returns {{document: Scenario, tally: Tally}}
 */
export function clearAway(document, inTheWay, surface) {
  const tally = { trimmed: 0, moved: 0, removed: 0 };
  let cleared = document;
  for (const [planIndex, plan] of document.plans.entries()) {
    if (!plan.pieces.some(inTheWay)) continue;
    cleared = withPieces(cleared, planIndex, plan.pieces.filter((piece) => !inTheWay(piece)));
    for (const piece of plan.pieces.filter(inTheWay)) cleared = movedAside(cleared, planIndex, piece, surface, tally);
  }
  return { document: cleared, tally };
}

/** @param {Scenario} document @param {number} planIndex @param {Piece} piece @param {SurfaceName} surface @param {Tally} tally @returns {Scenario} */
function movedAside(document, planIndex, piece, surface, tally) {
  const laid = lay(document, piece, surface);
  const placed = place(document, planIndex, laid, null, laid, { tolerance_m: 0 });
  tally[placed.legal ? "moved" : "removed"] += 1;
  if (!placed.legal) return document;
  const plan = document.plans[planIndex];
  return withPlan(document, planIndex, { ...plan, pieces: [...plan.pieces, stored(document, placed.piece)] });
}
