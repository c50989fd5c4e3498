/**
 * The key of the drawing, in the blank at its top left.
 *
 * @import { Scene } from "./scene.js"
 */
import { html, nothing } from "../vendor.js";
import { signWithPath } from "./marks.js";
import { hasZones, zonePick } from "./zones.js";

/** Narrower blanks take the short words, px. */
const ROOMY_PX = 140;

/**
 * @param {Scene} scene
 * @param {number} blank_px  width of the blank
 */
export function key(scene, blank_px) {
  const what = blank_px < ROOMY_PX ? "" : " loudspeaker";
  return html`<ul class="key" aria-label="Key">
    <li><svg width="36" height="18" aria-hidden="true">${signWithPath(0)}</svg>left${what}</li>
    <li><svg width="36" height="18" aria-hidden="true">${signWithPath(1)}</svg>right${what}</li>
    ${hasZones(scene.shown) ? html`<li>${zonePick(scene)}</li>` : nothing}
    <li>${what ? "figures: milliseconds after the direct sound" : "figures: ms later"}</li>
  </ul>`;
}
