// What stands on the floor, or must stay free there, in the way of screens and furniture.

/**
 * @import { Furnishing, KeepClear, Kind, Part, Piece, Rect, Room, Scenario, SurfaceName } from "./types.js"
 * @import { Units } from "./format.js"
 * @import { Obstacle } from "./obstacles.js"
 * @typedef {Obstacle & {low_m: number, high_m: number, zone?: KeepClear}} Standing   takes these heights above the floor
 */
import { length } from "./format.js";
import { SURFACES, grown, isWall, kindById, rectOverlap, surfaceAxes, surfaceSize } from "./geometry.js";
import { cornerFrom, cornerLeg, edgeWalls, lay, laidRect } from "./laid.js";
import { listeningOf } from "./marks.js";
import { kindName, partName, zoneName } from "./words.js";

/** What only touches is not in the way. */
const TOUCHING_M = 1e-6;

/** The way through a door or an opening. Common practice, no source. */
const WAY_M = 0.9;
/** Kept free of a swinging leaf. Common practice, no source. */
const SWING_MARGIN_M = 0.1;
/** A part that begins no higher than this can be walked through; a built-in as low stands on the floor. */
const SILL_M = 0.1;
/** Half the side of what a loudspeaker and a person in the seat take of the floor. Common practice, no source. */
const LOUDSPEAKER_M = 0.15;
const SEAT_M = 0.25;

/**
 * What a stand of this height may not stand on, or furniture.
 * @param {Scenario} document @param {number} planIndex
 * @param {{piece?: number|null, furnishing?: number|null}} except what does not stand in its own way; furniture may be where people sit
 * @param {Units} [units]
 * @param {number} [high_m]  its top; furniture may stand before what a wall keeps clear
 * @returns {Obstacle[]}
 */
export function floorObstacles(document, planIndex, except, units = "metric", high_m = Infinity) {
  const { room } = document;
  const isFurniture = except.furnishing !== undefined;
  const kept = keptFree(room, units).filter(({ low_m, zone }) => (isFurniture ? !zone || zone.surface === "floor" : low_m < high_m));
  return [
    ...kept,
    ...(room.furnishings ?? []).flatMap((item, index) => (index === except.furnishing ? [] : furnitureOnFloor(item))),
    ...document.plans[planIndex].pieces.flatMap((_piece, index) => (index === except.piece ? [] : pieceOnFloor(document, planIndex, index, isFurniture ? Infinity : high_m))),
    ...(isFurniture ? [] : listeners(document, planIndex)),
  ];
}

/**
 * What is in the way of a piece that goes up the corner over this foot: ways and zones, and the stands of its plan.
 * @param {Scenario} document @param {number} planIndex @param {number|null} except @param {Rect} foot @param {Units} [units]
 * @returns {Standing[]}
 */
export function cornerObstacles(document, planIndex, except, foot, units = "metric") {
  const stands = document.plans[planIndex].pieces.flatMap((piece, index) => {
    const body = index === except || piece.place !== "stand" ? null : uprightOf(document, piece);
    return body ? [{ ...stop(body.rect, kindName(document, piece.kit)), low_m: body.low_m, high_m: body.high_m }] : [];
  });
  return [...keptFree(document.room, units), ...stands].filter(({ rect }) => rectOverlap(rect, foot));
}

/** Ways, what is built in, and zones with what they keep clear before a wall or below the ceiling. @param {Room} room @param {Units} [units] @returns {Standing[]} */
export function keptFree(room, units = "metric") {
  return [
    ...SURFACES.filter(isWall).flatMap((wall) => (room.surfaces[wall].parts ?? []).flatMap((part) => partOnFloor(room, wall, part, units))),
    ...(room.keep_clear ?? []).map((zone) => zoneOnFloor(room, zone, units)),
  ];
}

/** What a stand or a corner piece takes above the floor; null for the others. @param {Scenario} document @param {Piece} piece @returns {{rect: Rect, low_m: number, high_m: number}|null} */
export function uprightOf(document, piece) {
  const kind = kindById(document, piece.kit);
  const height_m = kind?.height_m ?? 0;
  if (piece.place === "stand") return { rect: laidRect(document, lay(document, piece)), low_m: 0, high_m: piece.z_m + height_m };
  if (piece.place !== "corner") return null;
  return { rect: cornerFoot(document.room, kind, piece.edge), low_m: piece.z_m, high_m: piece.z_m + height_m };
}

/** @param {Room} room @param {Kind|null} kind @param {string} edge @returns {Rect} */
export function cornerFoot(room, kind, edge) {
  const leg_m = cornerLeg(kind);
  const [side, end] = edgeWalls(edge);
  return { u_m: cornerFrom(room, kind, edge, end), v_m: cornerFrom(room, kind, edge, side), width_m: leg_m, height_m: leg_m };
}

/** Whether heights are shared; a touch is none. @param {{low_m: number, high_m: number}} a @param {{low_m: number, high_m: number}} b @returns {boolean} */
export function sharesHeight(a, b) {
  return a.high_m > b.low_m + TOUCHING_M && b.high_m > a.low_m + TOUCHING_M;
}

