/**
 * Fields that take a length or a number as people write them. What was typed stays when it cannot be read, with a
 * sentence below; Enter or leaving commits, Escape restores.
 *
 * @import { Units } from "../model/format.js"
 */
import { html, nothing } from "../vendor.js";
import { length, number } from "../model/format.js";
import { readLength } from "../model/lengths.js";

/**
 * @typedef {object} LengthField
 * @property {string} label
 * @property {number} value_m
 * @property {Units} units
 * @property {(value_m: number) => void} commit
 * @property {string} [aloud]   the label with its object, where the visible one is too short to stand alone
 * @property {boolean} [bare]   without a visible label, in a table
 * @property {boolean} [fixed]  shown and not to be changed
 * @property {string} [id]
 * @property {(value_m: number) => string|null} [problemOf]  what is wrong with a value that could be read
 * @property {(problem: string|null) => void} [tell]  told of what is wrong, and when it is right again
 */

/** @param {LengthField} field */
export function lengthField(field) {
  return textField({
    ...field,
    text: length(field.value_m, field.units),
    read: (typed) => checked(readLength(typed, field.units, field.value_m), field.problemOf),
    commit: field.commit,
  });
}

/**
 * @param {{label: string, value: number|undefined, commit: (value: number|null) => void, aloud?: string, bare?: boolean, whole?: boolean, fixed?: boolean, signed?: boolean}} field
 */
export function numberField(field) {
  return textField({
    ...field,
    text: field.value === undefined ? "" : number(field.value, field.whole || Number.isInteger(field.value) ? 0 : 2),
    read: (typed) => readNumber(typed, field.whole === true, field.signed === true),
    commit: (value) => field.commit(Number.isNaN(value) ? null : value),
  });
}

/**
 * @param {ReturnType<typeof readLength>} read
 * @param {LengthField["problemOf"]} problemOf
 * @returns {ReturnType<typeof readLength>}
 */
function checked(read, problemOf) {
  const problem = read.value_m === undefined ? null : problemOf?.(read.value_m) ?? null;
  return problem === null ? read : { problem };
}

/**
 * An angle; less than nothing turns the other way.
 * @param {{label: string, value: number, commit: (value: number) => void, fixed?: boolean}} field
 */
export function degreesField(field) {
  return textField({ ...field, text: number(field.value, Number.isInteger(field.value) ? 0 : 1), read: readDegrees });
}

/**
 * @param {string} typed
 * @returns {{value_m: number, problem?: undefined} | {problem: string}}
 */
function readDegrees(typed) {
  const plain = typed.trim().replace(",", ".").replace(/^\u2212/, "-").replace(/\s*°$/, "");
  if (!/^-?\d+(\.\d+)?$/.test(plain)) return { problem: `I could not read “${typed.trim().slice(0, 24)}”. Try 15.` };
  return { value_m: Number(plain) };
}

/**
 * @param {string} typed
 * @param {boolean} whole
 * @param {boolean} signed  less than nothing is a value too
 * @returns {{value_m: number, problem?: undefined} | {problem: string}}
 */
function readNumber(typed, whole, signed) {
  const plain = typed.trim().replace(",", ".").replace(/^\u2212/, "-");
  if (plain === "") return { value_m: Number.NaN };
  if (!(signed ? /^-?\d+(\.\d+)?$/ : /^\d+(\.\d+)?$/).test(plain) || (whole && !Number.isInteger(Number(plain)))) {
    return { problem: `I could not read “${typed.trim().slice(0, 24)}”. Try ${whole ? "2" : "45"}.` };
  }
  return { value_m: Number(plain) };
}

/**
 * @param {{label: string, text: string, aloud?: string, bare?: boolean, fixed?: boolean, id?: string,
 *   read: (typed: string) => {value_m?: number, problem?: string}, commit: (value: number) => void, tell?: (problem: string|null) => void}} field
 */
function textField(field) {
  /** @param {Event} event */
  const take = (event) => {
    const input = /** @type {HTMLInputElement} */ (event.target);
    const read = input.value === input.dataset.shown ? null : field.read(input.value);
    field.tell?.(read?.problem ?? null);
    if (!read) return clearProblem(input);
    if (read.value_m === undefined) return showProblem(input, read.problem ?? "");
    clearProblem(input);
    field.commit(read.value_m);
    requestAnimationFrame(() => { input.value = input.dataset.shown ?? input.value; });
  };
  return html`<label class="field">${field.bare ? nothing : html`<span class="field-name">${field.label}</span>`}
    <input type="text" inputmode="decimal" autocomplete="off" id=${field.id ?? nothing} .value=${field.text} data-shown=${field.text}
      aria-label=${field.aloud ?? nothing} ?readonly=${field.fixed === true} @change=${take} @keydown=${(/** @type {KeyboardEvent} */ event) => onKey(event, field.tell)} />
    <span class="wrong" role="alert"></span></label>`;
}

/**
 * @param {KeyboardEvent} event
 * @param {LengthField["tell"]} tell
 */
function onKey(event, tell) {
  const input = /** @type {HTMLInputElement} */ (event.target);
  if (event.key !== "Escape" || input.value === input.dataset.shown) return;
  event.stopPropagation();
  input.value = input.dataset.shown ?? "";
  clearProblem(input);
  tell?.(null);
}

/**
 * @param {HTMLInputElement} input
 * @param {string} problem
 */
function showProblem(input, problem) {
  input.setAttribute("aria-invalid", "true");
  if (input.nextElementSibling) input.nextElementSibling.textContent = problem;
}

/** @param {HTMLInputElement} input */
function clearProblem(input) {
  input.removeAttribute("aria-invalid");
  if (input.nextElementSibling) input.nextElementSibling.textContent = "";
}
