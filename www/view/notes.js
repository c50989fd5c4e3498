/**
 * Where the model stops, what to mind, and the foot line.
 *
 * @import { Scene } from "./scene.js"
 */
import { html, nothing } from "../vendor.js";
import { FOOT, cautions } from "../model/cautions.js";

/** @param {Scene} scene */
export function notes(scene) {
  const { shown, document, plan } = scene;
  const list = cautions(document, plan, null).filter(({ id }) => id !== "foot");
  return html`<section class="part notes" aria-labelledby="notes-title"><h2 id="notes-title">Before you buy or drill</h2>
    ${list.length > 0 ? html`<ul class="cautions">${list.map((one) => html`<li>${one.text}</li>`)}</ul>`
      : html`<p class="also">Cautions appear here as soon as the plan has pieces.</p>`}
    ${shown && shown.notes.length > 0 ? html`<h2 class="stops">What this does not cover</h2>
      <ul class="plain">${shown.notes.map((note) => html`<li>${note}</li>`)}</ul>` : nothing}</section>`;
}

/** @param {Scene} scene */
export function footLine({ state, commands }) {
  return html`<footer class="foot-line"><p>${FOOT}</p>${state.example ? nothing : html`<p>Your draft is kept in this browser and nowhere else.
    <button type="button" class="word-button" @click=${commands.forgetDraft}>Forget it</button></p>`}</footer>`;
}
