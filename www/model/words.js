// Names of things in plain words, so that every part of the page says them alike.

/** @import { Part, Scenario, SurfaceName } from "./types.js" */

/** @type {Readonly<Record<SurfaceName, string>>} */
const SURFACE_NAMES = Object.freeze({
  left: "left wall", right: "right wall", front: "front wall", back: "back wall", floor: "floor", ceiling: "ceiling",
});

/** "left wall", "ceiling". @param {SurfaceName} surface @returns {string} */
export function surfaceName(surface) {
  return SURFACE_NAMES[surface];
}

/** "Now", but "Plan A" for a plan named by a letter or anything else. @param {string} name @returns {string} */
export function planName(name) {
  return name === "Now" || /^plan\b/i.test(name) ? name : `Plan ${name}`;
}

/** "the archway", "the window", for a part of a surface. @param {Part} part @returns {string} */
export function partName(part) {
  if (part.role === "opening") return /archway/.test(part.finish) ? "the archway" : "the opening";
  return { wall: "the patch", door: "the door", window: "the window", "built-in": "the built-in" }[part.role];
}

/** The name of the kind of a piece. @param {Scenario} document @param {string} id @returns {string} */
export function kindName(document, id) {
  return document.kit?.find((kind) => kind.id === id)?.name ?? id;
}

/** First letter large. @param {string} text @returns {string} */
export function sentence(text) {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
