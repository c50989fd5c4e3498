/**
 * Bounces that meet a window, each with what could be done instead of a panel, the best first.
 *
 * @import { Advice, WindowWay } from "../model/advice_types.js"
 * @import { Scene } from "./scene.js"
 */
import { html, nothing } from "../vendor.js";
import { loudAtWindows, wayWords, windowWords } from "../model/window_words.js";
import { isReadOnly } from "./scene.js";

/**
 * @param {Scene} scene
 * @param {Advice} advice
 */
export function windowsPart(scene, advice) {
  const { document, plan, found, about } = advice;
  const bounces = found.windows && about ? loudAtWindows(found.windows.bounces, about.objective.figures) : [];
  if (bounces.length === 0) return nothing;
  const base = document.plans[plan];
  const take = (/** @type {WindowWay} */ { piece, kind, listening }) => {
    const to = listening ?? base.listening;
    scene.dispatch({ type: "take-advice", plans: [{ pieces: [...base.pieces, ...(piece ? [piece] : [])], ...(to && { listening: to }) }], ...(kind && { kinds: [kind] }) });
  };
  const opens = (/** @type {WindowWay} */ way) => !isReadOnly(scene) && (way.piece !== null || way.listening !== null);
  return html`<h3>Where a bounce meets a window</h3>${bounces.map((bounce) => html`<p class="says">${windowWords(bounce)}</p>
    <ol class="says">${bounce.ways.map((way) => html`<li>${wayWords(way, bounce, document, about?.stand_ins ?? [], scene.state.units)} ${opens(way) ? html`<button type="button" @click=${() => take(way)}>Open as a plan</button>` : nothing}</li>`)}</ol>`)}`;
}
