/**
 * What differs from the plan compared with, on the drawing: pieces that only this plan has wear a second frame and a word,
 * those that only the other one has are dashed outlines with theirs.
 *
 * @import { Rect } from "../model/types.js"
 * @import { Face } from "./fold.js"
 * @import { Scene } from "./scene.js"
 */
import { svg } from "../vendor.js";
import { differing } from "../model/compare.js";
import { laidRect, lyingOn } from "../model/laid.js";
import { boxOf, faceBox, inset, px } from "./draw.js";

/** How far the second frame stands off, px. */
const OFF_PX = 3.5;
/** A name longer than this is not written at every piece. */
const SHORT_NAME = 4;

/**
 * @param {Scene} scene
 * @param {Face[]} faces
 */
export function comparedKey({ document, state: { shown, compared } }, faces) {
  return [...faces, document.room, document.kit, document.plans[shown], document.plans[compared ?? 0]];
}

/**
 * @param {Scene} scene
 * @param {Face[]} faces
 */
export function comparedMarks({ document, state: { shown, compared } }, faces) {
  if (compared === null) return "";
  const { here, there } = differing(document, shown, compared);
  const words = { here: onlyIn(document.plans[shown].name, "only here"), there: onlyIn(document.plans[compared].name, "only there") };
  const onFaces = (/** @type {number} */ plan, /** @type {number[]} */ indices, /** @type {(face: Face, rect: Rect) => unknown} */ draw) => faces.flatMap((face) => indices.flatMap((index) => {
    const laid = lyingOn(document, document.plans[plan].pieces[index], face.surface);
    return laid ? [draw(face, laidRect(document, laid))] : [];
  }));
  return svg`<g class="differs">${onFaces(compared, there, (face, rect) => gone(face, rect, words.there))}${onFaces(shown, here, (face, rect) => added(face, rect, words.here))}
    ${faces.map((face) => tally(face, onFace(document, shown, here, face), onFace(document, compared, there, face), words))}</g>`;
}

/**
 * How many of these pieces are on a face.
 * @param {Scene["document"]} document
 * @param {number} plan
 * @param {number[]} indices
 * @param {Face} face
 */
function onFace(document, plan, indices, face) {
  return indices.filter((index) => lyingOn(document, document.plans[plan].pieces[index], face.surface)).length;
}

/**
 * In words, once for each face: "14 only in B, 2 only in A".
 * @param {Face} face
 * @param {number} here
 * @param {number} there
 * @param {{here: string, there: string}} words
 */
function tally(face, here, there, words) {
  const said = [here > 0 ? `${here} ${words.here}` : "", there > 0 ? `${there} ${words.there}` : ""].filter(Boolean).join(", ");
  if (said === "") return "";
  const box = faceBox(face);
  const y = face.side === "bottom" || face.side === "before" || face.side === "after" ? box.y + box.height - 10 : box.y + box.height - 8;
  return svg`<text class="reason halo" x=${px(box.x + box.width - 6)} y=${px(y)} text-anchor="end">${said}</text>`;
}

/** "only in A". @param {string} name @param {string} otherwise */
function onlyIn(name, otherwise) {
  return name.length <= SHORT_NAME ? `only in ${name}` : otherwise;
}

/**
 * @param {Face} face
 * @param {Rect} rect
 * @param {string} words
 */
function added(face, rect, words) {
  const box = boxOf(face, rect);
  const frame = inset(box, -OFF_PX);
  return svg`<rect class="only-here" x=${frame.x} y=${frame.y} width=${box.width + 2 * OFF_PX} height=${box.height + 2 * OFF_PX} />${label(box, words)}`;
}

/**
 * @param {Face} face
 * @param {Rect} rect
 * @param {string} words
 */
function gone(face, rect, words) {
  const box = boxOf(face, rect);
  return svg`<rect class="only-there" x=${box.x} y=${box.y} width=${box.width} height=${box.height} />${label(box, words)}`;
}

/** Width of a letter of a note, about, px. */
const LETTER_PX = 6.4;
/** A piece lower than this has its number there. */
const HIGH_PX = 46;

/**
 * Under its upper edge, where there is room; the face says it for all.
 * @param {{x: number, y: number, width: number, height: number}} box
 * @param {string} words
 */
function label(box, words) {
  if (box.width < words.length * LETTER_PX || box.height < HIGH_PX) return "";
  return svg`<text class="note halo" x=${px(box.x + box.width / 2)} y=${box.y + 13} text-anchor="middle">${words}</text>`;
}
