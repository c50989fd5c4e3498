// Steps of asking for advice and of taking it. What is taken is a plan like any other, in one step that can be undone.

/**
 * @import { AdviceAsked, AdviceCame, AdviceCovers, StepAsked, StepCame, TakeAdvice } from "./actions.js"
 * @import { Advice, Found, Task, Told } from "./advice_types.js"
 * @import { Kind, Plan, Scenario, State } from "./types.js"
 */
import { commit } from "./history.js";
import { withKind } from "./kinds.js";
import { MOST } from "./limits.js";
import { freeLetter, problem } from "./plans.js";
import { planName } from "./words.js";

/** The plan that the money slider writes to. */
export const SLIDER_PLAN = "By slider";

/** @param {State} state @param {AdviceAsked} action @returns {State} */
export function adviceAsked(state, { plan, kit = null }) {
  return { ...state, step: null, advice: asked(state, plan, kit) };
}

/** Whether what a task finds is of the kind that surfaces are covered with. @param {Task|undefined} task @returns {boolean} */
export function isOfKind(task) {
  return task === "amount" || (typeof task === "object" && "surface" in task);
}

/** What was found of a kind gives way to what is found of another; all else stays. @param {State} state @param {AdviceCovers} action @returns {State} */
export function adviceCovers(state, { kit }) {
  const { advice } = state;
  if (!advice) return state;
  const tasks = advice.about?.tasks ?? [];
  const isOther = (/** @type {[string, number]} */ [task]) => !isOfKind(tasks[Number(task)]);
  const progress = Object.fromEntries(Object.entries(advice.progress).filter(isOther));
  const { amount: _, ...kept } = advice.found;
  return { ...state, advice: { ...advice, kit, progress, found: { ...kept, surfaces: {} }, status: "working" } };
}

/** The next step alone, after a change. @param {State} state @param {StepAsked} action @returns {State} */
export function stepAsked(state, { plan }) {
  return { ...state, step: asked(state, plan, null) };
}

/** @param {State} state @param {number} plan @param {string|null} kit @returns {Advice} */
function asked({ document }, plan, kit) {
  return { document, plan, kit, about: null, found: { surfaces: {}, levels: {} }, progress: {}, status: "working" };
}

/** @param {State} state @param {StepCame} action @returns {State} */
export function stepCame(state, { document, told }) {
  const { step } = state;
  return step && step.document === document && step.status === "working" ? { ...state, step: heard(step, told) } : state;
}

/** What comes after it was stopped, or for another question, is dropped. @param {State} state @param {AdviceCame} action @returns {State} */
export function adviceCame(state, { document, told }) {
  const { advice } = state;
  if (!advice || advice.document !== document || advice.status !== "working") return state;
  return { ...state, advice: heard(advice, told) };
}

/** @param {State} state @returns {State} */
export function adviceStopped(state) {
  return state.advice?.status === "working" ? { ...state, advice: { ...state.advice, status: "stopped" } } : state;
}

/** @param {Advice} advice @param {Told} told @returns {Advice} */
function heard(advice, told) {
  if ("about" in told) return { ...advice, about: told.about };
  if ("status" in told) return { ...advice, status: told.status };
  if ("progress" in told) return { ...advice, progress: { ...advice.progress, [told.task]: told.progress } };
  const progress = told.whole ? { ...advice.progress, [told.task]: 1 } : advice.progress;
  return { ...advice, progress, found: withFound(advice.found, told.found) };
}

/** @param {Found} found @param {any} answer  named by its task @returns {Found} */
function withFound(found, answer) {
  if (answer.task === "surface") return { ...found, surfaces: { ...found.surfaces, [answer.surface.surface]: answer.surface } };
  if (answer.task === "level") return { ...found, levels: { ...found.levels, [answer.level]: answer } };
  return { ...found, [answer.task]: answer };
}

/** Whether an answer still holds for a document. @param {Advice} advice @param {Scenario} document @returns {boolean} */
export function stillHolds(advice, document) {
  const asked = advice.document;
  const now = document.plans[advice.plan];
  const then = asked.plans[advice.plan];
  const kept = asked.kit?.every((kind) => document.kit?.includes(kind)) ?? true;
  return kept && now?.pieces === then.pieces && now.listening === then.listening && document.plans[0].pieces === asked.plans[0].pieces
    && document.room === asked.room && document.limits === asked.limits && document.goal === asked.goal && document.listening === asked.listening
    && document.own_finishes === asked.own_finishes && document.own_furnishings === asked.own_furnishings;
}

/** Opens advice as plans, in one step. @param {State} state @param {TakeAdvice} action @param {number} now_ms @returns {State} */
export function takeAdvice(state, { plans, slider = false, kinds = [] }, now_ms) {
  const stocked = withStandIns(state, kinds);
  if (!stocked) return problem(state, `A document holds at most ${MOST.kinds} kinds of piece.`);
  if (slider) return slide(state, stocked, plans[0], now_ms);
  const room = MOST.plans - stocked.plans.length;
  if (room < 1) return problem(state, `A document holds at most ${MOST.plans} plans: remove one first.`);
  /** @type {Scenario} */
  let document = stocked;
  for (const plan of plans.slice(0, room)) document = { ...document, plans: [...document.plans, named(plan, freeLetter(document))] };
  const names = document.plans.slice(stocked.plans.length).map((plan) => planName(plan.name));
  const text = names.length === 1 ? `${names[0]} is open: change it as you like.` : `${names.join(", ")} are open: change them as you like.`;
  const shown = stocked.plans.length;
  return commit(state, { label: `open ${names.join(", ")}`, document, shown, selected: null, notice: { text, tone: "note", undo: true } }, now_ms);
}

/** One plan follows the slider; all of its way is one step. @param {State} state @param {Scenario} document @param {Omit<Plan, "name">} plan @param {number} now_ms @returns {State} */
function slide(state, document, plan, now_ms) {
  const index = document.plans.findIndex((one) => one.name === SLIDER_PLAN);
  if (index < 0 && document.plans.length >= MOST.plans) return problem(state, `A document holds at most ${MOST.plans} plans: remove one first.`);
  const shown = index < 0 ? document.plans.length : index;
  const plans = [...document.plans];
  plans[shown] = named(plan, SLIDER_PLAN);
  const step = { label: `plan ${SLIDER_PLAN.toLowerCase()}`, document: { ...document, plans }, shown, selected: null, mergeKey: "money slider", gesture: true };
  return commit(state, step, now_ms);
}

/** @param {Omit<Plan, "name">} plan @param {string} name @returns {Plan} */
function named({ pieces, listening }, name) {
  return { name, pieces, ...(listening && { listening }) };
}

/** The document with the kinds that stood in for its own. @param {State} state @param {Kind[]} more @returns {Scenario|null} */
function withStandIns({ document, advice, step }, more) {
  /** @type {Scenario|null} */
  let stocked = document;
  for (const kind of [...[advice, step].flatMap((one) => one?.about?.stand_ins ?? []), ...more]) stocked = stocked && withKind(stocked, kind);
  return stocked;
}
