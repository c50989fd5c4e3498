// What may not be covered on a surface, each with its reason in words that can be shown as they are.

/**
 * @import { Kind, KeepClear, Part, Piece, Rect, Room, Scenario, SurfaceName } from "./types.js"
 * @import { Units } from "./format.js"
 * @typedef {object} Obstacle
 * @property {Rect} rect      may not be overlapped; margins are in it
 * @property {string} name    "the archway"
 * @property {string} reason  "stops at the archway"
 * @property {boolean} limit  one of the person's own limits: `reason` then stands alone
 */
import { depth, length } from "./format.js";
import { grown, hungSize, isSurfacePiece, isWall, kindById, pieceRect, surfaceAxes, surfaceSize } from "./geometry.js";
import { sweepsBeside } from "./floor_obstacles.js";
import { kindDepth } from "./kinds.js";
import { laidRect, lyingOn } from "./laid.js";
import { WINDOW_MARGIN_M } from "./limits.js";
import { needsHoles } from "./no_drilling.js";
import { kindName, partName, surfaceName, zoneName } from "./words.js";

/** Reaches past every surface, so that what covers all of it leaves no place at its rim. */
const BEYOND_M = 1;

/**
 * Everything that a piece of this kind may not overlap on a surface.
 * @param {Scenario} document
 * @param {number} planIndex
 * @param {SurfaceName} surface
 * @param {number|null} exceptIndex  a piece of the plan that does not stand in its own way
 * @param {Kind|null} kit            the kind to be placed; its depth counts
 * @param {Units} [units]
 * @param {Piece["place"]} [place]   a curtain may cover a window
 * @returns {Obstacle[]}
 */
export function obstacles(document, planIndex, surface, exceptIndex, kit, units = "metric", place = "surface") {
  const pieces = document.plans[planIndex].pieces;
  const standing = exceptIndex === null ? undefined : pieces[exceptIndex];
  return [
    ...limitObstacles(document, surface, standing, kit, units, place),
    ...(document.room.surfaces[surface].parts ?? []).flatMap((part) => partObstacle(part, units, place)),
    ...(document.room.keep_clear ?? []).filter((zone) => zone.surface === surface).map((zone) => zoneObstacle(zone, units)),
    ...(place === "curtain" ? [] : [...furnitureObstacles(document, surface, kit), ...leafObstacles(document, surface, kit, units)]),
    ...pieces.flatMap((piece, index) => (index === exceptIndex ? [] : pieceObstacle(document, piece, surface))),
  ];
}

/** @param {Rect} rect @param {string} name @returns {Obstacle} */
function stopsAt(rect, name) {
  return { rect, name, reason: `stops at ${name}`, limit: false };
}

/** @param {Rect} rect @param {number} margin_m @param {string} name @param {Units} units @returns {Obstacle} */
function stopsBefore(rect, margin_m, name, units) {
  if (margin_m <= 0) return stopsAt(rect, name);
  return { rect: grown(rect, margin_m), name, reason: `stops ${length(margin_m, units)} from ${name}`, limit: false };
}

/** @param {Part} part @param {Units} units @param {Piece["place"]} place @returns {Obstacle[]} */
function partObstacle(part, units, place) {
  if (part.role === "wall" || (part.role === "window" && place === "curtain")) return [];
  return [stopsBefore(part, part.role === "window" ? WINDOW_MARGIN_M : 0, partName(part), units)];
}

/** @param {KeepClear} zone @param {Units} units @returns {Obstacle} */
function zoneObstacle(zone, units) {
  return stopsBefore(zone, zone.margin_m, zoneName(zone), units);
}

/**
 * The wall behind furniture that stands closer to it than the piece is deep.
 * @param {Scenario} document @param {SurfaceName} surface @param {Kind|null} kit @returns {Obstacle[]}
 */
function furnitureObstacles(document, surface, kit) {
  return (document.room.furnishings ?? []).flatMap(({ at }) => {
    const shadow = at && shadowOn(document.room, surface, { u_m: at.x_m, v_m: at.y_m, width_m: at.width_m, height_m: at.depth_m }, at.height_m, kit);
    return shadow ? [stopsAt(shadow, "the furniture")] : [];
  });
}

/**
 * The wall along which the leaf of a door in the next one opens, if that is closer than the piece is deep.
 * @param {Scenario} document @param {SurfaceName} surface @param {Kind|null} kit @param {Units} units @returns {Obstacle[]}
 */
