// Pick, then place, without a drag: a tap or Enter on a numbered place, or a tap anywhere on a surface.

/** @import { InputPort } from "./port.js" */
import { freshPiece, laidSize } from "../model/laid.js";
import { awaitsTap } from "../model/spots.js";
import { carried, carrier, drawnPiece } from "./port.js";

/** @param {HTMLElement} root @param {InputPort} port @returns {() => void} detaches */
export function attachTap(root, port) {
  /** @param {MouseEvent} event */
  function tap(event) {
    if (!port.getState().picked) return;
    const landing = carried(event, "data-landing");
    if (landing !== null) landAt(landing, port);
    else landUnder(event, port);
  }
  // A click may be drawn towards a button near the finger; where the pointer was lifted is where it was.
  /** @param {PointerEvent} event */
  const lift = (event) => awaitsTap(port.getState()) && standUnder(event, port);
  root.addEventListener("click", tap);
  root.addEventListener("pointerup", lift);
  return () => {
    root.removeEventListener("click", tap);
    root.removeEventListener("pointerup", lift);
  };
}

/** Puts what is picked on one of its numbered places. @param {number} index @param {InputPort} port */
export function landAt(index, port) {
  const place = port.getState().picked?.places[index];
  if (!place) return;
  const turn = place.place === "stand" ? { turn_deg: place.turn_deg } : {};
  port.dispatch({ type: "land", surface: place.surface, u_m: place.u_m, v_m: place.v_m, ...turn });
}

/** Where a loudspeaker or the seat stands, as fine as a finger points, m. */
const TAP_STEP_M = Object.freeze({ metric: 0.05, imperial: 2 * 0.0254 });

/** @param {PointerEvent} event @param {InputPort} port */
function standUnder(event, port) {
  const { tapping: spot, units } = port.getState();
  const at = carrier(event, "data-sheet") ? port.locate(event) : null;
  if (spot === null || at?.surface !== "floor") return;
  const [x_m, y_m] = [at.u_m, at.v_m].map((value_m) => Math.round(value_m / TAP_STEP_M[units]) * TAP_STEP_M[units]);
  const gesture = `tap ${port.now()}`;
  port.dispatch(spot === "seat" ? { type: "move-seat", to: { x_m, y_m }, gesture } : { type: "move-loudspeaker", index: spot, to: { x_m, y_m }, gesture });
  port.dispatch({ type: "await-tap", spot: null });
}

/** With its middle under the pointer. @param {MouseEvent} event @param {InputPort} port */
function landUnder(event, port) {
  const state = port.getState();
  const at = port.locate(event);
  if (!at || !state.picked) return;
  const { index, kind } = state.picked;
  const standing = index === null ? null : drawnPiece(state, index);
  const { width_m, height_m } = laidSize(kind, standing ?? freshPiece(kind, at.surface));
  port.dispatch({ type: "land", surface: at.surface, u_m: at.u_m - width_m / 2, v_m: at.v_m - height_m / 2 });
}
