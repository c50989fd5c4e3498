/**
 * Measured decay beside the predicted one: hollow bars for the range as the room is described, solid ones after the
 * check-up, a cross for what was measured.
 */
import { scaleLinear, svg } from "../vendor.js";
import { number } from "../model/format.js";
import { bandLabel, bandPlace } from "./bands.js";

/**
 * @typedef {{t20_s: ArrayLike<number>, low_s: ArrayLike<number>, high_s: ArrayLike<number>}} Predicted
 * @typedef {object} CheckupData
 * @property {ArrayLike<number>} bands_hz
 * @property {ArrayLike<number>} measured_s
 * @property {readonly boolean[]} counted
 * @property {Predicted} before
 * @property {Predicted|null} after
 * @property {string} label
 * @property {number} width_px
 */

const HEIGHT_PX = 190;
const INSET = Object.freeze({ left: 34, right: 10, top: 12, bottom: 24 });
const BAR_PX = 9;
const CROSS_PX = 4.5;
/** From the cross to the middle of a bar on either side, at most. */
const APART_PX = 12;

/** @param {CheckupData} data */
export function checkupChart(data) {
  const most_s = 1.08 * Math.max(...[data.measured_s, data.before.high_s, ...(data.after ? [data.after.high_s] : [])].flatMap((row) => Array.from(row)));
  const places = Array.from(data.bands_hz, bandPlace);
  const x = scaleLinear([Math.min(...places) - 1, Math.max(...places) + 1], [INSET.left, data.width_px - INSET.right]);
  const y = scaleLinear([0, most_s], [HEIGHT_PX - INSET.bottom, INSET.top]).nice(4);
  const apart = x(1) - x(0);
  const aside = Math.min(APART_PX, apart * 0.3);
  const labelled = places.length <= 8 || apart > 26;
  return svg`<svg class="chart checkup-chart" width=${data.width_px} height=${HEIGHT_PX} viewBox="0 0 ${data.width_px} ${HEIGHT_PX}" role="img" aria-label=${data.label}>
    ${y.ticks(4).map((/** @type {number} */ time_s) => svg`<path class="grid" d="M${INSET.left} ${y(time_s)}H${data.width_px - INSET.right}" /><text class="ax" x=${INSET.left - 5} y=${y(time_s) + 4} text-anchor="end">${number(time_s, time_s % 1 === 0 ? 0 : 1)}</text>`)}
    ${places.map((place, index) => svg`<g class=${data.counted[index] ? "" : "is-left-out"}>
      ${bar(x(place) - aside, y, data.before, index, "now")}
      ${data.after ? bar(x(place) + aside, y, data.after, index, "plan") : ""}
      ${cross(x(place), y(data.measured_s[index]))}
      ${labelled || index % 3 === 1 ? svg`<text class="ax" x=${x(place)} y=${HEIGHT_PX - 8} text-anchor="middle">${bandLabel(data.bands_hz[index])}</text>` : ""}</g>`)}
    <path class="base" d="M${INSET.left} ${y(0)}H${data.width_px - INSET.right}" /></svg>`;
}

/** @param {number} x_px @param {(time_s: number) => number} y @param {Predicted} of @param {number} index @param {string} look */
function bar(x_px, y, { t20_s, low_s, high_s }, index, look) {
  const [top, foot] = [y(high_s[index]), y(low_s[index])];
  return svg`<rect class=${look} x=${x_px - BAR_PX / 2} y=${top} width=${BAR_PX} height=${Math.max(1, foot - top)} />
    <path class="tickmark" d="M${x_px - BAR_PX / 2 - 2} ${y(t20_s[index])}h${BAR_PX + 4}" />`;
}

/** @param {number} x_px @param {number} y_px */
function cross(x_px, y_px) {
  const arms = `M${x_px - CROSS_PX} ${y_px - CROSS_PX}l${2 * CROSS_PX} ${2 * CROSS_PX}m0 ${-2 * CROSS_PX}l${-2 * CROSS_PX} ${2 * CROSS_PX}`;
  return svg`<path class="cross-halo" d=${arms} /><path class="cross-mark" d=${arms} />`;
}
