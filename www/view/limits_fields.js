/**
 * What the home allows: limits, zones that stay clear, and what the cautions need to know. All of it can be changed.
 *
 * @import { KeepClear, SurfaceName } from "../model/types.js"
 * @import { Scene } from "./scene.js"
 */
import { html, nothing } from "../vendor.js";
import { length } from "../model/format.js";
import { SURFACES } from "../model/geometry.js";
import { LOOKS } from "../model/looks_like.js";
import { defaultMargin } from "../model/parts.js";
import { sentence, surfaceName } from "../model/words.js";
import { choiceField, nameField } from "./fact_fields.js";
import { lengthField, numberField } from "./field.js";
import { isReadOnly } from "./scene.js";
import { axisWords } from "./words.js";

/** Conditions of the home that cautions ask for. @type {readonly [string, string][]} */
const CONDITIONS = [
  ["rented", "rented"], ["shared-house", "shared house"], ["listed", "listed building"], ["old-building", "old building"], ["textured-ceiling", "textured ceiling"],
  ["cold-walls", "cold walls"], ["own-build", "I build the pieces myself"], ["children", "children or pets"], ["earthquake-region", "earthquake region"],
];

/** Zones that are often needed, with their own size, m. Common practice, no source. */
const NEW_ZONES = /** @type {const} */ ([
  { why: "smoke detector", surface: "ceiling", side_m: 0.12 }, { why: "sprinkler", surface: "ceiling", side_m: 0.1 }, { why: "air grille", surface: "ceiling", side_m: 0.3 },
  { why: "heater", surface: "front", side_m: 0.8 }, { why: "lamp", surface: "ceiling", side_m: 0.3 }, { why: "open flame", surface: "front", side_m: 0.6 },
  { why: "socket", surface: "left", side_m: 0.15 },
]);

/** @param {Scene} scene */
export function limitFields(scene) {
  return html`${lengthLimits(scene)}${flagLimits(scene)}
    <h3>Kept clear</h3>${(scene.document.room.keep_clear ?? []).map((zone, index) => zoneForm(scene, zone, index))}${isReadOnly(scene) ? nothing : zoneButtons(scene)}
    <p class="also">Margins are planning margins of this page, not code. Pieces stop at these on the drawing and say why.</p>
    <h3>What the cautions need to know</h3>${conditionBoxes(scene)}`;
}

/** @param {Scene} scene */
function lengthLimits(scene) {
  const { document, dispatch, state } = scene;
  const limits = document.limits ?? {};
  const fixed = isReadOnly(scene);
  /** @param {string} label @param {"min_height_m"|"max_height_m"|"max_depth_m"} limit @param {number} start_m what a first press sets */
  const field = (label, limit, start_m) => html`<div class="limit-row">${limits[limit] === undefined
    ? html`<button type="button" class="word-button" ?disabled=${fixed} @click=${() => dispatch({ type: "set-limit", limit, value: start_m })}>${label} …</button>`
    : html`${lengthField({ label, value_m: limits[limit], units: state.units, fixed, commit: (value) => dispatch({ type: "set-limit", limit, value }) })}
      ${fixed ? nothing : html`<button type="button" class="word-button" @click=${() => dispatch({ type: "set-limit", limit, value: null })}>lift</button>`}`}</div>`;
  return html`<div class="three">
    ${field("nothing below", "min_height_m", 0.9)}${field("nothing above", "max_height_m", Math.min(2.2, document.room.height_m))}${field("at most this deep", "max_depth_m", 0.12)}</div>
    <div class="three">${numberField({ label: `money at most${document.currency ? `, ${document.currency}` : ""}`, value: limits.budget, fixed, commit: (value) => dispatch({ type: "set-limit", limit: "budget", value }) })}
    ${nameField({ label: "sign of money", value: document.currency ?? "", fixed, commit: (sign) => dispatch({ type: "set-currency", sign }) })}
    ${numberField({ label: "visible pieces at most", value: limits.max_visible, whole: true, fixed, commit: (value) => dispatch({ type: "set-limit", limit: "max_visible", value }) })}</div>`;
}

