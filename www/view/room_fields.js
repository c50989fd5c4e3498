/**
 * The fields behind the words of the Room facts.
 *
 * @import { SurfaceName } from "../model/types.js"
 * @import { Scene } from "./scene.js"
 */
import { html, nothing } from "../vendor.js";
import { goalRange } from "../model/answer.js";
import { sideProblem } from "../model/room.js";
import { sentence, surfaceName } from "../model/words.js";
import { finishChoice } from "./fact_fields.js";
import { lengthField, numberField } from "./field.js";
import { furnishingFields } from "./furnishings.js";
import { limitFields, tick } from "./limits_fields.js";
import { origin } from "./origin.js";
import { airFields } from "./own_things.js";
import { partFields } from "./parts_fields.js";
import { isReadOnly } from "./scene.js";
import { TASTES } from "./tastes.js";
import { WALLS } from "./words.js";

/** By the label of their fact. */
export const ROOM_FIELDS = Object.freeze({
  Size: (/** @type {Scene} */ scene) => html`${sizeFields(scene)}${airFields(scene)}${shapeFields(scene)}`,
  Walls: (/** @type {Scene} */ scene) => html`${WALLS.map((wall) => finishField(scene, wall))}`,
  Floor: (/** @type {Scene} */ scene) => html`${finishField(scene, "floor")}${finishField(scene, "ceiling")}`,
  Openings: partFields,
  "In it": furnishingFields,
  Goal: goalFields,
  Limits: limitFields,
});

/** @param {Scene} scene */
function sizeFields(scene) {
  const { document, state, dispatch } = scene;
  const sides = /** @type {const} */ ([["Width", "width_m"], ["Length", "length_m"], ["Height", "height_m"]]);
  return html`<div class="three">${sides.map(([label, key]) => lengthField({
    label, value_m: document.room[key], units: state.units, fixed: isReadOnly(scene),
    problemOf: (value_m) => sideProblem(value_m, state.units), tell: (wrong_size) => dispatch({ type: "show", shows: { wrong_size } }),
    commit: (value_m) => dispatch({ type: "set-room", [key]: value_m }),
  }))}</div>${origin("room", "Volume and limit of statistics")}`;
}

/**
 * A room that is no box: how to make one of it, and that its ranges are doubled.
 * @param {Scene} scene
 */
function shapeFields(scene) {
  const on = scene.document.room.conditions?.includes("not-a-box") ?? false;
  return html`${tick(scene, "it is no box: sloped ceiling, L-shape or gallery", on, (next) => scene.dispatch({ type: "set-condition", condition: "not-a-box", on: next }))}
    ${on ? html`<ul class="plain also"><li>Sloped ceiling: type the mean height between the loudspeakers and the seat.</li>
      <li>L-shape: type the part in which you listen, and add an opening where the other part begins.</li>
      <li>Gallery: type the height over the seat, and add an opening in the wall or ceiling where the gallery is.</li>
      <li>Ranges are doubled as long as this is ticked: use the order of plans, not the numbers.</li></ul>` : nothing}`;
}

/**
 * @param {Scene} scene
 * @param {SurfaceName} surface
 */
function finishField(scene, surface) {
  const suits = surface === "floor" || surface === "ceiling" ? surface : "wall";
  return finishChoice(scene, {
    label: sentence(surfaceName(surface)), current: scene.document.room.surfaces[surface].finish, suits, surface,
    choose: (finish) => scene.dispatch({ type: "set-finish", surface, finish }),
  });
}

/** @param {Scene} scene */
function goalFields(scene) {
  const { document, dispatch } = scene;
  const current = document.goal && "taste" in document.goal ? document.goal.taste : document.goal ? "" : "lived-in";
  return html`<fieldset class="tastes"><legend>How the room should sound</legend>
    ${Object.entries(TASTES).map(([taste, words]) => html`<label>
      <input type="radio" name="taste" value=${taste} .checked=${taste === current} ?disabled=${isReadOnly(scene)}
      @change=${() => dispatch({ type: "set-goal", goal: { taste: /** @type {keyof typeof TASTES} */ (taste) } })} /> ${words}</label>`)}</fieldset>
    ${ownGoal(scene)}${origin("goal", "The goal")}`;
}

/**
 * A range of the person's own, from a shorter to a longer time.
 * @param {Scene} scene
 */
function ownGoal(scene) {
  const { low_s, high_s } = goalRange(scene.document);
  const fixed = isReadOnly(scene);
  /** @param {{low_s?: number|null, high_s?: number|null}} typed */
  const set = ({ low_s: low, high_s: high }) => scene.dispatch({ type: "set-goal", goal: { low_s: low ?? low_s, high_s: high ?? high_s } });
  return html`<div class="four">${numberField({ label: "or from, s", aloud: "Own goal from, seconds", value: low_s, fixed, commit: (low) => set({ low_s: low }) })}
    ${numberField({ label: "to, s", aloud: "Own goal to, seconds", value: high_s, fixed, commit: (high) => set({ high_s: high }) })}</div>`;
}
