// The keyboard on the sheet: choosing, moving, deleting, copying. Each key goes to the first that it means something to.

/**
 * @import { InputPort } from "./port.js"
 * @typedef {(what: number|{kind: string}) => void} Focus  puts the focus on a piece, or where a kind is picked, once it is drawn
 */
import { chooseByKey, removeByKey } from "./choosing.js";
import { undoByKey } from "./history_keys.js";
import { createMoving } from "./moving.js";
import { carried, carriedSpot, carrier, drawn, isTyping } from "./port.js";
import { arrowStep } from "./steps.js";
import { landAt } from "./tap.js";

/** @param {HTMLElement} root @param {InputPort} port @returns {() => void} detaches */
export function attachKeys(root, port) {
  const page = root.ownerDocument;
  const focus = focusAfterDrawing(root);
  const moving = createMoving(port);

  /** @param {KeyboardEvent} event */
  function onSheet(event) {
    if (event.defaultPrevented || isTyping(event) || !carrier(event, "data-sheet")) return;
    const commands = event.ctrlKey || event.metaKey || event.altKey;
    const done = commands
      ? clipboard(event, port)
      : port.getState().drag?.by === "keys"
        ? whileMoving(event, port, moving, focus)
        : onItem(event, port, moving, focus) || onPoint(event, port) || onFurniture(event, port) || chooseByKey(event, port, focus);
    if (done) event.preventDefault();
  }
  /** @param {KeyboardEvent} event */
  const anywhere = (event) => undoByKey(event, port);

  root.addEventListener("keydown", onSheet);
  page.addEventListener("keydown", anywhere);
  return () => {
    root.removeEventListener("keydown", onSheet);
    page.removeEventListener("keydown", anywhere);
  };
}

/** After the next drawing, as the element may be a new one then. @param {HTMLElement} root @returns {Focus} */
function focusAfterDrawing(root) {
  const { defaultView: window } = root.ownerDocument;
  return (what) => {
    const place = typeof what === "number" ? `[data-sheet] [data-piece="${what}"]:not([data-grip])` : `[data-pick="${CSS.escape(what.kind)}"]`;
    const focus = () => /** @type {HTMLElement|null} */ (root.querySelector(place))?.focus();
    window?.requestAnimationFrame(() => window.requestAnimationFrame(focus));
  };
}

/**
 * @param {KeyboardEvent} event @param {InputPort} port @param {ReturnType<typeof createMoving>} moving @param {Focus} focus
 * @returns {boolean} whether the key meant something
 */
function whileMoving(event, port, moving, focus) {
  const { drag, units, surface } = port.getState();
  const step = arrowStep(event.key, event.shiftKey, units, surface, port.screenAxes?.(surface));
  if (step) moving.step(step);
  else if (event.key === "PageDown" || event.key === "PageUp") moving.turn(event.key === "PageDown" ? 1 : -1);
  else if (["Enter", " ", "Tab"].includes(event.key)) port.dispatch({ type: "drag-end" });
  else if (event.key === "Escape") port.dispatch({ type: "drag-cancel" });
  else return false;
  // Tab places the piece and goes on to the next control.
  if (event.key === "Tab") return false;
  if (drag) focus(drag.index);
  return true;
}

/**
 * Keys on a piece or a numbered place.
 * @param {KeyboardEvent} event @param {InputPort} port @param {ReturnType<typeof createMoving>} moving @param {Focus} focus
 * @returns {boolean}
 */
function onItem(event, port, moving, focus) {
  const landing = carried(event, "data-landing");
  const index = carried(event, "data-piece");
  const enters = event.key === "Enter" || event.key === " ";
  if (landing !== null && (enters || event.key === "Escape")) leavePlaces(enters ? landing : null, port, focus);
  else if (index === null) return false;
  else if (enters && event.shiftKey) port.dispatch({ type: "select-also", index });
  else if (enters) moving.start(index);
  else if (event.key === "Delete") removeByKey(port, index, focus);
  else if (event.key === "F2") port.editNumbers?.(index);
  else return false;
  return true;
}

/**
 * From the numbered places to the piece that was put on one, or back to where it was picked up: they are gone then, and the focus with them.
 * @param {number|null} landing @param {InputPort} port @param {Focus} focus
 */
function leavePlaces(landing, port, focus) {
  const { picked } = port.getState();
  if (landing === null) port.dispatch({ type: "put-down" });
  else landAt(landing, port);
  const { selected, picked: still } = port.getState();
  if (still || !picked) return;
  if (landing !== null && selected !== null) focus(selected);
  else focus(picked.index ?? { kind: picked.kit });
}

/**
 * Arrows on a loudspeaker or the seat move it over the floor; Enter or Space selects it, F2 goes to its numbers.
 * @param {KeyboardEvent} event @param {InputPort} port @returns {boolean}
 */
function onPoint(event, port) {
  const spot = carriedSpot(event);
  if (spot === null) return false;
  const state = port.getState();
  if (["Enter", " ", "F2"].includes(event.key)) {
    port.dispatch({ type: "select-spot", spot });
    if (event.key === "F2") port.editNumbers?.(null);
    return true;
  }
  const step = arrowStep(event.key, event.shiftKey, state.units, "floor", port.screenAxes?.("floor"));
  const listening = drawn(state).plans[state.shown].listening ?? drawn(state).listening;
  const point = spot === "seat" ? listening.seat : listening.loudspeakers[spot];
  if (!step || !point) return false;
  const to = { x_m: point.x_m + step.du_m, y_m: point.y_m + step.dv_m };
  port.dispatch(spot === "seat" ? { type: "move-seat", to } : { type: "move-loudspeaker", index: spot, to });
  return true;
}

/** Arrows on furniture that stands in the plan move it over the floor. @param {KeyboardEvent} event @param {InputPort} port @returns {boolean} */
function onFurniture(event, port) {
  const index = carried(event, "data-furnishing");
  const state = port.getState();
  const place = index === null ? undefined : drawn(state).room.furnishings?.[index]?.at;
  const step = arrowStep(event.key, event.shiftKey, state.units, "floor", port.screenAxes?.("floor"));
  if (index === null || !place || !step) return false;
  port.dispatch({ type: "move-furnishing", index, at: { x_m: place.x_m + step.du_m, y_m: place.y_m + step.dv_m } });
  return true;
}

/** Copies the piece in focus with all that is selected beside it; pastes on the surface in focus. @param {KeyboardEvent} event @param {InputPort} port @returns {boolean} */
function clipboard(event, port) {
  if (event.altKey || event.shiftKey) return false;
  const key = event.key.toLowerCase();
  const index = carried(event, "data-piece");
  if (key === "c" && index !== null) port.dispatch({ type: "copy-pieces", index });
  else if (key === "v" && port.getState().copied.length > 0) port.dispatch({ type: "paste-pieces" });
  else return false;
  return true;
}
