/**
 * The first page: what this is for, what it should do and how sure that is, the parts, the tools.
 *
 * @import { HangSurface } from "../../model/hang.js"
 * @import { Around } from "../hang.js"
 * @import { Scene } from "../scene.js"
 */
import { html, nothing } from "../../vendor.js";
import { answerWords } from "../../model/answer.js";
import { FOOT } from "../../model/cautions.js";
import { area, count, depth, mass, money, volume } from "../../model/format.js";
import { kindDepth } from "../../model/kinds.js";
import { costOf, costText, partsOf } from "../../model/money.js";
import { toolsFor } from "../../model/tools.js";
import { planName, sentence, surfaceName } from "../../model/words.js";
import { doubtOf } from "../late.js";
import { bySize, checkBar, measure } from "./paper.js";

/**
 * @param {Scene} scene
 * @param {Around} _around
 * @param {HangSurface[]} surfaces
 */
export function frontPage(scene, _around, surfaces) {
  const { document, plan, state: { units } } = scene;
  const { width_m, length_m, height_m } = document.room;
  const sides = [width_m, length_m, height_m].map((side_m) => measure(side_m, units)).join(" × ");
  return html`<h1>${planName(plan.name)}</h1>
    <p>${document.title}: ${sides}${units === "metric" ? " m" : ""} (width, length, height), ${volume(width_m * length_m * height_m, units)}.</p>
    <p class="result">${resultSentence(scene)}</p>
    ${surfaces.length > 0 ? html`${partsTable(scene)}${where(surfaces)}${tools(surfaces)}`
      : html`<p class="nothing">Nothing to hang yet. The next sheet has the room with its bounce marks: where a first piece would do most.</p>`}
    <p class="paper-foot">${FOOT}</p>${checkBar}`;
}

/**
 * The answer of the page with its range, and what follows it.
 * @param {Scene} scene
 */
export function resultSentence(scene) {
  const { answer } = scene.state;
  return answer ? answerWords(answer, doubtOf(scene)).text.trim() : "The answer was not worked out yet.";
}

/** @param {Scene} scene */
function partsTable({ document, plan, state: { units } }) {
  const { currency } = document;
  const cost = costOf(document, plan);
  return html`<h2>Parts</h2><table class="parts-to-buy"><thead><tr><th scope="col">Count</th><th scope="col" class="text">Piece</th><th scope="col" class="text">Numbers</th>
      <th scope="col">Weight each</th><th scope="col">Price each</th><th scope="col">Together</th></tr></thead>
    <tbody>${partsOf(document, plan).map(({ kind, indices, price, total, mass_kg }) => html`<tr><td>${indices.length}</td>
      <td class="text">${kind.name}; ${bySize(kind, units)}, ${depth(kindDepth(kind), units)} deep</td><td class="text">${indices.map((index) => index + 1).join(", ")}</td>
      <td>${mass_kg === null ? "not known" : mass(mass_kg, units)}</td><td>${price === null ? "no price yet" : money(price, currency)}</td>
      <td>${total === null ? "–" : money(total, currency)}</td></tr>`)}
      <tr class="sum"><td>${count(cost.pieces)}</td><td class="text">in all, ${area(cost.area_m2, units)} of faces</td><td></td>
        <td>${cost.unweighed > 0 ? "at least " : ""}${mass(cost.mass_kg, units)}</td><td></td><td>${costText(cost, currency)}</td></tr></tbody></table>`;
}

/** @param {HangSurface[]} surfaces */
function where(surfaces) {
  return html`<h2>Where</h2><p>${surfaces.map(({ surface, items }, index) => html`${index === 0 ? nothing : "; "}${sentence(surfaceName(surface))}: ${
    items.map((item) => item.index + 1).join(", ")}`)}.</p>`;
}

/** @param {HangSurface[]} surfaces */
function tools(surfaces) {
  return html`<h2>Tools</h2><p>${sentence(toolsFor(surfaces.flatMap(({ items }) => items)).join(", "))}.</p>`;
}
