/**
 * What is told about a kind of piece: what it is good for, what to ask the seller, where its figures come from.
 *
 * @import { Kind, ShelfNote } from "../model/types.js"
 * @import { Scene } from "./scene.js"
 */
import { html, nothing } from "../vendor.js";
import { bandChart } from "../chart/absorption.js";
import { depth, mass, number, size } from "../model/format.js";
import { baseKindId, kindDepth } from "../model/kinds.js";
import { LOOKS, lookWords, looksOf } from "../model/looks_like.js";
import { closeOnEscape } from "./escape.js";
import { inFold } from "./rest.js";
import { isReadOnly } from "./scene.js";

/**
 * What a buyer wants to know; a kind of another size is told about like the one that it came from.
 * @param {Scene} scene
 * @param {Kind} kind
 * @returns {ShelfNote|undefined}
 */
function noteOf({ library }, kind) {
  return library.shelf_notes?.find((note) => note.id === baseKindId(kind.id));
}

/**
 * As the document has it, else as the shelf does.
 * @param {Scene} scene
 * @param {Kind} kind
 */
export function absorptionOf(scene, kind) {
  return scene.kit.find((one) => one.id === kind.id)?.absorption ?? noteOf(scene, kind)?.absorption;
}

/**
 * @param {Scene} scene
 * @param {Kind} kind
 */
export function kindFacts(scene, kind) {
  const note = noteOf(scene, kind);
  const absorption = absorptionOf(scene, kind);
  return html`${note ? html`<p>${note.good_for}</p><p><b>At the seller.</b> ${note.ask_for}</p>` : nothing}
    ${absorption ? figure(absorption, sourceOf(scene, kind)) : nothing}`;
}

/**
 * @param {Scene} scene
 * @param {Kind} kind
 */
function sourceOf(scene, kind) {
  return scene.kit.find((one) => one.id === kind.id)?.source ?? noteOf(scene, kind)?.source ?? "";
}

/**
 * @param {ArrayLike<number>} bands
 * @param {string} source
 */
function figure(bands, source) {
  return html`<figure class="absorbs"><figcaption>What it takes of the sound that meets it, 50 Hz to 10 kHz: ${
    number(bands[4] * 100)} % at 125 Hz, ${number(bands[10] * 100)} % at 500 Hz, ${number(bands[16] * 100)} % at 2 kHz. ${source}</figcaption>
    ${bandChart(bands)}</figure>`;
}

/**
 * The kinds of the shown group with all that is told about them; it lies over the page, so that nothing moves.
 * @param {Scene} scene
 * @param {Kind[]} kinds
 */
export function kindsFold(scene, kinds) {
  return html`<details class="kinds-fold" @keydown=${closeOnEscape}><summary aria-label="What each kind is good for">about</summary><div class="kinds-body" tabindex="0">${inFold([scene], () => kinds.map((kind) => html`
    <section><h3>${kind.name}</h3><p class="also">${size(kind, scene.state.units)}, ${depth(kindDepth(kind), scene.state.units)} deep${
      kind.mass_kg === undefined ? "" : `, about ${mass(kind.mass_kg, scene.state.units)}`}</p>${looksField(scene, kind)}${kindFacts(scene, kind)}</section>`))}</div></details>`;
}

/**
 * What a kind is taken for, which a limit of the home may ask; curtains and rugs are furniture whatever is said.
 * @param {Scene} scene
 * @param {Kind} kind
 */
function looksField(scene, kind) {
  if (kind.looks === undefined && looksOf(kind) !== null) return html`<p class="also">Looks like ${lookWords(looksOf(kind))}.</p>`;
  return html`<label class="pick-one">Looks like <select aria-label=${`What ${kind.name} looks like`} ?disabled=${isReadOnly(scene)} @change=${(/** @type {Event} */ event) => {
    const chosen = /** @type {HTMLSelectElement} */ (event.currentTarget).value;
    scene.dispatch({ type: "set-kind", id: kind.id, looks: LOOKS.find(([look]) => look === chosen)?.[0] ?? null, kind });
  }}><option value="" .selected=${!kind.looks}>a panel</option>${LOOKS.map(([look, words]) => html`<option value=${look} .selected=${kind.looks === look}>${words}</option>`)}</select></label>`;
}
