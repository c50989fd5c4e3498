/**
 * The Hang sheet: a front page, a page for each surface that carries something, and what to mind and to check. On the screen
 * it is a preview, on paper it is all there is. It is loaded when it is wanted.
 *
 * @import { Scene } from "../scene.js"
 * @import { Around } from "../hang.js"
 */
import { html, nothing, render } from "../../vendor.js";
import { surfacesToHang } from "../../model/hang.js";
import { partsCsv } from "../../model/parts_csv.js";
import { fileName } from "../../model/files.js";
import { planLabel } from "../../model/words.js";
import { bouncePage } from "./bounces.js";
import { frontPage } from "./front.js";
import { lastPage } from "./last.js";
import { paperPatterns } from "./paper.js";
import { loadSquares } from "./square.js";
import { surfacePage } from "./surface.js";

await loadSquares();

/**
 * @param {HTMLElement} container
 * @param {Scene} scene
 * @param {Around} around
 */
export function drawSheet(container, scene, around) {
  render(sheet(scene, around), container);
}

/**
 * @param {Scene} scene
 * @param {Around} around
 */
export function sheet(scene, around) {
  const surfaces = surfacesToHang(scene.document, scene.state.shown);
  const pages = [
    frontPage(scene, surfaces),
    ...(surfaces.length > 0 ? surfaces.map((one) => surfacePage(scene, one)) : [bouncePage(scene)]),
    lastPage(scene, around),
  ];
  // A sheet is wider than a narrow screen: keys scroll what has the focus.
  return html`${bar(scene, around)}${paperPatterns}
    ${pages.map((page, index) => html`<article class="paper" tabindex="0" aria-label="Sheet ${index + 1} of ${pages.length}">${head(scene, around, index + 1, pages.length)}${page}</article>`)}`;
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
 * @param {number} page
 * @param {number} pages
 */
function head({ document, plan }, { date }, page, pages) {
  const day = date.toLocaleDateString("en-GB", { day: "numeric", month: "long", year: "numeric" });
  return html`<header class="paper-head"><b class="word">Seatward</b><span>${document.title}, ${planLabel(plan.name)}</span><span>${day}</span>
    <span class="count">sheet ${page} of ${pages}</span></header>`;
}
