/**
 * One surface of the room without its pieces: ground, finish, parts, limits, zones that stay clear, its name.
 * Nothing of it changes during a drag, so the whole layer is kept until the room changes.
 *
 * @import { KeepClear, Library, Part, Scenario } from "../model/types.js"
 * @import { Face } from "./fold.js"
 */
import { nothing, svg } from "../vendor.js";
import { length } from "../model/format.js";
import { grown } from "../model/geometry.js";
import { sentence, surfaceName } from "../model/words.js";
import { boxOf, faceBox, line } from "./draw.js";
import { finishDrawing } from "./finish.js";
import { partDrawing } from "./part.js";
import { PART_WORDS, finishName, lowerFirst, shortName } from "./words.js";

/**
 * @param {Face} face
 * @param {Scenario} document
 * @param {Library} library
 * @param {"metric"|"imperial"} units
 */
export function surfaceDrawing(face, document, library, units) {
  const surface = document.room.surfaces[face.surface];
  const box = faceBox(face);
  return svg`<rect class="face" x=${box.x} y=${box.y} width=${box.width} height=${box.height} />
    ${finishDrawing(face, surface.finish)}
    ${(surface.parts ?? []).map((part) => partDrawing(face, part, partLabel(part, document, library)))}
    ${limitLines(face, document, units)}
    ${keepClear(document, face).map((zone) => zoneDrawing(face, zone))}
    ${bareNote(face, document)}
    ${nameOf(face)}`;
}

/**
 * @param {Part} part
 * @param {Scenario} document
 * @param {Library} library
 */
function partLabel(part, document, library) {
  if (part.role === "window") return "";
  if (part.role === "built-in" && /book|shel|wardrobe|cupboard/.test(part.finish)) {
    return lowerFirst(shortName(finishName(library, document, part.finish)));
  }
  return part.role === "opening" && /archway/.test(part.finish) ? "archway" : PART_WORDS[part.role];
}

/**
 * @param {Scenario} document
 * @param {Face} face
 */
function keepClear(document, face) {
  return (document.room.keep_clear ?? []).filter((zone) => zone.surface === face.surface);
}

/**
 * The thing itself in outline, its margin hatched, the reason in words.
 * @param {Face} face
 * @param {KeepClear} zone
 */
function zoneDrawing(face, zone) {
  const inner = boxOf(face, zone);
  const outer = clipTo(faceBox(face), boxOf(face, grown(zone, zone.margin_m)));
  const y = Math.min(outer.y + outer.height - 6, outer.y + 18);
  return svg`<g class="zone">
    <rect class="margin" x=${outer.x} y=${outer.y} width=${outer.width} height=${outer.height} />
    <rect class="thin face" x=${inner.x} y=${inner.y} width=${inner.width} height=${inner.height} />
    <text class="note halo" x=${outer.x + outer.width - 6} y=${y} text-anchor="end">${zone.why}</text>
  </g>`;
}

/**
 * @param {import("./draw.js").Box} bounds
 * @param {import("./draw.js").Box} box
 * @returns {import("./draw.js").Box}
 */
function clipTo(bounds, box) {
  const x = Math.max(bounds.x, box.x);
  const y = Math.max(bounds.y, box.y);
  const right = Math.min(bounds.x + bounds.width, box.x + box.width);
  const low = Math.min(bounds.y + bounds.height, box.y + box.height);
  return { x, y, width: Math.max(0, right - x), height: Math.max(0, low - y) };
}

/**
 * The household's own limits as dotted lines across the walls.
 * @param {Face} face
 * @param {Scenario} document
 * @param {"metric"|"imperial"} units
 */
function limitLines(face, { limits, room }, units) {
  if (face.surface === "floor" || face.surface === "ceiling") return nothing;
  const parts = room.surfaces[face.surface].parts ?? [];
  return svg`${limitLine(face, limits?.min_height_m ?? 0, "nothing below", units, parts)}
    ${limitLine(face, limits?.max_height_m ?? 0, "nothing above", units, parts)}`;
}

/**
 * Its words stand on the side where nothing may hang, at the end away from the loudspeakers; once, on the top wall or
 * on the wall that stands alone.
 * @param {Face} face
 * @param {number} height_m
 * @param {"nothing below"|"nothing above"} words
 * @param {"metric"|"imperial"} units
 * @param {Part[]} parts
 */
function limitLine(face, height_m, words, units, parts) {
  if (height_m <= 0 || height_m >= face.height_m) return nothing;
  const box = faceBox(face);
  const y = boxOf(face, { u_m: 0, v_m: height_m, width_m: 0, height_m: 0 }).y + (words === "nothing below" ? 14 : -5);
  const isNamed = face.side === "top" || face.side === "alone";
  const text = `${words} ${length(height_m, units)}`;
  const atLeft = face.side === "alone" && face.surface === "left";
  const x = atLeft ? freeStart(face, parts, text.length * LETTER_PX) : box.x + box.width - 4;
  return svg`<path class="keep" d=${line(face, [0, height_m], [face.width_m, height_m])} />
    ${isNamed ? svg`<text class="note halo" x=${x} y=${y} text-anchor=${atLeft ? "start" : "end"}>${text}</text>` : nothing}`;
}

/** Width of a letter of these notes, about, px. */
const LETTER_PX = 6.2;

/**
 * Where words at the left end may begin without lying over a door or an opening.
 * @param {Face} face
 * @param {Part[]} parts
 * @param {number} width
 */
function freeStart(face, parts, width) {
  let start = faceBox(face).x + 4;
  for (const box of parts.map((part) => boxOf(face, part)).sort((a, b) => a.x - b.x)) {
    if (box.x < start + width && box.x + box.width > start) start = box.x + box.width + 5;
  }
  return start;
}

/**
 * @param {Face} face
 * @param {Scenario} document
 */
function bareNote(face, document) {
  if (!document.limits?.bare?.includes(face.surface)) return nothing;
  const box = faceBox(face);
  return svg`<text class="note" x=${box.x + box.width - 10} y=${box.y + box.height - 10} text-anchor="end">kept bare: your limit</text>`;
}

/** @param {Face} face */
function nameOf(face) {
  const name = sentence(surfaceName(face.surface));
  const spot = nameSpot(face);
  return svg`<text class="name ${face.side === "before" || face.side === "after" ? "" : "halo"}" x=${spot.x} y=${spot.y} text-anchor=${spot.anchor}>${name}</text>
    ${face.sheet === "ceiling" ? svg`<text class="note halo" x=${spot.x + 58} y=${spot.y}>as if seen through the roof</text>` : nothing}`;
}

/**
 * Inside the walls above and below, over the walls before and after, in the corner of floor and ceiling.
 * @param {Face} face
 * @returns {{x: number, y: number, anchor: "start"|"end"}}
 */
function nameSpot(face) {
  const box = faceBox(face);
  switch (face.side) {
    case "bottom": return { x: box.x + 10, y: box.y + box.height - 10, anchor: "start" };
    case "before": return { x: box.x, y: box.y - 9, anchor: "start" };
    case "after": return { x: box.x + box.width, y: box.y - 9, anchor: "end" };
    case "floor": return { x: box.x + box.width - 10, y: box.y + 20, anchor: "end" };
    default: return { x: box.x + 10, y: box.y + 20, anchor: "start" };
  }
}
