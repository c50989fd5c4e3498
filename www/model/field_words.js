// How even the late sound is, in words: a bent decay, flutter, and the surfaces that the late sound lives on.

/** @import { PlanReport, SurfaceName } from "./types.js" */
import { number, percent } from "./format.js";
import { surfaceName } from "./words.js";

/** A surface, or pair, that carries less than this of the late sound is not named. */
const WORTH_A_WORD = 0.2;
const MOST_NAMED = 2;

/** @param {PlanReport} report @returns {string[]} sentences */
export function fieldSentences({ field, flutter }) {
  return [
    ...(field?.bent ? [closed(field.bent)] : []),
    ...(flutter ?? []).map(flutterSentence),
    ...(field ? carrierSentences(field.carriers) : []),
  ];
}

/** @param {string} text @returns {string} */
function closed(text) {
  return /[.?]$/.test(text) ? text : `${text}.`;
}

/** @param {{surfaces: readonly SurfaceName[], repeats_per_s: number}} flutter @returns {string} */
function flutterSentence({ surfaces, repeats_per_s }) {
  const [a, b] = surfaces;
  return `Flutter: ${pair(a, b)} throw a clap to and fro ${number(repeats_per_s)} times a second. Making one of them soft or uneven stops it.`;
}

/** "the left and right wall", "floor and ceiling". @param {SurfaceName} a @param {SurfaceName} b @returns {string} */
function pair(a, b) {
  const [first, second] = [surfaceName(a), surfaceName(b)];
  if (!first.endsWith(" wall")) return `${first} and ${second}`;
  return `the ${first.replace(/ wall$/, "")} and ${second}`;
}

/** @param {NonNullable<PlanReport["field"]>["carriers"]} carriers @returns {string[]} */
function carrierSentences(carriers) {
  const named = carriers.map((one) => ({ share: one.share, names: one.surfaces ?? (one.surface ? [one.surface] : []) }))
    .filter(({ share, names }) => share >= WORTH_A_WORD && names.length > 0)
    .sort((a, b) => b.share - a.share).slice(0, MOST_NAMED)
    .map(({ share, names }) => `${names.length === 2 ? pair(names[0], names[1]) : `the ${surfaceName(names[0])}`} (${percent(share)})`);
  if (named.length === 0) return [];
  return [`The late sound lives mostly on ${named.join(" and ")}. Soft pieces help most there.`];
}
