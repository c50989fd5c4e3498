/**
 * The form for another measured decay. Several figures pasted into one field fill it and those after it.
 *
 * @import { Scene } from "../scene.js"
 */
import { html } from "../../vendor.js";
import { NOMINAL_HZ, isOctave } from "../../chart/bands.js";
import { frequency, number } from "../../model/format.js";
import { isMany, readMeasured, readTime } from "../../model/measured_text.js";
import { planName } from "../../model/words.js";

const OCTAVES_HZ = NOMINAL_HZ.filter((hz, band) => isOctave(band) && hz >= 125 && hz <= 4000);
const THIRDS_HZ = NOMINAL_HZ.filter((hz) => hz >= 100 && hz <= 5000);

/**
 * @param {Scene} scene
 * @param {string} chosen
 * @param {((plan: string) => void)|null} commit
 */
export function planPick({ document }, chosen, commit) {
  return html`<label class="plan-pick">Measured plan <select name="plan" @change=${(/** @type {Event} */ event) => commit?.(/** @type {HTMLSelectElement} */ (event.target).value)}>
    ${document.plans.map(({ name }) => html`<option value=${name} .selected=${name === chosen}>${planName(name) === "Now" ? "the room as it is" : planName(name)}</option>`)}</select></label>`;
}

/** @param {Scene} scene */
export function entryForm(scene) {
  const { dispatch, state, plan } = scene;
  const thirds = state.shows.thirds === true;
  const bands_hz = thirds ? THIRDS_HZ : OCTAVES_HZ;
  return html`<form class="checkup-form" aria-labelledby="enter-title" @submit=${(/** @type {SubmitEvent} */ event) => enter(event, scene)}>
    <h3 id="enter-title">Enter a measured decay</h3>
    <p class="acts">${planPick(scene, plan.name, null)}<label class="tick"><input type="checkbox" .checked=${thirds} @change=${(/** @type {Event} */ event) => dispatch({
      type: "show", shows: { thirds: /** @type {HTMLInputElement} */ (event.target).checked } })} /> thirds of an octave</label></p>
    <fieldset class="bands"><legend>Decay time T20 or T30, s; leave out what you did not measure</legend>
      ${bands_hz.map((hz, index) => html`<label class="field"><span class="field-name">${frequency(hz)}</span><input type="text" inputmode="decimal" autocomplete="off" data-hz=${hz}
        @paste=${(/** @type {ClipboardEvent} */ event) => paste(event, dispatch, bands_hz, index)} /></label>`)}</fieldset>
    <label class="field"><span class="field-name">Or type or paste rows here: 500 Hz 0.62, a line for each band, or a row of times from ${frequency(bands_hz[0])} on</span>
      <textarea name="rows" rows="2" autocomplete="off"></textarea></label>
    <p class="wrong" role="alert"></p>
    <p class="acts"><button type="submit">Enter this check-up</button></p></form>`;
}

/** @param {ClipboardEvent} event @param {Scene["dispatch"]} dispatch @param {readonly number[]} bands_hz @param {number} first */
function paste(event, dispatch, bands_hz, first) {
  const text = event.clipboardData?.getData("text/plain") ?? "";
  if (!isMany(text)) return;
  event.preventDefault();
  const form = /** @type {HTMLElement} */ (event.currentTarget).closest("form");
  if (!form) return;
  const read = readMeasured(text, NOMINAL_HZ, first, bands_hz);
  say(form, read.problem ?? "");
  if (read.problem === undefined) spread(form, read.times, dispatch);
}

/**
 * Into the fields; where one is missing, all go to the rows, which take any band.
 * @param {HTMLFormElement} form @param {Map<number, number>} times @param {Scene["dispatch"]} dispatch
 */
function spread(form, times, dispatch) {
  const fields = new Map(fieldsOf(form).map((input) => [Number(input.dataset.hz), input]));
  if ([...times.keys()].every((hz) => fields.has(hz))) {
    for (const [hz, time_s] of times) /** @type {HTMLInputElement} */ (fields.get(hz)).value = number(time_s, 2);
    return;
  }
  rowsOf(form).value = [...times].map(([hz, time_s]) => `${hz} ${time_s}`).join("\n");
  dispatch({ type: "notify", notice: { text: "What was pasted names other bands: it is in the rows below the fields.", tone: "note" } });
}

/** @param {SubmitEvent} event @param {Scene} scene */
function enter(event, { dispatch }) {
  event.preventDefault();
  const form = /** @type {HTMLFormElement} */ (event.currentTarget);
  const read = readForm(form);
  say(form, read.problem ?? "");
  if (read.problem !== undefined) return;
  const plan = String(new FormData(form).get("plan"));
  dispatch({ type: "add-measured", entry: { plan, bands_hz: [...read.times.keys()], decay_s: [...read.times.values()] } });
  for (const input of fieldsOf(form)) input.value = "";
  rowsOf(form).value = "";
}

/** Fields and rows together. @param {HTMLFormElement} form @returns {{times: Map<number, number>, problem?: undefined} | {problem: string}} */
function readForm(form) {
  /** @type {Map<number, number>} */
  const times = new Map();
  for (const input of fieldsOf(form).filter(({ value }) => value.trim() !== "")) {
    const hz = Number(input.dataset.hz);
    const read = readTime(input.value);
    if (read.problem !== undefined) return { problem: `${frequency(hz)}: ${read.problem}` };
    times.set(hz, read.time_s);
  }
  const rows = rowsOf(form).value;
  if (rows.trim() !== "") {
    const shown_hz = fieldsOf(form).map((input) => Number(input.dataset.hz));
    const read = readMeasured(rows, NOMINAL_HZ, 0, shown_hz);
    if (read.problem !== undefined) return read;
    for (const [hz, time_s] of read.times) {
      if (times.has(hz)) return { problem: `${frequency(hz)} is in a field and in the rows.` };
      times.set(hz, time_s);
    }
  }
  return times.size > 0 ? { times } : { problem: "Enter one decay time at the least, in seconds: 0.62." };
}

/** @param {HTMLFormElement} form */
function fieldsOf(form) {
  return [.../** @type {NodeListOf<HTMLInputElement>} */ (form.querySelectorAll("input[data-hz]"))];
}

/** @param {HTMLFormElement} form */
function rowsOf(form) {
  return /** @type {HTMLTextAreaElement} */ (form.querySelector("textarea"));
}

/** @param {HTMLFormElement} form @param {string} problem */
function say(form, problem) {
  const place = form.querySelector(":scope > .wrong");
  if (place) place.textContent = problem;
}
