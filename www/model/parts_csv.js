// The parts of a plan as comma-separated values, for a spreadsheet: plain text, whatever the names hold.

/** @import { Plan, Scenario } from "./types.js" */
import { number } from "./format.js";
import { kindDepth } from "./kinds.js";
import { partsOf } from "./money.js";

const HEADS = Object.freeze(["count", "pieces", "kind", "width_m", "height_m", "depth_m", "mass_kg_each", "price_each", "price_total", "currency"]);

/** One line for each kind; numbers with a point, lengths in metres. @param {Scenario} document @param {Plan} plan @returns {string} */
export function partsCsv(document, plan) {
  const rows = partsOf(document, plan).map(({ kind, indices, price, total, mass_kg }) => [
    String(indices.length), indices.map((index) => index + 1).join(" "), kind.name, metres(kind.width_m), metres(kind.height_m),
    metres(kindDepth(kind)), plain(mass_kg), plain(price), plain(total), document.currency ?? "",
  ]);
  return [HEADS, ...rows].map((row) => `${row.map(cell).join(",")}\r\n`).join("");
}

/** @param {number} value_m @returns {string} */
function metres(value_m) {
  return number(value_m, 4).replace(/\.?0+$/, "");
}

/** @param {number|null} value @returns {string} */
function plain(value) {
  return value === null ? "" : String(value);
}

/**
 * A spreadsheet takes a cell that begins with one of these for a formula, so that it would run what a name says.
 * @param {string} text @returns {string}
 */
export function cell(text) {
  const safe = /^[\s]*[=+\-@\t\r]/.test(text) ? `'${text}` : text;
  return /[",\r\n']|^\s|\s$/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
