/**
 * Level over frequency: curves told apart by weight and dash, and single notes named where they lie.
 */
import { nothing, scaleLinear, scaleLog, svg } from "../vendor.js";
import { frequency, number } from "../model/format.js";
import { bandLabel } from "./bands.js";

/**
 * @typedef {{name: string, look: string, frequency_hz: ArrayLike<number>, level_db: ArrayLike<number>}} Curve
 * @typedef {object} CurvesData
 * @property {string} label     what the drawing shows, aloud
 * @property {Curve[]} curves
 * @property {number} from_hz
 * @property {number} to_hz
 * @property {{frequency_hz: number, weight: number}[]} notes  ticks at the top; the weightiest are named
 * @property {number|null} stops_at_hz  where single notes are not followed any more
 * @property {number} width_px
 * @property {number} height_px
 * @property {boolean} named    names at the right end
 *
 * @typedef {object} Plot
 * @property {number} left
 * @property {number} right
 * @property {number} top
 * @property {number} low
 * @property {(hz: number) => number} x
 * @property {(db: number) => number} y
 * @property {number} least_db
 * @property {number} most_db
 */

const TICKS_HZ = [20, 30, 40, 50, 60, 80, 100, 125, 160, 200, 250, 300, 500, 1000, 2000, 5000, 10000];
const STEP_DB = 10;
/** Deeper dips than this below the top are cut off: nobody hears how deep they are. */
const DEEPEST_DB = 45;
const NOTE_PX = 34;

/** @param {CurvesData} data */
export function curvesChart(data) {
  const plot = plotOf(data);
  return svg`<svg class="chart curves" viewBox="0 0 ${data.width_px} ${data.height_px}" width=${data.width_px} height=${data.height_px} role="img" aria-label=${data.label}>
    ${axes(plot, data)}${stop(plot, data.stops_at_hz)}
    <g>${data.curves.map((curve) => svg`<path class="curve ${curve.look}" d=${pathOf(plot, curve, data)} />`)}</g>
    ${noteTicks(plot, data)}${data.named ? endNames(plot, data) : nothing}
  </svg>`;
}

/**
 * @param {CurvesData} data
 * @returns {Plot}
 */
function plotOf(data) {
  const [left, right, top, low] = [40, data.width_px - (data.named ? 84 : 20), data.notes.length > 0 ? 34 : 10, data.height_px - 21];
  const levels = data.curves.flatMap((curve) => inside(curve, data).map(([, db]) => db));
  const most_db = Math.ceil((Math.max(...levels) + 1) / STEP_DB) * STEP_DB;
  const least_db = Math.max(most_db - DEEPEST_DB, Math.floor((Math.min(...levels) - 1) / STEP_DB) * STEP_DB);
  return {
    left, right, top, low, least_db, most_db,
    x: scaleLog().domain([data.from_hz, data.to_hz]).range([left, right]),
    y: scaleLinear().domain([least_db, most_db]).range([low, top]).clamp(true),
  };
}

/**
 * The points of a curve that are drawn, cut at the last frequency.
 * @param {Curve} curve
 * @param {CurvesData} data
 * @returns {[number, number][]}
 */
function inside({ frequency_hz, level_db }, { from_hz, to_hz }) {
  const points = Array.from(frequency_hz, (hz, index) => /** @type {[number, number]} */ ([hz, level_db[index]]))
    .filter(([hz, db]) => hz >= from_hz && Number.isFinite(db));
  const beyond = points.findIndex(([hz]) => hz > to_hz);
  if (beyond < 1) return beyond === 0 ? [] : points;
  const [[a_hz, a_db], [b_hz, b_db]] = [points[beyond - 1], points[beyond]];
  const share = Math.log(to_hz / a_hz) / Math.log(b_hz / a_hz);
  return [...points.slice(0, beyond), [to_hz, a_db + share * (b_db - a_db)]];
}

/**
 * @param {Plot} plot
 * @param {Curve} curve
 * @param {CurvesData} data
 */
function pathOf(plot, curve, data) {
  return inside(curve, data).map(([hz, db], index) => `${index === 0 ? "M" : "L"}${plot.x(hz).toFixed(1)} ${plot.y(db).toFixed(1)}`).join("");
}

/**
 * @param {Plot} plot
 * @param {CurvesData} data
 */
