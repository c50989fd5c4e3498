/**
 * Plans side by side by what they take and do, the parts to buy, and a paragraph to paste. Loaded when it is opened.
 *
 * @import { Scene } from "./scene.js"
 */
import { html, nothing } from "../vendor.js";
import { confidence, differenceOf, differenceWords } from "../model/doubt.js";
import { area, count, mass, secondsRange } from "../model/format.js";
import { fileName } from "../model/files.js";
import { differencesFor, rangesFor } from "../model/late.js";
import { costOf, costText } from "../model/money.js";
import { planParagraph } from "../model/paragraph.js";
import { partsCsv } from "../model/parts_csv.js";
import { planLabel, planName } from "../model/words.js";
import { doubtOf } from "./late.js";
import { partRows, partsTable } from "./parts_table.js";

/** @param {Scene} scene */
export function costs(scene) {
  const { document, plan, commands, state: { answer, units } } = scene;
  const paragraph = answer ? planParagraph(answer, doubtOf(scene), units) : "";
  const name = fileName(document).replace(/\.json$/, "-parts.csv");
  return html`<h3>Plans side by side</h3>${sideBySide(scene)}
    ${plan.pieces.length > 0 ? html`<h3>To buy for ${planName(plan.name)}</h3><div class="scroll" tabindex="0">${partsTable(partRows(document, plan, units))}</div>
      <p><button type="button" @click=${() => commands.saveText(partsCsv(document, plan), name, "text/csv")}>Save the parts as a table</button></p>` : nothing}
    <h3>In a paragraph</h3><p class="paragraph">${paragraph}</p>
    <p><button type="button" @click=${() => commands.copyText(paragraph, "The paragraph")}>Copy the paragraph</button></p>`;
}

/** @param {Scene} scene */
function sideBySide(scene) {
  const { document, state: { shown } } = scene;
  return html`<div class="scroll" tabindex="0"><table><caption class="unseen">All plans by pieces, weight, cost and decay</caption>
    <thead><tr><th scope="col">Plan</th><th scope="col">pieces</th><th scope="col">faces</th><th scope="col">weight</th><th scope="col">cost</th>
      <th scope="col">dies away in</th><th scope="col" class="text">goal</th><th scope="col" class="text">against today</th></tr></thead>
    <tbody>${document.plans.map((_, index) => row(scene, index, index === shown))}</tbody></table></div>`;
}

/**
 * @param {Scene} scene
 * @param {number} index
 * @param {boolean} isShown
 */
function row({ document, state: { late, units } }, index, isShown) {
  const plan = document.plans[index];
  const cost = costOf(document, plan);
  const ranges = rangesFor(late, document, index);
  const difference = index === 0 ? null : differenceOf(differencesFor(late, document), document.plans[0].name, plan.name);
  const word = ranges ? confidence(ranges.mid.goal_met) : null;
  return html`<tr class=${isShown ? "is-shown" : ""}><th scope="row">${planLabel(plan.name)}</th><td>${count(cost.pieces)}</td><td>${area(cost.area_m2, units)}</td>
    <td>${cost.unweighed > 0 ? "at least " : ""}${mass(cost.mass_kg, units)}</td><td>${costText(cost, document.currency)}</td>
    <td>${ranges ? secondsRange(ranges.mid.low_s, ranges.mid.high_s) : "shown once compared"}</td><td class="text">${word ? `${word.word}${word.rest}` : "–"}</td>
    <td class="text">${difference ? differenceWords(difference, "today") : "–"}</td></tr>`;
}
