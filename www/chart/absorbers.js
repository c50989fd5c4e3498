/**
 * What one thing takes of the room's sound: eight bars, one per octave, all rows to one scale.
 */
import { nothing, svg } from "../vendor.js";
import { bandLabel } from "./bands.js";

const STEP_PX = 22;
const BAR_PX = 14;
const HEIGHT_PX = 34;
const NAMES_PX = 16;

/** Width of the eight bars, px. */
export const ABSORBER_BARS_PX = 8 * STEP_PX;

/**
 * @param {{area_m2: number[], look: "now"|"plan", most_m2: number}} bars
 */
export function absorberBars({ area_m2, look, most_m2 }) {
  return svg`<svg class="chart absorber-bars" viewBox="0 0 ${ABSORBER_BARS_PX} ${HEIGHT_PX}" width=${ABSORBER_BARS_PX} height=${HEIGHT_PX} aria-hidden="true">
    <path class="base" d="M0 ${HEIGHT_PX - 1}H${ABSORBER_BARS_PX}" />
    ${area_m2.map((area, octave) => {
      const height = Math.max(0, (HEIGHT_PX - 4) * Math.min(1, area / most_m2));
      return height < 0.3 ? nothing : svg`<rect class=${look} x=${octave * STEP_PX + 4} y=${HEIGHT_PX - 1 - height} width=${BAR_PX} height=${height} />`;
    })}</svg>`;
}

/**
 * The names of the octaves over or under the bars.
 * @param {readonly number[]} octaves_hz
 */
export function octaveNames(octaves_hz) {
  return svg`<svg class="chart" viewBox="0 0 ${ABSORBER_BARS_PX} ${NAMES_PX}" width=${ABSORBER_BARS_PX} height=${NAMES_PX} aria-hidden="true">
    ${octaves_hz.map((hz, octave) => svg`<text class="ax" x=${octave * STEP_PX + 11} y="12" text-anchor="middle">${bandLabel(hz)}</text>`)}</svg>`;
}
