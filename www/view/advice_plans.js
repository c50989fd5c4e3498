/**
 * The pieces of a plan that is offered, each with its reason.
 *
 * @import { Advice, PlanAdvice } from "../model/advice_types.js"
 * @import { Scene } from "./scene.js"
 */
import { html, nothing } from "../vendor.js";
import { piecesWords, reasonWords } from "../model/advice_words.js";
import { kindName } from "../model/words.js";

/**
 * @param {Scene} scene
 * @param {Advice} advice
 * @param {PlanAdvice} plan
 */
export function planReasons({ state }, { document, about, plan: index }, plan) {
  const base = document.plans[index];
  const stand_ins = about?.stand_ins ?? [];
  return html`<ol class="says">${plan.reasons.map((reason) => html`<li>${piecesWords(document, stand_ins, [plan.pieces[reason.piece]], state.units)}: ${reasonWords(reason)}.</li>`)}</ol>
    ${plan.removed.length > 0 ? html`<p class="says">Taken down, as it does more harm than good here: ${plan.removed.map((one) => kindName(document, base.pieces[one].kit)).join(", ")}.</p>` : nothing}`;
}
