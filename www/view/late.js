/**
 * How far ranges and bass have come for what is drawn now, and what the plan in hand is drawn beside.
 *
 * @import { Doubt } from "../model/answer.js"
 * @import { Bass, LateBass, PlanReport, Ranges, Scenario } from "../model/types.js"
 * @import { Scene } from "./scene.js"
 *
 * @typedef {object} Beside  Today, or the plan that the one in hand is compared with.
 * @property {PlanReport|null} report
 * @property {Ranges|null} ranges
 * @property {string} name   in a sentence
 * @property {string} label  where it stands alone, short
 * @property {"now"|"other"} look
 */
import { differencesFor, rangesFor, sameGround } from "../model/late.js";
import { planLabel, planName } from "../model/words.js";

/** @param {Scene} scene @returns {Doubt} */
export function doubtOf({ state, document, offers }) {
  const { shown, compared, late, bass, otherBass, units } = state;
  const ranges = rangesFor(late, document, shown);
  return {
    ranges: usable(ranges), today: usable(rangesFor(late, document, 0)), differences: differencesFor(late, document),
    missing: !offers.ranges ? "none" : ranges === undefined ? "coming" : "failed",
    beside: compared === null ? null : usable(rangesFor(late, document, compared)),
    bass: bassOf(bass, document, shown), todayBass: bassOf(otherBass, document, 0), units,
  };
}

/** A room in which the sound may not decay at all has no range. @param {Ranges|null|undefined} ranges */
function usable(ranges) {
  return ranges && Number.isFinite(ranges.mid.low_s + ranges.mid.high_s) ? ranges : null;
}

/**
 * The bass of a plan while its room and its places are the same: what is told of it does not hang on where a piece is.
 * @param {LateBass|null} come
 * @param {Scenario} document
 * @param {number} plan
 * @returns {Bass|null}
 */
function bassOf(come, document, plan) {
  if (!come || come.plan !== plan || !sameGround({ ...come.document, kit: document.kit }, document)) return null;
  return come.document.plans[plan]?.listening === document.plans[plan]?.listening ? come.bass : null;
}

/** A column or the end of a chart has room for so many letters. */
export const SHORT_LABEL = 10;

/** @param {Scene} scene @returns {Beside} */
export function besideOf({ state: { compared, late, answer }, document, now }) {
  if (compared === null) return { report: now, ranges: usable(rangesFor(late, document, 0)), name: "today", label: "today", look: "now" };
  const report = answer?.compared === compared ? answer.other ?? null : null;
  return { report, ranges: usable(rangesFor(late, document, compared)), name: planName(document.plans[compared].name), label: planLabel(document.plans[compared].name, SHORT_LABEL), look: "other" };
}
