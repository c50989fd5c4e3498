/**
 * The money slider: the best plan for less money, or of fewer pieces where nothing has a price, with the part where more of it
 * changes little.
 *
 * @import { Advice } from "../model/advice_types.js"
 * @import { Scene } from "./scene.js"
 */
import { html, nothing } from "../vendor.js";
import { gainsChart } from "../chart/gains.js";
import { flatFrom, ladder } from "../model/advice.js";
import { SLIDER_PLAN } from "../model/advising.js";
import { knownMoney } from "../model/advice_money.js";
import { planWords } from "../model/advice_words.js";
import { money } from "../model/format.js";
import { isReadOnly } from "./scene.js";

export const WIDEST_PX = 560;

/**
 * The plans along the money are kept, so that a move of the slider computes nothing but what any plan on the sheet needs.
 * @param {Scene} scene
 * @param {Advice} advice
 * @param {number} width_px
 */
export function moneySlider(scene, advice, width_px) {
  const rungs = ladder(advice.found);
  if (rungs.length < 2 || isReadOnly(scene)) return nothing;
  const { document } = advice;
  const spending = spendingOf(advice);
  const title = spending.isPriced ? "What the next money buys" : "What more pieces buy";
  if (rungs.every((rung) => spending.of(rung) === 0)) return html`<h3>${title}</h3><p class="says">${spending.isPriced ? `Up to ${spending.say(advice.about?.top ?? 0)}${spending.of_what}, money buys nothing here that gains.` : "No number of new pieces gains anything here."}</p>`;
  const at = chosen(scene, rungs);
  const { best } = advice.found;
  const flat = advice.about && flatFrom(rungs, advice.about.objective.figures);
  const words = flat === null ? nothing : html`<p class="says">From about ${spending.say(spending.of(rungs[flat]))}${spending.of_what} on, more changes little.</p>`;
  const base = document.plans[advice.plan];
  const slide = (/** @type {Event} */ event) => {
    const { plan } = rungs[Number(/** @type {HTMLInputElement} */ (event.currentTarget).value)];
    scene.dispatch({ type: "take-advice", slider: true, plans: [{ pieces: plan.pieces, ...(base.listening && { listening: base.listening }) }] });
  };
  const today = spending.today(best?.today);
  const label = spending.upTo(rungs[at]);
  return html`<h3>${title}</h3>
    ${gainsChart({ title: `Gain of the best plans in steps over ${spending.name.toLowerCase()}`, today, points: rungs.map((rung) => ({ spent: spending.of(rung), gained: today.gained + rung.gained })), flat_from: flat === null ? null : spending.of(rungs[flat]), at, width_px: Math.min(WIDEST_PX, width_px), say: spending.say })}
    <p class="slider"><label>${spending.name} <input type="range" min="0" max=${rungs.length - 1} step="1" .value=${String(at)} aria-valuetext=${label} @input=${slide}></label> <b>${label}</b></p>
    <p class="says" role="status">${planWords(rungs[at].plan, advice)}</p>
    ${words}
    <p class="also">Moving the slider puts the plan on the sheet as “${SLIDER_PLAN}”; one undo takes it back.</p>`;
}

/**
 * What is spent along the ladder: money, or pieces where nothing has a price.
 * @param {Advice} advice
 */
export function spendingOf(advice) {
  /** @typedef {import("../model/advice.js").Rung} Rung */
  const known = knownMoney(advice);
  const isPriced = known !== "none";
  const say = (/** @type {number} */ spent) => (isPriced ? money(Math.round(spent), advice.document.currency) : `${spent} ${spent === 1 ? "piece" : "pieces"}`);
  const of = (/** @type {Rung} */ { plan }) => (isPriced ? plan.price : plan.reasons.length);
  const today = (/** @type {import("../model/advice_types.js").Today|undefined} */ one) => ({ spent: isPriced ? one?.price ?? 0 : 0, gained: one?.gained ?? 0 });
  return { name: { all: "Money", part: "Known prices", none: "Pieces" }[known], isPriced, of_what: known === "part" ? " of known prices" : "", say, of, today, upTo: (/** @type {Rung} */ rung) => `up to ${say(isPriced ? rung.budget : of(rung))}` };
}

/**
 * The rung whose plan is on the sheet, else the last one.
 * @param {Scene} scene
 * @param {import("../model/advice.js").Rung[]} rungs
 */
function chosen({ state }, rungs) {
  const plan = state.document.plans.find((one) => one.name === SLIDER_PLAN);
  const index = plan ? rungs.findIndex((rung) => rung.plan.pieces === plan.pieces) : -1;
  return index < 0 ? rungs.length - 1 : index;
}
