/**
 * What the page says when the core cannot run: what failed, and where it would work.
 */
import { html } from "../vendor.js";

/** @param {unknown} error */
export function missingPage(error) {
  const reason = error instanceof Error ? error.message : String(error);
  const hasModule = typeof WebAssembly === "object";
  return html`<main class="missing"><p class="word">Seatward</p><h1>The part that computes could not be started.</h1>
    <p>${hasModule ? "The page loaded, but its module did not: a blocked download, a lost connection or a browser that is too old."
      : "This browser does not run WebAssembly, which the computation needs; a strict protection setting can switch it off."}</p>
    <p>It works in Firefox 121, Chrome or Edge 120, Safari 17.4 and newer, on a desktop or a phone. Your own draft is untouched.</p>
    <p class="also">What failed: ${reason}</p></main>`;
}
