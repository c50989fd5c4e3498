/**
 * The bass over the floor at ear height: cells from pale (quiet) to dark (loud) in steps of 3 dB beside their average, with
 * the seat and the loudspeakers where they stand.
 */
import { nothing, svg } from "../vendor.js";
import { number } from "../model/format.js";

/**
 * @typedef {object} BassMapData
 * @property {ArrayLike<number>} x_m       places from the left wall
 * @property {ArrayLike<number>} y_m       places from the front wall
 * @property {ArrayLike<number>} level_db  of one layer; x runs fastest
 * @property {{width_m: number, length_m: number}} room
 * @property {{x_m: number, y_m: number}|undefined} seat
 * @property {{x_m: number, y_m: number}[]} loudspeakers
 * @property {number} width_px   widest it may be
 * @property {number} height_px  highest it may be
 *
 * @typedef {(x_m: number, y_m: number) => {x: number, y: number}} Place  px
 */

/** Borders of the steps, dB beside the average over the floor. */
const STEPS_DB = [-9, -6, -3, 0, 3, 6];
const TOP_PX = 16;
const KEY_PX = 38;

/**
 * @typedef {Pick<BassMapData, "room"|"width_px"|"height_px">} Frame
 * @param {Frame} frame
 */
function floorOf({ room, width_px, height_px }) {
  const lying = room.length_m > room.width_m;
  const [across_m, down_m] = lying ? [room.length_m, room.width_m] : [room.width_m, room.length_m];
  const scale = Math.min((width_px - 2) / across_m, height_px / down_m);
  return { lying, scale, width: across_m * scale, height: down_m * scale };
}

/** How high the whole map stands, px. @param {Frame} frame @returns {number} */
export function bassMapHeight(frame) {
  return px(TOP_PX + floorOf(frame).height + KEY_PX);
}

/** @param {BassMapData} data */
export function bassMap(data) {
  const { room } = data;
  const { lying, scale, width, height } = floorOf(data);
  /** @type {Place} */
  const place = (x_m, y_m) => (lying ? { x: 1 + y_m * scale, y: TOP_PX + (room.width_m - x_m) * scale } : { x: 1 + x_m * scale, y: TOP_PX + y_m * scale });
  const levels = besideAverage(data.level_db);
  const total = bassMapHeight(data);
  return svg`<svg class="chart bassmap" viewBox="0 0 ${data.width_px} ${total}" width=${data.width_px} height=${total} role="img"
    aria-label="Bass level over the floor at ear height; darker is louder">
    <text class="ax" x="1" y="11">${lying ? "front wall" : "front wall, at the top"}</text>
    <rect class="level-0" x="1" y=${TOP_PX} width=${px(width)} height=${px(height)} />
    <g class="cells">${cellPaths(data, levels, place)}</g>
    <rect class="rim" x="1" y=${TOP_PX} width=${px(width)} height=${px(height)} />
    ${data.loudspeakers.map((one, index) => loudspeaker(place(one.x_m, one.y_m), index))}
    ${data.seat ? seat(data, data.seat, levels, place(data.seat.x_m, data.seat.y_m), width) : nothing}
    ${key(TOP_PX + height + 10, data.width_px)}
  </svg>`;
}

/** Levels beside the mean energy over the floor, dB. @param {ArrayLike<number>} levels_db @returns {number[]} */
export function besideAverage(levels_db) {
  const values = Array.from(levels_db);
  const mean = values.reduce((sum, level) => sum + 10 ** (level / 10), 0) / values.length;
  const mean_db = 10 * Math.log10(mean);
  return values.map((level) => level - mean_db);
}

/** @param {number} level_db @returns {number} 0 … 6 */
export function stepOf(level_db) {
  return STEPS_DB.filter((border) => level_db >= border).length;
}

/**
 * One path for each step: rows of cells of one step are drawn as one strip.
 * @param {BassMapData} data
 * @param {number[]} levels
 * @param {Place} place
 */
