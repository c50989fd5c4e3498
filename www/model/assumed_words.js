// What nobody has touched yet, in words, for the sheet.

/** @import { Scenario, SurfaceName } from "./types.js" */
import { SURFACES } from "./geometry.js";
import { surfaceName } from "./words.js";

/** @type {readonly [RegExp, string][]} */
const WORDS = Object.freeze([
  [/^room\.(width|length|height)_m/, "the size of the room"], [/^room\.furnishings/, "the furniture"], [/^room\.temperature|^room\.humidity/, "temperature and humidity"],
  [/^listening\.loudspeakers/, "where the loudspeakers stand"], [/^listening\.seat/, "where the seat is"], [/^goal/, "the goal"], [/^kit/, "what the pieces are made of"], [/^limits/, "the limits of the home"], [/^room\.keep_clear/, "the zones kept clear"],
]);

/** Each once, in the order of the document. @param {Scenario} document @returns {string[]} */
export function assumedWords({ assumed = [] }) {
  return [...new Set(assumed.map(wordsOf))];
}

/** @param {string} path @returns {string} */
function wordsOf(path) {
  const surface = /^room\.surfaces\.(\w+)/.exec(path)?.[1];
  const known = SURFACES.find((/** @type {SurfaceName} */ one) => one === surface);
  if (known) return `what the ${surfaceName(known)} is made of`;
  return WORDS.find(([pattern]) => pattern.test(path))?.[1] ?? path;
}
