/**
 * How each piece looks on its face: what it is called, whether it is in hand, chosen, refused, or marked by a bounce.
 *
 * @import { Piece, Rect, State, SurfaceName } from "../model/types.js"
 * @import { Face } from "./fold.js"
 * @import { Mark } from "./marks.js"
 * @import { PieceLook } from "./piece.js"
 * @import { Scene } from "./scene.js"
 */
import { length, number } from "../model/format.js";
import { hungSize, isSurfacePiece, kindById } from "../model/geometry.js";
import { laidRect, lyingOn } from "../model/laid.js";
import { surfaceName } from "../model/words.js";
import { boxOf, middle } from "./draw.js";
import { axisWords, shortName } from "./words.js";

/**
 * A new piece under way is not selected yet, but it is the one in hand.
 * @param {State} state
 */
export function inHand({ drag, selected }) {
  return drag?.index ?? selected;
}

/**
 * The piece that the pointer carries. It is drawn in a layer of its own; on its face it stays unseen where it was, so that
 * focus and touch keep what they began with.
 * @param {State} state
 */
export function carriedIndex({ drag }) {
  return drag?.by === "pointer" ? drag.index : null;
}

/**
 * The pieces as the faces show them, null for a new one that the pointer carries.
 * @param {Scene} scene
 * @returns {(Piece|null)[]}
 */
export function restingPieces({ plan, state }) {
  const carried = carriedIndex(state);
  return plan.pieces.map((piece, index) => (index === carried ? state.drag?.from ?? null : piece));
}

/**
 * @param {Scene} scene
 * @param {Face} face
 * @param {Piece|null|undefined} piece
 * @param {number} index  in the plan
 * @param {Mark[]} marks  on this face
 * @returns {PieceLook|null} null if the piece is not on this face
 */
export function lookOf(scene, face, piece, index, marks) {
  const { document, state } = scene;
  const laid = piece ? lyingOn(document, piece, face.surface) : null;
  const kind = laid && kindById(document, laid.kit);
  if (!kind) return null;
  const rect = laidRect(document, laid);
  const selected = inHand(state) === index || (state.drag?.kind !== "new" && state.together.includes(index));
  const name = `${shortName(kind.name)} ${index + 1}`;
  return {
    index, piece: laid, kind, rect, selected, name,
    label: pieceLabel(name, face.surface, { ...rect, ...hungSize(kind, isSurfacePiece(laid) && laid.turned) }, state.units),
    tabbable: index === tabStop(scene),
    illegal: inHand(state) === index && state.drag !== null && !state.drag.legal,
    marked: isMarked(face, rect, marks),
  };
}

/** A mark this near to the middle of a piece covers its number, px. */
const COVERS_PX = 20;

/**
 * @param {Face} face
 * @param {Rect} rect
 * @param {Mark[]} marks
 */
function isMarked(face, rect, marks) {
  const centre = middle(boxOf(face, rect));
  return marks.some(({ spot }) => Math.abs(spot.x - centre.x) < COVERS_PX && Math.abs(spot.y - centre.y) < COVERS_PX);
}

/**
 * The sheet is one stop of the Tab key: the selected piece, or the first one.
 * @param {Scene} scene
 */
export function tabStop({ state, plan }) {
  return state.selected !== null && plan.pieces[state.selected] ? state.selected : 0;
}

/**
 * "Thick soft 2, left wall, 2.53 m from the front wall, 0.90 m above the floor, 60 by 120 cm".
 * @param {string} name
 * @param {SurfaceName} surface
 * @param {Rect} rect
 * @param {"metric"|"imperial"} units
 */
function pieceLabel(name, surface, rect, units) {
  const words = axisWords(surface);
  const size = units === "imperial"
    ? `${length(rect.width_m, units)} by ${length(rect.height_m, units)}`
    : `${number(rect.width_m * 100)} by ${number(rect.height_m * 100)} cm`;
  return `${name}, ${surfaceName(surface)}, ${length(rect.u_m, units)} ${words.u}, ${length(rect.v_m, units)} ${words.v}, ${size}`;
}
