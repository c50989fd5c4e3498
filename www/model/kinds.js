// Kinds of piece in a document: their depth, and variants of another size made by resizing.

/** @import { Kind, Layer, Piece, Scenario, ShelfGroup } from "./types.js" */
import { kindById } from "./geometry.js";
import { MOST, PIECE_SIDE } from "./limits.js";

/** Stands between the id of a kind and the size of a variant of it. */
const VARIANT = "~";
const SIZE_IN_NAME = /, \d+\.\d\d × \d+\.\d\d m$/;

/** Depth from the wall to the face. @param {Kind} kind @returns {number} metres */
export function kindDepth(kind) {
  if ("layers" in kind.absorber) {
    const depth_mm = kind.absorber.layers.reduce((sum, layer) => sum + layerDepth_mm(layer), 0);
    return depth_mm / 1000;
  }
  if ("scattering" in kind.absorber) return kind.absorber.scattering.depth_mm / 1000;
  return (kind.depth_mm ?? 0) / 1000;
}

/** Sheets and cloth count as nothing. @param {Layer} layer @returns {number} */
function layerDepth_mm(layer) {
  const [facts] = Object.values(layer);
  return "thickness_mm" in facts ? facts.thickness_mm : 0;
}

/** The groups of the shelf in its order. @type {readonly ShelfGroup[]} */
export const SHELF_GROUPS = Object.freeze(["soft", "boards", "bass", "cloth", "floor", "scatter", "stands"]);

/** A data sheet that scatters at least this much belongs to the scattering pieces. */
const SCATTERS_FROM = 0.3;

/** A data sheet this thin and this wide is taken for a rug. */
const RUG = Object.freeze({ below_m: 0.04, from_m: 1.2 });

/** Whether a kind is taken for a rug before it lies anywhere. @param {Kind} kind @returns {boolean} */
export function isRug(kind) {
  return kind.stands === "floor" || (!("layers" in kind.absorber) && kindDepth(kind) < RUG.below_m && Math.min(kind.width_m, kind.height_m) >= RUG.from_m);
}

/** What a kind does, as the shelf groups it: by its place first, then by what it is made of. @param {Kind} kind @returns {ShelfGroup} */
export function shelfGroup(kind) {
  const { stands, absorber, scattering } = kind;
  if (stands === "stand") return "stands";
  if (stands === "curtain") return "cloth";
  if (stands === "floor") return "floor";
  if (stands === "corner") return "bass";
  if ("scattering" in absorber) return "scatter";
  if (!("layers" in absorber)) return isRug(kind) ? "floor" : Math.max(...[scattering ?? 0].flat()) >= SCATTERS_FROM ? "scatter" : "soft";
  const has = (/** @type {string} */ layer) => absorber.layers.some((one) => layer in one);
  if (has("perforated") || has("slotted")) return "boards";
  return has("board") || isHeavySheet(absorber.layers) || kindDepth(kind) >= BASS_FROM_M ? "bass" : "soft";
}

/** A soft piece this deep is bought for the bass. */
const BASS_FROM_M = 0.18;

/** A sheet this heavy swings in the bass; lighter ones are covers, kg/m². */
const HEAVY_KG_PER_M2 = 1;

/** @param {Layer[]} layers @returns {boolean} */
function isHeavySheet(layers) {
  return layers.some((layer) => "membrane" in layer && layer.membrane.mass_kg_per_m2 >= HEAVY_KG_PER_M2);
}

/** Whether a kind came from resizing another. @param {Kind} kind @returns {boolean} */
export function isVariant(kind) {
  return kind.id.includes(VARIANT);
}

/** The id of the kind that a variant was made from; its own for any other. @param {string} id @returns {string} */
export function baseKindId(id) {
  return id.split(VARIANT)[0];
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
  const baseId = baseKindId(kind.id);
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
