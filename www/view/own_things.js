/**
 * The air of the room, and furniture with figures that the person types: how many m² of open window would do the same.
 *
 * @import { Scene } from "./scene.js"
 */
import { html, nothing } from "../vendor.js";
import { valueNear } from "../chart/bands.js";
import { OWN_BANDS_HZ } from "../model/household.js";
import { AIR } from "../model/limits.js";
import { nameField } from "./fact_fields.js";
import { numberField } from "./field.js";
import { isReadOnly } from "./scene.js";

/** @param {Scene} scene */
export function airFields(scene) {
  const { document, dispatch } = scene;
  const keys = /** @type {const} */ (["temperature_c", "humidity_percent"]);
  return html`<div class="four">${keys.map((key) => numberField({
    label: `${AIR[key].words}, ${AIR[key].unit}`, value: document.room[key] ?? AIR[key].usual, fixed: isReadOnly(scene), signed: true,
    commit: (value) => dispatch({ type: "set-air", key, value }),
  }))}</div>`;
}

/** @param {Scene} scene */
export function ownThings(scene) {
  const own = scene.document.own_furnishings ?? [];
  return html`${own.map((one) => ownThing(scene, one))}
    ${isReadOnly(scene) ? nothing : html`<button type="button" class="word-button" @click=${() => scene.dispatch({ type: "set-own-furnishing", id: null })}>add a thing with own values</button>`}`;
}

/**
 * @param {Scene} scene
 * @param {NonNullable<Scene["document"]["own_furnishings"]>[number]} one
 */
function ownThing(scene, one) {
  const { dispatch } = scene;
  const fixed = isReadOnly(scene);
  const values = OWN_BANDS_HZ.map((hz) => valueNear(one.bands_hz, one.absorption_area_m2, hz));
  return html`<details class="one-fact" name="own-things"><summary>${one.name}, own values</summary><div>
    ${nameField({ label: "its name", value: one.name, fixed, commit: (name) => dispatch({ type: "set-own-furnishing", id: one.id, name }) })}
    <div class="six">${OWN_BANDS_HZ.map((hz, index) => numberField({
      label: hz < 1000 ? `${hz}` : `${hz / 1000}k`, aloud: `Absorption area at ${hz} Hz in m², ${one.name}`, value: values[index], fixed,
      commit: (value) => value !== null && dispatch({ type: "set-own-furnishing", id: one.id, values: values.map((old, at) => (at === index ? value : old)) }),
    }))}</div>
    ${numberField({ label: "its whole surface, m²", value: one.surface_m2, fixed, commit: (value) => value !== null && dispatch({ type: "set-own-furnishing", id: one.id, surface_m2: value }) })}
    <p class="from">Your own figures: m² of open window that would take as much, per octave; as a laboratory report of the thing states it.</p>
    ${fixed ? nothing : html`<button type="button" class="word-button" @click=${() => dispatch({ type: "remove-own-furnishing", id: one.id })}>remove it</button>`}</div></details>`;
}
