// What comes after the answer: ranges and bass from workers. Each is kept with the document it was computed for, and is
// shown with no other one; the room as it is keeps its range while all that it rests on stays the same.

/**
 * @import { BassCame, RangesCame } from "./actions.js"
 * @import { Difference, Late, LateBass, Ranges, Scenario, State } from "./types.js"
 */

/** Whether the first plan of both documents must have the same report. @param {Scenario} a @param {Scenario} b @returns {boolean} */
export function sameRoom(a, b) {
  return a.plans[0] === b.plans[0] && sameGround(a, b);
}

/** Whether all that the report of a plan rests on beside the plan itself is the same. @param {Scenario} a @param {Scenario} b @returns {boolean} */
export function sameGround(a, b) {
  return a.room === b.room && a.listening === b.listening && a.kit === b.kit
    && a.own_finishes === b.own_finishes && a.own_furnishings === b.own_furnishings && sameCheckup(a, b);
}

/** Whether the same was measured, in the same plans. @param {Scenario} a @param {Scenario} b @returns {boolean} */
export function sameCheckup(a, b) {
  return a.measured === b.measured && (a.measured ?? []).every(({ plan }) => planCalled(a, plan) === planCalled(b, plan));
}

/** @param {Scenario} document @param {string} name */
function planCalled({ plans }, name) {
  return plans.find((plan) => plan.name === name);
}

/**
 * The ranges of a plan of this document.
 * @param {Late|null} late @param {Scenario} document @param {number} plan
 * @returns {Ranges|null|undefined} undefined: not there yet; null: they could not be computed
 */
export function rangesFor(late, document, plan) {
  if (!late) return undefined;
  if (late.document === document && plan in late.ranges) return late.ranges[plan];
  return plan === 0 ? todayOf(late, document) : unchangedOf(late, document, plan);
}

/** The ranges of a plan that another one is compared with, from a document in which it was the same. @param {Late} late @param {Scenario} document @param {number} plan @returns {Ranges|undefined} */
function unchangedOf(late, document, plan) {
  const fits = late.document.goal === document.goal && sameGround(late.document, document) && late.document.plans[plan] === document.plans[plan];
  return fits ? late.ranges[plan] ?? late.kept?.[plan] ?? undefined : undefined;
}

/** The range of the room as it is, from another document that agrees in all that it rests on. @param {Late} late @param {Scenario} document @returns {Ranges|undefined} */
function todayOf(late, document) {
  // The share of draws that meet the goal is part of the ranges.
  const fits = late.document.goal === document.goal && sameRoom(late.document, document);
  return fits ? late.ranges[0] ?? late.carried ?? undefined : undefined;
}

/**
 * The plans of a document whose ranges are still to be asked for: the plan in hand first, then the one it is compared with,
 * then the room as it is; in a comparison all others too.
 * @param {State} state @returns {number[]}
 */
export function missingRanges({ late, document, shown, compared }) {
  const come = late?.document === document ? late.ranges : {};
  const others = compared === null ? [] : [compared, 0, ...document.plans.keys()];
  return [...new Set([shown, ...others, 0])].filter((plan) => !(plan in come));
}

/**
 * All differences that came for this document; those of an earlier one are not carried along.
 * @param {Late|null} late @param {Scenario} document @returns {Difference[]}
 */
export function differencesFor(late, document) {
  return late?.document === document ? Object.values(late.ranges).flatMap((ranges) => ranges?.differences ?? []) : [];
}

/** Ranges that come too late, for a document that is no longer the state's own, are dropped. @param {State} state @param {RangesCame} action @returns {State} */
export function rangesCame(state, { document, plan, ranges }) {
  const { late } = state;
  if (document !== state.document) return state;
  if (late?.document === document) return { ...state, late: { ...late, ranges: { ...late.ranges, [plan]: ranges } } };
  const { compared } = state;
  const kept = compared === null ? undefined : rangesFor(late, document, compared);
  return { ...state, late: { document, ranges: { [plan]: ranges }, carried: rangesFor(late, document, 0) ?? null, ...(kept && compared !== null && { kept: { [compared]: kept } }) } };
}

/**
 * The plan whose bass stands beside that of the plan in hand: the one it is compared with, or the room as it is where the
 * plan moves loudspeakers or seat.
 * @param {State} state @returns {number|null}
 */
export function bassBeside({ document, shown, compared }) {
  return compared ?? (document.plans[shown]?.listening ? 0 : null);
}

/** @param {State} state @returns {number[]} */
export function missingBass(state) {
  const { bass, otherBass, document, shown } = state;
  const beside = bassBeside(state);
  const isThere = (/** @type {LateBass|null} */ come, /** @type {number} */ plan) => come?.document === document && come.plan === plan;
  return [...(isThere(bass, shown) ? [] : [shown]), ...(beside === null || isThere(otherBass, beside) ? [] : [beside])];
}

/** @param {State} state @param {BassCame} action @returns {State} */
export function bassCame(state, { document, plan, bass }) {
  if (document !== state.document) return state;
  if (plan === state.shown) return { ...state, bass: { document, plan, bass } };
  return plan === bassBeside(state) ? { ...state, otherBass: { document, plan, bass } } : state;
}
