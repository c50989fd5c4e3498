// The limit "no drilling": what stands, lies or hangs from a rail that is there needs no holes.

/** @import { Kind, Piece, SurfaceName } from "./types.js" */
import { isRug } from "./kinds.js";

/** As the core takes it. @param {Piece["place"]} place @param {SurfaceName} surface @returns {boolean} */
export function needsHoles(place, surface) {
  if (place === "stand" || place === "curtain") return false;
  return place === "corner" || surface !== "floor";
}

/** Whether every place that a kind is meant for needs holes. @param {Kind} kind @returns {boolean} */
export function isDrilledKind(kind) {
  return kind.stands === "stand" || kind.stands === "curtain" ? false : !isRug(kind);
}
