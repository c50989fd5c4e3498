/**
 * What belongs to the piece in hand, over everything else: the piece itself while the pointer carries it, ghost, guides,
 * reasons, distances, corner squares.
 *
 * @import { SurfacePiece } from "../model/types.js"
 * @import { Face } from "./fold.js"
 * @import { PieceLook } from "./piece.js"
 * @import { Scene } from "./scene.js"
 */
import { nothing, svg } from "../vendor.js";
import { isSurfacePiece, isWall, kindById, pieceRect } from "../model/geometry.js";
import { kindDepth } from "../model/kinds.js";
import { slab, stripAt } from "./floorplan.js";
import { carriedIndex, inHand, lookOf } from "./looks.js";
import { marksOn } from "./marks.js";
import { guideLine, liveDistances, reasonText } from "./measures.js";
import { carriedDrawing, ghost, grips, refused } from "./piece.js";

/**
 * The piece that the pointer carries, under the bounce marks.
 * @param {Scene} scene
 * @param {Face[]} faces
 */
export function carriedPiece(scene, faces) {
  const { plan, state } = scene;
  const index = carriedIndex(state);
  const piece = index === null ? undefined : plan.pieces[index];
  const face = faces.find(({ surface }) => piece && isSurfacePiece(piece) && piece.surface === surface);
  const look = face && index !== null ? lookOf(scene, face, piece, index, marksOn(face, scene.shown)) : null;
  return face && look ? carriedDrawing(face, look, state.drag?.kind === "new") : nothing;
}

/**
 * @param {Scene} scene
 * @param {Face} face
 */
export function handOn(scene, face) {
  const { plan, state } = scene;
  const index = inHand(state);
  const look = index === null ? null : lookOf(scene, face, plan.pieces[index], index, []);
  return svg`${state.drag ? dragTraces(scene, face, look) : nothing}${state.drag && face.surface === "floor" ? heldSlab(scene, face, state.drag.index) : nothing}
    ${look && (!state.drag || state.drag.legal) ? liveDistances(face, look.rect, state.units, state.drag !== null) : nothing}
    ${look && !state.drag ? grips(face, look.rect, look.index) : nothing}`;
}

/**
 * The piece under way seen from above, if it is on a wall.
 * @param {Scene} scene
 * @param {Face} floor
 * @param {number} index
 */
function heldSlab(scene, floor, index) {
  const piece = scene.plan.pieces[index];
  return piece && isSurfacePiece(piece) && isWall(piece.surface) ? slabOf(scene, floor, piece) : nothing;
}

/**
 * @param {Scene} scene
 * @param {Face} face
 * @param {SurfacePiece} piece
 */
export function slabOf(scene, face, piece) {
  const kind = kindById(scene.document, piece.kit);
  if (!kind) return nothing;
  const rect = pieceRect(scene.document, piece);
  return slab(face, stripAt(scene.document, piece.surface, rect.u_m, rect.width_m, kindDepth(kind)));
}

/**
 * @param {Scene} scene
 * @param {Face} face
 * @param {PieceLook|null} look
 */
function dragTraces(scene, face, look) {
  const drag = scene.state.drag;
  if (!drag) return nothing;
  const from = drag.legal && drag.from?.surface === face.surface ? ghost(face, pieceRect(drag.base, drag.from)) : nothing;
  const isHere = drag.over && scene.state.surface === face.surface;
  const rect = drag.legal ? look?.rect : drag.wanted;
  if (!isHere || !rect) return from;
  return svg`${from}${drag.wanted ? refused(face, drag.wanted) : nothing}
    ${look && drag.legal ? drag.guides.map((guide, place) => guideLine(face, guide, look.rect, place)) : nothing}
    ${drag.reason ? reasonText(face, rect, drag.reason) : nothing}`;
}
