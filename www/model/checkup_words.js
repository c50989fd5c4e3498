// The check-up in words: measured beside predicted, and what would make a range surer.

/** @import { CheckupEntry, Preview, Surer } from "./types.js" */
import { confidence } from "./doubt.js";
import { frequency, number, percent, secondsRange } from "./format.js";
import { planName } from "./words.js";

/** Measured beside predicted, by band, in one sentence. @param {CheckupEntry} entry @returns {string} */
export function readingOf({ bands_hz, measured_s, before, counted }) {
  const longer = sides(bands_hz, measured_s, before, counted);
  if (!counted.some(Boolean)) return "no band counts: this low a small room rings at single notes";
  if (longer.above.length + longer.below.length === 0) return "every band that counts lies in the predicted range";
  const said = [longer.above.length > 0 ? `longer than the range at ${longer.above.map(frequency).join(", ")}` : "", longer.below.length > 0 ? `shorter at ${longer.below.map(frequency).join(", ")}` : ""];
  return said.filter(Boolean).join("; ");
}

/** @param {ArrayLike<number>} bands_hz @param {ArrayLike<number>} measured_s @param {CheckupEntry["before"]} before @param {boolean[]} counted */
function sides(bands_hz, measured_s, before, counted) {
  const all = Array.from(bands_hz, (hz, index) => ({ hz, index })).filter(({ index }) => counted[index]);
  return {
    above: all.filter(({ index }) => measured_s[index] > before.high_s[index]).map(({ hz }) => hz),
    below: all.filter(({ index }) => measured_s[index] < before.low_s[index]).map(({ hz }) => hz),
  };
}

/** "0.41–0.52 s; your goal: likely met". @param {Preview} preview @returns {string} */
export function previewWords({ low_s, high_s, goal_met }) {
  const { word, rest } = confidence(goal_met);
  return `${secondsRange(low_s, high_s)}; your goal: ${word}${rest}`;
}

/** How much narrower a range would be. @param {Preview} now @param {Preview} known @returns {string} */
export function narrowerWords(now, known) {
  const share = 1 - (known.high_s - known.low_s) / (now.high_s - now.low_s);
  return share < 0.005 ? "hardly narrower" : `${percent(share)} narrower`;
}

/**
 * The list: one measured decay where none is there yet, then the inputs, first what would leave the narrowest range. How much of
 * the variance an input makes is not said beside that: half of the variance gone narrows a range by three tenths only.
 * @param {Surer} surer @returns {{what: string, how: string, then: string, narrower: string}[]}
 */
export function surerList({ now, inputs, measured }) {
  const one = measured ? [{
    what: `One measured decay, ${measured.plan === "Now" ? "in the room as it is" : `in ${planName(measured.plan)}`}`, how: "Enter it below.",
    then: previewWords(measured.known), narrower: narrowerWords(now, measured.known),
  }] : [];
  const width_s = (/** @type {Preview} */ { low_s, high_s }) => high_s - low_s;
  const known = inputs.toSorted((a, b) => width_s(a.known) - width_s(b.known)).map(({ words, advice, known: preview }) => ({
    what: words, how: advice, then: previewWords(preview), narrower: narrowerWords(now, preview),
  }));
  return [...one, ...known];
}

/** "about 1.3 times (1.1–1.6)". @param {{factor: number, low: number, high: number}} learnt @returns {string} */
export function factorWords({ factor, low, high }) {
  return `about ${number(factor, 2)} times what was assumed (8 times in 10: ${number(low, 2)}–${number(high, 2)})`;
}
