/**
 * One piece on a surface: its pattern, its number, its handles; and the states it can be in.
 *
 * @import { Kind, Rect, StandPiece } from "../model/types.js"
 * @import { Laid } from "../model/laid.js"
 * @import { Box, Spot } from "./draw.js"
 * @import { Face } from "./fold.js"
 * @import { Pattern } from "./patterns.js"
 */
import { nothing, svg } from "../vendor.js";
import { kindDepth } from "../model/kinds.js";
import { at, boxOf, inset, line, middle } from "./draw.js";
import { patternOf } from "./patterns.js";

/** Side of the blank square that carries a number, px. */
const TAG_PX = 16;

/** The second edge line of a piece with a gap, px inside. */
const EDGE_PX = 3.5;

/** What can be hit round a piece that is drawn smaller, px. */
const HIT_PX = globalThis.matchMedia?.("(pointer: coarse) and (max-width: 1199.98px)").matches ? 44 : 24;

/**
 * @typedef {object} PieceLook
 * @property {number} index     in the plan
 * @property {Laid} piece
 * @property {Kind} kind
 * @property {Rect} rect
 * @property {string} label     what it is called aloud
 * @property {string} name      shown beside it under the pointer
 * @property {boolean} selected
 * @property {boolean} tabbable the one piece that the Tab key reaches
 * @property {boolean} illegal  it may not stay where it is
 * @property {boolean} marked   a bounce mark lies on its middle, so that its number goes to the corner
 */

/**
 * @param {Face} face
 * @param {PieceLook} look
 * @param {boolean} away  the pointer carries it, so that it is not to be seen here
 */
export function pieceDrawing(face, look, away) {
  const box = boxOf(face, look.rect);
  return svg`<g class="${nameOf(look)}${away ? " is-away" : ""}" role="button" tabindex=${look.tabbable ? 0 : -1} data-piece=${look.index}
    aria-label=${look.label} aria-description="Enter takes hold of it, arrows then move it" aria-pressed=${look.selected ? "true" : "false"}>
    ${hitArea(box)}
    ${frameOf(box)}
    ${sight(box, face, look)}
    <text class="hover-name halo" x=${box.x + box.width + 8} y=${box.y + 12}>${look.name}</text></g>`;
}

/**
 * The piece under the pointer: only what is seen of it.
 * @param {Face} face
 * @param {PieceLook} look
 * @param {boolean} only  there is no other drawing of this piece
 */
export function carriedDrawing(face, look, only) {
  return svg`<g class=${nameOf(look)} data-piece=${only ? look.index : nothing} aria-hidden="true">${sight(boxOf(face, look.rect), face, look)}</g>`;
}

/** @param {PieceLook} look */
function nameOf({ selected, illegal }) {
  return `piece${selected ? " is-selected" : ""}${illegal ? " is-illegal" : ""}`;
}

/**
 * @param {Box} box
 * @param {Face} face
 * @param {PieceLook} look
 */
function sight(box, face, look) {
  return svg`${look.piece.place === "stand" ? footDrawing(face, look, look.piece) : body(shownBox(box, face, look), patternOf(look.kind, face.surface, look.piece.place), { blank: look.illegal, lies: face.vx !== 0 })}
    ${look.piece.place === "curtain" ? svg`<path class="edge" d=${rail(face, look.rect)} />` : nothing}
    ${tag(look.marked && Math.min(box.width, box.height) >= TAG_PX ? cornerOf(box) : middle(box), look.index + 1)}`;
}

/** @param {Box} box */
function hitArea(box) {
  const grow = { x: Math.max(0, (HIT_PX - box.width) / 2), y: Math.max(0, (HIT_PX - box.height) / 2) };
  return svg`<rect class="hit" x=${box.x - grow.x} y=${box.y - grow.y}
    width=${box.width + 2 * grow.x} height=${box.height + 2 * grow.y} />`;
}

/**
 * The ink frame of keyboard focus, 4 px off.
 * @param {Box} box
 */
