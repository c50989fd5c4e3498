/**
 * Where each surface lies on the drawing: the opened box, lying or standing, or one surface as you face it.
 * Every face is an affine map from metres on the surface to CSS pixels of its sheet.
 *
 * @import { Room, SurfaceName } from "../model/types.js"
 *
 * @typedef {"floor"|"top"|"bottom"|"before"|"after"|"alone"} Side  where the face lies round the floor
 * @typedef {object} Face
 * @property {SurfaceName} surface
 * @property {Side} side
 * @property {"box"|"ceiling"} sheet  the drawing it lies on
 * @property {boolean} [still]  on paper: nothing on it can be taken hold of
 * @property {number} x_px  of the surface's origin
 * @property {number} y_px
 * @property {number} ux    pixels right per metre of u
 * @property {number} uy    pixels down per metre of u
 * @property {number} vx
 * @property {number} vy
 * @property {number} width_m   extent along u
 * @property {number} height_m  extent along v
 *
 * @typedef {object} Fold
 * @property {"lying"|"standing"|"facing"} turned
 * @property {number} scale_px_per_m
 * @property {{width_px: number, height_px: number}} box      size of the main sheet
 * @property {{width_px: number, height_px: number}} ceiling  size of the ceiling's sheet
 * @property {Partial<Record<SurfaceName, Face>>} faces
 *
 * @typedef {object} Space  The room there is for the drawing.
 * @property {number} width_px
 * @property {number} height_px
 * @property {number} ceiling_px  widest the ceiling may be
 */

/** Height of the ruler above the box, px. */
const RULER_PX = 24;

/** Below the box, for the last outline, px. */
const FOOT_PX = 4;

/**
 * The opened box in the turn that gives more pixels per metre.
 * @param {Room} room
 * @param {Space} space
 * @returns {Fold}
 */
export function foldBox(room, space) {
  const lying = boxScale(room.length_m, room.width_m, room.height_m, space);
  const standing = boxScale(room.width_m, room.length_m, room.height_m, space);
  return lying >= standing ? layBox(room, space, lying) : standBox(room, space, standing);
}

/**
 * @param {number} across_m  the floor's side that runs across the sheet
 * @param {number} down_m
 * @param {number} height_m
 * @param {Space} space
 */
function boxScale(across_m, down_m, height_m, space) {
  const down_px = space.height_px - RULER_PX - FOOT_PX;
  return Math.min(space.width_px / (across_m + 2 * height_m), down_px / (down_m + 2 * height_m), space.ceiling_px / across_m);
}

/**
 * @param {Space} space
 * @param {number} scale
 * @param {number} across_m
 * @param {number} down_m
 * @param {number} height_m
 */
function frame(space, scale, across_m, down_m, height_m) {
  const wall = height_m * scale;
  const across = across_m * scale;
  const down = down_m * scale;
  const left = Math.max(0, (space.width_px - across - 2 * wall) / 2);
  return {
    x: left + wall,
    y: RULER_PX + wall,
    across,
    down,
    box: { width_px: space.width_px, height_px: RULER_PX + FOOT_PX + down + 2 * wall },
    ceiling: { width_px: across, height_px: down },
  };
}

/**
 * Loudspeaker end left, the right wall on top.
 * @param {Room} room
 * @param {Space} space
 * @param {number} s
 * @returns {Fold}
 */
function layBox(room, space, s) {
  const f = frame(space, s, room.length_m, room.width_m, room.height_m);
  const low = f.y + f.down;
  const side = sizeOf(room, "left");
  const end = sizeOf(room, "front");
  const plan = sizeOf(room, "floor");
  return {
    turned: "lying",
    scale_px_per_m: s,
    box: f.box,
    ceiling: f.ceiling,
    faces: {
      floor: { surface: "floor", side: "floor", sheet: "box", x_px: f.x, y_px: low, ux: 0, uy: -s, vx: s, vy: 0, ...plan },
      right: { surface: "right", side: "top", sheet: "box", x_px: f.x, y_px: f.y, ux: s, uy: 0, vx: 0, vy: -s, ...side },
      left: { surface: "left", side: "bottom", sheet: "box", x_px: f.x, y_px: low, ux: s, uy: 0, vx: 0, vy: s, ...side },
      front: { surface: "front", side: "before", sheet: "box", x_px: f.x, y_px: low, ux: 0, uy: -s, vx: -s, vy: 0, ...end },
      back: { surface: "back", side: "after", sheet: "box", x_px: f.x + f.across, y_px: low, ux: 0, uy: -s, vx: s, vy: 0, ...end },
      ceiling: { surface: "ceiling", side: "alone", sheet: "ceiling", x_px: 0, y_px: f.down, ux: 0, uy: -s, vx: s, vy: 0, ...plan },
    },
  };
}

