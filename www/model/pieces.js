// Steps on pieces without a drag: typed numbers, arrow steps, adding, removing, mirroring, turning.

/**
 * @import { AddPiece, DuplicatePiece, Land, MirrorPiece, NudgePiece, RemovePiece, SetPiece, TurnPiece } from "./actions.js"
 * @import { Kind, Piece, Scenario, State } from "./types.js"
 * @import { Laid } from "./laid.js"
 * @import { Placed } from "./placing.js"
 */
import { hungSize, isSurfacePiece, isWall, kindById, opposite } from "./geometry.js";
import { commit } from "./history.js";
import { resizedKind, withKind } from "./kinds.js";
import { freshPiece, lay, laidRect, sameSpot, stored } from "./laid.js";
import { MOST } from "./limits.js";
import { bounceMarks } from "./marks.js";
import { place } from "./placing.js";
import { planForNew, problem } from "./plans.js";
import { apart, movedTogether } from "./rigid.js";
import { laidPieceAt, withPiece, withPieces } from "./sheet.js";
import { snap } from "./snap.js";
import { besides, companions, moveLabel, targetsOf } from "./together.js";
import { kindName, sentence, surfaceName } from "./words.js";

/** This near to a line is on it, m. */
const ALIGNED_M = 6e-4;

/** Typed numbers and arrow steps never snap. @param {State} state */
const exactly = (state) => ({ tolerance_m: 0, units: state.units });

/**
 * Puts a piece that exists where it is wanted, with what goes along, or says why not.
 * @param {State} state @param {Scenario} document with the piece's kind @param {number} index @param {Laid} piece
 * @param {{label: string, mergeKey?: string}} step @param {number} now_ms @returns {State}
 */
function putExisting(state, document, index, piece, step, now_ms) {
  const before = laidPieceAt(state.document, state.shown, index);
  const along = companions(state, state.document, index);
  const free = apart(document, state.shown, along.rest, index);
  const placed = place(free.document, state.shown, piece, free.index, piece, exactly(state));
  if (!placed.legal) return problem(state, refusal(placed));
  const notice = spoken(placed) ?? alignment(free.document, state, placed.piece, free.index);
  if (before && sameSpot(before, placed.piece)) return { ...state, notice };
  const targets = targetsOf(state, document, index, before ?? placed.piece, placed.piece, along);
  const moved = targets.length > 1 ? movedTogether(document, state.shown, targets, state.units)
    : { document: withPiece(document, state.shown, index, placed.piece) };
  if (moved.document === undefined) return problem(state, `All stay where they are: ${moved.problem}.`);
  const label = targets.length > 1 ? moveLabel(state, index, targets.length) : step.label;
  return commit(state, { ...step, label, document: moved.document, selected: index, notice }, now_ms);
}

/** Steps and typed numbers do not hold at anything, but say what they are in line with. @param {Scenario} document @param {State} state @param {Laid} piece @param {number|null} index @returns {State["notice"]} */
function alignment(document, state, piece, index) {
  const rect = laidRect(document, piece);
  const options = { tolerance_m: ALIGNED_M, marks: bounceMarks(document, state.shown), units: state.units };
  const words = snap(document, state.shown, piece, index, rect, options).guides.map(({ text }) => text);
  return words.length > 0 ? { text: `${sentence([...new Set(words)].join(", "))}.`, tone: "note" } : null;
}

/** @param {Placed} placed @returns {string} */
function refusal({ reason }) {
  return `It stays where it is: ${reason ?? "no free place here"}.`;
}

/** @param {Placed} placed @returns {State["notice"]} */
function spoken({ reason }) {
  return reason ? { text: `${sentence(reason)}.`, tone: "note" } : null;
}

/** @param {State} state @param {SetPiece} action @param {number} now_ms @returns {State} */
export function setPiece(state, action, now_ms) {
  const piece = laidPieceAt(state.document, state.shown, action.index);
  if (!piece) return state;
  if (Object.values(action).some((value) => typeof value === "number" && !Number.isFinite(value))) return problem(state, "A measure must be a number.");
  const sized = withSize(state.document, piece, action);
  if (!sized) return problem(state, `A document holds at most ${MOST.kinds} kinds of piece.`);
  const typed = withTyped({ ...stored(state.document, piece), kit: sized.kit }, action);
  const laid = lay(sized.document, typed, action.surface ?? piece.surface);
  const { u_m = laid.u_m, v_m = laid.v_m } = action;
  const verb = action.open !== undefined ? "draw aside" : sized.kit === piece.kit ? "move" : "resize";
  return putExisting(state, sized.document, action.index, { ...laid, surface: action.surface ?? laid.surface, u_m, v_m },
    { label: `${verb} piece ${action.index + 1}` }, now_ms);
}

