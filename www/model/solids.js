// The room as solids for a picture of it: pieces, furniture, built-ins, loudspeakers, all of them upright prisms; and in which
// order they are drawn so that nearer ones cover those behind.

/**
 * @import { Kind, Listening, Piece, Plan, Room, Scenario, SurfaceName } from "./types.js"
 * @import { Vec } from "./camera.js"
 * @typedef {[number, number]} Foot  x and y on the floor, m
 * @typedef {{corners_m: Vec[], normal: Vec, isFront: boolean}} Side  normal: out of the solid
 * @typedef {object} Solid
 * @property {"piece"|"furniture"|"built-in"|"loudspeaker"|"seat"} what
 * @property {number} index       in the plan, the furniture or the loudspeakers
 * @property {string} name        kind of piece or of furniture
 * @property {SurfaceName|null} surface  that it hangs on
 * @property {Side[]} sides
 * @property {Vec} least_m        of the box round it
 * @property {Vec} most_m
 */
import { cross, dot, minus } from "./camera.js";
import { kindById, toPoint } from "./geometry.js";
import { kindDepth } from "./kinds.js";
import { cornerLeg, edgeWalls, lay, laidRect } from "./laid.js";

/** Into the room. @type {Readonly<Record<SurfaceName, Vec>>} */
export const INWARD = Object.freeze({ left: [1, 0, 0], right: [-1, 0, 0], front: [0, 1, 0], back: [0, -1, 0], floor: [0, 0, 1], ceiling: [0, 0, -1] });

/** Least depth that is drawn, m. */
const THINNEST_M = 0.012;

/** A loudspeaker as it is drawn: width, depth, and how far it reaches below and above its drivers, m. The document says only where it stands. */
const BOX = Object.freeze({ width_m: 0.2, depth_m: 0.26, below_m: 0.26, above_m: 0.1 });

/**
 * An upright prism over a foot.
 * @param {Foot[]} foot in turn, either way @param {number} low_m @param {number} high_m @param {(normal: Vec) => boolean} isFront
 * @returns {Pick<Solid, "sides"|"least_m"|"most_m">}
 */
export function prism(foot, low_m, high_m, isFront) {
  const middle = /** @type {Vec} */ ([...mean(foot), (low_m + high_m) / 2]);
  const ring = (/** @type {number} */ z) => foot.map(([x, y]) => /** @type {Vec} */ ([x, y, z]));
  const [low, high] = [ring(low_m), ring(high_m)];
  const upright = foot.map((_, index) => {
    const next = (index + 1) % foot.length;
    return [low[index], low[next], high[next], high[index]];
  });
  const sides = [low, high, ...upright].map((corners_m) => {
    const normal = outward(corners_m, middle);
    return { corners_m, normal, isFront: isFront(normal) };
  });
  const [xs, ys] = [foot.map(([x]) => x), foot.map(([, y]) => y)];
  return { sides, least_m: [Math.min(...xs), Math.min(...ys), low_m], most_m: [Math.max(...xs), Math.max(...ys), high_m] };
}

/** @param {Foot[]} foot @returns {Foot} */
function mean(foot) {
  const sum = foot.reduce(([x, y], [dx, dy]) => /** @type {Foot} */ ([x + dx, y + dy]), /** @type {Foot} */ ([0, 0]));
  return [sum[0] / foot.length, sum[1] / foot.length];
}

/** @param {Vec[]} corners_m @param {Vec} middle_m @returns {Vec} of length one */
function outward(corners_m, middle_m) {
  const normal = cross(minus(corners_m[1], corners_m[0]), minus(corners_m[2], corners_m[1]));
  const length = Math.hypot(...normal) || 1;
  const turn = dot(normal, minus(corners_m[0], middle_m)) < 0 ? -1 : 1;
  return /** @type {Vec} */ (normal.map((part) => (turn * part) / length));
}

/** @param {number} x_m @param {number} y_m @param {number} width_m @param {number} depth_m @returns {Foot[]} */
function rectangle(x_m, y_m, width_m, depth_m) {
  return [[x_m, y_m], [x_m + width_m, y_m], [x_m + width_m, y_m + depth_m], [x_m, y_m + depth_m]];
}

/** What lies on a surface, so deep into the room. @param {Room} room @param {SurfaceName} surface @param {import("./types.js").Rect} rect @param {number} depth_m */
function onSurface(room, surface, rect, depth_m) {
  const inward = INWARD[surface];
  const low = toPoint(surface, rect.u_m, rect.v_m, room);
  const high = toPoint(surface, rect.u_m + rect.width_m, rect.v_m + rect.height_m, room).map((at, axis) => at + inward[axis] * Math.max(THINNEST_M, depth_m));
  const [x0, y0, z0] = low.map((at, axis) => Math.min(at, high[axis]));
  const [x1, y1, z1] = low.map((at, axis) => Math.max(at, high[axis]));
  return prism(rectangle(x0, y0, x1 - x0, y1 - y0), z0, z1, (normal) => dot(normal, inward) > 0.99);
}

