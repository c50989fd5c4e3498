// What stands on the floor, or must stay free there, in the way of screens and furniture.

/**
 * @import { Furnishing, Part, Rect, Room, Scenario, SurfaceName } from "./types.js"
 * @import { Units } from "./format.js"
 * @import { Obstacle } from "./obstacles.js"
 */
import { length } from "./format.js";
import { SURFACES, grown, isWall, kindById, surfaceAxes, surfaceSize } from "./geometry.js";
import { cornerLeg, edgeWalls, lay, laidRect } from "./laid.js";
import { listeningOf } from "./marks.js";
import { kindName, partName } from "./words.js";

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
 * @param {Scenario} document @param {number} planIndex
 * @param {{piece?: number|null, furnishing?: number|null}} except what does not stand in its own way; furniture may be where people sit
 * @param {Units} [units]
 * @returns {Obstacle[]}
 */
export function floorObstacles(document, planIndex, except, units = "metric") {
  const { room } = document;
  const isFurniture = except.furnishing !== undefined;
  return [
    ...SURFACES.filter(isWall).flatMap((wall) => (room.surfaces[wall].parts ?? []).flatMap((part) => partOnFloor(room, wall, part, units))),
    ...(room.keep_clear ?? []).filter((zone) => zone.surface === "floor").map((zone) => stop(grown(zone, zone.margin_m), `the ${zone.why}`)),
    ...(room.furnishings ?? []).flatMap((item, index) => (index === except.furnishing ? [] : furnitureOnFloor(item))),
    ...document.plans[planIndex].pieces.flatMap((_piece, index) => (index === except.piece ? [] : pieceOnFloor(document, planIndex, index))),
    ...(isFurniture ? [] : listeners(document, planIndex)),
  ];
}

/** @param {Rect} rect @param {string} name @param {string} [reason] @returns {Obstacle} */
function stop(rect, name, reason = `stops at ${name}`) {
  return { rect, name, reason, limit: false };
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

/** A door with its swing, the way through an opening, the depth of a built-in. @param {Room} room @param {SurfaceName} wall @param {Part} part @param {Units} units @returns {Obstacle[]} */
function partOnFloor(room, wall, part, units) {
  if (part.v_m > SILL_M) return [];
  if (part.role === "built-in" && part.depth_m) return [stop(stripBefore(room, wall, part, part.depth_m), partName(part))];
  const reach_m = wayReach(part);
  if (reach_m === 0) return [];
  return [stop(stripBefore(room, wall, part, reach_m), partName(part), `keeps ${length(reach_m, units)} free before ${partName(part)}`)];
}

/** The floor before a part of a wall. @param {Room} room @param {SurfaceName} wall @param {Rect} part @param {number} reach_m @returns {Rect} */
function stripBefore(room, wall, part, reach_m) {
  const size = surfaceSize(room, "floor");
  if (surfaceAxes(wall).u === "y") {
    return { u_m: wall === "right" ? size.u_m - reach_m : 0, v_m: part.u_m, width_m: reach_m, height_m: part.width_m };
  }
  return { u_m: part.u_m, v_m: wall === "back" ? size.v_m - reach_m : 0, width_m: part.width_m, height_m: reach_m };
}

/** Stands and corner pieces; rugs can be stood on. @param {Scenario} document @param {number} planIndex @param {number} index @returns {Obstacle[]} */
function pieceOnFloor(document, planIndex, index) {
  const piece = document.plans[planIndex].pieces[index];
  const name = kindName(document, piece.kit);
  if (piece.place === "stand") return [stop(laidRect(document, lay(document, piece)), name)];
  if (piece.place !== "corner") return [];
  const leg_m = cornerLeg(kindById(document, piece.kit));
  const [side, end] = edgeWalls(piece.edge);
  const size = surfaceSize(document.room, "floor");
  return [stop({
    u_m: side === "right" ? size.u_m - leg_m : 0, v_m: end === "back" ? size.v_m - leg_m : 0, width_m: leg_m, height_m: leg_m,
  }, name)];
}

/** @param {Scenario} document @param {number} planIndex @returns {Obstacle[]} */
function listeners(document, planIndex) {
  const { loudspeakers, seat } = listeningOf(document, planIndex);
  const round = (/** @type {{x_m: number, y_m: number}} */ at, /** @type {number} */ half_m, /** @type {string} */ name) => stop(
    { u_m: at.x_m - half_m, v_m: at.y_m - half_m, width_m: 2 * half_m, height_m: 2 * half_m }, name);
  return [...loudspeakers.map((one) => round(one, LOUDSPEAKER_M, "the loudspeaker")), ...(seat ? [round(seat, SEAT_M, "the seat")] : [])];
}
