// The first drawing of the page comes portion by portion, each in a frame of its own, so that none of it holds up a tap: the Room
// sheet with the answer, what stands beside it, the charts; and what stands below the first screen once it is loaded.
import { nothing } from "../vendor.js";

/** After the Room sheet, in this order. */
const FIRST = /** @type {const} */ (["side", "charts"]);
const BELOW = /** @type {const} */ (["lists", "bounces", "shares", "bass", "response", "absorbers", "checkup", "last"]);
const ORDER = [...FIRST, ...BELOW];

/** @typedef {typeof ORDER[number]} Portion */

let drawn = 0;

/**
 * A portion, once its turn has come.
 * @param {Portion} portion
 * @param {() => unknown} draw
 */
export function inTurn(portion, draw) {
  return ORDER.indexOf(portion) < drawn ? draw() : nothing;
}

/**
 * Gives the next portion its turn; whether there was one.
 * @param {boolean} loaded  what stands below the first screen is there
 */
export function nextTurn(loaded) {
  if (drawn >= (loaded ? ORDER.length : FIRST.length)) return false;
  drawn += 1;
  return true;
}
