// Which kinds of the shelf the limits of the home leave, and why the others are not shown.

/** @import { Kind, Scenario } from "./types.js" */
import { looksLimit, mayLook } from "./looks_like.js";
import { isDrilledKind } from "./no_drilling.js";

/**
 * The kinds that the home allows, those that need holes, and of the rest those that look unlike what is allowed.
 * @param {Pick<Scenario, "limits">} document @param {Kind[]} kinds
 * @returns {{kinds: Kind[], drilled: Kind[], unlike: Kind[]}}
 */
export function withinLimits(document, kinds) {
  const drilled = document.limits?.no_drilling ? kinds.filter(isDrilledKind) : [];
  const unlike = kinds.filter((kind) => !drilled.includes(kind) && !mayLook(document, kind));
  return { kinds: kinds.filter((kind) => !drilled.includes(kind) && !unlike.includes(kind)), drilled, unlike };
}

/** Why some are not on the shelf, in a sentence or two for each limit. @param {Pick<Scenario, "limits">} document @param {{drilled: Kind[], unlike: Kind[]}} hidden @returns {string[]} */
export function hiddenTexts(document, { drilled, unlike }) {
  return [
    drilled.length === 0 ? "" : `${count(drilled)} not shown: your limit is no drilling, and they need holes. What stands, lies or hangs from a rail that is there needs none.`,
    unlike.length === 0 ? "" : `${count(unlike)} not shown: your limit is ${looksLimit(document)}, and they do not. A printed panel counts as a picture; curtains, rugs, a shelf of books and a screen on feet count as furniture.`,
  ].filter((text) => text !== "");
}

/** @param {Kind[]} hidden @returns {string} */
function count({ length }) {
  return length === 1 ? "1 kind is" : `${length} kinds are`;
}
