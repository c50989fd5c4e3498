// Loudspeakers and seat: selecting, moving, turning. One gesture, or one typed number, is one step.

/**
 * @import { AwaitTap, MoveLoudspeaker, MoveSeat, PutBackSpots, RemoveSpots, SelectSpot, SetLoudspeaker } from "./actions.js"
 * @import { Listening, Loudspeaker, Notice, Place3, Scenario, StandsAt, State } from "./types.js"
 */
import { commit } from "./history.js";
import { INSIDE_M, NEAREST_SEAT_M, TOE_IN_DEG } from "./limits.js";
import { listeningOf } from "./marks.js";
import { insidePoint } from "./refit.js";
import { touched, withPlan } from "./sheet.js";
import { typicalListening } from "./start.js";

/** "Left loudspeaker", "Seat". @param {StandsAt} spot @returns {string} */
export function spotName(spot) {
  return spot === "seat" ? "Seat" : ["Left loudspeaker", "Right loudspeaker"][spot] ?? `Loudspeaker ${spot + 1}`;
}

/** The loudspeaker or seat itself, if the plan has it. @param {Listening} listening @param {StandsAt} spot @returns {Loudspeaker|undefined} */
export function spotPlace(listening, spot) {
  return spot === "seat" ? listening.seat : listening.loudspeakers[spot];
}

/** @param {State} state @param {SelectSpot} action @returns {State} */
export function selectSpot(state, { spot }) {
  if (spot !== null && !spotPlace(listeningOf(state.document, state.shown), spot)) return state;
  return { ...state, spot, selected: spot === null ? state.selected : null };
}

/** @param {State} state @param {AwaitTap} action @returns {State} */
export function awaitTap(state, { spot }) {
  if (spot === null) return awaitsTap(state) ? { ...state, tapping: null } : state;
  const text = `Tap the floor where ${spot === "seat" ? "the seat" : `the ${spotName(spot).toLowerCase()}`} is to stand.`;
  return { ...selectSpot(state, { type: "select-spot", spot }), tapping: spot, picked: null, surface: "floor", notice: { text, tone: "note" } };
}

/** Whether the next tap on the floor says where something stands. @param {State} state @returns {boolean} */
export function awaitsTap({ tapping, spot, selected }) {
  return tapping !== null && tapping === spot && selected === null;
}

/** @param {State} state @param {MoveLoudspeaker} action @param {number} now_ms @returns {State} */
export function moveLoudspeaker(state, { index, to, gesture }, now_ms) {
  return moveSpot(state, index, to, gesture, now_ms);
}

/** @param {State} state @param {MoveSeat} action @param {number} now_ms @returns {State} */
export function moveSeat(state, { to, gesture }, now_ms) {
  return moveSpot(state, "seat", to, gesture, now_ms);
}

/** @param {State} state @param {SetLoudspeaker} action @param {number} now_ms @returns {State} */
export function setLoudspeaker(state, { index, directivity, toe_in_deg }, now_ms) {
  const old = listeningOf(state.document, state.shown).loudspeakers[index];
  if (!old || (toe_in_deg !== undefined && !Number.isFinite(toe_in_deg))) return state;
  const turned_deg = toe_in_deg === undefined ? old.toe_in_deg : boundedTurn(toe_in_deg);
  const next = { ...old, ...(directivity && { directivity }), ...(turned_deg !== undefined && { toe_in_deg: turned_deg }) };
  if (next.directivity === old.directivity && next.toe_in_deg === old.toe_in_deg) return state;
  const path = `listening.loudspeakers[${index}].${directivity ? "directivity" : "toe_in_deg"}`;
  const document = touched(withSpot(state, index, next), path);
  const label = `${directivity ? "kind" : "turn"} of loudspeaker ${index + 1}`;
  return { ...commit(state, { label, document, selected: null }, now_ms), spot: index };
}

/** To a tenth of a degree. @param {number} turn_deg @returns {number} */
function boundedTurn(turn_deg) {
  return Math.round(Math.min(TOE_IN_DEG.most, Math.max(TOE_IN_DEG.least, turn_deg)) * 10) / 10;
}

/** @param {State} state @param {StandsAt} spot @param {Partial<Place3>} to @param {string|undefined} gesture @param {number} now_ms @returns {State} */
function moveSpot(state, spot, to, gesture, now_ms) {
  const old = spotPlace(listeningOf(state.document, state.shown), spot);
  if (!old) return state;
  const wanted = { ...old, ...finite(to) };
  const moved = insidePoint(wanted, state.document.room);
  if (samePoint(old, moved)) return state;
  const path = spot === "seat" ? "listening.seat" : `listening.loudspeakers[${spot}]`;
  const document = touched(withSpot(state, spot, moved), path);
  const what = spot === "seat" ? "the seat" : `loudspeaker ${spot + 1}`;
  const step = {
    label: `move ${what}`, document, mergeKey: `move ${what} ${gesture ?? ""}`, gesture: gesture !== undefined,
    selected: null, notice: noticeOf(document, state.shown, spot, wanted, moved),
  };
  return { ...commit(state, step, now_ms), spot };
}

