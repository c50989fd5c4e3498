/**
 * What can be done with several pieces at once; and the switches of the sheet: snapping, mirror lock, paste.
 *
 * @import { Scene } from "./scene.js"
 */
import { html, nothing } from "../vendor.js";
import { isWall } from "../model/geometry.js";
import { group, laidPieceAt } from "../model/sheet.js";
import { sentence, surfaceName } from "../model/words.js";
import { nudgePad } from "./pad.js";
import { isReadOnly } from "./scene.js";
import { READING_ORDER, axisWords } from "./words.js";

const EDGES = /** @type {const} */ (["low", "middle", "high"]);

/** Words for the two ends of each direction, by surface: on the side walls u runs from front to back. @param {import("../model/types.js").SurfaceName} surface */
function endWords(surface) {
  const u = surface === "left" || surface === "right" ? ["front edges", "middles", "back edges"] : ["left edges", "middles", "right edges"];
  return { u, v: isWall(surface) ? ["lower edges", "middle heights", "upper edges"] : ["front edges", "middles front to back", "back edges"] };
}

/**
 * The Item panel when more than one piece is selected.
 * @param {Scene} scene
 */
export function groupBody(scene) {
  const { state, dispatch, fold } = scene;
  const all = group(state);
  const first = laidPieceAt(state.document, state.shown, all[0]);
  if (!first) return nothing;
  const words = endWords(first.surface);
  const fixed = isReadOnly(scene);
  return html`<h2 id="item-title" class="is-plan">${all.length} pieces</h2>
    <p class="also">Pieces ${all.map((index) => index + 1).join(", ")}; those on the ${surfaceName(first.surface)} go together. Piece ${all[0] + 1} stays where others come into line.</p>
    ${fixed ? nothing : html`<div class="item-fields">
      ${/** @type {const} */ (["u", "v"]).map((axis) => html`<div class="acts" role="group" aria-label="In line, ${axisWords(first.surface)[axis]}"><span>In line:</span>${
        EDGES.map((edge, at) => html`<button type="button" @click=${() => dispatch({ type: "align-pieces", axis, edge })}>${words[axis][at]}</button>`)}
        <button type="button" @click=${() => dispatch({ type: "spread-pieces", axis })}>${sentence("equal gaps")}${axis === "u" ? " along" : isWall(first.surface) ? " up and down" : " front to back"}</button></div>`)}
      ${nudgePad(state.units, fold.faces[first.surface], (du_m, dv_m) => dispatch({ type: "nudge-piece", index: all[0], du_m, dv_m }))}
      <div class="acts"><button type="button" @click=${() => dispatch({ type: "copy-pieces" })}>Copy</button>
        <button type="button" @click=${() => dispatch({ type: "remove-together" })}>Remove</button>
        <button type="button" @click=${() => dispatch({ type: "select", index: null })}>Select none</button></div></div>`}`;
}

/**
 * Which surface shows its numbered places for what was picked up.
 * @param {Scene} scene
 */
function placesOn({ state, dispatch }) {
  return html`<div class="places-on" role="group" aria-label="Numbered places on"><span>Places on the</span>${READING_ORDER.map((surface) => html`<button type="button"
    class="word-button" aria-pressed=${surface === state.surface ? "true" : "false"} @click=${() => dispatch({ type: "face", surface })}>${surfaceName(surface)}</button>`)}</div>`;
}

/**
 * Switches that change how pieces go on the sheet.
 * @param {Scene} scene
 */
export function sheetSwitches(scene) {
  const { state, dispatch } = scene;
  if (isReadOnly(scene)) return nothing;
  /** @param {string} words @param {boolean} on @param {(on: boolean) => void} set @param {string} title */
  const tick = (words, on, set, title) => html`<label class="tick" title=${title}><input type="checkbox" .checked=${on}
    @change=${(/** @type {Event} */ event) => set(/** @type {HTMLInputElement} */ (event.target).checked)} />${words}</label>`;
  return html`<div class="switches" role="group" aria-label="How pieces go">
    ${tick("Snap", state.snap, (snap) => dispatch({ type: "set-snap", snap }), "Pieces hold at marks, neighbours and the grid; Ctrl or Cmd while dragging lets go")}
    ${tick("Mirror lock", state.mirrorLock, (on) => dispatch({ type: "set-mirror-lock", on }), "What moves on one side moves on the other")}
    ${state.picked ? placesOn(scene) : nothing}
    ${state.copied.length > 0 ? html`<button type="button" class="word-button" @click=${() => dispatch({ type: "paste-pieces" })}>Paste on the ${surfaceName(state.surface)}</button>` : nothing}</div>`;
}
