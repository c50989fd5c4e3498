/** A field for one decay time. What cannot be read stays with a sentence below; Escape restores. */
import { html } from "../../vendor.js";
import { number } from "../../model/format.js";
import { readTime } from "../../model/measured_text.js";

/** @param {{label: string, time_s: number, fixed: boolean, commit: (time_s: number|null) => void}} field */
export function timeField({ label, time_s, fixed, commit }) {
  const text = number(time_s, 2);
  return html`<label class="field time-field"><input type="text" inputmode="decimal" autocomplete="off" aria-label=${label} .value=${text} ?readonly=${fixed}
    @keydown=${(/** @type {KeyboardEvent} */ event) => restore(event, text)}
    @change=${(/** @type {Event} */ event) => take(/** @type {HTMLInputElement} */ (event.target), text, commit)} /><span class="wrong" role="alert"></span></label>`;
}

/** @param {HTMLInputElement} input @param {string} text @param {(time_s: number|null) => void} commit */
function take(input, text, commit) {
  if (input.value === text) return say(input, "");
  if (input.value.trim() === "") return commit(null);
  const read = readTime(input.value);
  say(input, read.problem ?? "");
  if (read.problem === undefined) commit(read.time_s);
}

/** @param {KeyboardEvent} event @param {string} text */
function restore(event, text) {
  const input = /** @type {HTMLInputElement} */ (event.target);
  if (event.key !== "Escape" || input.value === text) return;
  event.stopPropagation();
  input.value = text;
  say(input, "");
}

/** @param {HTMLInputElement} input @param {string} problem */
export function say(input, problem) {
  input.toggleAttribute("aria-invalid", problem !== "");
  if (problem) input.setAttribute("aria-invalid", "true");
  const place = input.parentElement?.querySelector(".wrong");
  if (place) place.textContent = problem;
}
