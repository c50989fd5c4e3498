/**
 * The key of the drawing, in the blank at its top left.
 */
import { html } from "../vendor.js";
import { signWithPath } from "./marks.js";

export const key = html`<ul class="key" aria-label="Key">
  <li><svg width="36" height="18" aria-hidden="true">${signWithPath(0)}</svg>left loudspeaker</li>
  <li><svg width="36" height="18" aria-hidden="true">${signWithPath(1)}</svg>right loudspeaker</li>
  <li>figures: milliseconds after the direct sound</li>
</ul>`;
