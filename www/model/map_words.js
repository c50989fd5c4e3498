// The bass map in words: the evenest and the least even place over the floor, and the loudest and quietest in one band.

/**
 * @import { BassMap, Place3, Room } from "./types.js"
 * @import { Units } from "./format.js"
 * @typedef {{x_m: number, y_m: number, value: number}} Spot
 */
import { frequency, length, number } from "./format.js";

/** No head is nearer to a wall, m. Common practice, no source. */
const OFF_WALLS_M = 0.4;

/**
 * A value at each place that a head can take.
 * @param {BassMap} map @param {ArrayLike<number>} values of one layer @param {Room} room @returns {Spot[]}
 */
function spots({ x_m, y_m, nx, ny }, values, room) {
  const inside = (/** @type {number} */ at_m, /** @type {number} */ side_m) => at_m >= OFF_WALLS_M && at_m <= side_m - OFF_WALLS_M;
  return Array.from({ length: nx * ny }, (_, index) => ({ x_m: x_m[index % nx], y_m: y_m[Math.floor(index / nx)], value: values[index] }))
    .filter((spot) => inside(spot.x_m, room.width_m) && inside(spot.y_m, room.length_m) && Number.isFinite(spot.value));
}

/** @param {Spot[]} list @param {1|-1} sign @returns {Spot} the one with the most, or with −1 the least */
function most(list, sign) {
  return list.reduce((best, spot) => (sign * spot.value > sign * best.value ? spot : best));
}

/** The value at the place nearest to a spot. @param {BassMap} map @param {ArrayLike<number>} values @param {{x_m: number, y_m: number}} at @returns {number} */
function valueAt({ x_m, y_m, nx }, values, at) {
  const nearest = (/** @type {ArrayLike<number>} */ places, /** @type {number} */ to_m) => Array.from(places)
    .reduce((best, place, index) => (Math.abs(place - to_m) < Math.abs(places[best] - to_m) ? index : best), 0);
  return values[nearest(y_m, at.y_m) * nx + nearest(x_m, at.x_m)];
}

/**
 * @param {BassMap} map @param {Room} room @param {Place3|undefined} seat @param {Units} units @returns {string[]}
 */
export function evenWords(map, room, seat, units) {
  const list = map.unevenness_db ? spots(map, map.unevenness_db, room) : [];
  if (list.length === 0 || !map.unevenness_db) return [];
  const [best, worst] = [most(list, -1), most(list, 1)];
  const here = seat ? `; at your seat by ${number(valueAt(map, map.unevenness_db, seat), 1)}` : "";
  return [`The bass is evenest ${where(best, units)}: its bands differ by ${number(best.value, 1)}\u202fdB there. It is least even ${where(worst, units)}, by ${number(worst.value, 1)}${here}.`];
}

/** @param {BassMap} map @param {ArrayLike<number>} levels of the layer @param {number} hz @param {Room} room @param {Units} units @returns {string} */
export function loudWords(map, levels, hz, room, units) {
  const list = spots(map, levels, room);
  if (list.length === 0) return "";
  const [loud, quiet] = [most(list, 1), most(list, -1)];
  return `Round ${frequency(hz)} it is loudest ${where(loud, units)} and quietest ${where(quiet, units)}, ${number(loud.value - quiet.value)}\u202fdB apart.`;
}

/** @param {Spot} spot @param {Units} units */
function where({ x_m, y_m }, units) {
  return `${length(x_m, units)} from the left wall and ${length(y_m, units)} from the front wall`;
}

/** The longest forms that the two sentences take in a room to live in, so that they have their room before they come. @param {Units} units @returns {{loud: string, even: string}} */
export function longestWords(units) {
  const place = where({ x_m: 8.5, y_m: 8.5, value: 0 }, units);
  return {
    loud: `Round ${frequency(125)} it is loudest ${place} and quietest ${place}, 88\u202fdB apart.`,
    even: `The bass is evenest ${place}: its bands differ by 8.8\u202fdB there. It is least even ${place}, by 8.8; at your seat by 8.8.`,
  };
}

/** Every so many places make a row or a column of the table. @param {ArrayLike<number>} places @param {number} most @returns {number[]} indices */
export function sampled(places, most) {
  const step = Math.max(1, Math.ceil(places.length / most));
  return Array.from({ length: Math.ceil(places.length / step) }, (_, index) => index * step);
}
