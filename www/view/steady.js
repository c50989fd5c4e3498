/**
 * Words that change once ranges come, in a place that is large enough for the longest of them, so that nothing moves.
 * The longest forms stand in the same place and are never seen, read out or found.
 */
import { html } from "../vendor.js";

/**
 * @param {unknown} words
 * @param {string[]} forms  up to two
 */
export function steady(words, [first = "", second = ""]) {
  return html`<div class="steady" data-form=${first} data-other=${second}>${words}</div>`;
}
