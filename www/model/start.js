// "Start with my room": a document from three numbers; all else takes typical values, each marked as assumed.

/**
 * @import { StartRoom } from "./actions.js"
 * @import { Kind, Listening, Room, Scenario, State, Surface, SurfaceName } from "./types.js"
 */
import { SURFACES } from "./geometry.js";
import { commit } from "./history.js";
import { isVariant } from "./kinds.js";
import { problem } from "./plans.js";
import { insidePoint } from "./refit.js";
import { beyondTrust, sideProblem } from "./room.js";
import { atHome, newHome } from "./visits.js";

/** @type {Readonly<Record<SurfaceName, string>>} */
const TYPICAL_FINISH = Object.freeze({
  left: "plaster-on-brick", right: "plaster-on-brick", front: "plaster-on-brick", back: "plaster-on-brick",
  floor: "boards-on-joists", ceiling: "lath-and-plaster",
});
const TYPICAL_FURNITURE = Object.freeze(["sofa-fabric", "coffee-table", "bookcase-filled"]);
/** Height of tweeters on a stand or a low board, and of the ears of a person who sits. */
const LOUDSPEAKER_HEIGHT_M = 0.95;
const EAR_HEIGHT_M = 1.05;

/** @param {State} state @param {StartRoom} action @param {number} now_ms @returns {State} */
export function startRoom(state, { width_m, length_m, height_m }, now_ms) {
  const sides = [width_m, length_m, height_m];
  const wrong = sides.map((side_m) => sideProblem(side_m, state.units)).find((text) => text !== null);
  if (wrong) return problem(state, wrong);
  const document = typicalDocument(width_m, length_m, height_m, keptKit(state));
  const started = commit(atHome(state), {
    label: "start a new room", document, shown: 1, selected: null,
    notice: { text: [beyondTrust(document.room, state.units), "Your room, with typical values for all else. Change what differs."].filter(Boolean).join(" "), tone: "note", undo: true },
  }, now_ms);
  return { ...started, visiting: null, readOnly: null, home: newHome() };
}

/** Kinds stay at hand with the prices that the person gave; those of the example are invented. @param {State} state @returns {Kind[]} */
function keptKit({ document, example }) {
  const kit = (document.kit ?? []).filter((kind) => !isVariant(kind));
  return example ? kit.map(({ price: _price, price_per_m2: _area, ...kind }) => kind) : kit;
}

/**
 * A room of this size as rooms often are.
 * @param {number} width_m @param {number} length_m @param {number} height_m @param {Kind[]} kit @returns {Scenario}
 */
export function typicalDocument(width_m, length_m, height_m, kit) {
  const [w, l, h] = [width_m, length_m, height_m].map((side_m) => Math.round(side_m * 1e4) / 1e4);
  const surfaces = /** @type {Record<SurfaceName, Surface>} */ (
    Object.fromEntries(SURFACES.map((surface) => [surface, { finish: TYPICAL_FINISH[surface] }])));
  /** @type {Room} */
  const room = { width_m: w, length_m: l, height_m: h, surfaces, furnishings: TYPICAL_FURNITURE.map((kind) => ({ kind, count: 1 })) };
  return {
    format: 1, title: "My room", room, listening: typicalListening(room), goal: { taste: "lived-in" }, kit,
    plans: [{ name: "Now", pieces: [] }, { name: "A", pieces: [] }],
    assumed: [
      ...SURFACES.map((surface) => `room.surfaces.${surface}.finish`), "room.furnishings",
      "listening.loudspeakers[0]", "listening.loudspeakers[1]", "listening.seat", "goal",
    ],
  };
}

/**
 * Loudspeakers a little off the front wall, the seat near the tip of an equal-sided triangle.
 * @param {Room} room @returns {Listening}
 */
export function typicalListening(room) {
  const half_m = Math.min(1.1, room.width_m * 0.3);
  const front_m = Math.min(0.9, room.length_m * 0.15);
  const seat_m = Math.min(front_m + 2 * half_m * 0.95, room.length_m * 0.8);
  const place = (/** @type {number} */ x_m, /** @type {number} */ y_m, /** @type {number} */ z_m) => insidePoint({ x_m, y_m, z_m }, room);
  const middle_m = room.width_m / 2;
  return {
    loudspeakers: [
      place(middle_m - half_m, front_m, LOUDSPEAKER_HEIGHT_M),
      place(middle_m + half_m, front_m, LOUDSPEAKER_HEIGHT_M),
    ],
    seat: place(middle_m, seat_m, EAR_HEIGHT_M),
  };
}
