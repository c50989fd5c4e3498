/**
 * Seat share: what is direct, what comes in the first 20 ms after it, and what comes later. Two bars for the middle of the
 * range, and a pair of columns for each octave. Direct is solid, early diagonal, later dotted; ticks are 8-in-10 ranges.
 */
import { nothing, scaleLinear, svg } from "../vendor.js";
import { number, percent } from "../model/format.js";
import { bandLabel } from "./bands.js";

/**
 * @typedef {{direct: number, early: number, late: number}} Shares
 * @typedef {{low: number, high: number}} Range
 * @typedef {Shares & {hz: number, directRange: Range|null, lateRange: Range|null}} Octave
 * @typedef {{name: string, look: "now"|"other"|"plan", middle: Shares, octaves: Octave[]}} Series
 *
 * @typedef {object} SharesData
 * @property {Series[]} series  today, then the plan in hand
 * @property {number} width_px
 */

const BAR_PX = 15;
const BAR_STEP_PX = 19;
const HEAD_PX = 18;
const COLUMNS_PX = 168;
const AXIS_PX = 20;
const LEFT_PX = 48;

/** Room for the names of the three parts at the right end, px. */
const NAMES_PX = 76;

/** Under this width the parts are named over the bars only, px. */
const ROOMY_PX = 330;

/** A part of a bar narrower than this has no figure in it, px. */
const FIGURE_PX = 42;

/** @type {{key: keyof Shares, name: string}[]} */
const PARTS = [{ key: "direct", name: "direct" }, { key: "early", name: "first 20 ms" }, { key: "late", name: "later" }];

/** @param {SharesData} data */
export function sharesChart({ series, width_px }) {
  const top = HEAD_PX + series.length * BAR_STEP_PX + 14;
  const height = top + COLUMNS_PX + AXIS_PX;
  const right = width_px - (width_px >= ROOMY_PX ? NAMES_PX : 4);
  return svg`<svg class="chart shares" viewBox="0 0 ${width_px} ${height}" width=${width_px} height=${height} role="img"
    aria-label="Shares of direct, early and later sound at the seat, by octave; the table below has the figures">
    <g>${headNames(series.at(-1), width_px)}${series.map((one, index) => bar(one, HEAD_PX + index * BAR_STEP_PX, width_px))}</g>
    <g>${columns(series, top, right)}${right < width_px - 20 ? partNames(series.at(-1), top, right) : nothing}</g>
  </svg>`;
}

/**
 * The names of the parts over the last bar's own.
 * @param {Series|undefined} series
 * @param {number} width_px
 */
function headNames(series, width_px) {
  if (!series) return nothing;
  const x = scaleLinear().domain([0, 1]).range([LEFT_PX, width_px - 2]);
  const early = Math.max(x(series.middle.direct), LEFT_PX + 42);
  return svg`<text class="ax" x=${LEFT_PX} y="12">direct</text>
    <text class="ax" x=${px(early)} y="12">first 20 ms</text>
    <text class="ax" x=${width_px - 2} y="12" text-anchor="end">later</text>`;
}

/**
 * @param {Series} series
 * @param {number} y
 * @param {number} width_px
 */
function bar({ name, look, middle }, y, width_px) {
  const x = scaleLinear().domain([0, 1]).range([LEFT_PX, width_px - 2]);
  let from = 0;
  const parts = PARTS.map(({ key }) => {
    const [left, right] = [x(from), x(from + middle[key])];
    from += middle[key];
    return svg`<rect class="share ${look} ${key}" x=${px(left)} y=${y} width=${px(right - left)} height=${BAR_PX} />
      ${right - left >= FIGURE_PX ? figure((left + right) / 2, y, middle[key], look, key) : nothing}`;
  });
  return svg`<text class="lab ${look}" x="0" y=${y + 12}>${name.length > 7 ? `${name.replace(/^Plan /, "").slice(0, 6)}…` : name}</text>${parts}`;
}

/**
 * A figure in a blank; on the solid part it is cut out instead.
 * @param {number} x
 * @param {number} y
 * @param {number} share
 * @param {"now"|"other"|"plan"} look
 * @param {keyof Shares} key
 */
