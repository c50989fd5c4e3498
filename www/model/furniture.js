// Steps on furniture: how many there are of each, and where those stand that have a place in the plan.

/**
 * @import { MoveFurnishing, PlaceFurnishing, RemoveFurnishing, SetFurnishing } from "./actions.js"
 * @import { Furnishing, Rect, Scenario, State } from "./types.js"
 * @typedef {NonNullable<Furnishing["at"]>} At
 */
import { floorObstacles } from "./floor_obstacles.js";
import { freeOf, onto } from "./free_rect.js";
import { surfaceSize } from "./geometry.js";
import { commit } from "./history.js";
import { MOST } from "./limits.js";
import { problem } from "./plans.js";
import { touched } from "./sheet.js";

const MOST_OF_ONE = 40;

/** @param {Scenario} document @param {Furnishing[]} furnishings @returns {Scenario} */
function withFurnishings(document, furnishings) {
  return touched({ ...document, room: { ...document.room, furnishings: furnishings.filter(({ count }) => count > 0) } }, "room.furnishings");
}

/**
 * How many there are in all: those without a place come and go first.
 * @param {State} state @param {SetFurnishing} action @param {number} now_ms @returns {State}
 */
export function setFurnishing(state, { kind, count }, now_ms) {
  const before = state.document.room.furnishings ?? [];
  const wanted = Number.isFinite(count) ? Math.min(MOST_OF_ONE, Math.max(0, Math.round(count))) : 0;
  const total = before.reduce((sum, item) => sum + (item.kind === kind ? item.count : 0), 0);
  if (total === wanted) return state;
  const furnishings = wanted > total ? added(before, kind, wanted - total) : takenAway(before, kind, total - wanted);
  if (furnishings.length > MOST.furnishings) return problem(state, `A room holds at most ${MOST.furnishings} kinds of furniture.`);
  return commit(state, { label: "furniture", document: withFurnishings(state.document, furnishings) }, now_ms);
}

/** @param {Furnishing[]} items @param {string} kind @param {number} more @returns {Furnishing[]} */
function added(items, kind, more) {
  const loose = items.findIndex((item) => item.kind === kind && !item.at);
  if (loose < 0) return [...items, { kind, count: more }];
  return items.map((item, index) => (index === loose ? { ...item, count: item.count + more } : item));
}

/** @param {Furnishing[]} items @param {string} kind @param {number} fewer @returns {Furnishing[]} */
function takenAway(items, kind, fewer) {
  let left = fewer;
  const take = (/** @type {Furnishing} */ item) => {
    const taken = item.kind === kind ? Math.min(item.count, left) : 0;
    left -= taken;
    return taken > 0 ? { ...item, count: item.count - taken } : item;
  };
  const loose = items.map((item) => (item.at ? item : take(item)));
  return loose.toReversed().map((item) => (item.at ? take(item) : item)).toReversed();
}

/**
 * Puts one of a kind into the plan: one that was only counted, or a new one.
 * @param {State} state @param {PlaceFurnishing} action @param {number} now_ms @returns {State}
 */
export function placeFurnishing(state, { kind, size_m: [width_m, depth_m, height_m] }, now_ms) {
  const { room } = state.document;
  const items = room.furnishings ?? [];
  const counted = items.findIndex((item) => item.kind === kind && !item.at && item.count > 0);
  const rest = counted < 0 ? items : takenAway(items, kind, 1);
  const kept = rest.filter(({ count }) => count > 0);
  if (kept.length >= MOST.furnishings) return problem(state, `A room holds at most ${MOST.furnishings} pieces of furniture in the plan.`);
  const wanted = { x_m: (room.width_m - width_m) / 2, y_m: (room.length_m - depth_m) / 2, width_m, depth_m, height_m };
  const at = freeAt({ ...state.document, room: { ...room, furnishings: kept } }, state.shown, null, wanted);
  if (!at) return problem(state, "There is no free place for it on the floor.");
  return commit(state, { label: "place furniture", document: withFurnishings(state.document, [...kept, { kind, count: 1, at }]) }, now_ms);
}

/**
 * Moves or resizes what stands in the plan; with `at` null it is only counted from now on.
 * @param {State} state @param {MoveFurnishing} action @param {number} now_ms @returns {State}
 */
export function moveFurnishing(state, { index, at, gesture }, now_ms) {
  const items = state.document.room.furnishings ?? [];
  const item = items[index];
  if (!item?.at || (at && Object.values(at).some((value) => !Number.isFinite(value)))) return state;
  if (at === null) return commit(state, { label: "furniture out of the plan", document: withFurnishings(state.document, added(items.filter((_one, i) => i !== index), item.kind, item.count)) }, now_ms);
  const free = freeAt(state.document, state.shown, index, { ...item.at, ...at });
  if (!free) return problem(state, "There is no free place for it on the floor.");
  if (JSON.stringify(free) === JSON.stringify(item.at)) return state;
  const document = withFurnishings(state.document, items.map((one, i) => (i === index ? { ...one, at: free } : one)));
  return commit(state, { label: "move furniture", document, mergeKey: gesture ? `furniture ${gesture}` : `furniture ${index}`, gesture: gesture !== undefined }, now_ms);
}

/** @param {State} state @param {RemoveFurnishing} action @param {number} now_ms @returns {State} */
export function removeFurnishing(state, { index }, now_ms) {
  const items = state.document.room.furnishings ?? [];
  if (!items[index]) return state;
  const document = withFurnishings(state.document, items.filter((_item, at) => at !== index));
  return commit(state, { label: "remove furniture", document, notice: { text: "Furniture removed.", tone: "note", undo: true } }, now_ms);
}

/** @param {Scenario} document @param {number} shown @param {number|null} index @param {At} at @returns {At|null} */
function freeAt(document, shown, index, at) {
  const size = surfaceSize(document.room, "floor");
  const inside = onto({ u_m: at.x_m, v_m: at.y_m, width_m: at.width_m, height_m: at.depth_m }, size);
  const obstacles = floorObstacles(document, shown, { furnishing: index });
  /** @type {Rect|null} */
  const free = freeOf(inside, size, obstacles.map(({ rect }) => rect));
  const height_m = Math.round(Math.min(document.room.height_m, Math.max(0.05, at.height_m)) * 1e4) / 1e4;
  return free && { x_m: free.u_m, y_m: free.v_m, width_m: free.width_m, depth_m: free.height_m, height_m };
}
