// Which cautions belong to a piece, a plan and a room. They are planning advice in plain words, common practice without a
// source; margins are this page's own and no code. Local rules and qualified people decide.

/**
 * @import { Furnishing, KeepClear, Kind, Part, Piece, Plan, Rect, Scenario } from "./types.js"
 * @import { CautionId } from "./caution_texts.js"
 * @typedef {{id: CautionId, text: string}} Caution
 */
import { CAUTION_ORDER, CAUTION_TEXTS } from "./caution_texts.js";
import { number } from "./format.js";
import { grown, hungSize, isSurfacePiece, isWall, kindById, rectOverlap } from "./geometry.js";
import { isRug } from "./kinds.js";
import { freshPiece } from "./laid.js";

export { FOOT, SHELF } from "./caution_texts.js";

/** "Near" a keep-clear zone, a door or a window: within this of the piece's edge. */
const NEAR_M = 0.3;
/** Work above this needs a ladder and a second person; so does what is wider than a reach. */
const OVERHEAD_M = 2;
const REACH_M = 1.5;
/** A corner piece this near to the floor stands on it. */
const STANDS_BELOW_M = 0.05;

/**
 * The cautions for one piece, or for a whole plan and its sheet, in order of weight.
 * @param {Scenario} document @param {Plan} plan @param {Piece|null} piece null: the whole plan
 * @returns {Caution[]}
 */
export function cautions(document, plan, piece) {
  const pieces = piece ? [piece] : plan.pieces;
  const found = new Set(pieces.flatMap((one) => pieceCautions(document, one)));
  if (!piece) for (const id of sheetCautions(document, plan)) found.add(id);
  const heaviest_kg = heaviestOverhead(document, pieces);
  return CAUTION_ORDER.filter((id) => found.has(id)).map((id) => ({ id, text: withWeight(CAUTION_TEXTS[id], heaviest_kg) }));
}

/** What a kind brings along wherever it goes. @type {ReadonlySet<CautionId>} */
const OF_KIND = new Set(/** @type {CautionId[]} */ (["fixing", "old-building", "fire", "fibre", "tipping", "rented", "earthquake"]));

/** The cautions for a kind that was picked up and has no place yet. @param {Scenario} document @param {Kind} kind @returns {Caution[]} */
export function kindCautions(document, kind) {
  const piece = freshPiece(kind, isRug(kind) ? "floor" : "left");
  const found = new Set(pieceCautions({ ...document, kit: [kind] }, piece));
  return CAUTION_ORDER.filter((id) => found.has(id) && OF_KIND.has(id)).map((id) => ({ id, text: CAUTION_TEXTS[id] }));
}

/** @param {string} text @param {number|null} mass_kg @returns {string} */
function withWeight(text, mass_kg) {
  return mass_kg === null
    ? text.replace("know the weight: about N kg", "know the weight: it is not entered yet")
    : text.replace("about N kg", `about ${number(mass_kg)} kg`);
}

/** Null if any weight is unknown. @param {Scenario} document @param {Piece[]} pieces @returns {number|null} */
function heaviestOverhead(document, pieces) {
  const masses = pieces.filter((piece) => isOverhead(document, piece)).map((piece) => kindById(document, piece.kit)?.mass_kg);
  return masses.some((mass) => mass === undefined) || masses.length === 0 ? null : Math.max(...masses.map((mass) => mass ?? 0));
}

/** @param {Scenario} document @param {Piece} piece @returns {CautionId[]} */
function pieceCautions(document, piece) {
  const kind = kindById(document, piece.kit);
  const conditions = new Set(document.room.conditions ?? []);
  const fixed = isFixed(piece);
  /** @type {[boolean, CautionId][]} */
  const rules = [
    [isOverhead(document, piece), "overhead"],
    [fixed && isOnWall(piece), "fixing"],
    [fixed && !document.limits?.no_drilling, "drilling"],
    [fixed && (conditions.has("old-building") || conditions.has("textured-ceiling")), "old-building"],
    [isCloth(piece, kind) || (kind !== null && !isOnFloor(piece)), "fire"],
    [isFibre(kind) || (conditions.has("own-build") && isCloth(piece, kind)), "fibre"],
    [piece.place === "stand" || (piece.place === "corner" && piece.z_m < STANDS_BELOW_M), "tipping"],
    [isOnOuterWall(document, piece) || (isOnWall(piece) && conditions.has("cold-walls")), "damp"],
    [isNearWayOut(document, piece), "way-out"],
    [fixed && ["rented", "listed", "shared-house"].some((word) => conditions.has(word)), "rented"],
    [conditions.has("earthquake-region") && !isOnFloor(piece), "earthquake"],
  ];
  return [...rules.filter(([applies]) => applies).map(([, id]) => id), ...zonesNear(document, piece).flatMap(zoneCaution)];
}

/** What only the sheet of a whole plan says. @param {Scenario} document @param {Plan} plan @returns {CautionId[]} */
function sheetCautions(document, plan) {
  const high = plan.pieces.some((piece) => {
    const rect = rectOf(document, piece);
    return rect !== null && (isOnCeiling(piece) || (isOnWall(piece) && rect.v_m + rect.height_m > OVERHEAD_M) || rect.width_m > REACH_M);
  });
  return [...(high ? /** @type {CautionId[]} */ (["ladder"]) : []), ...(document.room.keep_clear ?? []).flatMap(zoneCaution), "foot"];
}