function figure(x, y, share, look, key) {
  const solid = key === "direct";
  return svg`${solid ? nothing : svg`<rect class="bg" x=${px(x - 17)} y=${y + 1.5} width="34" height=${BAR_PX - 3} />`}
    <text class="lab ${solid ? "cut-out" : look}" x=${px(x)} y=${y + 12} text-anchor="middle">${percent(share)}</text>`;
}

/**
 * @param {Series[]} series
 * @param {number} top
 * @param {number} right
 */
function columns(series, top, right) {
  const octaves = series[0]?.octaves ?? [];
  const step = (right - LEFT_PX) / octaves.length;
  const low = top + COLUMNS_PX;
  const y = scaleLinear().domain([0, 1]).range([low, top]);
  const ticks = [0, 0.5, 1];
  return svg`${ticks.map((share) => svg`<path class=${share === 0 ? "base" : "grid"} d="M${LEFT_PX} ${px(y(share))}H${px(right)}" />
      <text class="ax" x=${LEFT_PX - 7} y=${px(y(share) + 4)} text-anchor="end">${number(share * 100)}${share === 1 ? "\u202f%" : ""}</text>`)}
    ${octaves.map((octave, index) => svg`${series.map((one, place) => column(one, index, columnBox(index, place, series.length, step), y))}
      <text class="ax" x=${px(LEFT_PX + step * (index + 0.5))} y=${low + 15} text-anchor="middle">${bandLabel(octave.hz)}</text>`)}
    <text class="ax" x=${px(right + 4)} y=${low + 15}>${right < LEFT_PX + 260 ? "" : "Hz"}</text>`;
}

/**
 * Today left, the plan right.
 * @param {number} index
 * @param {number} place
 * @param {number} of
 * @param {number} step
 */
function columnBox(index, place, of, step) {
  const width = Math.min(19, (step - 5) / of - 1.5);
  const centre = LEFT_PX + step * (index + 0.5);
  return { x: centre + (place - of / 2) * (width + 2) + 1, width };
}

/**
 * @param {Series} series
 * @param {number} index
 * @param {{x: number, width: number}} box
 * @param {(share: number) => number} y
 */
function column({ look, octaves }, index, { x, width }, y) {
  const octave = octaves[index];
  if (!Number.isFinite(octave.direct + octave.early + octave.late)) return nothing;
  let from = 0;
  const parts = PARTS.map(({ key }) => {
    const [low, high] = [y(from), y(from + octave[key])];
    from += octave[key];
    return svg`<rect class="share ${look} ${key}" x=${px(x)} y=${px(high)} width=${px(width)} height=${px(Math.max(0, low - high))} />`;
  });
  return svg`${parts}${tick(octave.directRange, x + width * 0.32, y)}
    ${tick(octave.lateRange && { low: 1 - octave.lateRange.high, high: 1 - octave.lateRange.low }, x + width * 0.68, y)}`;
}

/**
 * Where a border may lie, 8 times in 10.
 * @param {Range|null} range
 * @param {number} x
 * @param {(share: number) => number} y
 */
function tick(range, x, y) {
  if (!range || !Number.isFinite(range.low + range.high)) return nothing;
  const path = `M${px(x)} ${px(y(range.low))}V${px(y(range.high))}`;
  return svg`<path class="doubt-under" d=${path} /><path class="doubt-over" d=${path} />`;
}

/**
 * The parts by name at the right end, beside the last column.
 * @param {Series|undefined} series
 * @param {number} top
 * @param {number} right
 */
function partNames(series, top, right) {
  const last = series?.octaves.at(-1);
  if (!last) return nothing;
  const y = scaleLinear().domain([0, 1]).range([top + COLUMNS_PX, top]);
  const direct = Math.min(y(last.direct / 2) + 4, top + COLUMNS_PX - 3);
  const early = Math.min(y(last.direct + last.early / 2) + 4, direct - 15);
  const late = Math.min(y(1 - last.late / 2) + 4, early - 15);
  return svg`<text class="ax strong" x=${right + 5} y=${px(late)}>later</text>
    <text class="ax strong" x=${right + 5} y=${px(early)}>first 20 ms</text>
    <text class="ax strong" x=${right + 5} y=${px(direct)}>direct</text>`;
}

/** @param {number} value */
function px(value) {
  return Math.round(value * 10) / 10;
}
