/**
 * How much room the drawing gets on a page of this width, and the fold that fills it.
 *
 * @import { Room, SurfaceName } from "../model/types.js"
 * @import { Fold } from "./fold.js"
 * @import { Viewport } from "./scene.js"
 */
import { foldBox, foldFacing } from "./fold.js";

/** Columns of the wide page: drawing and charts, notes; and the gutter between them, px at 1440. */
const LEFT = 759;
const RIGHT = 462;
const GUTTER_PX = 54;

/** Height of the drawing beside its width, as in the wide page at 1440 × 900. */
const STAGE_RATIO = 507 / LEFT;

/** Right of the drawing on one column, for the measure of the room's side, px. */
const MEASURE_PX = 34;

/** Highest that one surface may stand on a narrow page, px. */
const FACING_HEIGHT_PX = 380;

/**
 * @param {Viewport} viewport
 * @returns {{left_px: number, right_px: number}}
 */
export function columns(viewport) {
  if (viewport.width !== "wide") return { left_px: viewport.content_px, right_px: viewport.content_px };
  const left_px = ((viewport.content_px - GUTTER_PX) * LEFT) / (LEFT + RIGHT);
  return { left_px, right_px: viewport.content_px - GUTTER_PX - left_px };
}

/** The last fold, kept while nothing that shapes it changes. @type {{key: unknown[], fold: Fold}|null} */
let last = null;

/**
 * @param {Room} room
 * @param {SurfaceName} surface  the one that a narrow page shows
 * @param {Viewport} viewport
 * @returns {Fold}
 */
export function foldFor(room, surface, viewport) {
  const facing = viewport.width === "narrow" ? surface : null;
  const key = [room.width_m, room.length_m, room.height_m, facing, viewport.width, viewport.content_px];
  if (!last || last.key.some((value, index) => value !== key[index])) last = { key, fold: makeFold(room, facing, viewport) };
  return last.fold;
}

/**
 * @param {Room} room
 * @param {SurfaceName|null} facing
 * @param {Viewport} viewport
 */
function makeFold(room, facing, viewport) {
  const { left_px, right_px } = columns(viewport);
  if (facing) return foldFacing(room, facing, { width_px: left_px, height_px: FACING_HEIGHT_PX, ceiling_px: 0 });
  if (viewport.width === "wide") return foldBox(room, { width_px: left_px, height_px: left_px * STAGE_RATIO, ceiling_px: right_px });
  const width_px = left_px - MEASURE_PX;
  return foldBox(room, { width_px, height_px: Math.max(420, width_px * STAGE_RATIO), ceiling_px: width_px });
}
