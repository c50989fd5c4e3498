// What the answers of the core come to: which plans to offer, how far the work is, where more money changes little.

/**
 * @import { Advice, Bite, Boom, Figures, Found, PlanAdvice, Steps, SurfaceAdvice, Task, Today } from "./advice_types.js"
 * @import { Kind, SurfaceName } from "./types.js"
 * @typedef {{why: "best"|"thrifty"|"other", plan: PlanAdvice}} Offer
 * @typedef {{budget: number, plan: PlanAdvice, gained: number}} Rung
 */
import { isLikely } from "./doubt.js";

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

/** Whether to leave the room alone; null until it is known. @param {Found} found @param {Figures} figures @returns {boolean|null} */
export function leavesAlone({ verdict, best }, { worth_it, not_worth_it }) {
  if (!verdict || !best) return null;
  const worth = worthOf(best.plan);
  const isMet = isLikely(verdict.mid.goal_met ?? 0);
  return worth < not_worth_it || (isMet && worth < worth_it);
}

/** Whether the seat does for the bass what pieces cannot. @param {Boom|null|undefined} boom @param {Figures} figures @returns {boolean} */
export function panelsDoNotFix(boom, { seat_at_least_db, seat_times_more }) {
  if (!boom) return false;
  const [bySeat, byPieces] = [boom.now_db - boom.seat_db, Math.max(0, boom.now_db - boom.plan_db)];
  return bySeat >= seat_at_least_db && bySeat >= seat_times_more * byPieces;
}

/** The first step of the best order if it is worth taking; null: stop here. @param {Bite[]} order @param {Figures} figures @returns {Bite|null} */
export function nextStep(order, { stop_below }) {
  const first = order[0];
  return first && first.gained / first.pieces.length >= stop_below ? first : null;
}

/**
 * What each step of the best order brings by itself.
 * @param {Bite[]} order @param {Today} today
 * @returns {(Bite & {gain: number, costs: number, per_piece: number, per_hundred: number|null})[]}
 */
export function eachBite(order, today) {
  return order.map((bite, index) => {
    const before = index === 0 ? { gained: 0, price: today.price } : order[index - 1];
    const [gain, costs] = [bite.gained - before.gained, bite.price - before.price];
    return { ...bite, gain, costs, per_piece: gain / bite.pieces.length, per_hundred: costs > 0 ? (100 * gain) / costs : null };
  });
}

/** Surfaces by what half of each gains, best first; those without a place last. @param {Found} found @returns {SurfaceAdvice[]} */
export function rankedSurfaces({ surfaces }) {
  const half = (/** @type {SurfaceAdvice} */ one) => one.covers[1]?.gained ?? -Infinity;
  const order = /** @type {SurfaceName[]} */ (["left", "right", "front", "back", "floor", "ceiling"]);
  return order.flatMap((name) => surfaces[name] ?? []).sort((a, b) => (half(b) === half(a) ? 0 : half(b) - half(a)));
}

/** Kinds that can cover a surface: all that neither stand nor fill a corner. @param {Pick<Advice, "document"|"about">} advice @returns {Kind[]} */
export function coveringKinds({ document, about }) {
  const all = [...(document.kit ?? []), ...(about?.stand_ins ?? [])];
  return all.filter(({ stands }) => stands !== "stand" && stands !== "corner");
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

/** The first rung from which more changes little; null if there is none before the last. @param {{gained: number}[]} rungs @param {Figures} figures @returns {number|null} */
export function flatFrom(rungs, { nearly_all }) {
  const most = Math.max(0, ...rungs.map((rung) => rung.gained));
  const index = rungs.findIndex((rung) => rung.gained >= nearly_all * most);
  return most > 0 && index >= 0 && index < rungs.length - 1 ? index : null;
}

/**
 * The cheapest plan of the ladder that gains so much and takes clearly less than another one: money, or new pieces where prices are not known.
 * @param {Found} found @param {PlanAdvice} than @param {number} gain @param {Figures} figures @param {boolean} byMoney
 * @returns {PlanAdvice|null}
 */
function smaller(found, than, gain, { less_money }, byMoney) {
  const takes = (/** @type {PlanAdvice} */ plan) => (byMoney ? plan.price : plan.reasons.length);
  const most = less_money * takes(than);
  return ladder(found).find(({ plan, gained }) => gained >= gain && takes(plan) <= most && takes(plan) < takes(than))?.plan ?? null;
}

/**
 * The plan that is offered as the best: a smaller one goes before that of the core where it gains most of it and the rest is not clearly heard.
 * @param {Found} found @param {Figures} figures @param {boolean} byMoney @returns {PlanAdvice|null}
 */
export function bestOffer(found, figures, byMoney) {
  if (!found.best) return null;
  const { plan } = found.best;
  const gain = gainOf(plan);
  return smaller(found, plan, Math.max(gain - figures.not_worth_it, figures.most_of_it * gain), figures, byMoney) ?? plan;
}

/** Up to three plans that differ. @param {Found} found @param {Figures} figures @param {boolean} byMoney @returns {Offer[]} */
export function offers(found, figures, byMoney) {
  const best = bestOffer(found, figures, byMoney);
  if (!best || gainOf(best) <= 0) return [];
  const thrifty = smaller(found, best, figures.most_of_it * gainOf(best), figures, byMoney);
  /** @type {Offer[]} */
  const all = [{ why: "best", plan: best }];
  if (thrifty) all.push({ why: "thrifty", plan: thrifty });
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
