/**
 * Running measures round an elevation: near edges and centres along it, lower edges and centres beside it, all from the named
 * corner. What finds no room stands in the table only.
 *
 * @import { HangItem } from "../../model/hang.js"
 * @import { Units } from "../../model/format.js"
 * @import { Face } from "../fold.js"
 * @import { Box } from "../draw.js"
 * @typedef {{value_m: number, text: string}} Label
 */
import { svg } from "../../vendor.js";
import { at, px } from "../draw.js";
import { measure } from "./paper.js";

const ROW_PX = 15;
const MOST_ROWS = 3;
/** Width of a figure, about, px: of each letter, and round it. */
const LETTER_PX = 7;
const ROUND_PX = 6;

/**
 * @param {Face} face
 * @param {Box} box   what is drawn of it
 * @param {HangItem[]} items
 * @param {{from_m: number, to_m: number}} span
 * @param {Units} units
 * @returns {{drawing: unknown, height_px: number}}
 */
export function runningMeasures(face, box, items, span, units) {
  const inside = (/** @type {Label} */ { value_m }) => value_m >= span.from_m - 1e-6 && value_m <= span.to_m + 1e-6;
  const edges = distinct(items.map(({ edge_m }) => edge_m), units).filter(inside);
  const centres = distinct(items.map(({ centre_m }) => centre_m), units).filter(inside);
  const top = box.y + box.height + 16;
  const first = row(face, box, edges, top, "near edge", "edge");
  const second = row(face, box, centres, first.end + 10, "centre", "centre");
  return {
    drawing: svg`${leaders(face, box, items, edges, top)}${first.drawing}${second.drawing}${beside(face, box, items, units)}`,
    height_px: second.end - box.y - box.height + 18,
  };
}

/**
 * @param {number[]} values_m
 * @param {Units} units
 * @returns {Label[]}
 */
function distinct(values_m, units) {
  const sorted = values_m.toSorted((a, b) => a - b);
  return sorted.map((value_m) => ({ value_m, text: measure(value_m, units) })).filter((one, index, all) => one.text !== all[index - 1]?.text);
}

/**
 * A line along the surface with a tick at each figure; figures that would touch go one row lower.
 * @param {Face} face
 * @param {Box} box
 * @param {Label[]} labels
 * @param {number} y
 * @param {string} name
 * @param {"edge"|"centre"} look
 */
function row(face, box, labels, y, name, look) {
  const corner = face.ux < 0 ? box.x + box.width : box.x;
  const far = labels.length > 0 ? at(face, labels[labels.length - 1].value_m, 0).x : corner;
  /** @type {number[]} */
  const ends = [];
  let rows = 1;
  const placed = labels.map((label) => ({ ...label, x: at(face, label.value_m, 0).x })).toSorted((a, b) => a.x - b.x).map((label) => {
    const half = (label.text.length * LETTER_PX + ROUND_PX) / 2;
    const free = Array.from({ length: MOST_ROWS }, (_, index) => index).find((index) => label.x - half >= (ends[index] ?? -Infinity));
    if (free === undefined) return svg`<path class="tick" d="M${px(label.x - 3)} ${y + 3}l6 -6" />`;
    ends[free] = label.x + half;
    rows = Math.max(rows, free + 1);
    return svg`<path class="tick" d="M${px(label.x - 3)} ${y + 3}l6 -6" /><text class="figure ${look}" x=${px(label.x)} y=${y + 15 + free * ROW_PX} text-anchor="middle">${label.text}</text>`;
  });
  const nameX = face.ux < 0 ? Math.min(far, box.x + box.width) - 8 : far + 8;
  return {
    drawing: svg`<path class="run" d="M${px(far)} ${y}H${px(corner)}" /><text class="row-name" x=${px(nameX)} y=${y + 4} text-anchor=${face.ux < 0 ? "end" : "start"}>${name}</text>${placed}`,
    end: y + rows * ROW_PX + 4,
  };
}

/**
 * From the near edges down to their line.
 * @param {Face} face
 * @param {Box} box
 * @param {HangItem[]} items
 * @param {Label[]} edges
 * @param {number} y
 */
function leaders(face, box, items, edges, y) {
  return edges.map(({ value_m }) => {
    const lowest = items.filter(({ edge_m }) => Math.abs(edge_m - value_m) < 0.005).map(({ rect }) => Math.max(at(face, 0, rect.v_m).y, at(face, 0, rect.v_m + rect.height_m).y));
    const x = at(face, value_m, 0).x;
    return svg`<path class="leader" d="M${x} ${Math.min(...lowest, box.y + box.height)}V${y}" />`;
  });
}

/**
 * Lower edges bold, centres light, at the side of the corner.
 * @param {Face} face
 * @param {Box} box
 * @param {HangItem[]} items
 * @param {Units} units
 */
function beside(face, box, items, units) {
  const side = face.ux < 0 ? 1 : -1;
  const x = side > 0 ? box.x + box.width : box.x;
  const lows = distinct(items.map(({ low_m }) => low_m), units).map((label) => ({ ...label, look: "edge" }));
  const centres = distinct(items.map(({ middle_m }) => middle_m), units).map((label) => ({ ...label, look: "centre" }));
  const all = [...lows, ...centres].map((label) => ({ ...label, y: at(face, 0, label.value_m).y })).toSorted((a, b) => a.y - b.y);
  const places = apart(all.map(({ y }) => y), box);
  return svg`<path class="run" d="M${x} ${box.y}V${box.y + box.height}" />${all.map((label, index) => (places[index] === null ? "" : svg`
    <path class="tick" d="M${x} ${label.y}h${side * 8}L${x + side * 14} ${places[index]}" />
    <text class="figure ${label.look}" x=${x + side * 17} y=${(places[index] ?? 0) + 4.5} text-anchor=${side > 0 ? "start" : "end"}>${label.text}</text>`))}`;
}

/**
 * Figures one under the other, kept apart; more than fit are left to the table.
 * @param {number[]} wanted  sorted
 * @param {Box} box
 * @returns {(number|null)[]}
 */
function apart(wanted, box) {
  const most = Math.floor(box.height / ROW_PX) + 1;
  /** @type {number[]} */
  const places = [];
  let last = box.y - ROW_PX;
  for (const y of wanted.slice(0, most)) {
    last = Math.max(y, last + ROW_PX);
    places.push(last);
  }
  for (let index = places.length - 1, limit = box.y + box.height + 6; index >= 0; index -= 1, limit -= ROW_PX) places[index] = Math.min(places[index], limit);
  return wanted.map((_, index) => places[index] ?? null);
}
