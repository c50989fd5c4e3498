/**
 * Saving the document as a file, and opening one.
 *
 * @import { Scene } from "./scene.js"
 */
import { html } from "../vendor.js";

/** @param {Scene} scene */
export function fileActions({ commands }) {
  return html`<button type="button" @click=${commands.saveFile}>Save</button>${openFile(commands.openFile)}`;
}

/** @param {(file: File) => void} take */
function openFile(take) {
  /** @param {Event} event */
  const chosen = (event) => {
    const input = /** @type {HTMLInputElement} */ (event.target);
    const file = input.files?.[0];
    if (file) take(file);
    input.value = "";
  };
  return html`<label class="open-file"><input type="file" accept="application/json,.json" @change=${chosen} /><span>Open</span></label>`;
}
