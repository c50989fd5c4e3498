/**
 * One level for a bounce: the mean energy where sounds are placed by ear.
 *
 * @import { Reflection } from "../model/types.js"
 */
import { number } from "../model/format.js";

/** The thirds from 1 kHz to 4 kHz, as indices of the 24 bands. */
const PRESENCE_FROM = 13;
const PRESENCE_TO = 19;

/** Worked out once for each bounce of each report: those of today stay while a piece moves. @type {WeakMap<Reflection, string>} */
const known = new WeakMap();

/**
 * The mean energy over the presence bands, as a level in words of a table.
 * @param {Reflection|undefined} reflection
 */
export function presenceLevel(reflection) {
  if (!reflection) return "–";
  const text = known.get(reflection) ?? levelText(reflection.level_db);
  known.set(reflection, text);
  return text;
}

/** The mean energy over the presence bands, dB; minus infinity for nothing. @param {ArrayLike<number>} level_db  24 bands @returns {number} */
export function presenceOf(level_db) {
  let sum = 0;
  for (let band = PRESENCE_FROM; band <= PRESENCE_TO; band += 1) sum += 10 ** (level_db[band] / 10);
  return 10 * Math.log10(sum / (PRESENCE_TO - PRESENCE_FROM + 1));
}

/** @param {ArrayLike<number>} level_db  24 bands */
function levelText(level_db) {
  const level = presenceOf(level_db);
  return Number.isFinite(level) ? number(level) : "none";
}
