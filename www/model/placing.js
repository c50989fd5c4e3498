// The one function that decides where a piece may be: pointer, touch, keyboard and typed numbers all go through it.

/**
 * @import { Guide, Rect, Scenario } from "./types.js"
 * @import { Laid } from "./laid.js"
 * @import { Obstacle } from "./obstacles.js"
 * @import { SnapOptions } from "./snap.js"
 * @import { Block, Corner } from "./space.js"
 * @import { Units } from "./format.js"
 * @typedef {{obstacle: Obstacle, block: Block}} Barrier
 * @typedef {object} Placed
 * @property {Laid} piece     where it goes; as it came if `legal` is false
 * @property {boolean} legal
 * @property {string|null} reason     what it stops at, or why it may not be there
 * @property {Guide[]} guides
 * @property {Rect|null} wanted       where it was wanted, when an obstacle keeps it from there
 */
import { kindById, surfaceSize } from "./geometry.js";
import { cornerFrom, edgeWalls, laidSize, settled } from "./laid.js";
import { cornerFoot, cornerObstacles, floorObstacles, uprightOf } from "./floor_obstacles.js";
import { NEAREST_PLACE_M } from "./limits.js";
import { looksReason } from "./looks_like.js";
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
 * @param {Laid} laid                  names kind, surface and turn
 * @param {number|null} exceptIndex    the piece's own index if it is in the plan already
 * @param {{u_m: number, v_m: number}} wanted  for its low corner
 * @param {SnapOptions} options        `tolerance_m` 0: no snapping
 * @returns {Placed}
 */
export function place(document, planIndex, laid, exceptIndex, wanted, options) {
  const settles = settled(document, laid, wanted);
  if (settles.reason !== undefined) return refused(laid, { ...wanted, ...laidSize(kindById(document, laid.kit), laid) }, settles.reason);
  return placeOn(document, planIndex, settles.piece, exceptIndex, settles.wanted, options);
}

/**
 * @param {Scenario} document @param {number} planIndex @param {Laid} piece on a surface that it can be on
 * @param {number|null} exceptIndex @param {{u_m: number, v_m: number}} wanted @param {SnapOptions} options @returns {Placed}
 */
function placeOn(document, planIndex, piece, exceptIndex, wanted, options) {
  const size = laidSize(kindById(document, piece.kit), piece);
  const unlike = exceptIndex === null ? looksReason(document, kindById(document, piece.kit), piece.place, piece.surface) : null;
  if (unlike !== null) return refused(piece, { ...wanted, ...size }, unlike);
  const snapped = snap(document, planIndex, piece, exceptIndex, { ...wanted, ...size }, options);
  const ticks = { u: ticksAbove(size.width_m), v: ticksAbove(size.height_m) };
  const bounds = boundsOf(document, piece, ticks, toTicks(wanted.u_m));
  if (bounds.most.u < 0 || bounds.most.v < 0) {
    return refused(piece, { ...wanted, ...size }, `larger than the ${surfaceName(piece.surface)}`);
  }
  if (piece.place === "stand" && ticksAbove(uprightOf(document, piece)?.high_m ?? 0) > ticksBelow(document.room.height_m)) {
    return refused(piece, { ...wanted, ...size }, "taller than the room");
  }
  const asked = { u: toTicks(piece.place === "corner" ? wanted.u_m : snapped.u_m), v: toTicks(snapped.v_m) };
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
 * @param {Scenario} document @param {number} planIndex @param {Laid} piece @param {number|null} exceptIndex
 * @param {Corner} size ticks @param {Units} [units] @returns {Barrier[]}
 */
function barriersFor(document, planIndex, piece, exceptIndex, size, units) {
  const kind = kindById(document, piece.kit);
  const barrier = (/** @type {Obstacle} */ obstacle) => ({ obstacle, block: blockFor(obstacle.rect, size) });
  if (piece.place === "stand") return floorObstacles(document, planIndex, { piece: exceptIndex }, units, uprightOf(document, piece)?.high_m).map(barrier);
  const own = obstacles(document, planIndex, piece.surface, exceptIndex, kind, units, piece.place).map(barrier);
  if (piece.place !== "corner") return own;
  return [...own, ...acrossBarriers(document, planIndex, piece, exceptIndex, size, units), ...footBarriers(document, planIndex, piece, exceptIndex, size, units)];
}

/**
 * What stands in the way of a corner piece on its other wall bars these heights on this one.
 * @param {Scenario} document @param {number} planIndex @param {Laid & {edge: string}} piece @param {number|null} exceptIndex
 * @param {Corner} size @param {Units} [units] @returns {Barrier[]}
 */
function acrossBarriers(document, planIndex, piece, exceptIndex, size, units) {
  const wall = edgeWalls(piece.edge).find((one) => one !== piece.surface) ?? piece.surface;
  const u = toTicks(cornerFrom(document.room, kindById(document, piece.kit), piece.edge, wall));
  return obstacles(document, planIndex, wall, exceptIndex, kindById(document, piece.kit), units, piece.place).flatMap((obstacle) => {
    const block = blockFor(obstacle.rect, size);
    return u > block.low_u && u < block.high_u ? [{ obstacle, block: { ...block, low_u: -Infinity, high_u: Infinity } }] : [];
  });
}

/**
 * What must stay free, or stands, on the floor of the corner bars its heights.
 * @param {Scenario} document @param {number} planIndex @param {Laid & {edge: string}} piece @param {number|null} exceptIndex
 * @param {Corner} size @param {Units} [units] @returns {Barrier[]}
 */
function footBarriers(document, planIndex, piece, exceptIndex, size, units) {
  const foot = cornerFoot(document.room, kindById(document, piece.kit), piece.edge);
  return cornerObstacles(document, planIndex, exceptIndex, foot, units).map((obstacle) => ({
    obstacle,
    block: { low_u: -Infinity, high_u: Infinity, low_v: ticksBelow(obstacle.low_m) - size.v, high_v: ticksAbove(obstacle.high_m) },
  }));
}

/**
 * The low corners that keep the piece on its surface; a corner piece keeps to its edge.
 * @param {Scenario} document @param {Laid} piece @param {Corner} size @param {number} edge_u
 */
function boundsOf(document, piece, size, edge_u) {
  const surface = surfaceSize(document.room, piece.surface);
  const most = { u: ticksBelow(surface.u_m) - size.u, v: ticksBelow(surface.v_m) - size.v };
  if (piece.place !== "corner") return { least: { u: 0, v: 0 }, most };
  const u = Math.min(most.u, edge_u);
  return { least: { u, v: 0 }, most: { ...most, u } };
}

/** @param {Laid} piece @param {Rect} wanted @param {string} reason @returns {Placed} */
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

/** @param {Laid} piece @param {Corner} asked @param {Corner} start @returns {string|null} */
function rimReason(piece, asked, start) {
  const shift = Math.max(Math.abs(asked.u - start.u), Math.abs(asked.v - start.v));
  return shift > NOTICED_TICKS ? `stops at the edge of the ${surfaceName(piece.surface)}` : null;
}
