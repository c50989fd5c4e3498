// What stands out in the plan in hand, in a sentence each, and said only where the figures bear it out: a boom that pieces do
// not reach, a room that needs nothing, treble that is taken more than the rest, sides that differ.

/**
 * @import { Answer, Bass, Listening, PlanReport, Ranges, Reflection, Scenario, SurfaceName } from "./types.js"
 * @typedef {{lead: string, more: string}} Finding  lead: may begin the answer; more: what follows it, set smaller
 */
import { isLikely } from "./doubt.js";
import { frequency, length, number, secondsRange } from "./format.js";
import { kindById } from "./geometry.js";
import { kindDepth } from "./kinds.js";
import { listeningOf, sidesOf } from "./marks.js";
import { weightOf } from "./bass_words.js";
import { partName } from "./words.js";

/** Notes up to here boom. */
const BOOM_HZ = 120;
/** A note that is fed and heard less than this does not matter at the seat. */
const LEAST_WEIGHT = 0.15;
/** Pieces that leave a note this share of its ringing hardly touch it; the core says so from here on too. */
const UNTOUCHED = 0.9;
/** A move of the seat helps more than pieces where it takes this share of the unevenness away. Our choice. */
const HELPS_SHARE = 1 / 3;
/** Sides of a room that differ by less than this make it square. */
const SQUARE_SHARE = 0.03;
/** Treble falls out of line where it is this much shorter than the middle. */
const TREBLE_SHARE = 0.75;
/** First bands of the lows and of the treble, as indices of the thirds: 250 Hz; 2 kHz to 4 kHz. */
const LOW_BAND = 7;
const TREBLE_BANDS = Object.freeze([16, 17, 18, 19]);
/** 1 kHz to 4 kHz. */
const PRESENCE_BANDS = Object.freeze([13, 14, 15, 16, 17, 18, 19]);
/** Sides that bounce this differently pull the image to one of them. Our choice, dB. */
const SIDES_DB = 3;
/** Bounces of either side that belong together come this close, s. */
const ALIKE_S = 0.001;
/** Parts of a move shorter than this are not worth their words, m. */
const LEAST_MOVE_M = 0.075;
/** Porous pieces thinner than this act on the treble only, m. */
const THIN_M = 0.04;

/**
 * "Panels will not fix the boom", where two low notes share a pitch, the pieces hardly touch the bass, and a move of the seat
 * takes a third or more of its unevenness away, or this plan is that move.
 * @param {Scenario} document @param {number} plan @param {Bass|null} here @param {Bass|null} today  bass of the room as it is
 * @param {"metric"|"imperial"} [units] @returns {Finding|null}
 */
export function boom(document, plan, here, today, units = "metric") {
  if (!here || (here.note_kept ?? 0) <= UNTOUCHED) return null;
  const moved = !helps(here) && document.plans[plan].listening !== undefined && today !== null && helps(today);
  const shared_hz = moved && today ? sharedNote(today) : helps(here) ? sharedNote(here) : null;
  if (shared_hz === null) return null;
  const { width_m, length_m } = document.room;
  const isSquare = Math.abs(width_m - length_m) < SQUARE_SHARE * Math.max(width_m, length_m);
  const pitch = `Two bass notes share ${frequency(shared_hz)}${isSquare ? " in this square room" : ""}.`;
  const lead = "Panels will not fix the boom.";
  if (moved) return { lead, more: `${pitch} This plan moves the seat, which helps more, for nothing.` };
  return { lead, more: `${pitch} Moving the seat ${moveWords(here, listeningOf(document, plan), units)} helps more, for nothing.` };
}

/** The lowest pitch that two notes share and the seat hears. @param {Bass} bass @returns {number|null} Hz */
function sharedNote({ coincident, modes }) {
  const heard = coincident.map(([i, j]) => [modes[i], modes[j]]).filter(([a, b]) => (
    a && b && Math.max(a.frequency_hz, b.frequency_hz) <= BOOM_HZ && Math.max(weightOf(a), weightOf(b)) >= LEAST_WEIGHT));
  return heard.length > 0 ? Math.min(...heard.map(([a]) => a.frequency_hz)) : null;
}

/** @param {Bass} bass @returns {boolean} */
function helps({ evener }) {
  return evener !== null && evener !== undefined && evener.from_db - evener.varies_db >= HELPS_SHARE * evener.from_db;
}

/** "48 cm forward". @param {Bass} bass @param {Listening} listening @param {"metric"|"imperial"} units @returns {string} */
function moveWords({ evener }, { seat }, units) {
  if (!evener || !seat) return "a little";
  const way = (/** @type {number} */ by_m, /** @type {string} */ more, /** @type {string} */ less) => (
    Math.abs(by_m) < LEAST_MOVE_M ? "" : `${units === "imperial" ? length(Math.abs(by_m), units) : `${number(Math.abs(by_m) * 100)} cm`} ${by_m > 0 ? more : less}`);
  return [way(evener.y_m - seat.y_m, "back", "forward"), way(evener.x_m - seat.x_m, "to the right", "to the left")].filter(Boolean).join(" and ");
}

