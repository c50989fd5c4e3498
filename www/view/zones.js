/**
 * The area that matters round each bounce mark at a chosen band: the first Fresnel zone on the surface, an ellipse.
 * The area, not the dot, has to be covered; so a small piece does little.
 *
 * @import { PlanReport, Reflection } from "../model/types.js"
 * @import { Face } from "./fold.js"
 * @import { Scene } from "./scene.js"
 */
import { html, nothing, svg } from "../vendor.js";
import { frequency, size } from "../model/format.js";
import { toSurface } from "../model/geometry.js";
import { at, faceBox, px } from "./draw.js";

/** The octaves that may be chosen, Hz. */
export const ZONE_BANDS_HZ = [250, 500, 1000, 2000, 4000];

/** The zones of the report are those of this frequency; they grow as one over its root. */
const REPORTED_HZ = 1000;

/** @param {number} hz */
function scaleAt(hz) {
  return Math.sqrt(REPORTED_HZ / hz);
}

/** @param {PlanReport|null} report @returns {Reflection[]} first bounces that say how large their area is */
function zonesOf(report) {
  return (report?.reflections ?? []).filter((one) => one.order === 1 && one.zones?.[0]);
}

/** @param {PlanReport|null} report */
export function hasZones(report) {
  return zonesOf(report).length > 0;
}

/**
 * @param {Face} face
 * @param {PlanReport|null} report
 * @param {number} hz
 */
export function zoneDrawing(face, report, hz) {
  const zones = zonesOf(report).filter((one) => one.surfaces[0] === face.surface);
  if (zones.length === 0) return nothing;
  const box = faceBox(face);
  const id = `inside-${face.surface}`;
  return svg`<clipPath id=${id}><rect x=${box.x} y=${box.y} width=${box.width} height=${box.height} /></clipPath>
    <g class="zones" clip-path="url(#${id})" aria-hidden="true">${zones.map((one) => ellipse(face, one, hz))}</g>`;
}

/**
 * Solid for the left loudspeaker, dashed for the right one, as their paths.
 * @param {Face} face
 * @param {Reflection} reflection
 * @param {number} hz
 */
function ellipse(face, { points_m, zones = [], loudspeaker }, hz) {
  const { u_m, v_m } = toSurface(face.surface, points_m[0]);
  const { x, y } = at(face, u_m, v_m);
  const [du, dv] = zones[0].along;
  const turn = (Math.atan2(face.uy * du + face.vy * dv, face.ux * du + face.vx * dv) * 180) / Math.PI;
  const scale = scaleAt(hz) * Math.hypot(face.ux, face.uy);
  return svg`<ellipse class="area ${loudspeaker === 0 ? "" : "dash"}" rx=${px(zones[0].semi_along_m * scale)} ry=${px(zones[0].semi_across_m * scale)}
    transform="translate(${x} ${y}) rotate(${px(turn)})" />`;
}

/**
 * The choice of the band, beside the drawing.
 * @param {Scene} scene
 */
export function zonePick({ state, dispatch }) {
  return html`<label class="pick-one"><svg width="36" height="18" aria-hidden="true">${svg`<ellipse class="area" cx="18" cy="9" rx="16" ry="7.5" />`}</svg>
    <span>area at <select aria-label="Band of the areas round the bounce marks" @change=${(/** @type {Event} */ event) => dispatch({
      type: "show", shows: { zone_hz: Number(/** @type {HTMLSelectElement} */ (event.target).value) },
    })}>${ZONE_BANDS_HZ.map((hz) => html`<option value=${hz} .selected=${hz === state.shows.zone_hz}>${frequency(hz)}</option>`)}</select></span></label>`;
}

/**
 * Why a small piece does little.
 * @param {Scene} scene
 */
export function zoneWords({ state, shown }) {
  const zones = zonesOf(shown);
  if (zones.length === 0) return nothing;
  const { zone_hz } = state.shows;
  const [least, most] = [zones.reduce(smaller), zones.reduce(larger)].map((one) => wholeSize(one, zone_hz));
  return html`<p class="says">Each outline on the drawing is the area its bounce needs at ${frequency(zone_hz)}:
    from ${size(least, state.units)} to ${size(most, state.units)}. A piece much smaller than its outline does little there.
    Two octaves lower the outline is twice as wide, so small pieces do nothing for the bass.</p>`;
}

/** @param {Reflection} one */
function spread({ zones = [] }) {
  return zones[0].semi_along_m * zones[0].semi_across_m;
}

/** @param {Reflection} a @param {Reflection} b */
function smaller(a, b) {
  return spread(b) < spread(a) ? b : a;
}

/** @param {Reflection} a @param {Reflection} b */
function larger(a, b) {
  return spread(b) > spread(a) ? b : a;
}

/** @param {Reflection} one @param {number} hz */
function wholeSize({ zones = [] }, hz) {
  const scale = 2 * scaleAt(hz);
  return { width_m: zones[0].semi_along_m * scale, height_m: zones[0].semi_across_m * scale };
}
