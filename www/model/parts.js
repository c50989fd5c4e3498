// Steps on doors, windows, openings, built-ins and keep-clear zones. What is typed too wide is trimmed to its surface and said.

/**
 * @import { RemovePart, RemoveZone, SetPart, SetZone } from "./actions.js"
 * @import { KeepClear, Part, Rect, Scenario, State, SurfaceName } from "./types.js"
 */
import { clearAway, freeOf, onto } from "./free_rect.js";
import { surfaceSize } from "./geometry.js";
import { commit } from "./history.js";
import { meetsPart, meetsZone } from "./in_the_way.js";
import { MOST } from "./limits.js";
import { problem } from "./plans.js";
import { tallyText } from "./refit.js";
import { nameText, touched } from "./sheet.js";
import { partName, surfaceName } from "./words.js";

/** Most margin and depths that a document may hold, m. */
const MOST_MARGIN_M = 5;
const MOST_SWING_M = 3;

/** @param {unknown[]} values @returns {boolean} */
function hasNonsense(values) {
  return values.some((value) => typeof value === "number" && !Number.isFinite(value));
}

/** @param {Scenario} document @param {SurfaceName} surface @param {Part[]} parts @returns {Scenario} */
function withParts(document, surface, parts) {
  const { parts: _old, ...rest } = document.room.surfaces[surface];
  const changed = parts.length > 0 ? { ...rest, parts } : rest;
  return { ...document, room: { ...document.room, surfaces: { ...document.room.surfaces, [surface]: changed } } };
}

/** Changes a part; with index null, adds one. @param {State} state @param {SetPart} action @param {number} now_ms @returns {State} */
export function setPart(state, { surface, index, part }, now_ms) {
  const { document } = state;
  const parts = document.room.surfaces[surface].parts ?? [];
  const before = index === null ? null : parts[index];
  if (before === undefined || hasNonsense(Object.values(part))) return problem(state, "A measure must be a number.");
  if (!before && countParts(document) >= MOST.parts) return problem(state, `A room holds at most ${MOST.parts} doors, windows and other parts.`);
  const wanted = /** @type {Part} */ (cleanPart({ ...(before ?? {}), ...part }));
  const size = surfaceSize(document.room, surface);
  const inside = onto(wanted, size);
  const others = parts.filter((_other, at) => at !== index);
  const free = freeOf(inside, size, others);
  if (!free) return problem(state, `There is no free place for this on the ${surfaceName(surface)}.`);
  const made = { ...wanted, ...free };
  const next = withParts(document, surface, before ? parts.map((old, at) => (at === index ? made : old)) : [...parts, made]);
  const { document: cleared, tally } = made.role === "wall" ? { document: next, tally: { trimmed: 0, moved: 0, removed: 0 } } : clearAway(next, (piece) => meetsPart(next, piece, surface, made), surface);
  const text = [fitText(wanted, made, surface), tallyText(tally)].filter(Boolean).join(" ");
  return commit(state, {
    label: `${before ? "change" : "add"} ${partName(made)}`, document: touched(cleared, `room.surfaces.${surface}.parts`),
    notice: text ? { text, tone: "note", undo: true } : null,
  }, now_ms);
}

/** A depth only for what is deep, a swing only for a door. @param {Partial<Part>} part @returns {Partial<Part>} */
function cleanPart({ depth_m, swing_m, ...part }) {
  const clip = (/** @type {number} */ value_m, /** @type {number} */ most_m) => Math.round(Math.min(most_m, Math.max(0, value_m)) * 1e4) / 1e4;
  return {
    ...part,
    ...(part.role === "built-in" && depth_m ? { depth_m: clip(depth_m, MOST_MARGIN_M) } : {}),
    ...(part.role === "door" && swing_m ? { swing_m: clip(swing_m, MOST_SWING_M) } : {}),
  };
}

