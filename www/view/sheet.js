/**
 * The Room sheet: the opened box with everything on it, as layers over each other. A drag draws only the layers of the hand;
 * the rest is neither laid out nor painted anew.
 *
 * @import { Face, Fold } from "./fold.js"
 * @import { PieceLook } from "./piece.js"
 * @import { Scene } from "./scene.js"
 */
import { guard, html, nothing, svg } from "../vendor.js";
import { lyingOn } from "../model/laid.js";
import { surfaceName } from "../model/words.js";
import { comparedKey, comparedMarks } from "./compared.js";
import { bouncePaths, cutEdge, listeners, standing } from "./floorplan.js";
import { carriedPiece, handOn, hangsOnWall, slabOf } from "./hand.js";
import { landingPlaces } from "./landing.js";
import { litDrawing } from "./lit.js";
import { carriedIndex, inHand, lookOf, restingPieces, tabStop } from "./looks.js";
import { bounceMarks, marksOn } from "./marks.js";
import { roomMeasures, ruler, scaleBar } from "./measures.js";
import { pieceDrawing } from "./piece.js";
import { secondMarks } from "./second.js";
import { surfaceDrawing } from "./surface.js";
import { READING_ORDER } from "./words.js";
import { zoneDrawing } from "./zones.js";

/**
 * The drawing of one sheet: the box, or the ceiling beside it.
 * @param {Scene} scene
 * @param {Fold} fold
 * @param {"box"|"ceiling"} sheet
 */
export function sheetDrawing(scene, fold, sheet) {
  const faces = facesOf(fold, sheet);
  const title = sheet === "ceiling" ? "Ceiling, to scale" : fold.turned === "facing" ? "One surface of the room, to scale" : "Opened box of the room, to scale";
  return html`<div class="sheet sheet-${sheet}" data-sheet=${sheet} role="group" aria-label=${title}>
    ${faces.map((face) => guard(faceKey(scene, face), () => layer(fold[sheet], "", surfaceGroup(scene, face))))}
    ${movingLayer(fold[sheet], "carried", carriedPiece(scene, faces))}
    ${guard(marksKey(scene, faces), () => layer(fold[sheet], "", faces.map((face, index) => marksGroup(scene, face, sheet === "box" && index === 0))))}
    ${scene.state.compared === null ? nothing : guard(comparedKey(scene, faces), () => layer(fold[sheet], "compared", comparedMarks(scene, faces)))}
    ${sheet === "box" ? layer(fold.box, "", frameLayer(scene, fold)) : nothing}
    ${movingLayer(fold[sheet], "in-hand", svg`<g class="hand">${faces.map((face) => handOn(scene, face))}</g>`)}</div>`;
}

/**
 * @param {{width_px: number, height_px: number}} size
 * @param {string} name
 * @param {unknown} drawing
 */
function layer({ width_px, height_px }, name, drawing) {
  return html`<svg class="layer ${name}" viewBox="0 0 ${width_px} ${height_px}" width=${width_px} height=${height_px}>${drawing}</svg>`;
}

/**
 * A layer that changes with every move. The rectangle that nobody sees keeps its extent: Chromium arranges all layers of
 * the page anew if that changes, or if an opaque rectangle of the layer moves.
 * @param {{width_px: number, height_px: number}} size
 * @param {string} name
 * @param {unknown} drawing
 */
