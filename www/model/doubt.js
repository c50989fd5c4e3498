// How sure something is, in words of fixed meaning, and differences that are only claimed where they are real.

/** @import { Difference } from "./types.js" */
import { number, secondsRange } from "./format.js";

/** Shares of the draws from which on each word holds. */
const VERY_LIKELY = 0.9;
const LIKELY = 2 / 3;
const UNLIKELY = 1 / 3;
const VERY_UNLIKELY = 0.1;
/** Shares are of a few hundred draws; binary fractions of them must not fall below a bound that they meet. */
const EPSILON = 1e-9;

/**
 * The word for how often the draws meet a goal, and what follows it in "Your goal is …:".
 * @param {number} share 0 … 1 @returns {{word: string, rest: string}}
 */
export function confidence(share) {
  if (share >= VERY_LIKELY - EPSILON) return { word: "very likely", rest: " met" };
  if (share >= LIKELY - EPSILON) return { word: "likely", rest: " met" };
  if (share > UNLIKELY + EPSILON) return { word: "could go either way", rest: "" };
  if (share > VERY_UNLIKELY + EPSILON) return { word: "unlikely", rest: " to be met" };
  return { word: "very unlikely", rest: " to be met" };
}

/** @param {number} share @returns {boolean} */
export function isLikely(share) {
  return share >= LIKELY - EPSILON;
}

/** All five, for the explanation. */
export const CONFIDENCE_WORDS = "Very likely: 9 times in 10 or more. Likely: 2 in 3 or more. Could go either way: between. "
  + "Unlikely: 1 in 3 or less. Very unlikely: 1 in 10 or less.";

/** The pair of two plans, whichever way round it was computed. @param {readonly Difference[]} differences @param {string} from @param {string} to @returns {Difference|null} */
export function differenceOf(differences, from, to) {
  const straight = differences.find((one) => one.from === from && one.to === to);
  if (straight) return straight;
  const back = differences.find((one) => one.from === to && one.to === from);
  return back ? { from, to, mid_s: back.mid_s === null ? null : -back.mid_s, low_s: -back.high_s, high_s: -back.low_s } : null;
}

/** Whether even the sign of a difference is open, as it would be shown. @param {Difference} difference @returns {boolean} */
export function isTooClose({ low_s, high_s }) {
  return hundredths(low_s) <= 0 && hundredths(high_s) >= 0;
}

/** @param {number} value_s @returns {number} */
function hundredths(value_s) {
  return Math.round(value_s * 100) / 100;
}

/**
 * "shorter than today by 0.27–0.36 s", or that it is too close to call.
 * @param {Difference} difference @param {string} other  what `from` is called in the sentence @returns {string}
 */
export function differenceWords(difference, other) {
  const { low_s, high_s } = difference;
  if (hundredths(low_s) === 0 && hundredths(high_s) === 0) return `within 0.01 s of ${other}: too close to call`;
  if (isTooClose(difference)) {
    return `between ${side(low_s)} and ${side(high_s)} than ${other}: too close to call`;
  }
  return high_s < 0 ? `shorter than ${other} by ${secondsRange(-high_s, -low_s)}` : `longer than ${other} by ${secondsRange(low_s, high_s)}`;
}

/** @param {number} value_s @returns {string} */
function side(value_s) {
  return `${number(Math.abs(value_s), 2)} s ${value_s <= 0 ? "shorter" : "longer"}`;
}
