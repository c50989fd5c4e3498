/**
 * Room facts: a schedule of words about the room. Each line opens the fields behind its words, in place.
 *
 * @import { Part, SurfaceName } from "../model/types.js"
 * @import { Scene } from "./scene.js"
 */
import { html } from "../vendor.js";
import { goalRange } from "../model/answer.js";
import { length, money, number, secondsRange, size, volume } from "../model/format.js";
import { looksLimit } from "../model/looks_like.js";
import { surfaceName } from "../model/words.js";
import { afterwards } from "./afterwards.js";
import { closeOnEscape, closeWhenLeft } from "./escape.js";
import { furnishingWords } from "./furnishing_words.js";
import { inFold } from "./rest.js";
import { TASTES } from "./tastes.js";
import { PART_WORDS, READING_ORDER, WALLS, finishName, isAssumed, lowerFirst, shortName } from "./words.js";

/** @param {Scene} scene */
export function roomFacts(scene) {
  const fields = afterwards.here()?.ROOM_FIELDS;
  /** @param {keyof NonNullable<typeof fields>} label @param {unknown} words */
  const row = (label, words) => html`<details class="fact" name="facts" @keydown=${closeOnEscape} @focusout=${closeOverRows} @toggle=${() => afterwards.want(scene.dispatch)}>
    <summary><span class="fact-label">${label}</span><span class="fact-words">${words}</span></summary>
    <div class="fact-fields">${inFold([scene], () => (fields ? fields[label](scene) : afterwards.words()))}</div></details>`;
  return html`<section class="facts" aria-labelledby="facts-title"><h2 id="facts-title">The room</h2>
    ${row("Size", sizeWords(scene))}${row("Walls", wallWords(scene))}${row("Floor", floorWords(scene))}${row("Openings", partWords(scene))}
    ${row("In it", furnishingWords(scene))}${row("Goal", goalWords(scene))}${row("Limits", limitWords(scene))}</section>`;
}

/**
 * On a roomy page the fields lie over the rows that follow: once the focus goes on to one of these, they would hide it.
 * @param {FocusEvent} event
 */
function closeOverRows(event) {
  if (!(/** @type {HTMLElement} */ (event.currentTarget).closest(".is-narrow"))) closeWhenLeft(event);
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

/** @param {Scene} scene */
function goalWords({ document }) {
  const { low_s, high_s } = goalRange(document);
  const taste = document.goal && "taste" in document.goal ? TASTES[document.goal.taste] : document.goal ? "own figures" : "lived-in";
  return html`${value(taste, isAssumed(document, "goal"))}, ${secondsRange(low_s, high_s)}`;
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
    looksLimit({ limits }),
    limits.budget === undefined ? "" : `up to ${money(limits.budget, currency)}`,
    ...(room.keep_clear ?? []).map((zone) => `${zone.why} kept clear`),
  ])].filter(Boolean);
}
