/**
 * The selected loudspeaker or the seat: its note beside the drawing, and its numbers in the Item panel.
 *
 * @import { Loudspeaker, StandsAt } from "../model/types.js"
 * @import { Scene } from "./scene.js"
 */
import { html, nothing } from "../vendor.js";
import { NOMINAL_HZ, valueNear } from "../chart/bands.js";
import { frequency, length, number } from "../model/format.js";
import { awaitsTap, spotName, spotPlace } from "../model/spots.js";
import { degreesField, lengthField } from "./field.js";
import { nudgePad } from "./pad.js";
import { isReadOnly } from "./scene.js";
import { isAssumed } from "./words.js";

/** How a loudspeaker spreads its sound. */
const SPREADS = /** @type {const} */ ([
  { directivity: "narrow", words: "narrow: beams forward, as a horn does" },
  { directivity: "ordinary", words: "ordinary: cone and dome in a box" },
  { directivity: "wide", words: "wide: spreads far to the sides" },
]);

/** @typedef {{spot: StandsAt, place: Loudspeaker}} Chosen */

/**
 * @param {Scene} scene
 * @returns {Chosen|null}
 */
export function selectedSpot({ state, listening }) {
  if (state.spot === null || state.selected !== null) return null;
  const place = spotPlace(listening, state.spot);
  return place ? { spot: state.spot, place } : null;
}

/**
 * @param {Scene} scene
 * @param {Chosen} chosen
 */
export function spotNote(scene, { spot, place }) {
  const { state } = scene;
  return html`<div class="note-of-piece is-spot"><b>${spotName(spot)}</b>
    <p>${length(place.x_m, state.units)} from the left wall, ${length(place.y_m, state.units)} from the front wall</p>
    ${spot === "seat" ? html`<p>ears ${length(place.z_m, state.units)} up</p>`
      : html`<p>${place.directivity ?? "ordinary"}, turned in ${number(place.toe_in_deg ?? 0)}°</p>`}
    <div class="acts">${tapButton(scene, spot)}<button type="button" @click=${toNumbers}>Numbers</button></div></div>`;
}

/**
 * Without a drag: this, then a tap on the floor.
 * @param {Scene} scene
 * @param {StandsAt} spot
 */
function tapButton(scene, spot) {
  if (isReadOnly(scene)) return nothing;
  const waits = awaitsTap(scene.state);
  return html`<button type="button" aria-pressed=${waits ? "true" : "false"} @click=${() => scene.dispatch({ type: "await-tap", spot: waits ? null : spot })}>${
    waits ? "Leave it" : "Move"}</button>`;
}

/** Puts the focus on the number fields, which may lie below the window. */
function toNumbers() {
  document.getElementById("item-u")?.focus();
}

/**
 * @param {Scene} scene
 * @param {Chosen} chosen
 */
export function spotBody(scene, { spot, place }) {
  const { state, fold } = scene;
  return html`<h2 id="item-title">${spotName(spot)}</h2>
    <p class="also">${spot === "seat" ? "where your ears are" : "the middle of its front"}; moving costs nothing</p>
    ${scene.viewport.width === "narrow" ? html`<div class="acts">${tapButton(scene, spot)}</div>` : nothing}
    <div class="item-fields">${placeFields(scene, spot, place)}
      ${spot === "seat" ? nothing : soundFields(scene, spot, place)}
      ${isReadOnly(scene) ? nothing : html`${nudgePad(state.units, fold.faces.floor, (du_m, dv_m) => move(scene, spot, { x_m: place.x_m + du_m, y_m: place.y_m + dv_m }))}
        <div class="acts"><button type="button" @click=${() => scene.dispatch({ type: "select-spot", spot: null })}>Done</button>
          <button type="button" @click=${() => scene.dispatch({ type: "remove-spots", what: spot === "seat" ? "seat" : "loudspeakers" })}>${
          spot === "seat" ? "Remove the seat" : "Remove the loudspeakers"}</button></div>`}</div>`;
}