/** @param {Rect} wanted @param {Rect} made @param {SurfaceName} surface @returns {string} */
function fitText(wanted, made, surface) {
  const differs = (/** @type {"u_m"|"v_m"|"width_m"|"height_m"} */ key) => Math.abs(wanted[key] - made[key]) > 1e-4;
  if (differs("width_m") || differs("height_m")) return `Trimmed to the ${surfaceName(surface)}.`;
  return differs("u_m") || differs("v_m") ? `Moved to the nearest free place on the ${surfaceName(surface)}.` : "";
}

/** @param {Scenario} document @returns {number} */
function countParts({ room }) {
  return Object.values(room.surfaces).reduce((sum, { parts }) => sum + (parts?.length ?? 0), 0);
}

/** @param {State} state @param {RemovePart} action @param {number} now_ms @returns {State} */
export function removePart(state, { surface, index }, now_ms) {
  const parts = state.document.room.surfaces[surface].parts ?? [];
  const gone = parts[index];
  if (!gone) return state;
  const document = touched(withParts(state.document, surface, parts.filter((_part, at) => at !== index)), `room.surfaces.${surface}.parts`);
  return commit(state, { label: `remove ${partName(gone)}`, document, notice: { text: `Removed ${partName(gone)}.`, tone: "note", undo: true } }, now_ms);
}

/** Changes a keep-clear zone; with index null, adds one. @param {State} state @param {SetZone} action @param {number} now_ms @returns {State} */
export function setZone(state, { index, zone }, now_ms) {
  const { document } = state;
  const zones = document.room.keep_clear ?? [];
  const before = index === null ? null : zones[index];
  if (before === undefined || hasNonsense(Object.values(zone))) return problem(state, "A measure must be a number.");
  if (!before && zones.length >= MOST.zones) return problem(state, `A room holds at most ${MOST.zones} zones that stay clear.`);
  const wanted = /** @type {KeepClear} */ ({ ...(before ?? {}), ...zone });
  const why = nameText(wanted.why);
  if (why === "") return problem(state, "A zone needs a name, such as “detector”.");
  const margin_m = Math.round(Math.min(MOST_MARGIN_M, Math.max(0, wanted.margin_m)) * 1e4) / 1e4;
  const made = { ...wanted, ...onto(wanted, surfaceSize(document.room, wanted.surface)), margin_m, why };
  const keep_clear = before ? zones.map((old, at) => (at === index ? made : old)) : [...zones, made];
  const next = { ...document, room: { ...document.room, keep_clear } };
  const { document: cleared, tally } = clearAway(next, (piece) => meetsZone(next, piece, made), made.surface);
  const least_m = defaultMargin(why);
  const low = margin_m < least_m ? `This margin is below the ${least_m} m that this page plans with.` : "";
  const text = [fitText(wanted, made, made.surface), low, tallyText(tally)].filter(Boolean).join(" ");
  return commit(state, { label: `${before ? "change" : "add"} zone “${why}”`, document: touched(cleared, "room.keep_clear"), notice: text ? { text, tone: "note", undo: true } : null }, now_ms);
}

/** @param {State} state @param {RemoveZone} action @param {number} now_ms @returns {State} */
export function removeZone(state, { index }, now_ms) {
  const zones = state.document.room.keep_clear ?? [];
  if (!zones[index]) return state;
  const { keep_clear: _old, ...room } = state.document.room;
  const rest = zones.filter((_zone, at) => at !== index);
  const document = touched({ ...state.document, room: rest.length > 0 ? { ...room, keep_clear: rest } : room }, "room.keep_clear");
  return commit(state, { label: `remove zone “${zones[index].why}”`, document, notice: { text: `Removed the zone “${zones[index].why}”.`, tone: "note", undo: true } }, now_ms);
}

/** Planning margins of this page, not code. Common practice, no source. @type {readonly [RegExp, number][]} */
const MARGINS_M = [[/flame/i, 1], [/sprinkler|detector|alarm|smoke/i, 0.6], [/heat|radiator|stove|boiler|chimney/i, 0.5], [/vent|grille|lamp/i, 0.3], [/door/i, 0.1], [/window/i, 0.05]];

/** @param {string} why @returns {number} metres */
export function defaultMargin(why) {
  return MARGINS_M.find(([pattern]) => pattern.test(why))?.[1] ?? 0;
}
