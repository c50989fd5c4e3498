/**
 * The Answer line: one sentence, what is honest about it, and a small picture of the same.
 *
 * @import { AnswerWords } from "../model/answer.js"
 * @import { Longest } from "../model/longest.js"
 * @import { Answer } from "../model/types.js"
 * @import { Scene } from "./scene.js"
 */
import { html, nothing } from "../vendor.js";
import { answerChart } from "../chart/answer.js";
import { answerWords, goalRange } from "../model/answer.js";
import { count, money } from "../model/format.js";
import { rangesFor } from "../model/late.js";
import { longestWords } from "../model/longest.js";
import { costOf, costText as costWords } from "../model/money.js";
import { planLabel } from "../model/words.js";
import { SHORT_LABEL, besideOf, doubtOf } from "./late.js";
import { steady } from "./steady.js";
import { why } from "./why.js";

/** As wide as what stands between the parts of one run, or wider. */
const GAP = "\u2002\u2002";

/** @type {Longest} */
const NONE_TO_COME = { answers: [], doubts: [] };

/** The last words: two regions say parts of the same ones. @type {{from: unknown[], words: AnswerWords, longest: Longest}|null} */
let last = null;

/**
 * @param {Scene} scene
 * @param {Answer} answer
 */
function wordsOf(scene, answer) {
  const { document, state: { late, bass, otherBass, units } } = scene;
  const from = [answer, late, document, bass, otherBass, units];
  if (!last || from.some((one, index) => last?.from[index] !== one)) {
    const longest = scene.offers.ranges ? longestWords(answer) : NONE_TO_COME;
    last = { from, words: answerWords(answer, doubtOf(scene)), longest };
  }
  return last;
}

/** Whether ranges are still on their way. @param {Scene} scene @returns {boolean} */
export function isCatchingUp({ state: { late, shown, compared }, document, offers }) {
  return offers.ranges && [shown, 0, compared ?? 0].some((plan) => rangesFor(late, document, plan) === undefined);
}

/** @param {Scene} scene */
export function answerLine(scene) {
  const answer = scene.state.answer;
  if (!answer) return html`<h1>Working out what the room does.</h1>`;
  const { words, longest } = wordsOf(scene, answer);
  const parts = words.parts.filter((part) => !part.doubt);
  return steady(html`<h1>${parts.map((part) => (part.figure ? html`<b>${part.text}</b>` : part.word ? html`<em>${part.text}</em>` : unbroken(part.text)))}</h1>`, longest.answers);
}

/** A range with its unit. */
const RANGE = /(\d[\d.]*–[\d.]+\u202fs)/;

/** Text whose ranges stay on one line. @param {string} text */
function unbroken(text) {
  return text.split(RANGE).map((run, index) => (index % 2 === 1 ? html`<span class="unbroken">${run}</span>` : run));
}

/**
 * What follows the answer and is set smaller: a hint, and how sure it is.
 * @param {Scene} scene
 */
export function doubtLine(scene) {
  const answer = scene.state.answer;
  return answer ? html`${steady(doubt(scene, answer), wordsOf(scene, answer).longest.doubts)}${why(scene, doubtOf(scene))}` : nothing;
}

/**
 * @param {Scene} scene
 * @param {Answer} answer
 */
function doubt(scene, answer) {
  const text = wordsOf(scene, answer).words.parts.find((part) => part.doubt)?.text ?? "";
  return html`<p class="doubt">${text.trim()}</p>`;
}

/**
 * On a narrow page the answer is too tall to stay in view: its figure and its word stay instead.
 * @param {Scene} scene
 */
export function shortAnswer(scene) {
  const answer = scene.state.answer;
  const parts = answer ? wordsOf(scene, answer).words.parts.filter(({ figure, word }) => figure || word) : [];
  return parts.length === 0 ? nothing : html`<p class="short-answer" aria-hidden="true">${planLabel(scene.plan.name, SHORT_LABEL)}: <b>${parts[0].text}</b>${parts.slice(1).map(({ text }) => `, ${text}`)}</p>`;
}

/**
 * Beside the plans on a wide page: the cost and what follows the answer, in one run of text.
 * @param {Scene} scene
 */
export function besideLine(scene) {
  const answer = scene.state.answer;
  const cost = costText(scene);
  const forms = answer ? wordsOf(scene, answer).longest.doubts.map((form) => [cost, form, "Why?"].join(GAP)) : [];
  return steady(html`<div class="beside">${costLine(scene)}${answer ? html`${doubt(scene, answer)}${why(scene, doubtOf(scene))}` : nothing}</div>`, forms);
}

/**
 * @param {Scene} scene
 * @param {number} width_px
 */
export function answerPicture(scene, width_px) {
  const { shown, state, plan } = scene;
  const beside = besideOf(scene);
  if (!beside.report) return nothing;
  const doubt = doubtOf(scene);
  return answerChart({
    now_s: beside.report.mid.t20_s,
    nowName: beside.label,
    nowLook: beside.look,
    plan_s: state.shown > 0 && shown ? shown.mid.t20_s : null,
    now_range: beside.ranges?.mid ?? (state.shown === 0 ? doubt.ranges?.mid ?? null : null),
    plan_range: doubt.ranges?.mid ?? null,
    waiting: doubt.ranges === null && doubt.missing === "coming",
    planName: planLabel(plan.name, SHORT_LABEL),
    goal: goalRange(scene.document),
    width_px,
  });
}

/** What the plan takes: pieces, price. @param {Scene} scene */
export function costLine(scene) {
  return html`<p class="also">${costText(scene)}</p>`;
}

/** @param {Scene} scene */
function costText({ plan, document, state }) {
  const cost = costOf(document, plan);
  if (cost.pieces === 0) return state.shown === 0 ? "The room as it stands." : "Nothing placed in this plan yet.";
  const budget = document.limits?.budget;
  const of = budget === undefined ? "" : ` of ${money(budget, document.currency)}`;
  return `${count(cost.pieces)} ${cost.pieces === 1 ? "piece" : "pieces"}, ${costWords(cost, document.currency)}${of}.`;
}