/** @param {Scenario} document @param {Piece} piece @param {number} index @returns {Solid[]} */
function pieceSolid(document, piece, index) {
  const kind = kindById(document, piece.kit);
  if (!kind) return [];
  const laid = lay(document, piece);
  const shape = piece.place === "corner" ? cornerShape(document.room, kind, piece.edge, piece.z_m)
    : piece.place === "stand" ? standShape(kind, piece) : onSurface(document.room, laid.surface, laidRect(document, laid), kindDepth(kind));
  return [{ what: "piece", index, name: piece.kit, surface: piece.place === "stand" || piece.place === "corner" ? null : laid.surface, ...shape }];
}

/** @param {Room} room @param {Kind} kind @param {string} edge @param {number} z_m */
function cornerShape(room, kind, edge, z_m) {
  const [side, end] = edgeWalls(edge);
  const leg_m = cornerLeg(kind);
  const [x, y] = [side === "left" ? 0 : room.width_m, end === "front" ? 0 : room.length_m];
  const [dx, dy] = [side === "left" ? leg_m : -leg_m, end === "front" ? leg_m : -leg_m];
  return prism([[x, y], [x + dx, y], [x, y + dy]], z_m, z_m + kind.height_m, (normal) => Math.abs(normal[0]) > 0.3 && Math.abs(normal[1]) > 0.3);
}

/** @param {Kind} kind @param {import("./types.js").StandPiece} piece */
function standShape(kind, { x_m, y_m, z_m, turn_deg }) {
  const turn = (turn_deg * Math.PI) / 180;
  const [along, across] = [[Math.cos(turn), Math.sin(turn)], [-Math.sin(turn), Math.cos(turn)]];
  const [half_w, half_d] = [kind.width_m / 2, Math.max(THINNEST_M, kindDepth(kind)) / 2];
  const foot = [[-1, -1], [1, -1], [1, 1], [-1, 1]].map(([w, d]) => /** @type {Foot} */ ([
    x_m + w * half_w * along[0] + d * half_d * across[0], y_m + w * half_w * along[1] + d * half_d * across[1],
  ]));
  return prism(foot, z_m, z_m + kind.height_m, (normal) => Math.abs(dot(normal, [...across, 0])) > 0.99);
}

/** Furniture that says where it stands. @param {Room} room @returns {Solid[]} */
function furniture({ furnishings = [] }) {
  return furnishings.flatMap(({ kind, at }, index) => (at ? [{
    what: "furniture", index, name: kind, surface: null, ...prism(rectangle(at.x_m, at.y_m, at.width_m, at.depth_m), 0, at.height_m, () => false),
  }] : []));
}

/** @param {Room} room @returns {Solid[]} */
function builtIns(room) {
  return /** @type {SurfaceName[]} */ (["left", "right", "front", "back"]).flatMap((wall) => (room.surfaces[wall].parts ?? []).flatMap((part, index) => (
    part.depth_m ? [{ what: /** @type {const} */ ("built-in"), index, name: part.finish, surface: wall, ...onSurface(room, wall, part, part.depth_m) }] : [])));
}

/** @param {Listening} listening @returns {Solid[]} */
function loudspeakers({ loudspeakers: all }) {
  return all.map(({ x_m, y_m, z_m }, index) => ({
    what: "loudspeaker", index, name: "", surface: null,
    ...prism(rectangle(x_m - BOX.width_m / 2, y_m - BOX.depth_m, BOX.width_m, BOX.depth_m), Math.max(0.01, z_m - BOX.below_m), z_m + BOX.above_m, (normal) => normal[1] > 0.99),
  }));
}

/** @param {Scenario} document @param {Plan} plan @param {Listening} listening @returns {Solid[]} */
export function solidsOf(document, plan, listening) {
  return [...builtIns(document.room), ...plan.pieces.flatMap((piece, index) => pieceSolid(document, piece, index)), ...furniture(document.room), ...loudspeakers(listening)];
}

/** Tolerance of what touches, m. */
const TOUCH_M = 1e-6;

/** Whether the first may hide some of the second: only if no plane along a wall divides them with the eye beside the second. @param {Solid} a @param {Solid} b @param {Vec} eye_m */
export function mayHide(a, b, eye_m) {
  return ![0, 1, 2].some((axis) => (a.most_m[axis] <= b.least_m[axis] + TOUCH_M && eye_m[axis] >= a.most_m[axis] - TOUCH_M)
    || (a.least_m[axis] >= b.most_m[axis] - TOUCH_M && eye_m[axis] <= a.least_m[axis] + TOUCH_M));
}

/**
 * Those behind first. What stands in a ring, each before the next, is told by distance.
 * @param {Solid[]} solids @param {Vec} eye_m @returns {Solid[]}
 */
export function fromBehind(solids, eye_m) {
  const hides = solids.map((a) => solids.map((b) => a !== b && mayHide(a, b, eye_m)));
  const left = new Set(solids.keys());
  /** @type {Solid[]} */
  const order = [];
  const far = (/** @type {number} */ index) => distance(solids[index], eye_m);
  while (left.size > 0) {
    const free = [...left].filter((index) => [...left].every((other) => !hides[index][other]));
    const next = (free.length > 0 ? free : [...left]).reduce((a, b) => (far(b) > far(a) ? b : a));
    left.delete(next);
    order.push(solids[next]);
  }
  return order;
}

/** @param {Solid} solid @param {Vec} eye_m */
function distance({ least_m, most_m }, eye_m) {
  return Math.hypot(...eye_m.map((at, axis) => at - (least_m[axis] + most_m[axis]) / 2));
}
