/**
 * Words that only the drawing and its notes need; the names that are said everywhere are in model/words.js.
 *
 * @import { Library, PartRole, Scenario, SurfaceName } from "../model/types.js"
 */

/** In the order in which they are read. @type {SurfaceName[]} */
export const READING_ORDER = ["floor", "left", "right", "front", "back", "ceiling"];

/** @type {SurfaceName[]} */
export const WALLS = ["left", "right", "front", "back"];

/** @type {Record<PartRole, string>} */
export const PART_WORDS = {
  wall: "other finish",
  door: "door",
  window: "window",
  opening: "opening",
  "built-in": "built-in",
};

/**
 * What u and v are measured from on a surface, as words for a field.
 * @param {SurfaceName} surface
 * @returns {{u: string, v: string}}
 */
export function axisWords(surface) {
  if (surface === "floor" || surface === "ceiling") return { u: "from the left wall", v: "from the front wall" };
  if (surface === "left" || surface === "right") return { u: "from the front wall", v: "above the floor" };
  return { u: "from the left wall", v: "above the floor" };
}

/**
 * @param {Scenario} document
 * @param {string} path
 */
export function isAssumed(document, path) {
  return (document.assumed ?? []).includes(path);
}

/**
 * @param {Library} library
 * @param {Scenario} document
 * @param {string} id
 */
export function finishName(library, document, id) {
  const known = [...library.finishes, ...(document.own_finishes ?? [])].find((finish) => finish.id === id);
  return known?.name ?? id;
}

/**
 * @param {Library} library
 * @param {Scenario} document
 * @param {string} id
 */
export function furnishingName(library, document, id) {
  const known = [...library.furnishings, ...(document.own_furnishings ?? [])].find((one) => one.id === id);
  return known?.name ?? id;
}

/**
 * The name without what follows a comma or a bracket, for places with little room.
 * @param {string} name
 */
export function shortName(name) {
  return name.split(/,| \(/)[0] ?? name;
}

/** @param {string} text */
export function lowerFirst(text) {
  return text.charAt(0).toLowerCase() + text.slice(1);
}
