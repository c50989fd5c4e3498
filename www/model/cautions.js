// Which cautions belong to a piece, a plan and a room. They are planning advice in plain words, common practice without a
// source; margins are this page's own and no code. Local rules and qualified people decide.

/**
 * @import { KeepClear, Kind, Piece, Place3, Plan, Scenario, SurfaceName } from "./types.js"
 * @import { CautionId } from "./caution_texts.js"
 * @typedef {{id: CautionId, text: string}} Caution
 */
import { CAUTION_ORDER, CAUTION_TEXTS } from "./caution_texts.js";
import { number } from "./format.js";
import { wayReach } from "./floor_obstacles.js";
import { SURFACES, isSurfacePiece, isWall, kindById } from "./geometry.js";
import { isRug } from "./kinds.js";
import { freshPiece, standsInCorner } from "./laid.js";
import { bodyOf, boxBefore, comesNear, coveredBy, coveredOfWalls, wallsBehind } from "./takes.js";

export { FOOT, SHELF } from "./caution_texts.js";

/** "Near" a keep-clear zone, a door or a window: within this of the piece's edge. */
const NEAR_M = 0.3;
/** Work above this needs a ladder and a second person; so does what is wider than a reach. */
const OVERHEAD_M = 2;
const REACH_M = 1.5;
/** Half the side of what a person in the seat takes. Common practice, no source. */
const SEAT_M = 0.25;

/**
 * The cautions for one piece, or for a whole plan and its sheet, in order of weight.
 * @param {Scenario} document @param {Plan} plan @param {Piece|null} piece null: the whole plan
 * @returns {Caution[]}
 */
export function cautions(document, plan, piece) {
  const pieces = piece ? [piece] : plan.pieces;
  const found = new Set(pieces.flatMap((one) => pieceCautions(document, plan, one)));
  if (!piece) for (const id of sheetCautions(document, plan)) found.add(id);
  const heaviest_kg = heaviestOverhead(document, plan, pieces);
  return CAUTION_ORDER.filter((id) => found.has(id)).map((id) => ({ id, text: withWeight(CAUTION_TEXTS[id], heaviest_kg) }));
}

/** What a kind brings along wherever it goes. @type {ReadonlySet<CautionId>} */
const OF_KIND = new Set(/** @type {CautionId[]} */ (["fixing", "old-building", "fire", "fibre", "tipping", "rented", "earthquake"]));

/** The cautions for a kind that was picked up and has no place yet. @param {Scenario} document @param {Kind} kind @returns {Caution[]} */
export function kindCautions(document, kind) {
  const piece = freshPiece(kind, isRug(kind) ? "floor" : "left");
  const found = new Set(pieceCautions({ ...document, kit: [kind] }, document.plans[0], piece));
  return CAUTION_ORDER.filter((id) => found.has(id) && OF_KIND.has(id)).map((id) => ({ id, text: CAUTION_TEXTS[id] }));
}

/** @param {string} text @param {number|null} mass_kg @returns {string} */
function withWeight(text, mass_kg) {
  return mass_kg === null
    ? text.replace("know the weight: about N kg", "know the weight: it is not entered yet")
    : text.replace("about N kg", `about ${number(mass_kg)} kg`);
}

/** Null if any weight is unknown. @param {Scenario} document @param {Plan} plan @param {Piece[]} pieces @returns {number|null} */
function heaviestOverhead(document, plan, pieces) {
  const masses = pieces.filter((piece) => isOverhead(document, plan, piece)).map((piece) => kindById(document, piece.kit)?.mass_kg);
  return masses.some((mass) => mass === undefined) || masses.length === 0 ? null : Math.max(...masses.map((mass) => mass ?? 0));
}

/** @param {Scenario} document @param {Plan} plan @param {Piece} piece @returns {CautionId[]} */
function pieceCautions(document, plan, piece) {
  const kind = kindById(document, piece.kit);
  const conditions = new Set(document.room.conditions ?? []);
  const fixed = isFixed(piece);
  /** @type {[boolean, CautionId][]} */
  const rules = [
    [isOverhead(document, plan, piece), "overhead"],
    [fixed && isHeldByWall(document, piece), "fixing"],
    [fixed && !document.limits?.no_drilling, "drilling"],
    [fixed && (conditions.has("old-building") || conditions.has("textured-ceiling")), "old-building"],
    [isCloth(piece, kind) || (kind !== null && !isOnFloor(piece)), "fire"],
    [isFibre(kind) || (conditions.has("own-build") && isCloth(piece, kind)), "fibre"],
    [piece.place === "stand" || standsInCorner(piece), "tipping"],
    [isOnColdWall(document, piece), "damp"],
    [isNearWayOut(document, piece), "way-out"],
    [fixed && ["rented", "listed", "shared-house"].some((word) => conditions.has(word)), "rented"],
    [conditions.has("earthquake-region") && !isOnFloor(piece), "earthquake"],
  ];
  return [...rules.filter(([applies]) => applies).map(([, id]) => id), ...zonesNear(document, piece).flatMap(zoneCaution)];
}

/** What only the sheet of a whole plan says. @param {Scenario} document @param {Plan} plan @returns {CautionId[]} */
function sheetCautions(document, plan) {
  const high = plan.pieces.some((piece) => coveredBy(document, piece).some(({ surface, rect }) => (
    surface === "ceiling" || (isWall(surface) && rect.v_m + rect.height_m > OVERHEAD_M) || rect.width_m > REACH_M)));
  return [...(high ? /** @type {CautionId[]} */ (["ladder"]) : []), ...(document.room.keep_clear ?? []).flatMap(zoneCaution), "foot"];
}

