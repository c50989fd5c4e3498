// The words of the Answer line while two plans are compared: the difference first, with its range, or that it is too close to
// call; then both against the goal; then what the one costs beside the other.

/**
 * @import { Answer, Ranges } from "./types.js"
 * @import { AnswerPart, Doubt } from "./answer.js"
 */
import { confidence, differenceOf, differenceWords } from "./doubt.js";
import { seconds, secondsRange } from "./format.js";
import { costDifference, costOf } from "./money.js";
import { planName } from "./words.js";

/** @param {Answer} answer with the plan that it is compared with @param {Doubt} doubt @param {{low_s: number, high_s: number}} goal @returns {AnswerPart[]} */
export function compareParts(answer, doubt, goal) {
  const { document, plan, compared, shown, other } = answer;
  const [name, beside] = [document.plans[plan].name, document.plans[compared ?? 0].name];
  const [one, another] = [planName(name), planName(beside)];
  const difference = doubt.ranges && doubt.beside ? differenceOf(doubt.differences, beside, name) : null;
  const times = `${timeText(shown.mid.t20_s, doubt.ranges)}, ${another} in ${timeText(other?.mid.t20_s ?? null, doubt.beside ?? null)}`;
  if (!difference) {
    return [{ text: `${one}: sound should die away in about ` }, { text: times, figure: true }, { text: "." },
      { text: ` ${doubt.missing === "failed" ? "The difference could not be computed here." : "The difference is catching up."}`, doubt: true }];
  }
  return [
    { text: `${one} is ` }, { text: differenceWords(difference, another), figure: true },
    { text: `. Your goal is ${secondsRange(goal.low_s, goal.high_s)}: ` }, chance(doubt.ranges), { text: `, ${another} ` }, chance(doubt.beside ?? null), { text: "." },
    { text: ` It should die away in ${times}${doubt.ranges?.checked ? ", after your check-up" : ""}. ${costSentence(answer)}`, doubt: true },
  ];
}

/** @param {number|null} value_s @param {Ranges|null} ranges @returns {string} */
function timeText(value_s, ranges) {
  if (ranges) return secondsRange(ranges.mid.low_s, ranges.mid.high_s);
  return value_s === null || !Number.isFinite(value_s) ? "without end" : seconds(value_s);
}

/** @param {Ranges|null} ranges @returns {AnswerPart} */
function chance(ranges) {
  return { text: ranges ? confidence(ranges.mid.goal_met).word : "not known", word: true };
}

/** "Plan B costs 120 less." @param {Answer} answer @returns {string} */
export function costSentence({ document, plan, compared }) {
  const [one, other] = [document.plans[plan], document.plans[compared ?? 0]];
  const words = costDifference(costOf(document, one), costOf(document, other), document.currency);
  return words === "" ? "What they cost is not all known yet." : `${planName(one.name)} ${words}.`;
}