/** @param {Rect} rect @param {string} name @param {string} [reason] @returns {Obstacle} */
function stop(rect, name, reason = `stops at ${name}`) {
  return { rect, name, reason, limit: false };
}

/** @param {Room} room @param {KeepClear} zone @param {Units} units @returns {Standing} */
function zoneOnFloor(room, zone, units) {
  const area = grown(zone, zone.margin_m);
  const name = zoneName(zone);
  if (zone.surface === "floor") return { ...stop(area, name), low_m: -Infinity, high_m: Infinity, zone };
  const reason = `stops ${length(zone.margin_m, units)} from ${name}`;
  if (zone.surface === "ceiling") return { ...stop(area, name, reason), low_m: room.height_m - zone.margin_m, high_m: Infinity, zone };
  return { ...stop(stripBefore(room, zone.surface, area, zone.margin_m), name, reason), low_m: area.v_m, high_m: area.v_m + area.height_m, zone };
}

/** @param {Furnishing} item @returns {Obstacle[]} */
function furnitureOnFloor({ at }) {
  return at ? [stop({ u_m: at.x_m, v_m: at.y_m, width_m: at.width_m, height_m: at.depth_m }, "the furniture")] : [];
}

/** How far the floor before a part stays free: a leaf's swing, or the way through; 0 where nobody walks. @param {Part} part @returns {number} */
export function wayReach({ role, v_m, swing_m }) {
  if (v_m > SILL_M || (role !== "door" && role !== "opening")) return 0;
  return swing_m ? swing_m + SWING_MARGIN_M : WAY_M;
}

/** A door with its swing, the way through an opening, the depth of a built-in. @param {Room} room @param {SurfaceName} wall @param {Part} part @param {Units} units @returns {Standing[]} */
function partOnFloor(room, wall, part, units) {
  if (part.v_m > SILL_M) return [];
  const heights = { low_m: 0, high_m: part.v_m + part.height_m };
  if (part.role === "built-in" && part.depth_m) return [{ ...stop(stripBefore(room, wall, part, part.depth_m), partName(part)), ...heights }];
  const reach_m = wayReach(part);
  return reach_m === 0 ? [] : [{ ...wayBefore(room, wall, part, units), ...heights }];
}

/** @param {Room} room @param {SurfaceName} wall @param {Part} part @param {Units} units @returns {Obstacle} */
function wayBefore(room, wall, part, units) {
  const reach_m = wayReach(part);
  return stop(stripBefore(room, wall, part, reach_m), partName(part), `keeps ${length(reach_m, units)} free before ${partName(part)}`);
}

/**
 * What the leaves of doors in the other walls sweep of the room before this one.
 * @param {Room} room @param {SurfaceName} surface @param {Units} [units] @returns {Standing[]}
 */
export function sweepsBeside(room, surface, units = "metric") {
  return SURFACES.filter((wall) => isWall(wall) && wall !== surface).flatMap((wall) => (room.surfaces[wall].parts ?? []).flatMap((part) => (
    part.role === "door" && part.swing_m ? partOnFloor(room, wall, part, units) : [])));
}

/** The floor before a part of a wall. @param {Room} room @param {SurfaceName} wall @param {Rect} part @param {number} reach_m @returns {Rect} */
function stripBefore(room, wall, part, reach_m) {
  const size = surfaceSize(room, "floor");
  if (surfaceAxes(wall).u === "y") {
    return { u_m: wall === "right" ? size.u_m - reach_m : 0, v_m: part.u_m, width_m: reach_m, height_m: part.width_m };
  }
  return { u_m: part.u_m, v_m: wall === "back" ? size.v_m - reach_m : 0, width_m: part.width_m, height_m: reach_m };
}

/** Stands, and corner pieces that begin below this height; rugs can be stood on. @param {Scenario} document @param {number} planIndex @param {number} index @param {number} high_m @returns {Obstacle[]} */
function pieceOnFloor(document, planIndex, index, high_m) {
  const piece = document.plans[planIndex].pieces[index];
  const body = uprightOf(document, piece);
  return body && body.low_m < high_m - TOUCHING_M ? [stop(body.rect, kindName(document, piece.kit))] : [];
}

/** @param {Scenario} document @param {number} planIndex @returns {Obstacle[]} */
function listeners(document, planIndex) {
  const { loudspeakers, seat } = listeningOf(document, planIndex);
  const round = (/** @type {{x_m: number, y_m: number}} */ at, /** @type {number} */ half_m, /** @type {string} */ name) => stop(
    { u_m: at.x_m - half_m, v_m: at.y_m - half_m, width_m: 2 * half_m, height_m: 2 * half_m }, name);
  return [...loudspeakers.map((one) => round(one, LOUDSPEAKER_M, "the loudspeaker")), ...(seat ? [round(seat, SEAT_M, "the seat")] : [])];
}
