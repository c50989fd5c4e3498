// The words of the Answer line: the central value of the plan in hand and of today against the goal.

/**
 * @import { Answer, Scenario } from "./types.js"
 * @typedef {{text: string, figure?: boolean}} AnswerPart   figure: to be emphasised
 * @typedef {"above"|"inside"|"below"|"undefined"} Verdict   where the plan in hand is, against the goal
 * @typedef {{parts: AnswerPart[], text: string, verdict: Verdict}} AnswerWords
 */
import { seconds, secondsRange } from "./format.js";
import { planName } from "./words.js";

/** Middle decay that each taste aims at. @type {Readonly<Record<"focused"|"lived-in"|"spacious", readonly [number, number]>>} */
const TASTES_S = Object.freeze({
  // Our choice, placed about trade advice for homes and surveys of furnished living rooms.
  focused: /** @type {const} */ ([0.2, 0.35]), "lived-in": /** @type {const} */ ([0.3, 0.5]), spacious: /** @type {const} */ ([0.4, 0.65]),
});
/** Above this volume both ends of a taste's goal are longer. */
const LARGE_ROOM_M3 = 120;
const LARGE_ROOM_EXTRA_S = 0.1;

const UNSURE = "How sure this is, is not computed yet.";

/** The goal of a document: its own figures, or those of its taste and volume. @param {Scenario} document @returns {{low_s: number, high_s: number}} */
export function goalRange({ goal, room }) {
  if (goal && "low_s" in goal) return { low_s: goal.low_s, high_s: goal.high_s };
  const [low_s, high_s] = TASTES_S[goal?.taste ?? "lived-in"];
  const extra_s = room.width_m * room.length_m * room.height_m > LARGE_ROOM_M3 ? LARGE_ROOM_EXTRA_S : 0;
  return { low_s: hundredths(low_s + extra_s), high_s: hundredths(high_s + extra_s) };
}

/** As it is shown; what is compared must not differ from what is read. @param {number} value_s @returns {number} */
function hundredths(value_s) {
  return Math.round(value_s * 100) / 100;
}

/** @param {number} value_s @param {{low_s: number, high_s: number}} goal @returns {Verdict} */
function verdictOf(value_s, { low_s, high_s }) {
  const shown_s = hundredths(value_s);
  if (shown_s > hundredths(high_s)) return "above";
  return shown_s < hundredths(low_s) ? "below" : "inside";
}

/** What the Answer line says. @param {Answer} answer @returns {AnswerWords} */
export function answerWords(answer) {
  const goal = goalRange(answer.document);
  const value_s = answer.shown.mid.t20_s;
  const verdict = value_s === null || !Number.isFinite(value_s) ? "undefined" : verdictOf(value_s, goal);
  const parts = value_s === null || verdict === "undefined"
    ? [{ text: `${subject(answer)}: too little absorbs here for a decay time. Check the surfaces.` }]
    : [...firstSentence(answer, value_s), { text: ` ${goalSentence(goal, verdict)}${hint(answer, verdict)} ${UNSURE}` }];
  return { parts, text: parts.map(({ text }) => text).join(""), verdict };
}

/** @param {Answer} answer @returns {string} */
function subject({ document, plan }) {
  return plan === 0 ? "Today" : planName(document.plans[plan].name);
}

/** @param {Answer} answer @param {number} value_s @returns {AnswerPart[]} */
function firstSentence(answer, value_s) {
  const figure = { text: seconds(value_s), figure: true };
  const today_s = answer.now.mid.t20_s;
  if (answer.plan === 0) return [{ text: "Today sound dies away in about " }, figure, { text: "." }];
  const lead = { text: `${subject(answer)}: sound should die away in about ` };
  if (today_s === null || !Number.isFinite(today_s)) return [lead, figure, { text: "; today has no decay time." }];
  const same = hundredths(today_s) === hundredths(value_s);
  return [lead, figure, { text: same ? ", the same as today." : `, today ${seconds(today_s)}.` }];
}

/** @param {{low_s: number, high_s: number}} goal @param {Verdict} verdict @returns {string} */
function goalSentence({ low_s, high_s }, verdict) {
  return `Your goal is ${secondsRange(low_s, high_s)}: ${verdict} it.`;
}

/** @param {Answer} answer @param {Verdict} verdict @returns {string} */
function hint({ document, plan }, verdict) {
  const empty = document.plans[plan].pieces.length === 0;
  if (plan === 0) return verdict === "inside" ? " Panels would mostly make it duller." : "";
  if (empty) return " Put one thing where a bounce mark is and watch the strip.";
  return verdict === "below" ? " That can sound dull: try with less." : "";
}
