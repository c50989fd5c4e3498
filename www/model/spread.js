// How far a bounce mark wanders: over the width of the seat, the height of the head and the height of the drivers.

/**
 * @import { Place3, Rect, Room, SurfaceName } from "./types.js"
 * @typedef {[number, number, number]} Point  room axes, m
 */
import { SURFACES, surfaceSize, toSurface } from "./geometry.js";
import { bounce } from "./marks.js";

/**
 * From the middle of the head to either side: people lean and share a sofa. Seats are 0.5 m wide. Common practice, no
 * source.
 */
export const SEAT_HALF_WIDTH_M = 0.25;

/** The head of one who sits up and of one who sinks in, either way of the height of the ears. */
export const HEAD_M = 0.1;

/**
 * From the driver for the treble, whose height the document says, down to the one for the middle below it. Common
 * practice for boxes with two drivers, no source.
 */
export const DRIVERS_M = 0.2;

/** Lowest that a driver may stand, m. */
const LOWEST_M = 0.05;

/**
 * Where the mark lies for every head and every driver within these limits: the rectangle that a piece has to cover.
 *
 * A coordinate of the mark is a ratio of two linear forms in each of the three figures, hence monotone in each of them while
 * the others stay; so its ends lie at the eight corners.
 * @param {Room} room @param {SurfaceName} surface @param {Place3} loudspeaker @param {Place3} seat
 * @returns {Rect|null} on the surface; null where no corner has a bounce
 */
export function spreadOf(room, surface, loudspeaker, seat) {
  const spots = heads(room, seat).flatMap((head_m) => drivers(loudspeaker).flatMap((driver_m) => {
    const met = bounce(room, surface, driver_m, head_m);
    return met ? [toSurface(surface, met.point_m)] : [];
  }));
  return spots.length > 0 ? around(spots, surfaceSize(room, surface)) : null;
}

/** @param {Room} room @param {Place3} seat @returns {Point[]} */
function heads(room, { x_m, y_m, z_m }) {
  const xs = [-SEAT_HALF_WIDTH_M, SEAT_HALF_WIDTH_M].map((by_m) => clamp(x_m + by_m, 0, room.width_m));
  const zs = [-HEAD_M, HEAD_M].map((by_m) => clamp(z_m + by_m, 0, room.height_m));
  return xs.flatMap((x) => zs.map((z) => /** @type {Point} */ ([x, y_m, z])));
}

/** @param {Place3} loudspeaker @returns {Point[]} */
function drivers({ x_m, y_m, z_m }) {
  return [Math.min(z_m, Math.max(LOWEST_M, z_m - DRIVERS_M)), z_m].map((z) => [x_m, y_m, z]);
}

/** @param {{u_m: number, v_m: number}[]} spots @param {{u_m: number, v_m: number}} size @returns {Rect} */
function around(spots, size) {
  const [us, vs] = [spots.map(({ u_m }) => clamp(u_m, 0, size.u_m)), spots.map(({ v_m }) => clamp(v_m, 0, size.v_m))];
  const [u_m, v_m] = [Math.min(...us), Math.min(...vs)];
  return { u_m, v_m, width_m: Math.max(...us) - u_m, height_m: Math.max(...vs) - v_m };
}

/** @param {number} value @param {number} least @param {number} most */
function clamp(value, least, most) {
  return Math.min(most, Math.max(least, value));
}

/** @typedef {{surface: SurfaceName, loudspeaker: number, rect: Rect}} Spread */

/** The spreads of all first bounces. @param {Room} room @param {import("./types.js").Listening} listening @returns {Spread[]} */
export function spreads(room, { loudspeakers, seat }) {
  if (!seat) return [];
  return loudspeakers.flatMap((one, loudspeaker) => SURFACES.flatMap((surface) => {
    const rect = spreadOf(room, surface, one, seat);
    return rect ? [{ surface, loudspeaker, rect }] : [];
  }));
}
