// Looking into the room: from where and which way, and where a point lies in the picture. x runs right, y from front to back,
// z up; whoever looks at the front wall has x at the right.

/**
 * @import { Listening, Look, Part, Room, SurfaceName } from "./types.js"
 * @typedef {[number, number, number]} Vec  m, or a direction
 * @typedef {object} Camera
 * @property {Vec} eye_m
 * @property {Vec} forward
 * @property {Vec} right
 * @property {Vec} up
 * @property {number} focal   half the picture's width over the tangent of half its angle
 */
import { toPoint } from "./geometry.js";

/** Width of the picture as an angle: from within about what a turned eye takes in. */
const WITHIN_DEG = 80;

/** Free, the eye stands so many times half the room's diagonal from its middle: far enough that little is bent. */
const FAR = 2.8;
/** The share of the picture that the room then fills. */
const FILLS = 0.94;

/** Nearer than this nothing is drawn, m. */
export const NEAREST_M = 0.08;

/** Eyes of a person who stands in the door. Common practice, no source. */
const STANDING_M = 1.6;
/** From the plane of the door into the room, m. */
const STEP_IN_M = 0.2;

/** Free, the picture starts from above, with the longer side of the room lying across it. */
const FREE_START = Object.freeze({ long_deg: 58, broad_deg: 26, tilt_deg: -32 });

const TILT_MOST_DEG = 80;
export const AWAY = Object.freeze({ least: 0.4, most: 2.5 });

/** @type {Look} */
export const FIRST_LOOK = Object.freeze({ from: "seat", turn_deg: 0, tilt_deg: 0, away: 1 });

/** Turned, tilted, gone nearer or farther, within what can be shown. @param {Look} look @param {Partial<Record<"turn_deg"|"tilt_deg", number>> & {away?: number}} by @returns {Look} */
export function turned(look, { turn_deg = 0, tilt_deg = 0, away = 1 }) {
  const around = look.turn_deg + turn_deg;
  return {
    ...look, turn_deg: around - 360 * Math.round(around / 360),
    tilt_deg: clamp(look.tilt_deg + tilt_deg, -TILT_MOST_DEG, TILT_MOST_DEG), away: clamp(look.away * away, AWAY.least, AWAY.most),
  };
}

/** @param {number} value @param {number} least @param {number} most */
function clamp(value, least, most) {
  return Math.min(most, Math.max(least, value));
}

/** The first door of the walls, else the first opening. @param {Room} room @returns {{wall: SurfaceName, part: Part}|null} */
export function doorOf({ surfaces }) {
  const walls = /** @type {SurfaceName[]} */ (["left", "right", "back", "front"]);
  const parts = walls.flatMap((wall) => (surfaces[wall].parts ?? []).map((part) => ({ wall, part })));
  return parts.find(({ part }) => part.role === "door") ?? parts.find(({ part }) => part.role === "opening" && part.v_m < 0.3) ?? null;
}

/**
 * Where the eye stands before anything is turned, and which way it looks.
 * @param {Room} room @param {Listening} listening @param {Look["from"]} from
 * @returns {{eye_m: Vec|null, turn_deg: number, tilt_deg: number}} no eye: outside, as far as the picture asks
 */
function startOf(room, { seat }, from) {
  if (from === "free") return { eye_m: null, turn_deg: room.length_m > room.width_m ? FREE_START.long_deg : FREE_START.broad_deg, tilt_deg: FREE_START.tilt_deg };
  if (from === "seat" && seat) return { eye_m: [seat.x_m, seat.y_m, seat.z_m], turn_deg: 0, tilt_deg: 0 };
  const door = doorOf(room);
  const [x, y] = door ? toPoint(door.wall, door.part.u_m + door.part.width_m / 2, 0, room) : [room.width_m, room.length_m];
  const eye_m = /** @type {Vec} */ ([clamp(x, STEP_IN_M, room.width_m - STEP_IN_M), clamp(y, STEP_IN_M, room.length_m - STEP_IN_M), Math.min(STANDING_M, room.height_m - 0.1)]);
  const turn_deg = (Math.atan2(room.width_m / 2 - eye_m[0], eye_m[1] - room.length_m / 2) * 180) / Math.PI;
  return { eye_m, turn_deg, tilt_deg: -4 };
}

/**
 * @param {Room} room @param {Listening} listening @param {Look} look @param {{width_px: number, height_px: number}} frame
 * @returns {Camera}
 */
