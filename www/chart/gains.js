/**
 * What money buys, or pieces where nothing has a price: gain over what is spent, with the part where more of it changes little.
 */
import { nothing, scaleLinear, svg } from "../vendor.js";

/**
 * @typedef {object} GainsData
 * @property {{spent: number, gained: number}[]} points  ascending in what is spent
 * @property {number|null} flat_from  of what is spent
 * @property {number} at              the point that is chosen, by number
 * @property {(spent: number) => string} say
 * @property {number} width_px
 */

const HEIGHT_PX = 150;
const LEAST_GAIN = 0.5;

/** @param {GainsData} data */
export function gainsChart({ points, flat_from, at, say, width_px }) {
  const [left, right, top, low] = [44, width_px - 14, 22, HEIGHT_PX - 24];
  const most = Math.max(1e-9, ...points.map((point) => point.spent));
  const x = scaleLinear().domain([0, most]).range([left, right]);
  const y = scaleLinear().domain([0, Math.max(LEAST_GAIN, ...points.map((point) => point.gained))]).range([low, top]);
  const path = [{ spent: 0, gained: 0 }, ...points].map((point, index) => `${index === 0 ? "M" : "L"}${x(point.spent).toFixed(1)} ${y(point.gained).toFixed(1)}`).join("");
  const chosen = points[at];
  return svg`<svg class="chart gains" viewBox="0 0 ${width_px} ${HEIGHT_PX}" width=${width_px} height=${HEIGHT_PX} role="img"
    aria-label="Gain in steps over money${flat_from === null ? "" : `; nearly flat from ${say(flat_from)} on`}">
    ${flat_from === null ? nothing : svg`<rect class="flat" x=${x(flat_from)} y=${top} width=${right - x(flat_from)} height=${low - top} />
      <text class="lab" x=${right} y=${top - 8} text-anchor="end">more money changes little here</text>`}
    <path class="axis" d="M${left} ${low}H${right}" /><path class="gain" d=${path} />
    ${points.map((point) => svg`<circle class="rung" cx=${x(point.spent)} cy=${y(point.gained)} r="3" />`)}
    ${chosen ? svg`<circle class="rung is-chosen" cx=${x(chosen.spent)} cy=${y(chosen.gained)} r="6.5" />` : nothing}
    <text class="lab" x=${left} y=${HEIGHT_PX - 6}>${say(0)}</text><text class="lab" x=${right} y=${HEIGHT_PX - 6} text-anchor="end">${say(most)}</text>
    <text class="lab" x=${left - 8} y=${low} text-anchor="end">0</text><text class="lab" x=${left - 8} y=${y.range()[1] + 4} text-anchor="end">${y.domain()[1].toFixed(1)}</text>
  </svg>`;
}
