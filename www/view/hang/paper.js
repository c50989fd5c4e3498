/**
 * What all pages of the Hang sheet share: lengths without a unit, the check bar, the hatches in black.
 *
 * @import { HangItem } from "../../model/hang.js"
 * @import { Units } from "../../model/format.js"
 */
import { html, svg } from "../../vendor.js";
import { length, number } from "../../model/format.js";
import { pieceHatches } from "../patterns.js";

/**
 * On the sheet metres go without saying; to 1 cm or 1/8 inch.
 * @param {number} value_m
 * @param {Units} units
 */
export function measure(value_m, units) {
  return units === "imperial" ? length(value_m, units) : number(value_m, 2);
}

/**
 * Width by height.
 * @param {{width_m: number, height_m: number}} size
 * @param {Units} units
 */
export function bySize({ width_m, height_m }, units) {
  return `${measure(width_m, units)} × ${measure(height_m, units)}`;
}

/** Of pieces in a sentence, where nobody sees how they hang. @param {HangItem[]} items */
export function numbersOf(items) {
  return items.map(({ index }) => index + 1).sort((a, b) => a - b).join(", ");
}

/** Printers scale as they like. */
export const checkBar = html`<figure class="check-bar"><svg viewBox="0 0 100 4" aria-hidden="true">
    <path d="M.15 0V4M25 .8V3.2M50 .4V3.6M75 .8V3.2M99.85 0V4M0 2H100" /></svg>
  <figcaption>100 mm: measure me; trust the written numbers.</figcaption></figure>`;

/** The hatches of the page stand in a part that does not print. */
export const paperPatterns = html`<svg class="defs" width="0" height="0" aria-hidden="true"><defs>${pieceHatches("p")}
  ${svg`<pattern id="p-keep" width="6" height="6" patternUnits="userSpaceOnUse"><path class="pk" d="M-1 7L7 -1M-1 1L1 -1M5 7L7 5" /></pattern>`}</defs></svg>`;

/** A box to tick. */
export const tickBox = html`<i class="tick-box"></i>`;