function frameOf(box) {
  const out = inset(box, -4);
  return svg`<rect class="focus-frame" x=${out.x} y=${out.y} width=${out.width} height=${out.height} />`;
}

/**
 * @param {Box} box
 * @param {Pattern} pattern
 * @param {{blank?: boolean, set?: "k"|"s"|"p", lies?: boolean}} [how]  blank: without its pattern; set: whose hatches; lies: on a wall that lies on its side
 */
export function body(box, pattern, { blank = false, set = "k", lies = false } = {}) {
  const hatch = pattern === "curtain" && lies ? "curtain-lies" : pattern;
  return svg`<rect class="ground" x=${box.x} y=${box.y} width=${box.width} height=${box.height} />
    <rect class="fill" fill=${blank ? "none" : `url(#${set}-${hatch})`} x=${box.x} y=${box.y} width=${box.width} height=${box.height} />
    ${blank ? nothing : trim(box, pattern)}`;
}

/** Width of the bundle of a gathered curtain over the width that it covered, as the core takes it. */
const BUNDLE = 1 / 6;

/**
 * What is seen of a piece: all of it, or of a gathered curtain its bundle and what hangs drawn.
 * @param {Box} box
 * @param {Face} face
 * @param {PieceLook} look
 * @returns {Box}
 */
function shownBox(box, face, { piece, rect }) {
  const open = piece.place === "curtain" ? piece.open ?? 0 : 0;
  return open > 0 ? boxOf(face, { ...rect, width_m: rect.width_m * (1 - open + open * BUNDLE) }) : box;
}

/**
 * The rail of a curtain, over all of its width.
 * @param {Face} face
 * @param {Rect} rect
 */
function rail(face, rect) {
  const top_m = rect.v_m + rect.height_m;
  return line(face, [rect.u_m, top_m], [rect.u_m + rect.width_m, top_m]);
}

/**
 * A screen seen from above, turned as it stands, with a foot at either end and an arrow out of its front.
 * @param {Face} face
 * @param {PieceLook} look
 * @param {StandPiece} piece
 */
function footDrawing(face, { kind, rect, illegal }, { turn_deg }) {
  const [sine, cosine] = [Math.sin((turn_deg * Math.PI) / 180), Math.cos((turn_deg * Math.PI) / 180)];
  const [half_m, depth_m] = [kind.width_m / 2, Math.max(0.05, kindDepth(kind)) / 2];
  const [u_m, v_m] = [rect.u_m + rect.width_m / 2, rect.v_m + rect.height_m / 2];
  const spot = (/** @type {number} */ along_m, /** @type {number} */ out_m) => {
    const { x, y } = at(face, u_m + along_m * cosine - out_m * sine, v_m + along_m * sine + out_m * cosine);
    return `${x} ${y}`;
  };
  const outline = `M${spot(-half_m, -depth_m)}L${spot(half_m, -depth_m)}L${spot(half_m, depth_m)}L${spot(-half_m, depth_m)}z`;
  const foot = (/** @type {number} */ along_m) => `M${spot(along_m, -FOOT_M)}L${spot(along_m, FOOT_M)}`;
  return svg`<path class="edge" d="${foot(-half_m * 0.8)}${foot(half_m * 0.8)}" /><path class="ground" d=${outline} />
    <path class="fill" fill=${illegal ? "none" : "url(#k-stand)"} d=${outline} />
    <path class="edge" d="M${spot(-0.07, depth_m + 0.05)}L${spot(0, depth_m + 0.14)}L${spot(0.07, depth_m + 0.05)}" />`;
}

/** How far the feet of a screen reach from its middle, m. */
const FOOT_M = 0.2;

/**
 * @param {Box} box
 * @param {Pattern} pattern
 */
function trim(box, pattern) {
  if (pattern === "rug") return svg`<path class="fringe" d=${fringe(box)} />`;
  if (pattern !== "gap") return nothing;
  const edge = inset(box, EDGE_PX);
  return svg`<rect class="edge" x=${edge.x} y=${edge.y} width=${edge.width} height=${edge.height} />`;
}

/**
 * Threads at the two shorter sides.
 * @param {Box} box
 */
function fringe(box) {
  const upright = box.height >= box.width;
  let path = "";
  for (let step = 3; step < (upright ? box.width : box.height) - 1; step += 4) {
    path += upright
      ? `M${box.x + step} ${box.y}v-4M${box.x + step} ${box.y + box.height}v4`
      : `M${box.x} ${box.y + step}h-4M${box.x + box.width} ${box.y + step}h4`;
  }
  return path;
}

/**
 * @param {Spot} centre
 * @param {number} number
 */
function tag(centre, number) {
  const half = TAG_PX / 2;
  return svg`<rect class="tag" x=${centre.x - half} y=${centre.y - half} width=${TAG_PX} height=${TAG_PX} />
    <text class="num" x=${centre.x} y=${centre.y + 4.3} text-anchor="middle">${number}</text>`;
}

/**
 * Where a number stands that makes way for a bounce mark.
 * @param {Box} box
 * @returns {Spot}
 */
function cornerOf(box) {
  return { x: box.x + TAG_PX / 2 + 3, y: box.y + TAG_PX / 2 + 3 };
}

/** The corner squares by which a selected piece is resized; signs are low or high u, low or high v. */
const CORNERS = /** @type {const} */ (["--", "+-", "-+", "++"]);

/**
 * Where a piece can be taken hold of to resize it: at its corners; a screen on the floor plan at its two ends.
 * @param {PieceLook} look
 * @returns {{corner: "--"|"+-"|"-+"|"++", u: number, v: number}[]}
 */
export function gripSpots({ piece, kind, rect }) {
  if (piece.place === "stand") {
    const turn = (piece.turn_deg * Math.PI) / 180;
    return /** @type {const} */ (["-+", "++"]).map((corner) => {
      const half_m = (corner[0] === "+" ? 1 : -1) * (kind.width_m / 2);
      return { corner, u: piece.x_m + half_m * Math.cos(turn), v: piece.y_m + half_m * Math.sin(turn) };
    });
  }
  return CORNERS.map((corner) => ({
    corner, u: corner[0] === "+" ? rect.u_m + rect.width_m : rect.u_m, v: corner[1] === "+" ? rect.v_m + rect.height_m : rect.v_m,
  }));
}

/** How far the target of a corner reaches outward where it is larger than its mark, px (touch.css). */
const OUT_PX = 10;

/**
 * @param {Face} face
 * @param {ReturnType<typeof gripSpots>} spots
 * @param {number} index
 */
export function grips(face, spots, index) {
  const at = spots.map(({ corner, u, v }) => ({ corner, spot: boxOf(face, { u_m: u, v_m: v, width_m: 0, height_m: 0 }) }));
  const mean = (/** @type {"x"|"y"} */ axis) => at.reduce((sum, { spot }) => sum + spot[axis], 0) / at.length;
  const centre = { x: mean("x"), y: mean("y") };
  return at.map(({ corner, spot }) => {
    const out = (/** @type {"x"|"y"} */ axis) => OUT_PX * Math.sign(Math.round(spot[axis] - centre[axis]));
    return svg`<g class="grip-group" data-grip=${corner} data-piece=${index} .style=${`--out-x:${out("x")}px;--out-y:${out("y")}px`}>
      <rect class="hit" x=${spot.x - 12} y=${spot.y - 12} width="24" height="24" />
      <rect class="grip" x=${spot.x - 3} y=${spot.y - 3} width="6" height="6" /></g>`;
  });
}

/**
 * Where it was, while it is being moved.
 * @param {Face} face
 * @param {Rect} rect
 */
export function ghost(face, rect) {
  const box = boxOf(face, rect);
  return svg`<rect class="ghost" x=${box.x} y=${box.y} width=${box.width} height=${box.height} />`;
}

/**
 * Where the pointer wants it and it may not be, with the reason.
 * @param {Face} face
 * @param {Rect} rect
 */
export function refused(face, rect) {
  const box = boxOf(face, rect);
  return svg`<rect class="refused" x=${box.x} y=${box.y} width=${box.width} height=${box.height} />`;
}
