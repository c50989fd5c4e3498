// Drags: moves change only `drag`; the end commits once, giving up restores.

/**
 * @import { DragMove, DragNew, DragStart, ResizeMove, ResizeStart } from "./actions.js"
 * @import { Drag, Scenario, State } from "./types.js"
 * @import { Laid } from "./laid.js"
 * @import { Placed } from "./placing.js"
 * @import { SnapOptions } from "./snap.js"
 */
import { commit } from "./history.js";
import { kindById } from "./geometry.js";
import { withKind } from "./kinds.js";
import { freshPiece, sameSpot } from "./laid.js";
import { MOST } from "./limits.js";
import { bounceMarks } from "./marks.js";
import { place } from "./placing.js";
import { planForNew, problem } from "./plans.js";
import { resize } from "./resize.js";
import { resizeCorner, resizeStand } from "./resize_places.js";
import { apart, movedTogether } from "./rigid.js";
import { group, laidPieceAt } from "./sheet.js";
import { afterMove, documentWith } from "./still.js";
import { companions, moveLabel, stopText, targetsOf } from "./together.js";
import { kindName, planName, sentence } from "./words.js";

/** @param {State} state @param {"move"|"resize"} kind @param {number} index @param {"pointer"|"keys"} by @returns {State} */
function take(state, kind, index, by) {
  const from = laidPieceAt(state.document, state.shown, index);
  if (!from) return state;
  return {
    ...state, selected: index, together: state.selected === index || state.together.includes(index) ? groupAround(state, index) : [],
    surface: from.surface, picked: null, notice: null,
    drag: {
      kind, index, by, from, kit: from.kit, document: state.document, base: state.document, back: state.shown,
      over: true, legal: true, reason: null, wanted: null, guides: [],
    },
  };
}

/** The rest of the selection, seen from one of its pieces. @param {State} state @param {number} index @returns {number[]} */
function groupAround(state, index) {
  return group(state).filter((one) => one !== index);
}

/** @param {State} state @param {DragStart} action @returns {State} */
export function dragStart(state, { index, by }) {
  return take(state, "move", index, by);
}

/** @param {State} state @param {ResizeStart} action @returns {State} */
export function resizeStart(state, { index }) {
  return take(state, "resize", index, "pointer");
}

/** @param {State} state @param {DragNew} action @returns {State} */
export function dragNew(state, { kit, by }) {
  const target = planForNew(state);
  const index = target.document.plans[target.shown].pieces.length;
  if (index >= MOST.pieces) return problem(state, `A plan holds at most ${MOST.pieces} pieces.`);
  const base = withKind(target.document, kit);
  if (!base) return problem(state, `A document holds at most ${MOST.kinds} kinds of piece.`);
  return {
    ...state, shown: target.shown, selected: null, picked: null, notice: null,
    drag: {
      kind: "new", index, by, from: null, kit: kit.id, document: base, base, back: state.shown,
      over: false, legal: false, reason: null, wanted: null, guides: [],
    },
  };
}

/** @param {State} state @param {DragMove} action @returns {State} */
export function dragMove(state, action) {
  const { drag } = state;
  if (!drag || drag.kind === "resize") return state;
  if (action.surface === null) {
    return { ...state, drag: { ...drag, document: drag.base, over: false, legal: false, reason: null, wanted: null, guides: [] } };
  }
  const piece = { ...heldPiece(drag, action.surface), surface: action.surface, u_m: action.u_m, v_m: action.v_m };
  const along = drag.kind === "new" ? ALONE : companions(state, drag.base, drag.index);
  const free = apart(drag.base, state.shown, along.rest, drag.kind === "new" ? null : drag.index);
  const placed = place(free.document, state.shown, piece, free.index, action, snapOptions(state, free.document, action.tolerance_m));
  if (placed.legal && drag.from && (along.twin !== null || along.rest.length > 0)) return moveAlong(state, drag, drag.from, placed, along, action.surface);
  const document = placed.legal ? documentWith(state, drag, placed) : drag.base;
  const { legal, reason, wanted, guides } = placed;
  return afterMove(state, { ...drag, document, over: true, legal, reason, wanted, guides }, action.surface);
}

/** Nothing goes along. */
const ALONE = Object.freeze({ twin: null, rest: [] });

/**
 * A move that others go along with: as far as all of them can, else along one side only, else not beyond where they are.
 * @param {State} state @param {Drag} drag @param {Laid} from @param {Placed} placed @param {{twin: number|null, rest: number[]}} along @param {Laid["surface"]} surface
 * @returns {State}
 */
