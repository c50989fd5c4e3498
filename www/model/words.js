// Names of things in plain words, so that every part of the page says them alike.

/** @import { KeepClear, Part, Scenario, SurfaceName } from "./types.js" */

/** @type {Readonly<Record<SurfaceName, string>>} */
const SURFACE_NAMES = Object.freeze({
  left: "left wall", right: "right wall", front: "front wall", back: "back wall", floor: "floor", ceiling: "ceiling",
});

/** "left wall", "ceiling". @param {SurfaceName} surface @returns {string} */
export function surfaceName(surface) {
  return SURFACE_NAMES[surface];
}

/** "Now", "Plan A" for a plan named by a letter or two, and a longer name in quotes, in a sentence. @param {string} name @returns {string} */
export function planName(name) {
  if (name === "Now" || /^plan\b/i.test(name)) return name;
  return [...name].length <= LETTERS ? `Plan ${name}` : `“${name}”`;
}

/** Names up to this long are letters, not words. */
const LETTERS = 2;

/** The name of a plan where it stands alone, cut to what there is room for. @param {string} name @param {number} [most] characters @returns {string} */
export function planLabel(name, most = Infinity) {
  const whole = planName(name).replace(/^“|”$/g, "");
  return [...whole].length > most ? `${[...whole].slice(0, most - 1).join("").trimEnd()}…` : whole;
}

/** "the archway", "the window", for a part of a surface. @param {Part} part @returns {string} */
export function partName(part) {
  if (part.role === "opening") return /archway/.test(part.finish) ? "the archway" : "the opening";
  return { wall: "the patch", door: "the door", window: "the window", "built-in": "the built-in" }[part.role];
}

/** "the radiator", for a zone that stays clear. @param {KeepClear} zone @returns {string} */
export function zoneName({ why }) {
  return /^(the|a|an|your|no)\b/i.test(why) ? why : `the ${why}`;
}

/** The name of the kind of a piece. @param {Scenario} document @param {string} id @returns {string} */
export function kindName(document, id) {
  return document.kit?.find((kind) => kind.id === id)?.name ?? id;
}

/** First letter large. @param {string} text @returns {string} */
export function sentence(text) {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
