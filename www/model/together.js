// Several pieces selected at once: in line, spread, copied, removed; and what goes along with a piece that moves.

/**
 * @import { AlignPieces, CopyPieces, PastePieces, RemoveTogether, SelectAlso, SetMirrorLock, SpreadPieces } from "./actions.js"
 * @import { Kind, Rect, Scenario, State } from "./types.js"
 * @import { Laid } from "./laid.js"
 * @import { Target } from "./rigid.js"
 */
import { kindById } from "./geometry.js";
import { commit } from "./history.js";
import { withKind } from "./kinds.js";
import { laidRect } from "./laid.js";
import { MOST } from "./limits.js";
import { place } from "./placing.js";
import { planForNew, problem } from "./plans.js";
import { movedTogether, shiftedWith } from "./rigid.js";
import { group, laidPieceAt, withPiece, withPieces } from "./sheet.js";
import { across, twinOf } from "./twins.js";
import { kindName } from "./words.js";

/**
 * What goes along when a piece of a document moves: the rest of its group, or with the lock its twin.
 * @param {State} state @param {Scenario} document @param {number} index @returns {{twin: number|null, rest: number[]}}
 */
export function companions(state, document, index) {
  const all = group(state);
  if (all.length > 1 && all.includes(index)) return { twin: null, rest: all.filter((one) => one !== index) };
  return { twin: state.mirrorLock ? twinOf(document, state.shown, index) : null, rest: [] };
}

/**
 * Where a piece and what goes along with it are wanted.
 * @param {State} state @param {Scenario} document before the move @param {number} index @param {Laid} from @param {Laid} to @param {{twin: number|null, rest: number[]}} along
 * @returns {Target[]}
 */
export function targetsOf(state, document, index, from, to, { twin, rest }) {
  const others = twin === null ? shiftedWith(document, state.shown, rest, from, to) : [{ index: twin, piece: across(document, to) }];
  return [{ index, piece: to }, ...others];
}

/** Takes a piece into the selection or out of it. @param {State} state @param {SelectAlso} action @returns {State} */
export function selectAlso(state, { index }) {
  const piece = laidPieceAt(state.document, state.shown, index);
  if (!piece) return state;
  const all = group(state);
  const next = all.includes(index) ? all.filter((one) => one !== index) : [...all, index];
  const text = next.length > 1 ? `${next.length} pieces selected.` : null;
  return { ...state, selected: next[0] ?? null, together: next.slice(1), spot: null, surface: piece.surface, notice: text ? { text, tone: "note" } : null };
}

/** @param {State} state @param {SetMirrorLock} action @returns {State} */
export function setMirrorLock(state, { on }) {
  const text = on ? "Mirror lock on: what moves on one side moves on the other." : "Mirror lock off.";
  return { ...state, mirrorLock: on, notice: { text, tone: "note" } };
}

/**
 * The selected pieces of the surface of the first one, with their rectangles.
 * @param {State} state @returns {{index: number, piece: Laid, rect: Rect}[]}
 */
function rowOf(state) {
  const laid = group(state).flatMap((index) => {
    const piece = laidPieceAt(state.document, state.shown, index);
    return piece && piece.place !== "corner" ? [{ index, piece, rect: laidRect(state.document, piece) }] : [];
  });
  return laid.filter(({ piece }) => piece.surface === laid[0].piece.surface);
}

const EDGE_WORDS = Object.freeze({ low: "low edges", middle: "middles", high: "high edges" });

/** Brings all into line with the first one. @param {State} state @param {AlignPieces} action @param {number} now_ms @returns {State} */
export function alignPieces(state, { axis, edge }, now_ms) {
  const row = rowOf(state);
  if (row.length < 2) return problem(state, "Select two pieces or more on one surface.");
  const share = { low: 0, middle: 0.5, high: 1 }[edge];
  const along = (/** @type {Rect} */ rect) => (axis === "u" ? [rect.u_m, rect.width_m] : [rect.v_m, rect.height_m]);
  const [low_m, side_m] = along(row[0].rect);
  const line_m = low_m + share * side_m;
  const targets = row.map(({ index, piece, rect }) => ({ index, piece: atLow(piece, axis, line_m - share * along(rect)[1]) }));
  return commitTogether(state, targets, `${EDGE_WORDS[edge]} in line`, now_ms);
}

/** @param {Laid} piece @param {"u"|"v"} axis @param {number} low_m @returns {Laid} */
function atLow(piece, axis, low_m) {
  const stored_m = Math.round(low_m * 1e4) / 1e4;
  return axis === "u" ? { ...piece, u_m: stored_m } : { ...piece, v_m: stored_m };
}

/** Equal gaps between the two outer ones. @param {State} state @param {SpreadPieces} action @param {number} now_ms @returns {State} */
export function spreadPieces(state, { axis }, now_ms) {
  const spans = rowOf(state).map(({ index, piece, rect }) => ({
    index, piece, low_m: axis === "u" ? rect.u_m : rect.v_m, side_m: axis === "u" ? rect.width_m : rect.height_m,
  })).sort((a, b) => a.low_m - b.low_m);
  const last = spans.at(-1);
  if (!last || spans.length < 3) return problem(state, "Select three pieces or more on one surface.");
  const taken_m = spans.reduce((sum, { side_m }) => sum + side_m, 0);
  const gap_m = (last.low_m + last.side_m - spans[0].low_m - taken_m) / (spans.length - 1);
  if (gap_m < 0) return problem(state, "There is no room between the outer two for equal gaps.");
  let next_m = spans[0].low_m;
  const targets = spans.map(({ index, piece, side_m }) => {
    const low_m = next_m;
    next_m += side_m + gap_m;
    return { index, piece: atLow(piece, axis, low_m) };
  });
  return commitTogether(state, targets, `spread ${targets.length} pieces`, now_ms);
}

