/**
 * What a section of the Hang sheet is made of, and how it is shared out between sheets that fit A4 and Letter paper. Heights
 * are measured where the browser lays the section out once, unseen, as wide as paper: only it knows how text wraps.
 *
 * @import { Stretch } from "../../model/paging.js"
 *
 * @typedef {object} Block  What stays together on one sheet, or rows of a table or a list that may go on on the next.
 * @property {number} rows
 * @property {(from: number, to: number) => unknown} draw
 *
 * @typedef {{title: string, blocks: Block[]}} Section
 * @typedef {Section & {sheets: Stretch[][]}} Shared
 */
import { html, nothing, render } from "../../vendor.js";
import { sheetsOfBlocks } from "../../model/paging.js";

/** Letter is the lower of the two: 11 in less the margins of the page are 965 px, and some stay free for rounding. */
const SHEET_PX = 945;

/** @param {unknown} content @returns {Block} */
export function whole(content) {
  return { rows: 1, draw: () => content };
}

/**
 * Rows of a table or points of a list inside of what draws them; nothing without any.
 * @template T
 * @param {T[]} rows
 * @param {(rows: T[]) => unknown} draw
 * @returns {Block[]}
 */
export function byRows(rows, draw) {
  return rows.length === 0 ? [] : [{ rows: rows.length, draw: (from, to) => draw(rows.slice(from, to)) }];
}

/** @param {Block} block @param {number} from @param {number} to */
export function drawBlock(block, from, to) {
  return html`<div class="block">${block.draw(from, to)}</div>`;
}

/** Each section on one sheet. @param {Section[][]} forms @returns {Shared[]} */
export function unshared(forms) {
  return forms.map(([section]) => ({ ...section, sheets: [section.blocks.map(({ rows }, block) => ({ block, from: 0, to: rows }))] }));
}

/**
 * Of the forms of each section the first that needs the fewest sheets.
 * @param {Section[][]} forms
 * @param {(title: string) => unknown} top  of a sheet, its tallest form
 * @returns {Shared[]}
 */
export function shared(forms, top) {
  const sheets = measured(forms.flat(), top);
  return forms.map((sections) => sections.map((section) => ({ ...section, sheets: sheets.shift() ?? [] })).reduce((best, one) => (one.sheets.length < best.sheets.length ? one : best)));
}

/**
 * @param {Section[]} sections
 * @param {(title: string) => unknown} top
 * @returns {Stretch[][][]} of each section, sheet by sheet
 */
function measured(sections, top) {
  const gauge = document.body.appendChild(Object.assign(document.createElement("div"), { className: "paper gauge" }));
  render(sections.map(({ title, blocks }) => html`<section><div class="block">${top(title)}</div>${blocks.map((block) => drawBlock(block, 0, block.rows))}</section>`), gauge);
  const sheets = [...gauge.children].map(({ children: [head, ...blocks] }) => sheetsOfBlocks(blocks.map(heightOf), SHEET_PX - head.getBoundingClientRect().height));
  render(nothing, gauge);
  gauge.remove();
  return sheets;
}

/** @param {Element} block */
function heightOf(block) {
  const { top, bottom } = block.getBoundingClientRect();
  const tops = [...block.querySelectorAll("tbody > tr, li")].map((row) => row.getBoundingClientRect().top);
  if (tops.length === 0) tops.push(top);
  return { before_px: tops[0] - top, rows_px: tops.map((row, index) => (tops[index + 1] ?? bottom) - row) };
}
