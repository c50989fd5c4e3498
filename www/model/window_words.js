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
  if (what === "swap") return swapWords(way);
  const lead = {
    curtain: `Draw a curtain${named}`, stand: `Stand a panel before it${named}`,
    turn: `Turn both loudspeakers ${number(Math.abs(turned_deg ?? 0))}° ${(turned_deg ?? 0) < 0 ? "out" : "in"}`, accept: "Leave it",
  }[what];
  if (rule) return `${lead}: that may not be, as ${ruleWords(rule)}.`;
  if (what === "accept") return `${lead}: it costs nothing and changes nothing.`;
  return `${lead}: this bounce falls to ${decibels(way.level_db)}, ${gainWords(way.gained)}${price > 0 ? costWords(price, document) : kind || piece ? "" : ", for nothing"}.`;
}

/** Why the set-up may not be before a wall. @type {Readonly<Record<string, string>>} */
const BARRED = Object.freeze({
  furniture: "furniture stands there", zone: "a zone there stays clear", way: "a way or the swing of a door is there", route: "a way to walk would close", "too-large": "there is no room for it",
  piece: "a piece is there", "built-in": "something built in is there", window: "a bounce would meet a window again",
});

/** @param {WindowWay} way @returns {string} */
function swapWords({ wall, lands, barred, level_db, gained }) {
  if (wall === null) {
    return `Put another wall behind the loudspeakers: that may not be. ${barred.map(([one, rule]) => `Before the ${surfaceName(one)} ${BARRED[rule] ?? ruleWords(rule)}`).join("; ").replaceAll("; Before", "; before")}.`;
  }
  const instead = lands === null ? "" : `; the one in place of this comes off the ${surfaceName(lands)} at ${decibels(level_db)}`;
  return `Put the ${surfaceName(wall)} behind the loudspeakers, seat and all: no bounce that counts meets a window then, so that panels may take them${instead}, ${gainWords(gained)}, for nothing. What this does to the bass is not weighed here.`;
}

/** @param {number} gained @returns {string} */
function gainWords(gained) {
  if (Math.abs(gained) < NOTHING) return "and all in all hardly anything changes";
  return gained > 0 ? `${number(gained, 1)} steps better in all` : `but ${number(-gained, 1)} steps worse in all`;
}
