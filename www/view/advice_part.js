/**
 * The place of advice: a fold, as it is worked out only when somebody asks.
 *
 * @import { Scene } from "./scene.js"
 */
import { guard, html } from "../vendor.js";
import { lazyFold, lazyPart } from "./lazy.js";
import { origin } from "./origin.js";

const advice = lazyPart(() => import("./advice.js"));

/**
 * @param {Scene} scene
 * @param {number} width_px
 */
export function advicePart(scene, width_px) {
  const { drag, advice: asked, step } = scene.state;
  // What is dragged changes nothing here until it is dropped.
  const keys = drag === null ? [scene] : [asked, step];
  return html`<section class="part advice-part" aria-labelledby="advice-title"><header><h2 id="advice-title">What should I do?</h2><span>what to do first, and where to stop</span></header>
    ${lazyFold({ id: "fold-advice", part: advice, dispatch: scene.dispatch, summary: "Work out what is free, what a surface buys, the next step and whole plans", body: (part) => guard(keys, () => part.adviceBody(scene, width_px)) })}
    ${origin("advice", "What should I do?")}</section>`;
}