/** @param {Piece} piece @returns {boolean} */
const isOnCeiling = (piece) => isSurfacePiece(piece) && piece.surface === "ceiling";
/** @param {Piece} piece @returns {boolean} */
const isOnFloor = (piece) => isSurfacePiece(piece) && piece.surface === "floor";
/** @param {Piece} piece @returns {boolean} */
const isOnWall = (piece) => (isSurfacePiece(piece) || piece.place === "curtain") && isWall(piece.surface);
/** @param {Piece} piece @returns {boolean} */
const isFixed = (piece) => piece.place !== "stand" && !isOnFloor(piece);
/** @param {Piece} piece @param {Kind|null} kind @returns {boolean} */
const isCloth = (piece, kind) => piece.place === "curtain" || (kind !== null && "layers" in kind.absorber);
/** @param {Kind|null} kind @returns {boolean} */
const isFibre = (kind) => kind !== null && /\bfib(re|er)|wool\b/i.test(kind.name);

/** @param {Scenario} document @param {Piece} piece @returns {Rect|null} */
function rectOf(document, piece) {
  const kind = kindById(document, piece.kit);
  if (isSurfacePiece(piece)) return { u_m: piece.u_m, v_m: piece.v_m, ...hungSize(kind, piece.turned) };
  return piece.place === "curtain" ? { u_m: piece.u_m, v_m: piece.v_m, ...hungSize(kind) } : null;
}

/** Parts of the piece's own surface. @param {Scenario} document @param {Piece} piece @returns {Part[]} */
function partsAround(document, piece) {
  return isSurfacePiece(piece) || piece.place === "curtain" ? document.room.surfaces[piece.surface].parts ?? [] : [];
}

/** On the ceiling, or on a wall above a doorway, a seat or a bed. @param {Scenario} document @param {Piece} piece @returns {boolean} */
function isOverhead(document, piece) {
  return isOnCeiling(piece) || isAboveDoorway(document, piece) || isAboveSomebody(document, piece);
}

/** On a wall above furniture that people sit or lie on. @param {Scenario} document @param {Piece} piece @returns {boolean} */
function isAboveSomebody(document, piece) {
  const rect = rectOf(document, piece);
  if (rect === null || !isOnWall(piece) || !isSurfacePiece(piece)) return false;
  return (document.room.furnishings ?? []).some(({ kind, at }) => {
    if (!at || !/sofa|chair|bed/.test(kind)) return false;
    const [from_m, length_m, away_m] = alongWall(document.room, piece.surface, at);
    return away_m <= NEAR_M && rect.v_m + rect.height_m > at.height_m && rect.u_m < from_m + length_m && from_m < rect.u_m + rect.width_m;
  });
}

/**
 * Where furniture stands along a wall: from, length, and how far off the wall.
 * @param {Scenario["room"]} room @param {string} surface @param {NonNullable<Furnishing["at"]>} at @returns {[number, number, number]}
 */
function alongWall(room, surface, at) {
  if (surface === "left") return [at.y_m, at.depth_m, at.x_m];
  if (surface === "right") return [at.y_m, at.depth_m, room.width_m - at.x_m - at.width_m];
  if (surface === "front") return [at.x_m, at.width_m, at.y_m];
  return [at.x_m, at.width_m, room.length_m - at.y_m - at.depth_m];
}

/** @param {Scenario} document @param {Piece} piece @returns {boolean} */
function isAboveDoorway(document, piece) {
  const rect = rectOf(document, piece);
  return rect !== null && isOnWall(piece) && partsAround(document, piece).some((part) => (
    (part.role === "door" || part.role === "opening") && rect.v_m >= part.v_m + part.height_m - 1e-6
    && rect.u_m < part.u_m + part.width_m && part.u_m < rect.u_m + rect.width_m));
}

/** A wall with a window is taken for an outer one. @param {Scenario} document @param {Piece} piece @returns {boolean} */
function isOnOuterWall(document, piece) {
  return isOnWall(piece) && partsAround(document, piece).some((part) => part.role === "window");
}

/** @param {Scenario} document @param {Piece} piece @returns {boolean} */
function isNearWayOut(document, piece) {
  const rect = rectOf(document, piece);
  return rect !== null && partsAround(document, piece).some((part) => (
    ["door", "window", "opening"].includes(part.role) && rectOverlap(grown(rect, NEAR_M), part)));
}

/** @param {Scenario} document @param {Piece} piece @returns {KeepClear[]} */
function zonesNear(document, piece) {
  const rect = rectOf(document, piece);
  if (!rect || !(isSurfacePiece(piece) || piece.place === "curtain")) return [];
  return (document.room.keep_clear ?? []).filter((zone) => (
    zone.surface === piece.surface && rectOverlap(grown(rect, zone.margin_m + NEAR_M), zone)));
}

/** @param {KeepClear} zone @returns {CautionId[]} */
function zoneCaution({ why }) {
  if (/sprinkler|detector|alarm|smoke/i.test(why)) return ["sprinkler"];
  if (/vent|grille|\bair\b/i.test(why)) return ["vent"];
  if (/heat|radiator|stove|flame|lamp|boiler|fire|chimney/i.test(why)) return ["heat"];
  return [/door|window|escape|route|way/i.test(why) ? "way-out" : "keep-clear"];
}
