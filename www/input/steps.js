// What an arrow key means in metres on a surface.

/** @import { SurfaceName } from "../model/types.js" @import { ScreenAxes } from "./port.js" */
import { isWall } from "../model/geometry.js";

/** @typedef {{du_m: number, dv_m: number}} Step */

/** Plain and with Shift. */
const STEP_M = Object.freeze({ metric: [0.01, 0.1], imperial: [0.0127, 0.1016] });

/** Right and down on the screen. @type {Readonly<Record<string, readonly [number, number]>>} */
const DIRECTIONS = Object.freeze({ ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] });

/** Walls stand upright, floor and ceiling have the front wall on top. @param {SurfaceName} surface @returns {ScreenAxes} */
function plainAxes(surface) {
  return isWall(surface) ? { ux: 1, uy: 0, vx: 0, vy: -1 } : { ux: 1, uy: 0, vx: 0, vy: 1 };
}

/**
 * The step of an arrow key along the axis that lies in its direction on the screen.
 * @param {string} key @param {boolean} far with Shift @param {"metric"|"imperial"} units
 * @param {SurfaceName} surface @param {ScreenAxes|null} [axes]
 * @returns {Step|null} null if it is no arrow key
 */
export function arrowStep(key, far, units, surface, axes) {
  const direction = DIRECTIONS[key];
  if (!direction) return null;
  const { ux, uy, vx, vy } = axes ?? plainAxes(surface);
  const alongU = direction[0] * ux + direction[1] * uy;
  const alongV = direction[0] * vx + direction[1] * vy;
  const step_m = STEP_M[units][far ? 1 : 0];
  return Math.abs(alongU) >= Math.abs(alongV)
    ? { du_m: Math.sign(alongU) * step_m, dv_m: 0 }
    : { du_m: 0, dv_m: Math.sign(alongV) * step_m };
}
