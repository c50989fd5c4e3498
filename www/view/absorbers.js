/**
 * How much each thing in here absorbs: surfaces, parts, furniture, pieces and air, as bars per octave and as a table per third of one.
 *
 * @import { AbsorberRow } from "../model/absorbers.js"
 * @import { Scene } from "./scene.js"
 */
import { html, nothing } from "../vendor.js";
import { absorberBars, octaveNames } from "../chart/absorbers.js";
import { NOMINAL_HZ, bandLabel } from "../chart/bands.js";
import { absorberRows, totalArea } from "../model/absorbers.js";
import { number } from "../model/format.js";
import { OCTAVES_HZ } from "../model/shares.js";
import { planName, sentence } from "../model/words.js";
import { origin } from "./origin.js";
import { figureFold } from "./rest.js";

/** Rows that are drawn; all are in the table. */
const MOST_DRAWN = 10;

/** @param {Scene} scene */
export function absorbersPart(scene) {
  const { now, shown, plan } = scene;
  const rows = now && shown ? absorberRows(shown, now) : [];
  const whose = scene.state.shown === 0 ? "today" : planName(plan.name);
  return html`<section class="part absorbers-part" aria-labelledby="absorbers-title"><header><h2 id="absorbers-title">What absorbs in here</h2>
      <span>${whose}, by octave, each as so many m² of open window</span></header>
    ${rows.length > 0 ? html`${summary(rows)}${bars(rows)}${figureFold("These figures as a table", [scene.shown, scene.now, whose], () => table(rows, whose))}` : nothing}
    ${origin("absorbers", "What absorbs")}</section>`;
}

/**
 * The three that take most in the middle of the range.
 * @param {AbsorberRow[]} rows
 */
function summary(rows) {
  const total_m2 = rows.reduce((sum, row) => sum + row.middle_m2, 0);
  const words = rows.slice(0, 3).map((row) => `${sentence(row.name)} ${number((100 * row.middle_m2) / total_m2)} %`);
  return html`<p class="says">Of what is taken from 500 Hz to 4 kHz: ${words.join("; ")}.</p>`;
}

/** @param {AbsorberRow[]} rows */
function bars(rows) {
  const drawn = rows.slice(0, MOST_DRAWN);
  const most_m2 = Math.max(...drawn.flatMap((row) => row.area_m2), 0.01);
  return html`<div class="absorbers">${drawn.map((row) => html`<div class="absorber">
      <span class="absorber-name">${row.what === "piece" ? html`<b>${sentence(row.name)}</b>` : sentence(row.name)}</span>
      ${absorberBars({ area_m2: row.area_m2, look: row.what === "piece" ? "plan" : "now", most_m2 })}
      <span class="absorber-figure">${figure(row.area_m2[3])} m² at 500 Hz</span></div>`)}
    <div class="absorber is-axis"><span></span>${octaveNames(OCTAVES_HZ)}<span>Hz</span></div></div>`;
}

/** @param {number} area_m2 */
function figure(area_m2) {
  return number(area_m2, area_m2 < 10 ? 1 : 0);
}

/**
 * @param {AbsorberRow[]} rows
 * @param {string} whose
 */
function table(rows, whose) {
  const total = totalArea(rows);
  return html`<div class="scroll" tabindex="0"><table>
    <caption>Equivalent absorption area, m², ${whose}, by third of an octave from 50 Hz to 10 kHz</caption>
    <thead><tr><th scope="col" class="text">Thing</th>${NOMINAL_HZ.map((hz) => html`<th scope="col">${bandLabel(hz)}</th>`)}</tr></thead>
    <tbody>${rows.map((row) => html`<tr><th scope="row" class="text">${sentence(row.name)}</th>${row.thirds_m2.map((area) => html`<td>${number(area, 2)}</td>`)}</tr>`)}
      <tr><th scope="row" class="text">All together</th>${total.map((area) => html`<td>${number(area, 2)}</td>`)}</tr></tbody></table></div>`;
}
