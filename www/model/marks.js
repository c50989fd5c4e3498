// Bounce marks from geometry alone: the mirror trick for each loudspeaker, the seat and each surface.

/**
 * @import { Listening, Place3, Room, Scenario, SurfaceName } from "./types.js"
 * @typedef {object} Mark
 * @property {SurfaceName} surface
 * @property {number} u_m
 * @property {number} v_m
 * @property {number} loudspeaker                    index
 * @property {[number, number, number]} point_m      room axes
 * @property {number} extra_m                        path beyond the direct one
 */
import { SURFACES, toSurface } from "./geometry.js";

/** Where loudspeakers and seat stand in a plan: its own, or those of the document. @param {Scenario} document @param {number} planIndex @returns {Listening} */
export function listeningOf(document, planIndex) {
  return document.plans[planIndex]?.listening ?? document.listening;
}

/**
 * The walls to the left and the right of who sits there and looks at the loudspeakers, as the core takes them.
 * @param {Listening} listening @returns {[SurfaceName, SurfaceName]}
 */
export function sidesOf({ loudspeakers, seat }) {
  const ahead = (/** @type {"x_m"|"y_m"} */ axis) => (seat ? loudspeakers.reduce((sum, one) => sum + one[axis] - seat[axis], 0) : 0);
  const [x_m, y_m] = [ahead("x_m"), ahead("y_m")];
  if (Math.abs(x_m) > Math.abs(y_m)) return x_m < 0 ? ["back", "front"] : ["front", "back"];
  return y_m > 0 ? ["right", "left"] : ["left", "right"];
}

/**
 * The first-order bounce of every loudspeaker on every surface, in the order of loudspeakers and surfaces.
 * @param {Scenario} document @param {number} planIndex @returns {Mark[]} empty without a seat
 */
export function bounceMarks(document, planIndex) {
  const { loudspeakers, seat } = listeningOf(document, planIndex);
  if (!seat) return [];
  return loudspeakers.flatMap((loudspeaker, index) => SURFACES.flatMap((surface) => {
    const mark = bounce(document.room, surface, asPoint(loudspeaker), asPoint(seat));
    return mark ? [{ surface, loudspeaker: index, ...mark, ...toSurface(surface, mark.point_m) }] : [];
  }));
}

/** @param {Place3} place @returns {[number, number, number]} */
function asPoint({ x_m, y_m, z_m }) {
  return [x_m, y_m, z_m];
}

/** @param {Room} room @param {SurfaceName} surface @returns {{axis: 0|1|2, at_m: number}} */
function planeOf(room, surface) {
  switch (surface) {
    case "left": return { axis: 0, at_m: 0 };
    case "right": return { axis: 0, at_m: room.width_m };
    case "front": return { axis: 1, at_m: 0 };
    case "back": return { axis: 1, at_m: room.length_m };
    case "floor": return { axis: 2, at_m: 0 };
    case "ceiling": return { axis: 2, at_m: room.height_m };
  }
}

/**
 * Where the line from the seat to the mirrored loudspeaker meets the surface.
 * @param {Room} room @param {SurfaceName} surface @param {[number, number, number]} from_m @param {[number, number, number]} seat_m
 * @returns {{point_m: [number, number, number], extra_m: number}|null} null if both lie in the surface
 */
export function bounce(room, surface, from_m, seat_m) {
  const { axis, at_m } = planeOf(room, surface);
  const mirrored = [...from_m];
  mirrored[axis] = 2 * at_m - from_m[axis];
  const across_m = mirrored[axis] - seat_m[axis];
  if (across_m === 0) return null;
  const share = (at_m - seat_m[axis]) / across_m;
  /** @param {0|1|2} i @returns {number} */
  const along = (i) => seat_m[i] + share * (mirrored[i] - seat_m[i]);
  return { point_m: [along(0), along(1), along(2)], extra_m: distance(mirrored, seat_m) - distance(from_m, seat_m) };
}

/** @param {readonly number[]} a @param {readonly number[]} b @returns {number} */
function distance(a, b) {
  return Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
}