/** @param {Piece} piece @returns {boolean} */
const isOnCeiling = (piece) => isSurfacePiece(piece) && piece.surface === "ceiling";
/** @param {Piece} piece @returns {boolean} */
const isOnFloor = (piece) => isSurfacePiece(piece) && piece.surface === "floor";
/** On a wall, or on brackets in a corner. @param {Scenario} document @param {Piece} piece @returns {boolean} */
const isHeldByWall = (document, piece) => !standsInCorner(piece) && coveredOfWalls(document, piece).length > 0;
/** @param {Piece} piece @returns {boolean} */
const isFixed = (piece) => piece.place !== "stand" && !isOnFloor(piece);
/** @param {Piece} piece @param {Kind|null} kind @returns {boolean} */
const isCloth = (piece, kind) => piece.place === "curtain" || (kind !== null && "layers" in kind.absorber);
/** @param {Kind|null} kind @returns {boolean} */
const isFibre = (kind) => kind !== null && /\bfib(re|er)|wool\b/i.test(kind.name);

/** On the ceiling, or on a wall above a doorway, a seat or a bed. @param {Scenario} document @param {Plan} plan @param {Piece} piece @returns {boolean} */
function isOverhead(document, plan, piece) {
  if (isOnCeiling(piece)) return true;
  if (standsInCorner(piece)) return false;
  return isAboveDoorway(document, piece) || isAboveSomebody(document, plan, piece);
}

/** On a wall above the listening seat, or furniture that people sit or lie on. @param {Scenario} document @param {Plan} plan @param {Piece} piece @returns {boolean} */
function isAboveSomebody(document, plan, piece) {
  const { seat } = plan.listening ?? document.listening;
  const places = (document.room.furnishings ?? []).flatMap(({ kind, at }) => (at && /sofa|chair|bed/.test(kind) ? [at] : []));
  return [...places, ...(seat ? [seatPlace(seat)] : [])].some((at) => coveredOfWalls(document, piece).some(({ surface, rect }) => {
    const [from_m, length_m, away_m] = alongWall(document.room, surface, at);
    return away_m <= NEAR_M && rect.v_m + rect.height_m > at.height_m && rect.u_m < from_m + length_m && from_m < rect.u_m + rect.width_m;
  }));
}

/** @typedef {{x_m: number, y_m: number, width_m: number, depth_m: number, height_m: number}} At */

/** What a person in the seat takes, up to the ears. @param {Place3} seat @returns {At} */
function seatPlace({ x_m, y_m, z_m }) {
  return { x_m: x_m - SEAT_M, y_m: y_m - SEAT_M, width_m: 2 * SEAT_M, depth_m: 2 * SEAT_M, height_m: z_m };
}

/**
 * Where furniture stands along a wall: from, length, and how far off the wall.
 * @param {Scenario["room"]} room @param {SurfaceName} surface @param {At} at @returns {[number, number, number]}
 */
function alongWall(room, surface, at) {
  if (surface === "left") return [at.y_m, at.depth_m, at.x_m];
  if (surface === "right") return [at.y_m, at.depth_m, room.width_m - at.x_m - at.width_m];
  if (surface === "front") return [at.x_m, at.width_m, at.y_m];
  return [at.x_m, at.width_m, room.length_m - at.y_m - at.depth_m];
}

/** @param {Scenario} document @param {Piece} piece @returns {boolean} */
function isAboveDoorway(document, piece) {
  return coveredOfWalls(document, piece).some(({ surface, rect }) => (document.room.surfaces[surface].parts ?? []).some((part) => (
    (part.role === "door" || part.role === "opening") && rect.v_m >= part.v_m + part.height_m - 1e-6
    && rect.u_m < part.u_m + part.width_m && part.u_m < rect.u_m + rect.width_m)));
}

/** A wall with a window is taken for an outer one. @param {Scenario} document @param {Piece} piece @returns {boolean} */
function isOnColdWall(document, piece) {
  const isCold = (document.room.conditions ?? []).includes("cold-walls");
  return wallsBehind(document, piece, NEAR_M).some((wall) => isCold || (document.room.surfaces[wall].parts ?? []).some(({ role }) => role === "window"));
}

/** Rugs can be walked on. @param {Scenario} document @param {Piece} piece @returns {boolean} */
function isNearWayOut(document, piece) {
  if (isOnFloor(piece)) return false;
  const body = bodyOf(document, piece);
  return SURFACES.some((surface) => (document.room.surfaces[surface].parts ?? []).some((part) => (
    ["door", "window", "opening"].includes(part.role) && comesNear(body, boxBefore(document.room, surface, part, wayReach(part)), NEAR_M))));
}

/** What stands or goes up a corner meets a zone of the floor at any height. @param {Scenario} document @param {Piece} piece @returns {KeepClear[]} */
function zonesNear(document, piece) {
  const { room } = document;
  const body = bodyOf(document, piece);
  const isUpright = piece.place === "stand" || piece.place === "corner";
  return (room.keep_clear ?? []).filter((zone) => (
    comesNear(body, boxBefore(room, zone.surface, zone, isUpright && zone.surface === "floor" ? room.height_m : 0), zone.margin_m + NEAR_M)));
}

/** @param {KeepClear} zone @returns {CautionId[]} */
function zoneCaution({ why }) {
  if (/sprinkler|detector|alarm|smoke/i.test(why)) return ["sprinkler"];
  if (/vent|grille|\bair\b/i.test(why)) return ["vent"];
  if (/heat|radiator|stove|flame|lamp|boiler|fire|chimney/i.test(why)) return ["heat"];
  return [/door|window|escape|route|way/i.test(why) ? "way-out" : "keep-clear"];
}
