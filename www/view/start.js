/**
 * "Start with my room": three numbers, nothing else.
 *
 * @import { Scene } from "./scene.js"
 */
import { html } from "../vendor.js";
import { readLength } from "../model/lengths.js";
import { sideProblem } from "../model/room.js";

const SIDES = /** @type {const} */ ([
  { name: "width_m", label: "Width", hint: "wall to wall, across the loudspeakers", like: { metric: "3.60 m", imperial: "11' 10\"" } },
  { name: "length_m", label: "Length", hint: "from the wall behind them to the wall behind you", like: { metric: "5.20 m", imperial: "17' 1\"" } },
  { name: "height_m", label: "Height", hint: "floor to ceiling", like: { metric: "2.50 m", imperial: "8' 2\"" } },
]);

/** @param {Scene} scene */
export function startDialog(scene) {
  return html`<dialog id="start-dialog" aria-labelledby="start-title">
    <form method="dialog" novalidate @submit=${(/** @type {SubmitEvent} */ event) => begin(event, scene)}>
      <h2 id="start-title">Your room</h2>
      <p>Three numbers are enough to begin. Everything else starts as assumed and can be changed later.
        <a href="measure.html" target="_blank" rel="noopener">What to measure, and how<span class="unseen"> (opens beside this page)</span></a></p>
      ${SIDES.map((side, index) => html`<label class="field"><span class="field-name">${side.label} <small>${side.hint}</small></span>
        <input name=${side.name} ?autofocus=${index === 0} type="text" inputmode="decimal" autocomplete="off" placeholder=${side.like[scene.state.units]} />
        <span class="wrong" role="alert"></span></label>`)}
      <div class="acts"><button class="do solid" value="begin">Draw it</button><button value="cancel" formnovalidate>Not now</button></div>
    </form>
  </dialog>`;
}

/**
 * @param {SubmitEvent} event
 * @param {Scene} scene
 */
function begin(event, scene) {
  const form = /** @type {HTMLFormElement} */ (event.target);
  if (/** @type {HTMLButtonElement|null} */ (event.submitter)?.value === "cancel") return;
  const [width_m, length_m, height_m] = SIDES.map(({ name }) => readSide(form, name, scene.state.units));
  if (width_m === null || length_m === null || height_m === null) {
    event.preventDefault();
    return;
  }
  scene.dispatch({ type: "start-room", width_m, length_m, height_m });
  form.reset();
}

/**
 * @param {HTMLFormElement} form
 * @param {string} name
 * @param {"metric"|"imperial"} units
 * @returns {number|null}
 */
function readSide(form, name, units) {
  const input = /** @type {HTMLInputElement} */ (form.elements.namedItem(name));
  const read = readLength(input.value, units);
  const problem = read.problem ?? (read.value_m === undefined ? null : sideProblem(read.value_m, units));
  input.setAttribute("aria-invalid", problem === null ? "false" : "true");
  if (input.nextElementSibling) input.nextElementSibling.textContent = problem ?? "";
  return problem === null && read.value_m !== undefined ? read.value_m : null;
}

/** Opens the dialog that asks for the room. */
export function openStart() {
  const dialog = document.getElementById("start-dialog");
  if (dialog instanceof HTMLDialogElement) dialog.showModal();
}
