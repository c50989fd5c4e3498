/**
 * The head line: the name, the room's title, the way in, undo and redo, units, files.
 *
 * @import { Scene } from "./scene.js"
 */
import { html, nothing } from "../vendor.js";
import { fileActions } from "./filing.js";
import { helpMenu } from "./help.js";
import { linkAndExamples } from "./plans.js";
import { isReadOnly } from "./scene.js";
import { openStart } from "./start.js";

/** Longest title, characters; the same bound as the document's. */
const LONGEST_TITLE = 60;

/** @param {Scene} scene */
export function headLine(scene) {
  const { state, dispatch } = scene;
  return html`<header class="head">
    <p class="word">Seatward</p>
    ${scene.viewport.width === "narrow" ? nothing : titleLine(scene)}
    <nav class="tools" aria-label="Document">
      ${step("Undo", state.history.past.at(-1)?.label, () => dispatch({ type: "undo" }))}
      ${step("Redo", state.history.future.at(-1)?.label, () => dispatch({ type: "redo" }))}
      <button type="button" aria-label="Units: ${state.units === "metric" ? "metres" : "feet and inches"}; change"
        @click=${() => dispatch({ type: "set-units", units: state.units === "metric" ? "imperial" : "metric" })}>${
          state.units === "metric" ? "metres" : "feet"}</button>
      ${scene.viewport.width === "wide" ? linkAndExamples(scene) : nothing}${scene.viewport.width === "narrow" ? nothing : fileActions(scene)}${helpMenu()}
    </nav>
  </header>`;
}

/**
 * The title, and the way in to one's own room.
 * @param {Scene} scene
 */
export function titleLine(scene) {
  const { state, dispatch, document } = scene;
  /** @param {Event} event */
  const rename = (event) => {
    const input = /** @type {HTMLInputElement} */ (event.target);
    const typed = input.value.trim();
    if (typed && typed !== document.title) dispatch({ type: "set-title", title: typed });
    else input.value = document.title;
  };
  return html`<div class="title"><input class="quiet" type="text" aria-label="Title of the room" maxlength=${LONGEST_TITLE} size=${Math.max(8, document.title.length)}
    .value=${document.title} ?readonly=${isReadOnly(scene)} @change=${rename} />
    ${state.example ? html`<span class="invite">This is an example. <span class="purpose">Try panels here before you buy. </span>Drag anything, or</span>` : nothing}
    <button type="button" class="do" @click=${openStart}>start with my room</button></div>`;
}

/**
 * @param {string} word
 * @param {string|undefined} label
 * @param {() => void} act
 */
function step(word, label, act) {
  return html`<button type="button" class="step" aria-disabled=${label ? "false" : "true"} title=${label ? "" : `nothing to ${word.toLowerCase()}`} @click=${act}>${word}${
    label ? html`<span class="step-name">: ${label}</span>` : nothing}</button>`;
}
