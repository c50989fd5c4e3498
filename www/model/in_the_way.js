// Whether a piece is in the way of a part or a zone, as the core's document check sees it.

/** @import { KeepClear, Part, Piece, Room, Scenario, SurfaceName } from "./types.js" */
import { keptFree, sharesHeight, sweepsBeside, uprightOf } from "./floor_obstacles.js";
import { grown, kindById, rectOverlap } from "./geometry.js";
import { laidRect, lyingOn } from "./laid.js";
import { shadowOn } from "./obstacles.js";

/**
 * It covers the part, stands in the way before it, or hangs where its leaf opens.
 * @param {Scenario} document @param {Piece} piece @param {SurfaceName} wall @param {Part} part @returns {boolean}
 */
export function meetsPart(document, piece, wall, part) {
  const laid = piece.place === "curtain" ? null : lyingOn(document, piece, wall);
  if (laid && rectOverlap(laidRect(document, laid), part)) return true;
  return standsInWay(document, piece, only(document.room, wall, part)) || isSwept(document, piece, only(document.room, wall, part));
}

/** It lies in the zone, or stands or goes up a corner in one of the floor. @param {Scenario} document @param {Piece} piece @param {KeepClear} zone @returns {boolean} */
export function meetsZone(document, piece, zone) {
  const laid = lyingOn(document, piece, zone.surface);
  const area = grown(zone, zone.margin_m);
  if (laid && rectOverlap(laidRect(document, laid), area)) return true;
  const body = zone.surface === "floor" ? uprightOf(document, piece) : null;
  return body !== null && rectOverlap(body.rect, area);
}

/** It stands in a way or a zone of the floor, or hangs where a leaf opens. @param {Scenario} document @param {Piece} piece @returns {boolean} */
export function isInTheWay(document, piece) {
  return (document.room.keep_clear ?? []).some((zone) => zone.surface === "floor" && meetsZone(document, piece, zone))
    || standsInWay(document, piece, document.room) || isSwept(document, piece, document.room);
}

/** The room with one part of its walls alone. @param {Room} room @param {SurfaceName} wall @param {Part} part @returns {Room} */
function only(room, wall, part) {
  const bare = Object.fromEntries(Object.entries(room.surfaces).map(([name, { finish }]) => [name, { finish, parts: name === wall ? [part] : [] }]));
  return { ...room, surfaces: /** @type {Room["surfaces"]} */ (bare), keep_clear: [] };
}

/** @param {Scenario} document @param {Piece} piece @param {Room} room @returns {boolean} */
function standsInWay(document, piece, room) {
  const body = piece.place === "stand" ? uprightOf(document, piece) : null;
  return body !== null && keptFree({ ...room, keep_clear: [] }).some((kept) => rectOverlap(kept.rect, body.rect) && sharesHeight(kept, body));
}

/** @param {Scenario} document @param {Piece} piece @param {Room} room @returns {boolean} */
function isSwept(document, piece, room) {
  const kind = kindById(document, piece.kit);
  if ((piece.place ?? "surface") !== "surface" || !("surface" in piece) || !kind) return false;
  return sweepsBeside(room, piece.surface).some(({ rect, high_m }) => {
    const shadow = shadowOn(room, piece.surface, rect, high_m, kind);
    const laid = lyingOn(document, piece, piece.surface);
    return shadow !== null && laid !== null && rectOverlap(shadow, laidRect(document, laid));
  });
}
