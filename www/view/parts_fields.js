/**
 * Doors with their swing, windows, openings and built-ins: added, changed by numbers, taken away.
 *
 * @import { Part, PartRole, SurfaceName } from "../model/types.js"
 * @import { Scene } from "./scene.js"
 */
import { html, nothing } from "../vendor.js";
import { size } from "../model/format.js";
import { SURFACES } from "../model/geometry.js";
import { sentence, surfaceName } from "../model/words.js";
import { choiceField, finishChoice } from "./fact_fields.js";
import { lengthField } from "./field.js";
import { isReadOnly } from "./scene.js";
import { PART_WORDS, READING_ORDER, WALLS, axisWords } from "./words.js";

/** What a new one is like; sizes are ordinary ones of homes, common practice, no source. @type {Record<Exclude<PartRole, "wall">, {words: string, part: Partial<Part>}>} */
const NEW_PARTS = {
  door: { words: "a door", part: { finish: "wooden-door", width_m: 0.8, height_m: 2, v_m: 0, swing_m: 0.8 } },
  window: { words: "a window", part: { finish: "window", width_m: 1.2, height_m: 1.2, v_m: 0.9 } },
  opening: { words: "an archway", part: { finish: "open-archway", width_m: 0.9, height_m: 2, v_m: 0 } },
  "built-in": { words: "a built-in", part: { finish: "filled-bookshelf", width_m: 1, height_m: 2, v_m: 0, depth_m: 0.3 } },
};

/** Which finishes a part may have. @type {Record<PartRole, string>} */
const SUITS = { wall: "wall", door: "door", window: "window", opening: "opening", "built-in": "built-in" };

/** @param {Scene} scene */
export function partFields(scene) {
  const { document } = scene;
  const parts = READING_ORDER.flatMap((surface) => (document.room.surfaces[surface].parts ?? []).map((part, index) => partForm(scene, surface, part, index)));
  return html`${parts.length > 0 ? parts : html`<p class="also">No door, window or opening is in this room yet.</p>`}
    ${isReadOnly(scene) ? nothing : addButtons(scene)}`;
}

/** @param {Scene} scene */
function addButtons({ dispatch, document }) {
  return html`<div class="adds"><label class="field"><span class="field-name">add to the</span><select class="add-to">${
    WALLS.map((wall) => html`<option value=${wall}>${surfaceName(wall)}</option>`)}</select></label>
    ${Object.entries(NEW_PARTS).map(([role, { words, part }]) => html`<button type="button" class="word-button" @click=${(/** @type {Event} */ event) => {
      const select = /** @type {HTMLElement} */ (event.target).parentElement?.querySelector("select");
      const surface = SURFACES.find((one) => one === select?.value) ?? "left";
      const span_m = surface === "left" || surface === "right" ? document.room.length_m : document.room.width_m;
      dispatch({ type: "set-part", surface, index: null, part: { ...part, role: /** @type {PartRole} */ (role), u_m: (span_m - (part.width_m ?? 1)) / 2 } });
    }}>${words}</button>`)}</div>`;
}

/**
 * @param {Scene} scene
 * @param {SurfaceName} surface
 * @param {Part} part
 * @param {number} index
 */
function partForm(scene, surface, part, index) {
  const { dispatch, state } = scene;
  const fixed = isReadOnly(scene);
  const name = `${PART_WORDS[part.role]}, ${surfaceName(surface)}`;
  /** @param {Partial<Part>} change */
  const set = (change) => dispatch({ type: "set-part", surface, index, part: change });
  const words = axisWords(surface);
  /** @param {string} label @param {"u_m"|"v_m"|"width_m"|"height_m"|"depth_m"|"swing_m"} key */
  const field = (label, key) => lengthField({
    label, aloud: `${sentence(label)}, ${name}`, value_m: part[key] ?? 0, units: state.units, fixed, commit: (value_m) => set({ [key]: value_m }),
  });
  return html`<details class="one-fact" name="parts"><summary>${sentence(name)}, ${size(part, state.units)}</summary><div class="four">
    ${field(words.u, "u_m")}${field(words.v, "v_m")}${field("width", "width_m")}${field("height", "height_m")}
    ${part.role === "door" ? field("leaf swings in by", "swing_m") : nothing}${part.role === "built-in" ? field("depth", "depth_m") : nothing}
    ${choiceField({ label: "what it is", value: part.role, fixed, options: Object.entries(PART_WORDS).map(([value, text]) => ({ value, words: text })),
      choose: (role) => set({ role: /** @type {PartRole} */ (role) }) })}</div>
    ${finishChoice(scene, { label: "finish", current: part.finish, suits: SUITS[part.role], surface, part: index, choose: (finish) => set({ finish }) })}
    ${fixed ? nothing : html`<button type="button" class="word-button" @click=${() => dispatch({ type: "remove-part", surface, index })}>remove the ${PART_WORDS[part.role]}</button>`}</details>`;
}