function leafObstacles(document, surface, kit, units) {
  return sweepsBeside(document.room, surface, units).flatMap(({ rect, high_m, ...obstacle }) => {
    const shadow = shadowOn(document.room, surface, rect, high_m, kit);
    return shadow ? [{ rect: shadow, name: obstacle.name, reason: obstacle.reason, limit: false }] : [];
  });
}

/**
 * What an area of the floor, up to a height, hides of a wall for a piece that is deeper than the gap between them.
 * @param {Room} room @param {SurfaceName} surface @param {Rect} area @param {number} high_m @param {Kind|null} kit @returns {Rect|null}
 */
export function shadowOn(room, surface, area, high_m, kit) {
  if (!isWall(surface) || !kit) return null;
  const gap_m = {
    left: area.u_m, right: room.width_m - area.u_m - area.width_m,
    front: area.v_m, back: room.length_m - area.v_m - area.height_m, floor: Infinity, ceiling: Infinity,
  }[surface];
  if (gap_m >= kindDepth(kit)) return null;
  const along = surfaceAxes(surface).u === "x" ? { u_m: area.u_m, width_m: area.width_m } : { u_m: area.v_m, width_m: area.height_m };
  return { ...along, v_m: 0, height_m: high_m };
}

/** @param {Scenario} document @param {Piece} piece @param {SurfaceName} surface @returns {Obstacle[]} */
function pieceObstacle(document, piece, surface) {
  const name = kindName(document, piece.kit);
  if (isSurfacePiece(piece)) return piece.surface === surface ? [stopsAt(pieceRect(document, piece), name)] : [];
  const size = hungSize(kindById(document, piece.kit));
  if (piece.place === "curtain") {
    return piece.surface === surface ? [stopsAt({ u_m: piece.u_m, v_m: piece.v_m, ...size }, name)] : [];
  }
  return piece.place === "corner" ? cornerObstacle(document, piece, surface, name) : [];
}

/**
 * The strip that a piece across an upright edge takes from each of its two walls.
 * @param {Scenario} document @param {Piece} piece @param {SurfaceName} surface @param {string} name @returns {Obstacle[]}
 */
function cornerObstacle(document, piece, surface, name) {
  const laid = lyingOn(document, piece, surface);
  return laid ? [stopsAt(laidRect(document, laid), name)] : [];
}

/**
 * The person's own limits. A piece that is on the surface already may stay on it.
 * @param {Scenario} document @param {SurfaceName} surface @param {Piece|undefined} standing @param {Kind|null} kit @param {Units} units
 * @param {Piece["place"]} place @returns {Obstacle[]}
 */
function limitObstacles(document, surface, standing, kit, units, place) {
  const limits = document.limits ?? {};
  const size = surfaceSize(document.room, surface);
  const whole = grown({ u_m: 0, v_m: 0, width_m: size.u_m, height_m: size.v_m }, BEYOND_M);
  const isNewHere = !(standing && lyingOn(document, standing, surface));
  /** @type {Obstacle[]} */
  const found = [];
  /** @param {Rect} rect @param {string} reason */
  const add = (rect, reason) => found.push({ rect, name: reason, reason, limit: true });
  if (limits.bare?.includes(surface) && isNewHere) add(whole, `${surfaceName(surface)} kept bare: your limit`);
  if (kit && limits.max_depth_m !== undefined && !standing && kindDepth(kit) > limits.max_depth_m + 1e-9) {
    add(whole, `${depth(kindDepth(kit), units)} deep: your limit is ${depth(limits.max_depth_m, units)}`);
  }
  const isDrilled = standing !== undefined && needsHoles(standing.place, "surface" in standing ? standing.surface : "floor");
  if (kit && limits.no_drilling && !isDrilled && needsHoles(place, surface)) add(whole, "needs holes: your limit is no drilling");
  if (surface === "ceiling" && limits.max_height_m !== undefined && limits.max_height_m < document.room.height_m) {
    add(whole, `nothing above ${length(limits.max_height_m, units)}: your limit`);
  }
  if (isWall(surface) && limits.min_height_m !== undefined) {
    add({ ...whole, height_m: BEYOND_M + limits.min_height_m }, `nothing below ${length(limits.min_height_m, units)}: your limit`);
  }
  if (isWall(surface) && limits.max_height_m !== undefined) {
    const height_m = Math.max(0, size.v_m - limits.max_height_m) + BEYOND_M;
    add({ ...whole, v_m: limits.max_height_m, height_m }, `nothing above ${length(limits.max_height_m, units)}: your limit`);
  }
  return found;
}
