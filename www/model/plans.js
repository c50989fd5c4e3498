// Steps on plans, and the rule that the room as it is gets no new pieces.

/**
 * @import { AddPlan, MovePlan, RemovePlan, RenamePlan } from "./actions.js"
 * @import { Scenario, State } from "./types.js"
 */
import { commit } from "./history.js";
import { MOST } from "./limits.js";
import { nameText } from "./sheet.js";
import { planName } from "./words.js";

/** @param {State} state @param {string} text @returns {State} */
export function problem(state, text) {
  return { ...state, notice: { text, tone: "problem" } };
}

/** The next free letter for a plan. @param {Scenario} document @returns {string} */
export function freeLetter(document) {
  const taken = new Set(document.plans.map((plan) => plan.name));
  return [..."ABCDEFGHIJKLMNOPQRSTUVWXYZ"].find((letter) => !taken.has(letter)) ?? "Plan";
}

/**
 * Where a new piece goes: the shown plan, but never the room as it is. Then plan A takes it, made from the room if there is none.
 * @param {State} state
 * @returns {{document: Scenario, shown: number, note: string|null}}
 */
export function planForNew({ document, shown }) {
  if (shown !== 0) return { document, shown, note: null };
  const note = (/** @type {string} */ name) => `“${document.plans[0].name}” is the room as it is, so this goes into ${planName(name)}.`;
  const [now, next] = document.plans;
  if (next) return { document, shown: 1, note: note(next.name) };
  const name = freeLetter(document);
  return { document: { ...document, plans: [now, { ...now, name }] }, shown: 1, note: note(name) };
}

/** @param {State} state @param {AddPlan} _action @param {number} now_ms @returns {State} */
export function addPlan(state, _action, now_ms) {
  const { document, shown } = state;
  if (document.plans.length >= MOST.plans) return problem(state, `A document holds at most ${MOST.plans} plans.`);
  const name = freeLetter(document);
  const plans = [...document.plans, { ...document.plans[shown], name }];
  const notice = /** @type {const} */ ({ text: `${planName(name)} starts as a copy of ${planName(document.plans[shown].name)}.`, tone: "note" });
  return commit(state, { label: `add ${planName(name)}`, document: { ...document, plans }, shown: plans.length - 1, selected: null, notice }, now_ms);
}

/** @param {State} state @param {RemovePlan} action @param {number} now_ms @returns {State} */
export function removePlan(state, { index }, now_ms) {
  const { document } = state;
  const plan = document.plans[index];
  if (!plan) return state;
  if (index === 0) return problem(state, "The room as it is cannot be removed: the plans are compared with it.");
  const plans = document.plans.filter((other) => other !== plan);
  const measured = document.measured?.filter((entry) => entry.plan !== plan.name);
  const shown = state.shown >= index ? state.shown - 1 : state.shown;
  const notice = /** @type {const} */ ({ text: `Removed ${planName(plan.name)}.`, tone: "note", undo: true });
  const compared = state.compared === null || state.compared === index ? null : state.compared - (state.compared > index ? 1 : 0);
  return commit({ ...state, compared }, { label: `remove ${planName(plan.name)}`, document: { ...document, plans, ...(measured && { measured }) }, shown, selected: null, notice }, now_ms);
}

/** @param {State} state @param {RenamePlan} action @param {number} now_ms @returns {State} */
export function renamePlan(state, action, now_ms) {
  const { document } = state;
  const name = nameText(action.name);
  const plan = document.plans[action.index];
  if (!plan || name === plan.name) return state;
  if (name === "") return problem(state, "A plan needs a name.");
  if (document.plans.some((other) => other.name === name)) return problem(state, `Another plan is called “${name}” already.`);
  const plans = document.plans.map((other) => (other === plan ? { ...plan, name } : other));
  const measured = document.measured?.map((entry) => (entry.plan === plan.name ? { ...entry, plan: name } : entry));
  return commit(state, { label: `rename ${planName(plan.name)}`, document: { ...document, plans, ...(measured && { measured }) } }, now_ms);
}

/** Changes places with its neighbour; the room as it is stays the first. @param {State} state @param {MovePlan} action @param {number} now_ms @returns {State} */
export function movePlan(state, { index, by }, now_ms) {
  const { document } = state;
  const to = index + by;
  const [plan, other] = [document.plans[index], document.plans[to]];
  if (index < 1 || to < 1 || !plan || !other) return state;
  const plans = document.plans.map((one) => (one === plan ? other : one === other ? plan : one));
  const follow = (/** @type {number} */ one) => (one === index ? to : one === to ? index : one);
  const compared = state.compared === null ? null : follow(state.compared);
  return commit({ ...state, compared }, { label: `move ${planName(plan.name)}`, document: { ...document, plans }, shown: follow(state.shown) }, now_ms);
}
