// The response at the seat in one sentence: how even it is where ears are fussy, and where it leaves that by most.

/** @import { Levels } from "./types.js" */
import { frequency, number } from "./format.js";

/** Over these frequencies the mean is taken and the evenness told, Hz. Below them the room's notes rule. */
const EVEN_FROM_HZ = 200;
const EVEN_TO_HZ = 10000;

/** The longest form that the sentence takes, so that it has its room before it comes. */
export const LONGEST_RESPONSE = "In third-octaves it stays within 88\u202fdB of its mean from 200\u202fHz to 10\u202fkHz; over all it is loudest, 88\u202fdB above that mean at 125\u202fHz, and quietest, 88\u202fdB below that mean at 125\u202fHz.";

/**
 * @param {Levels} third  in third-octaves
 * @param {"both_db"|"left_db"|"right_db"} side
 * @param {(hz: number) => number} nominal  a band's name
 * @returns {string}
 */
export function responseSentence(third, side, nominal) {
  const bands = Array.from(third.frequency_hz, (hz, index) => ({ hz, level_db: third[side][index] })).filter(({ level_db }) => Number.isFinite(level_db));
  const middle = bands.filter(({ hz }) => hz >= EVEN_FROM_HZ && hz <= EVEN_TO_HZ * 1.1);
  if (middle.length === 0) return "";
  const mean_db = 10 * Math.log10(middle.reduce((sum, { level_db }) => sum + 10 ** (level_db / 10), 0) / middle.length);
  const off = Math.max(...middle.map(({ level_db }) => Math.abs(level_db - mean_db)));
  const highest = bands.reduce((a, b) => (b.level_db > a.level_db ? b : a));
  const lowest = bands.reduce((a, b) => (b.level_db < a.level_db ? b : a));
  const beside = (/** @type {{hz: number, level_db: number}} */ one) => `${number(Math.abs(one.level_db - mean_db))}\u202fdB ${one.level_db >= mean_db ? "above" : "below"} that mean at ${frequency(nominal(one.hz))}`;
  return `In third-octaves it stays within ${number(off)}\u202fdB of its mean from 200\u202fHz to 10\u202fkHz; over all it is loudest, ${beside(highest)}, and quietest, ${beside(lowest)}.`;
}
