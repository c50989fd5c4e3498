/**
 * Figures along lines: the ruler, the room's own measures, the scale bar, and the live distances of one piece.
 *
 * @import { Guide, Rect, Room } from "../model/types.js"
 * @import { Units } from "../model/format.js"
 * @import { Spot } from "./draw.js"
 * @import { Face, Fold } from "./fold.js"
 */
import { nothing, svg } from "../vendor.js";
import { length, number } from "../model/format.js";
import { at, boxOf, faceBox, line, px } from "./draw.js";

const FOOT_M = 0.3048;

/** Shortest line that still takes a figure, px. */
const ROOM_FOR_FIGURE_PX = 30;

/**
 * The ruler over the box, along the floor's side that runs across the sheet.
 * @param {Face} floor
 * @param {Face} top
 * @param {Units} units
 */
export function ruler(floor, top, units) {
  const box = faceBox(floor);
  const y = px(faceBox(top).y - 7);
  const step_m = units === "imperial" ? 2 * FOOT_M : 1;
  const side_m = floor.ux === 0 ? floor.height_m : floor.width_m;
  const scale = box.width / side_m;
  const last_m = side_m - (units === "imperial" ? 48 : 24) / scale;
  const steps = Array.from({ length: Math.max(1, Math.floor(last_m / step_m) + 1) }, (_, index) => index);
  const ticks = steps.map((index) => `M${px(box.x + index * step_m * scale)} ${y}v-5`).join("");
  const end = box.x + box.width;
  return svg`<g class="ruler" aria-hidden="true"><path class="thin" d="M${box.x} ${y}H${end}${ticks}M${end} ${y}v-5" />
    ${steps.map((index) => svg`<text class="rule" x=${px(box.x + index * step_m * scale)} y=${y - 8} text-anchor="middle">${
      units === "imperial" && index > 0 ? `${index * 2}'` : index}</text>`)}
    <text class="rule" x=${end} y=${y - 8} text-anchor="middle">${length(side_m, units)}</text></g>`;
}

/**
 * The floor's other side at the right of the box and the room's height under its right wall.
 * @param {Fold} fold
 * @param {Face} after
 * @param {Room} room
 * @param {Units} units
 */
export function roomMeasures(fold, after, room, units) {
  const box = faceBox(after);
  const right = box.x + box.width + 14;
  const low = box.y + box.height + 14;
  const down_m = fold.turned === "lying" ? room.width_m : room.length_m;
  return svg`<g aria-hidden="true">
    ${dimension({ x: right, y: box.y }, { x: right, y: box.y + box.height }, bare(down_m, units), "dim")}
    ${dimension({ x: box.x, y: low }, { x: box.x + box.width, y: low }, bare(room.height_m, units), "dim")}</g>`;
}

/**
 * On a dimension metres go without saying.
 * @param {number} value_m
 * @param {Units} units
 */
function bare(value_m, units) {
  return units === "imperial" ? length(value_m, units) : number(value_m, 2);
}

/**
 * A line with 45° ticks at its ends and the figure in a gap.
 * @param {Spot} a
 * @param {Spot} b
 * @param {string} text
 * @param {string} name
 */
function dimension(a, b, text, name) {
  const x = px((a.x + b.x) / 2);
  const y = px((a.y + b.y) / 2);
  const ticks = [a, b].map((end) => `M${px(end.x - 3)} ${px(end.y + 3)}l6 -6`).join("");
  return svg`<g class=${name}><path d="M${px(a.x)} ${px(a.y)}L${px(b.x)} ${px(b.y)}${ticks}" />
    <text x=${x} y=${y + 4} text-anchor="middle">${text}</text></g>`;
}

/**
 * @param {Fold} fold
 * @param {Face} after
 * @param {Units} units
 */
export function scaleBar(fold, after, units) {
  const unit_m = units === "imperial" ? 3 * FOOT_M : 1;
  const step = unit_m * fold.scale_px_per_m;
  const box = faceBox(after);
  const x = px(box.x + 20);
  const y = px(Math.min(fold.box.height_px - 10, box.y + box.height + 120));
  const figures = units === "imperial" ? ["0", "3", "6 ft"] : ["0", "1", "2 m"];
  const ticks = [0, 1, 2].map((index) => `M${px(x + index * step)} ${y - 4}v8`).join("");
  return svg`<g aria-hidden="true"><path class="bar" d="M${x} ${y}h${px(step)}" /><path class="thin" d="M${x} ${y}h${px(2 * step)}${ticks}" />
    ${figures.map((text, index) => svg`<text class="rule" x=${px(x + index * step)} y=${y - 9} text-anchor="middle">${text}</text>`)}</g>`;
}

/**
 * From a piece to both ends of its surface, each way; a figure only where there is room for one.
 * @param {Face} face
 * @param {Rect} rect
 * @param {Units} units
 * @param {boolean} all  all four; otherwise only those that its number fields name
 */