function cellPaths({ x_m, y_m, room }, levels, place) {
  const paths = Array.from({ length: STEPS_DB.length + 1 }, () => "");
  const [xs, ys] = [borders(x_m, room.width_m), borders(y_m, room.length_m)];
  for (let row = 0; row < y_m.length; row += 1) {
    const steps = levels.slice(row * x_m.length, (row + 1) * x_m.length).map(stepOf);
    for (let from = 0, to = 1; from < steps.length; from = to, to += 1) {
      while (to < steps.length && steps[to] === steps[from]) to += 1;
      paths[steps[from]] += strip(place(xs[from], ys[row]), place(xs[to], ys[row + 1]));
    }
  }
  return paths.map((path, step) => (path && step > 0 ? svg`<path class="level-${step}" d=${path} />` : nothing));
}

/**
 * Cells reach half way to their neighbours, and to the walls.
 * @param {ArrayLike<number>} places
 * @param {number} end
 * @returns {number[]} one more than there are places
 */
function borders(places, end) {
  return [0, ...Array.from(places).slice(1).map((place, index) => (place + places[index]) / 2), end];
}

/**
 * @param {{x: number, y: number}} a
 * @param {{x: number, y: number}} b
 */
function strip(a, b) {
  return `M${px(a.x)} ${px(a.y)}H${px(b.x)}V${px(b.y)}H${px(a.x)}z`;
}

/**
 * @param {{x: number, y: number}} spot
 * @param {number} index
 */
function loudspeaker({ x, y }, index) {
  return svg`<g class="mark" transform="translate(${px(x)} ${px(y)})">${
    index === 0 ? svg`<circle r="5.2" />` : svg`<path d="M0 -6.2l6.2 6.2l-6.2 6.2l-6.2 -6.2z" />`}</g>`;
}

/**
 * The seat with its own level, in a blank beside it.
 * @param {BassMapData} data
 * @param {{x_m: number, y_m: number}} where
 * @param {number[]} levels
 * @param {{x: number, y: number}} spot
 * @param {number} width
 */
function seat({ x_m, y_m }, where, levels, { x, y }, width) {
  const level = levels[nearest(y_m, where.y_m) * x_m.length + nearest(x_m, where.x_m)];
  const text = `seat ${level > 0 ? "+" : ""}${number(level)}\u202fdB`;
  const before = x + 92 > width;
  return svg`<g transform="translate(${px(x)} ${px(y)})"><circle class="seat-spot" r="6.5" /><circle class="seat-dot" r="2.2" />
    <rect class="bg-sheet" x=${before ? -84 : 11} y="-9" width="73" height="18" />
    <text class="lab" x=${before ? -47 : 47} y="4.5" text-anchor="middle">${text}</text></g>`;
}

/**
 * @param {ArrayLike<number>} places
 * @param {number} value
 */
function nearest(places, value) {
  let best = 0;
  for (let index = 1; index < places.length; index += 1) {
    if (Math.abs(places[index] - value) < Math.abs(places[best] - value)) best = index;
  }
  return best;
}

/**
 * The steps with the figures at their borders.
 * @param {number} y
 * @param {number} width_px
 */
function key(y, width_px) {
  const step = Math.min(40, (width_px - 66) / (STEPS_DB.length + 1));
  return svg`<g>${Array.from({ length: STEPS_DB.length + 1 }, (_, index) => svg`<rect class="swatch level-${index}" x=${px(1 + index * step)} y=${y} width=${px(step)} height="11" />`)}
    ${STEPS_DB.map((border, index) => svg`<text class="ax" x=${px(1 + (index + 1) * step)} y=${y + 25} text-anchor="middle">${border > 0 ? "+" : ""}${number(border)}</text>`)}
    <text class="ax" x=${px(9 + 7 * step)} y=${y + 10}>louder, dB</text></g>`;
}

/** @param {number} value */
function px(value) {
  return Math.round(value * 10) / 10;
}