/** Whether the lowest notes may share a pitch here, from the sides alone: before the bass is computed. @param {Scenario} document @returns {boolean} */
export function mayBoom({ room: { width_m, length_m, height_m } }) {
  const [short_m, middle_m, long_m] = [width_m, length_m, height_m].toSorted((a, b) => a - b);
  return middle_m - short_m < SQUARE_SHARE * middle_m || long_m - middle_m < SQUARE_SHARE * long_m;
}

/**
 * Too soft on top: 8 times in 10 the treble fades sooner than the goal asks for and sooner than 250 Hz, and its middle is a
 * quarter shorter than the mean.
 * @param {Answer} answer @param {Ranges|null} ranges @param {{low_s: number}} goal @returns {Finding|null}
 */
export function tooSoft({ document, plan, shown }, ranges, goal) {
  const mid_s = shown.mid.t20_s;
  if (!ranges?.decay || !shown.decay || mid_s === null) return null;
  const [low_s, high_s, treble_s] = [treble(ranges.decay.low_s), treble(ranges.decay.high_s), treble(shown.decay.t20_s)];
  const below = [ranges.decay.low_s[LOW_BAND], ranges.decay.high_s[LOW_BAND]];
  if (!(high_s < goal.low_s && high_s < below[0] && treble_s <= TREBLE_SHARE * mid_s)) return null;
  const would = plan === 0 ? "fades" : "would fade";
  return { lead: "Too soft on top.", more: `Treble ${would} in ${secondsRange(low_s, high_s)} while 250\u202fHz takes ${secondsRange(below[0], below[1])}.${thinner(document, plan)}` };
}

/** Mean over 2 kHz to 4 kHz. @param {ArrayLike<number>} bands @returns {number} */
function treble(bands) {
  return TREBLE_BANDS.reduce((sum, band) => sum + bands[band], 0) / TREBLE_BANDS.length;
}

/** Whether the middle values alone make it likely, before the ranges come. @param {Answer} answer @param {{low_s: number}} goal @returns {boolean} */
export function maySoft({ shown }, goal) {
  const { mid: { t20_s: mid_s }, decay } = shown;
  return mid_s !== null && decay !== undefined && treble(decay.t20_s) <= TREBLE_SHARE * mid_s && treble(decay.t20_s) < goal.low_s;
}

/** What to do about it, by what the plan holds. @param {Scenario} document @param {number} plan @returns {string} */
function thinner(document, plan) {
  const kinds = document.plans[plan].pieces.map(({ kit }) => kindById(document, kit));
  if (kinds.some((kind) => kind && "layers" in kind.absorber && kindDepth(kind) < THIN_M)) return " Swap thin pieces for thick ones.";
  return kinds.length > 0 ? " Try less cloth and rug, or thicker pieces." : "";
}

/**
 * Left and right differ: the bounce off each loudspeaker's own side wall, 1 to 4 kHz.
 * @param {Answer} answer @returns {Finding|null}
 */
export function sidesDiffer({ document, plan, shown }) {
  const walls = sidesOf(listeningOf(document, plan));
  const [left, right] = [ownSide(shown, 0, walls[0]), ownSide(shown, 1, walls[1])];
  if (!left || !right || Math.abs(left.delay_s - right.delay_s) > ALIKE_S) return null;
  const by_db = presence(left) - presence(right);
  if (!(Math.abs(by_db) >= SIDES_DB)) return null;
  const [weak, strong, side, other] = by_db > 0 ? [right, left, "right", "left"] : [left, right, "left", "right"];
  const bare = weak.pieces.length === 0 && !weak.screened_by?.length && strong.pieces.length === 0;
  return {
    lead: "Left and right differ.",
    more: `Left and right differ: the ${side} side bounces ${number(Math.abs(by_db))}\u202fdB less${reason(document, plan, weak, walls[side === "left" ? 0 : 1])}.${bare ? ` Treating only the ${other} evens it.` : ""}`,
  };
}

/** @param {PlanReport} report @param {number} loudspeaker @param {SurfaceName} surface @returns {Reflection|undefined} */
function ownSide({ reflections = [] }, loudspeaker, surface) {
  return reflections.find((one) => one.order === 1 && one.loudspeaker === loudspeaker && one.surfaces[0] === surface);
}

/** @param {Reflection} reflection @returns {number} dB */
function presence({ level_db }) {
  return PRESENCE_BANDS.reduce((sum, band) => sum + level_db[band], 0) / PRESENCE_BANDS.length;
}

/** " because it is open", by what lies at the point. @param {Scenario} document @param {number} plan @param {Reflection} weak @param {SurfaceName} side @returns {string} */
function reason(document, plan, { pieces, parts, screened_by: screens = [], blocked_by: blocked = [] }, side) {
  const part = document.room.surfaces[side].parts?.[parts[0]];
  if (screens.length > 0) return ` because of the screen, piece ${screens[0] + 1}`;
  if (pieces.length > 0) return ` because of piece ${pieces.map((index) => index + 1).join(" and ")}`;
  if (part?.role === "opening") return " because it is open";
  if (blocked.length > 0) return " because furniture is in the way";
  if (part && /book|shel/.test(part.finish)) return " because of the books";
  return part ? ` because of ${partName(part)}` : "";
}

/** Whether today meets the goal already. @param {Ranges|null} today @returns {boolean} */
export function needsNothing(today) {
  return today !== null && isLikely(today.mid.goal_met);
}
