// The document as it is on the sheet, and small ways to change one part of it without touching the rest.

/**
 * @import { Piece, Plan, Scenario, State } from "./types.js"
 * @import { Laid } from "./laid.js"
 */
import { lay, stored } from "./laid.js";
import { MOST } from "./limits.js";

/** What to draw and to compute: the document of the gesture under way, or the state's own. @param {State} state @returns {Scenario} */
export function onSheet(state) {
  return state.drag?.document ?? state.document;
}

/** All that is selected, the one whose numbers are shown first. @param {Pick<State, "selected"|"together">} state @returns {number[]} */
export function group({ selected, together }) {
  return selected === null ? [] : [selected, ...together];
}

/** A piece as it lies. @param {Scenario} document @param {number} planIndex @param {number} index @returns {Laid|null} */
export function laidPieceAt(document, planIndex, index) {
  const piece = document.plans[planIndex]?.pieces[index];
  return piece ? lay(document, piece) : null;
}

/** @param {Scenario} document @param {number} planIndex @param {Plan} plan @returns {Scenario} */
export function withPlan(document, planIndex, plan) {
  return { ...document, plans: document.plans.map((old, index) => (index === planIndex ? plan : old)) };
}

/** @param {Scenario} document @param {number} planIndex @param {Piece[]} pieces @returns {Scenario} */
export function withPieces(document, planIndex, pieces) {
  return withPlan(document, planIndex, { ...document.plans[planIndex], pieces });
}

/**
 * A piece put at an index of a plan; at its length, added.
 * @param {Scenario} document @param {number} planIndex @param {number} index @param {Piece|Laid} piece @returns {Scenario}
 */
export function withPiece(document, planIndex, index, piece) {
  const pieces = [...document.plans[planIndex].pieces];
  pieces[index] = stored(document, piece);
  return withPieces(document, planIndex, pieces);
}

/** Text of a person for a name: trimmed, and no longer than a name may be. @param {string} text @returns {string} */
export function nameText(text) {
  return [...text.replace(/\s+/g, " ").trim()].slice(0, MOST.text).join("");
}

/**
 * The document without paths that a person has now touched in its list of assumptions, nor what lies below or above them.
 * @param {Scenario} document @param {...string} paths @returns {Scenario}
 */
export function touched(document, ...paths) {
  const assumed = document.assumed?.filter((entry) => !paths.some((path) => isWithin(entry, path) || isWithin(path, entry)));
  return assumed && assumed.length !== document.assumed?.length ? { ...document, assumed } : document;
}

/** Whether a path is another one or lies below it. @param {string} path @param {string} above @returns {boolean} */
function isWithin(path, above) {
  return path.startsWith(above) && ["", ".", "["].includes(path.charAt(above.length));
}
