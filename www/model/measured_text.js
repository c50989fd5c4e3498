// Decay times, and figures of data sheets, as people type or paste them: one or many, with their bands or in the order of the fields; cells apart by tab,
// semicolon, comma or space; a decimal point or a decimal comma.

import { DECAY, SHEET } from "./limits.js";
import { frequency, number } from "./format.js";

/** Below this a number is a time, s; from here on a frequency, Hz. */
const LEAST_HZ = 40;
/** A band is meant if its centre is this near. */
const NEAR = 0.06;

/**
 * What the figures are: an example, what a band without one lacks, and why a value cannot be one; null: it can.
 * @typedef {{example: string, one: string, refuse: (value: number) => string|null}} Quantity
 */

/** @type {Quantity} */
const TIMES = Object.freeze({
  example: "0.62, or 500 Hz 0.62", one: "time",
  refuse: (/** @type {number} */ time_s) => (isTime(time_s) ? null : `${number(time_s, 2)} s is no decay time of a room; it must lie between ${DECAY.least_s} and ${DECAY.most_s} s.`),
});

/** @type {Quantity} */
const SHARES = Object.freeze({
  example: "0.85, or 500 Hz 0.85", one: "figure",
  refuse: (/** @type {number} */ value) => {
    if (value < 0) return `${number(value, 2)} is below 0: nothing gives back more sound than meets it. Check the sign.`;
    return value > SHEET.most ? `${number(value, 2)} is more than a data sheet states; the most taken here is ${SHEET.most}. Percent? Divide by 100.` : null;
  },
});

/**
 * Absorption as data sheets state it, by band.
 * @param {string} text @param {readonly number[]} bands_hz @param {number} [first]
 * @returns {{values: Map<number, number>, problem?: undefined} | {problem: string}}
 */
export function readShares(text, bands_hz, first = 0) {
  const read = readFigures(text, bands_hz, first, bands_hz, SHARES);
  return read.problem === undefined ? { values: read.times } : read;
}

/**
 * What a text says of these bands.
 * @param {string} text @param {readonly number[]} bands_hz  all that may be named, ascending
 * @param {number} [first]  index of the band that a row without frequencies starts at, among `inOrder_hz`
 * @param {readonly number[]} [inOrder_hz]  the fields that such a row fills
 * @returns {{times: Map<number, number>, problem?: undefined} | {problem: string}}
 */
export function readMeasured(text, bands_hz, first = 0, inOrder_hz = bands_hz) {
  return readFigures(text, bands_hz, first, inOrder_hz, TIMES);
}

/**
 * @param {string} text @param {readonly number[]} bands_hz @param {number} first @param {readonly number[]} inOrder_hz @param {Quantity} what
 * @returns {{times: Map<number, number>, problem?: undefined} | {problem: string}}
 */
function readFigures(text, bands_hz, first, inOrder_hz, what) {
  const cells = cellsOf(text, what);
  if ("problem" in cells) return cells;
  const rows = cells.rows.map((row) => row.map(readNumber));
  const bad = cells.rows.flat().find((_, index) => rows.flat()[index] === null);
  if (bad !== undefined) return { problem: `I could not read “${bad.slice(0, 24)}”. Try ${what.example}.` };
  const values = /** @type {number[][]} */ (rows);
  const pairs = pairsOf(values) ?? inOrder(values.flat(), first, inOrder_hz);
  return "problem" in pairs ? pairs : checked(pairs, bands_hz, what);
}

/** Whether a text holds more than one number. @param {string} text @returns {boolean} */
export function isMany(text) {
  const cells = cellsOf(text, TIMES);
  return !("problem" in cells) && cells.rows.flat().length > 1;
}

/** A single time. @param {string} text @returns {{time_s: number, problem?: undefined} | {problem: string}} */
export function readTime(text) {
  const value = readNumber(text);
  if (value === null) return { problem: `I could not read “${text.trim().slice(0, 24)}”. Try 0.62 s.` };
  return isTime(value) ? { time_s: value } : { problem: `${number(value, 2)} s: a decay time of a room lies between ${DECAY.least_s} and ${DECAY.most_s} s.` };
}