/**
 * The front wall on top.
 * @param {Room} room
 * @param {Space} space
 * @param {number} s
 * @returns {Fold}
 */
function standBox(room, space, s) {
  const f = frame(space, s, room.width_m, room.length_m, room.height_m);
  const side = sizeOf(room, "left");
  const end = sizeOf(room, "front");
  const plan = sizeOf(room, "floor");
  return {
    turned: "standing",
    scale_px_per_m: s,
    box: f.box,
    ceiling: f.ceiling,
    faces: {
      floor: { surface: "floor", side: "floor", sheet: "box", x_px: f.x, y_px: f.y, ux: s, uy: 0, vx: 0, vy: s, ...plan },
      front: { surface: "front", side: "top", sheet: "box", x_px: f.x, y_px: f.y, ux: s, uy: 0, vx: 0, vy: -s, ...end },
      back: { surface: "back", side: "bottom", sheet: "box", x_px: f.x, y_px: f.y + f.down, ux: s, uy: 0, vx: 0, vy: s, ...end },
      left: { surface: "left", side: "before", sheet: "box", x_px: f.x, y_px: f.y, ux: 0, uy: s, vx: -s, vy: 0, ...side },
      right: { surface: "right", side: "after", sheet: "box", x_px: f.x + f.across, y_px: f.y, ux: 0, uy: s, vx: s, vy: 0, ...side },
      ceiling: { surface: "ceiling", side: "alone", sheet: "ceiling", x_px: 0, y_px: 0, ux: s, uy: 0, vx: 0, vy: s, ...plan },
    },
  };
}

/** Above and below a surface that stands alone, px: its end words and its running measures. */
const FACING_TOP_PX = 15;

/**
 * One surface as you face it, floor down; floor and ceiling in the turn that shows them larger.
 * @param {Room} room
 * @param {SurfaceName} surface
 * @param {Space} space
 * @returns {Fold}
 */
export function foldFacing(room, surface, space) {
  const size = sizeOf(room, surface);
  const flat = surface === "floor" || surface === "ceiling";
  const down_px = space.height_px - FACING_TOP_PX - FOOT_PX;
  const upright = Math.min(space.width_px / size.width_m, down_px / size.height_m);
  const lying = Math.min(space.width_px / size.height_m, down_px / size.width_m);
  const lies = flat && lying > upright;
  const s = lies ? lying : upright;
  const across = s * (lies ? size.height_m : size.width_m);
  const down = s * (lies ? size.width_m : size.height_m);
  const x = (space.width_px - across) / 2;
  const map = lies
    ? { x_px: x, y_px: FACING_TOP_PX + down, ux: 0, uy: -s, vx: s, vy: 0 }
    : facingMap(surface, s, x, across, down);
  return {
    turned: "facing",
    scale_px_per_m: s,
    box: { width_px: space.width_px, height_px: down + FACING_TOP_PX + FOOT_PX },
    ceiling: { width_px: 0, height_px: 0 },
    faces: { [surface]: { surface, side: surface === "floor" ? "floor" : "alone", sheet: "box", ...map, ...size } },
  };
}

/**
 * Facing the left or the back wall, its u runs to the left.
 * @param {SurfaceName} surface
 * @param {number} s
 * @param {number} x
 * @param {number} across
 * @param {number} down
 */
function facingMap(surface, s, x, across, down) {
  if (surface === "floor" || surface === "ceiling") return { x_px: x, y_px: FACING_TOP_PX, ux: s, uy: 0, vx: 0, vy: s };
  const mirrored = surface === "left" || surface === "back";
  return { x_px: mirrored ? x + across : x, y_px: FACING_TOP_PX + down, ux: mirrored ? -s : s, uy: 0, vx: 0, vy: -s };
}

/**
 * @param {Room} room
 * @param {SurfaceName} surface
 * @returns {{width_m: number, height_m: number}}
 */
function sizeOf(room, surface) {
  if (surface === "left" || surface === "right") return { width_m: room.length_m, height_m: room.height_m };
  if (surface === "front" || surface === "back") return { width_m: room.width_m, height_m: room.height_m };
  return { width_m: room.width_m, height_m: room.length_m };
}
