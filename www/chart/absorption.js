/**
 * Small drawings of absorption: six octaves with their published spread, and 24 bands of one kind of piece.
 */
import { nothing, svg } from "../vendor.js";

const HEIGHT_PX = 44;
const BASE_PX = 32;
const OCTAVE_NAMES = ["125", "250", "500", "1k", "2k", "4k"];

/** @param {number} share of what arrives */
function y(share) {
  return BASE_PX - Math.min(1, Math.max(0, share)) * (BASE_PX - 4);
}

/**
 * Bars from the lowest to the highest published value, a tick at the typical one.
 * @param {{low: ArrayLike<number>, typical: ArrayLike<number>, high: ArrayLike<number>}} finish
 */
export function spreadChart(finish) {
  return svg`<svg class="chart small" viewBox="0 0 180 ${HEIGHT_PX}" width="180" height=${HEIGHT_PX} role="img"
    aria-label="Absorption by octave, from the lowest to the highest published value">
    <path class="grid" d="M0 ${y(1)}H180" /><path class="base" d="M0 ${BASE_PX}H180" />
    ${OCTAVE_NAMES.map((name, index) => {
      const x = 15 + index * 30;
      return svg`<rect class="now" x=${x - 4} y=${y(finish.high[index])} width="8" height=${Math.max(0.5, y(finish.low[index]) - y(finish.high[index]))} />
        <path class="tickmark" d="M${x - 6} ${y(finish.typical[index])}h12" />
        <text class="ax" x=${x} y=${HEIGHT_PX - 1} text-anchor="middle">${name}</text>`;
    })}</svg>`;
}

/** Bands of the six octaves among the 24 thirds. */
const OCTAVE_BANDS = [4, 7, 10, 13, 16, 19];

/**
 * Six bars as small as a letter, for a card: 125 Hz to 4 kHz against a full one.
 * @param {ArrayLike<number>} absorption  24 bands
 */
export function sixBars(absorption) {
  const words = OCTAVE_BANDS.map((band) => Math.round(100 * absorption[band]));
  return svg`<svg class="chart six-bars" viewBox="0 0 38 14" width="38" height="14" role="img"
    aria-label="Absorbs ${words.join(", ")} % at 125 Hz to 4 kHz"><path class="grid" d="M0 .5H38" />
    ${words.map((percent, index) => {
      const height = Math.max(0.5, Math.min(100, percent) * 0.13);
      return svg`<rect class="plan" x=${index * 6.5 + 0.5} y=${13.5 - height} width="4" height=${height} />`;
    })}</svg>`;
}

/**
 * Equivalent absorption area of one thing by octave, with a factor of doubt either way.
 * @param {ArrayLike<number>} area_m2  six octaves
 * @param {number} spread
 */
export function areaChart(area_m2, spread) {
  const most_m2 = Math.max(...Array.from(area_m2), 0.01) * spread;
  return spreadChart({
    low: Array.from(area_m2, (area) => area / spread / most_m2), typical: Array.from(area_m2, (area) => area / most_m2),
    high: Array.from(area_m2, (area) => (area * spread) / most_m2),
  });
}

/**
 * One solid bar per band, octaves named.
 * @param {ArrayLike<number>} absorption  24 bands
 */
export function bandChart(absorption) {
  const step = 9;
  const width = step * absorption.length;
  return svg`<svg class="chart small" viewBox="0 0 ${width} ${HEIGHT_PX}" width=${width} height=${HEIGHT_PX} role="img"
    aria-label="Absorption by third-octave band, from 0 to 1">
    <path class="grid" d="M0 ${y(1)}H${width}" /><path class="base" d="M0 ${BASE_PX}H${width}" />
    ${Array.from(absorption, (share, band) => (Number.isFinite(share) ? svg`<rect class="plan" x=${band * step + 2} y=${y(share)} width=${step - 4} height=${BASE_PX - y(share)} />` : nothing))}
    ${OCTAVE_NAMES.map((name, index) => svg`<text class="ax" x=${(4.5 + index * 3) * step} y=${HEIGHT_PX - 1} text-anchor="middle">${name}</text>`)}
  </svg>`;
}
