/**
 * The place of the picture of the room: a fold, as it is loaded only when somebody wants to look.
 *
 * @import { Scene } from "./scene.js"
 */
import { guard, html } from "../vendor.js";
import { lazyFold, lazyPart } from "./lazy.js";

const picture = lazyPart(() => import("./room_view.js"));

/**
 * @param {Scene} scene
 * @param {number} width_px
 */
export function viewPart(scene, width_px) {
  const { state, shown, listening, dispatch } = scene;
  // A picture belongs to what lies, not to what is being moved.
  const rest = state.drag === null ? [state.document, listening, shown] : ["held"];
  return html`<section class="part view-part" aria-labelledby="view-title"><header><h2 id="view-title">The room as one sees it</h2><span>for looking only</span></header>
    ${lazyFold({ part: picture, dispatch, summary: "Draw it from the seat, from the door or from outside", body: (part) => guard([...rest, state.shown, state.shows.look, width_px], () => part.roomView(scene, width_px)) })}</section>`;
}
