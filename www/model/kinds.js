// Kinds of piece in a document: their depth, and variants of another size made by resizing.

/** @import { Kind, Piece, Scenario } from "./types.js" */
import { kindById } from "./geometry.js";
import { MOST, PIECE_SIDE } from "./limits.js";

/** Stands between the id of a kind and the size of a variant of it. */
const VARIANT = "~";
const SIZE_IN_NAME = /, \d+\.\d\d × \d+\.\d\d m$/;

/** Depth from the wall to the face. @param {Kind} kind @returns {number} metres */
export function kindDepth(kind) {
  if ("layers" in kind.absorber) {
    const depth_mm = kind.absorber.layers.reduce((sum, layer) => sum + ("gap" in layer ? layer.gap : layer.porous).thickness_mm, 0);
    return depth_mm / 1000;
  }
  return (kind.depth_mm ?? 0) / 1000;
}

/** Whether a kind came from resizing another. @param {Kind} kind @returns {boolean} */
export function isVariant(kind) {
  return kind.id.includes(VARIANT);
}

/** A side as a person may make it: within the limits and in whole millimetres. @param {number} side_m @returns {number} */
export function allowedSide(side_m) {
  const bounded_m = Math.min(PIECE_SIDE.most_m, Math.max(PIECE_SIDE.least_m, side_m));
  return Math.round(bounded_m * 1000) / 1000;
}

/**
 * The document with a kind in its kit. A kind that has the id already stays as it is: its price is the person's.
 * @param {Scenario} document @param {Kind} kind
 * @returns {Scenario|null} null if the kit is full
 */
export function withKind(document, kind) {
  if (kindById(document, kind.id)) return document;
  const kit = document.kit ?? [];
  return kit.length >= MOST.kinds ? null : { ...document, kit: [...kit, kind] };
}

/**
 * The same absorber in another size, as a kind of the document.
 * @param {Scenario} document @param {Kind} kind
 * @param {{width_m: number, height_m: number}} size as it hangs upright
 * @returns {{document: Scenario, id: string}|null} null if the kit is full
 */
export function resizedKind(document, kind, size) {
  const width_m = allowedSide(size.width_m);
  const height_m = allowedSide(size.height_m);
  if (sameSide(width_m, kind.width_m) && sameSide(height_m, kind.height_m)) return { document, id: kind.id };
  const baseId = kind.id.split(VARIANT)[0];
  const base = kindById(document, baseId);
  if (base && sameSide(width_m, base.width_m) && sameSide(height_m, base.height_m)) return { document, id: baseId };
  const variant = variantOf(base ?? kind, baseId, width_m, height_m);
  const made = withKind(withoutUnusedVariants(document), variant);
  return made && { document: made, id: variant.id };
}

/** @param {number} a_m @param {number} b_m @returns {boolean} */
function sameSide(a_m, b_m) {
  return Math.abs(a_m - b_m) < 5e-4;
}

/**
 * The price is left out, as a piece of another size has another one; the weight goes with the area.
 * @param {Kind} base @param {string} baseId @param {number} width_m @param {number} height_m @returns {Kind}
 */
function variantOf(base, baseId, width_m, height_m) {
  const ending = `, ${width_m.toFixed(2)} × ${height_m.toFixed(2)} m`;
  const { price: _price, mass_kg, ...rest } = base;
  const share = (width_m * height_m) / (base.width_m * base.height_m);
  return {
    ...rest,
    id: `${baseId}${VARIANT}${Math.round(width_m * 1000)}x${Math.round(height_m * 1000)}`,
    name: base.name.replace(SIZE_IN_NAME, "").slice(0, MOST.text - ending.length) + ending,
    width_m, height_m,
    ...(mass_kg === undefined ? {} : { mass_kg: Math.round(mass_kg * share * 10) / 10 }),
  };
}

/** The document without variants that no piece uses. @param {Scenario} document @returns {Scenario} */
export function withoutUnusedVariants(document) {
  const used = new Set(document.plans.flatMap((plan) => plan.pieces.map((/** @type {Piece} */ piece) => piece.kit)));
  const kit = document.kit?.filter((kind) => !isVariant(kind) || used.has(kind.id));
  return kit && kit.length !== document.kit?.length ? { ...document, kit } : document;
}
