/**
 * Second bounces, off two surfaces: a table on request, and marks half as large on the drawing.
 *
 * @import { PlanReport, Reflection } from "../model/types.js"
 * @import { Face } from "./fold.js"
 * @import { Scene } from "./scene.js"
 */
import { html, nothing, svg } from "../vendor.js";
import { number } from "../model/format.js";
import { toSurface } from "../model/geometry.js";
import { planLabel, sentence, surfaceName } from "../model/words.js";
import { SHORT_LABEL } from "./late.js";
import { at } from "./draw.js";
import { presenceLevel } from "./levels.js";
import { figureFold } from "./rest.js";

/** @param {PlanReport|null} report */
function secondOf(report) {
  return (report?.reflections ?? []).filter((one) => one.order === 2);
}

/** @param {Scene} scene */
export function secondBounces(scene) {
  const { now, shown, state, dispatch } = scene;
  if (!now || !shown || secondOf(shown).length === 0) return nothing;
  return figureFold("Second bounces, off two surfaces", [now, shown, state.shown, state.shows.second], () => html`<label class="tick"><input type="checkbox" .checked=${state.shows.second}
      @change=${(/** @type {Event} */ event) => dispatch({ type: "show", shows: { second: /** @type {HTMLInputElement} */ (event.target).checked } })} /> mark them on the drawing</label>
    ${table(scene, now, shown)}`);
}

/** @param {Reflection} one */
function keyOf(one) {
  return `${one.loudspeaker} ${one.surfaces.join(" ")}`;
}

/**
 * @param {Scene} scene
 * @param {PlanReport} now
 * @param {PlanReport} shown
 */
function table(scene, now, shown) {
  const planned = scene.state.shown > 0;
  const today = new Map(secondOf(now).map((one) => [keyOf(one), one]));
  const rows = secondOf(shown).sort((a, b) => a.delay_s - b.delay_s);
  return html`<div class="scroll" tabindex="0"><table><caption>First the surface it meets first. Levels 1–4 kHz, dB beside the direct sound.</caption>
    <thead><tr><th scope="col">Surfaces</th><th scope="col">loudspeaker</th><th scope="col">ms</th><th scope="col">today</th>${
      planned ? html`<th scope="col">${planLabel(scene.plan.name, SHORT_LABEL)}</th>` : nothing}</tr></thead>
    <tbody>${rows.map((one) => html`<tr><th scope="row">${sentence(one.surfaces.map(surfaceName).join(", "))}</th>
      <td>${one.loudspeaker === 0 ? "left" : "right"}</td><td>${number(one.delay_s * 1000, 1)}</td>
      <td>${presenceLevel(today.get(keyOf(one)))}</td>${planned ? html`<td class="p">${presenceLevel(one)}</td>` : nothing}</tr>`)}</tbody></table></div>`;
}

/**
 * @param {Face} face
 * @param {PlanReport|null} report
 */
export function secondMarks(face, report) {
  const spots = secondOf(report).flatMap((one) => one.surfaces.flatMap((surface, index) => {
    const point_m = one.points_m[index];
    if (surface !== face.surface || !point_m) return [];
    const { u_m, v_m } = toSurface(surface, point_m);
    return [{ ...at(face, u_m, v_m), loudspeaker: one.loudspeaker }];
  }));
  return svg`<g class="marks second" aria-hidden="true">${spots.map(({ x, y, loudspeaker }) => svg`<g class="mark" transform="translate(${x} ${y})">${
    loudspeaker === 0 ? svg`<circle class="sign-shape" r="2.6" />` : svg`<path class="sign-shape" d="M0 -3.1l3.1 3.1l-3.1 3.1l-3.1 -3.1z" />`}</g>`)}</g>`;
}
