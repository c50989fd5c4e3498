/**
 * Advice, in the order in which it is wanted: whether to do anything, what is free, what one surface buys, the next step, whole
 * plans, the money. Loaded when it is asked for.
 *
 * @import { Advice, PlanAdvice } from "../model/advice_types.js"
 * @import { Scene } from "./scene.js"
 */
import { html, nothing } from "../vendor.js";
import { bestOffer, gainOf, nextStep, offers, progressOf, underWay } from "../model/advice.js";
import { bestWords, knownMoney, pricesWords } from "../model/advice_money.js";
import { stillHolds } from "../model/advising.js";
import { boomWords, freeOnTop, freeWords, limitsWords, moreWords, nextWords, onTopWords, planWords, refusalWords, taskWords, verdictWords } from "../model/advice_words.js";
import { money, number, percent } from "../model/format.js";
import { wantsStep } from "../model/live_step.js";
import { objectiveWords } from "../model/objective_words.js";
import { planName, sentence } from "../model/words.js";
import { bitesPart } from "./advice_bites.js";
import { moneySlider } from "./advice_money.js";
import { planReasons } from "./advice_plans.js";
import { amountPart, coverChoice, surfacesTable } from "./advice_surfaces.js";
import { windowsPart } from "./advice_windows.js";
import { isReadOnly } from "./scene.js";

/** Gains closer than this are not told apart, steps. */
const SAME_GAIN = 0.05;

/**
 * @param {Scene} scene
 * @param {number} width_px
 */
export function adviceBody(scene, width_px) {
  const { advice } = scene.state;
  if (!advice || !stillHolds(advice, scene.state.document)) return askFirst(scene, advice);
  const prices = pricesWords(advice, !isReadOnly(scene));
  return html`<div class="advice">${work(scene, advice)}${prices ? html`<p class="lead-words">${prices}</p>` : nothing}${live(scene)}
    ${verdict(scene, advice)}${free(scene, advice)}${surfaces(scene, advice)}${windowsPart(scene, advice)}${next(scene, advice)}${plans(scene, advice)}${bitesPart(scene, advice, width_px)}${moneySlider(scene, advice, width_px)}${what(advice)}</div>`;
}

/**
 * @param {Scene} scene
 * @param {Advice|null} advice  of a room that was another one
 */
function askFirst(scene, advice) {
  const name = planName(scene.plan.name);
  return html`<div class="advice"><p class="says">${advice ? "The room or the plan has changed since this was last worked out. " : ""}Starting from ${name === "Now" ? "the room as it is" : name}: this tries several thousand sets of pieces in the places that your home allows.</p>
    <p><button type="button" class="ask" @click=${() => scene.commands.askAdvice(scene.state.shown)}>${advice ? "Work it out again" : "Work it out"}</button></p>${live(scene)}</div>`;
}

/**
 * The next step after a change, worked out anew by itself once advice was asked for.
 * @param {Scene} scene
 */
function live(scene) {
  const { state } = scene;
  if (!wantsStep(state)) return nothing;
  const { step } = state;
  const isHere = step !== null && step.document === state.document && step.plan === state.shown;
  const name = planName(scene.plan.name);
  const title = html`<h3>The next best step from ${name === "Now" ? "here" : name}</h3>`;
  if (!isHere || !step.found.best || !step.about) return html`${title}<p class="also">${isHere && step.status === "failed" ? "This could not be worked out here." : "Worked out anew once nothing changes for a moment."}</p>`;
  return html`${title}${stepWords(scene, step)}`;
}

/**
 * What it does, how far it is, and the way to stop it.
 * @param {Scene} scene
 * @param {Advice} advice
 */
