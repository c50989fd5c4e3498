// Steps on the air of the room, and on furniture with values of the person's own.

/**
 * @import { RemoveOwnFurnishing, SetAir, SetOwnFurnishing } from "./actions.js"
 * @import { State } from "./types.js"
 */
import { commit } from "./history.js";
import { OWN_BANDS_HZ } from "./household.js";
import { AIR, MOST, OWN_FURNISHING } from "./limits.js";
import { problem } from "./plans.js";
import { nameText, touched } from "./sheet.js";

/** Temperature and humidity; null goes back to what is usual. @param {State} state @param {SetAir} action @param {number} now_ms @returns {State} */
export function setAir(state, { key, value }, now_ms) {
  const { least, most, unit, words } = AIR[key];
  if (value !== null && !(value >= least && value <= most)) return problem(state, `The ${words} goes from ${least} to ${most} ${unit}.`);
  const { [key]: before, ...room } = state.document.room;
  if ((before ?? null) === value) return state;
  const document = { ...state.document, room: value === null ? room : { ...room, [key]: value } };
  return commit(state, { label: words, document: touched(document, `room.${key}`) }, now_ms);
}

/** A thing with figures of its own in the list; with id null, a new one that stands in the room. @param {State} state @param {SetOwnFurnishing} action @param {number} now_ms @returns {State} */
export function setOwnFurnishing(state, { id, name, values, surface_m2 }, now_ms) {
  const { most_m2: most, least_surface_m2: least, most_surface_m2: largest } = OWN_FURNISHING;
  if (values && !values.every((value) => value >= 0 && value <= most)) return problem(state, `An area is a number from 0 to ${most} m².`);
  if (surface_m2 !== undefined && !(surface_m2 >= least && surface_m2 <= largest)) return problem(state, `A whole surface is from ${least} to ${largest} m².`);
  if (id === null) return addOwnFurnishing(state, now_ms);
  const own = state.document.own_furnishings ?? [];
  const before = own.find((one) => one.id === id);
  if (!before) return state;
  const cleaned = name === undefined ? before.name : nameText(name);
  if (cleaned === "") return problem(state, "A thing needs a name.");
  const changed = {
    ...before, name: cleaned, ...(values && { bands_hz: [...OWN_BANDS_HZ], absorption_area_m2: [...values] }), ...(surface_m2 !== undefined && { surface_m2 }),
  };
  if (JSON.stringify(changed) === JSON.stringify(before)) return state;
  return commit(state, { label: `values of ${cleaned}`, document: { ...state.document, own_furnishings: own.map((one) => (one === before ? changed : one)) } }, now_ms);
}

/** @param {State} state @param {number} now_ms @returns {State} */
function addOwnFurnishing(state, now_ms) {
  const own = state.document.own_furnishings ?? [];
  const { room } = state.document;
  const items = room.furnishings ?? [];
  if (own.length >= MOST.own) return problem(state, `A document holds at most ${MOST.own} things of your own.`);
  if (items.length >= MOST.furnishings) return problem(state, `A room holds at most ${MOST.furnishings} kinds of furniture.`);
  let number = own.length + 1;
  while (own.some((one) => one.id === `own-thing-${number}`)) number += 1;
  const made = {
    id: `own-thing-${number}`, name: `Own thing ${number}`, bands_hz: [...OWN_BANDS_HZ],
    absorption_area_m2: [...OWN_FURNISHING.start_m2], surface_m2: OWN_FURNISHING.start_surface_m2,
  };
  const document = { ...state.document, own_furnishings: [...own, made], room: { ...room, furnishings: [...items, { kind: made.id, count: 1 }] } };
  return commit(state, { label: `add ${made.name}`, document: touched(document, "room.furnishings") }, now_ms);
}

/** With all that stand in the room. @param {State} state @param {RemoveOwnFurnishing} action @param {number} now_ms @returns {State} */
export function removeOwnFurnishing(state, { id }, now_ms) {
  const { own_furnishings: own = [], ...document } = state.document;
  const gone = own.find((one) => one.id === id);
  if (!gone) return state;
  const rest = own.filter((one) => one !== gone);
  const furnishings = (document.room.furnishings ?? []).filter(({ kind }) => kind !== id);
  const room = { ...document.room, furnishings };
  return commit(state, {
    label: `remove ${gone.name}`, document: { ...document, room, ...(rest.length > 0 && { own_furnishings: rest }) },
    notice: { text: `Removed ${gone.name}.`, tone: "note", undo: true },
  }, now_ms);
}
