// Moving a piece by keys: the same gesture as with the pointer, in steps, never snapping.

/**
 * @import { SurfaceName } from "../model/types.js"
 * @import { InputPort } from "./port.js"
 * @import { Step } from "./steps.js"
 */
import { nextSurface } from "./choosing.js";
import { drawnPiece } from "./port.js";

/**
 * Where the keys want the piece. It runs ahead of a piece that an obstacle stops, so that enough steps lead past it; a step
 * back starts again from where the piece is.
 * @param {InputPort} port
 */
export function createMoving(port) {
  /** @type {{surface: SurfaceName, u_m: number, v_m: number}|null} */
  let wanted = null;

  /** @param {number} index */
  function start(index) {
    port.dispatch({ type: "drag-start", index, by: "keys" });
    wanted = drawnPiece(port.getState(), index);
  }

  /** @param {Step} step */
  function step({ du_m, dv_m }) {
    const { drag } = port.getState();
    const piece = drag && drawnPiece(port.getState(), drag.index);
    if (!drag || !piece || !wanted) return;
    const from = drag.legal ? { u_m: ahead(wanted.u_m, piece.u_m, du_m), v_m: ahead(wanted.v_m, piece.v_m, dv_m) } : wanted;
    go({ surface: wanted.surface, u_m: from.u_m + du_m, v_m: from.v_m + dv_m });
  }

  /** To the next surface, by 1 or −1. @param {1|-1} by */
  function turn(by) {
    if (wanted) go({ ...wanted, surface: nextSurface(wanted.surface, by) });
  }

  /** @param {{surface: SurfaceName, u_m: number, v_m: number}} to */
  function go(to) {
    wanted = { surface: to.surface, u_m: to.u_m, v_m: to.v_m };
    port.dispatch({ type: "drag-move", ...wanted, tolerance_m: 0 });
  }

  return { start, step, turn };
}

/**
 * @param {number} wanted_m @param {number} actual_m @param {number} step_m along this axis, 0 if across
 * @returns {number} where the step starts from
 */
function ahead(wanted_m, actual_m, step_m) {
  return step_m !== 0 && Math.sign(wanted_m - actual_m) === Math.sign(step_m) ? wanted_m : actual_m;
}
