/**
 * The comb of one bounce: where it would take sound away if it came alone, raw and as ears blend it. Loaded on request.
 *
 * @import { Reflection } from "../model/types.js"
 * @import { Scene } from "./scene.js"
 */
import { html, nothing } from "../vendor.js";
import { NOMINAL_HZ } from "../chart/bands.js";
import { curvesChart } from "../chart/curves.js";
import { COMB_FROM_HZ, COMB_TO_HZ, blendedLevel, combOf, pressureAt } from "../model/comb.js";
import { frequency, milliseconds, number } from "../model/format.js";
import { litText } from "../model/lit.js";
import { markName } from "./lit.js";
import { origin } from "./origin.js";

const HEIGHT_PX = 170;
/** Narrower drawings have no room for names at the right, px. */
const NAMED_PX = 420;

/** @param {Scene} scene @returns {Reflection[]} first bounces off surfaces, the strongest first */
function choices({ shown }) {
  const loudness = (/** @type {Reflection} */ one) => one.level_db[13];
  return (shown?.reflections ?? []).filter((one) => one.order === 1 && one.surfaces.length > 0).sort((a, b) => loudness(b) - loudness(a));
}

/** @param {Reflection} one */
function keyOf({ surfaces, loudspeaker }) {
  return litText({ surface: surfaces[0], loudspeaker, by: "tap" });
}

/** The one that was chosen, else the one that is looked at, else the strongest. @param {Scene} scene @param {Reflection[]} bounces */
function chosen({ state }, bounces) {
  const wanted = state.shows.comb ?? (state.shows.lit ? litText(state.shows.lit) : null);
  return bounces.find((one) => keyOf(one) === wanted) ?? bounces[0];
}

/**
 * @param {Scene} scene
 * @param {number} width_px
 */
export function combBody(scene, width_px) {
  const bounces = choices(scene);
  const bounce = chosen(scene, bounces);
  if (!bounce) return nothing;
  const raw = scene.state.shows.comb_raw === true;
  const comb = combOf(bounce);
  return html`<div class="comb">${picks(scene, bounces, bounce, raw)}<p class="says">${reading(bounce)}</p>
    ${curvesChart({
      label: `What this bounce alone does to the direct sound, ${frequency(COMB_FROM_HZ)} to ${frequency(COMB_TO_HZ)}`,
      curves: [
        ...(raw ? [{ name: "as it is", look: "raw", frequency_hz: comb.frequency_hz, level_db: comb.raw_db }] : []),
        { name: "blended", look: "third", frequency_hz: comb.frequency_hz, level_db: comb.blended_db },
      ],
      from_hz: COMB_FROM_HZ, to_hz: COMB_TO_HZ, notes: (bounce.dips ?? []).map((dip) => ({ frequency_hz: dip.frequency_hz, weight: dip.depth_db })),
      stops_at_hz: null, width_px, height_px: HEIGHT_PX, named: width_px >= NAMED_PX,
    })}
    <p class="axis-words">Level beside the direct sound alone, dB, over frequency, Hz. Ticks on top: dips.</p>${figures(bounce)}${origin("comb", "Comb")}</div>`;
}

/**
 * @param {Scene} scene
 * @param {Reflection[]} bounces
 * @param {Reflection} bounce
 * @param {boolean} raw
 */
function picks({ dispatch }, bounces, bounce, raw) {
  return html`<p class="picks"><label>Bounce <select @change=${(/** @type {Event} */ event) => dispatch({ type: "show", shows: {
    comb: /** @type {HTMLSelectElement} */ (event.target).value,
  } })}>${bounces.map((one) => html`<option value=${keyOf(one)} .selected=${one === bounce}>${markName(one)}</option>`)}</select></label>
    <label class="tick"><input type="checkbox" .checked=${raw} @change=${(/** @type {Event} */ event) => dispatch({ type: "show", shows: {
      comb_raw: /** @type {HTMLInputElement} */ (event.target).checked } })} /> as it is, too</label></p>`;
}

/** @param {Reflection} bounce */
export function reading({ delay_s, dips = [] }) {
  if (dips.length === 0) return "This bounce comes so close behind the direct sound that it makes no dip below 10\u202fkHz.";
  const places = dips.map((dip) => number(dip.frequency_hz));
  return `${milliseconds(delay_s)} late, it would make its first dips at ${places.join(", ")}\u202fHz, ${number(dips[0].depth_db)}\u202fdB deep at the first. Ears blend them: the thick line is what is left.`;
}

/** @param {Reflection} bounce */
function figures({ delay_s, level_db, dips = [] }) {
  return html`<details class="figures"><summary>These figures as a table</summary><div class="scroll" tabindex="0"><table>
    <caption>Dips of this bounce alone</caption><thead><tr><th scope="col">Dip</th><th scope="col">depth, dB</th></tr></thead>
    <tbody>${dips.map((dip) => html`<tr><th scope="row">${frequency(dip.frequency_hz)}</th><td>${number(dip.depth_db, 1)}</td></tr>`)}</tbody></table>
    <table><caption>What is left in third-octaves, dB beside the direct sound alone</caption>
    <thead><tr><th scope="col">Band</th><th scope="col">bounce</th><th scope="col">together, blended</th></tr></thead>
    <tbody>${NOMINAL_HZ.map((hz, band) => html`<tr><th scope="row">${frequency(hz)}</th><td>${number(level_db[band], 1)}</td>
      <td>${number(blendedLevel(hz, delay_s, pressureAt(level_db, hz)), 1)}</td></tr>`)}</tbody></table></div></details>`;
}
