/**
 * The Decay strip: decay time by band, today as hollow bars and the plan in hand as solid ones, beside the goal.
 * A bar is the 8-in-10 range with a tick for the middle; as long as there is no range the bar is as flat as a tick.
 */
import { guard, nothing, scaleLinear, svg } from "../vendor.js";
import { number, secondsRange } from "../model/format.js";
import { BAND_COUNT, NOMINAL_HZ, bandLabel, bandPlace, isOctave } from "./bands.js";

/**
 * @typedef {{low_s: ArrayLike<number>, high_s: ArrayLike<number>}} Span
 * @typedef {object} DecayData
 * @property {ArrayLike<number>} now_s   24 bands
 * @property {ArrayLike<number>|null} plan_s
 * @property {Span|null} now_range       8 times in 10
 * @property {Span|null} plan_range
 * @property {boolean} waiting           the range of what is shown is on its way
 * @property {string} planName
 * @property {string} [nowName]          what stands beside it; "today" without
 * @property {"now"|"other"} [nowLook]
 * @property {{low_s: number, high_s: number}} goal
 * @property {number|null} limit_hz      below it one decay time does not describe the room
 * @property {number} width_px
 * @property {number} height_px
 * @property {boolean} labelled          names at the right end; without them a key stands over the chart
 *
 * @typedef {object} Plot
 * @property {number} left
 * @property {number} right
 * @property {number} top
 * @property {number} low
 * @property {number} step               px per band
 * @property {(value_s: number) => number} y
 * @property {number} top_s
 */

/** The goal is about the mean over these, Hz. */
const GOAL_FROM_HZ = 250;
const GOAL_TO_HZ = 4000;

/** Nothing slower than this is drawn to scale, s. */
const LONGEST_S = 6;

/**
 * What a drag does not change is kept: ground, axes and names, and the marks of today.
 * @param {DecayData} data
 */
export function decayChart(data) {
  const plot = plotOf(data);
  const ground = [data.width_px, data.height_px, data.labelled, plot.top_s, data.limit_hz, data.goal.low_s, data.goal.high_s];
  const today = [...ground, data.now_s, data.now_range, data.plan_s === null, data.plan_s === null && data.waiting, data.nowLook];
  return svg`<svg class="chart decay" viewBox="0 0 ${data.width_px} ${data.height_px}" width=${data.width_px} height=${data.height_px}
    role="img" aria-label="Decay time of each third-octave band, ${data.nowName ?? "today"}${data.plan_s ? ` and ${data.planName}` : ""}; the table below has the figures">
    ${guard(ground, () => svg`${unsure(plot, data.limit_hz)}${axes(plot)}${goalBand(plot, data.goal, data.limit_hz)}`)}
    ${guard(today, () => NOMINAL_HZ.map((_, band) => todayMark(plot, data, band)))}
    ${data.plan_s ? NOMINAL_HZ.map((_, band) => planMark(plot, data, band)) : nothing}
    ${guard(ground, () => svg`${limitLine(plot, data.limit_hz)}${bandNames(plot)}`)}${data.labelled ? endNames(plot, data) : nothing}
  </svg>`;
}

/**
 * @param {DecayData} data
 * @returns {Plot}
 */
function plotOf(data) {
  const left = 36;
  const right = data.width_px - (data.labelled ? 62 : 4);
  const top = 8;
  const low = data.height_px - 21;
  const ends = [data.now_range?.high_s ?? [], data.plan_s ? data.plan_range?.high_s ?? [] : []];
  const top_s = topOf([data.now_s, data.plan_s ?? [], ...ends, [data.goal.high_s * 1.2]]);
  return { left, right, top, low, step: (right - left) / BAND_COUNT, y: scaleLinear().domain([0, top_s]).range([low, top]), top_s };
}

/**
 * A round time over everything that is drawn.
 * @param {ArrayLike<number>[]} series
 */
function topOf(series) {
  const values = series.flatMap((one) => Array.from(one)).filter((value) => Number.isFinite(value));
  const most = Math.min(LONGEST_S, Math.max(0.5, ...values));
  return most < 1.5 ? Math.ceil(most * 4 + 0.6) / 4 : Math.ceil(most * 2 + 0.3) / 2;
}

/**
 * The hatched ground below the limit of statistics, with its sentence.
 * @param {Plot} plot
 * @param {number|null} limit_hz
 */
