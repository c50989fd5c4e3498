// Exact search for the nearest free place of a rectangle among rectangles. The rectangle shrinks to its low corner and
// every obstacle grows by its size: what is left is a point outside of open rectangles. All in whole ticks of 0.1 mm, so
// that touching and overlapping are told apart exactly.

/**
 * @import { Rect } from "./types.js"
 * @typedef {{u: number, v: number}} Corner  ticks
 * @typedef {{low_u: number, high_u: number, low_v: number, high_v: number}} Block
 *   corners strictly inside are forbidden; the bounds themselves touch
 */

/** A tick is 0.1 mm, the step to which lengths are stored. */
export const TICKS_PER_M = 10000;
/** Far below a tick: takes away what binary fractions add. */
const EPSILON = 1e-3;

/** @param {number} value_m @returns {number} */
export const toTicks = (value_m) => Math.round(value_m * TICKS_PER_M);
/** @param {number} value_m @returns {number} */
export const ticksBelow = (value_m) => Math.floor(value_m * TICKS_PER_M + EPSILON);
/** @param {number} value_m @returns {number} */
export const ticksAbove = (value_m) => Math.ceil(value_m * TICKS_PER_M - EPSILON);
/** @param {number} ticks @returns {number} metres */
export const toMetres = (ticks) => ticks / TICKS_PER_M;

/** An obstacle seen by the low corner of a rectangle of this size. @param {Rect} rect @param {Corner} size ticks @returns {Block} */
export function blockFor(rect, size) {
  return {
    low_u: ticksBelow(rect.u_m) - size.u, high_u: ticksAbove(rect.u_m + rect.width_m),
    low_v: ticksBelow(rect.v_m) - size.v, high_v: ticksAbove(rect.v_m + rect.height_m),
  };
}

/** @param {Block} block @param {Corner} corner @returns {boolean} */
export function forbids(block, corner) {
  return corner.u > block.low_u && corner.u < block.high_u && corner.v > block.low_v && corner.v < block.high_v;
}

/** Whether a free corner lies on the rim of a block. @param {Block} block @param {Corner} corner @returns {boolean} */
export function touches(block, corner) {
  return corner.u >= block.low_u && corner.u <= block.high_u && corner.v >= block.low_v && corner.v <= block.high_v
    && !forbids(block, corner);
}

/**
 * The free corner nearest to the wanted one, within bounds. The nearest point outside of a union of rectangles is the point
 * itself, its projection on an edge, or a crossing of two edges; so all of these are tried, nearest first.
 * @param {Corner} wanted @param {{least: Corner, most: Corner}} bounds @param {readonly Block[]} blocks
 * @param {number} [reach] ticks; how far to look
 * @returns {Corner|null} null if there is none within reach
 */
export function nearestFree(wanted, bounds, blocks, reach = Infinity) {
  if (bounds.most.u < bounds.least.u || bounds.most.v < bounds.least.v) return null;
  const start = clampCorner(wanted, bounds);
  const near = blocks.filter((block) => within(block, start, reach));
  const us = nearestFirst([bounds.least.u, bounds.most.u, ...near.flatMap((b) => [b.low_u, b.high_u])], start.u, bounds.least.u, bounds.most.u);
  const vs = nearestFirst([bounds.least.v, bounds.most.v, ...near.flatMap((b) => [b.low_v, b.high_v])], start.v, bounds.least.v, bounds.most.v);
  /** @type {Corner|null} */
  let best = null;
  let bestSquare = Infinity;
  for (const u of us) {
    const squareU = (u - start.u) ** 2;
    if (squareU >= bestSquare || squareU > reach ** 2) break;
    for (const v of vs) {
      const square = squareU + (v - start.v) ** 2;
      if (square >= bestSquare || square > reach ** 2) break;
      if (near.some((block) => forbids(block, { u, v }))) continue;
      best = { u, v };
      bestSquare = square;
    }
  }
  return best;
}

/** Whether a block forbids or bounds anything within reach. @param {Block} block @param {Corner} start @param {number} reach @returns {boolean} */
function within(block, start, reach) {
  return block.low_u <= start.u + reach && block.high_u >= start.u - reach && block.low_v <= start.v + reach && block.high_v >= start.v - reach;
}

/** @param {Corner} corner @param {{least: Corner, most: Corner}} bounds @returns {Corner} */
export function clampCorner(corner, { least, most }) {
  return { u: Math.min(most.u, Math.max(least.u, corner.u)), v: Math.min(most.v, Math.max(least.v, corner.v)) };
}

/** @param {number[]} values @param {number} start @param {number} least @param {number} most @returns {number[]} */
function nearestFirst(values, start, least, most) {
  const inside = values.filter((value) => value >= least && value <= most);
  return [...new Set([start, ...inside])].sort((a, b) => Math.abs(a - start) - Math.abs(b - start));
}
