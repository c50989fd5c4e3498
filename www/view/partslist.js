/**
 * The Parts list: every piece of the plan as a row of number fields. The equal way to everything that dragging does.
 *
 * @import { Piece } from "../model/types.js"
 * @import { Scene } from "./scene.js"
 */
import { html, nothing } from "../vendor.js";
import { SURFACES, hungSize, isSurfacePiece, kindById } from "../model/geometry.js";
import { lay } from "../model/laid.js";
import { group } from "../model/sheet.js";
import { planName, sentence, surfaceName } from "../model/words.js";
import { lengthField } from "./field.js";
import { origin } from "./origin.js";
import { lazyFold, lazyPart } from "./lazy.js";
import { edgeField } from "./place_fields.js";
import { isReadOnly } from "./scene.js";
import { shortName } from "./words.js";

/** @param {Scene} scene */
export function partsList(scene) {
  const { plan } = scene;
  return html`<section class="part parts" aria-labelledby="parts-title" id="parts"><header><h2 id="parts-title">Parts list</h2>
      <span>every piece by its numbers; what dragging does, without dragging</span></header>
    ${plan.pieces.length > 0 ? table(scene)
      : html`<p class="also">${planName(plan.name)} has no pieces yet. Put one thing where the mark is and watch the strip.</p>`}${origin("cost", "Cost and weight")}</section>`;
}

const HEADS = ["No", "Piece", "Surface", "From left or front", "Above floor, or from front", "Width", "Height"];

/** @param {Scene} scene */
function table(scene) {
  const { plan } = scene;
  return html`<div class="scroll"><table role="table"><caption class="unseen">Pieces of ${planName(plan.name)}</caption>
    <thead role="rowgroup"><tr role="row">
      ${HEADS.map((head) => html`<th scope="col" role="columnheader">${head}</th>`)}
      <th scope="col" role="columnheader"><span class="unseen">Do</span></th></tr></thead>
    <tbody role="rowgroup">${plan.pieces.map((piece, index) => row(scene, piece, index))}</tbody></table></div>`;
}

/**
 * @param {Scene} scene
 * @param {Piece} piece
 * @param {number} index
 */
function row(scene, piece, index) {
  const kind = kindById(scene.document, piece.kit);
  const name = shortName(kind?.name ?? piece.kit);
  const { dispatch, state } = scene;
  const size = hungSize(kind, isSurfacePiece(piece) && piece.turned);
  const laid = lay(scene.document, piece);
  const fixed = isReadOnly(scene);
  /** @param {string} word @param {number} value_m @param {(value_m: number) => void} commit */
  const field = (word, value_m, commit) => html`<td role="cell" data-label=${word}>${lengthField({
    label: word, aloud: `${word}, piece ${index + 1}`, value_m, units: state.units, bare: true, fixed, commit,
  })}</td>`;
  return html`<tr role="row" class=${group(state).includes(index) ? "is-selected" : ""}><th scope="row" role="rowheader">${alsoBox(scene, index)}</th>
    <td role="cell"><button type="button" class="word-button" @click=${() => dispatch({ type: "select", index })}>${name}</button></td>
    <td role="cell">${surfaceField(scene, index)}</td>
    ${laid.place === "stand" ? html`${field("From left or front", laid.x_m, (x_m) => dispatch({ type: "set-piece", index, x_m }))}
      ${field("Above floor, or from front", laid.y_m, (y_m) => dispatch({ type: "set-piece", index, y_m }))}`
    : html`${laid.place === "corner" ? html`<td role="cell"></td>` : field("From left or front", laid.u_m, (u_m) => dispatch({ type: "set-piece", index, u_m }))}
      ${field("Above floor, or from front", laid.v_m, (v_m) => dispatch({ type: "set-piece", index, v_m }))}`}
    ${field("Width", size.width_m, (width_m) => dispatch({ type: "set-piece", index, width_m }))}
    ${field("Height", size.height_m, (height_m) => dispatch({ type: "set-piece", index, height_m }))}
    <td role="cell">${remove(scene, index, name)}</td></tr>`;
}

/**
 * The number of a piece with a box that takes it into the selection: pieces selected together are aligned, spread, moved as one.
 * @param {Scene} scene
 * @param {number} index
 */
function alsoBox({ state, dispatch }, index) {
  const on = group(state).includes(index);
  return html`<label class="also-box"><input type="checkbox" aria-label="Select piece ${index + 1} with the others" .checked=${on}
    @change=${() => dispatch({ type: "select-also", index })} />${index + 1}</label>`;
}

/**
 * @param {Scene} scene
 * @param {number} index
 */
function surfaceField(scene, index) {
  const piece = scene.plan.pieces[index];
  if (piece.place === "corner") return edgeField(scene, index, piece.edge, true);
  if (piece.place === "stand") return "Floor, on feet";
  return html`<select aria-label="Surface, piece ${index + 1}" ?disabled=${isReadOnly(scene)} @change=${(/** @type {Event} */ event) => {
    const select = /** @type {HTMLSelectElement} */ (event.target);
    const surface = SURFACES.find((one) => one === select.value);
    if (surface) scene.dispatch({ type: "set-piece", index, surface });
    requestAnimationFrame(() => { select.value = select.dataset.shown ?? select.value; });
  }} data-shown=${piece.surface}>${SURFACES.map((surface) => html`<option value=${surface} .selected=${surface === piece.surface}>${
    sentence(surfaceName(surface))}</option>`)}</select>`;
}

/**
 * @param {Scene} scene
 * @param {number} index
 * @param {string} name
 */
function remove(scene, index, name) {
  if (isReadOnly(scene)) return nothing;
  return html`<button type="button" class="word-button" aria-label="Remove ${name} ${index + 1}" @click=${() => scene.dispatch({ type: "remove-piece", index })}>remove</button>`;
}

const costsPart = lazyPart(() => import("./costs.js"));

/**
 * All plans with what they take and do, the parts to buy, and a paragraph to paste.
 * @param {Scene} scene
 */
export function costsFold(scene) {
  return html`<section class="part costs" aria-label="Costs">${lazyFold({
    part: costsPart, dispatch: scene.dispatch, summary: "Plans side by side, what they cost, and a paragraph to paste",
    body: (part) => html`<div class="costs-body">${part.costs(scene)}</div>`,
  })}</section>`;
}
