// What a check-up makes of the page's own prediction: between answers of the worker it is moved by the factor that the last
// one found for the same plan.

/**
 * @import { Answered, RangesCame } from "./actions.js"
 * @import { Answer, Late, PlanReport, Ranges, Scenario, State } from "./types.js"
 */
import { rangesCame, rangesFor, sameCheckup } from "./late.js";

/** The factors that hold for a plan; those of the room as it is for a plan of which none came yet. @param {Late|null} late @param {Scenario} document @param {number} plan @returns {Ranges["checked"]} */
function factorsOf(late, document, plan) {
  if (!late || !document.measured || !sameCheckup(late.document, document)) return undefined;
  return (rangesFor(late, document, plan) ?? late.ranges[plan] ?? late.ranges[0] ?? late.carried)?.checked;
}

/** A report stays the same object as long as nothing of it changes: regions are drawn anew by that. @type {WeakMap<PlanReport, {by: Ranges["checked"], report: PlanReport}>} */
const known = new WeakMap();

/** @param {PlanReport} report @param {Ranges["checked"]} by @returns {PlanReport} */
function moved(report, by) {
  if (!by) return report;
  const last = known.get(report);
  if (last?.by === by) return last.report;
  const next = scaled(report, by);
  known.set(report, { by, report: next });
  return next;
}

/** @param {PlanReport} report @param {NonNullable<Ranges["checked"]>} checked @returns {PlanReport} */
function scaled(report, checked) {
  const times = report.decay.t20_s;
  const t20_s = times.map((time_s, band) => time_s * checked.factor[band]);
  const mid_s = report.mid.t20_s;
  return { ...report, decay: { ...report.decay, t20_s }, mid: { ...report.mid, t20_s: mid_s === null ? null : mid_s * checked.mid_factor } };
}

/**
 * The answer as the check-up has it. It remembers what was predicted, for the next check-up that comes.
 * @param {Answer} answer @param {Late|null} late @returns {Answer}
 */
export function checkedAnswer(answer, late) {
  const described = answer.described ?? answer;
  const { document, plan, compared } = answer;
  const [now, shown] = [factorsOf(late, document, 0), factorsOf(late, document, plan)];
  const other = typeof compared === "number" ? factorsOf(late, document, compared) : undefined;
  if (!now && !shown && !other && !answer.described) return answer;
  return {
    ...answer, described: { now: described.now, shown: described.shown, other: described.other ?? null },
    now: moved(described.now, now), shown: moved(described.shown, shown), other: described.other ? moved(described.other, other) : described.other,
  };
}

/** @param {State} state @param {Answered} action @returns {State} */
export function answered(state, { answer }) {
  return { ...state, answer: checkedAnswer(answer, state.late) };
}

/** @param {State} state @param {RangesCame} action @returns {State} */
export function checkedRangesCame(state, action) {
  const next = rangesCame(state, action);
  return next === state || !next.answer ? next : { ...next, answer: checkedAnswer(next.answer, next.late) };
}
