/**
 * What stands over the sheet for a while: a shared plan that is only visiting, a newer version, what is wrong with a
 * file; and the status line.
 *
 * @import { Finding } from "../model/types.js"
 * @import { Scene } from "./scene.js"
 */
import { html, nothing } from "../vendor.js";

/** @param {Scene} scene */
export function visitingBar({ state, dispatch }) {
  if (!state.visiting) return nothing;
  return html`<aside class="bar-over" aria-label="Shared plan"><p>This is a shared plan; your own draft is kept aside.</p>
    <button type="button" @click=${() => dispatch({ type: "keep-mine" })}>Keep mine</button>
    ${state.readOnly ? nothing : html`<button type="button" class="do" @click=${() => dispatch({ type: "use-this" })}>Use this</button>`}</aside>`;
}

/** @param {Scene} scene */
export function readOnlyBar({ state }) {
  if (!state.readOnly) return nothing;
  return html`<aside class="bar-over" aria-label="Newer version"><p>${state.readOnly.text}</p>
    ${state.readOnly.link ? html`<label class="field kept-link"><span class="field-name">the original link</span>
      <input type="text" readonly .value=${state.readOnly.link} /></label>` : nothing}</aside>`;
}

/**
 * @param {{title: string, findings: Finding[], dismiss: () => void}|null} refusal
 */
export function findingsBar(refusal) {
  if (!refusal) return nothing;
  return html`<section class="bar-over findings" role="alert" aria-labelledby="findings-title">
    <h2 id="findings-title">${refusal.title}</h2>
    <ul>${refusal.findings.map((finding) => html`<li>${finding.message}${finding.path ? html` <code>${finding.path}</code>` : nothing}</li>`)}</ul>
    <button type="button" @click=${refusal.dismiss}>Close</button></section>`;
}

/** @param {Scene} scene */
export function statusLine({ state, dispatch }) {
  const notice = state.notice;
  return html`<div class="status ${notice ? `is-${notice.tone}` : "is-empty"}"><p role="status" aria-live="polite">${notice?.text ?? ""}</p>
    ${notice?.undo ? html`<button type="button" @click=${() => dispatch({ type: "undo" })}>Undo</button>` : nothing}</div>`;
}
