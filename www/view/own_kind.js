/**
 * "Own figures" on the Kit shelf: a piece from its data sheet. Six figures pasted into one field fill it and those after it.
 *
 * @import { Scene } from "./scene.js"
 */
import { html, nothing } from "../vendor.js";
import { frequency, number } from "../model/format.js";
import { OWN_BANDS_HZ } from "../model/household.js";
import { SHEET } from "../model/limits.js";
import { LOOKS } from "../model/looks_like.js";
import { readLength } from "../model/lengths.js";
import { isMany, readShares } from "../model/measured_text.js";
import { doubtedWords, ownKindProblem } from "../model/own_kind.js";
import { closeOnEscape } from "./escape.js";
import { inFold } from "./rest.js";
import { isReadOnly } from "./scene.js";

const LENGTHS = /** @type {const} */ ([
  { name: "width_m", label: "width", like: { metric: "0.60 m", imperial: "24 in" } },
  { name: "height_m", label: "height", like: { metric: "1.20 m", imperial: "48 in" } },
  { name: "depth_m", label: "depth from the wall", like: { metric: "0.10 m", imperial: "4 in" } },
]);

/** @param {Scene} scene */
export function ownKindFold(scene) {
  if (isReadOnly(scene)) return nothing;
  return html`<details class="kinds-fold own-kind" @keydown=${closeOnEscape}><summary aria-label="own: a piece by the figures of its data sheet">own</summary><form class="kinds-body" aria-label="A piece with own figures" novalidate @submit=${(/** @type {SubmitEvent} */ event) => enter(event, scene)}>
    ${inFold([scene.state.units], () => ownKindFields(scene))}</form></details>`;
}

/** @param {Scene} scene */
function ownKindFields(scene) {
  return html`<label class="field"><span class="field-name">its name</span><input name="name" type="text" maxlength="60" autocomplete="off" /></label>
    <fieldset class="six" @paste=${paste} @change=${warn}><legend>What it takes per octave, as its data sheet states: 0 to ${SHEET.most}. Paste all six at once, or type them.</legend>
      ${OWN_BANDS_HZ.map((hz) => html`<label class="field"><span class="field-name">${frequency(hz)}</span><input type="text" inputmode="decimal" autocomplete="off" data-hz=${hz} /></label>`)}</fieldset>
    <div class="four">${LENGTHS.map(({ name, label, like }) => html`<label class="field"><span class="field-name">${label}</span><input name=${name} type="text" inputmode="decimal" autocomplete="off" placeholder=${like[scene.state.units]} /></label>`)}
      <label class="field"><span class="field-name">price of one, if known</span><input name="price" type="text" inputmode="decimal" autocomplete="off" /></label>
      <label class="field"><span class="field-name">looks like</span><select name="looks"><option value="">a panel</option>${LOOKS.map(([look, words]) => html`<option value=${look}>${words}</option>`)}</select></label></div>
    <p class="wrong" role="alert"></p><p class="doubted also" role="status"></p>
    <button type="submit" class="word-button">put it on the shelf</button>`;
}

/** @param {ClipboardEvent} event */
function paste(event) {
  const text = event.clipboardData?.getData("text/plain") ?? "";
  const form = formOf(event);
  if (!isMany(text) || !form) return;
  event.preventDefault();
  const fields = figuresOf(form);
  const read = readShares(text, OWN_BANDS_HZ, Math.max(0, fields.indexOf(/** @type {HTMLInputElement} */ (event.target))));
  say(form, ".wrong", read.problem ?? "");
  if (read.problem !== undefined) return;
  for (const [hz, value] of read.values) fields[OWN_BANDS_HZ.indexOf(hz)].value = number(value, 2);
  warn(event);
}

/** What is odd about the figures, while they are typed. @param {Event} event */
function warn(event) {
  const form = formOf(event);
  if (!form) return;
  const values = figuresOf(form).map(({ value }) => Number(value.trim().replace(",", ".")));
  say(form, ".doubted", doubtedWords(values) ?? "");
}

/** @param {SubmitEvent} event @param {Scene} scene */
function enter(event, { dispatch, state }) {
  event.preventDefault();
  const form = /** @type {HTMLFormElement} */ (event.currentTarget);
  const read = readForm(form, state.units);
  say(form, ".wrong", typeof read === "string" ? read : "");
  if (typeof read === "string") return;
  dispatch({ type: "add-own-kind", ...read });
  form.reset();
  say(form, ".doubted", "");
  const fold = form.closest("details");
  if (fold) fold.open = false;
}

/** The piece, or why it is none. @param {HTMLFormElement} form @param {"metric"|"imperial"} units */
function readForm(form, units) {
  const typed = figuresOf(form).map(({ value }) => value);
  const empty = typed.findIndex((value) => value.trim() === "");
  if (empty >= 0) return `There is no figure for ${frequency(OWN_BANDS_HZ[empty])}.`;
  const figures = readShares(typed.map((value, index) => `${OWN_BANDS_HZ[index]};${value}`).join("\n"), OWN_BANDS_HZ);
  if (figures.problem !== undefined) return figures.problem;
  const text = (/** @type {string} */ name) => /** @type {HTMLInputElement|HTMLSelectElement} */ (form.elements.namedItem(name)).value;
  const [width, height, depth] = LENGTHS.map(({ name, label }) => ({ label, ...readLength(text(name), units) }));
  for (const { label, problem } of [width, height, depth]) if (problem !== undefined) return `${label}: ${problem}`;
  const price = text("price").trim() === "" ? null : Number(text("price").trim().replace(",", "."));
  const facts = { name: text("name"), values: OWN_BANDS_HZ.map((hz) => figures.values.get(hz) ?? NaN), width_m: width.value_m ?? NaN, height_m: height.value_m ?? NaN, depth_m: depth.value_m ?? NaN, price, looks: LOOKS.find(([look]) => look === text("looks"))?.[0] ?? null };
  return ownKindProblem(facts) ?? facts;
}

/** @param {Event} event @returns {HTMLFormElement|null} */
function formOf(event) {
  return /** @type {HTMLElement} */ (event.currentTarget).closest("form");
}

/** @param {HTMLFormElement} form */
function figuresOf(form) {
  return [.../** @type {NodeListOf<HTMLInputElement>} */ (form.querySelectorAll("input[data-hz]"))];
}

/** @param {HTMLFormElement} form @param {string} place @param {string} words */
function say(form, place, words) {
  const element = form.querySelector(place);
  if (element) element.textContent = words;
}
