// After a change of the room's size: everything is brought back inside, and what was trimmed or lost is counted.

/**
 * @import { KeepClear, Listening, Part, Piece, Place3, Rect, Room, Scenario, SurfaceName } from "./types.js"
 * @typedef {{trimmed: number, moved: number, removed: number}} Tally
 */
import { uprightOf } from "./floor_obstacles.js";
import { SURFACES, pieceRect, surfaceSize } from "./geometry.js";
import { isInTheWay } from "./in_the_way.js";
import { lay } from "./laid.js";
import { INSIDE_M } from "./limits.js";
import { place } from "./placing.js";
import { withPiece, withPieces } from "./sheet.js";

/** Places are stored to 0.1 mm, which may move the box round a turned foot by as much. */
const STORED_M = 1e-4;
/** Less than this is nothing left of a door or window. */
const LEAST_PART_M = 0.05;

/**
 * The document with everything inside its room.
 * @param {Scenario} document @returns {{document: Scenario, tally: Tally}}
 */
export function refit(document) {
  /** @type {Tally} */
  const tally = { trimmed: 0, moved: 0, removed: 0 };
  const room = refitRoom(document.room, tally);
  const listening = insideListening(document.listening, room, tally);
  const plans = document.plans.map((plan) => (plan.listening ? { ...plan, listening: insideListening(plan.listening, room, tally) } : plan));
  let fitted = { ...document, room, listening, plans };
  for (const [index, plan] of plans.entries()) fitted = refitPieces(fitted, index, plan.pieces, tally);
  return { document: fitted, tally };
}

/** What happened, as a sentence; empty if nothing did. @param {Tally} tally @returns {string} */
export function tallyText({ trimmed, moved, removed }) {
  const parts = [
    trimmed > 0 ? `${things(trimmed)} trimmed` : "", moved > 0 ? `${things(moved)} moved inside` : "",
    removed > 0 ? `${things(removed)} removed, as no place is left` : "",
  ].filter(Boolean);
  return parts.length > 0 ? `To fit the new size: ${parts.join(", ")}.` : "";
}

/** @param {number} count @returns {string} */
function things(count) {
  return count === 1 ? "1 thing" : `${count} things`;
}

/** @param {Room} room @param {Tally} tally @returns {Room} */
function refitRoom(room, tally) {
  const surfaces = { ...room.surfaces };
  for (const surface of SURFACES) {
    const { parts } = surfaces[surface];
    if (parts) surfaces[surface] = { ...surfaces[surface], parts: trimAll(parts, () => surface, room, tally) };
  }
  const keepClear = room.keep_clear && trimAll(room.keep_clear, (zone) => zone.surface, room, tally);
  const furnishings = room.furnishings?.map((entry) => {
    if (!entry.at) return entry;
    const at = insideBox(entry.at, room);
    if (at !== entry.at) tally.moved += 1;
    return at === entry.at ? entry : { ...entry, at };
  });
  return { ...room, surfaces, ...(keepClear && { keep_clear: keepClear }), ...(furnishings && { furnishings }) };
}

/**
 * @template {Part|KeepClear} T
 * @param {T[]} items @param {(item: T) => SurfaceName} surfaceOf @param {Room} room @param {Tally} tally @returns {T[]}
 */
function trimAll(items, surfaceOf, room, tally) {
  return items.flatMap((item) => {
    const size = surfaceSize(room, surfaceOf(item));
    const width_m = Math.min(item.width_m, size.u_m - item.u_m);
    const height_m = Math.min(item.height_m, size.v_m - item.v_m);
    if (width_m === item.width_m && height_m === item.height_m) return [item];
    if (width_m < LEAST_PART_M || height_m < LEAST_PART_M) {
      tally.removed += 1;
      return [];
    }
    tally.trimmed += 1;
    return [{ ...item, width_m: stored(width_m), height_m: stored(height_m) }];
  });
}

/** @param {number} value_m @returns {number} to 0.1 mm, never outward */
function stored(value_m) {
  return Math.floor(value_m * 1e4 + 1e-3) / 1e4;
}