export function liveDistances(face, rect, units, all) {
  const across = besides(face, rect, "v");
  const along = besides(face, rect, "u");
  const [u_end, v_end] = [rect.u_m + rect.width_m, rect.v_m + rect.height_m];
  return svg`<g class="live" aria-hidden="true">
    ${distance(face, [0, across], [rect.u_m, across], units)}
    ${all ? distance(face, [u_end, across], [face.width_m, across], units) : nothing}
    ${distance(face, [along, 0], [along, rect.v_m], units)}
    ${all ? distance(face, [along, v_end], [along, face.height_m], units) : nothing}
    ${extensions(face, rect, along, across)}</g>`;
}

/** A strip between piece and floor at least this wide takes the line of figures, px. */
const STRIP_PX = 40;

/** Between the line of figures and what it runs along, px. */
const AWAY_PX = 16;

/**
 * Where the line of figures runs: along the floor, or beside the piece in the larger free strip.
 * @param {Face} face
 * @param {Rect} rect
 * @param {"u"|"v"} axis
 */
function besides(face, rect, axis) {
  const low = axis === "u" ? rect.u_m : rect.v_m;
  const size = axis === "u" ? rect.width_m : rect.height_m;
  const end = axis === "u" ? face.width_m : face.height_m;
  const scale = Math.hypot(face.ux, face.uy);
  if (axis === "v" && low * scale >= STRIP_PX) return AWAY_PX / scale;
  const away = AWAY_PX / scale;
  return end - low - size >= low ? Math.min(end, low + size + away) : Math.max(0, low - away);
}

/**
 * @param {Face} face
 * @param {[number, number]} from
 * @param {[number, number]} to
 * @param {Units} units
 */
function distance(face, from, to, units) {
  const value_m = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const a = at(face, ...from);
  const b = at(face, ...to);
  const span = Math.hypot(b.x - a.x, b.y - a.y);
  if (value_m < 0.005) return nothing;
  if (span >= ROOM_FOR_FIGURE_PX) return dimension(a, b, bare(value_m, units), "dim is-live");
  const over = { x: px((a.x + b.x) / 2), y: px(Math.min(a.y, b.y) - 7) };
  return svg`${dimension(a, b, "", "dim is-live")}
    <g class="dim is-live"><text x=${over.x} y=${over.y} text-anchor="middle">${bare(value_m, units)}</text></g>`;
}

/**
 * From the piece's edges to the lines of figures.
 * @param {Face} face
 * @param {Rect} rect
 * @param {number} along
 * @param {number} across
 */
function extensions(face, rect, along, across) {
  const v_near = across > rect.v_m ? rect.v_m + rect.height_m : rect.v_m;
  const u_near = along > rect.u_m ? rect.u_m + rect.width_m : rect.u_m;
  const path = line(face, [rect.u_m, v_near], [rect.u_m, across]) + line(face, [u_near, rect.v_m], [along, rect.v_m]);
  return svg`<path class="ext" d=${path} />`;
}

/**
 * Why a piece holds where it holds: a dotted line across the surface with its word.
 * @param {Face} face
 * @param {Guide} guide
 * @param {Rect} rect
 * @param {number} place  several guides write one under the other
 */
export function guideLine(face, guide, rect, place) {
  const ends = guide.axis === "u"
    ? line(face, [guide.at_m, 0], [guide.at_m, face.height_m])
    : line(face, [0, guide.at_m], [face.width_m, guide.at_m]);
  return svg`<g class="guide" aria-hidden="true"><path d=${ends} />${besideText(face, rect, guide.text, place)}</g>`;
}

/**
 * Words at the piece's side where there is more of the sheet.
 * @param {Face} face
 * @param {Rect} rect
 * @param {string} text
 * @param {number} place
 */
function besideText(face, rect, text, place) {
  const box = boxOf(face, rect);
  const bounds = faceBox(face);
  const onRight = bounds.x + bounds.width - box.x - box.width >= box.x - bounds.x;
  const x = onRight ? box.x + box.width + 10 : box.x - 10;
  return svg`<text class="reason halo" x=${px(x)} y=${px(box.y + 14 + 16 * place)} text-anchor=${onRight ? "start" : "end"}>${text}</text>`;
}

/** Width of a letter of the reasons, about, px. */
const LETTER_PX = 6.4;

/**
 * Why a piece may not go further: under it, or over it at the foot of the sheet, and inside the surface.
 * @param {Face} face
 * @param {Rect} rect
 * @param {string} text
 */
export function reasonText(face, rect, text) {
  const box = boxOf(face, rect);
  const bounds = faceBox(face);
  const half = (text.length * LETTER_PX) / 2;
  const x = Math.max(bounds.x + half + 4, Math.min(bounds.x + bounds.width - half - 4, box.x + box.width / 2));
  const fitsBelow = box.y + box.height + 22 < bounds.y + bounds.height;
  const y = fitsBelow ? box.y + box.height + 18 : box.y - 9;
  return svg`<text class="reason halo" x=${px(x)} y=${px(y)} text-anchor="middle">${text}</text>`;
}
