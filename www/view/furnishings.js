/**
 * What stands in the room, as counts and in its place.
 *
 * @import { Furnishing, FurnishingInfo } from "../model/types.js"
 * @import { Scene } from "./scene.js"
 */
import { html, nothing } from "../vendor.js";
import { areaChart } from "../chart/absorption.js";
import { number } from "../model/format.js";
import { lengthField, numberField } from "./field.js";
import { countsOf } from "./furnishing_words.js";
import { ownThings } from "./own_things.js";
import { isReadOnly } from "./scene.js";
import { furnishingName } from "./words.js";

/** @param {Scene} scene */
export function furnishingFields(scene) {
  const { document, library } = scene;
  const counts = countsOf(document);
  const all = [...library.furnishings, ...(document.own_furnishings ?? [])];
  const here = all.filter((one) => counts.has(one.id));
  return html`${(document.room.furnishings ?? []).map((item, index) => placeForm(scene, item, index))}
    <div class="counts">${[...here, ...all.filter((one) => !counts.has(one.id))].map((one) => countRow(scene, one, counts.get(one.id) ?? 0))}</div>${ownThings(scene)}`;
}

/**
 * @param {Scene} scene
 * @param {FurnishingInfo|NonNullable<Scene["document"]["own_furnishings"]>[number]} one
 * @param {number} standing
 */
function countRow(scene, one, standing) {
  const { dispatch } = scene;
  const known = "size_m" in one ? one : null;
  return html`<div class="count-row">${numberField({
    label: one.name, value: standing, whole: true, fixed: isReadOnly(scene),
    commit: (count) => dispatch({ type: "set-furnishing", kind: one.id, count: count ?? 0 }),
  })}
    ${known && !isReadOnly(scene) ? html`<button type="button" class="word-button" aria-label="Place ${one.name} in the plan"
      @click=${() => dispatch({ type: "place-furnishing", kind: one.id, size_m: known.size_m })}>place in the plan</button>` : nothing}
    ${known ? html`<details class="from"><summary>its figures, their spread and source</summary>${areaChart(known.absorption_area_m2, known.spread)}
      <p>${areaWords(known.absorption_area_m2)}The bars go a factor of ${number(known.spread, 1)} either way. ${known.source}</p></details>` : nothing}</div>`;
}

/**
 * A thing that stands in the plan, by its numbers.
 * @param {Scene} scene
 * @param {Furnishing} item
 * @param {number} index
 */
function placeForm(scene, item, index) {
  const { at } = item;
  if (!at) return nothing;
  const { dispatch, state, library, document } = scene;
  const fixed = isReadOnly(scene);
  const name = furnishingName(library, document, item.kind);
  /** @param {string} label @param {"x_m"|"y_m"|"width_m"|"depth_m"|"height_m"} key */
  const field = (label, key) => lengthField({
    label, aloud: `${label}, ${name}`, value_m: at[key], units: state.units, fixed, commit: (value_m) => dispatch({ type: "move-furnishing", index, at: { [key]: value_m }, gesture: typedGesture() }),
  });
  return html`<details class="one-fact" name="furniture"><summary>${name}, in the plan</summary><div class="three">
    ${field("from the left wall", "x_m")}${field("from the front wall", "y_m")}${field("width", "width_m")}${field("depth", "depth_m")}${field("height", "height_m")}</div>
    ${fixed ? nothing : html`<button type="button" class="word-button" @click=${() => dispatch({ type: "move-furnishing", index, at: null })}>only count it</button>
      <button type="button" class="word-button" @click=${() => dispatch({ type: "remove-furnishing", index })}>remove</button>`}</details>`;
}

/** Typed numbers never merge into one step. */
let typed = 0;

function typedGesture() {
  typed += 1;
  return `typed ${typed}`;
}

/**
 * What one takes, in words: how large an open window would do the same.
 * @param {number[]} area_m2  six octaves
 */
function areaWords(area_m2) {
  return `As ${number(area_m2[2], 1)} m² of open window at 500 Hz. `;
}