function moveAlong(state, drag, from, { piece, reason, wanted, guides }, along, surface) {
  const last = laidPieceAt(drag.document, state.shown, drag.index) ?? from;
  const tries = last.surface === piece.surface ? [piece, { ...piece, v_m: last.v_m }, { ...piece, u_m: last.u_m }] : [piece];
  /** @type {string|null} */
  let stop = null;
  for (const one of tries) {
    const moved = movedTogether(drag.base, state.shown, targetsOf(state, drag.base, drag.index, from, one, along), state.units);
    stop ??= moved.problem ?? null;
    if (moved.document) {
      return { ...state, surface, drag: { ...drag, document: moved.document, over: true, legal: true, reason: stop === null ? reason : stopText(stop), wanted: stop === null ? wanted : null, guides: stop === null ? guides : [] } };
    }
  }
  return { ...state, drag: { ...drag, over: true, legal: drag.document !== drag.base || drag.legal, reason: stopText(stop ?? ""), wanted: null, guides: [] } };
}

/** @param {Drag} drag @param {Laid["surface"]} surface @returns {Laid} */
function heldPiece(drag, surface) {
  const kind = kindById(drag.base, drag.kit);
  if (drag.from) return drag.from;
  return kind ? freshPiece(kind, surface) : { kit: drag.kit, surface, u_m: 0, v_m: 0 };
}

/** @param {State} state @param {ResizeMove} action @returns {State} */
export function resizeMove(state, action) {
  const { drag } = state;
  if (!drag || drag.kind !== "resize" || !drag.from) return state;
  const options = snapOptions(state, drag.base, action.tolerance_m);
  const { document, piece, legal, reason, guides } = resized(state, drag, drag.from, action, options);
  return { ...state, drag: { ...drag, document, kit: piece.kit, legal, reason, guides } };
}

/**
 * The size that a corner is dragged to, by the place of the piece.
 * @param {State} state @param {Drag} drag @param {Laid} from @param {ResizeMove} action @param {SnapOptions} options
 */
function resized({ shown }, { base, index }, from, action, options) {
  if (from.place === "corner") return resizeCorner(base, shown, index, from, action.corner, action, options);
  if (from.place === "stand") return resizeStand(base, shown, index, from, action.corner, action, options);
  return resize(base, shown, index, from, action.corner, action, options);
}

/** @param {State} state @param {Scenario} document @param {number} tolerance_m */
function snapOptions(state, document, tolerance_m) {
  return { tolerance_m: state.snap ? tolerance_m : 0, marks: bounceMarks(document, state.shown), units: state.units };
}

/** Puts everything back. @param {State} state @returns {State} */
export function dragCancel(state) {
  return state.drag ? { ...state, drag: null, shown: state.drag.back } : state;
}

/** @param {State} state @param {unknown} _action @param {number} now_ms @returns {State} */
export function dragEnd(state, _action, now_ms) {
  const { drag } = state;
  if (!drag) return state;
  const before = dragCancel(state);
  if (!drag.legal) return problem(before, notPlaced(drag));
  const piece = laidPieceAt(drag.document, state.shown, drag.index);
  if (!piece || (drag.from && sameSpot(piece, drag.from))) return before;
  const { twin, rest } = drag.kind === "move" ? companions(state, drag.base, drag.index) : ALONE;
  const label = drag.kind === "new" ? `add ${kindName(drag.document, drag.kit)}` : moveLabel(state, drag.index, 1 + rest.length + (twin === null ? 0 : 1), drag.kind);
  const text = [dropNote(drag, state), drag.reason ? `${sentence(drag.reason)}.` : ""].filter(Boolean).join(" ");
  return commit(before, {
    label, document: drag.document, shown: state.shown, selected: drag.index, notice: text ? { text, tone: "note" } : null,
  }, now_ms);
}

/** @param {Drag} drag @returns {string} */
function notPlaced(drag) {
  const what = drag.kind === "new" ? "Not placed" : "Put back";
  if (!drag.over) return `${what}: it was dropped beside the room.`;
  return drag.reason ? `${what}: ${drag.reason}.` : `${what}.`;
}

/** @param {Drag} drag @param {State} state @returns {string} */
function dropNote(drag, state) {
  if (drag.back === state.shown) return "";
  const { plans } = drag.document;
  return `“${plans[drag.back].name}” is the room as it is, so this went into ${planName(plans[state.shown].name)}.`;
}
