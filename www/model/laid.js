// Every piece as it lies on one surface: a rectangle there, whatever its place. A stand lies on the floor in the box round its
// turned foot, a corner piece on one of its two walls, a curtain on its wall. What moves pieces knows only this.

/**
 * @import { CornerPiece, Kind, Piece, Rect, Room, Scenario, StandPiece, SurfaceName } from "./types.js"
 * @typedef {Piece & {surface: SurfaceName, u_m: number, v_m: number}} Laid
 */
import { hungSize, isWall, kindById, roomSide, surfaceAxes } from "./geometry.js";
import { kindDepth } from "./kinds.js";

/** Two places nearer than this are the same: half of what is stored. */
const SAME_M = 5e-5;
/** From the floor to the lower edge of a screen on feet. */
const FEET_M = 0.05;

/** A corner piece this near to the floor stands on it. */
const STANDS_BELOW_M = 0.05;

/** Whether a corner piece stands on the floor, and needs no brackets. @param {Piece} piece @returns {boolean} */
export function standsInCorner(piece) {
  return piece.place === "corner" && piece.z_m < STANDS_BELOW_M;
}

/** The upright edges of the room. @type {readonly string[]} */
export const EDGES = Object.freeze(["front-left", "front-right", "back-left", "back-right"]);

/** To 0.1 mm. @param {number} value_m @returns {number} */
function stored_m(value_m) {
  return Math.round(value_m * 1e4) / 1e4;
}

/** The side wall of an edge, then its end wall. @param {string} edge @returns {[SurfaceName, SurfaceName]} */
export function edgeWalls(edge) {
  const [end, side] = edge.split("-");
  return /** @type {[SurfaceName, SurfaceName]} */ ([side, end]);
}

/** How wide a corner piece covers each wall: its face is the long side of a right-angled triangle. @param {Kind|null} kind @returns {number} */
export function cornerLeg(kind) {
  return stored_m((kind?.width_m ?? 0) / Math.SQRT2);
}

/** Width and depth of the box round a turned foot. @param {Kind|null} kind @param {number} turn_deg @returns {{width_m: number, height_m: number}} */
function footBox(kind, turn_deg) {
  const [width_m, depth_m] = kind ? [kind.width_m, kindDepth(kind)] : [0, 0];
  const [sine, cosine] = [Math.abs(Math.sin((turn_deg * Math.PI) / 180)), Math.abs(Math.cos((turn_deg * Math.PI) / 180))];
  return { width_m: stored_m(width_m * cosine + depth_m * sine), height_m: stored_m(width_m * sine + depth_m * cosine) };
}

/** What a piece covers of the surface that it lies on. @param {Kind|null} kind @param {Piece} piece @returns {{width_m: number, height_m: number}} */
export function laidSize(kind, piece) {
  if (piece.place === "corner") return { width_m: cornerLeg(kind), height_m: kind?.height_m ?? 0 };
  if (piece.place === "stand") return footBox(kind, piece.turn_deg);
  return hungSize(kind, piece.place === "curtain" ? false : piece.turned);
}

/** @param {Scenario} document @param {Laid} laid @returns {Rect} */
export function laidRect(document, laid) {
  return { u_m: laid.u_m, v_m: laid.v_m, ...laidSize(kindById(document, laid.kit), laid) };
}

/**
 * A piece as it lies; a corner piece on the named wall if that is one of its two, else on its side wall.
 * @param {Scenario} document @param {Piece} piece @param {SurfaceName} [on] @returns {Laid}
 */
export function lay(document, piece, on) {
  if (piece.place === "corner") return layCorner(document, piece, on);
  return piece.place === "stand" ? layStand(document, piece) : piece;
}

/** @param {Scenario} document @param {CornerPiece} piece @param {SurfaceName} [on] @returns {Laid} */
function layCorner(document, piece, on) {
  const walls = edgeWalls(piece.edge);
  const surface = on && walls.includes(on) ? on : walls[0];
  return { ...piece, surface, u_m: cornerFrom(document.room, kindById(document, piece.kit), piece.edge, surface), v_m: piece.z_m };
}

/** Where along a wall a corner piece begins. @param {Room} room @param {Kind|null} kind @param {string} edge @param {SurfaceName} wall @returns {number} */
export function cornerFrom(room, kind, edge, wall) {
  const other = edgeWalls(edge).find((one) => one !== wall);
  const isFar = other === "right" || other === "back";
  return isFar ? stored_m(roomSide(room, surfaceAxes(wall).u) - cornerLeg(kind)) : 0;
}

/** @param {Scenario} document @param {StandPiece} piece @returns {Laid} */
function layStand(document, piece) {
  const box = footBox(kindById(document, piece.kit), piece.turn_deg);
  return { ...piece, surface: "floor", u_m: stored_m(piece.x_m - box.width_m / 2), v_m: stored_m(piece.y_m - box.height_m / 2) };
}

