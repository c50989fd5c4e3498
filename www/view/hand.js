/**
 * What belongs to the piece in hand, over everything else: the piece itself while the pointer carries it, ghost, guides,
 * reasons, distances, corner squares.
 *
 * @import { Piece } from "../model/types.js"
 * @import { Face } from "./fold.js"
 * @import { PieceLook } from "./piece.js"
 * @import { Scene } from "./scene.js"
 */
import { nothing, svg } from "../vendor.js";
import { isWall, kindById } from "../model/geometry.js";
import { kindDepth } from "../model/kinds.js";
import { cornerLeg, edgeWalls, lay, laidRect, lyingOn } from "../model/laid.js";
import { slab, stripAt, triangle } from "./floorplan.js";
import { carriedIndex, inHand, lookOf } from "./looks.js";
import { marksOn } from "./marks.js";
import { guideLine, liveDistances, reasonText } from "./measures.js";
import { carriedDrawing, ghost, gripSpots, grips, refused } from "./piece.js";

/**
 * The piece that the pointer carries, under the bounce marks.
 * @param {Scene} scene
 * @param {Face[]} faces
 */
export function carriedPiece(scene, faces) {
  const { plan, state } = scene;
  const index = carriedIndex(state);
  const piece = index === null ? undefined : plan.pieces[index];
  return faces.map((face) => {
    const look = piece && index !== null && lyingOn(scene.document, piece, face.surface) ? lookOf(scene, face, piece, index, marksOn(face, scene.shown)) : null;
    return look ? carriedDrawing(face, look, state.drag?.kind === "new") : nothing;
  });
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
    ${look && !state.drag && state.together.length === 0 && hasGripsOn(scene, face, look) ? grips(face, gripSpots(look), look.index) : nothing}`;
}

/**
 * A corner piece is seen on two walls; it is resized on the one that it counts as lying on.
 * @param {Scene} scene
 * @param {Face} face
 * @param {PieceLook} look
 */
function hasGripsOn({ document, plan }, face, { index }) {
  return lay(document, plan.pieces[index]).surface === face.surface;
}

/**
 * Whether a piece is seen from above as the depth that it takes along a wall.
 * @param {Piece} piece
 */
export function hangsOnWall(piece) {
  return piece.place === "corner" || (piece.place !== "stand" && isWall(piece.surface));
}

/**
 * The piece under way seen from above, if it is on a wall.
 * @param {Scene} scene
 * @param {Face} floor
 * @param {number} index
 */
function heldSlab(scene, floor, index) {
  const piece = scene.plan.pieces[index];
  return piece && hangsOnWall(piece) ? slabOf(scene, floor, piece) : nothing;
}

/**
 * @param {Scene} scene
 * @param {Face} face
 * @param {Piece} piece
 */
export function slabOf(scene, face, piece) {
  const kind = kindById(scene.document, piece.kit);
  if (!kind) return nothing;
  if (piece.place === "corner") return triangle(face, edgeWalls(piece.edge), cornerLeg(kind));
  const laid = lay(scene.document, piece);
  const rect = laidRect(scene.document, laid);
  return slab(face, stripAt(scene.document, laid.surface, rect.u_m, rect.width_m, kindDepth(kind)));
}

/**
 * @param {Scene} scene
 * @param {Face} face
 * @param {PieceLook|null} look
 */
function dragTraces(scene, face, look) {
  const drag = scene.state.drag;
  if (!drag) return nothing;
  const from = drag.legal && drag.from?.surface === face.surface ? ghost(face, laidRect(drag.base, drag.from)) : nothing;
  const isHere = drag.over && (drag.legal ? look?.piece.surface === face.surface : scene.state.surface === face.surface);
  const rect = drag.legal ? look?.rect : drag.wanted;
  if (!isHere || !rect) return from;
  return svg`${from}${drag.wanted ? refused(face, drag.wanted) : nothing}
    ${look && drag.legal ? drag.guides.map((guide, place) => guideLine(face, guide, look.rect, place)) : nothing}
    ${drag.reason ? reasonText(face, rect, drag.reason) : nothing}`;
}
