// The reducer: which step answers which action. Nothing else makes a new state.

/**
 * @import { Action } from "./actions.js"
 * @import { Scenario, State } from "./types.js"
 * @typedef {{[T in Action["type"]]: (state: State, action: Extract<Action, {type: T}>, now_ms: number) => State}} Answers
 */
import { adviceAsked, adviceCame, adviceCovers, adviceStopped, stepAsked, stepCame, takeAdvice } from "./advising.js";
import { answered, checkedRangesCame } from "./checked.js";
import { removeOwnFurnishing, setAir, setOwnFurnishing } from "./air.js";
import { dragCancel, dragEnd, dragMove, dragNew, dragStart, resizeMove, resizeStart } from "./gestures.js";
import { moveFurnishing, placeFurnishing, removeFurnishing, setFurnishing } from "./furniture.js";
import { keepInside, redo, undo } from "./history.js";
import { removeOwnFinish, setCondition, setLimit, setOwnFinish } from "./household.js";
import { bassCame } from "./late.js";
import { compare, face, notify, pick, putDown, select, setSnap, setUnits, show, showPlan } from "./looking.js";
import { addMeasured, checkupCame, removeMeasured, setMeasured } from "./measured.js";
import { removePart, removeZone, setPart, setZone } from "./parts.js";
import { addPiece, duplicatePiece, land, mirrorPiece, nudgePiece, removePiece, setPiece, turnPiece } from "./pieces.js";
import { addOwnKind } from "./own_kind.js";
import { addPlan, movePlan, problem, removePlan, renamePlan } from "./plans.js";
import { cancelGesture, setCurrency, setFinish, setGoal, setKind, setRoom, setTitle } from "./room.js";
import { awaitTap, moveLoudspeaker, moveSeat, putBackSpots, removeSpots, selectSpot, setLoudspeaker } from "./spots.js";
import { startRoom } from "./start.js";
import { alignPieces, copyPieces, pastePieces, removeTogether, selectAlso, setMirrorLock, spreadPieces } from "./together.js";
import { keepMine, newHome, openDocument, openNewer, useThis } from "./visits.js";

export { onSheet } from "./sheet.js";

/** @type {Readonly<Answers>} */
const ANSWERS = Object.freeze({
  "drag-start": dragStart, "drag-new": dragNew, "drag-move": dragMove, "drag-end": dragEnd, "drag-cancel": dragCancel,
  "resize-start": resizeStart, "resize-move": resizeMove,
  "turn-piece": turnPiece, "set-piece": setPiece, "nudge-piece": nudgePiece, "add-piece": addPiece, "remove-piece": removePiece,
  "mirror-piece": mirrorPiece, "duplicate-piece": duplicatePiece, land,
  "align-pieces": alignPieces, "spread-pieces": spreadPieces, "remove-together": removeTogether, "paste-pieces": pastePieces,
  "select-also": selectAlso, "copy-pieces": copyPieces, "set-mirror-lock": setMirrorLock,
  "set-kind": setKind, "add-own-kind": addOwnKind, "set-room": setRoom, "set-finish": setFinish, "set-furnishing": setFurnishing,
  "place-furnishing": placeFurnishing, "move-furnishing": moveFurnishing, "remove-furnishing": removeFurnishing,
  "set-part": setPart, "remove-part": removePart, "set-zone": setZone, "remove-zone": removeZone,
  "set-condition": setCondition, "set-limit": setLimit, "set-own-finish": setOwnFinish, "remove-own-finish": removeOwnFinish,
  "move-loudspeaker": moveLoudspeaker, "move-seat": moveSeat, "set-loudspeaker": setLoudspeaker, "remove-spots": removeSpots, "put-back-spots": putBackSpots, "cancel-gesture": cancelGesture,
  "set-air": setAir, "set-own-furnishing": setOwnFurnishing, "remove-own-furnishing": removeOwnFurnishing,
  "set-goal": setGoal, "set-title": setTitle,
  "add-plan": addPlan, "remove-plan": removePlan, "rename-plan": renamePlan, "move-plan": movePlan, "set-currency": setCurrency, "start-room": startRoom,
  undo, redo,
  "open-document": openDocument, "open-newer": openNewer, "keep-mine": keepMine, "use-this": useThis,
  "show-plan": showPlan, compare, select, face, pick, "put-down": putDown,
  "set-units": setUnits, "set-snap": setSnap, notify, answered,
  "select-spot": selectSpot, "await-tap": awaitTap, show, "ranges-came": checkedRangesCame, "bass-came": bassCame,
  "add-measured": addMeasured, "set-measured": setMeasured, "remove-measured": removeMeasured, "checkup-came": checkupCame,
  "advice-asked": adviceAsked, "advice-covers": adviceCovers, "advice-came": adviceCame, "advice-stopped": adviceStopped, "step-asked": stepAsked, "step-came": stepCame, "take-advice": takeAdvice,
});

/** What may happen during a drag without ending it. @type {ReadonlySet<Action["type"]>} */
const DURING_DRAG = new Set([
  "drag-move", "resize-move", "drag-end", "drag-cancel", "set-units", "set-snap", "notify", "answered", "show", "ranges-came", "bass-came", "checkup-came",
  "advice-came", "advice-stopped", "step-came",
]);

/** What a document of a newer version still allows. @type {ReadonlySet<Action["type"]>} */
const READ_ONLY = new Set([
  "undo", "open-document", "open-newer", "keep-mine", "use-this", "start-room", "show-plan", "compare", "select", "select-also", "copy-pieces", "face", "put-down",
  "set-units", "set-snap", "notify", "answered", "drag-cancel", "select-spot", "show", "ranges-came", "bass-came", "checkup-came", "advice-came", "advice-stopped",
  "step-asked", "step-came",
]);

/**
 * The state the page starts from.
 * @param {Scenario} document at least one plan
 * @param {{example?: boolean, home?: State["home"]}} [options] example: false if it is the reader's own draft
 * @returns {State}
 */
export function initialState(document, { example = true, home = newHome() } = {}) {
  return keepInside({
    document, shown: 1, compared: null, selected: null, together: [], copied: [], mirrorLock: false, surface: "left", history: { past: [], future: [] }, drag: null,
    picked: null, units: "metric", snap: true, notice: null, visiting: null, readOnly: null, example, home, answer: null,
    late: null, bass: null, otherBass: null, checkup: null, advice: null, step: null, spot: null, tapping: null, shows: { zone_hz: 1000, second: false, layer: null },
  });
}

/**
 * The state after an action. Every action but moves of a drag ends a drag under way by putting it back; for undo and redo
 * that is all, as putting back is what is asked for.
 * @param {State} state @param {Action} action @param {number} now_ms @returns {State}
 */
export function reduce(state, action, now_ms) {
  if (state.readOnly && !READ_ONLY.has(action.type)) return problem(state, state.readOnly.text);
  if (state.drag && (action.type === "undo" || action.type === "redo")) return dragCancel(state);
  const ready = state.drag && !DURING_DRAG.has(action.type) ? dragCancel(state) : state;
  const answer = /** @type {(state: State, action: Action, now_ms: number) => State} */ (ANSWERS[action.type]);
  return answer(ready, action, now_ms);
}
