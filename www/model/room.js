// Steps on the room, on the goal and on names and prices.

/**
 * @import { CancelGesture, SetCurrency, SetFinish, SetGoal, SetKind, SetRoom, SetTitle } from "./actions.js"
 * @import { Kind, Room, State } from "./types.js"
 * @import { Units } from "./format.js"
 */
import { count, length, volume } from "./format.js";
import { kindById } from "./geometry.js";
import { commit } from "./history.js";
import { withKind } from "./kinds.js";
import { GOAL, LONGEST_CURRENCY, MOST, MOST_PRICE, ROOM_SIDE, TRUSTED } from "./limits.js";
import { problem } from "./plans.js";
import { refit, tallyText } from "./refit.js";
import { nameText, touched } from "./sheet.js";
import { surfaceName } from "./words.js";

/** What is wrong with a side of the room; null if nothing. @param {number} side_m @param {Units} units @returns {string|null} */
export function sideProblem(side_m, units) {
  if (side_m >= ROOM_SIDE.least_m && side_m <= ROOM_SIDE.most_m) return null;
  return `A side has to lie between ${length(ROOM_SIDE.least_m, units)} and ${length(ROOM_SIDE.most_m, units)}.`;
}

/** What the page says of a room that the model was not tried for; empty for any other. @param {Room} room @param {Units} units @returns {string} */
export function beyondTrust({ width_m, length_m, height_m }, units) {
  const { least_m, most_m, least_m3, most_m3 } = TRUSTED;
  const isOddSide = [width_m, length_m, height_m].some((side_m) => side_m < least_m || side_m > most_m);
  const volume_m3 = width_m * length_m * height_m;
  if (!isOddSide && volume_m3 >= least_m3 && volume_m3 <= most_m3) return "";
  const trusted = isOddSide ? `sides of ${length(least_m, units)} to ${length(most_m, units)}` : `${volume(least_m3, units)} to ${volume(most_m3, units)}`;
  return `Outside the range we trust, ${trusted}: use the order of plans, not the numbers.`;
}

/** @param {State} state @param {SetRoom} action @param {number} now_ms @returns {State} */
export function setRoom(state, { width_m, length_m, height_m }, now_ms) {
  const given = Object.entries({ width_m, length_m, height_m }).filter(([, value]) => value !== undefined);
  if (given.some(([, value]) => !Number.isFinite(value))) return problem(state, "A side of the room must be a number.");
  const wrong = given.map(([, value]) => sideProblem(/** @type {number} */ (value), state.units)).find((text) => text !== null);
  if (wrong) return problem(state, wrong);
  const sides = Object.fromEntries(given.map(([key, value]) => [key, Math.round(/** @type {number} */ (value) * 1e4) / 1e4]));
  const { room } = state.document;
  if (given.every(([key]) => sides[key] === room[/** @type {"width_m"} */ (key)])) return state;
  const { document, tally } = refit({ ...state.document, room: { ...room, ...sides } });
  const text = [beyondTrust(document.room, state.units), tallyText(tally)].filter(Boolean).join(" ");
  return commit(state, {
    label: "size of the room", document: touched(document, ...given.map(([key]) => `room.${key}`)),
    notice: text ? { text, tone: "note", undo: true } : null,
  }, now_ms);
}

/** @param {State} state @param {SetFinish} action @param {number} now_ms @returns {State} */
export function setFinish(state, { surface, finish }, now_ms) {
  const { room } = state.document;
  const path = `room.surfaces.${surface}.finish`;
  const same = room.surfaces[surface].finish === finish;
  const surfaces = { ...room.surfaces, [surface]: { ...room.surfaces[surface], finish } };
  const document = touched(same ? state.document : { ...state.document, room: { ...room, surfaces } }, path);
  return commit(state, { label: `finish of the ${surfaceName(surface)}`, document }, now_ms);
}

/** Takes the moves of a gesture back as if they had not been. @param {State} state @param {CancelGesture} action @returns {State} */
export function cancelGesture(state, { gesture }) {
  const last = state.history.past.at(-1);
  if (!last?.mergeKey?.endsWith(` ${gesture}`)) return state;
  return { ...state, document: last.document, shown: last.shown, history: { ...state.history, past: state.history.past.slice(0, -1) } };
}

/** @param {State} state @param {SetGoal} action @param {number} now_ms @returns {State} */
export function setGoal(state, { goal }, now_ms) {
  if ("low_s" in goal && !(goal.low_s >= GOAL.least_s && goal.high_s > goal.low_s && goal.high_s <= GOAL.most_s)) {
    return problem(state, `A goal goes from a shorter to a longer time, between ${GOAL.least_s} and ${GOAL.most_s} s.`);
  }
  return commit(state, { label: "goal", document: touched({ ...state.document, goal }, "goal") }, now_ms);
}

/** @param {State} state @param {SetTitle} action @param {number} now_ms @returns {State} */
export function setTitle(state, action, now_ms) {
  const title = nameText(action.title);
  if (title === state.document.title) return state;
  if (title === "") return problem(state, "The room needs a name.");
  return commit(state, { label: "name of the room", document: touched({ ...state.document, title }, "title") }, now_ms);
}

/** @param {State} state @param {SetKind} action @param {number} now_ms @returns {State} */
export function setKind(state, { id, price, price_per_m2, name, looks, kind }, now_ms) {
  const typed = [price, price_per_m2].filter((value) => typeof value === "number");
  if (typed.some((value) => !(value >= 0 && value <= MOST_PRICE))) return problem(state, `A price is a number from 0 to ${count(MOST_PRICE)}.`);
  const document = kind ? withKind(state.document, { ...kind, id }) : state.document;
  if (!document) return problem(state, `A document holds at most ${MOST.kinds} kinds of piece.`);
  const old = kindById(document, id);
  if (!old) return state;
  const changed = looking(named(price === undefined && price_per_m2 === undefined ? old : priced(old, price, price_per_m2), name), looks);
  const kit = document.kit?.map((other) => (other === old ? changed : other));
  const what = looks !== undefined ? "looks" : name === undefined ? "price" : "name";
  return commit(state, { label: `${what} of ${old.name}`, document: { ...document, kit } }, now_ms);
}

/** Has one price or none. @param {Kind} kind @param {number|null} [price] @param {number|null} [price_per_m2] @returns {Kind} */
function priced({ price: _one, price_per_m2: _area, ...rest }, price, price_per_m2) {
  if (typeof price === "number") return { ...rest, price };
  return typeof price_per_m2 === "number" ? { ...rest, price_per_m2 } : rest;
}

/** @param {Kind} kind @param {string} [name] @returns {Kind} */
function named(kind, name) {
  const cleaned = name === undefined ? "" : nameText(name);
  return cleaned === "" ? kind : { ...kind, name: cleaned };
}

/** @param {Kind} kind @param {Kind["looks"]|null} [looks] @returns {Kind} */
function looking(kind, looks) {
  if (looks === undefined) return kind;
  const { looks: _before, ...rest } = kind;
  return looks === null ? rest : { ...rest, looks };
}

/** @param {State} state @param {SetCurrency} action @param {number} now_ms @returns {State} */
export function setCurrency(state, { sign }, now_ms) {
  const { currency: before, ...rest } = state.document;
  const currency = [...nameText(sign)].slice(0, LONGEST_CURRENCY).join("");
  if (currency === (before ?? "")) return state;
  return commit(state, { label: "currency", document: currency === "" ? rest : { ...rest, currency } }, now_ms);
}
