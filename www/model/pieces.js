// Steps on pieces without a drag: typed numbers, arrow steps, adding, removing, mirroring, turning.

/**
 * @import { AddPiece, DuplicatePiece, Land, MirrorPiece, NudgePiece, RemovePiece, SetPiece, TurnPiece } from "./actions.js"
 * @import { Kind, Scenario, State, SurfacePiece } from "./types.js"
 * @import { Placed } from "./placing.js"
 */
import { hungSize, isWall, kindById, opposite, pieceRect } from "./geometry.js";
import { commit } from "./history.js";
import { resizedKind, withKind } from "./kinds.js";
import { MOST } from "./limits.js";
import { place } from "./placing.js";
import { planForNew, problem } from "./plans.js";
import { surfacePieceAt, withPiece, withPieces } from "./sheet.js";
import { kindName, sentence, surfaceName } from "./words.js";

/** Typed numbers and arrow steps never snap. @param {State} state */
const exactly = (state) => ({ tolerance_m: 0, units: state.units });

/**
 * Puts a piece that exists where it is wanted, or says why not.
 * @param {State} state @param {Scenario} document with the piece's kind @param {number} index @param {SurfacePiece} piece
 * @param {{label: string, mergeKey?: string}} step @param {number} now_ms @returns {State}
 */
function putExisting(state, document, index, piece, step, now_ms) {
  const placed = place(document, state.shown, piece, index, piece, exactly(state));
  if (!placed.legal) return problem(state, refusal(placed));
  const before = surfacePieceAt(state.document, state.shown, index);
  const notice = spoken(placed);
  if (before && samePiece(before, placed.piece)) return { ...state, notice };
  return commit(state, { ...step, document: withPiece(document, state.shown, index, placed.piece), selected: index, notice }, now_ms);
}

/** @param {Placed} placed @returns {string} */
function refusal({ reason }) {
  return `It stays where it is: ${reason ?? "no free place here"}.`;
}

/** @param {Placed} placed @returns {State["notice"]} */
function spoken({ reason }) {
  return reason ? { text: `${sentence(reason)}.`, tone: "note" } : null;
}

/** @param {SurfacePiece} a @param {SurfacePiece} b @returns {boolean} */
function samePiece(a, b) {
  return a.kit === b.kit && a.surface === b.surface && a.u_m === b.u_m && a.v_m === b.v_m && (a.turned ?? false) === (b.turned ?? false);
}

/** @param {State} state @param {SetPiece} action @param {number} now_ms @returns {State} */
export function setPiece(state, action, now_ms) {
  const piece = surfacePieceAt(state.document, state.shown, action.index);
  if (!piece) return state;
  const sized = withSize(state.document, piece, action);
  if (!sized) return problem(state, `A document holds at most ${MOST.kinds} kinds of piece.`);
  const { u_m = piece.u_m, v_m = piece.v_m, surface = piece.surface } = action;
  const verb = sized.kit === piece.kit ? "move" : "resize";
  return putExisting(state, sized.document, action.index, { ...piece, kit: sized.kit, surface, u_m, v_m },
    { label: `${verb} piece ${action.index + 1}` }, now_ms);
}

/**
 * @param {Scenario} document @param {SurfacePiece} piece @param {{width_m?: number, height_m?: number}} typed as it hangs
 * @returns {{document: Scenario, kit: string}|null} null if the kit is full
 */
function withSize(document, piece, typed) {
  const kind = kindById(document, piece.kit);
  if (!kind || (typed.width_m === undefined && typed.height_m === undefined)) return { document, kit: piece.kit };
  const size = { ...hungSize(kind, piece.turned) };
  if (typed.width_m !== undefined) size.width_m = typed.width_m;
  if (typed.height_m !== undefined) size.height_m = typed.height_m;
  const made = resizedKind(document, kind, hungSize({ ...kind, ...size }, piece.turned));
  return made && { document: made.document, kit: made.id };
}

/** @param {State} state @param {NudgePiece} action @param {number} now_ms @returns {State} */
export function nudgePiece(state, { index, du_m, dv_m }, now_ms) {
  const piece = surfacePieceAt(state.document, state.shown, index);
  if (!piece) return state;
  return putExisting(state, state.document, index, { ...piece, u_m: piece.u_m + du_m, v_m: piece.v_m + dv_m },
    { label: `move piece ${index + 1}`, mergeKey: `nudge ${state.shown} ${index}` }, now_ms);
}

