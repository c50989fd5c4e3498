/**
 * The selected piece: a short note beside the drawing, and the Item panel with its numbers.
 *
 * @import { Kind, Rect, SurfacePiece } from "../model/types.js"
 * @import { Scene } from "./scene.js"
 */
import { html, nothing } from "../vendor.js";
import { bandChart } from "../chart/absorption.js";
import { cautions } from "../model/cautions.js";
import { depth, length, mass, number, size } from "../model/format.js";
import { isSurfacePiece, kindById, pieceRect } from "../model/geometry.js";
import { kindDepth } from "../model/kinds.js";
import { surfaceName } from "../model/words.js";
import { lengthField, numberField } from "./field.js";
import { nudgePad } from "./pad.js";
import { isReadOnly } from "./scene.js";
import { selectedSpot, spotBody, spotButtons, spotNote } from "./spot.js";
import { axisWords, shortName } from "./words.js";

/**
 * @typedef {object} Item
 * @property {number} index
 * @property {SurfacePiece} piece
 * @property {Kind} kind
 * @property {Rect} rect
 */

/**
 * @param {Scene} scene
 * @returns {Item|null}
 */
function selectedItem({ state, plan, document }) {
  const index = state.selected;
  const piece = index === null ? undefined : plan.pieces[index];
  const kind = piece ? kindById(document, piece.kit) : null;
  if (index === null || !piece || !kind || !isSurfacePiece(piece)) return null;
  return { index, piece, kind, rect: pieceRect(document, piece) };
}

/**
 * The note in the blank of the drawing. In a drag the distances stand at the piece: here they would lay out the whole page
 * for every move.
 * @param {Scene} scene
 */
export function itemNote(scene) {
  const item = selectedItem(scene);
  const spot = item ? null : selectedSpot(scene);
  if (spot) return spotNote(scene, spot);
  if (!item) return html`<div class="note-of-piece is-empty"><p>Select a piece to see its measures here.</p></div>`;
  const { units } = scene.state;
  const weight = item.kind.mass_kg === undefined ? "" : `, ${mass(item.kind.mass_kg, units)}`;
  return html`<div class="note-of-piece"><b>${item.index + 1} ${shortName(item.kind.name)}</b>
    <p>${size(item.rect, units)}, ${depth(kindDepth(item.kind), units)}${weight}</p>
    <p>${surfaceName(item.piece.surface)}, ${scene.state.drag ? "measured at the piece" : `${length(item.rect.u_m, units)} ${axisWords(item.piece.surface).u}`}</p>
    ${isReadOnly(scene) ? nothing : acts(scene, item)}</div>`;
}

/**
 * @param {Scene} scene
 * @param {Item} item
 */
function acts({ dispatch, state }, { index, kind }) {
  const moving = state.picked?.index === index;
  return html`<div class="acts">
    <button type="button" @click=${() => dispatch(moving ? { type: "put-down" } : { type: "pick", kit: kind, index })}>${moving ? "Leave it" : "Move"}</button>
    <button type="button" @click=${() => dispatch({ type: "turn-piece", index })}>Turn</button>
    <button type="button" @click=${() => dispatch({ type: "mirror-piece", index })}>Mirror</button>
    <button type="button" @click=${() => dispatch({ type: "duplicate-piece", index })}>Copy</button>
    <button type="button" @click=${() => dispatch({ type: "remove-piece", index })}>Remove</button></div>`;
}

/** @param {Scene} scene */
export function itemPanel(scene) {
  const item = selectedItem(scene);
  const spot = item ? null : selectedSpot(scene);
  return html`<section class="item" aria-labelledby="item-title" data-item-panel>
    ${item ? itemBody(scene, item) : spot ? spotBody(scene, spot) : html`<h2 id="item-title">The selected piece</h2>
      <p class="also">Nothing is selected. Choose a piece on the drawing or in the parts list, or the ${spotButtons(scene)}.</p>`}</section>`;
}

/**
 * @param {Scene} scene
 * @param {Item} item
 */
function itemBody(scene, item) {
  const { kind, index } = item;
  const { units } = scene.state;
  const weight = kind.mass_kg === undefined ? "" : `, about ${mass(kind.mass_kg, units)}`;
  return html`<h2 id="item-title" class="is-plan">${index + 1} ${kind.name}</h2>
    <p class="also">on the ${surfaceName(item.piece.surface)}, ${depth(kindDepth(kind), units)} deep${weight}</p>
    <div class="item-fields">${placeFields(scene, item)}${isReadOnly(scene) ? nothing : html`${nudges(scene, item)}${acts(scene, item)}`}${priceField(scene, item)}</div>
    ${absorptionOf(scene, kind)}${cautionList(scene, item)}`;
}

/**
 * @param {Scene} scene
 * @param {Item} item
 */
function placeFields(scene, { index, piece, rect }) {
  const { state, dispatch } = scene;
  const words = axisWords(piece.surface);
  const common = { units: state.units, fixed: isReadOnly(scene) };
  return html`<div class="four">
    ${lengthField({ ...common, id: "item-u", label: words.u, value_m: rect.u_m, commit: (u_m) => dispatch({ type: "set-piece", index, u_m }) })}
    ${lengthField({ ...common, label: words.v, value_m: rect.v_m, commit: (v_m) => dispatch({ type: "set-piece", index, v_m }) })}
    ${lengthField({ ...common, label: "width", value_m: rect.width_m, commit: (width_m) => dispatch({ type: "set-piece", index, width_m }) })}
    ${lengthField({ ...common, label: "height", value_m: rect.height_m, commit: (height_m) => dispatch({ type: "set-piece", index, height_m }) })}
  </div>`;
}

/**
 * @param {Scene} scene
 * @param {Item} item
 */
function priceField(scene, { kind }) {
  const { dispatch } = scene;
  return html`<div class="four">${numberField({ label: "price of one", value: kind.price, fixed: isReadOnly(scene), commit: (price) => dispatch({ type: "set-kind", id: kind.id, price }) })}</div>`;
}

/**
 * @param {Scene} scene
 * @param {Item} item
 */
function nudges({ state, fold, dispatch }, { index, piece }) {
  return nudgePad(state.units, fold.faces[piece.surface], (du_m, dv_m) => dispatch({ type: "nudge-piece", index, du_m, dv_m }));
}

/**
 * @param {Scene} scene
 * @param {Kind} kind
 */
function absorptionOf(scene, kind) {
  const info = scene.kit.find((one) => one.id === kind.id);
  if (!info) return nothing;
  const bands = Array.from(info.absorption);
  return html`<figure class="absorbs"><figcaption>What it takes of the sound that meets it, 50 Hz to 10 kHz: ${
    number(bands[4] * 100)} % at 125 Hz, ${number(bands[10] * 100)} % at 500 Hz, ${number(bands[16] * 100)} % at 2 kHz. ${info.source}</figcaption>
    ${bandChart(info.absorption)}</figure>`;
}

/**
 * @param {Scene} scene
 * @param {Item} item
 */
function cautionList({ document, plan }, { piece }) {
  const list = cautions(document, plan, piece);
  if (list.length === 0) return nothing;
  return html`<ul class="cautions" aria-label="Cautions for this piece">${list.map((one) => html`<li>${one.text}</li>`)}</ul>`;
}
