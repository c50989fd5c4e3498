// How many pieces of a kind are needed, in sentences: until the goal is met, until that is 8 times in 10 so, and when it is too much.

/**
 * @import { Amount, Count } from "./advice_types.js"
 * @import { Scenario } from "./types.js"
 * @import { Units } from "./format.js"
 */
import { costWords } from "./advice_words.js";
import { goalRange } from "./answer.js";
import { area, money, number, percent, seconds, secondsRange } from "./format.js";

/** @param {Amount} amount @param {string} name  of the kind @param {Scenario} document @param {Units} units @returns {string[]} */
export function amountWords(amount, name, document, units) {
  const { low_s, high_s } = goalRange(document);
  const goal = `your goal of ${secondsRange(low_s, high_s)}`;
  const words = needWords(amount, { name, goal, low_s, high_s }, document, units);
  return [...words, ...tooManyWords(amount, units)];
}

/**
 * @param {Amount} amount
 * @param {{name: string, goal: string, low_s: number, high_s: number}} said
 * @param {Scenario} document
 * @param {Units} units
 * @returns {string[]}
 */
function needWords({ middle_s, most, middle, sure, surest }, { name, goal, low_s, high_s }, document, units) {
  if (middle_s === null || !most) return ["This cannot be said here: in some band the sound does not die away."];
  if (!middle) {
    if (middle_s < low_s) return [`None: the middle decay of ${seconds(middle_s)} is shorter than ${goal} already.`];
    if (most.pieces === 0) return [`No ${name} fits where one may be.`];
    const isShort = most.middle_s !== null && most.middle_s <= high_s;
    return [isShort ? `No number of ${name} meets ${goal}: one fewer is too few, one more too many.`
      : `Not enough fit: all ${most.pieces} × ${name} (${sizeWords(most, units)}) bring the middle decay from ${number(middle_s, 2)} to ${most.middle_s === null ? "no time that can be given" : seconds(most.middle_s)}, and ${goal} is not met.`];
  }
  const first = middle.pieces === 0 ? `None, as far as the middle estimate goes: the middle decay of ${seconds(middle_s)} is inside ${goal} already; ${chanceWords(middle.met)}.`
    : `${middle.pieces} × ${name} (${sizeWords(middle, units)}) bring the middle decay from ${number(middle_s, 2)} to ${seconds(middle.middle_s ?? 0)}, inside ${goal}${costWords(middle.price, document)}; ${chanceWords(middle.met)}.`;
  return [first, ...sureWords({ middle, sure, surest }, document, units), ...limitWords(sure ?? middle, document)];
}

/** @param {{middle: Count, sure: Count|null, surest: Count|null}} counts @param {Scenario} document @param {Units} units @returns {string[]} */
function sureWords({ middle, sure, surest }, document, units) {
  if (sure) return sure.pieces === middle.pieces ? [] : [`To be 8 times in 10 sure it takes ${sure.pieces} (${sizeWords(sure, units)})${costWords(sure.price, document)}.`];
  if (!surest) return [];
  return [`No number makes it 8 times in 10 sure, as the prediction is not that sharp; with ${surest.pieces} (${sizeWords(surest, units)}) it comes nearest: ${chanceWords(surest.met)}.`];
}

/** Where so many are more than the home allows. @param {Count} count @param {Scenario} document @returns {string[]} */
function limitWords({ pieces, price }, { limits, currency }) {
  const budget = limits?.budget;
  const seen = limits?.max_visible;
  return [
    ...(budget !== undefined && price > budget ? [`That is more than your ${money(budget, currency)}.`] : []),
    ...(seen !== undefined && pieces > seen ? [`Your limit lets ${seen} be seen; curtains and rugs do not count as seen.`] : []),
  ];
}

/** @param {Amount} amount @param {Units} units @returns {string[]} */
function tooManyWords({ too_many, most }, units) {
  if (!most || most.pieces === 0) return [];
  if (!too_many) return [`All ${most.pieces} that fit are not too many.`];
  const [count, why] = too_many;
  const what = why === "decay" ? "the middle decay falls below your goal" : "the treble dies away in less than three quarters of the middle decay: the room turns dull";
  if (count.pieces > 0) return [`From ${count.pieces} on (${sizeWords(count, units)}) it is too much: ${what}.`];
  return [why === "decay" ? "Each one more makes it shorter still." : "The treble dies away in less than three quarters of the middle decay already: the room is dull as it is."];
}

/** "5.0 m², 7 % of walls and ceiling". @param {Count} count @param {Units} units @returns {string} */
function sizeWords({ area_m2, share }, units) {
  return `${area(area_m2, units)}, ${percent(share)} of walls and ceiling`;
}

/** @param {number|null} met @returns {string} */
function chanceWords(met) {
  return met === null ? "how often is not known" : `this is so ${number(10 * met)} times in 10`;
}