/** @param {string} text @param {Quantity} what @returns {{rows: string[][]} | {problem: string}} */
function cellsOf(text, what) {
  const lines = text.split(/[\r\n]+/).map((line) => line.trim()).filter(Boolean);
  if (lines.length === 0) return { problem: `Nothing to read. Try ${what.example}.` };
  if (/[\t;]/.test(text)) return { rows: lines.map((line) => split(line, /[\t;]/)) };
  const pointed = /\d\.\d/.test(text);
  const commas = /,/.test(text);
  if (commas && !pointed && lines.some((line) => /^[\d,]+$/.test(line.replace(/,\s+/g, " ")) && (line.match(/\d,\d/g) ?? []).length > 1 && !/\s/.test(line))) {
    return { problem: "I cannot tell decimal commas from commas between values here. Put semicolons or line breaks between values." };
  }
  // With decimal points a comma stands between values; without them only one that a space follows does.
  const between = pointed ? /,\s*|\s+/ : /,\s+|\s+/;
  return { rows: lines.map((line) => split(joined(line), between)) };
}

/** Units stay with their number. @param {string} line @returns {string} */
function joined(line) {
  return line.replace(/(\d)\s+(k?hz|k|ms|s)(?![a-z])/gi, "$1$2");
}

/** @param {string} line @param {RegExp} between @returns {string[]} */
function split(line, between) {
  return line.split(between).map((cell) => cell.trim()).filter(Boolean);
}

/** Hz or s; a number from {@link LEAST_HZ} on without unit is a frequency. @param {string} cell @returns {number|null} */
function readNumber(cell) {
  const match = /^([-−]?(?:\d+(?:[.,]\d+)?|[.,]\d+))\s*(khz|hz|k|ms|s)?\s*:?$/i.exec(cell.trim());
  if (!match) return null;
  const value = Number(match[1].replace(",", ".").replace("−", "-"));
  const unit = match[2]?.toLowerCase();
  if (unit === "khz" || unit === "k") return value * 1000;
  return unit === "ms" ? value / 1000 : value;
}

/** Frequencies beside or above times. @param {number[][]} rows @returns {[number, number][]|null} */
function pairsOf(rows) {
  const flat = rows.flat();
  if (!flat.some((value) => value >= LEAST_HZ)) return null;
  const [head, ...rest] = rows;
  if (rest.length === 1 && head.length === rest[0].length && head.every((value) => value >= LEAST_HZ)) return head.map((hz, index) => [hz, rest[0][index]]);
  return flat.length % 2 === 0 ? Array.from({ length: flat.length / 2 }, (_, index) => /** @type {[number, number]} */ ([flat[2 * index], flat[2 * index + 1]])) : [[flat[0], Number.NaN]];
}

/** @param {number[]} times @param {number} first @param {readonly number[]} bands_hz @returns {[number, number][]|{problem: string}} */
function inOrder(times, first, bands_hz) {
  const room = bands_hz.length - first;
  if (times.length > room) return { problem: `${times.length} values do not fit: from ${frequency(bands_hz[first])} on there are ${room} bands. Put the frequency before each value.` };
  return times.map((time_s, index) => [bands_hz[first + index], time_s]);
}

/** @param {[number, number][]} pairs @param {readonly number[]} bands_hz @param {Quantity} what @returns {{times: Map<number, number>} | {problem: string}} */
function checked(pairs, bands_hz, what) {
  /** @type {Map<number, number>} */
  const times = new Map();
  for (const [hz, time_s] of pairs) {
    const band = bands_hz.find((centre) => Math.abs(Math.log(centre / hz)) < NEAR);
    if (band === undefined) return { problem: hz < LEAST_HZ ? "I could not tell frequencies from values. Put the frequency before each value: 500 0.62." : `${frequency(hz)} is no band from ${frequency(bands_hz[0])} to ${frequency(bands_hz[bands_hz.length - 1])}.` };
    if (Number.isNaN(time_s)) return { problem: `There is no ${what.one} for ${frequency(band)}.` };
    const refused = what.refuse(time_s);
    if (refused !== null) return { problem: `${frequency(band)}: ${refused}` };
    if (times.has(band)) return { problem: `${frequency(band)} is there twice.` };
    times.set(band, time_s);
  }
  return { times };
}

/** @param {number} value @returns {boolean} */
function isTime(value) {
  return value >= DECAY.least_s && value <= DECAY.most_s;
}
