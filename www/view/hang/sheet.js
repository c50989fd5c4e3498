/**
 * The Hang sheet: a front page, a page for each surface that carries something, and what to mind and to check; what is too
 * long for one sheet of paper goes on on the next. On the screen it is a preview, on paper it is all there is. It is loaded
 * when it is wanted.
 *
 * @import { Scene } from "../scene.js"
 * @import { Around } from "../hang.js"
 * @import { Section, Shared } from "./blocks.js"
 */
import { html, nothing, render } from "../../vendor.js";
import { surfacesToHang } from "../../model/hang.js";
import { partsCsv } from "../../model/parts_csv.js";
import { fileName } from "../../model/files.js";
import { planLabel } from "../../model/words.js";
import { drawBlock, shared, unshared } from "./blocks.js";
import { bouncePage } from "./bounces.js";
import { frontPage } from "./front.js";
import { lastPage } from "./last.js";
import { paperPatterns } from "./paper.js";
import { loadSquares } from "./square.js";
import { surfacePage } from "./surface.js";

await loadSquares();

/** No count of sheets takes more room in the head. */
const LONGEST_COUNT = "sheet 99 of 99";
/** Highest that a surface is drawn: lower where that saves a sheet. */
const HIGH_PX = Object.freeze([240, 180, 120]);

/**
 * @param {HTMLElement} container
 * @param {Scene} scene
 * @param {Around} around
 */
export function drawSheet(container, scene, around) {
  render(sheet(scene, around, (forms) => shared(forms, (title) => top(scene, around, LONGEST_COUNT, goesOn(title)))), container);
}

/**
 * @param {Scene} scene
 * @param {Around} around
 * @param {(forms: Section[][]) => Shared[]} share  says what stands on which sheet
 */
export function sheet(scene, around, share = unshared) {
  const surfaces = surfacesToHang(scene.document, scene.state.shown);
  const forms = [
    [frontPage(scene, surfaces)],
    ...(surfaces.length > 0 ? surfaces.map((one) => HIGH_PX.map((high_px) => surfacePage(scene, one, high_px))) : [[bouncePage(scene)]]),
    [lastPage(scene, around)],
  ];
  const pages = share(forms).flatMap(({ title, blocks, sheets }) => sheets.map((stretches, index) => ({ title: index === 0 ? title : goesOn(title), blocks, stretches })));
  // A sheet is wider than a narrow screen: keys scroll what has the focus.
  return html`${bar(scene, around)}${paperPatterns}
    ${pages.map(({ title, blocks, stretches }, index) => html`<article class="paper" tabindex="0" aria-label="Sheet ${index + 1} of ${pages.length}">
      ${top(scene, around, `sheet ${index + 1} of ${pages.length}`, title)}${stretches.map(({ block, from, to }) => drawBlock(blocks[block], from, to))}</article>`)}`;
}

/**
 * Only on the screen.
 * @param {Scene} scene
 * @param {Around} around
 */
function bar({ document, plan, commands }, { close, print }) {
  const name = fileName(document).replace(/\.json$/, "-parts.csv");
  return html`<nav class="hang-bar" aria-label="Hang sheet"><button type="button" class="do" @click=${close}>Back to the room</button>
    <button type="button" @click=${print}>Print</button>
    ${plan.pieces.length > 0 ? html`<button type="button" @click=${() => commands.saveText(partsCsv(document, plan), name, "text/csv")}>Save the parts as a table</button>` : nothing}
    <p class="also">This is what prints, on A4 or Letter paper. Trust the written numbers, not the scale.</p></nav>`;
}

/**
 * @param {Scene} scene
 * @param {Around} around
 * @param {string} count
 * @param {string} title
 */
function top({ document, plan }, { date }, count, title) {
  const day = date.toLocaleDateString("en-GB", { day: "numeric", month: "long", year: "numeric" });
  return html`<header class="paper-head"><b class="word">Seatward</b><span>${document.title}, ${planLabel(plan.name)}</span><span>${day}</span>
    <span class="count">${count}</span></header><h1>${title}</h1>`;
}

/** On every sheet of a section but its first. @param {string} title */
function goesOn(title) {
  return `${title}, continued`;
}
