/**
 * What stands on the floor as it is seen in plan: furniture, loudspeakers, seat, doors that swing, the depth of what hangs.
 *
 * @import { Furnishing, Library, Listening, Loudspeaker, Part, PlanReport, Scenario, StandsAt, SurfaceName } from "../model/types.js"
 * @import { Face } from "./fold.js"
 * @import { Box } from "./draw.js"
 */
import { nothing, svg } from "../vendor.js";
import { length } from "../model/format.js";
import { surfaceAxes, toPoint } from "../model/geometry.js";
import { at, boxOf, line, middle, px } from "./draw.js";
import { WALLS, furnishingName, lowerFirst, shortName } from "./words.js";

/** @typedef {{u_m: number, v_m: number, width_m: number, height_m: number}} PlanRect  on the floor */

/**
 * The strip of floor in front of a wall, from u to u + width along it and `depth_m` into the room.
 * @param {Scenario} document
 * @param {SurfaceName} wall
 * @param {number} u_m
 * @param {number} width_m
 * @param {number} depth_m
 * @returns {PlanRect}
 */
export function stripAt(document, wall, u_m, width_m, depth_m) {
  const [x, y] = toPoint(wall, u_m, 0, document.room);
  if (surfaceAxes(wall).u === "y") {
    return { u_m: wall === "right" ? x - depth_m : x, v_m: y, width_m: depth_m, height_m: width_m };
  }
  return { u_m: x, v_m: wall === "back" ? y - depth_m : y, width_m, height_m: depth_m };
}

/**
 * Built-ins with their depth, and furniture that says where it stands.
 * @param {Face} face
 * @param {Scenario} document
 * @param {Library} library
 * @param {"metric"|"imperial"} units
 */
export function standing(face, document, library, units) {
  const builtIns = WALLS.flatMap((wall) => builtInsOf(document, wall));
  return svg`${builtIns.map((one) => rectOf(boxOf(face, one.rect), one.solid ? "cut-solid" : "out face"))}
    ${(document.room.furnishings ?? []).map((one, index) => furniture(face, one, index, library, document, units))}`;
}

/**
 * Books and cupboards are open in plan, masonry is solid.
 * @param {Scenario} document
 * @param {SurfaceName} wall
 */
function builtInsOf(document, wall) {
  return (document.room.surfaces[wall].parts ?? [])
    .filter((part) => part.depth_m && part.v_m < 1.2)
    .map((part) => ({
      rect: stripAt(document, wall, part.u_m, part.width_m, part.depth_m ?? 0),
      solid: !/book|shel|wardrobe|cupboard/.test(part.finish),
    }));
}

/**
 * @param {Box} box
 * @param {string} name
 */
function rectOf(box, name) {
  return svg`<rect class=${name} x=${box.x} y=${box.y} width=${box.width} height=${box.height} />`;
}

/**
 * @param {Face} face
 * @param {Furnishing} furnishing
 * @param {number} index  in the document
 * @param {Library} library
 * @param {Scenario} document
 * @param {"metric"|"imperial"} units
 */
function furniture(face, furnishing, index, library, document, units) {
  const where = furnishing.at;
  if (!where) return nothing;
  const rect = { u_m: where.x_m, v_m: where.y_m, width_m: where.width_m, height_m: where.depth_m };
  const box = boxOf(face, rect);
  const soft = /sofa|chair|bed/.test(furnishing.kind);
  const name = shortName(furnishingName(library, document, furnishing.kind));
  const label = `${name}, ${length(where.x_m, units)} from the left wall, ${length(where.y_m, units)} from the front wall; arrows move it`;
  return svg`<g class="furn" role=${face.still ? nothing : "button"} tabindex=${face.still ? nothing : 0} data-furnishing=${index} aria-label=${face.still ? nothing : label}>
    <rect x=${box.x} y=${box.y} width=${box.width} height=${box.height} rx=${soft ? 5 : 0} />
    ${/sofa|chair/.test(furnishing.kind) ? svg`<path d=${cushions(face, rect)} />` : nothing}
    ${/bed/.test(furnishing.kind) ? svg`<path d=${line(face, [rect.u_m, rect.v_m + 0.4], [rect.u_m + rect.width_m, rect.v_m + 0.4])} />` : nothing}
    ${soft ? nothing : furnitureName(box, lowerFirst(name))}
  </g>`;
}

/**
 * Back towards the far wall, an arm at either end, a seam in the middle.
 * @param {Face} face
 * @param {PlanRect} rect
 */
function cushions(face, rect) {
  const back = rect.v_m + rect.height_m * 0.72;
  const [a, b] = [rect.u_m + Math.min(0.2, rect.width_m / 6), rect.u_m + rect.width_m - Math.min(0.2, rect.width_m / 6)];
  const half = (a + b) / 2;
  return line(face, [a, back], [b, back]) + line(face, [a, rect.v_m], [a, rect.v_m + rect.height_m])
    + line(face, [b, rect.v_m], [b, rect.v_m + rect.height_m]) + line(face, [half, rect.v_m], [half, back]);
}