/** Turns about its middle. @param {State} state @param {TurnPiece} action @param {number} now_ms @returns {State} */
export function turnPiece(state, { index }, now_ms) {
  const piece = surfacePieceAt(state.document, state.shown, index);
  if (!piece) return state;
  const rect = pieceRect(state.document, piece);
  const shift_m = (rect.width_m - rect.height_m) / 2;
  return putExisting(state, state.document, index,
    { ...piece, turned: !piece.turned, u_m: piece.u_m + shift_m, v_m: piece.v_m - shift_m }, { label: `turn piece ${index + 1}` }, now_ms);
}

/** @param {State} state @param {RemovePiece} action @param {number} now_ms @returns {State} */
export function removePiece(state, { index }, now_ms) {
  const { document, shown } = state;
  const piece = document.plans[shown].pieces[index];
  if (!piece) return state;
  const pieces = document.plans[shown].pieces.filter((_other, at) => at !== index);
  const notice = /** @type {const} */ ({ text: `Removed ${kindName(document, piece.kit)}.`, tone: "note", undo: true });
  return commit(state, { label: `remove piece ${index + 1}`, document: withPieces(document, shown, pieces), selected: null, notice }, now_ms);
}

/**
 * Adds a piece at the first of several places that is legal.
 * @param {State} state @param {Kind|null} kind @param {SurfacePiece[]} wanted @param {string} label @param {number} now_ms @returns {State}
 */
function addAt(state, kind, wanted, label, now_ms) {
  const target = planForNew(state);
  const { pieces } = target.document.plans[target.shown];
  if (pieces.length >= MOST.pieces) return problem(state, `A plan holds at most ${MOST.pieces} pieces.`);
  const document = kind && withKind(target.document, kind);
  if (!document) return problem(state, `A document holds at most ${MOST.kinds} kinds of piece.`);
  const tries = wanted.map((piece) => place(document, target.shown, piece, null, piece, exactly(state)));
  const placed = tries.find(({ legal, reason }) => legal && reason === null) ?? tries.find(({ legal }) => legal);
  if (!placed) return problem(state, `Not placed on the ${surfaceName(wanted[0].surface)}: ${tries[0].reason}.`);
  const text = [target.note, placed.reason && `${sentence(placed.reason)}.`].filter(Boolean).join(" ");
  return commit(state, {
    label, document: withPiece(document, target.shown, pieces.length, placed.piece), shown: target.shown,
    selected: pieces.length, notice: text ? { text, tone: "note" } : null,
  }, now_ms);
}

/** @param {State} state @param {AddPiece} action @param {number} now_ms @returns {State} */
export function addPiece(state, { piece, kit }, now_ms) {
  return addAt(state, kit, [{ ...piece, kit: kit.id }], `add ${kit.name}`, now_ms);
}

/**
 * The same piece on the facing wall; on floor and ceiling, across the room's length axis.
 * @param {State} state @param {MirrorPiece} action @param {number} now_ms @returns {State}
 */
export function mirrorPiece(state, { index }, now_ms) {
  const piece = surfacePieceAt(state.document, state.shown, index);
  if (!piece) return state;
  const { width_m } = pieceRect(state.document, piece);
  const mirrored = isWall(piece.surface)
    ? { ...piece, surface: opposite(piece.surface) }
    : { ...piece, u_m: state.document.room.width_m - piece.u_m - width_m };
  return addAt(state, kindById(state.document, piece.kit), [mirrored], `mirror piece ${index + 1}`, now_ms);
}

/** Another one beside it, on whichever side is free. @param {State} state @param {DuplicatePiece} action @param {number} now_ms @returns {State} */
export function duplicatePiece(state, { index }, now_ms) {
  const piece = surfacePieceAt(state.document, state.shown, index);
  if (!piece) return state;
  const { u_m, v_m, width_m, height_m } = pieceRect(state.document, piece);
  const beside = [[u_m + width_m, v_m], [u_m - width_m, v_m], [u_m, v_m + height_m], [u_m, v_m - height_m]]
    .map(([u, v]) => ({ ...piece, u_m: u, v_m: v }));
  return addAt(state, kindById(state.document, piece.kit), beside, `duplicate piece ${index + 1}`, now_ms);
}

/** Puts down what was picked up. @param {State} state @param {Land} action @param {number} now_ms @returns {State} */
export function land(state, action, now_ms) {
  const { picked } = state;
  if (!picked) return state;
  const where = { surface: action.surface, u_m: action.u_m, v_m: action.v_m };
  if (picked.index === null) {
    return addAt(state, picked.kind, [{ kit: picked.kit, ...where }], `add ${picked.kind.name}`, now_ms);
  }
  const piece = surfacePieceAt(state.document, state.shown, picked.index);
  if (!piece) return { ...state, picked: null };
  const landed = putExisting(state, state.document, picked.index, { ...piece, ...where }, { label: `move piece ${picked.index + 1}` }, now_ms);
  return landed.notice?.tone === "problem" ? landed : { ...landed, picked: null };
}
