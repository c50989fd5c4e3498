// Resizing by a corner: the opposite corner stays, the dragged one goes where it is wanted as far as nothing stands in the way.

/**
 * @import { CurtainPiece, Guide, Rect, Scenario, SurfacePiece } from "./types.js"
 * @import { Laid } from "./laid.js"
 * @import { SnapOptions } from "./snap.js"
 * @import { Block } from "./space.js"
 * @typedef {"--"|"+-"|"-+"|"++"} CornerName  low or high u, low or high v
 * @typedef {SurfacePiece|CurtainPiece} Flat  lies flat on its surface
 * @typedef {{document: Scenario, piece: Laid, legal: boolean, reason: string|null, guides: Guide[]}} Resized
 */
import { hungSize, isSurfacePiece, kindById, pieceRect, surfaceSize } from "./geometry.js";
import { resizedKind } from "./kinds.js";
import { laidRect } from "./laid.js";
import { MOST, PIECE_SIDE } from "./limits.js";
import { obstacles } from "./obstacles.js";
import { withPiece } from "./sheet.js";
import { forbids, nearestFree, ticksAbove, ticksBelow, toMetres, toTicks, touches } from "./space.js";
import { kindName } from "./words.js";

const GRID_M = Object.freeze({ metric: 0.05, imperial: 0.0508 });
const TICKS_PER_MM = 10;

/**
 * The document with a piece resized; the piece gets a variant of its kind.
 * @param {Scenario} base @param {number} planIndex @param {number} index @param {Flat} from
 * @param {CornerName} corner @param {{u_m: number, v_m: number}} wanted for that corner @param {SnapOptions} options
 * @returns {Resized}
 */
export function resize(base, planIndex, index, from, corner, wanted, options) {
  const kind = kindById(base, from.kit);
  if (!kind) return { document: base, piece: from, legal: false, reason: "its kind is missing", guides: [] };
  const rect = laidRect(base, from);
  const turned = isSurfacePiece(from) && from.turned === true;
  const snapped = snapCorner(base, planIndex, index, from, wanted, options);
  const signs = { u: corner[0] === "+" ? 1 : -1, v: corner[1] === "+" ? 1 : -1 };
  const fixed = { u_m: signs.u > 0 ? rect.u_m : rect.u_m + rect.width_m, v_m: signs.v > 0 ? rect.v_m : rect.v_m + rect.height_m };
  const found = freeSize(base, planIndex, index, from, fixed, signs, snapped, options);
  if (!found) return { document: base, piece: from, legal: false, reason: "no room for another size here", guides: [] };
  const { size, reason } = found;
  const resized = resizedKind(base, kind, hungSize({ ...kind, ...size }, turned));
  if (!resized) return { document: base, piece: from, legal: false, reason: `at most ${MOST.kinds} kinds of piece in one document`, guides: [] };
  const piece = {
    ...from, kit: resized.id,
    u_m: signs.u > 0 ? from.u_m : toMetres(toTicks(fixed.u_m - size.width_m)),
    v_m: signs.v > 0 ? from.v_m : toMetres(toTicks(fixed.v_m - size.height_m)),
  };
  return { document: withPiece(resized.document, planIndex, index, piece), piece, legal: true, reason, guides: snapped.guides };
}

/**
 * The size nearest to the wanted one that overlaps nothing. An obstacle beyond the fixed corner forbids every size that
 * reaches into it in both directions.
 * @param {Scenario} base @param {number} planIndex @param {number} index @param {Flat} from
 * @param {{u_m: number, v_m: number}} fixed @param {{u: number, v: number}} signs @param {{u_m: number, v_m: number}} wanted @param {SnapOptions} options
 * @returns {{size: {width_m: number, height_m: number}, reason: string|null}|null}
 */
function freeSize(base, planIndex, index, from, fixed, signs, wanted, options) {
  const surface = surfaceSize(base.room, from.surface);
  const least = ticksAbove(PIECE_SIDE.least_m);
  const bounds = {
    least: { u: least, v: least },
    most: { u: reach(surface.u_m, fixed.u_m, signs.u), v: reach(surface.v_m, fixed.v_m, signs.v) },
  };
  const asked = { u: toTicks(signs.u * (wanted.u_m - fixed.u_m)), v: toTicks(signs.v * (wanted.v_m - fixed.v_m)) };
  const barriers = obstacles(base, planIndex, from.surface, index, kindById(base, from.kit), options.units, from.place)
    .flatMap((obstacle) => sizeBlock(obstacle.rect, fixed, signs).map((block) => ({ block, obstacle })));
  const free = nearestFree(asked, bounds, barriers.map(({ block }) => block));
  if (!free) return null;
  const stop = barriers.find(({ block }) => forbids(block, asked) && touches(block, free)) ?? barriers.find(({ block }) => forbids(block, asked));
  return { size: { width_m: wholeMillimetres(free.u), height_m: wholeMillimetres(free.v) }, reason: stop?.obstacle.reason ?? null };
}

