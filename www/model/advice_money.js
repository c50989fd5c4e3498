// What advice may say of money: which kinds have no price, and how much of a plan's price is known for that.

/**
 * @import { Advice } from "./advice_types.js"
 * @import { Kind } from "./types.js"
 * @typedef {"all"|"part"|"none"} Known  of what a plan costs
 */
import { money } from "./format.js";
import { kindById } from "./geometry.js";
import { mayLook } from "./looks_like.js";
import { priceOfOne } from "./money.js";
import { planName } from "./words.js";

/** So many kinds are named; more are counted. */
const NAMED = 2;

/** @param {Kind} kind @returns {boolean} */
function hasNoPrice(kind) {
  return priceOfOne(kind) === null;
}

/** Kinds without a price that the home would allow. @param {Advice} advice @returns {Kind[]} */
function unpricedKinds({ document, about }) {
  return [...(document.kit ?? []), ...(about?.stand_ins ?? [])].filter((kind) => hasNoPrice(kind) && mayLook(document, kind));
}

/** Kinds without a price of pieces that the plan in hand buys already; those of the room as it is are owned. @param {Advice} advice @returns {Kind[]} */
function unpricedThere({ document, plan }) {
  const owned = new Set(document.plans[0].pieces.map((piece) => JSON.stringify(piece)));
  const bought = document.plans[plan].pieces.filter((piece) => !owned.has(JSON.stringify(piece)));
  return [...new Set(bought.flatMap(({ kit }) => kindById(document, kit) ?? []))].filter(hasNoPrice);
}

/** How much is known of what plans cost. @param {Advice} advice @returns {Known} */
export function knownMoney(advice) {
  if (!advice.about?.is_priced) return "none";
  return unpricedThere(advice).length > 0 ? "part" : "all";
}

/** Whether a limit of money bounds the plans, as far as prices are known. @param {Advice} advice @returns {boolean} */
function isBounded({ document, about }) {
  return document.limits?.budget !== undefined && about !== null && about.is_priced;
}

/** What bounds a plan, in words. @param {Advice} advice @returns {string} */
export function allowedWords(advice) {
  return isBounded(advice) ? "your home and your money allow" : "your home allows";
}

/**
 * "but for at most 400, ": what bounds a plan without the other limits; what these forbid may have a price where nothing else has.
 * @param {Advice} advice @returns {string}
 */
export function atMostWords(advice) {
  const { limits, kit, currency } = advice.document;
  if (limits?.budget === undefined || !(kit ?? []).some((kind) => (priceOfOne(kind) ?? 0) > 0)) return "";
  return `but for at most ${money(limits.budget, currency)}${knownMoney(advice) === "part" ? " of known prices" : ""}, `;
}

/** What the best plan is the best of. @param {Advice} advice @returns {string} */
export function bestWords(advice) {
  if (advice.document.limits?.budget === undefined) return "The best within your limits";
  return { all: "The best within your limits and your money", part: "The best for the prices that are known", none: "The best found, whatever it costs" }[knownMoney(advice)];
}

/**
 * What has no price, and what that means for the plans; null where every price is known.
 * @param {Advice} advice @param {boolean} canType  prices, on this page
 * @returns {string|null}
 */
export function pricesWords(advice, canType) {
  const { document, about } = advice;
  const kinds = unpricedKinds(advice);
  if (!about) return null;
  const type = canType ? ": type prices on the Kit shelf" : "";
  const budget = document.limits?.budget;
  const limit = budget === undefined ? null : `your ${money(budget, document.currency)} cannot be kept to`;
  if (!about.is_priced) {
    if (kinds.length === 0) return null;
    return `${noneHas(kinds)}, so ${limit ?? "money is not counted here"}${type}. ${canType ? "Until then plans" : "Plans"} are weighed by what they gain and by how many pieces they take.`;
  }
  const there = unpricedThere(advice);
  const left_out = kinds.length === 0 ? [] : [`${have(kinds)}, so plans, the next step and “what does most on each” leave ${kinds.length === 1 ? "it" : "them"} out${there.length > 0 ? "" : type}.`];
  const unknown = there.length === 0 ? [] : [`Pieces of ${planName(document.plans[advice.plan].name)} have no price (${there.map(({ name }) => name).join("; ")}), so sums of money leave them out${limit === null ? "" : ` and ${limit} for sure`}${type}.`];
  return [...unknown, ...left_out].join(" ") || null;
}

/** @param {Kind[]} kinds  all that plans are made of @returns {string} */
function noneHas(kinds) {
  return kinds.length > NAMED ? `None of the ${kinds.length} kinds that plans may use here has a price` : have(kinds);
}

/** "Thick soft has no price", "3 kinds have no price (…)". @param {Kind[]} kinds @returns {string} */
function have(kinds) {
  const names = kinds.map(({ name }) => name);
  if (kinds.length > NAMED) return `${kinds.length} kinds have no price (${names.join("; ")})`;
  return `${names.join(" and ")} ${kinds.length === 1 ? "has" : "have"} no price`;
}
