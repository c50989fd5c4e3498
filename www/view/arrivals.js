/**
 * Bounces against time, on request: the table beside it leads. Loaded with it.
 *
 * @import { Reflection } from "../model/types.js"
 * @import { Scene } from "./scene.js"
 */
import { html } from "../vendor.js";
import { arrivalsChart } from "../chart/arrivals.js";
import { number } from "../model/format.js";
import { surfaceName } from "../model/words.js";
import { presenceOf } from "./levels.js";

const HEIGHT_PX = 220;

/**
 * @param {Scene} scene
 * @param {number} width_px
 */
export function arrivalsBody({ shown }, width_px) {
  const bounces = (shown?.reflections ?? []).filter((one) => one.order <= 2);
  const arrivals = bounces.map((one) => ({
    loudspeaker: one.loudspeaker, delay_ms: one.delay_s * 1000, level_db: presenceOf(one.level_db), second: one.order === 2, name: nameOf(one),
  }));
  const before = arrivals.filter(({ delay_ms }) => delay_ms <= 20).length;
  return html`<p class="says">${number(before)} of ${number(arrivals.length)} come within 20 ms and blend with the direct sound. Ring: left loudspeaker. Diamond: right. Small: off two surfaces.</p>
    ${arrivalsChart({ arrivals, width_px, height_px: HEIGHT_PX })}`;
}

/** @param {Reflection} one */
function nameOf({ surfaces }) {
  return surfaces.length > 0 ? surfaceName(surfaces[0]).replace(/ wall$/, "") : "furniture";
}