function unsure(plot, limit_hz) {
  const end = limitX(plot, limit_hz);
  if (end === null) return nothing;
  return svg`<rect class="unsure" x=${plot.left} y=${plot.top} width=${end - plot.left} height=${plot.low - plot.top} />`;
}

/**
 * @param {Plot} plot
 * @param {number|null} limit_hz
 */
function limitX(plot, limit_hz) {
  if (limit_hz === null || !Number.isFinite(limit_hz)) return null;
  const x = plot.left + plot.step * (bandPlace(limit_hz) + 0.5);
  return x <= plot.left ? null : Math.min(x, plot.right);
}

/**
 * @param {Plot} plot
 * @param {number|null} limit_hz
 */
function limitLine(plot, limit_hz) {
  const x = limitX(plot, limit_hz);
  if (x === null || limit_hz === null) return nothing;
  const width = x - plot.left;
  const says = width > 130 ? svg`<rect class="bg" x=${plot.left + width / 2 - 66} y=${plot.low - 35} width="132" height="30" />
    <text class="ax strong" x=${plot.left + width / 2} y=${plot.low - 23} text-anchor="middle">single notes down here,</text>
    <text class="ax strong" x=${plot.left + width / 2} y=${plot.low - 10} text-anchor="middle">not one decay</text>` : nothing;
  return svg`<path class="limit" d="M${x} ${plot.top}V${plot.low}" />
    <text class="ax halo" x=${x + 4} y=${plot.top + 9}>${number(limit_hz)} Hz</text>${says}`;
}

/** @param {Plot} plot */
function axes(plot) {
  const step_s = plot.top_s > 3 ? 2 : plot.top_s > 1.6 ? 1 : 0.5;
  const ticks = [];
  for (let value = 0; value <= plot.top_s + 0.01; value += step_s) ticks.push(value);
  return svg`${ticks.map((value) => svg`<path class=${value === 0 ? "base" : "grid"} d="M${plot.left} ${plot.y(value)}H${plot.right}" />
    <text class="ax" x=${plot.left - 7} y=${plot.y(value) + 4} text-anchor="end">${value === 0 ? "0" : number(value, 1)}${
      value > 0 && value + step_s > plot.top_s + 0.01 ? " s" : ""}</text>`)}`;
}

/**
 * Two dashed lines closed at the ends, from 250 Hz, or from the limit of statistics if that is higher, to 4 kHz.
 * @param {Plot} plot
 * @param {{low_s: number, high_s: number}} goal
 * @param {number|null} limit_hz
 */
function goalBand(plot, goal, limit_hz) {
  const from = plot.left + plot.step * bandPlace(GOAL_FROM_HZ);
  const x = Math.max(from, limitX(plot, limit_hz) ?? from);
  const end = plot.left + plot.step * (bandPlace(GOAL_TO_HZ) + 1);
  const [top, low] = [plot.y(Math.min(goal.high_s, plot.top_s)), plot.y(goal.low_s)];
  if (end <= x) return nothing;
  return svg`<rect class="goalfill" x=${x} y=${top} width=${end - x} height=${low - top} />
    <rect class="goal" x=${x} y=${top} width=${end - x} height=${low - top} />
    <text class="ax strong halo" x=${(x + end) / 2} y=${low + 14} text-anchor="middle">goal ${secondsRange(goal.low_s, goal.high_s)}</text>`;
}

/**
 * Today stands left of the plan, or alone in the middle of its band.
 * @param {Plot} plot
 * @param {DecayData} data
 * @param {number} band
 */
function todayMark(plot, data, band) {
  const { centre, width, gap, low } = placeOf(plot, data, band);
  const x = data.plan_s ? centre - gap - width : centre - width / 2;
  return mark(plot, x, width, { value_s: data.now_s[band], range: spanAt(data.now_range, band), name: `${data.nowLook ?? "now"}${low}`, waits: !data.plan_s && data.waiting });
}

/**
 * @param {Plot} plot
 * @param {DecayData} data
 * @param {number} band
 */
function planMark(plot, data, band) {
  const { centre, width, gap, low } = placeOf(plot, data, band);
  return mark(plot, centre + gap, width, { value_s: data.plan_s?.[band] ?? NaN, range: spanAt(data.plan_range, band), name: `plan${low}`, waits: data.waiting });
}

