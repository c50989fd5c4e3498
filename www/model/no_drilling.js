// The limit "no drilling": what stands, lies or hangs from a rail that is there needs no holes.

/** @import { Kind, Piece, Scenario, SurfaceName } from "./types.js" */
import { isRug } from "./kinds.js";

/** As the core takes it. @param {Piece["place"]} place @param {SurfaceName} surface @returns {boolean} */
export function needsHoles(place, surface) {
  if (place === "stand" || place === "curtain") return false;
  return place === "corner" || surface !== "floor";
}

/** Whether every place that a kind is meant for needs holes. @param {Kind} kind @returns {boolean} */
function isDrilledKind(kind) {
  return kind.stands === "stand" || kind.stands === "curtain" ? false : !isRug(kind);
}

/**
 * The kinds that the home allows, and how many more there are.
 * @param {Pick<Scenario, "limits">} document @param {Kind[]} kinds @returns {{kinds: Kind[], hidden: number}}
 */
export function withinLimits({ limits }, kinds) {
  const allowed = limits?.no_drilling ? kinds.filter((kind) => !isDrilledKind(kind)) : kinds;
  return { kinds: allowed, hidden: kinds.length - allowed.length };
}

/** Why some are not on the shelf; empty if all are. @param {number} hidden @returns {string} */
export function hiddenText(hidden) {
  if (hidden === 0) return "";
  return `${hidden === 1 ? "1 kind is" : `${hidden} kinds are`} not shown: your limit is no drilling, and they need holes. What stands, lies or hangs from a rail that is there needs none.`;
}