/** @param {number} end_m @param {number} fixed_m @param {number} sign @returns {number} ticks */
function reach(end_m, fixed_m, sign) {
  return ticksBelow(Math.min(PIECE_SIDE.most_m, sign > 0 ? end_m - fixed_m : fixed_m));
}

/** Rounded down, so that it still overlaps nothing. @param {number} ticks @returns {number} metres */
function wholeMillimetres(ticks) {
  return toMetres(Math.floor(ticks / TICKS_PER_MM) * TICKS_PER_MM);
}

/**
 * @param {Rect} rect @param {{u_m: number, v_m: number}} fixed @param {{u: number, v: number}} signs
 * @returns {Block[]} none if the obstacle lies behind the fixed corner
 */
function sizeBlock(rect, fixed, signs) {
  const u = outward(rect.u_m, rect.width_m, fixed.u_m, signs.u);
  const v = outward(rect.v_m, rect.height_m, fixed.v_m, signs.v);
  if (u.far <= 0 || v.far <= 0) return [];
  return [{ low_u: u.near, high_u: Infinity, low_v: v.near, high_v: Infinity }];
}

/** @param {number} low_m @param {number} side_m @param {number} fixed_m @param {number} sign @returns {{near: number, far: number}} ticks from the fixed corner */
function outward(low_m, side_m, fixed_m, sign) {
  return sign > 0
    ? { near: ticksBelow(low_m - fixed_m), far: ticksAbove(low_m + side_m - fixed_m) }
    : { near: ticksBelow(fixed_m - low_m - side_m), far: ticksAbove(fixed_m - low_m) };
}

/**
 * The dragged edges hold at the edges of neighbours, else at the grid.
 * @param {Scenario} document @param {number} planIndex @param {number} index @param {Flat} from
 * @param {{u_m: number, v_m: number}} wanted @param {SnapOptions} options
 * @returns {{u_m: number, v_m: number, guides: Guide[]}}
 */
function snapCorner(document, planIndex, index, from, wanted, { tolerance_m, units = "metric" }) {
  if (!(tolerance_m > 0)) return { ...wanted, guides: [] };
  const others = document.plans[planIndex].pieces.flatMap((other, at) => (
    at !== index && isSurfacePiece(other) && other.surface === from.surface
      ? [{ rect: pieceRect(document, other), name: kindName(document, other.kit) }] : []));
  const us = others.flatMap(({ rect, name }) => [{ at_m: rect.u_m, name }, { at_m: rect.u_m + rect.width_m, name }]);
  const vs = others.flatMap(({ rect, name }) => [{ at_m: rect.v_m, name }, { at_m: rect.v_m + rect.height_m, name }]);
  const u = hold("u", us, wanted.u_m, tolerance_m, GRID_M[units]);
  const v = hold("v", vs, wanted.v_m, tolerance_m, GRID_M[units]);
  return { u_m: u.at_m, v_m: v.at_m, guides: [...u.guides, ...v.guides] };
}

/**
 * @param {"u"|"v"} axis @param {{at_m: number, name: string}[]} edges @param {number} wanted_m @param {number} tolerance_m @param {number} grid_m
 * @returns {{at_m: number, guides: Guide[]}}
 */
function hold(axis, edges, wanted_m, tolerance_m, grid_m) {
  const [nearest] = [...edges].sort((a, b) => Math.abs(a.at_m - wanted_m) - Math.abs(b.at_m - wanted_m));
  if (nearest && Math.abs(nearest.at_m - wanted_m) <= tolerance_m) {
    return { at_m: nearest.at_m, guides: [{ axis, at_m: nearest.at_m, text: `in line with ${nearest.name}` }] };
  }
  const grid = Math.round(wanted_m / grid_m) * grid_m;
  return { at_m: Math.abs(grid - wanted_m) <= tolerance_m ? grid : wanted_m, guides: [] };
}
