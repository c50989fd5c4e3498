/**
 * One piece of each size with its suggested fixing marks.
 *
 * @import { HangItem } from "../../model/hang.js"
 * @import { Scene } from "../scene.js"
 */
import { html, nothing, svg } from "../../vendor.js";
import { hangSize } from "../../model/hang.js";
import { patternOf } from "../patterns.js";
import { body } from "../piece.js";
import { measure, numbersOf } from "./paper.js";

/** Room for the drawing of one piece, px. */
const WIDE_PX = 150;
const HIGH_PX = 100;
/** At most so many sizes are drawn; the table has the marks of all. */
const MOST_FIGURES = 2;

/**
 * @param {Scene} scene
 * @param {HangItem[]} items
 */
export function fixingFigures({ state: { units } }, items) {
  const fixed = items.filter(({ fixings }) => fixings.length > 0);
  /** @type {Map<string, HangItem[]>} */
  const sizes = new Map();
  for (const item of fixed) {
    const { width_m, height_m } = hangSize(item);
    const key = `${item.how} ${width_m} ${height_m}`;
    sizes.set(key, [...(sizes.get(key) ?? []), item]);
  }
  if (sizes.size === 0) return nothing;
  return html`<div class="fixing-figures">${[...sizes.values()].slice(0, MOST_FIGURES).map((alike) => figure(alike, units))}
    ${fixed.some(({ how }) => how === "overhead") ? html`<p>Overhead, a second hold beside them.</p>` : nothing}</div>`;
}

/**
 * @param {HangItem[]} alike
 * @param {"metric"|"imperial"} units
 */
function figure(alike, units) {
  const [{ kind, piece, rect, fixings, how }] = alike;
  const scale = Math.min(WIDE_PX / rect.width_m, HIGH_PX / rect.height_m);
  const [width, height] = [rect.width_m * scale, rect.height_m * scale];
  const top_m = rect.v_m + rect.height_m;
  const spots = fixings.map(({ u_m, v_m }) => ({ x: 2 + (u_m - rect.u_m) * scale, y: 8 + (top_m - v_m) * scale }));
  const side_m = Math.min(fixings[0].u_m - rect.u_m, rect.u_m + rect.width_m - fixings[0].u_m);
  const below_m = top_m - fixings[0].v_m;
  const inset = how === "corner" ? `on both walls, ${measure(side_m, units)} inside of the outer edge, ${measure(below_m, units)} from each end`
    : how === "overhead" ? `${measure(side_m, units)} from each side, ${measure(Math.min(below_m, fixings[0].v_m - rect.v_m), units)} from each end`
    : `${measure(side_m, units)} from each side${below_m > 0.001 ? `, ${measure(below_m, units)} below the top` : ", along the top"}`;
  return html`<figure><svg class="elevation" viewBox="0 0 ${width + 4} ${height + 12}" width=${width + 4} height=${height + 12} aria-hidden="true">
      <g class="piece">${body({ x: 2, y: 8, width, height }, patternOf(kind, piece.surface, piece.place), { set: "p" })}</g>
      ${spots.map(({ x, y }) => svg`<circle class="tag" cx=${x} cy=${y} r="5" /><path class="fixing" d="M${x - 6} ${y}h12M${x} ${y - 6}v12" />`)}</svg>
    <figcaption>Suggested marks, ${measure(rect.width_m, units)} × ${measure(rect.height_m, units)}, No ${numbersOf(alike)}: ${inset}</figcaption></figure>`;
}
