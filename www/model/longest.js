// The longest that the words of the Answer line may become once ranges and bass are there, so that room is kept for them.

/**
 * @import { Answer, Ranges } from "./types.js"
 * @import { Doubt } from "./answer.js"
 * @typedef {{answers: string[], doubts: string[]}} Longest
 */
import { answerWords, goalRange, hundredths, isInside, oddWords, verdictOf } from "./answer.js";
import { costSentence } from "./compare_words.js";
import { mayBoom, maySoft, sidesDiffer } from "./findings.js";
import { planName } from "./words.js";

/** Figures of these lengths stand for those to come, s. */
const SHORT_FIGURE_S = 0.88;
const LONG_FIGURE_S = 88.88;
/** From here on a range may reach the longer figures, s. */
const LONG_FROM_S = 5;
/** As long as these may get. */
const LONGEST_BOOM = "Two bass notes share 56 Hz in this square room. Moving the seat 48 cm forward helps more, for nothing. ";
const LONGEST_SOFT = "Too soft on top: treble would fade in 0.88\u20130.88 s while 250 Hz takes 0.88\u20130.88 s. ";
const BOOM_LEAD = "Panels will not fix the boom. ";

/** The last ones, and what their lengths depend on. @type {{key: string, longest: Longest}|null} */
let last = null;

/**
 * As the answer and as what follows it. Kept for as long as no length can differ: a drag asks at every move.
 * @param {Answer} answer @returns {Longest}
 */
export function longestWords(answer) {
  const key = lengthsKey(answer);
  if (last?.key !== key) last = { key, longest: workedOut(answer) };
  return last.longest;
}

/** All that the lengths depend on. @param {Answer} answer @returns {string} */
export function lengthsKey(answer) {
  const { document, plan, compared, shown, now, other } = answer;
  const goal = goalRange(document);
  const times = [shown, now, ...(other ? [other] : [])].map(({ mid: { t20_s } }) => (t20_s === null || !Number.isFinite(t20_s) ? "" : t20_s.toFixed(2).length));
  const value_s = shown.mid.t20_s ?? NaN;
  const names = [0, plan, compared ?? 0].map((index) => document.plans[index].name);
  return JSON.stringify([
    plan, compared, names, times, goal, document.measured !== undefined, document.plans[plan].pieces.length === 0,
    Number.isFinite(value_s) && verdictOf(value_s, goal), now.mid.t20_s !== null && hundredths(now.mid.t20_s) === hundredths(value_s), isInside(now.mid.t20_s, document),
    figureLength(answer), mayBoom(document), maySoft(answer, goal), sidesDiffer(answer)?.more.length, oddWords(answer), other && costSentence(answer).length,
  ]);
}

/** @param {Answer} answer @returns {Longest} */
function workedOut(answer) {
  const said = longestDoubts(answer).map((doubt) => answerWords(answer, doubt).parts);
  /** @param {boolean} follows */
  const texts = (follows) => said.map((parts) => parts.filter(({ doubt = false }) => doubt === follows).map(({ text }) => text).join("").trim());
  const [lead, more] = findingsToCome(answer);
  return { answers: longestTwo(texts(false)).map((text) => lead + text), doubts: longestTwo(texts(true)).map((text) => `${more}${text}`) };
}

/** What may be found once ranges and bass are there, as long as it may get. @param {Answer} answer @returns {[string, string]} */
function findingsToCome(answer) {
  const boomed = mayBoom(answer.document);
  const soft = maySoft(answer, goalRange(answer.document));
  const more = `${boomed ? LONGEST_BOOM : ""}${soft ? LONGEST_SOFT : ""}`;
  // While two plans are compared, nothing but the difference begins the answer.
  if (answer.other) return ["", `${boomed ? BOOM_LEAD : ""}${soft ? `${planName(answer.document.plans[answer.plan].name)} is ` : ""}${more}`];
  return [boomed ? BOOM_LEAD : soft ? "Too soft on top. " : "", more];
}

/** @param {Answer} answer @returns {number} s */
function figureLength({ shown, now }) {
  return Math.max(shown.mid.t20_s ?? 0, now.mid.t20_s ?? 0) < LONG_FROM_S ? SHORT_FIGURE_S : LONG_FIGURE_S;
}

/** Today apart and alike with the goal missed, alike with the goal met, and nothing there yet. @param {Answer} answer @returns {Doubt[]} */
function longestDoubts(answer) {
  const { document, plan, compared } = answer;
  const figure_s = figureLength(answer);
  /** @param {number} goal_met @param {number} [low_s] */
  const ranges = (goal_met, low_s = figure_s) => /** @type {Ranges} */ ({ mid: { low_s, high_s: figure_s, goal_met }, ...(document.measured && { checked: {} }) });
  const differences = [{ from: document.plans[compared ?? 0].name, to: document.plans[plan].name, mid_s: 0, low_s: -figure_s, high_s: figure_s }];
  /** @param {Ranges|null} one @param {Ranges|null} today @returns {Doubt} */
  const doubt = (one, today) => ({ ranges: one, today, beside: today, differences, missing: "coming" });
  const [missed, met] = [ranges(0), ranges(1)];
  return [doubt(missed, ranges(0, figure_s / 2)), doubt(missed, missed), doubt(met, met), doubt(null, null)];
}

/** @param {string[]} texts @returns {string[]} */
function longestTwo(texts) {
  return [...texts].sort((a, b) => b.length - a.length).slice(0, 2);
}
