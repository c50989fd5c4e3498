/**
 * The Answer line: one sentence, what is honest about it, and a small picture of the same.
 *
 * @import { AnswerWords } from "../model/answer.js"
 * @import { Answer, Late, Scenario } from "../model/types.js"
 * @import { Scene } from "./scene.js"
 */
import { html, nothing } from "../vendor.js";
import { answerChart } from "../chart/answer.js";
import { answerWords, goalRange } from "../model/answer.js";
import { count, money } from "../model/format.js";
import { planName } from "../model/words.js";
import { doubtOf } from "./late.js";
import { why } from "./why.js";

/** The last words: two regions say parts of the same ones. @type {{answer: Answer, late: Late|null, document: Scenario, words: AnswerWords}|null} */
let last = null;

/**
 * @param {Scene} scene
 * @param {Answer} answer
 */
function wordsOf(scene, answer) {
  const { document, state: { late } } = scene;
  if (!last || last.answer !== answer || last.late !== late || last.document !== document) {
    last = { answer, late, document, words: answerWords(answer, doubtOf(scene)) };
  }
  return last.words;
}

/** @param {Scene} scene */
export function answerLine(scene) {
  const answer = scene.state.answer;
  if (!answer) return html`<h1>Working out what the room does.</h1>`;
  const parts = wordsOf(scene, answer).parts.filter((part) => !part.doubt);
  return html`<h1>${parts.map((part) => (part.figure ? html`<b>${part.text}</b>` : part.word ? html`<em>${part.text}</em>` : part.text))}</h1>`;
}

/**
 * What follows the answer and is set smaller: a hint, and how sure it is.
 * @param {Scene} scene
 */
export function doubtLine(scene) {
  const answer = scene.state.answer;
  if (!answer) return nothing;
  const text = wordsOf(scene, answer).parts.find((part) => part.doubt)?.text ?? "";
  return html`<p class="doubt">${text.trim()}</p>${why(scene, doubtOf(scene))}`;
}

/**
 * @param {Scene} scene
 * @param {number} width_px
 */
export function answerPicture(scene, width_px) {
  const { now, shown, state, plan } = scene;
  if (!now) return nothing;
  const doubt = doubtOf(scene);
  return answerChart({
    now_s: now.mid.t20_s,
    plan_s: state.shown > 0 && shown ? shown.mid.t20_s : null,
    now_range: doubt.today?.mid ?? (state.shown === 0 ? doubt.ranges?.mid ?? null : null),
    plan_range: doubt.ranges?.mid ?? null,
    waiting: doubt.ranges === null && doubt.missing === "coming",
    planName: planName(plan.name),
    goal: goalRange(scene.document),
    width_px,
  });
}

/**
 * What the plan takes: pieces, price, weight.
 * @param {Scene} scene
 */
export function costLine(scene) {
  const { plan, shown, document } = scene;
  const pieces = plan.pieces.length;
  if (!shown || pieces === 0) return html`<p class="also">${pieces > 0 ? "" : scene.state.shown === 0 ? "The room as it stands." : "Nothing placed in this plan yet."}</p>`;
  const budget = document.limits?.budget;
  const price = shown.cost.known > 0 ? `, ${money(shown.cost.known)}${budget === undefined ? "" : ` of ${money(budget)}`}` : "";
  const unpriced = shown.cost.unpriced > 0 ? `, ${count(shown.cost.unpriced)} without a price` : "";
  return html`<p class="also">${count(pieces)} ${pieces === 1 ? "piece" : "pieces"}${price}${unpriced}.</p>`;
}
