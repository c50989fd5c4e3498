// Reading lengths as people write them: metric, feet and inches, fractions, either decimal sign.

/**
 * @import { Units } from "./format.js"
 * @typedef {{value_m: number, problem?: undefined} | {problem: string, value_m?: undefined}} ReadLength
 */
import { length } from "./format.js";

const METRES_PER_FOOT = 0.3048;
const METRES_PER_INCH = 0.0254;
const METRIC = Object.freeze({ m: 1, cm: 0.01, mm: 0.001 });
/** Longer texts are nobody's length. */
const LONGEST = 40;

/** @type {Readonly<Record<string, string>>} */
const FRACTIONS = Object.freeze({
  "¼": "1/4", "½": "1/2", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8",
  "⅓": "1/3", "⅔": "2/3", "⅕": "1/5", "⅙": "1/6",
});

const AMOUNT = String.raw`(?:\d+\s+\d+/\d+|\d+/\d+|\d*\.\d+|\d+\.?)`;
const IMPERIAL = new RegExp(String.raw`^(?:(${AMOUNT})\s*(?:'|ft|feet|foot)[\s,-]*)?(?:(${AMOUNT})\s*(?:"|in|inch|inches)?)?$`);
const METRE_PARTS = new RegExp(String.raw`^(\d*\.\d+|\d+\.?)\s*(mm|cm|m|metres?|meters?)?$`);

/**
 * Reads a length as typed. The shown text of the current value gives that value back, whatever the rounding on show.
 * @param {string} text
 * @param {Units} [units] a number without unit is metres in metric and is asked about in imperial
 * @param {number} [shown_m] the value that the field shows
 * @returns {ReadLength}
 */
export function readLength(text, units = "metric", shown_m) {
  const plain = tidy(text);
  if (shown_m !== undefined && plain === tidy(length(shown_m, units))) return { value_m: shown_m };
  if (plain === "" || plain.length > LONGEST) return unreadable(text);
  const threeDigits = /^(\d+),(\d{3})(?!\d)\s*([a-z]*)/.exec(plain);
  if (threeDigits) return askAboutComma(plain, threeDigits);
  return readMetric(plain.replace(/^(\d*),(\d+)/, "$1.$2"), units) ?? readImperial(plain) ?? unreadable(text);
}

/** One spelling for quotes, spaces, fractions and case. @param {string} text @returns {string} */
function tidy(text) {
  return text.normalize("NFC").toLowerCase()
    .replace(/[\u00a0\u2000-\u200a\u202f\u3000]/g, " ")
    .replace(/[¼½¾⅛⅜⅝⅞⅓⅔⅕⅙]/g, (sign) => ` ${FRACTIONS[sign]}`).replace(/⁄/g, "/")
    .replace(/''|[″”“„]/g, '"').replace(/[′’‘]/g, "'")
    .replace(/(\d)\s*-\s*(\d+\/)/g, "$1 $2").replace(/\s+/g, " ").trim();
}

/** @param {string} plain @param {RegExpExecArray} match @returns {ReadLength} */
function askAboutComma(plain, match) {
  const [, before, after, unit] = match;
  const tail = unit ? ` ${unit}` : "";
  return { problem: `Does the comma in “${plain}” mark decimals or thousands? Write ${before}.${after}${tail} or ${before}${after}${tail}.` };
}

/** @param {string} plain @param {Units} units @returns {ReadLength|null} */
function readMetric(plain, units) {
  const match = METRE_PARTS.exec(plain);
  if (!match) return null;
  const unit = match[2] ?? "";
  if (unit === "" && units === "imperial") {
    return { problem: `Feet or inches? Write ${match[1]}' or ${match[1]}".` };
  }
  const scale = unit === "mm" || unit === "cm" ? METRIC[unit] : METRIC.m;
  return checked(Number(match[1]) * scale);
}

/** @param {string} plain @returns {ReadLength|null} */
function readImperial(plain) {
  const match = IMPERIAL.exec(plain);
  if (!match || (match[1] === undefined && match[2] === undefined)) return null;
  if (match[1] === undefined && !/["n]|inch/.test(plain)) return null;
  const feet = match[1] === undefined ? 0 : amount(match[1]);
  const inches = match[2] === undefined ? 0 : amount(match[2]);
  return checked(feet * METRES_PER_FOOT + inches * METRES_PER_INCH);
}

/** "10 1/2" as 10.5. @param {string} text @returns {number} */
function amount(text) {
  return text.split(" ").reduce((sum, part) => {
    const [above, below] = part.split("/");
    return sum + Number(above) / (below === undefined ? 1 : Number(below));
  }, 0);
}

/** Kept to the stored 0.1 mm. @param {number} value_m @returns {ReadLength|null} */
function checked(value_m) {
  return Number.isFinite(value_m) ? { value_m: Math.round(value_m * 1e4) / 1e4 } : null;
}

/** @param {string} text @returns {ReadLength} */
function unreadable(text) {
  const start = text.trim().slice(0, 24);
  return { problem: start === "" ? `Type a length, for example 3.1 m or 10' 2".` : `I could not read “${start}”. Try 3.1 m or 10' 2".` };
}
