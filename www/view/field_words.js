/**
 * Under the Decay strip: how even the late sound is.
 *
 * @import { PlanReport } from "../model/types.js"
 */
import { html, nothing } from "../vendor.js";
import { fieldSentences } from "../model/field_words.js";

/** @param {PlanReport|null} report */
export function fieldWords(report) {
  const sentences = report ? fieldSentences(report) : [];
  if (sentences.length === 0) return nothing;
  return html`<ul class="says plain" aria-label="How the late sound behaves">${sentences.map((one) => html`<li>${one}</li>`)}</ul>`;
}
