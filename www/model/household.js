// Steps on what the home allows, what the cautions need to know, and finishes with band values of the person's own.

/**
 * @import { RemoveOwnFinish, SetCondition, SetLimit, SetOwnFinish } from "./actions.js"
 * @import { Scenario, State } from "./types.js"
 */
import { commit } from "./history.js";
import { MOST } from "./limits.js";
import { problem } from "./plans.js";
import { nameText, touched } from "./sheet.js";
import { surfaceName } from "./words.js";

/** Bands for which own values are typed, Hz. */
export const OWN_BANDS_HZ = Object.freeze([125, 250, 500, 1000, 2000, 4000]);

/** @param {State} state @param {SetCondition} action @param {number} now_ms @returns {State} */
export function setCondition(state, { condition, on }, now_ms) {
  const { conditions: before = [], ...room } = state.document.room;
  if (before.includes(condition) === on) return state;
  const conditions = on ? [...before, condition] : before.filter((one) => one !== condition);
  const document = touched({ ...state.document, room: conditions.length > 0 ? { ...room, conditions } : room }, "room.conditions");
  return commit(state, { label: condition === "not-a-box" ? "shape of the room" : "what the cautions know", document }, now_ms);
}

/** One of the home's limits; null takes it away. @param {State} state @param {SetLimit} action @param {number} now_ms @returns {State} */
export function setLimit(state, { limit, value }, now_ms) {
  if (typeof value === "number" && !(value >= 0 && Number.isFinite(value))) return problem(state, "A limit is a number, zero or more.");
  const { [limit]: before, ...rest } = state.document.limits ?? {};
  const isNone = value === null || value === false || (Array.isArray(value) && value.length === 0);
  if (isNone ? before === undefined : JSON.stringify(before) === JSON.stringify(value)) return state;
  const limits = isNone ? rest : { ...rest, [limit]: value };
  const { limits: _old, ...document } = state.document;
  return commit(state, { label: "limits", document: touched(Object.keys(limits).length > 0 ? { ...document, limits } : document, "limits") }, now_ms);
}

/**
 * Changes a finish of the person's own; without an id, makes one and puts it on a surface or a part.
 * @param {State} state @param {SetOwnFinish} action @param {number} now_ms @returns {State}
 */
export function setOwnFinish(state, action, now_ms) {
  const own = state.document.own_finishes ?? [];
  const { values, name } = action;
  if (values && !values.every((value) => value >= 0 && value <= 1)) return problem(state, refusedShare(values));
  if (action.id === null) return addOwnFinish(state, action, now_ms);
  const before = own.find((one) => one.id === action.id);
  if (!before) return state;
  const cleaned = name === undefined ? before.name : nameText(name);
  if (cleaned === "") return problem(state, "A finish needs a name.");
  const changed = { ...before, name: cleaned, ...(values && { bands_hz: [...OWN_BANDS_HZ], absorption: [...values] }) };
  if (JSON.stringify(changed) === JSON.stringify(before)) return state;
  const document = { ...state.document, own_finishes: own.map((one) => (one === before ? changed : one)) };
  return commit(state, { label: `values of ${cleaned}`, document }, now_ms);
}

/** @param {readonly number[]} values @returns {string} */
function refusedShare(values) {
  if (values.some((value) => value < 0)) return "A share below 0 is none: no surface gives back more sound than meets it. It is a number from 0 to 1.";
  return "A share is a number from 0 to 1. Figures above 1 are those of a piece: enter it under \u201cown\u201d at the Kit shelf.";
}

/** @param {State} state @param {SetOwnFinish} action @param {number} now_ms @returns {State} */
function addOwnFinish(state, { values, surface, part = null }, now_ms) {
  const own = state.document.own_finishes ?? [];
  if (own.length >= MOST.own) return problem(state, `A document holds at most ${MOST.own} finishes of your own.`);
  if (!values || !surface) return state;
  let number = own.length + 1;
  while (own.some((one) => one.id === `own-finish-${number}`)) number += 1;
  const made = { id: `own-finish-${number}`, name: `Own values ${number}`, bands_hz: [...OWN_BANDS_HZ], absorption: [...values] };
  const document = onSurface({ ...state.document, own_finishes: [...own, made] }, surface, part, made.id);
  return commit(state, { label: `own values for the ${surfaceName(surface)}`, document: touched(document, `room.surfaces.${surface}.finish`) }, now_ms);
}

/** @param {Scenario} document @param {keyof Scenario["room"]["surfaces"]} surface @param {number|null} part @param {string} finish @returns {Scenario} */
function onSurface(document, surface, part, finish) {
  const facts = document.room.surfaces[surface];
  const changed = part === null ? { ...facts, finish }
    : { ...facts, parts: facts.parts?.map((one, index) => (index === part ? { ...one, finish } : one)) };
  return { ...document, room: { ...document.room, surfaces: { ...document.room.surfaces, [surface]: changed } } };
}

/** Only a finish that is nowhere in the room any more. @param {State} state @param {RemoveOwnFinish} action @param {number} now_ms @returns {State} */
export function removeOwnFinish(state, { id }, now_ms) {
  const { own_finishes: own = [], ...document } = state.document;
  const gone = own.find((one) => one.id === id);
  if (!gone) return state;
  const used = Object.values(document.room.surfaces).some((facts) => facts.finish === id || facts.parts?.some((part) => part.finish === id));
  if (used) return problem(state, `“${gone.name}” is still on a surface; choose another finish there first.`);
  const rest = own.filter((one) => one !== gone);
  return commit(state, { label: `remove ${gone.name}`, document: rest.length > 0 ? { ...document, own_finishes: rest } : document }, now_ms);
}
