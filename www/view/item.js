/**
 * The selected piece: a short note beside the drawing, and the Item panel with its numbers.
 *
 * @import { Kind } from "../model/types.js"
 * @import { Item } from "./place_fields.js"
 * @import { Scene } from "./scene.js"
 */
import { html, nothing } from "../vendor.js";
import { cautions, kindCautions } from "../model/cautions.js";
import { depth, mass, money, size } from "../model/format.js";
import { isSurfacePiece, kindById } from "../model/geometry.js";
import { lay, laidRect } from "../model/laid.js";
import { kindDepth } from "../model/kinds.js";
import { priceOfOne } from "../model/money.js";
import { surfaceName } from "../model/words.js";
import { numberField } from "./field.js";
import { groupBody } from "./group.js";
import { kindFacts } from "./kinds.js";
import { nudgePad } from "./pad.js";
import { firstMeasure, placeFields, placeWords } from "./place_fields.js";
import { reachPlaces } from "./reach.js";
import { isReadOnly } from "./scene.js";
import { selectedSpot, spotBody, spotButtons, spotNote } from "./spot.js";
import { shortName } from "./words.js";

/**
 * @param {Scene} scene
 * @returns {Item|null}
 */
function selectedItem({ state, plan, document }) {
  const index = state.selected;
  const piece = index === null ? undefined : plan.pieces[index];
  const kind = piece ? kindById(document, piece.kit) : null;
  if (index === null || !piece || !kind) return null;
  const laid = lay(document, piece);
  return { index, piece: laid, kind, rect: laidRect(document, laid) };
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
  if (!item) return html`<div class="note-of-piece is-empty"><p>Select a piece to see its measures here. By keys: arrows go from piece to piece, Enter takes hold of one, arrows then move it.</p></div>`;
  const { units } = scene.state;
  const weight = item.kind.mass_kg === undefined ? "" : `, ${mass(item.kind.mass_kg, units)}`;
  return html`<div class="note-of-piece"><b>${item.index + 1} ${shortName(item.kind.name)}</b>
    <p>${size(isSurfacePiece(item.piece) ? item.rect : item.kind, units)}, ${depth(kindDepth(item.kind), units)}${weight}</p>
    <p>${scene.state.drag ? `${surfaceName(item.piece.surface)}, measured at the piece` : firstMeasure(item, units)}</p>
    ${isReadOnly(scene) ? nothing : acts(scene, item)}</div>`;
}

/**
 * @param {Scene} scene
 * @param {Item} item
 */
function acts({ dispatch, state }, { index, kind, piece }) {
  const moving = state.picked?.index === index;
  /** @param {MouseEvent} event  without clicks where a key was pressed */
  const move = ({ detail }) => {
    dispatch(moving ? { type: "put-down" } : { type: "pick", kit: kind, index });
    if (!moving) reachPlaces(detail === 0);
  };
  return html`<div class="acts">
    <button type="button" @click=${move}>${moving ? "Leave it" : "Move"}</button>
    ${isSurfacePiece(piece) || piece.place === "stand" ? html`<button type="button" @click=${() => dispatch({ type: "turn-piece", index })}>Turn</button>` : nothing}
    <button type="button" @click=${() => dispatch({ type: "mirror-piece", index })}>Mirror</button>
    <button type="button" @click=${() => dispatch({ type: "duplicate-piece", index })}>Duplicate</button>
    <button type="button" @click=${() => dispatch({ type: "copy-pieces", index })}>Copy</button>
    <button type="button" @click=${() => dispatch({ type: "remove-piece", index })}>Remove</button></div>`;
}

/** @param {Scene} scene */
export function itemPanel(scene) {
  const item = selectedItem(scene);
  const spot = item ? null : selectedSpot(scene);
  const picked = !item && !spot && scene.state.picked?.index === null ? scene.state.picked.kind : null;
  return html`<section class="item" aria-labelledby="item-title" data-item-panel>
    ${item && scene.state.together.length > 0 ? groupBody(scene) : item ? itemBody(scene, item) : spot ? spotBody(scene, spot) : picked ? pickedBody(scene, picked) : html`<h2 id="item-title">The selected piece</h2>
      <p class="also">Nothing is selected. Choose a piece on the drawing or in the parts list, or the ${spotButtons(scene)}.</p>`}</section>`;
}

/**
 * A kind that was taken from the shelf and has no place yet.
 * @param {Scene} scene
 * @param {Kind} kind
 */
function pickedBody(scene, kind) {
  return html`<h2 id="item-title" class="is-plan">${kind.name}</h2><p class="also">picked up, not placed yet; ${size(kind, scene.state.units)}</p>${kindFacts(scene, kind)}
    <ul class="cautions" aria-label="Cautions for this kind">${kindCautions(scene.document, kind).map((one) => html`<li>${one.text}</li>`)}</ul>`;
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
    <p class="also">${placeWords(item.piece)}, ${depth(kindDepth(kind), units)} deep${weight}</p>
    <div class="item-fields">${placeFields(scene, item)}${isReadOnly(scene) ? nothing : html`${nudges(scene, item)}${acts(scene, item)}`}${priceField(scene, item)}</div>
    ${kindFacts(scene, kind)}${cautionList(scene, item)}`;
}

/**
 * The price of one piece, or that of its face by area; one of them takes the place of the other.
 * @param {Scene} scene
 * @param {Item} item
 */
function priceField(scene, { kind }) {
  const { dispatch, state: { units }, document: { currency } } = scene;
  const { id } = kind;
  const fixed = isReadOnly(scene);
  const one = priceOfOne(kind);
  const per = units === "imperial" ? SQUARE_FEET : 1;
  const sign = currency ? `, ${currency}` : "";
  return html`<div class="four">${numberField({ label: `price of one${sign}`, value: kind.price, fixed, commit: (price) => dispatch({ type: "set-kind", id, price }) })}
    ${numberField({ label: `or per ${units === "imperial" ? "ft²" : "m²"}${sign}`, aloud: `Price of each ${units === "imperial" ? "square foot" : "square metre"}${sign}`, fixed,
      value: kind.price_per_m2 === undefined ? undefined : Math.round((kind.price_per_m2 / per) * 100) / 100,
      commit: (price) => dispatch({ type: "set-kind", id, price_per_m2: price === null ? null : price * per }) })}
    <p class="also">${one === null ? "No price yet." : `One costs ${money(one, currency)}.`}</p></div>`;
}

/** In one square metre. */
const SQUARE_FEET = 10.7639104;

/**
 * @param {Scene} scene
 * @param {Item} item
 */
function nudges({ state, fold, dispatch }, { index, piece }) {
  return nudgePad(state.units, fold.faces[piece.surface], (du_m, dv_m) => dispatch({ type: "nudge-piece", index, du_m, dv_m }));
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
