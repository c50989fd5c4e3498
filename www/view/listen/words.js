// What Fair listen says of itself: how loud, what it is, what is left out.

import { html, nothing } from "../../vendor.js";
import { LISTEN } from "../../model/caution_texts.js";

/** The caution, where it is needed: before the first sound. */
export function cautionWords() {
  return html`<p class="caution">${LISTEN}</p>`;
}

/**
 * @import { HeardLevel } from "../../model/listen.js"
 * @param {HeardLevel[]} levels  of the plans before they are matched; empty until they are rendered
 */
export function whatItIs(levels) {
  const loudness_lkfs = levels.map((level) => level.loudness_lkfs);
  const spread_db = Math.max(...loudness_lkfs) - Math.min(...loudness_lkfs);
  return html`<details class="figures"><summary>What you hear, and what is left out</summary>
    <p>The direct sound and the bounces up to third order come from their places and at their times; the late sound is noise that dies away in each band as the decay chart says; below the limit of statistics the room's notes ring. All of it comes from the same figures as the charts.</p>
    <p>Plans are brought to the same loudness, K-weighted as in ITU-R BS.1770, without gating, over one round of the sound. ${loudness_lkfs.length > 1 && Number.isFinite(spread_db) ? html`Without that they would differ by ${spread_db.toFixed(1)} dB here.` : nothing} The level is chosen for each sound so that its peaks stay whole in every plan, also at the top of the level and in the file that is saved; behind it a limiter keeps anything else below full scale.</p>
    <p>Left out: your own head and ears (a plain sphere stands in, so front and back sound alike), turning your head, the sound of your loudspeakers, edges of furniture, how notes mix in the bass, noise from outside, and everything beyond a box-shaped room.</p>
    <p>The sounds are made here from formulas. Nothing is sent anywhere, and it works offline.</p></details>`;
}
