// What a plan takes: its price as far as it is known, its weight, and its list of parts.

/**
 * @import { Kind, Plan, Scenario } from "./types.js"
 *
 * @typedef {object} PartsRow  All pieces of one kind.
 * @property {Kind} kind
 * @property {number[]} indices      in the plan
 * @property {number|null} price     of one; null: no price yet
 * @property {number|null} total
 * @property {number|null} mass_kg   of one; null: not known
 *
 * @typedef {object} PlanCost
 * @property {number} pieces
 * @property {number} known          sum of the prices that are known
 * @property {number} unpriced       pieces without a price
 * @property {number} mass_kg        of the pieces whose weight is known
 * @property {number} unweighed
 * @property {number} area_m2        of all faces
 */
import { money } from "./format.js";
import { kindById } from "./geometry.js";

/** What one piece costs: its own price, or that of its face; null if neither is known. @param {Kind} kind @returns {number|null} */
export function priceOfOne({ price, price_per_m2, width_m, height_m }) {
  if (price !== undefined) return price;
  return price_per_m2 === undefined ? null : cents(price_per_m2 * width_m * height_m);
}

/** Sums of prices are of cents. @param {number} value @returns {number} */
function cents(value) {
  return Math.round(value * 100) / 100;
}

/** The kinds of a plan in the order in which they first appear. @param {Scenario} document @param {Plan} plan @returns {PartsRow[]} */
export function partsOf(document, plan) {
  /** @type {Map<string, number[]>} */
  const found = new Map();
  plan.pieces.forEach((piece, index) => found.set(piece.kit, [...(found.get(piece.kit) ?? []), index]));
  return [...found].flatMap(([id, indices]) => {
    const kind = kindById(document, id);
    if (!kind) return [];
    const price = priceOfOne(kind);
    return [{ kind, indices, price, total: price === null ? null : cents(price * indices.length), mass_kg: kind.mass_kg ?? null }];
  });
}

/** @param {Scenario} document @param {Plan} plan @returns {PlanCost} */
export function costOf(document, plan) {
  const cost = { pieces: plan.pieces.length, known: 0, unpriced: 0, mass_kg: 0, unweighed: 0, area_m2: 0 };
  for (const { kind, indices, total, mass_kg } of partsOf(document, plan)) {
    cost.known = cents(cost.known + (total ?? 0));
    cost.unpriced += total === null ? indices.length : 0;
    cost.mass_kg += (mass_kg ?? 0) * indices.length;
    cost.unweighed += mass_kg === null ? indices.length : 0;
    cost.area_m2 += kind.width_m * kind.height_m * indices.length;
  }
  return cost;
}

/** "660", "at least 120 €", "no price yet", or "nothing". @param {PlanCost} cost @param {string} [currency] @returns {string} */
export function costText({ pieces, known, unpriced }, currency) {
  if (pieces === 0) return "nothing";
  if (unpriced === pieces) return "no price yet";
  return `${unpriced > 0 ? "at least " : ""}${money(known, currency)}`;
}

/** What one plan costs beside another one, in words; empty where that is not known. @param {PlanCost} one @param {PlanCost} other @param {string} [currency] @returns {string} */
export function costDifference(one, other, currency) {
  if (one.unpriced > 0 || other.unpriced > 0) return "";
  const more = cents(one.known - other.known);
  if (more === 0) return one.known === 0 ? "" : "costs the same";
  return `costs ${money(Math.abs(more), currency)} ${more > 0 ? "more" : "less"}`;
}
