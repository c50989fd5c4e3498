/**
 * What several rows of the room facts share: choosing a finish with its figures, choosing from words, typing a name.
 *
 * @import { FinishInfo, SurfaceName } from "../model/types.js"
 * @import { Scene } from "./scene.js"
 */
import { html, nothing } from "../vendor.js";
import { spreadChart } from "../chart/absorption.js";
import { valueNear } from "../chart/bands.js";
import { number } from "../model/format.js";
import { OWN_BANDS_HZ } from "../model/household.js";
import { isMany, readShares } from "../model/measured_text.js";
import { numberField } from "./field.js";
import { isReadOnly } from "./scene.js";

/**
 * @param {{label: string, value: string, options: readonly {value: string, words: string}[], fixed: boolean, choose: (value: string) => void}} field
 */
export function choiceField({ label, value, options, fixed, choose }) {
  return html`<label class="field"><span class="field-name">${label}</span>
    <select ?disabled=${fixed} @change=${(/** @type {Event} */ event) => choose(/** @type {HTMLSelectElement} */ (event.target).value)}>${
      options.map((one) => html`<option value=${one.value} .selected=${one.value === value}>${one.words}</option>`)}</select></label>`;
}

/**
 * @param {{label: string, value: string, fixed: boolean, commit: (text: string) => void}} field
 */
export function nameField({ label, value, fixed, commit }) {
  return html`<label class="field"><span class="field-name">${label}</span><input type="text" maxlength="60" autocomplete="off" .value=${value}
    ?readonly=${fixed} @change=${(/** @type {Event} */ event) => commit(/** @type {HTMLInputElement} */ (event.target).value)} /></label>`;
}

/**
 * A finish by name with its figures below, and own figures instead.
 * @param {Scene} scene
 * @param {{label: string, current: string, suits: string, surface: SurfaceName, part?: number|null, choose: (finish: string) => void}} field
 */
export function finishChoice(scene, { label, current, suits, surface, part = null, choose }) {
  const { document, library, dispatch } = scene;
  const suited = library.finishes.filter((finish) => finish.suits.split(" ").includes(suits) || finish.id === current);
  const own = document.own_finishes ?? [];
  const options = [...suited, ...own].map(({ id, name }) => ({ value: id, words: name }));
  const known = library.finishes.find((finish) => finish.id === current);
  const typed = own.find((finish) => finish.id === current);
  const values = known?.typical ?? typed?.absorption ?? OWN_BANDS_HZ.map(() => 0.1);
  return html`<div class="finish">${choiceField({ label, value: current, options, fixed: isReadOnly(scene), choose })}
    ${known ? finishNote(known) : nothing}${typed ? ownFields(scene, typed) : nothing}
    ${typed || isReadOnly(scene) ? nothing : html`<button type="button" class="word-button" @click=${() => dispatch({
      type: "set-own-finish", id: null, surface, part, values: values.slice(0, 6).map((share) => Math.min(1, share)) })}>type own values</button>`}</div>`;
}

/** @param {FinishInfo} finish */
export function finishNote(finish) {
  return html`<details class="from"><summary>its figures, their spread and source</summary>
    ${spreadChart(finish)}<p>${finish.typical.map((share) => number(share, 2)).join(", ")} at 125 Hz to 4 kHz; published from
    ${finish.low.map((share) => number(share, 2)).join(", ")} to ${finish.high.map((share) => number(share, 2)).join(", ")}. ${finish.source}</p></details>`;
}

/**
 * Several figures pasted into one field fill it and those after it, as one step.
 * @param {ClipboardEvent} event @param {Scene} scene @param {string} id @param {readonly number[]} before
 */
function pasteShares(event, scene, id, before) {
  const text = event.clipboardData?.getData("text/plain") ?? "";
  if (!isMany(text) || isReadOnly(scene)) return;
  event.preventDefault();
  const fields = [.../** @type {HTMLElement} */ (event.currentTarget).querySelectorAll("input")];
  const read = readShares(text, OWN_BANDS_HZ, Math.max(0, fields.indexOf(/** @type {HTMLInputElement} */ (event.target))));
  if (read.problem !== undefined) return scene.dispatch({ type: "notify", notice: { text: read.problem, tone: "problem" } });
  scene.dispatch({ type: "set-own-finish", id, values: OWN_BANDS_HZ.map((hz, index) => read.values.get(hz) ?? before[index]) });
}

/**
 * Values that a person typed: one share per octave, and a name.
 * @param {Scene} scene
 * @param {NonNullable<Scene["document"]["own_finishes"]>[number]} finish
 */
function ownFields(scene, finish) {
  const { dispatch } = scene;
  const fixed = isReadOnly(scene);
  const values = OWN_BANDS_HZ.map((hz) => valueNear(finish.bands_hz, finish.absorption, hz));
  return html`${nameField({ label: "its name", value: finish.name, fixed, commit: (name) => dispatch({ type: "set-own-finish", id: finish.id, name }) })}
    <div class="six" @paste=${(/** @type {ClipboardEvent} */ event) => pasteShares(event, scene, finish.id, values)}>${OWN_BANDS_HZ.map((hz, index) => numberField({
      label: hz < 1000 ? `${hz}` : `${hz / 1000}k`, aloud: `Share absorbed at ${hz} Hz, ${finish.name}`, value: values[index], fixed,
      commit: (value) => value !== null && dispatch({ type: "set-own-finish", id: finish.id, values: values.map((old, at) => (at === index ? value : old)) }),
    }))}</div>${spreadChart({ low: values, typical: values, high: values })}<p class="from">Your own figures: shares from 0 to 1 per octave, without a spread.</p>`;
}