/**
 * @param {Box} box
 * @param {string} name
 */
function furnitureName(box, name) {
  if (box.width < name.length * 6 || box.height < 16) return nothing;
  const centre = middle(box);
  return svg`<text class="note" x=${centre.x} y=${centre.y + 4} text-anchor="middle">${name}</text>`;
}

/**
 * The cut edge of the floor, with doors, openings and windows as gaps of the wall's line.
 * @param {Face} face
 * @param {Scenario} document
 */
export function cutEdge(face, document) {
  const box = boxOf(face, { u_m: 0, v_m: 0, width_m: face.width_m, height_m: face.height_m });
  const gaps = WALLS.flatMap((wall) => (document.room.surfaces[wall].parts ?? []).map((part) => gap(face, document, wall, part)));
  return svg`<g class="cutlines"><rect class="cut" x=${box.x} y=${box.y} width=${box.width} height=${box.height} />${gaps}</g>`;
}

/**
 * @param {Face} face
 * @param {Scenario} document
 * @param {SurfaceName} wall
 * @param {Part} part
 */
function gap(face, document, wall, part) {
  const strip = stripAt(document, wall, part.u_m, part.width_m, 0);
  const path = line(face, [strip.u_m, strip.v_m], [strip.u_m + strip.width_m, strip.v_m + strip.height_m]);
  if (part.role === "window") return svg`<path class="gap" d=${path} /><path class="thin" d=${path} />`;
  if (part.role === "opening") return svg`<path class="gap" d=${path} /><path class="thin dashy" d=${path} />`;
  if (part.role !== "door") return nothing;
  return svg`<path class="gap" d=${path} />${part.swing_m ? svg`<path class="thin" d=${leaf(face, document, wall, part)} />
    <path class="hair dashy" d=${swing(face, document, wall, part)} />` : svg`<path class="thin dashy" d=${path} />`}`;
}

/**
 * The leaf stands open, square to the wall, hinged at the low end.
 * @param {Face} face
 * @param {Scenario} document
 * @param {SurfaceName} wall
 * @param {Part} part
 */
function leaf(face, document, wall, part) {
  const [hinge, tip] = leafEnds(document, wall, part);
  return line(face, hinge, tip);
}

/**
 * @param {Face} face
 * @param {Scenario} document
 * @param {SurfaceName} wall
 * @param {Part} part
 */
function swing(face, document, wall, part) {
  const [hinge, tip, shut] = leafEnds(document, wall, part);
  const [a, b, c] = [at(face, ...tip), at(face, ...shut), at(face, ...hinge)];
  const radius = px(face.ux ? Math.abs(face.ux) * (part.swing_m ?? 0) : Math.abs(face.uy) * (part.swing_m ?? 0));
  const turn = (a.x - c.x) * (b.y - c.y) - (a.y - c.y) * (b.x - c.x) > 0 ? 1 : 0;
  return `M${a.x} ${a.y}A${radius} ${radius} 0 0 ${turn} ${b.x} ${b.y}`;
}

/**
 * Hinge, tip of the open leaf, tip of the shut leaf, on the floor.
 * @param {Scenario} document
 * @param {SurfaceName} wall
 * @param {Part} part
 * @returns {[[number, number], [number, number], [number, number]]}
 */
function leafEnds(document, wall, part) {
  const reach_m = part.swing_m ?? 0;
  const [hx, hy] = toPoint(wall, part.u_m, 0, document.room);
  const [sx, sy] = toPoint(wall, part.u_m + reach_m, 0, document.room);
  const inward = { left: [reach_m, 0], right: [-reach_m, 0], front: [0, reach_m], back: [0, -reach_m], floor: [0, 0], ceiling: [0, 0] }[wall];
  return [[hx, hy], [hx + inward[0], hy + inward[1]], [sx, sy]];
}

/**
 * Loudspeakers with their own signs, and the seat.
 * @param {Face} face
 * @param {Listening} listening
 * @param {"metric"|"imperial"} units
 * @param {StandsAt|null} spot  the selected one
 */
export function listeners(face, listening, units, spot) {
  return svg`${listening.loudspeakers.map((one, index) => loudspeaker(face, one, index, listening, units, spot === index))}
    ${listening.seat ? seat(face, listening.seat, units, spot === "seat") : nothing}`;
}

/**
 * @param {Face} face
 * @param {Loudspeaker} one
 * @param {number} index
 * @param {Listening} listening
 * @param {"metric"|"imperial"} units
 * @param {boolean} selected
 */
