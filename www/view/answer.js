/**
 * The Answer line: one sentence, what is honest about it, and a small picture of the same.
 *
 * @import { Scene } from "./scene.js"
 */
import { html, nothing } from "../vendor.js";
import { answerChart } from "../chart/answer.js";
import { answerWords, goalRange } from "../model/answer.js";
import { count, money } from "../model/format.js";
import { planName } from "../model/words.js";

/** @param {Scene} scene */
export function answerLine(scene) {
  const answer = scene.state.answer;
  if (!answer) return html`<h1>Working out what the room does.</h1>`;
  const { parts } = answerWords(answer);
  const said = parts.slice(0, -1).map((part) => (part.figure ? html`<b>${part.text}</b>` : part.text));
  return html`<h1>${said}${said.length > 0 ? " " : ""}${sentences(parts)[0]}</h1>`;
}

/**
 * What follows the answer and is set smaller: a hint, and how sure it is.
 * @param {Scene} scene
 */
export function doubtLine(scene) {
  const answer = scene.state.answer;
  return answer ? html`<p class="doubt">${sentences(answerWords(answer).parts).slice(1).join(" ")}</p>` : nothing;
}

/**
 * The sentences of the last part: first the verdict.
 * @param {{text: string}[]} parts
 */
function sentences(parts) {
  return (parts.at(-1)?.text ?? "").trim().split(/(?<=[.?])\s+/);
}

/**
 * @param {Scene} scene
 * @param {number} width_px
 */
export function answerPicture(scene, width_px) {
  const { now, shown, state, plan } = scene;
  if (!now) return nothing;
  return answerChart({
    now_s: now.mid.t20_s,
    plan_s: state.shown > 0 && shown ? shown.mid.t20_s : null,
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