/** A piece with what was typed of its own place; what does not belong to its place is left. @param {Piece} piece @param {SetPiece} typed @returns {Piece} */
function withTyped(piece, { edge, x_m, y_m, z_m, turn_deg, open }) {
  if (piece.place === "corner") return { ...piece, edge: edge ?? piece.edge };
  if (piece.place === "curtain") return open === undefined || !Number.isFinite(open) ? piece : { ...piece, open: Math.min(1, Math.max(0, open)) };
  if (piece.place !== "stand") return piece;
  return { ...piece, x_m: x_m ?? piece.x_m, y_m: y_m ?? piece.y_m, z_m: Math.max(0, z_m ?? piece.z_m), turn_deg: turnWithin(turn_deg ?? piece.turn_deg) };
}

/** From −180 to 180. @param {number} turn_deg @returns {number} */
function turnWithin(turn_deg) {
  const once = ((turn_deg % 360) + 360) % 360;
  return Math.round((once > 180 ? once - 360 : once) * 10) / 10;
}

/**
 * @param {Scenario} document @param {Laid} piece @param {{width_m?: number, height_m?: number}} typed as it hangs
 * @returns {{document: Scenario, kit: string}|null} null if the kit is full
 */
function withSize(document, piece, typed) {
  const kind = kindById(document, piece.kit);
  if (!kind || (typed.width_m === undefined && typed.height_m === undefined)) return { document, kit: piece.kit };
  const turned = isSurfacePiece(piece) && piece.turned === true;
  const size = { ...hungSize(kind, turned) };
  if (typed.width_m !== undefined) size.width_m = typed.width_m;
  if (typed.height_m !== undefined) size.height_m = typed.height_m;
  const made = resizedKind(document, kind, hungSize({ ...kind, ...size }, turned));
  return made && { document: made.document, kit: made.id };
}

/** @param {State} state @param {NudgePiece} action @param {number} now_ms @returns {State} */
export function nudgePiece(state, { index, du_m, dv_m }, now_ms) {
  const piece = laidPieceAt(state.document, state.shown, index);
  if (!piece) return state;
  return putExisting(state, state.document, index, { ...piece, u_m: piece.u_m + du_m, v_m: piece.v_m + dv_m },
    { label: `move piece ${index + 1}`, mergeKey: `nudge ${state.shown} ${index}` }, now_ms);
}

/** A turn of a stand. */
const EIGHTH_DEG = 45;

/** Turns about its middle; a stand by an eighth. @param {State} state @param {TurnPiece} action @param {number} now_ms @returns {State} */
export function turnPiece(state, { index }, now_ms) {
  const piece = laidPieceAt(state.document, state.shown, index);
  if (!piece) return state;
  if (piece.place === "stand") return setPiece(state, { type: "set-piece", index, turn_deg: piece.turn_deg + EIGHTH_DEG }, now_ms);
  if (!isSurfacePiece(piece)) return problem(state, "Only pieces on a surface and stands can be turned.");
  const rect = laidRect(state.document, piece);
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
 * @param {State} state @param {Kind|null} kind @param {Laid[]} wanted @param {string} label @param {number} now_ms @returns {State}
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
  const piece = laidPieceAt(state.document, state.shown, index);
  if (!piece) return state;
  const { width_m } = laidRect(state.document, piece);
  const across = { ...piece, u_m: state.document.room.width_m - piece.u_m - width_m };
  const mirrored = isWall(piece.surface) ? { ...piece, surface: opposite(piece.surface) }
    : across.place === "stand" ? { ...across, turn_deg: turnWithin(-across.turn_deg) } : across;
  return addAt(state, kindById(state.document, piece.kit), [mirrored], `mirror piece ${index + 1}`, now_ms);
}

/** Another one beside it, on whichever side is free. @param {State} state @param {DuplicatePiece} action @param {number} now_ms @returns {State} */
export function duplicatePiece(state, { index }, now_ms) {
  const piece = laidPieceAt(state.document, state.shown, index);
  if (!piece) return state;
  const beside = besides(state.document, piece).slice(1);
  return addAt(state, kindById(state.document, piece.kit), beside, `duplicate piece ${index + 1}`, now_ms);
}

/** Puts down what was picked up. @param {State} state @param {Land} action @param {number} now_ms @returns {State} */
export function land(state, action, now_ms) {
  const { picked } = state;
  if (!picked) return state;
  if (picked.index === null) {
    return addAt(state, picked.kind, [landingPiece(freshPiece(picked.kind, action.surface), action)], `add ${picked.kind.name}`, now_ms);
  }
  const piece = laidPieceAt(state.document, state.shown, picked.index);
  if (!piece) return { ...state, picked: null };
  const landed = putExisting(state, state.document, picked.index, landingPiece(piece, action), { label: `move piece ${picked.index + 1}` }, now_ms);
  return landed.notice?.tone === "problem" ? landed : { ...landed, picked: null };
}

/** @param {Laid} piece @param {Land} where @returns {Laid} */
function landingPiece(piece, { surface, u_m, v_m, turn_deg }) {
  const landing = { ...piece, surface, u_m, v_m };
  return landing.place === "stand" && turn_deg !== undefined ? { ...landing, turn_deg } : landing;
}
