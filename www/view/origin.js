/**
 * "Where is this from?" beside every figure: formula in words, inputs, source, limits. The texts are loaded when one is opened
 * and drawn by the fold itself, so that no region has to be drawn anew for them.
 */
import { html, render } from "../vendor.js";

/** @typedef {"answer"|"decay"|"bounces"|"comb"|"shares"|"response"|"bass"|"absorbers"|"room"|"goal"|"cost"|"picture"|"checkup"|"advice"|"listen"|"recording"} OriginKey */

/**
 * @param {OriginKey} key
 * @param {string} of  what it belongs to, aloud: the folds all look alike
 */
export function origin(key, of) {
  return html`<details class="origin" @toggle=${(/** @type {Event} */ event) => fill(/** @type {HTMLDetailsElement} */ (event.currentTarget), key)}>
    <summary>Where is this from?<span class="unseen"> ${of}</span></summary><div class="origin-body"></div></details>`;
}

/**
 * @param {HTMLDetailsElement} fold
 * @param {OriginKey} key
 */
async function fill(fold, key) {
  const body = /** @type {HTMLElement|null} */ (fold.querySelector(".origin-body"));
  if (!fold.open || !body) return;
  try {
    const { originText } = await import("./origins.js");
    render(originText(key), body);
  } catch {
    render(html`<p>This text could not be loaded. Close it and open it again to try once more.</p>`, body);
  }
}
