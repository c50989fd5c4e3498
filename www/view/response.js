/**
 * Response at the seat, 20 Hz to 10 kHz: both loudspeakers or each, in third-octaves as ears blend it, and as it is on request.
 *
 * @import { Bass } from "../model/types.js"
 * @import { Curve } from "../chart/curves.js"
 * @import { Scene } from "./scene.js"
 */
import { guard, html, nothing } from "../vendor.js";
import { nominalHz } from "../chart/bands.js";
import { curvesChart } from "../chart/curves.js";
import { frequency, number } from "../model/format.js";
import { LONGEST_RESPONSE, responseSentence } from "../model/response_words.js";
import { planName } from "../model/words.js";
import { origin } from "./origin.js";
import { figureFold } from "./rest.js";
import { steady } from "./steady.js";

const SPAN = Object.freeze({ from_hz: 20, to_hz: 10000 });
const HEIGHT_PX = 200;
/** Narrower drawings have no room for names at the right, px. */
const NAMED_PX = 420;

/** @typedef {"both"|"left"|"right"|"pair"} Whose */
/** @type {readonly [Whose, string][]} */
const CHOICES = [["both", "both together"], ["left", "left alone"], ["right", "right alone"], ["pair", "left and right, each alone"]];

/**
 * @param {Scene} scene
 * @param {number} width_px
 */
export function responsePart(scene, width_px) {
  const { state, document, offers, plan, listening } = scene;
  const last = state.bass;
  if (!offers.bass || listening.seat === undefined || listening.loudspeakers.length < 2) return nothing;
  const isFresh = last?.document === document && last.plan === state.shown;
  const bass = last?.bass ?? null;
  const { response: whose = "both", response_raw: raw = false } = state.shows;
  return html`<section class="part response-part ${isFresh ? "" : "is-stale"}" aria-labelledby="response-title" aria-busy=${isFresh ? "false" : "true"}>
    <header><h2 id="response-title">Response at the seat</h2><span>${isFresh ? whosePlan(plan.name) : bass ? "as before the last change; catching up" : "being computed"}</span></header>
    ${guard([bass, whose, raw, width_px], () => body(scene, bass, whose, raw, width_px))}${origin("response", "Response")}</section>`;
}

/** @param {string} name */
function whosePlan(name) {
  return `${planName(name) === "Now" ? "the room as it is" : planName(name)}, 20 Hz to 10 kHz`;
}

/**
 * @param {Scene} scene
 * @param {Bass|null} bass  null: on its way; its places are there
 * @param {Whose} whose
 * @param {boolean} raw
 * @param {number} width_px
 */
function body(scene, bass, whose, raw, width_px) {
  const side = /** @type {"both_db"|"left_db"|"right_db"} */ (`${whose === "pair" ? "both" : whose}_db`);
  return html`${steady(html`<p class="says">${bass ? responseSentence(bass.response.third_octave, side, nominalHz) : nothing}</p>`, [LONGEST_RESPONSE])}${picks(scene, whose, raw)}
    ${bass === null ? html`<svg class="chart" width=${width_px} height=${HEIGHT_PX} aria-hidden="true"></svg>` : curvesChart({
      label: "Level at the seat over frequency, 20 Hz to 10 kHz; the table below has the figures",
      curves: curvesOf(bass, whose, raw), ...SPAN, notes: [], stops_at_hz: null, width_px, height_px: HEIGHT_PX, named: width_px >= NAMED_PX,
    })}
    <p class="axis-words">Level, dB, beside the direct sound of one loudspeaker at 1 m, over frequency, Hz.${
      raw ? " Thin: as it is. Thick: in third-octaves, as ears blend it." : " In third-octaves, as ears blend it."}${whose === "pair" ? " Solid: left. Dashed: right." : ""}</p>
    ${figureFold("These figures as a table", [bass], () => (bass ? table(bass) : nothing))}`;
}

/**
 * @param {Scene} scene
 * @param {Whose} whose
 * @param {boolean} raw
 */
function picks({ dispatch }, whose, raw) {
  return html`<p class="picks"><label>Loudspeakers <select @change=${(/** @type {Event} */ event) => dispatch({ type: "show", shows: {
    response: /** @type {Whose} */ (/** @type {HTMLSelectElement} */ (event.target).value),
  } })}>${CHOICES.map(([value, words]) => html`<option value=${value} .selected=${value === whose}>${words}</option>`)}</select></label>
    <label class="tick"><input type="checkbox" .checked=${raw} @change=${(/** @type {Event} */ event) => dispatch({ type: "show", shows: {
      response_raw: /** @type {HTMLInputElement} */ (event.target).checked } })} /> as it is, too</label></p>`;
}

/**
 * @param {Bass} bass
 * @param {Whose} whose
 * @param {boolean} raw
 * @returns {Curve[]}
 */
function curvesOf({ response }, whose, raw) {
  const third = response.third_octave;
  const [left, right] = [whose === "left" || whose === "pair", whose === "right" || whose === "pair"];
  return [
    ...(raw && whose === "both" ? [{ name: "as it is", look: "raw", frequency_hz: response.frequency_hz, level_db: response.both_db }] : []),
    ...(raw && left ? [{ name: "", look: "raw", frequency_hz: response.frequency_hz, level_db: response.left_db }] : []),
    ...(raw && right ? [{ name: "", look: "raw right", frequency_hz: response.frequency_hz, level_db: response.right_db }] : []),
    ...(whose === "both" ? [{ name: "both", look: "third", frequency_hz: third.frequency_hz, level_db: third.both_db }] : []),
    ...(left ? [{ name: "left", look: "left", frequency_hz: third.frequency_hz, level_db: third.left_db }] : []),
    ...(right ? [{ name: "right", look: "right", frequency_hz: third.frequency_hz, level_db: third.right_db }] : []),
  ];
}

/** @param {Bass} bass */
function table({ response: { third_octave: third } }) {
  return html`<div class="scroll" tabindex="0"><table><caption>Third-octave levels at the seat, dB beside the direct sound at 1 m</caption>
    <thead><tr><th scope="col">Band</th><th scope="col">left</th><th scope="col">right</th><th scope="col">both</th></tr></thead>
    <tbody>${Array.from(third.frequency_hz, (hz, index) => html`<tr><th scope="row">${bandName(nominalHz(hz))}</th>
      <td>${number(third.left_db[index], 1)}</td><td>${number(third.right_db[index], 1)}</td><td>${number(third.both_db[index], 1)}</td></tr>`)}</tbody></table></div>`;
}

/** Low bands have halves: 31.5 Hz. @param {number} hz */
function bandName(hz) {
  return hz < 100 && !Number.isInteger(hz) ? `${number(hz, 1)}\u202fHz` : frequency(hz);
}
