// What stands below the first screen is drawn part by part, each in a frame of its own, so that none of it holds up a tap.
import { nothing } from "../vendor.js";

/** Parts below the first screen. */
const PARTS = 8;

let drawn = 0;

/**
 * The part of that number, from 0, once its turn has come.
 * @param {number} number
 * @param {() => unknown} draw
 */
export function inTurn(number, draw) {
  return number < drawn ? draw() : nothing;
}

/** Gives the next part its turn; whether there was one. */
export function nextTurn() {
  if (drawn === PARTS) return false;
  drawn += 1;
  return true;
}
