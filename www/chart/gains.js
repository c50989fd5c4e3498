/**
 * What money buys, or pieces where nothing has a price: gain beside the bare room over what is spent, from what is there today
 * on, with the part where more of it changes little.
 */
import { nothing, scaleLinear, svg } from "../vendor.js";

/**
 * @typedef {object} GainsData
 * @property {string} title
 * @property {{spent: number, gained: number}} today     what is there already
 * @property {{spent: number, gained: number}[]} points  beside the bare room, ascending in what is spent
 * @property {number|null} flat_from  of what is spent
 * @property {number|null} at         the point that is chosen, by number
 * @property {(spent: number) => string} say
 * @property {number} width_px
 */

const HEIGHT_PX = 150;
const LEAST_GAIN = 0.5;

/** @param {GainsData} data */
export function gainsChart({ title, today, points, flat_from, at, say, width_px }) {
  const [left, right, top, low] = [44, width_px - 14, 22, HEIGHT_PX - 24];
  const all = [today, ...points];
  const gains = all.map((point) => point.gained);
  const most = Math.max(1e-9, ...all.map((point) => point.spent));
  const x = scaleLinear().domain([0, most]).range([left, right]);
  const y = scaleLinear().domain([Math.min(0, ...gains), Math.max(LEAST_GAIN, ...gains)]).range([low, top]);
  const path = [{ spent: 0, gained: 0 }, ...all].map((point, index) => `${index === 0 ? "M" : "L"}${x(point.spent).toFixed(1)} ${y(point.gained).toFixed(1)}`).join("");
  const chosen = at === null ? undefined : points[at];
  return svg`<svg class="chart gains" viewBox="0 0 ${width_px} ${HEIGHT_PX}" width=${width_px} height=${HEIGHT_PX} role="img"
    aria-label="${title}${flat_from === null ? "" : `; nearly flat from ${say(flat_from)} on`}">
    ${flat_from === null ? nothing : svg`<rect class="flat" x=${x(flat_from)} y=${top} width=${right - x(flat_from)} height=${low - top} />
      <text class="lab" x=${right} y=${top - 8} text-anchor="end">more changes little here</text>`}
    <path class="axis" d="M${left} ${y(0)}H${right}" /><path class="gain" d=${path} />
    ${points.map((point) => svg`<circle class="rung" cx=${x(point.spent)} cy=${y(point.gained)} r="3" />`)}
    <circle class="rung is-today" cx=${x(today.spent)} cy=${y(today.gained)} r="4" /><text class="lab" x=${x(today.spent) + 8} y=${Math.min(y(today.gained) + 4, low - 6)}>today</text>
    ${chosen ? svg`<circle class="rung is-chosen" cx=${x(chosen.spent)} cy=${y(chosen.gained)} r="6.5" />` : nothing}
    <text class="lab" x=${left} y=${HEIGHT_PX - 6}>${say(0)}</text><text class="lab" x=${right} y=${HEIGHT_PX - 6} text-anchor="end">${say(most)}</text>
    <text class="lab" x=${left - 8} y=${y(0)} text-anchor="end">0</text><text class="lab" x=${left - 8} y=${y.range()[1] + 4} text-anchor="end">${y.domain()[1].toFixed(1)}</text>
  </svg>`;
}