export function cameraOf(room, listening, look, frame) {
  const start = startOf(room, listening, look.from);
  const turn = ((start.turn_deg + look.turn_deg) * Math.PI) / 180;
  const tilt = (clamp(start.tilt_deg + look.tilt_deg, -88, 88) * Math.PI) / 180;
  /** @type {Vec} */
  const forward = [Math.sin(turn) * Math.cos(tilt), -Math.cos(turn) * Math.cos(tilt), Math.sin(tilt)];
  /** @type {Vec} */
  const right = [Math.cos(turn), Math.sin(turn), 0];
  const up = cross(forward, right);
  if (!start.eye_m) return fromOutside(room, { forward, right, up }, look.away, frame);
  const focal = frame.width_px / 2 / Math.tan((WITHIN_DEG * Math.PI) / 360) / look.away;
  return { eye_m: start.eye_m, forward, right, up, focal };
}

/**
 * As large as the whole room fits the picture, turned as it is.
 * @param {Room} room @param {Pick<Camera, "forward"|"right"|"up">} axes @param {number} away @param {{width_px: number, height_px: number}} frame
 * @returns {Camera}
 */
function fromOutside({ width_m, length_m, height_m }, axes, away, { width_px, height_px }) {
  const far_m = (FAR * Math.hypot(width_m, length_m, height_m)) / 2;
  const eye_m = /** @type {Vec} */ ([width_m, length_m, height_m].map((side_m, axis) => side_m / 2 - axes.forward[axis] * far_m));
  const corners = [0, width_m].flatMap((x) => [0, length_m].flatMap((y) => [0, height_m].map((z) => seen({ ...axes, eye_m, focal: 1 }, [x, y, z]))));
  const focal = Math.min(...corners.map(([right, up, ahead]) => FILLS * Math.min(width_px / 2 / Math.abs(right / ahead || 1e-9), height_px / 2 / Math.abs(up / ahead || 1e-9))));
  return { ...axes, eye_m, focal: focal / away };
}

/** @param {Vec} a @param {Vec} b @returns {Vec} */
export function cross(a, b) {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}

/** @param {readonly number[]} a @param {readonly number[]} b */
export function dot(a, b) {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

/** @param {Vec} a @param {Vec} b @returns {Vec} */
export function minus(a, b) {
  return [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
}

/** A point as the camera has it: right, up, and how far ahead, m. @param {Camera} camera @param {Vec} point_m @returns {Vec} */
export function seen(camera, point_m) {
  const away = minus(point_m, camera.eye_m);
  return [dot(away, camera.right), dot(away, camera.up), dot(away, camera.forward)];
}

/** In the picture, px from its middle; the point has to lie ahead. @param {Camera} camera @param {Vec} at as the camera has it @returns {{x: number, y: number}} */
export function pictured({ focal }, [right, up, ahead]) {
  return { x: (focal * right) / ahead, y: (-focal * up) / ahead };
}

/**
 * A convex outline as it is seen, without what lies behind the eye.
 * @param {Camera} camera @param {readonly Vec[]} outline_m @returns {{x: number, y: number}[]} empty if nothing of it lies ahead
 */
export function outlineSeen(camera, outline_m) {
  const points = outline_m.map((point_m) => seen(camera, point_m));
  const kept = points.flatMap((point, index) => {
    const next = points[(index + 1) % points.length];
    const here = point[2] >= NEAREST_M ? [point] : [];
    return (point[2] >= NEAREST_M) === (next[2] >= NEAREST_M) ? here : [...here, cut(point, next)];
  });
  return kept.map((point) => pictured(camera, point));
}

/** A line as it is seen. @param {Camera} camera @param {Vec} from_m @param {Vec} to_m @returns {{x: number, y: number}[]} two points or none */
export function lineSeen(camera, from_m, to_m) {
  const [a, b] = [seen(camera, from_m), seen(camera, to_m)];
  if (a[2] < NEAREST_M && b[2] < NEAREST_M) return [];
  const ends = [a[2] >= NEAREST_M ? a : cut(a, b), b[2] >= NEAREST_M ? b : cut(a, b)];
  return ends.map((end) => pictured(camera, end));
}

/** Where a line comes as near as can be drawn. @param {Vec} a @param {Vec} b @returns {Vec} */
function cut(a, b) {
  const share = (NEAREST_M - a[2]) / (b[2] - a[2]);
  return [a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1]), NEAREST_M];
}

/** The wall that is looked at, or floor or ceiling. @param {Camera} camera @returns {SurfaceName} */
export function facedSurface({ forward: [x, y, z] }) {
  if (Math.abs(z) > 0.8) return z > 0 ? "ceiling" : "floor";
  if (Math.abs(x) > Math.abs(y)) return x > 0 ? "right" : "left";
  return y > 0 ? "back" : "front";
}
