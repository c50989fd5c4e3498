/**
 * The place of the check-up: a fold that is loaded when it is opened, with a line on what is in it.
 *
 * @import { Scene } from "./scene.js"
 */
import { guard, html, nothing } from "../vendor.js";
import { count } from "../model/format.js";
import { lazyPart } from "./lazy.js";
import { origin } from "./origin.js";

const checkup = lazyPart(() => import("./checkup/body.js"));

/**
 * @param {Scene} scene
 * @param {number} width_px
 */
export function checkupPart(scene, width_px) {
  const { state, document, dispatch, offers } = scene;
  if (!offers.ranges) return nothing;
  const entries = document.measured?.length ?? 0;
  const part = checkup.here();
  const key = [state.document, state.checkup, state.shown, state.shows.thirds, state.readOnly, width_px];
  return html`<section class="part checkup-part" id="checkup" aria-labelledby="checkup-title"><header><h2 id="checkup-title">Check-up</h2>
      <span>${entries === 0 ? "what would make this surer, and measured decay beside the predicted one" : `${count(entries)} ${entries === 1 ? "measured decay" : "measured decays"} entered`}</span></header>
    <details class="figures" @toggle=${(/** @type {Event} */ event) => {
      const { open } = /** @type {HTMLDetailsElement} */ (event.currentTarget);
      if (open) checkup.want(dispatch);
      dispatch({ type: "show", shows: { checkup: open } });
    }}><summary>Enter a measured decay, and see what would make this surer</summary>
      ${part ? guard(key, () => part.checkupBody(scene, width_px)) : checkup.words()}</details>${origin("checkup", "Check-up")}</section>`;
}
