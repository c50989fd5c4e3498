// What is looked at or held: never in the history.

/**
 * @import { Compare, Face, Notify, Pick, Select, SetSnap, SetUnits, Show, ShowPlan } from "./actions.js"
 * @import { Scenario, State } from "./types.js"
 */
import { withKind } from "./kinds.js";
import { freshPiece } from "./laid.js";
import { landingPlaces } from "./landing.js";
import { MOST } from "./limits.js";
import { planForNew, problem } from "./plans.js";
import { group, laidPieceAt } from "./sheet.js";

/** @param {State} state @param {ShowPlan} action @returns {State} */
export function showPlan(state, { index }) {
  if (index === state.shown || !state.document.plans[index]) return state;
  const other = state.compared === index ? state.shown : state.compared;
  // The room as it is stands beside every plan anyway.
  const compared = index === 0 || other === 0 ? null : other;
  return { ...state, shown: index, compared, selected: null, together: [], picked: null, notice: null };
}

/** @param {State} state @param {Compare} action @returns {State} */
export function compare(state, { index }) {
  if (state.shown === 0) return index === null ? state : showPlan(state, { type: "show-plan", index });
  const compared = index !== null && index !== 0 && index !== state.shown && state.document.plans[index] ? index : null;
  return compared === state.compared ? state : { ...state, compared };
}

/** @param {State} state @param {Select} action @returns {State} */
export function select(state, { index }) {
  if (index === null) return { ...state, selected: null, together: [], spot: null };
  if (!state.document.plans[state.shown].pieces[index]) return state;
  const together = index === state.selected || state.together.includes(index) ? group(state).filter((one) => one !== index) : [];
  return { ...state, selected: index, together, spot: null, surface: laidPieceAt(state.document, state.shown, index)?.surface ?? state.surface };
}

/** @param {State} state @param {Face} action @returns {State} */
export function face(state, { surface }) {
  const faced = { ...state, surface };
  return state.picked ? { ...faced, picked: { ...state.picked, places: placesFor(faced, state.picked) } } : faced;
}

/** @param {State} state @param {Pick} action @returns {State} */
export function pick(state, { kit, index }) {
  if (index === null && !withKind(state.document, kit)) return problem(state, `A document holds at most ${MOST.kinds} kinds of piece.`);
  const held = { kit: kit.id, kind: kit, index };
  const places = placesFor(state, held);
  const text = places.length > 0
    ? `${kit.name} picked up: choose a numbered place, or any spot on a surface.`
    : `${kit.name} picked up: no place is free at the marks; choose any spot on a surface.`;
  return { ...state, selected: index, picked: { ...held, places }, notice: { text, tone: "note" } };
}

/** @param {State} state @param {{kit: string, kind: Pick["kit"], index: number|null}} held */
function placesFor(state, held) {
  const target = held.index === null ? planForNew(state) : { document: state.document, shown: state.shown };
  /** @type {Scenario} */
  const document = withKind(target.document, held.kind) ?? target.document;
  const standing = held.index === null ? null : laidPieceAt(document, target.shown, held.index);
  const piece = standing ?? freshPiece(held.kind, state.surface);
  return landingPlaces(document, target.shown, piece, held.index, state.surface, state.units);
}

/** @param {State} state @returns {State} */
export function putDown(state) {
  return state.picked ? { ...state, picked: null, notice: null } : state;
}

/** @param {State} state @param {SetUnits} action @returns {State} */
export function setUnits(state, { units }) {
  return units === state.units ? state : { ...state, units };
}

/** @param {State} state @param {SetSnap} action @returns {State} */
export function setSnap(state, { snap }) {
  return snap === state.snap ? state : { ...state, snap };
}

/** @param {State} state @param {Notify} action @returns {State} */
export function notify(state, { notice }) {
  return { ...state, notice };
}

/** @param {State} state @param {Show} action @returns {State} */
export function show(state, { shows }) {
  return { ...state, shows: { ...state.shows, ...shows } };
}
