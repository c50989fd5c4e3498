// What the inputs need from the page, and how they find things on it.

/**
 * @import { Dispatch } from "../model/actions.js"
 * @import { Kind, Scenario, StandsAt, State, SurfaceName } from "../model/types.js"
 * @import { Laid } from "../model/laid.js"
 * @typedef {{surface: SurfaceName, u_m: number, v_m: number, metresPerPixel: number}} Located  where a pointer is on a surface
 * @typedef {{ux: number, uy: number, vx: number, vy: number}} ScreenAxes  pixels right and down per metre of u and of v
 *
 * @typedef {object} InputPort
 * @property {Dispatch} dispatch
 * @property {() => State} getState
 * @property {(event: {clientX: number, clientY: number}) => Located|null} locate
 * @property {(id: string) => Kind|null} findKind      for `data-kind`: of the document's kit, else of the shelf
 * @property {() => number} now                        milliseconds
 * @property {(index: number|null) => void} [editNumbers]  puts the focus on the number fields of a piece, or with null of what stands
 * @property {(surface: SurfaceName) => ScreenAxes|null} [screenAxes]  how a surface lies on the screen now
 */
import { lay } from "../model/laid.js";

/** What is drawn now: the document of the gesture under way, or the state's own. @param {State} state @returns {Scenario} */
export function drawn(state) {
  return state.drag?.document ?? state.document;
}

/**
 * A piece of the shown plan as it is drawn; one that is seen on two surfaces, on the named one.
 * @param {State} state @param {number} index @param {SurfaceName} [on] @returns {Laid|null}
 */
export function drawnPiece(state, index, on) {
  const document = drawn(state);
  const piece = document.plans[state.shown]?.pieces[index];
  return piece ? lay(document, piece, on) : null;
}

/** The nearest element outward that carries an attribute. @param {Event} event @param {string} attribute @returns {Element|null} */
export function carrier(event, attribute) {
  return event.target instanceof Element ? event.target.closest(`[${attribute}]`) : null;
}

/** The whole number in an attribute of the nearest element that carries it. @param {Event} event @param {string} attribute @returns {number|null} */
export function carried(event, attribute) {
  const text = carrier(event, attribute)?.getAttribute(attribute);
  return text !== null && text !== undefined && /^\d+$/.test(text) ? Number(text) : null;
}

/** The loudspeaker or seat that an event goes to. @param {Event} event @returns {StandsAt|null} */
export function carriedSpot(event) {
  return carried(event, "data-loudspeaker") ?? (carrier(event, "data-seat") ? "seat" : null);
}

/** Whether an event goes to something one types into. @param {Event} event @returns {boolean} */
export function isTyping(event) {
  const { target } = event;
  if (!(target instanceof Element)) return false;
  if (target.closest("textarea, select, [contenteditable='true']")) return true;
  const type = target.closest("input")?.getAttribute("type") ?? null;
  return target.closest("input") !== null && !["checkbox", "radio", "button", "submit", "file"].includes(type ?? "text");
}