/** Only finite numbers count. @param {Partial<Place3>} to @returns {Partial<Place3>} */
function finite(to) {
  return Object.fromEntries(Object.entries(to).filter(([, value]) => Number.isFinite(value)));
}

/** @param {Place3} a @param {Place3} b @returns {boolean} */
function samePoint(a, b) {
  return a.x_m === b.x_m && a.y_m === b.y_m && a.z_m === b.z_m;
}

/**
 * The document with a loudspeaker or the seat replaced: in the plan in hand if it has its own, else in the document.
 * @param {State} state @param {StandsAt} spot @param {Loudspeaker} place @returns {Scenario}
 */
function withSpot({ document, shown }, spot, place) {
  const plan = document.plans[shown];
  return withListening({ document, shown }, changed(plan.listening ?? document.listening, spot, place));
}

/** @param {Pick<State, "document"|"shown">} state @param {Listening} listening @returns {Scenario} */
function withListening({ document, shown }, listening) {
  const plan = document.plans[shown];
  return plan.listening ? withPlan(document, shown, { ...plan, listening }) : { ...document, listening };
}

/** @param {Listening} listening @param {StandsAt} spot @param {Loudspeaker} place @returns {Listening} */
function changed(listening, spot, place) {
  if (spot === "seat") return { ...listening, seat: place };
  return { ...listening, loudspeakers: listening.loudspeakers.map((old, index) => (index === spot ? place : old)) };
}

/** The furniture that a point lies inside of, in a word; above a sofa's back is not inside. @param {Scenario} document @param {Place3} point @returns {string|null} */
function thingRound({ room, own_furnishings: own = [] }, { x_m, y_m, z_m }) {
  const thing = (room.furnishings ?? []).find(({ at }) => at && x_m > at.x_m && x_m < at.x_m + at.width_m
    && y_m > at.y_m && y_m < at.y_m + at.depth_m && z_m < at.height_m);
  return thing ? own.find(({ id }) => id === thing.kind)?.name ?? thing.kind.split("-")[0] : null;
}

/** The loudspeakers, or the seat, taken out of the plan in hand. @param {State} state @param {RemoveSpots} action @param {number} now_ms @returns {State} */
export function removeSpots(state, { what }, now_ms) {
  const { seat, ...listening } = listeningOf(state.document, state.shown);
  const rest = what === "seat" ? listening : { loudspeakers: [], ...(seat && { seat }) };
  const text = what === "seat" ? "Removed the seat." : "Removed the loudspeakers.";
  return { ...commit(state, { label: `remove the ${what}`, document: withListening(state, rest), selected: null, notice: { text, tone: "note", undo: true } }, now_ms), spot: null, tapping: null };
}

/** What is missing stands again where it usually does, marked as assumed. @param {State} state @param {PutBackSpots} _action @param {number} now_ms @returns {State} */
export function putBackSpots(state, _action, now_ms) {
  const { loudspeakers, seat } = listeningOf(state.document, state.shown);
  const usual = typicalListening(state.document.room);
  const back = { loudspeakers: loudspeakers.length > 0 ? loudspeakers : usual.loudspeakers, seat: seat ?? usual.seat };
  const document = withListening(state, back);
  const paths = [...(loudspeakers.length > 0 ? [] : ["listening.loudspeakers[0]", "listening.loudspeakers[1]"]), ...(seat ? [] : ["listening.seat"])];
  if (paths.length === 0) return state;
  const assumed = state.document.plans[state.shown].listening ? document.assumed : [...new Set([...(document.assumed ?? []), ...paths])];
  return commit(state, {
    label: "put back what is missing", document: { ...document, ...(assumed && { assumed }) }, selected: null,
    notice: { text: "They stand where they usually do. Move them to where yours are.", tone: "note", undo: true },
  }, now_ms);
}

/** A shift at the wall that is worth a word, m. */
const NOTICED_M = 1e-3;

/**
 * What stopped it, or what is odd about where it stands; neither forbids the rest.
 * @param {Scenario} document @param {number} planIndex @param {StandsAt} spot @param {Place3} wanted @param {Place3} moved @returns {Notice|null}
 */
function noticeOf(document, planIndex, spot, wanted, moved) {
  const shift_m = Math.max(Math.abs(wanted.x_m - moved.x_m), Math.abs(wanted.y_m - moved.y_m), Math.abs(wanted.z_m - moved.z_m));
  if (shift_m > NOTICED_M) {
    const built = spot === "seat" ? "" : " Loudspeakers that are built into a wall are not modelled.";
    return { text: `${spotName(spot)} stops ${INSIDE_M * 100} cm from the surface, where it touches it.${built}`, tone: "note" };
  }
  const { loudspeakers, seat } = listeningOf(document, planIndex);
  const near = seat && loudspeakers.some((one) => Math.hypot(one.x_m - seat.x_m, one.y_m - seat.y_m, one.z_m - seat.z_m) < NEAREST_SEAT_M);
  const inside = spot === "seat" ? thingRound(document, moved) : null;
  if (inside) return { text: `The seat is inside the ${inside}: the figures there are those of free air.`, tone: "note" };
  return near ? { text: "The seat is nearer than half a metre to a loudspeaker: the figures mean little there.", tone: "note" } : null;
}
