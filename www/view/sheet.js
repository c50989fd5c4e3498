/**
 * The Room sheet: the opened box with everything on it. Layers that a drag does not touch are kept as they are.
 *
 * @import { Rect, SurfaceName, SurfacePiece } from "../model/types.js"
 * @import { Face, Fold } from "./fold.js"
 * @import { Mark } from "./marks.js"
 * @import { PieceLook } from "./piece.js"
 * @import { Scene } from "./scene.js"
 */
import { guard, nothing, svg } from "../vendor.js";
import { length, number } from "../model/format.js";
import { isSurfacePiece, isWall, kindById, pieceRect } from "../model/geometry.js";
import { kindDepth } from "../model/kinds.js";
import { surfaceName } from "../model/words.js";
import { boxOf, middle } from "./draw.js";
import { bouncePaths, cutEdge, listeners, slab, standing, stripAt } from "./floorplan.js";
import { landingPlaces } from "./landing.js";
import { bounceMarks, marksOn } from "./marks.js";
import { guideLine, liveDistances, reasonText, roomMeasures, ruler, scaleBar } from "./measures.js";
import { ghost, grips, pieceDrawing, refused } from "./piece.js";
import { surfaceDrawing } from "./surface.js";
import { READING_ORDER, axisWords, shortName } from "./words.js";

/**
 * The drawing of one sheet: the box, or the ceiling beside it.
 * @param {Scene} scene
 * @param {Fold} fold
 * @param {"box"|"ceiling"} sheet
 */
export function sheetDrawing(scene, fold, sheet) {
  const { width_px, height_px } = fold[sheet];
  const faces = facesOf(fold, sheet);
  const looks = faces.map((face) => piecesOn(scene, face));
  const title = sheet === "ceiling" ? "Ceiling, to scale" : fold.turned === "facing" ? "One surface of the room, to scale" : "Opened box of the room, to scale";
  return svg`<svg class="sheet sheet-${sheet}" data-sheet=${sheet} viewBox="0 0 ${width_px} ${height_px}" width=${width_px} height=${height_px}
    role="group" aria-label=${title}>
    ${faces.map((face, index) => surfaceGroup(scene, face, looks[index]))}
    ${sheet === "box" ? frameLayer(scene, fold) : nothing}
    ${faces.map((face, index) => handLayer(scene, face, looks[index]))}
  </svg>`;
}

/**
 * @param {Fold} fold
 * @param {"box"|"ceiling"} sheet
 * @returns {Face[]}
 */
function facesOf(fold, sheet) {
  return READING_ORDER.flatMap((name) => {
    const face = fold.faces[name];
    return face && face.sheet === sheet ? [face] : [];
  });
}

/**
 * @param {Scene} scene
 * @param {Face} face
 * @param {PieceLook[]} looks
 */
function surfaceGroup(scene, face, looks) {
  const { document, library, state, listening } = scene;
  const ground = [face, document.room, document.limits, document.own_finishes, library, state.units];
  return svg`<g role="group" aria-label=${surfaceName(face.surface)} data-surface=${face.surface}>
    ${guard(ground, () => surfaceDrawing(face, document, library, state.units))}
    ${face.surface === "floor" ? floorLayer(scene, face) : nothing}
    ${looks.map((look) => guard(keyOf(face, look, state.units), () => pieceDrawing(face, look)))}
    ${face.surface === "floor" ? guard([face, listening, state.units], () => listeners(face, listening, state.units)) : nothing}
    ${landingPlaces(scene, face)}
    ${guard(markKey(scene, face), () => bounceMarks(face, scene.shown))}
  </g>`;
}

/**
 * All that the drawing of a piece depends on.
 * @param {Face} face
 * @param {PieceLook} look
 * @param {"metric"|"imperial"} units
 */
function keyOf(face, look, units) {
  return [face, look.piece, look.kind, look.index, look.selected, look.tabbable, look.illegal, look.marked, units];
}

/**
 * Bounce marks move only with the room, the loudspeakers and the seat, not with the pieces.
 * @param {Scene} scene
 * @param {Face} face
 */
function markKey({ document, listening, shown }, face) {
  return [face, document.room, listening, shown === null];
}

/**
 * Furniture, the way of the side bounces, and what the walls carry, seen from above.
 * @param {Scene} scene
 * @param {Face} face
 */
function floorLayer(scene, face) {
  const { document, library, listening, shown, plan } = scene;
  return svg`${guard([face, document.room, library], () => standing(face, document, library))}
    ${guard(markKey(scene, face), () => bouncePaths(face, listening, shown))}
    ${plan.pieces.map((piece) => (isSurfacePiece(piece) && isWall(piece.surface) ? slabOf(scene, face, piece) : nothing))}`;
}

/**
 * @param {Scene} scene
 * @param {Face} face
 * @param {SurfacePiece} piece
 */
function slabOf(scene, face, piece) {
  const kind = kindById(scene.document, piece.kit);
  if (!kind) return nothing;
  const rect = pieceRect(scene.document, piece);
  return slab(face, stripAt(scene.document, piece.surface, rect.u_m, rect.width_m, kindDepth(kind)));
}

/**
 * @param {Scene} scene
 * @param {Face} face
 * @returns {PieceLook[]}
 */
function piecesOn(scene, face) {
  const { document, plan, state } = scene;
  const { surface } = face;
  const current = tabStop(scene);
  const marks = marksOn(face, scene.shown);
  // A new piece under way is not selected yet, but it is the one in hand.
  const inHand = state.drag?.index ?? state.selected;
  return plan.pieces.flatMap((piece, index) => {
    const kind = isSurfacePiece(piece) && piece.surface === surface ? kindById(document, piece.kit) : null;
    if (!kind || !isSurfacePiece(piece)) return [];
    const rect = pieceRect(document, piece);
    const selected = inHand === index;
    const name = `${shortName(kind.name)} ${index + 1}`;
    return [{
      index, piece, kind, rect, selected, name,
      label: pieceLabel(name, surface, rect, state.units),
      tabbable: index === current,
      illegal: selected && state.drag !== null && !state.drag.legal,
      marked: isMarked(face, rect, marks),
    }];
  });
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
function tabStop({ state, plan }) {
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

/**
 * The cut line and the measures of the room; over the surfaces, under the hand.
 * @param {Scene} scene
 * @param {Fold} fold
 */
function frameLayer(scene, fold) {
  const { document, state } = scene;
  const floor = fold.faces.floor;
  if (floor && fold.turned === "facing") return guard([floor, document.room], () => cutEdge(floor, document));
  const [top, after] = fold.turned === "lying" ? [fold.faces.right, fold.faces.back] : [fold.faces.front, fold.faces.right];
  if (!floor || !top || !after) return nothing;
  return guard([floor, document.room, state.units], () => svg`<g class="frame">${cutEdge(floor, document)}
    ${ruler(floor, top, state.units)}${roomMeasures(fold, after, document.room, state.units)}${scaleBar(fold, after, state.units)}</g>`);
}

/**
 * What belongs to the piece in hand, over everything else: ghost, guides, reasons, distances, corner squares.
 * @param {Scene} scene
 * @param {Face} face
 * @param {PieceLook[]} looks
 */
function handLayer(scene, face, looks) {
  const { state } = scene;
  const look = looks.find((one) => one.selected);
  return svg`<g class="hand">
    ${state.drag ? dragTraces(scene, face, look ?? null) : nothing}
    ${look && (!state.drag || state.drag.legal) ? liveDistances(face, look.rect, state.units, state.drag !== null) : nothing}
    ${look && !state.drag ? grips(face, look.rect, look.index) : nothing}
  </g>`;
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
