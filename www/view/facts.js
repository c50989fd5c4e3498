/**
 * Room facts: a schedule of words about the room. Each line opens the fields behind its words, in place.
 *
 * @import { Part, SurfaceName } from "../model/types.js"
 * @import { Scene } from "./scene.js"
 */
import { html, nothing } from "../vendor.js";
import { goalRange } from "../model/answer.js";
import { length, money, number, secondsRange, size, volume } from "../model/format.js";
import { sideProblem } from "../model/room.js";
import { sentence, surfaceName } from "../model/words.js";
import { finishChoice } from "./fact_fields.js";
import { lengthField, numberField } from "./field.js";
import { furnishingFields, furnishingWords } from "./furnishings.js";
import { limitFields, tick } from "./limits_fields.js";
import { airFields } from "./own_things.js";
import { partFields } from "./parts_fields.js";
import { origin } from "./origin.js";
import { isReadOnly } from "./scene.js";
import { PART_WORDS, READING_ORDER, WALLS, finishName, isAssumed, lowerFirst, shortName } from "./words.js";

/** @param {Scene} scene */
export function roomFacts(scene) {
  return html`<section class="facts" aria-labelledby="facts-title"><h2 id="facts-title">The room</h2>
    ${row("Size", sizeWords(scene), html`${sizeFields(scene)}${airFields(scene)}${shapeFields(scene)}`)}
    ${row("Walls", wallWords(scene), WALLS.map((wall) => finishField(scene, wall)))}
    ${row("Floor", floorWords(scene), html`${finishField(scene, "floor")}${finishField(scene, "ceiling")}`)}
    ${row("Openings", partWords(scene), partFields(scene))}
    ${row("In it", furnishingWords(scene), furnishingFields(scene))}
    ${row("Goal", goalWords(scene), goalFields(scene))}
    ${row("Limits", limitWords(scene), limitFields(scene))}
  </section>`;
}

/**
 * @param {string} label
 * @param {unknown} words
 * @param {unknown} fields
 */
function row(label, words, fields) {
  return html`<details class="fact" name="facts" @keydown=${closeOnEscape}><summary><span class="fact-label">${label}</span><span class="fact-words">${words}</span></summary>
    <div class="fact-fields">${fields}</div></details>`;
}

/**
 * Closes the fields and gives the focus back to their words.
 * @param {KeyboardEvent} event
 */
function closeOnEscape(event) {
  const details = /** @type {HTMLDetailsElement} */ (event.currentTarget);
  if (event.key !== "Escape" || !details.open) return;
  details.open = false;
  details.querySelector("summary")?.focus();
}

/**
 * @param {string} text
 * @param {boolean} [assumed]
 */
function value(text, assumed = false) {
  return assumed ? html`<u class="is-assumed">${text}</u> <i class="assumed">assumed</i>` : html`<u>${text}</u>`;
}

/** @param {Scene} scene */
function sizeWords({ document, state }) {
  const { width_m, length_m, height_m } = document.room;
  const text = state.units === "imperial"
    ? [width_m, length_m, height_m].map((side) => length(side, "imperial")).join(" × ")
    : `${[width_m, length_m, height_m].map((side) => number(side, 2)).join(" × ")} m`;
  return html`${value(text, isAssumed(document, "room.height_m"))}, ${volume(width_m * length_m * height_m, state.units)}`;
}

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
 * One word if all walls are alike; otherwise the commonest, and which differ.
 * @param {Scene} scene
 */
function wallWords(scene) {
  const { document, library } = scene;
  const finishOf = (/** @type {SurfaceName} */ wall) => document.room.surfaces[wall].finish;
  const groups = [...new Set(WALLS.map(finishOf))].map((finish) => /** @type {const} */ ([finish, WALLS.filter((wall) => finishOf(wall) === finish)]));
  const sorted = groups.sort((a, b) => b[1].length - a[1].length);
  return sorted.map(([finish, walls], index) => {
    const name = lowerFirst(shortName(finishName(library, document, finish)));
    const which = index === 0 ? "" : `${walls.join(" and ")} `;
    const assumed = walls.every((wall) => isAssumed(document, `room.surfaces.${wall}.finish`));
    return html`${index === 0 ? "" : "; "}${which}${value(name, assumed)}`;
  });
}

/** @param {Scene} scene */
function floorWords({ document, library }) {
  const [floor, ceiling] = /** @type {const} */ (["floor", "ceiling"]).map((surface) => value(
    lowerFirst(shortName(finishName(library, document, document.room.surfaces[surface].finish))),
    isAssumed(document, `room.surfaces.${surface}.finish`),
  ));
  return html`${floor}; ceiling ${ceiling}`;
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
function partWords({ document, state }) {
  const all = READING_ORDER.flatMap((surface) => document.room.surfaces[surface].parts ?? []);
  const parts = all.filter((part) => part.role !== "built-in" && part.role !== "wall");
  if (parts.length === 0) return "none";
  return parts.map((part, index) => html`${index === 0 ? "" : ", "}<u>${partWord(part)} ${size(part, state.units).replace(/\u202fm$/, "")}</u>`);
}

/** @param {Part} part */
function partWord(part) {
  return part.role === "opening" && /archway/.test(part.finish) ? "archway" : PART_WORDS[part.role];
}

const TASTES = /** @type {const} */ ({ focused: "focused", "lived-in": "lived-in", spacious: "spacious" });

/** @param {Scene} scene */
function goalWords({ document }) {
  const { low_s, high_s } = goalRange(document);
  const taste = document.goal && "taste" in document.goal ? TASTES[document.goal.taste] : document.goal ? "own figures" : "lived-in";
  return html`${value(taste, isAssumed(document, "goal"))}, ${secondsRange(low_s, high_s)}`;
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

/** @param {Scene} scene */
function limitWords({ document, state }) {
  const words = limitsOf(document, state.units);
  if (words.length === 0) return "none";
  return words.map((word, index) => html`${index === 0 ? "" : ", "}<u>${word}</u>`);
}

/**
 * @param {import("../model/types.js").Scenario} document
 * @param {"metric"|"imperial"} units
 * @returns {string[]}
 */
function limitsOf({ limits = {}, room, currency }, units) {
  return [...new Set([
    ...(limits.bare ?? []).map((surface) => `${surfaceName(surface)} bare`),
    limits.min_height_m === undefined ? "" : `nothing below ${length(limits.min_height_m, units)}`,
    limits.max_height_m === undefined ? "" : `nothing above ${length(limits.max_height_m, units)}`,
    limits.max_depth_m === undefined ? "" : `at most ${length(limits.max_depth_m, units)} deep`,
    limits.max_visible === undefined ? "" : `at most ${limits.max_visible} visible`,
    limits.no_drilling ? "no drilling" : "",
    limits.budget === undefined ? "" : `up to ${money(limits.budget, currency)}`,
    ...(room.keep_clear ?? []).map((zone) => `${zone.why} kept clear`),
  ])].filter(Boolean);
}
