/**
 * Words for parts of the page that need loudspeakers and a seat, where a plan has none, and the way to put them back.
 *
 * @import { Scene } from "./scene.js"
 */
import { html, nothing } from "../vendor.js";
import { isReadOnly } from "./scene.js";

/** What of the two is missing, in words; empty if neither is. @param {Scene} scene */
export function missingWords({ listening }) {
  const missing = [listening.loudspeakers.length === 0 ? "loudspeakers" : "", listening.seat ? "" : "a seat"].filter(Boolean);
  return missing.join(" and ");
}

/**
 * @param {Scene} scene
 * @param {string} needs  "Bounces need loudspeakers and a seat"
 */
export function absentNote(scene, needs) {
  return html`<p class="also">${needs}; this plan is without ${missingWords(scene)}. ${isReadOnly(scene) ? nothing
    : html`<button type="button" class="word-button" @click=${() => scene.dispatch({ type: "put-back-spots" })}>Put them back</button>`}</p>`;
}