/** @param {State} state @param {Target[]} targets @param {string} label @param {number} now_ms @returns {State} */
function commitTogether(state, targets, label, now_ms) {
  const moved = movedTogether(state.document, state.shown, targets, state.units);
  if (moved.problem !== undefined) return problem(state, `Nothing moved: ${moved.problem}.`);
  const same = JSON.stringify(moved.document.plans) === JSON.stringify(state.document.plans);
  if (same) return { ...state, notice: { text: "They are so already.", tone: "note" } };
  return commit(state, { label, document: moved.document }, now_ms);
}

/** @param {State} state @param {RemoveTogether} _action @param {number} now_ms @returns {State} */
export function removeTogether(state, _action, now_ms) {
  const all = group(state);
  if (all.length === 0) return state;
  const rest = state.document.plans[state.shown].pieces.filter((_piece, index) => !all.includes(index));
  const text = `Removed ${all.length} pieces.`;
  return commit(state, {
    label: `remove ${all.length} pieces`, document: withPieces(state.document, state.shown, rest), selected: null, notice: { text, tone: "note", undo: true },
  }, now_ms);
}

/** Remembers what is selected, or the one named; it can be pasted into another plan or room as well. @param {State} state @param {CopyPieces} action @returns {State} */
export function copyPieces(state, { index }) {
  const all = group(state);
  const wanted = index === undefined || all.includes(index) ? all : [index];
  const copied = wanted.flatMap((one) => {
    const piece = laidPieceAt(state.document, state.shown, one);
    const kind = piece && kindById(state.document, piece.kit);
    return piece && kind ? [{ piece, kind }] : [];
  });
  if (copied.length === 0) return state;
  const what = copied.length === 1 ? copied[0].kind.name : `${copied.length} pieces`;
  return { ...state, copied, notice: { text: `${what} copied. Paste puts it on the surface in focus.`, tone: "note" } };
}

/** Puts what was copied on the surface in focus, each at its place there or beside it. @param {State} state @param {PastePieces} action @param {number} now_ms @returns {State} */
export function pastePieces(state, { surface = state.surface }, now_ms) {
  if (state.copied.length === 0) return problem(state, "Nothing is copied yet.");
  const target = planForNew(state);
  const first = target.document.plans[target.shown].pieces.length;
  let { document } = target;
  /** @type {string[]} */
  const reasons = [];
  for (const { piece, kind } of state.copied) {
    const added = withCopy(document, target.shown, { ...piece, surface }, kind, state);
    if (typeof added === "string") reasons.push(added);
    else document = added;
  }
  const count = document.plans[target.shown].pieces.length - first;
  if (count === 0) return problem(state, `Not pasted: ${reasons[0]}.`);
  const text = [target.note, reasons.length > 0 ? `${reasons.length} not pasted: ${reasons[0]}.` : ""].filter(Boolean).join(" ");
  return commit(state, {
    label: count === 1 ? `paste ${kindName(document, state.copied[0].piece.kit)}` : `paste ${count} pieces`, document, shown: target.shown,
    selected: first, together: Array.from({ length: count - 1 }, (_, at) => first + 1 + at), notice: text ? { text, tone: "note" } : null,
  }, now_ms);
}

/**
 * @param {Scenario} before @param {number} planIndex @param {Laid} piece @param {Kind} kind @param {State} state
 * @returns {Scenario|string} or why not
 */
function withCopy(before, planIndex, piece, kind, { units }) {
  const document = withKind(before, kind);
  if (!document) return `a document holds at most ${MOST.kinds} kinds of piece`;
  const at = document.plans[planIndex].pieces.length;
  if (at >= MOST.pieces) return `a plan holds at most ${MOST.pieces} pieces`;
  const tries = besides(document, piece).map((one) => place(document, planIndex, one, null, one, { tolerance_m: 0, units }));
  const placed = tries.find(({ legal, reason }) => legal && reason === null) ?? tries.find(({ legal }) => legal);
  return placed ? withPiece(document, planIndex, at, placed.piece) : tries[0].reason ?? "no free place";
}

/** The place itself, then beside it on all sides. @param {Scenario} document @param {Laid} piece @returns {Laid[]} */
export function besides(document, piece) {
  const { u_m, v_m, width_m, height_m } = laidRect(document, piece);
  return [[u_m, v_m], [u_m + width_m, v_m], [u_m - width_m, v_m], [u_m, v_m + height_m], [u_m, v_m - height_m]]
    .map(([u, v]) => ({ ...piece, u_m: u, v_m: v }));
}

/** What a move of several says. @param {string} problemText @returns {string} */
export function stopText(problemText) {
  return `all stop: ${problemText}`;
}

/** The label of a move. @param {State} state @param {number} index @param {number} count @param {string} [verb] @returns {string} */
export function moveLabel(state, index, count, verb = "move") {
  if (count > 2 || (count === 2 && state.together.length > 0)) return `${verb} ${count} pieces`;
  return count === 2 ? `${verb} piece ${index + 1} and its mirror` : `${verb} piece ${index + 1}`;
}
