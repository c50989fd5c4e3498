// The one function that decides where a piece may be: pointer, touch, keyboard and typed numbers all go through it.

/**
 * @import { Guide, Rect, Scenario, SurfacePiece } from "./types.js"
 * @import { Obstacle } from "./obstacles.js"
 * @import { SnapOptions } from "./snap.js"
 * @import { Block, Corner } from "./space.js"
 * @import { Units } from "./format.js"
 * @typedef {{obstacle: Obstacle, block: Block}} Barrier
 * @typedef {object} Placed
 * @property {SurfacePiece} piece     where it goes; as it came if `legal` is false
 * @property {boolean} legal
 * @property {string|null} reason     what it stops at, or why it may not be there
 * @property {Guide[]} guides
 * @property {Rect|null} wanted       where it was wanted, when an obstacle keeps it from there
 */
import { hungSize, kindById, surfaceSize } from "./geometry.js";
import { NEAREST_PLACE_M } from "./limits.js";
import { obstacles } from "./obstacles.js";
import { snap } from "./snap.js";
import { blockFor, clampCorner, forbids, nearestFree, ticksAbove, ticksBelow, TICKS_PER_M, toMetres, toTicks, touches } from "./space.js";
import { surfaceName } from "./words.js";

/** A shift at the rim of a surface that is worth a word. */
const NOTICED_TICKS = 10;

/**
 * Snaps, clamps to the surface, and goes round obstacles to the nearest legal place, if there is one near.
 * @param {Scenario} document          its kit has the piece's kind
 * @param {number} planIndex
 * @param {SurfacePiece} piece         names kind, surface and turn
 * @param {number|null} exceptIndex    the piece's own index if it is in the plan already
 * @param {{u_m: number, v_m: number}} wanted  for its low corner
 * @param {SnapOptions} options        `tolerance_m` 0: no snapping
 * @returns {Placed}
 */
export function place(document, planIndex, piece, exceptIndex, wanted, options) {
  const size = hungSize(kindById(document, piece.kit), piece.turned);
  const snapped = snap(document, planIndex, piece, exceptIndex, { ...wanted, ...size }, options);
  const ticks = { u: ticksAbove(size.width_m), v: ticksAbove(size.height_m) };
  const bounds = { least: { u: 0, v: 0 }, most: mostCorner(document, piece, ticks) };
  if (bounds.most.u < 0 || bounds.most.v < 0) {
    return refused(piece, { ...wanted, ...size }, `larger than the ${surfaceName(piece.surface)}`);
  }
  const asked = { u: toTicks(snapped.u_m), v: toTicks(snapped.v_m) };
  const start = clampCorner(asked, bounds);
  const barriers = barriersFor(document, planIndex, piece, exceptIndex, ticks, options.units);
  const free = nearestFree(start, bounds, barriers.map(({ block }) => block), NEAREST_PLACE_M * TICKS_PER_M);
  const wantedRect = { u_m: toMetres(start.u), v_m: toMetres(start.v), ...size };
  if (!free) return refused(piece, wantedRect, refusal(barriers, start));
  const moved = free.u !== start.u || free.v !== start.v;
  return {
    piece: { ...piece, u_m: toMetres(free.u), v_m: toMetres(free.v) },
    legal: true,
    reason: moved ? stopReason(barriers, start, free) : rimReason(piece, asked, start),
    guides: snapped.guides.filter((guide) => free[guide.axis] === asked[guide.axis]),
    wanted: moved ? wantedRect : null,
  };
}

/**
 * The obstacles of a surface as the piece's low corner meets them.
 * @param {Scenario} document @param {number} planIndex @param {SurfacePiece} piece @param {number|null} exceptIndex
 * @param {Corner} size ticks @param {Units} [units] @returns {Barrier[]}
 */
function barriersFor(document, planIndex, piece, exceptIndex, size, units) {
  const kind = kindById(document, piece.kit);
  return obstacles(document, planIndex, piece.surface, exceptIndex, kind, units)
    .map((obstacle) => ({ obstacle, block: blockFor(obstacle.rect, size) }));
}

/** The largest low corner that keeps the piece on its surface. @param {Scenario} document @param {SurfacePiece} piece @param {Corner} size @returns {Corner} */
function mostCorner(document, piece, size) {
  const surface = surfaceSize(document.room, piece.surface);
  return { u: ticksBelow(surface.u_m) - size.u, v: ticksBelow(surface.v_m) - size.v };
}

/** @param {SurfacePiece} piece @param {Rect} wanted @param {string} reason @returns {Placed} */
function refused(piece, wanted, reason) {
  return { piece, legal: false, reason, guides: [], wanted };
}

/** @param {Barrier[]} barriers @param {Corner} start @returns {string} */
function refusal(barriers, start) {
  const first = barriers.find(({ block }) => forbids(block, start))?.obstacle;
  if (!first) return "no free place here";
  return first.limit ? first.reason : `no free place here: ${first.name} is in the way`;
}

/**
 * What stands in the way at the wanted place and is touched at the place found; failing that, what stood in the way.
 * @param {Barrier[]} barriers @param {Corner} start @param {Corner} free @returns {string|null}
 */
function stopReason(barriers, start, free) {
  const blocking = barriers.filter(({ block }) => forbids(block, start));
  const touched = blocking.filter(({ block }) => touches(block, free));
  const reasons = new Set((touched.length > 0 ? touched : blocking.slice(0, 1)).map(({ obstacle }) => obstacle.reason));
  return reasons.size > 0 ? [...reasons].join(" and ") : null;
}

/** @param {SurfacePiece} piece @param {Corner} asked @param {Corner} start @returns {string|null} */
function rimReason(piece, asked, start) {
  const shift = Math.max(Math.abs(asked.u - start.u), Math.abs(asked.v - start.v));
  return shift > NOTICED_TICKS ? `stops at the edge of the ${surfaceName(piece.surface)}` : null;
}