/**
 * The piece as the document keeps it.
 * @param {Scenario} document @param {Piece|Laid} laid @returns {Piece}
 */
export function stored(document, laid) {
  if (!("surface" in laid) || (laid.place !== "corner" && laid.place !== "stand")) return laid;
  const { kit } = laid;
  if (laid.place === "corner") return { kit, place: "corner", edge: laid.edge, z_m: laid.v_m };
  const box = footBox(kindById(document, kit), laid.turn_deg);
  return {
    kit, place: "stand", x_m: stored_m(laid.u_m + box.width_m / 2), y_m: stored_m(laid.v_m + box.height_m / 2),
    z_m: laid.z_m, turn_deg: laid.turn_deg,
  };
}

/** The surfaces that a piece is seen on. @param {Scenario} document @param {Piece} piece @param {SurfaceName} surface @returns {Laid|null} */
export function lyingOn(document, piece, surface) {
  const laid = lay(document, piece, surface);
  return laid.surface === surface ? laid : null;
}

/** A new piece of a kind, placed as the kind is meant to be. @param {Kind} kind @param {SurfaceName} surface @returns {Laid} */
export function freshPiece(kind, surface) {
  const at = { kit: kind.id, surface, u_m: 0, v_m: 0 };
  switch (kind.stands) {
    case "corner": return { ...at, place: "corner", edge: "front-left", z_m: 0 };
    case "stand": return { ...at, place: "stand", x_m: 0, y_m: 0, z_m: FEET_M, turn_deg: 0 };
    case "curtain": return { ...at, place: "curtain", open: 0 };
    default: return at;
  }
}

/** Whether two pieces are one and the same, to what is stored. @param {Laid} a @param {Laid} b @returns {boolean} */
export function sameSpot(a, b) {
  if (a.kit !== b.kit || (a.place ?? "surface") !== (b.place ?? "surface") || !near(a.v_m, b.v_m)) return false;
  if (a.place === "corner" && b.place === "corner") return a.edge === b.edge;
  if (a.surface !== b.surface || !near(a.u_m, b.u_m)) return false;
  if (a.place === "stand" && b.place === "stand") return a.turn_deg === b.turn_deg && near(a.z_m, b.z_m);
  if (a.place === "curtain" && b.place === "curtain") return (a.open ?? 0) === (b.open ?? 0);
  return ("turned" in a && a.turned === true) === ("turned" in b && b.turned === true);
}

/** @param {number} a_m @param {number} b_m @returns {boolean} */
function near(a_m, b_m) {
  return Math.abs(a_m - b_m) < SAME_M;
}

/**
 * A piece on the surface that it can be on, where it is wanted there; or why it cannot be on this surface.
 * @param {Scenario} document @param {Laid} laid on the surface that is asked for @param {{u_m: number, v_m: number}} wanted for its low corner
 * @returns {{piece: Laid, wanted: {u_m: number, v_m: number}, reason?: undefined}|{reason: string}}
 */
export function settled(document, laid, wanted) {
  if (laid.place === "stand" && laid.surface !== "floor") return { reason: "a stand goes on the floor" };
  if (laid.place === "curtain" && !isWall(laid.surface)) return { reason: "a curtain hangs on a wall" };
  if (laid.place !== "corner") return { piece: laid, wanted };
  return laid.surface === "ceiling" ? { reason: "a corner piece stands where two walls meet" } : inCorner(document, laid, wanted);
}

/** @param {Scenario} document @param {Laid & CornerPiece} laid @param {{u_m: number, v_m: number}} wanted */
function inCorner(document, laid, wanted) {
  const { room } = document;
  const kind = kindById(document, laid.kit);
  const size = laidSize(kind, laid);
  const isFar = (/** @type {"x"|"y"} */ axis, /** @type {number} */ at_m) => at_m > roomSide(room, axis) / 2;
  const middle_m = wanted.u_m + size.width_m / 2;
  const onFloor = laid.surface === "floor";
  const end = laid.surface === "front" || laid.surface === "back" ? laid.surface
    : isFar("y", onFloor ? wanted.v_m + size.height_m / 2 : middle_m) ? "back" : "front";
  const side = laid.surface === "left" || laid.surface === "right" ? laid.surface : isFar("x", middle_m) ? "right" : "left";
  const edge = `${end}-${side}`;
  const surface = onFloor ? side : laid.surface;
  return { piece: { ...laid, edge, surface }, wanted: { u_m: cornerFrom(room, kind, edge, surface), v_m: onFloor ? laid.z_m : wanted.v_m } };
}