function work(scene, advice) {
  const again = html`<button type="button" @click=${() => scene.commands.askAdvice(scene.state.shown)}>Work it out again</button>`;
  const from = planName(advice.document.plans[advice.plan].name);
  if (advice.status === "done") return html`<p class="also">Worked out from ${from === "Now" ? "the room as it is" : from}. ${again}</p>`;
  if (advice.status === "stopped") return html`<p class="also" role="status">Stopped. What was found until then stays. ${again}</p>`;
  if (advice.status === "failed") return html`<p class="also" role="status">This could not be worked out here. ${again}</p>`;
  const share = progressOf(advice);
  const doing = [...new Set(underWay(advice).map(taskWords))].join(", ") || "getting ready";
  // The button first: behind words that change it would run away from the pointer.
  return html`<p class="also advice-work"><button type="button" @click=${scene.commands.stopAdvice}>Stop</button> <progress max="1" .value=${share} aria-label="How far it is"></progress> ${percent(share)}: ${doing}.</p>`;
}

/**
 * @param {Scene} scene
 * @param {Advice} advice
 */
function verdict(scene, advice) {
  const words = verdictWords(advice);
  const boom = advice.about && boomWords(advice.found.free?.free.boom, advice.about.objective.figures, scene.state.units);
  return html`<h3>Leave it alone?</h3><p class="lead-words" role="status">${boom ? `${boom} ` : ""}${words ?? (boom ? "" : "Being worked out.")}</p>`;
}

/**
 * @param {Scene} scene
 * @param {Advice} advice
 */
function free(scene, advice) {
  const found = advice.found.free;
  const { document, plan } = advice;
  const base = document.plans[plan];
  const take = (/** @type {import("../model/advice_types.js").FreeMove} */ move) => scene.dispatch({
    type: "take-advice",
    plans: [{ pieces: base.pieces.filter((_, index) => !move.removed.includes(index)), ...((move.listening ?? base.listening) && { listening: move.listening ?? base.listening }) }],
  });
  return html`<h3>What is free</h3>${!found ? waits(advice) : found.free.moves.length === 0 ? html`<p class="says">Nothing that costs nothing makes a clear difference here.</p>`
    : html`<ol class="says">${found.free.moves.map((move) => html`<li>${freeWords(move, document, plan, scene.state.units)} ${button(scene, "Open as a plan", () => take(move))}</li>`)}</ol>`}`;
}

/**
 * @param {Scene} scene
 * @param {Advice} advice
 */
function surfaces(scene, advice) {
  return html`<h3>What one surface buys</h3>${advice.about ? coverChoice(scene, advice) : nothing}${Object.keys(advice.found.surfaces).length === 0 ? waits(advice) : surfacesTable(scene, advice)}${amountPart(scene, advice)}`;
}

/**
 * @param {Scene} scene
 * @param {Advice} advice
 */
function next(scene, advice) {
  return html`<h3>The next best step</h3>${advice.found.best ? stepWords(scene, advice) : waits(advice)}`;
}

/**
 * @param {Scene} scene
 * @param {Advice} advice
 */
function stepWords(scene, advice) {
  const { about, found } = advice;
  const bite = found.best && about ? nextStep(found.best.order, about.objective.figures) : null;
  const base = advice.document.plans[advice.plan];
  const take = () => scene.dispatch({ type: "take-advice", plans: [{ pieces: [...base.pieces, ...(bite?.pieces ?? [])], ...(base.listening && { listening: base.listening }) }] });
  return html`<p class="says" role="status">${nextWords(advice, bite, scene.state.units)} ${bite ? button(scene, "Open as a plan", take) : nothing}</p>`;
}

/**
 * @param {Advice} advice
 * @param {import("../model/advice.js").Offer["why"]} why
 */
function whyOffered(advice, why) {
  const { best } = advice.found;
  if (why === "best") return bestWords(advice);
  if (why === "other") return `Another way, without what ${!best || isBest(advice, best.plan) ? "the best one" : largerPlan(advice, best.plan)} uses most`;
  return knownMoney(advice) === "all" ? "Most of it for less money" : "Most of it with fewer pieces";
}

/**
 * @param {Scene} scene
 * @param {Advice} advice
 */