/**
 * @param {Plot} plot
 * @param {DecayData} data
 * @param {number} band
 */
function placeOf({ left, step }, { limit_hz }, band) {
  return {
    centre: left + step * (band + 0.5), width: Math.max(3, Math.min(11, step / 2 - 1.5)), gap: Math.min(2, step / 12),
    low: limit_hz !== null && NOMINAL_HZ[band] < limit_hz ? " low" : "",
  };
}

/**
 * @param {Span|null} range
 * @param {number} band
 */
function spanAt(range, band) {
  const [low_s, high_s] = [range?.low_s[band] ?? NaN, range?.high_s[band] ?? NaN];
  return Number.isFinite(low_s) && Number.isFinite(high_s) ? { low_s, high_s } : null;
}

/** Height of a mark that has no range yet, px. */
const TICK_PX = 5;

/** How far the middle of a hollow bar stands out on either side, px. */
const OUT_PX = 1.5;

/** @typedef {{value_s: number, range: {low_s: number, high_s: number}|null, name: string, waits: boolean}} Mark */

/**
 * Below the limit of statistics, without a range, a bare line: there is less to trust.
 * @param {Plot} plot
 * @param {number} x
 * @param {number} width
 * @param {Mark} one
 */
function mark(plot, x, width, { value_s, range, name, waits }) {
  if (!Number.isFinite(value_s)) return nothing;
  const middle = plot.y(Math.min(value_s, plot.top_s));
  if (!range && name.endsWith("low")) return svg`<path class=${name} d="M${x.toFixed(1)} ${middle.toFixed(1)}h${width.toFixed(1)}" />`;
  const [top, low] = range
    ? [plot.y(Math.min(range.high_s, plot.top_s)), plot.y(Math.min(range.low_s, plot.top_s))]
    : [middle - TICK_PX / 2, middle + TICK_PX / 2];
  const out = name === "plan" ? 0 : OUT_PX;
  return svg`<rect class=${waits ? `${name} waits` : name} x=${x.toFixed(1)} y=${top.toFixed(1)} width=${width.toFixed(1)} height=${Math.max(1, low - top).toFixed(1)} />
    ${range ? svg`<path class="middle ${name}" d="M${(x - out).toFixed(1)} ${middle.toFixed(1)}h${(width + 2 * out).toFixed(1)}" />` : nothing}`;
}

/** All bands by name where there is room, octaves otherwise. @param {Plot} plot */
function bandNames(plot) {
  const all = plot.step >= 24;
  const names = NOMINAL_HZ.map((hz, band) => (all || (isOctave(band) && (plot.step >= 10 || band % 6 === 1)) ? svg`<text class="ax ${isOctave(band) ? "strong" : ""}"
    x=${(plot.left + plot.step * (band + 0.5)).toFixed(1)} y=${plot.low + 16} text-anchor="middle">${bandLabel(hz)}</text>` : nothing));
  return svg`${names}<text class="ax" x=${plot.right + 4} y=${plot.low + 16}>${all ? "Hz" : ""}</text>`;
}

/**
 * Names at the right end, kept apart.
 * @param {Plot} plot
 * @param {DecayData} data
 */
function endNames(plot, data) {
  const now_y = endY(plot, data.now_s);
  if (!data.plan_s) return svg`<text class="lab" x=${plot.right + 4} y=${now_y + 4}>${data.nowName ?? "today"}</text>`;
  const plan_y = endY(plot, data.plan_s);
  const push = Math.max(0, (15 - Math.abs(plan_y - now_y)) / 2) * (plan_y >= now_y ? 1 : -1);
  return svg`<text class="lab ${data.nowLook === "other" ? "plan" : ""}" x=${plot.right + 4} y=${(now_y + 4 - push).toFixed(1)}>${data.nowName ?? "today"}</text>
    <text class="lab plan" x=${plot.right + 4} y=${(plan_y + 4 + push).toFixed(1)}>${data.planName}</text>`;
}

/**
 * @param {Plot} plot
 * @param {ArrayLike<number>} series
 */
function endY(plot, series) {
  const last = Array.from(series).filter(Number.isFinite).at(-1) ?? 0;
  return plot.y(Math.min(last, plot.top_s));
}
