/**
 * The numbers of a piece by its place: on a surface, in a corner, on feet, on a rail.
 *
 * @import { Kind, Rect } from "../model/types.js"
 * @import { Laid } from "../model/laid.js"
 * @import { Scene } from "./scene.js"
 * @typedef {{index: number, piece: Laid, kind: Kind, rect: Rect}} Item
 * @typedef {{aloud?: string, bare?: boolean, id?: string}} FieldLook
 */
import { html, nothing } from "../vendor.js";
import { length, percent } from "../model/format.js";
import { isSurfacePiece } from "../model/geometry.js";
import { EDGES } from "../model/laid.js";
import { sentence, surfaceName } from "../model/words.js";
import { degreesField, lengthField } from "./field.js";
import { isReadOnly } from "./scene.js";
import { axisWords } from "./words.js";

/** "front left corner". @param {string} edge */
export function edgeName(edge) {
  return `${edge.replace("-", " ")} corner`;
}

/** Where a piece is, in words. @param {Laid} piece */
export function placeWords(piece) {
  if (piece.place === "corner") return `in the ${edgeName(piece.edge)}`;
  if (piece.place === "stand") return "on the floor, on feet";
  return `${piece.place === "curtain" ? "on a rail on" : "on"} the ${surfaceName(piece.surface)}`;
}

/** Its first measure, for the note beside the drawing. @param {Item} item @param {Scene["state"]["units"]} units */
export function firstMeasure({ piece, rect }, units) {
  if (piece.place === "corner") return `${edgeName(piece.edge)}, ${length(rect.v_m, units)} above the floor`;
  if (piece.place === "stand") return `floor, ${length(piece.x_m, units)} from the left wall`;
  return `${surfaceName(piece.surface)}, ${length(rect.u_m, units)} ${axisWords(piece.surface).u}`;
}

/**
 * @param {Scene} scene
 * @param {Item} item
 */
export function placeFields(scene, item) {
  const { piece, index } = item;
  return html`<div class="four">${whereFields(scene, item)}${sizeFields(scene, item)}
    ${piece.place === "curtain" ? openField(scene, index, piece.open ?? 0) : nothing}</div>`;
}

/**
 * @param {Scene} scene
 * @param {Item} item
 */
function whereFields(scene, { index, piece, rect }) {
  const { state, dispatch } = scene;
  const common = { units: state.units, fixed: isReadOnly(scene) };
  if (piece.place === "stand") {
    return html`
      ${lengthField({ ...common, id: "item-u", label: "from the left wall, its middle", value_m: piece.x_m, commit: (x_m) => dispatch({ type: "set-piece", index, x_m }) })}
      ${lengthField({ ...common, label: "from the front wall, its middle", value_m: piece.y_m, commit: (y_m) => dispatch({ type: "set-piece", index, y_m }) })}
      ${lengthField({ ...common, label: "lower edge above the floor", value_m: piece.z_m, commit: (z_m) => dispatch({ type: "set-piece", index, z_m }) })}
      ${degreesField({ label: "turned, degrees", value: piece.turn_deg, fixed: isReadOnly(scene), commit: (turn_deg) => dispatch({ type: "set-piece", index, turn_deg }) })}`;
  }
  const words = axisWords(piece.surface);
  const above = lengthField({ ...common, ...(piece.place === "corner" ? { id: "item-u" } : {}), label: words.v, value_m: rect.v_m, commit: (v_m) => dispatch({ type: "set-piece", index, v_m }) });
  if (piece.place === "corner") return html`${edgeField(scene, index, piece.edge)}${above}`;
  return html`${lengthField({ ...common, id: "item-u", label: words.u, value_m: rect.u_m, commit: (u_m) => dispatch({ type: "set-piece", index, u_m }) })}${above}`;
}

/**
 * @param {Scene} scene
 * @param {Item} item
 */
function sizeFields(scene, { index, piece, kind, rect }) {
  const { state, dispatch } = scene;
  const common = { units: state.units, fixed: isReadOnly(scene) };
  const size = isSurfacePiece(piece) ? rect : kind;
  return html`
    ${lengthField({ ...common, label: piece.place === "corner" ? "width of its face" : "width", value_m: size.width_m, commit: (width_m) => dispatch({ type: "set-piece", index, width_m }) })}
    ${lengthField({ ...common, label: "height", value_m: size.height_m, commit: (height_m) => dispatch({ type: "set-piece", index, height_m }) })}`;
}

/**
 * @param {Scene} scene
 * @param {number} index
 * @param {string} edge
 * @param {boolean} [bare]  without a visible label, in a table
 */
export function edgeField(scene, index, edge, bare = false) {
  return html`<label class="field">${bare ? nothing : html`<span class="field-name">corner</span>`}
    <select aria-label=${bare ? `Corner, piece ${index + 1}` : nothing} ?disabled=${isReadOnly(scene)} @change=${(/** @type {Event} */ event) => {
      const select = /** @type {HTMLSelectElement} */ (event.target);
      scene.dispatch({ type: "set-piece", index, edge: select.value });
      requestAnimationFrame(() => { select.value = select.dataset.shown ?? select.value; });
    }} data-shown=${edge}>${EDGES.map((one) => html`<option value=${one} .selected=${one === edge}>${sentence(edgeName(one).replace(" corner", ""))}</option>`)}</select></label>`;
}

/**
 * How far a curtain is drawn aside.
 * @param {Scene} scene
 * @param {number} index
 * @param {number} open
 */
function openField({ dispatch, state }, index, open) {
  return html`<label class="field open-field"><span class="field-name">drawn aside: ${open === 0 ? "not, it hangs closed" : percent(open)}</span>
    <input type="range" min="0" max="1" step="0.05" .value=${String(open)} ?disabled=${state.readOnly !== null}
      @change=${(/** @type {Event} */ event) => dispatch({ type: "set-piece", index, open: Number(/** @type {HTMLInputElement} */ (event.target).value) })} /></label>`;
}