function axes({ left, right, top, low, x, y, least_db, most_db }, { from_hz, to_hz, named }) {
  const first = Math.ceil(least_db / STEP_DB) * STEP_DB;
  const levels = Array.from({ length: Math.floor((most_db - first) / STEP_DB) + 1 }, (_, index) => first + index * STEP_DB);
  const hertz = apart(TICKS_HZ.filter((hz) => hz >= from_hz && hz <= to_hz), x, 30);
  return svg`${levels.map((db) => svg`<path class="grid" d="M${left} ${y(db).toFixed(1)}H${right}" />
      <text class="ax" x=${left - 7} y=${(y(db) + 4).toFixed(1)} text-anchor="end">${number(db)}${db === levels.at(-1) ? "\u202fdB" : ""}</text>`)}
    <path class="base" d="M${left} ${low}H${right}" />
    ${hertz.map((hz) => svg`<path class="grid" d="M${x(hz).toFixed(1)} ${top}V${low}" />
      <text class="ax" x=${x(hz).toFixed(1)} y=${low + 16} text-anchor="middle">${bandLabel(hz)}</text>`)}
    ${named ? svg`<text class="ax" x=${right + 14} y=${low + 16}>Hz</text>` : nothing}`;
}

/**
 * Those ticks that leave room for each other.
 * @param {number[]} hertz
 * @param {(hz: number) => number} x
 * @param {number} least_px
 */
function apart(hertz, x, least_px) {
  /** @type {number[]} */
  const kept = [];
  for (const hz of hertz) {
    const last = kept.at(-1);
    if (last === undefined || x(hz) - x(last) >= least_px) kept.push(hz);
  }
  return kept;
}

/**
 * @param {Plot} plot
 * @param {number|null} stops_at_hz
 */
function stop(plot, stops_at_hz) {
  if (stops_at_hz === null || !Number.isFinite(stops_at_hz)) return nothing;
  const x = plot.x(stops_at_hz);
  if (!(x > plot.left && x < plot.right)) return nothing;
  const before = x + 110 > plot.right;
  return svg`<path class="limit dashy" d="M${x.toFixed(1)} ${plot.top}V${plot.low}" />
    <text class="ax halo" x=${(x + (before ? -5 : 5)).toFixed(1)} y=${plot.low - 6} text-anchor=${before ? "end" : "start"}>notes up to ${frequency(stops_at_hz)}</text>`;
}

/**
 * A tick for every note; a name for the weightiest that do not stand in each other's way.
 * @param {Plot} plot
 * @param {CurvesData} data
 */
function noteTicks(plot, { notes, from_hz, to_hz }) {
  const here = notes.filter(({ frequency_hz }) => frequency_hz >= from_hz && frequency_hz <= to_hz);
  if (here.length === 0) return nothing;
  const named = namedNotes(here, plot.x);
  const faint = here.filter((note) => !named.includes(note)).map(({ frequency_hz }) => `M${plot.x(frequency_hz).toFixed(1)} ${plot.top - 8}v8`).join("");
  return svg`<path class="note-tick" d=${faint} />
    ${named.map(({ frequency_hz }) => svg`<path class="note-tick is-named" d="M${plot.x(frequency_hz).toFixed(1)} ${plot.top - 13}V${plot.low}" />
      <text class="lab" x=${plot.x(frequency_hz).toFixed(1)} y=${plot.top - 17} text-anchor="middle">${number(frequency_hz)}</text>`)}`;
}

/** The weightiest notes first, as many as can be named side by side. */
const MOST_NAMED = 8;

/**
 * @template {{frequency_hz: number, weight: number}} N
 * @param {N[]} notes
 * @param {(hz: number) => number} x
 * @returns {N[]}
 */
export function namedNotes(notes, x) {
  /** @type {N[]} */
  const named = [];
  for (const note of [...notes].sort((a, b) => b.weight - a.weight)) {
    if (named.length < MOST_NAMED && named.every((other) => Math.abs(x(other.frequency_hz) - x(note.frequency_hz)) >= NOTE_PX)) named.push(note);
  }
  return named;
}

/**
 * Names at the right end, kept apart.
 * @param {Plot} plot
 * @param {CurvesData} data
 */
function endNames(plot, data) {
  let free = plot.top - 20;
  return data.curves.map((curve) => ({ curve, y: plot.y(inside(curve, data).at(-1)?.[1] ?? plot.least_db) }))
    .sort((a, b) => a.y - b.y)
    .map(({ curve, y }) => {
      free = Math.max(free + 14, y + 4);
      return svg`<text class="ax strong" x=${plot.right + 6} y=${Math.min(free, plot.low).toFixed(1)}>${curve.name}</text>`;
    });
}
