/**
 * The way to the pages that explain: they open beside this one, so that nothing in hand is lost.
 */
import { html } from "../vendor.js";
import { closeOnEscape, closeWhenLeft } from "./escape.js";

const PAGES = /** @type {const} */ ([
  ["how.html", "How it works and where it stops"], ["ask.html", "Short answers: neighbours, egg boxes, plants, equalisers"],
  ["ask.html#clap", "Clap and talk: is my room a problem?"], ["measure.html", "Measure your room, a page to print"],
]);

export function helpMenu() {
  return html`<details class="menu help" @keydown=${closeOnEscape} @focusout=${closeWhenLeft}><summary>Help</summary><div class="menu-body">${PAGES.map(([page, words]) => (
    html`<a href=${page} target="_blank" rel="noopener">${words}<span class="unseen"> (opens beside this page)</span></a>`))}</div></details>`;
}
