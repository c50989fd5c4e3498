// Several pieces that go together: each has to find its own place free, or none of them moves.

/**
 * @import { Scenario } from "./types.js"
 * @import { Laid } from "./laid.js"
 * @import { Units } from "./format.js"
 * @typedef {{index: number, piece: Laid}} Target  where a piece of the plan is wanted
 * @typedef {{document: Scenario, problem?: undefined} | {document?: undefined, problem: string}} Moved
 */
import { laidPieceAt, withPiece } from "./sheet.js";
import { place } from "./placing.js";
import { kindName } from "./words.js";

/** What a piece may be shifted by to lie on the stored 0.1 mm, m. */
const ROUNDING_M = 2e-4;

/**
 * The document with all targets taken at once, so that pieces that change places do not stand in each other's way.
 * @param {Scenario} document @param {number} planIndex @param {readonly Target[]} targets @param {Units} units @returns {Moved}
 */
export function movedTogether(document, planIndex, targets, units) {
  const moved = targets.reduce((made, { index, piece }) => withPiece(made, planIndex, index, piece), document);
  for (const { index, piece } of targets) {
    const placed = place(moved, planIndex, piece, index, piece, { tolerance_m: 0, units });
    if (!placed.legal || isElsewhere(placed.piece, piece)) return { problem: `${nameOf(moved, piece, index)}: ${placed.reason ?? "has no free place there"}` };
  }
  return { document: moved };
}

/** @param {Laid} found @param {Laid} wanted @returns {boolean} */
function isElsewhere(found, wanted) {
  return found.surface !== wanted.surface || Math.abs(found.u_m - wanted.u_m) > ROUNDING_M || Math.abs(found.v_m - wanted.v_m) > ROUNDING_M;
}

/** "Thin soft, 25 mm (3)". @param {Scenario} document @param {Laid} piece @param {number} index @returns {string} */
function nameOf(document, piece, index) {
  return `${kindName(document, piece.kit)} (${index + 1})`;
}

/**
 * The pieces of a group that lie on the surface of one of them, shifted as it is.
 * @param {Scenario} document @param {number} planIndex @param {readonly number[]} group @param {Laid} from @param {Laid} to @returns {Target[]}
 */
export function shiftedWith(document, planIndex, group, from, to) {
  return group.flatMap((index) => {
    const piece = laidPieceAt(document, planIndex, index);
    if (!piece || piece.surface !== from.surface || piece.place === "corner") return [];
    return [{ index, piece: { ...piece, surface: to.surface, u_m: piece.u_m + to.u_m - from.u_m, v_m: piece.v_m + to.v_m - from.v_m } }];
  });
}

/** The document without some pieces of a plan, and where another one is now. @param {Scenario} document @param {number} planIndex @param {readonly number[]} out @param {number|null} index @returns {{document: Scenario, index: number|null}} */
export function apart(document, planIndex, out, index) {
  if (out.length === 0) return { document, index };
  const plans = document.plans.map((plan, at) => (at === planIndex
    ? { ...plan, pieces: plan.pieces.filter((_piece, one) => !out.includes(one)) } : plan));
  return { document: { ...document, plans }, index: index === null ? null : index - out.filter((one) => one < index).length };
}
