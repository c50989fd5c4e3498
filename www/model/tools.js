// What is needed at the wall, by how the pieces of a plan are held. Common practice, no source.

/** @import { HangItem } from "./hang.js" */

/** Work above this is done from steps. */
const OVER_REACH_M = 2;

/** @param {readonly HangItem[]} items @returns {string[]} */
export function toolsFor(items) {
  const drilled = items.some(({ fixings }) => fixings.length > 0);
  const has = (/** @type {HangItem["how"][]} */ ...hows) => items.some(({ how }) => hows.includes(how));
  const isHigh = items.some(({ how, rect }) => how === "overhead" || (["hangs", "rail", "corner"].includes(how) && rect.v_m + rect.height_m > OVER_REACH_M));
  const fibre = items.some(({ kind }) => /\bfib(re|er)|wool|own build/i.test(kind.name));
  return [
    "tape measure", "pencil", ...(has("hangs", "overhead", "rail", "corner") ? ["spirit level"] : []),
    ...(drilled ? ["detector for cables and pipes", "drill with bits for this wall", "fixings rated above the weights shown"] : []),
    ...(has("overhead") ? ["a second independent hold for each overhead piece"] : []),
    ...(has("stands", "lies") ? ["weights or a tether for what stands", "an underlay that grips for what lies"].filter((_, at) => has(at === 0 ? "stands" : "lies")) : []),
    ...(isHigh ? ["steps and a second person"] : []), ...(fibre ? ["gloves, eye protection, a dust mask"] : []),
  ];
}
