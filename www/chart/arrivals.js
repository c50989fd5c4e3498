/**
 * Bounces against time: one stem for each, as late as it comes and as strong as it is, with the sign of its loudspeaker.
 */
import { nothing, scaleLinear, svg } from "../vendor.js";
import { number } from "../model/format.js";

/**
 * @typedef {{loudspeaker: number, delay_ms: number, level_db: number, name: string, second: boolean}} Arrival
 * @typedef {object} ArrivalsData
 * @property {Arrival[]} arrivals
 * @property {number} width_px
 * @property {number} height_px
 */

const LEFT_PX = 40;
const TOP_PX = 22;
const LOW_PX = 34;
const DEEPEST_DB = -30;
/** Width of a letter of the names, about, px. */
const LETTER_PX = 6.1;

/** @param {ArrivalsData} data */
export function arrivalsChart({ arrivals, width_px, height_px }) {
  const drawn = arrivals.filter(({ level_db }) => level_db > DEEPEST_DB);
  const last_ms = Math.max(5, ...drawn.map(({ delay_ms }) => delay_ms));
  const x = scaleLinear().domain([0, last_ms]).nice().range([LEFT_PX, width_px - 16]);
  const y = scaleLinear().domain([DEEPEST_DB, 0]).range([height_px - LOW_PX, TOP_PX]);
  return svg`<svg class="chart arrivals" viewBox="0 0 ${width_px} ${height_px}" width=${width_px} height=${height_px} role="img"
    aria-label="Bounces over the time after the direct sound; the tables have the figures">
    ${axes(x, y, width_px, height_px)}<g>${drawn.map((one) => stem(one, x, y))}</g>${names(drawn, x, y)}</svg>`;
}

/**
 * @param {import("d3-scale").ScaleLinear<number, number>} x
 * @param {import("d3-scale").ScaleLinear<number, number>} y
 * @param {number} width_px
 * @param {number} height_px
 */
function axes(x, y, width_px, height_px) {
  const low = height_px - LOW_PX;
  return svg`${y.ticks(3).map((db) => svg`<path class="grid" d="M${LEFT_PX} ${px(y(db))}H${width_px - 16}" />
      <text class="ax" x=${LEFT_PX - 7} y=${px(y(db) + 4)} text-anchor="end">${number(db)}${db === 0 ? "\u202fdB" : ""}</text>`)}
    <path class="base" d="M${LEFT_PX} ${low}H${width_px - 16}" />
    ${x.ticks(Math.min(8, width_px / 70)).map((ms) => svg`<path class="thin" d="M${px(x(ms))} ${low}v4" />
      <text class="ax" x=${px(x(ms))} y=${low + 16} text-anchor="middle">${number(ms)}</text>`)}
    <text class="ax" x=${width_px - 16} y=${height_px - 3} text-anchor="end">milliseconds after the direct sound</text>
    <path class="direct-stem" d="M${LEFT_PX} ${low}V${TOP_PX}" /><text class="ax strong halo" x=${LEFT_PX + 5} y=${TOP_PX - 8}>direct sound, 0 dB</text>`;
}

/**
 * @param {Arrival} one
 * @param {(ms: number) => number} x
 * @param {(db: number) => number} y
 */
function stem({ loudspeaker, delay_ms, level_db, second }, x, y) {
  const r = second ? 2.6 : 4.4;
  return svg`<g transform="translate(${px(x(delay_ms))} ${px(y(level_db))})" class="arrival ${second ? "is-second" : ""}">
    <path class="stem ${loudspeaker === 0 ? "" : "dash"}" d="M0 0V${px(y(DEEPEST_DB) - y(level_db))}" />
    ${loudspeaker === 0 ? svg`<circle r=${r} />` : svg`<path d="M0 ${-r - 0.8}l${r + 0.8} ${r + 0.8}l${-r - 0.8} ${r + 0.8}l${-r - 0.8} ${-r - 0.8}z" />`}</g>`;
}

/**
 * The first bounces by name, as long as they do not write over each other.
 * @param {Arrival[]} arrivals
 * @param {(ms: number) => number} x
 * @param {(db: number) => number} y
 */
function names(arrivals, x, y) {
  /** @type {{from: number, to: number, y: number}[]} */
  const taken = [];
  return [...arrivals].filter(({ second }) => !second).sort((a, b) => b.level_db - a.level_db).map(({ delay_ms, level_db, name }) => {
    const [at, height] = [x(delay_ms) + 7, y(level_db) - 3];
    const place = { from: at, to: at + name.length * LETTER_PX, y: height };
    if (taken.some((one) => place.from < one.to && one.from < place.to && Math.abs(one.y - height) < 13)) return nothing;
    taken.push(place);
    return svg`<text class="ax strong halo" x=${px(at)} y=${px(height)}>${name}</text>`;
  });
}

/** @param {number} value */
function px(value) {
  return Math.round(value * 10) / 10;
}
