/**
 * Which surface first, and how many are needed: what half of each buys, ranked by the gain that is shown, each with its reason and the range of the
 * decay; a quarter after the other on request.
 *
 * @import { Advice, Cover, SurfaceAdvice } from "../model/advice_types.js"
 * @import { Scene } from "./scene.js"
 */
import { html, nothing } from "../vendor.js";
import { amountWords } from "../model/amount_words.js";
import { coveringKinds, rankedSurfaces } from "../model/advice.js";
import { whyWords } from "../model/advice_words.js";
import { area, money, number, percent, seconds } from "../model/format.js";
import { kindName, sentence, surfaceName } from "../model/words.js";
import { isReadOnly } from "./scene.js";

const HALF = 1;

/**
 * What surfaces are covered with; what stands does not cover any.
 * @param {Scene} scene
 * @param {Advice} advice
 */
export function coverChoice(scene, advice) {
  if (isReadOnly(scene)) return nothing;
  const choose = (/** @type {Event} */ event) => scene.commands.coverWith(/** @type {HTMLSelectElement} */ (event.currentTarget).value || null);
  return html`<p class="says"><label class="pick-one">With <select @change=${choose}><option value="" .selected=${advice.kit === null}>what does most on each</option>${
    coveringKinds(advice).map(({ id, name }) => html`<option value=${id} .selected=${advice.kit === id}>${name}</option>`)}</select></label></p>`;
}

/**
 * @param {Scene} scene
 * @param {Advice} advice
 */
export function surfacesTable(scene, advice) {
  const ranked = rankedSurfaces(advice.found);
  return html`<div class="wide-table"><table><thead><tr><th scope="col">Half covered</th><th scope="col">with</th><th scope="col">gain</th><th scope="col">decay, 8 times in 10</th><th scope="col">first bounces</th><th scope="col">why</th></tr></thead>
    <tbody>${ranked.map((one) => row(advice, one))}</tbody></table></div>
    <p class="also">Ranked by gain: everything that counts, in steps. The range is that of the change in decay alone; the gain is at the middle of it.</p>
    <details class="figures"><summary>A quarter after the other</summary>${ranked.filter((one) => one.covers.length > 0).map((one) => quarters(scene, advice, one))}</details>`;
}

/**
 * How many are needed, of the kind that was chosen or of the one that does most.
 * @param {Scene} scene
 * @param {Advice} advice
 */
export function amountPart({ state }, advice) {
  const amount = advice.found.amount?.amount;
  const name = amount && nameOf(advice, amount.kit);
  if (!amount || !name) return nothing;
  return html`<h3>How many are needed</h3><p class="says">${amountWords(amount, name, advice.document, state.units).join(" ")}</p>`;
}

/** @param {Advice} advice @param {string|null} kit @returns {string|null} */
function nameOf({ document, about }, kit) {
  return kit === null ? null : about?.stand_ins.find((kind) => kind.id === kit)?.name ?? kindName(document, kit);
}

/**
 * @param {Advice} advice
 * @param {SurfaceAdvice} one
 */
function row(advice, one) {
  const half = one.covers[HALF];
  return html`<tr><th scope="row">${sentence(surfaceName(one.surface))}</th><td>${half ? `${half.pieces} × ${nameOf(advice, one.kit)}` : "–"}</td>
    <td>${half ? `${number(half.gained, 1)} steps` : "–"}</td><td>${half ? decay(one, half) : "–"}</td><td>${half ? bounces(one, half) : "–"}</td><td>${whyWords(one, nameOf(advice, advice.kit))}</td></tr>`;
}

/** The change, with its range. @param {SurfaceAdvice} one @param {Cover} cover */
function decay({ middle_s }, cover) {
  if (cover.range_s) return `${number(cover.range_s[0], 2)} to ${number(cover.range_s[1], 2)} s`;
  return middle_s === null || cover.middle_s === null ? "–" : `${number(cover.middle_s - middle_s, 2)} s`;
}

/** @param {SurfaceAdvice} one @param {Cover} cover */
function bounces({ bounces_db }, cover) {
  return bounces_db === null || cover.bounces_db === null ? "–" : `${number(cover.bounces_db - bounces_db, 1)} dB`;
}

/**
 * @param {Scene} scene
 * @param {Advice} advice
 * @param {SurfaceAdvice} one
 */
function quarters({ state }, advice, one) {
  const { document } = advice;
  const tooMany = one.covers.some((cover) => cover.shows_too_many);
  return html`<table><caption>${sentence(surfaceName(one.surface))}, ${area(one.free_m2, state.units)} free for ${nameOf(advice, one.kit)}</caption><thead><tr><th scope="col">of what fits</th><th scope="col">area</th><th scope="col">gain</th><th scope="col">decay</th><th scope="col">change, 8 times in 10</th><th scope="col">first bounces</th><th scope="col">evenness</th><th scope="col">cost</th></tr></thead>
    <tbody>${one.covers.map((cover) => html`<tr><th scope="row">${percent(cover.share)}</th><td>${area(cover.area_m2, state.units)}${cover.shows_too_many ? "*" : ""}</td><td>${number(cover.gained, 1)} steps</td><td>${cover.middle_s === null ? "–" : seconds(cover.middle_s)}</td><td>${decay(one, cover)}</td>
      <td>${bounces(one, cover)}</td><td>${evenness(cover)}</td><td>${cover.price > 0 ? money(Math.round(cover.price), document.currency) : nothing}</td></tr>`)}</tbody></table>${tooMany ? html`<p class="also">* More pieces than your limit lets be seen: no plan uses so many.</p>` : nothing}`;
}

/** @param {Cover} cover */
function evenness({ evenness_gained }) {
  if (Math.abs(evenness_gained) < 0.05) return "as it is";
  return `${number(Math.abs(evenness_gained), 1)} steps ${evenness_gained > 0 ? "better" : "worse"}`;
}
