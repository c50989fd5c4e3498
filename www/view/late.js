/**
 * How far the ranges have come for what is drawn now.
 *
 * @import { Doubt } from "../model/answer.js"
 * @import { Ranges } from "../model/types.js"
 * @import { Scene } from "./scene.js"
 */
import { differencesFor, rangesFor } from "../model/late.js";

/** @param {Scene} scene @returns {Doubt} */
export function doubtOf({ state, document, offers }) {
  const ranges = rangesFor(state.late, document, state.shown);
  return {
    ranges: usable(ranges), today: usable(rangesFor(state.late, document, 0)), differences: differencesFor(state.late, document),
    missing: !offers.ranges ? "none" : ranges === undefined ? "coming" : "failed",
  };
}

/** A room in which the sound may not decay at all has no range. @param {Ranges|null|undefined} ranges */
function usable(ranges) {
  return ranges && Number.isFinite(ranges.mid.low_s + ranges.mid.high_s) ? ranges : null;
}