function plans(scene, advice) {
  const all = advice.about ? offers(advice.found, advice.about.objective.figures, knownMoney(advice) === "all") : [];
  const base = advice.document.plans[advice.plan];
  const take = () => scene.dispatch({ type: "take-advice", plans: all.map(({ plan }) => ({ pieces: plan.pieces, ...(base.listening && { listening: base.listening }) })) });
  if (!advice.found.best) return html`<h3>Whole plans</h3>${waits(advice)}`;
  if (all.length === 0) return html`<h3>Whole plans</h3><p class="says">No set of pieces is better than what is there.</p>`;
  return html`<h3>Whole plans</h3>
    ${all.map(({ why, plan }) => html`<details class="figures advice-plan"><summary><b>${whyOffered(advice, why)}.</b> ${planWords(plan, advice)}</summary>${planReasons(scene, advice, plan)}</details>`)}
    ${beside(advice, all)}${onTop(scene, advice)}
    <p>${button(scene, all.length === 1 ? "Open it as a plan" : `Open the ${all.length} plans side by side`, take)}</p>`;
}

/**
 * @param {Advice} advice
 * @param {PlanAdvice} plan
 */
function isBest(advice, plan) {
  const { about, found } = advice;
  return about !== null && bestOffer(found, about.objective.figures, knownMoney(advice) === "all") === plan;
}

/**
 * What the best plan has more of than the smaller one, or why a larger one is not offered.
 * @param {Advice} advice
 * @param {import("../model/advice.js").Offer[]} all
 */
function beside(advice, all) {
  const largest = advice.found.best?.plan;
  const best = all.find(({ why }) => why === "best")?.plan;
  const thrifty = all.find(({ why }) => why === "thrifty")?.plan;
  if (!best || !largest) return nothing;
  const more = gainOf(largest) - gainOf(best);
  const larger = best === largest ? nothing : html`<p class="says">${sentence(largerPlan(advice, largest))} ${more < SAME_GAIN ? "gains no more" : `gains ${number(more, 1)} steps more, less than is clearly heard`}: it is not offered.</p>`;
  return html`${larger}${thrifty ? html`<p class="says">What the best has more of than the one ${knownMoney(advice) === "all" ? "for less money" : "with fewer pieces"}: ${moreWords(best, thrifty)}.</p>` : nothing}`;
}

/**
 * @param {Advice} advice
 * @param {PlanAdvice} plan
 */
function largerPlan(advice, { price, reasons }) {
  return knownMoney(advice) === "all" ? `a plan for ${money(Math.round(price), advice.document.currency)}` : `a plan of ${reasons.length} new pieces`;
}

/**
 * Plans start from where the loudspeakers and the seat are; what another place would add is said, and opened if it is wanted.
 * @param {Scene} scene
 * @param {Advice} advice
 */
function onTop(scene, advice) {
  const { found, about } = advice;
  const plan = found.best?.plan;
  const move = about && freeOnTop(found, about.objective.figures);
  const listening = move?.listening;
  if (!move || !plan || !listening) return nothing;
  const isOffered = isBest(advice, plan);
  const take = () => scene.dispatch({ type: "take-advice", plans: [{ pieces: plan.pieces, listening }] });
  return html`<p class="says">${onTopWords(move, scene.state.units, isOffered ? "the best plan" : largerPlan(advice, plan))} ${button(scene, isOffered ? "Open the best plan with it" : "Open that plan with it", take)}</p>`;
}

/** @param {Advice} advice */
function what(advice) {
  const { best } = advice.found;
  const limits = limitsWords(advice);
  return html`${limits ? html`<p class="says">${limits}</p>` : nothing}
    ${best && best.refusals.length > 0 ? html`<details class="figures"><summary>Where a piece may not go, and why</summary><ul class="says">${refusalWords(best.refusals).map((line) => html`<li>${line}</li>`)}</ul></details>` : nothing}
    ${advice.about ? html`<details class="figures"><summary>What counts, and how much</summary><ul class="says">${objectiveWords(advice.about).map((line) => html`<li>${line}</li>`)}</ul></details>` : nothing}`;
}

/** @param {Advice} advice */
function waits({ status }) {
  return html`<p class="also">${status === "working" ? "Being worked out." : "Not worked out."}</p>`;
}

/**
 * @param {Scene} scene
 * @param {string} words
 * @param {() => void} act
 */
function button(scene, words, act) {
  return isReadOnly(scene) ? nothing : html`<button type="button" @click=${act}>${words}</button>`;
}
