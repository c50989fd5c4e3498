// The keyboard: choosing and moving on the sheet, undo and redo everywhere outside text fields.

/**
 * @import { SurfaceName, SurfacePiece } from "../model/types.js"
 * @import { InputPort } from "./port.js"
 */
import { SURFACES, isSurfacePiece, kindById } from "../model/geometry.js";
import { createMoving } from "./moving.js";
import { carried, carrier, drawn, drawnPiece, isTyping } from "./port.js";
import { arrowStep } from "./steps.js";
import { landAt } from "./tap.js";

/** @param {HTMLElement} root @param {InputPort} port @returns {() => void} detaches */
export function attachKeys(root, port) {
  const moving = createMoving(port);
  const page = root.ownerDocument;
  /** @type {SurfacePiece|null} */
  let copied = null;

  /** @param {KeyboardEvent} event */
  function onSheet(event) {
    if (event.defaultPrevented || isTyping(event) || !carrier(event, "data-sheet")) return;
    const commands = event.ctrlKey || event.metaKey || event.altKey;
    if (commands && !isCommand(event, "c") && !isCommand(event, "v")) return;
    const done = port.getState().drag?.by === "keys" ? whileMoving(event) : chosen(event) || onPoint(event) || choosing(event);
    if (done) event.preventDefault();
  }

  /** @param {KeyboardEvent} event @returns {boolean} whether the key meant something */
  function whileMoving(event) {
    const { drag, units, surface } = port.getState();
    const step = arrowStep(event.key, event.shiftKey, units, surface, port.screenAxes?.(surface));
    if (step) moving.step(step);
    else if (event.key === "PageDown" || event.key === "PageUp") moving.turn(event.key === "PageDown" ? 1 : -1);
    else if (event.key === "Enter" || event.key === " ") port.dispatch({ type: "drag-end" });
    else if (event.key === "Escape") port.dispatch({ type: "drag-cancel" });
    else if (event.key === "Tab") port.dispatch({ type: "drag-end" });
    else return false;
    if (drag && event.key !== "Tab") refocus(drag.index);
    return event.key !== "Tab";
  }

  /** Keys on a piece or a numbered place. @param {KeyboardEvent} event @returns {boolean} */
  function chosen(event) {
    const landing = carried(event, "data-landing");
    const index = carried(event, "data-piece");
    const enters = event.key === "Enter" || event.key === " ";
    if (landing !== null && enters) landAt(landing, port);
    else if (index === null) return false;
    else if (enters) moving.start(index);
    else if (event.key === "Delete") remove(index);
    else if (event.key === "F2") port.editNumbers?.(index);
    else if (isCommand(event, "c")) copied = drawnPiece(port.getState(), index);
    else return false;
    return true;
  }

  /** The item that takes its place in the order gets the focus. @param {number} index */
  function remove(index) {
    port.dispatch({ type: "remove-piece", index });
    const { surface } = port.getState();
    const rest = itemsOn(surface);
    const next = rest.find((at) => at >= index) ?? rest.at(-1);
    if (next !== undefined) choose(next);
  }

  /** Arrows on a loudspeaker or the seat move it over the floor. @param {KeyboardEvent} event @returns {boolean} */
  function onPoint(event) {
    const index = carried(event, "data-loudspeaker");
    if (index === null && !carrier(event, "data-seat")) return false;
    const state = port.getState();
    const step = arrowStep(event.key, event.shiftKey, state.units, "floor", port.screenAxes?.("floor"));
    const listening = drawn(state).plans[state.shown].listening ?? drawn(state).listening;
    const point = index === null ? listening.seat : listening.loudspeakers[index];
    if (!step || !point) return false;
    const to = { x_m: point.x_m + step.du_m, y_m: point.y_m + step.dv_m };
    port.dispatch(index === null ? { type: "move-seat", to } : { type: "move-loudspeaker", index, to });
    return true;
  }

  /** Keys that go from item to item and from surface to surface. @param {KeyboardEvent} event @returns {boolean} */
  function choosing(event) {
    const { surface, selected, picked } = port.getState();
    const items = itemsOn(surface);
    const at = items.indexOf(carried(event, "data-piece") ?? selected ?? -1);
    if (event.key === "ArrowRight" || event.key === "ArrowDown") choose(items[Math.min(at + 1, items.length - 1)]);
    else if (event.key === "ArrowLeft" || event.key === "ArrowUp") choose(items[Math.max(at - 1, 0)]);
    else if (event.key === "Home") choose(items[0]);
    else if (event.key === "End") choose(items.at(-1));
    else if (event.key === "PageDown" || event.key === "PageUp") turn(surface, event.key === "PageDown" ? 1 : -1);
    else if (event.key === "Escape") port.dispatch(picked ? { type: "put-down" } : { type: "select", index: null });
    else if (isCommand(event, "v") && copied) paste(copied);
    else return false;
    return true;
  }

  /** @param {SurfaceName} surface @returns {number[]} indices in the shown plan */
  function itemsOn(surface) {
    const state = port.getState();
    return drawn(state).plans[state.shown].pieces.flatMap((piece, index) => (isSurfacePiece(piece) && piece.surface === surface ? [index] : []));
  }

  /** @param {number|undefined} index */
  function choose(index) {
    if (index === undefined) return;
    port.dispatch({ type: "select", index });
    refocus(index);
  }

  /** @param {SurfaceName} surface @param {1|-1} by */
  function turn(surface, by) {
    const next = SURFACES[(SURFACES.indexOf(surface) + by + SURFACES.length) % SURFACES.length];
    port.dispatch({ type: "select", index: null });
    port.dispatch({ type: "face", surface: next });
    choose(itemsOn(next)[0]);
  }

  /** @param {SurfacePiece} piece */
  function paste(piece) {
    const state = port.getState();
    const kit = kindById(drawn(state), piece.kit) ?? port.findKind(piece.kit);
    if (kit) port.dispatch({ type: "add-piece", piece: { ...piece, surface: state.surface }, kit });
  }

  /** After the next drawing, as the element may be a new one then. @param {number} index */
  function refocus(index) {
    const focus = () => /** @type {HTMLElement|null} */ (root.querySelector(`[data-sheet] [data-piece="${index}"]:not([data-grip])`))?.focus();
    page.defaultView?.requestAnimationFrame(() => page.defaultView?.requestAnimationFrame(focus));
  }

  /** @param {KeyboardEvent} event */
  function anywhere(event) {
    if (event.defaultPrevented || isTyping(event) || !(event.ctrlKey || event.metaKey) || event.altKey) return;
    const key = event.key.toLowerCase();
    const redo = (key === "z" && event.shiftKey) || (key === "y" && !event.shiftKey);
    if (!redo && key !== "z") return;
    event.preventDefault();
    port.dispatch({ type: redo ? "redo" : "undo" });
  }

  root.addEventListener("keydown", onSheet);
  page.addEventListener("keydown", anywhere);
  return () => {
    root.removeEventListener("keydown", onSheet);
    page.removeEventListener("keydown", anywhere);
  };
}

/** @param {KeyboardEvent} event @param {string} letter @returns {boolean} */
function isCommand(event, letter) {
  return (event.ctrlKey || event.metaKey) && !event.altKey && !event.shiftKey && event.key.toLowerCase() === letter;
}
