// Going from item to item and from surface to surface by keys, without moving anything.

/**
 * @import { SurfaceName } from "../model/types.js"
 * @import { InputPort } from "./port.js"
 */
import { SURFACES } from "../model/geometry.js";
import { lyingOn } from "../model/laid.js";
import { carried, drawn } from "./port.js";

/** Pieces on a surface, as indices in the shown plan. @param {InputPort} port @param {SurfaceName} surface @returns {number[]} */
function itemsOn(port, surface) {
  const state = port.getState();
  const document = drawn(state);
  return document.plans[state.shown].pieces.flatMap((piece, index) => (lyingOn(document, piece, surface) ? [index] : []));
}

/** The surface that comes next, by 1 or −1, in the order of reading. @param {SurfaceName} surface @param {1|-1} by @returns {SurfaceName} */
export function nextSurface(surface, by) {
  return SURFACES[(SURFACES.indexOf(surface) + by + SURFACES.length) % SURFACES.length];
}

/** @param {InputPort} port @param {number|undefined} index @param {(index: number) => void} focus */
function choose(port, index, focus) {
  if (index === undefined) return;
  port.dispatch({ type: "select", index });
  focus(index);
}

/**
 * @param {KeyboardEvent} event @param {InputPort} port @param {(index: number) => void} focus
 * @returns {boolean} whether the key meant something
 */
export function chooseByKey(event, port, focus) {
  const { surface, selected, picked } = port.getState();
  const items = itemsOn(port, surface);
  const at = items.indexOf(carried(event, "data-piece") ?? selected ?? -1);
  switch (event.key) {
    case "ArrowRight": case "ArrowDown": choose(port, items[Math.min(at + 1, items.length - 1)], focus); return true;
    case "ArrowLeft": case "ArrowUp": choose(port, items[Math.max(at - 1, 0)], focus); return true;
    case "Home": choose(port, items[0], focus); return true;
    case "End": choose(port, items.at(-1), focus); return true;
    case "PageDown": turn(port, nextSurface(surface, 1), focus); return true;
    case "PageUp": turn(port, nextSurface(surface, -1), focus); return true;
    case "Escape": port.dispatch(picked ? { type: "put-down" } : { type: "select", index: null }); return true;
    default: return false;
  }
}

/** @param {InputPort} port @param {SurfaceName} surface @param {(index: number) => void} focus */
function turn(port, surface, focus) {
  port.dispatch({ type: "select", index: null });
  port.dispatch({ type: "face", surface });
  choose(port, itemsOn(port, surface)[0], focus);
}

/** Deletes a piece, or all that is selected with it; the one that takes its place in the order gets the focus. @param {InputPort} port @param {number} index @param {(index: number) => void} focus */
export function removeByKey(port, index, focus) {
  const { selected, together } = port.getState();
  const all = selected === index || together.includes(index) ? together.length + 1 : 1;
  port.dispatch(all > 1 ? { type: "remove-together" } : { type: "remove-piece", index });
  const rest = itemsOn(port, port.getState().surface);
  choose(port, rest.find((at) => at >= index) ?? rest.at(-1), focus);
}
