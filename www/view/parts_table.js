/**
 * The parts of a plan with what they weigh and cost, on the page and on the Hang sheet.
 *
 * @import { Plan, Scenario } from "../model/types.js"
 * @import { Units } from "../model/format.js"
 */
import { html } from "../vendor.js";
import { area, count, depth, mass, money, size } from "../model/format.js";
import { kindDepth } from "../model/kinds.js";
import { costOf, costText, partsOf } from "../model/money.js";

/**
 * One for each kind, and the sum.
 * @param {Scenario} document
 * @param {Plan} plan
 * @param {Units} units
 * @returns {unknown[]}
 */
export function partRows(document, plan, units) {
  const { currency } = document;
  const cost = costOf(document, plan);
  const kinds = partsOf(document, plan).map(({ kind, indices, price, total, mass_kg }) => html`<tr><td>${indices.length}</td>
    <td class="text">${kind.name}; ${size(kind, units)}, ${depth(kindDepth(kind), units)} deep</td><td class="text">${indices.map((index) => index + 1).join(", ")}</td>
    <td>${mass_kg === null ? "not known" : mass(mass_kg, units)}</td><td>${price === null ? "no price yet" : money(price, currency)}</td>
    <td>${total === null ? "–" : money(total, currency)}</td></tr>`);
  return [...kinds, html`<tr class="sum"><td>${count(cost.pieces)}</td><td class="text">in all, ${area(cost.area_m2, units)} of faces</td><td></td>
    <td>${cost.unweighed > 0 ? "at least " : ""}${mass(cost.mass_kg, units)}</td><td></td><td>${costText(cost, currency)}</td></tr>`];
}

/** @param {unknown[]} rows */
export function partsTable(rows) {
  return html`<table class="parts-to-buy"><thead><tr><th scope="col">Count</th><th scope="col" class="text">Piece</th><th scope="col" class="text">Numbers</th>
      <th scope="col">Weight each</th><th scope="col">Price each</th><th scope="col">Together</th></tr></thead>
    <tbody>${rows}</tbody></table>`;
}