function movingLayer(size, name, drawing) {
  return layer(size, name, svg`<rect class="hit" width=${size.width_px} height=${size.height_px} />${drawing}`);
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
 * All that the layer of a surface is drawn from.
 * @param {Scene} scene
 * @param {Face} face
 */
function faceKey(scene, face) {
  const { document, library, state, listening, shown } = scene;
  const pieces = restingPieces(scene).flatMap((piece, index) => (piece && lyingOn(document, piece, face.surface)
    ? [index, piece, index === tabStop(scene), handKey(scene, index)] : []));
  const [slabs, spot] = face.surface === "floor" ? [wallPieces(scene), spotOf(state)] : [[], null];
  return [face, document.room, document.limits, document.own_finishes, document.own_furnishings, document.kit, library, state.units,
    listening, shown === null, state.picked, spot, slabs.length, ...slabs, ...pieces];
}

/**
 * What the hand does to the look of a piece.
 * @param {Scene} scene
 * @param {number} index
 */
function handKey({ state }, index) {
  if (index !== inHand(state)) return state.together.includes(index) ? "together" : "";
  if (index === carriedIndex(state)) return "carried";
  return state.drag && !state.drag.legal ? "illegal" : "in hand";
}

/**
 * @param {Scene} scene
 * @param {Face} face
 */
function surfaceGroup(scene, face) {
  const { document, library, state, listening } = scene;
  const ground = [face, document.room, document.limits, document.own_finishes, library, state.units];
  return svg`<g role="group" aria-label=${surfaceName(face.surface)} data-surface=${face.surface}>
    ${guard(ground, () => surfaceDrawing(face, document, library, state.units))}
    ${piecesOn(scene, face, (look) => look.piece.place !== "stand")}
    ${face.surface === "floor" ? onTheFloor(scene, face) : nothing}
    ${face.surface === "floor" ? guard([face, listening, state.units, spotOf(state)], () => listeners(face, listening, state.units, spotOf(state))) : nothing}
    ${landingPlaces(scene, face)}
  </g>`;
}

/**
 * Furniture and screens stand on the rugs.
 * @param {Scene} scene
 * @param {Face} face
 */
function onTheFloor(scene, face) {
  return svg`${floorLayer(scene, face)}${piecesOn(scene, face, (look) => look.piece.place === "stand")}`;
}

/**
 * @param {Scene} scene
 * @param {Face} face
 * @param {(look: PieceLook) => boolean} which
 */
function piecesOn(scene, face, which) {
  const carried = carriedIndex(scene.state);
  return looksOn(scene, face).filter(which).map((look) => guard(keyOf(face, look, scene), () => pieceDrawing(face, look, look.index === carried)));
}

/**
 * @param {Scene} scene
 * @param {Face} face
 * @returns {PieceLook[]}
 */
function looksOn(scene, face) {
  const marks = marksOn(face, scene.shown);
  return restingPieces(scene).flatMap((piece, index) => lookOf(scene, face, piece, index, marks) ?? []);
}

/**
 * All that the drawing of a piece depends on.
 * @param {Face} face
 * @param {PieceLook} look
 * @param {Scene} scene
 */
function keyOf(face, look, scene) {
  return [face, look.piece, look.kind, look.index, look.tabbable, look.marked, handKey(scene, look.index), scene.state.units];
}

/**
 * Bounce marks move only with the room, the loudspeakers and the seat, not with the pieces.
 * @param {Scene} scene
 * @param {Face[]} faces
 */
function marksKey({ document, listening, shown, state }, faces) {
  const { zone_hz, second, lit } = state.shows;
  // The levels that a mark says follow the plan, but not every move of a drag.
  return [...faces, document.room, listening, shown === null, zone_hz, second, lit, state.units, state.drag === null ? shown : null];
}

/**
 * Over the pieces, so that a piece can be brought under its mark.
 * @param {Scene} scene
 * @param {Face} face
 * @param {boolean} stop  whether Tab stops at its first mark
 */
function marksGroup(scene, face, stop) {
  const { shown, state } = scene;
  return svg`${zoneDrawing(face, shown, state.shows.zone_hz)}
    ${state.shows.second ? secondMarks(face, shown) : nothing}${litDrawing(scene, face)}${bounceMarks(face, scene, stop)}`;
}

/**
 * The selected loudspeaker or seat; a selected piece goes before it.
 * @param {Scene["state"]} state
 */
function spotOf({ spot, selected }) {
  return selected === null ? spot : null;
}

/**
 * Furniture, the way of the side bounces, and what the walls carry, seen from above.
 * @param {Scene} scene
 * @param {Face} face
 */
function floorLayer(scene, face) {
  const { document, library, listening, shown, state: { units } } = scene;
  return svg`${guard([face, document.room, library, units], () => standing(face, document, library, units))}
    ${guard(marksKey(scene, [face]), () => bouncePaths(face, listening, shown))}
    ${wallPieces(scene).map((piece) => guard([face, document.room, document.kit, piece], () => slabOf(scene, face, piece)))}`;
}

/**
 * What hangs on the walls and lies still; the slab of a piece under way is drawn in the layer of the hand.
 * @param {Scene} scene
 */
function wallPieces({ plan, state }) {
  return plan.pieces.filter((piece, index) => index !== state.drag?.index && hangsOnWall(piece));
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