/**
 * @param {Scene} scene
 * @param {StandsAt} spot
 * @param {Loudspeaker} place
 */
function placeFields(scene, spot, place) {
  const common = { units: scene.state.units, fixed: isReadOnly(scene) };
  return html`<div class="three">
    ${lengthField({ ...common, id: "item-u", label: "from the left wall", value_m: place.x_m, commit: (x_m) => type(scene, spot, { x_m }) })}
    ${lengthField({ ...common, label: "from the front wall", value_m: place.y_m, commit: (y_m) => type(scene, spot, { y_m }) })}
    ${lengthField({ ...common, label: "above the floor", value_m: place.z_m, commit: (z_m) => type(scene, spot, { z_m }) })}</div>`;
}

/**
 * @param {Scene} scene
 * @param {number} index
 * @param {Loudspeaker} place
 */
function soundFields(scene, index, place) {
  const { document, dispatch } = scene;
  const current = place.directivity ?? "ordinary";
  const assumed = isAssumed(document, `listening.loudspeakers[${index}].directivity`);
  return html`<div class="spread-fields">
    <label class="field"><span class="field-name">how it spreads sound${assumed ? html` <i class="assumed">assumed</i>` : nothing}</span>
      <select ?disabled=${isReadOnly(scene)} @change=${(/** @type {Event} */ event) => {
        const chosen = SPREADS.find(({ directivity }) => directivity === /** @type {HTMLSelectElement} */ (event.target).value);
        if (chosen) dispatch({ type: "set-loudspeaker", index, directivity: chosen.directivity });
      }}>${SPREADS.map(({ directivity, words }) => html`<option value=${directivity} .selected=${directivity === current}>${words}</option>`)}</select></label>
    ${indexWords(scene.shown?.seat?.index_db[index])}
    ${degreesField({ label: "turned in, degrees", value: place.toe_in_deg ?? 0, fixed: isReadOnly(scene), commit: (toe_in_deg) => dispatch({ type: "set-loudspeaker", index, toe_in_deg }) })}</div>`;
}

/** Where the directivity index is told, Hz. */
const INDEX_HZ = [125, 1000, 4000];

/** By how much it is louder ahead than on the mean over all directions. @param {Float64Array|undefined} index_db */
function indexWords(index_db) {
  if (!index_db) return nothing;
  const told = INDEX_HZ.map((hz) => `${number(valueNear(NOMINAL_HZ, index_db, hz), 1)} dB at ${frequency(hz)}`);
  return html`<p class="also">directivity index ${told.join(", ")}</p>`;
}

/**
 * @param {Scene} scene
 * @param {StandsAt} spot
 * @param {{x_m?: number, y_m?: number, z_m?: number}} to
 * @param {string} [gesture]
 */
function move({ dispatch }, spot, to, gesture) {
  dispatch(spot === "seat" ? { type: "move-seat", to, gesture } : { type: "move-loudspeaker", index: spot, to, gesture });
}

/** Typed numbers never merge into one step. */
let typed = 0;

/**
 * @param {Scene} scene
 * @param {StandsAt} spot
 * @param {{x_m?: number, y_m?: number, z_m?: number}} to
 */
function type(scene, spot, to) {
  typed += 1;
  move(scene, spot, to, `typed ${typed}`);
}

/**
 * Ways to the numbers of loudspeakers and seat without the drawing.
 * @param {Scene} scene
 */
export function spotButtons({ listening, dispatch }) {
  /** @type {StandsAt[]} */
  const spots = [...listening.loudspeakers.keys(), ...(listening.seat ? /** @type {const} */ (["seat"]) : [])];
  if (spots.length === 0) return html`<button type="button" class="word-button" @click=${() => dispatch({ type: "put-back-spots" })}>loudspeakers and seat, once they are put back</button>`;
  return spots.map((spot, index) => html`${index > 0 ? ", " : ""}<button type="button" class="word-button" @click=${() => dispatch({ type: "select-spot", spot })}>${
    spotName(spot).toLowerCase()}</button>`);
}
