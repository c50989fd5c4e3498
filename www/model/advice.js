// What the answers of the core come to: which plans to offer, how far the work is, where more money changes little.

/**
 * @import { Advice, Bite, Boom, Found, PlanAdvice, Steps, SurfaceAdvice, Task } from "./advice_types.js"
 * @import { SurfaceName } from "./types.js"
 * @typedef {{why: "best"|"thrifty"|"other", plan: PlanAdvice}} Offer
 * @typedef {{budget: number, plan: PlanAdvice, gained: number}} Rung
 */
import { isLikely } from "./doubt.js";

/** A step that gains less than this is not worth taking: a quarter of a difference that is clearly heard. */
export const STOP_BELOW = 0.25;
/** A room whose goal is likely met is left alone unless the best plan gains at least this, in steps. */
const WORTH_IT = 1.5;
/** And any room is, if the best plan gains less than this. */
const NOT_WORTH_IT = 0.5;
/** The thrifty plan keeps this part of what the best one gains, for at most this part of its price. */
const MOST_OF_IT = 0.8;
const LESS_MONEY = 0.75;
/** More money changes little once so much of the gain is there. */
const NEARLY_ALL = 0.9;
/** The seat does more for the bass than pieces if it does this many times as much, and at least so many dB. */
const TIMES_MORE = 2;
const AT_LEAST_DB = 1;

/** What is heard. @param {Steps} steps @returns {number} */
export function heardSteps({ decay, evenness, bounces, likeness }) {
  return decay + evenness + bounces + likeness;
}

/** What a plan gains in sound, in steps. @param {PlanAdvice} plan @returns {number} */
export function gainOf({ before, after }) {
  return heardSteps(before) - heardSteps(after);
}

/** What it gains with its effort counted. @param {PlanAdvice} plan @returns {number} */
function worthOf({ before, after }) {
  return heardSteps(before) + before.effort - heardSteps(after) - after.effort;
}

/** Whether to leave the room alone; null until it is known. @param {Found} found @returns {boolean|null} */
export function leavesAlone({ verdict, best }) {
  if (!verdict || !best) return null;
  const worth = worthOf(best.plan);
  const isMet = isLikely(verdict.mid.goal_met ?? 0);
  return worth < NOT_WORTH_IT || (isMet && worth < WORTH_IT);
}

/** Whether the seat does for the bass what pieces cannot. @param {Boom|null|undefined} boom @returns {boolean} */
export function panelsDoNotFix(boom) {
  if (!boom) return false;
  const [bySeat, byPieces] = [boom.now_db - boom.seat_db, Math.max(0, boom.now_db - boom.plan_db)];
  return bySeat >= AT_LEAST_DB && bySeat >= TIMES_MORE * byPieces;
}

/** The first step of the best order if it is worth taking; null: stop here. @param {Bite[]} order @returns {Bite|null} */
export function nextStep(order) {
  const first = order[0];
  return first && first.gained / first.pieces.length >= STOP_BELOW ? first : null;
}

/** Surfaces by what half of each gains, best first; those without a place last. @param {Found} found @returns {SurfaceAdvice[]} */
export function rankedSurfaces({ surfaces }) {
  const half = (/** @type {SurfaceAdvice} */ one) => one.covers[1]?.gained ?? -Infinity;
  const order = /** @type {SurfaceName[]} */ (["left", "right", "front", "back", "floor", "ceiling"]);
  return order.flatMap((name) => surfaces[name] ?? []).sort((a, b) => (half(b) === half(a) ? 0 : half(b) - half(a)));
}

/** Plans along the money, each as good as any cheaper one. @param {Found} found @returns {Rung[]} */
export function ladder({ levels }) {
  /** @type {Rung[]} */
  const rungs = [];
  for (const [, { budget, plan }] of Object.entries(levels).sort(([a], [b]) => Number(a) - Number(b))) {
    const last = rungs.at(-1);
    const isBetter = !last || worthOf(plan) > worthOf(last.plan);
    rungs.push(isBetter || !last ? { budget, plan, gained: gainOf(plan) } : { ...last, budget });
  }
  return rungs;
}

/** The first rung from which more money changes little; null if there is none before the last. @param {Rung[]} rungs @returns {number|null} */
export function flatFrom(rungs) {
  const most = Math.max(0, ...rungs.map((rung) => rung.gained));
  const index = rungs.findIndex((rung) => rung.gained >= NEARLY_ALL * most);
  return most > 0 && index >= 0 && index < rungs.length - 1 ? index : null;
}

/** Up to three plans that differ. @param {Found} found @returns {Offer[]} */
export function offers(found) {
  if (!found.best || gainOf(found.best.plan) <= 0) return [];
  const best = found.best.plan;
  const thrifty = ladder(found).find(({ plan, gained }) => gained >= MOST_OF_IT * gainOf(best) && plan.price <= LESS_MONEY * best.price);
  /** @type {Offer[]} */
  const all = [{ why: "best", plan: best }];
  if (thrifty) all.push({ why: "thrifty", plan: thrifty.plan });
  if (found.other?.plan) all.push({ why: "other", plan: found.other.plan });
  const texts = all.map(({ plan }) => JSON.stringify(plan.pieces));
  return all.filter((_, index) => texts.indexOf(texts[index]) === index);
}

/** How far all of it is, 0 to 1. @param {Advice} advice @returns {number} */
export function progressOf({ about, progress, status }) {
  if (status === "done") return 1;
  const count = about?.tasks.length ?? 20;
  return Object.values(progress).reduce((sum, share) => sum + share, 0) / count;
}

/** The tasks that are begun and not over. @param {Advice} advice @returns {Task[]} */
export function underWay({ about, progress }) {
  return (about?.tasks ?? []).filter((_, index) => index in progress && progress[index] < 1);
}
