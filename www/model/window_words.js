// What to do about a first bounce off a window, in sentences: each way with what it does to that bounce and to all that counts.

/**
 * @import { Figures, WindowBounce, WindowWay } from "./advice_types.js"
 * @import { Scenario } from "./types.js"
 * @import { Units } from "./format.js"
 */
import { costWords, piecesWords, ruleWords } from "./advice_words.js";
import { decibels, milliseconds, number } from "./format.js";
import { surfaceName } from "./words.js";

/** Gains closer to nothing than this are none, steps. */
const NOTHING = 0.05;

/** Those that are loud enough to count, what may not be done last. @param {WindowBounce[]} bounces @param {Figures} figures @returns {WindowBounce[]} */
export function loudAtWindows(bounces, { faint_db }) {
  const last = (/** @type {WindowWay} */ { rule }) => Number(rule !== null);
  return bounces.filter(({ level_db }) => level_db > faint_db).map((bounce) => ({ ...bounce, ways: [...bounce.ways].sort((a, b) => last(a) - last(b)) }));
}

/** @param {WindowBounce} bounce @returns {string} */
export function windowWords({ loudspeaker, surface, delay_s, level_db }) {
  return `The bounce of the ${["left", "right"][loudspeaker]} loudspeaker off the ${surfaceName(surface)} meets a window, ${milliseconds(delay_s)} late at ${decibels(level_db)} beside the direct sound. No panel may cover it:`;
}

/** @param {WindowWay} way @param {WindowBounce} bounce @param {Scenario} document @param {{id: string, name: string}[]} stand_ins @param {Units} units @returns {string} */
export function wayWords(way, bounce, document, stand_ins, units) {
  const { what, piece, kind, rule, turned_deg, price } = way;
  const kinds = kind ? [...stand_ins, kind] : stand_ins;
  const named = piece ? ` (${piecesWords(document, kinds, [piece], units)})` : "";
  const lead = {
    curtain: `Draw a curtain${named}`, stand: `Stand a panel before it${named}`,
    turn: `Turn both loudspeakers ${number(Math.abs(turned_deg ?? 0))}° ${(turned_deg ?? 0) < 0 ? "out" : "in"}`, accept: "Leave it",
  }[what];
  if (rule) return `${lead}: that may not be, as ${ruleWords(rule)}.`;
  if (what === "accept") return `${lead}: it costs nothing and changes nothing.`;
  return `${lead}: this bounce falls to ${decibels(way.level_db)}, ${gainWords(way.gained)}${price > 0 ? costWords(price, document) : kind || piece ? "" : ", for nothing"}.`;
}

/** @param {number} gained @returns {string} */
function gainWords(gained) {
  if (Math.abs(gained) < NOTHING) return "and all in all hardly anything changes";
  return gained > 0 ? `${number(gained, 1)} steps better in all` : `but ${number(-gained, 1)} steps worse in all`;
}