/** @param {Scene} scene */
function flagLimits(scene) {
  const { document, dispatch } = scene;
  const { no_drilling = false, bare = [], looks_like = [] } = document.limits ?? {};
  return html`<div class="ticks">${tick(scene, "no drilling", no_drilling, (on) => dispatch({ type: "set-limit", limit: "no_drilling", value: on }))}
    ${SURFACES.map((surface) => tick(scene, `${surfaceName(surface)} bare`, bare.includes(surface), (on) => dispatch({
      type: "set-limit", limit: "bare", value: on ? [...bare, surface] : bare.filter((one) => one !== surface) })))}</div>
    <fieldset class="ticks looks"><legend>Only what looks like</legend>${LOOKS.map(([look, words]) => tick(scene, words, looks_like.includes(look), (on) => dispatch({
      type: "set-limit", limit: "looks_like", value: LOOKS.flatMap(([one]) => ((one === look ? on : looks_like.includes(one)) ? [one] : [])) })))}</fieldset>
    <p class="also">Neither ticked: panels may be seen as well. Curtains, rugs, a shelf of books and a screen on feet count as furniture, a printed panel as a picture; say under “about” at the Kit shelf what your own pieces look like. What is there already stays.</p>`;
}

/** @param {Scene} scene */
function conditionBoxes(scene) {
  const { document, dispatch } = scene;
  const held = document.room.conditions ?? [];
  return html`<div class="ticks">${CONDITIONS.map(([condition, words]) => tick(scene, words, held.includes(condition), (on) => dispatch({ type: "set-condition", condition, on })))}</div>`;
}

/**
 * @param {Scene} scene
 * @param {string} words
 * @param {boolean} on
 * @param {(on: boolean) => void} set
 */
export function tick(scene, words, on, set) {
  return html`<label class="tick"><input type="checkbox" .checked=${on} ?disabled=${isReadOnly(scene)}
    @change=${(/** @type {Event} */ event) => set(/** @type {HTMLInputElement} */ (event.target).checked)} /> ${words}</label>`;
}

/**
 * @param {Scene} scene
 * @param {KeepClear} zone
 * @param {number} index
 */
function zoneForm(scene, zone, index) {
  const { dispatch, state } = scene;
  const fixed = isReadOnly(scene);
  /** @param {Partial<KeepClear>} change */
  const set = (change) => dispatch({ type: "set-zone", index, zone: change });
  const words = axisWords(zone.surface);
  /** @param {string} label @param {"u_m"|"v_m"|"width_m"|"height_m"|"margin_m"} key */
  const field = (label, key) => lengthField({
    label, aloud: `${sentence(label)}, ${zone.why}`, value_m: zone[key], units: state.units, fixed, commit: (value_m) => set({ [key]: value_m }),
  });
  return html`<details class="one-fact" name="zones"><summary>${sentence(zone.why)}, ${surfaceName(zone.surface)}, ${length(zone.margin_m, state.units)} kept free</summary><div class="four">
    ${nameField({ label: "what is there", value: zone.why, fixed, commit: (why) => set({ why }) })}
    ${choiceField({ label: "surface", value: zone.surface, fixed, options: SURFACES.map((value) => ({ value, words: surfaceName(value) })), choose: (surface) => set({ surface: /** @type {SurfaceName} */ (surface) }) })}
    ${field(words.u, "u_m")}${field(words.v, "v_m")}${field("width", "width_m")}${field("height", "height_m")}${field(`margin, ${length(defaultMargin(zone.why), state.units)} planned`, "margin_m")}</div>
    ${fixed ? nothing : html`<button type="button" class="word-button" @click=${() => dispatch({ type: "remove-zone", index })}>remove the zone</button>`}</details>`;
}

/** @param {Scene} scene */
function zoneButtons({ dispatch, document }) {
  const { width_m, length_m, height_m } = document.room;
  return html`<div class="adds">Add: ${NEW_ZONES.map(({ why, surface, side_m }) => html`<button type="button" class="word-button" @click=${() => dispatch({
    type: "set-zone", index: null,
    zone: {
      why, surface, width_m: side_m, height_m: side_m, margin_m: defaultMargin(why),
      u_m: ((surface === "left" ? length_m : width_m) - side_m) / 2, v_m: surface === "ceiling" ? (length_m - side_m) / 2 : Math.min(0.3, height_m - side_m),
    },
  })}>${why}</button>`)}</div>`;
}
