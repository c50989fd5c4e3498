/**
 * What is told about bounces below their table.
 *
 * @import { Scene } from "./scene.js"
 */
import { guard, html, nothing } from "../vendor.js";
import { lazyFold, lazyPart } from "./lazy.js";
import { litWords } from "./lit.js";
import { origin } from "./origin.js";
import { atRest } from "./rest.js";
import { secondBounces } from "./second.js";
import { thingBounces } from "./things.js";
import { zoneWords } from "./zones.js";

const arrivals = lazyPart(() => import("./arrivals.js"));
const comb = lazyPart(() => import("./comb.js"));

/**
 * The one that is looked at, the areas on the drawing, the second ones, all of
 * them over time, and the comb of one.
 * @param {Scene} scene
 * @param {number} width_px
 */
export function moreBounces(scene, width_px) {
  const { listening, now, shown, state, dispatch } = scene;
  if (!listening.seat || listening.loudspeakers.length === 0) return nothing;
  // Drawn after a gesture, not during it.
  const rest = state.drag === null ? shown : "held";
  return html`<div class="part more-bounces">${guard(litKey(scene), () => litWords(scene))}${guard([listening, shown === null, state.shows.zone_hz, state.units], () => zoneWords(scene))}${atRest(state.drag === null ? [state.document, now, shown, state.shown, state.shows.second] : null, () => [thingBounces(scene), secondBounces(scene)])}
    ${lazyFold({ part: arrivals, dispatch, summary: "Bounces over time", body: (part) => guard([rest, width_px], () => part.arrivalsBody(scene, width_px)) })}
    ${lazyFold({ part: comb, dispatch, summary: "Comb of one bounce", body: (part) => guard([rest, width_px, state.shows.comb, state.shows.comb_raw, state.shows.lit], () => part.combBody(scene, width_px)) })}
    ${origin("bounces", "Bounces")}</div>`;
}

/** @param {Scene} scene */
function litKey({ state, shown, now, listening, document, plan }) {
  const { lit } = state.shows;
  return [lit, lit && state.drag === null ? shown : null, lit && now, listening, document.room, plan.name, state.units];
}