/**
 * @template {{x_m: number, y_m: number, width_m: number, depth_m: number, height_m: number}} B
 * @param {B} box @param {Room} room @returns {B}
 */
function insideBox(box, room) {
  const width_m = Math.min(box.width_m, room.width_m);
  const depth_m = Math.min(box.depth_m, room.length_m);
  const height_m = Math.min(box.height_m, room.height_m);
  const x_m = Math.min(box.x_m, stored(room.width_m - width_m));
  const y_m = Math.min(box.y_m, stored(room.length_m - depth_m));
  const same = x_m === box.x_m && y_m === box.y_m && width_m === box.width_m && depth_m === box.depth_m && height_m === box.height_m;
  return same ? box : { ...box, x_m, y_m, width_m, depth_m, height_m };
}

/** A point of loudspeaker or seat, kept off the surfaces. @template {Place3} P @param {P} point @param {Room} room @returns {P} */
export function insidePoint(point, room) {
  const bound = (/** @type {number} */ value_m, /** @type {number} */ side_m) => (
    stored(Math.min(side_m - INSIDE_M, Math.max(INSIDE_M, value_m)) + 5e-5));
  const [x_m, y_m, z_m] = [bound(point.x_m, room.width_m), bound(point.y_m, room.length_m), bound(point.z_m, room.height_m)];
  return { ...point, x_m, y_m, z_m };
}

/** @param {Listening} listening @param {Room} room @param {Tally} tally @returns {Listening} */
function insideListening(listening, room, tally) {
  const loudspeakers = listening.loudspeakers.map((place) => kept(place, room, tally));
  return listening.seat ? { ...listening, loudspeakers, seat: kept(listening.seat, room, tally) } : { ...listening, loudspeakers };
}

/** @template {Place3} P @param {P} point @param {Room} room @param {Tally} tally @returns {P} */
function kept(point, room, tally) {
  const outside = point.x_m > room.width_m - INSIDE_M || point.y_m > room.length_m - INSIDE_M || point.z_m > room.height_m - INSIDE_M;
  if (outside) tally.moved += 1;
  return outside ? insidePoint(point, room) : point;
}

/**
 * Pieces that stick out are placed anew, one after the other, among those that stay.
 * @param {Scenario} document @param {number} planIndex @param {Piece[]} pieces @param {Tally} tally @returns {Scenario}
 */
function refitPieces(document, planIndex, pieces, tally) {
  const staying = pieces.filter((piece) => !sticksOut(document, piece) && !isInTheWay(document, piece));
  if (staying.length === pieces.length) return document;
  let fitted = withPieces(document, planIndex, staying);
  for (const piece of pieces) {
    if (staying.includes(piece)) continue;
    const laid = lay(fitted, piece);
    const placed = place(fitted, planIndex, laid, null, laid, { tolerance_m: 0 });
    tally[placed.legal ? "moved" : "removed"] += 1;
    if (placed.legal) fitted = withPiece(fitted, planIndex, fitted.plans[planIndex].pieces.length, placed.piece);
  }
  return fitted;
}

/** @param {Scenario} document @param {Piece} piece @returns {boolean} */
function sticksOut({ room, ...document }, piece) {
  const kind = document.kit?.find(({ id }) => id === piece.kit);
  if (piece.place === "stand") {
    const body = uprightOf({ room, ...document }, piece);
    return !body || body.rect.u_m + body.rect.width_m > room.width_m + STORED_M || body.rect.v_m + body.rect.height_m > room.length_m + STORED_M || body.high_m > room.height_m + 1e-6;
  }
  if (piece.place === "corner") return piece.z_m + (kind?.height_m ?? 0) > room.height_m;
  /** @type {Rect} */
  const rect = piece.place === "curtain"
    ? { u_m: piece.u_m, v_m: piece.v_m, width_m: kind?.width_m ?? 0, height_m: kind?.height_m ?? 0 }
    : pieceRect({ room, ...document }, piece);
  const size = surfaceSize(room, piece.surface);
  return rect.u_m + rect.width_m > size.u_m + 1e-6 || rect.v_m + rect.height_m > size.v_m + 1e-6;
}