function loudspeaker(face, one, index, listening, units, selected) {
  const spot = at(face, one.x_m, one.y_m);
  // As the core has it: to the middle of the room, which a loudspeaker there has no side of.
  const inwards = Math.sign(face.width_m / 2 - one.x_m);
  const toe = ((one.toe_in_deg ?? 0) * Math.PI) / 180;
  const turn = turnOf(face, inwards * Math.sin(toe), Math.cos(toe));
  const sign = index === 0 ? svg`<circle cx="-1" cy="0" r="4.2" />` : svg`<path d="M-1 -5l5 5l-5 5l-5 -5z" />`;
  const name = `${index === 0 ? "Left" : "Right"} loudspeaker, ${length(one.x_m, units)} from the left wall, ${length(one.y_m, units)} from the front wall`;
  return svg`<g class="speaker ${selected ? "is-selected" : ""}" role=${face.still ? nothing : "button"} tabindex=${face.still ? nothing : 0} data-loudspeaker=${index} aria-label=${face.still ? nothing : name} transform="translate(${spot.x} ${spot.y}) rotate(${turn})">
    <rect class="hit" x="-17" y="-15" width="30" height="30" /><path d="M-13 -7.5H5.5V7.5H-13z" /><path d="M5.5 -7.5L9 -5V5L5.5 7.5" />${sign}</g>`;
}

/**
 * Degrees on the sheet of a direction on the floor.
 * @param {Face} face
 * @param {number} du
 * @param {number} dv
 */
function turnOf(face, du, dv) {
  return px((Math.atan2(face.uy * du + face.vy * dv, face.ux * du + face.vx * dv) * 180) / Math.PI);
}

/**
 * A head with its shoulders, looking at the front wall.
 * @param {Face} face
 * @param {{x_m: number, y_m: number}} where
 * @param {"metric"|"imperial"} units
 * @param {boolean} selected
 */
function seat(face, where, units, selected) {
  const spot = at(face, where.x_m, where.y_m);
  const name = `Seat, ${length(where.x_m, units)} from the left wall, ${length(where.y_m, units)} from the front wall`;
  return svg`<g class="seat ${selected ? "is-selected" : ""}" role=${face.still ? nothing : "button"} tabindex=${face.still ? nothing : 0} data-seat="" aria-label=${face.still ? nothing : name} transform="translate(${spot.x} ${spot.y}) rotate(${turnOf(face, 0, 1)})">
    <rect class="hit" x="-13" y="-18" width="30" height="36" /><path d="M9 -17Q1 -15 1 0Q1 15 9 17Q15 15 15 0Q15 -15 9 -17z" /><path d="M-7.5 -2L-11 0L-7.5 2" />
    <circle r="7.5" /><path d="M-1.5 -7.4Q0 -10 2 -7.2M-1.5 7.4Q0 10 2 7.2" /></g>`;
}

/**
 * The way of the bounces off the side walls, seen from above: left loudspeaker solid, right one dashed.
 * @param {Face} face
 * @param {Listening} listening
 * @param {PlanReport|null} report
 */
export function bouncePaths(face, listening, report) {
  const seat_m = listening.seat;
  if (!report || !seat_m) return nothing;
  const sides = report.reflections.filter((one) => one.order === 1 && (one.surfaces[0] === "left" || one.surfaces[0] === "right"));
  return sides.map((one) => {
    const from = listening.loudspeakers[one.loudspeaker];
    const [x, y] = one.points_m[0] ?? [];
    if (!from || x === undefined || y === undefined) return nothing;
    const path = line(face, [from.x_m, from.y_m], [x, y]) + line(face, [x, y], [seat_m.x_m, seat_m.y_m]);
    return svg`<path class="path ${one.loudspeaker === 0 ? "" : "dash"}" d=${path} />`;
  });
}

/**
 * A corner piece seen from above.
 * @param {Face} face
 * @param {[SurfaceName, SurfaceName]} walls  its side wall and its end wall
 * @param {number} leg_m
 */
export function triangle(face, [side, end], leg_m) {
  const [u, du] = side === "right" ? [face.width_m, -leg_m] : [0, leg_m];
  const [v, dv] = end === "back" ? [face.height_m, -leg_m] : [0, leg_m];
  const [a, b, c] = [at(face, u, v), at(face, u + du, v), at(face, u, v + dv)];
  return svg`<path class="slab" d="M${a.x} ${a.y}L${b.x} ${b.y}L${c.x} ${c.y}z" />`;
}

/**
 * What hangs on a wall, cut through: a solid slab of its true depth.
 * @param {Face} face
 * @param {PlanRect} rect
 */
export function slab(face, rect) {
  const { x, y, width, height } = boxOf(face, rect);
  // A path: a moving opaque rectangle makes Chromium arrange all layers of the page anew.
  return svg`<path class="slab" d="M${x} ${y}h${Math.max(1.5, width)}v${Math.max(1.5, height)}H${x}z" />`;
}
