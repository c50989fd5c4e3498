// Pick, then place: the numbered places where a picked piece may land without dragging.

/**
 * @import { Scenario, SurfaceName } from "./types.js"
 * @import { Units } from "./format.js"
 * @import { Laid } from "./laid.js"
 * @typedef {Laid & {why: string}} Landing
 * @typedef {{surface: SurfaceName, u_m: number, v_m: number, why: string, turn_deg?: number}} Candidate  a middle that is worth trying
 */
import { SURFACES, isSurfacePiece, isWall, kindById, opposite, pieceRect, rectCentre, surfaceSize } from "./geometry.js";
import { laidSize } from "./laid.js";
import { bounceMarks } from "./marks.js";
import { place } from "./placing.js";
import { kindName, surfaceName } from "./words.js";

const MOST_PLACES = 6;
/** How many of them are on the surface in focus before the others get a turn. */
const MOST_IN_FOCUS = 3;
/** Two places nearer than this are one. */
const SAME_PLACE_M = 0.1;

/**
 * Legal places for a kind, the surface in focus first; bounce marks before mirrored places, the middle and corners.
 * @param {Scenario} document its kit has the kind
 * @param {number} planIndex @param {Laid} piece names the kind and its turn @param {number|null} exceptIndex
 * @param {SurfaceName} focus @param {Units} units
 * @returns {Landing[]} at most six
 */
export function landingPlaces(document, planIndex, piece, exceptIndex, focus, units) {
  const legal = (/** @type {SurfaceName} */ surface) => candidates(document, planIndex, piece, exceptIndex, surface)
    .flatMap((wanted) => land(document, planIndex, piece, exceptIndex, wanted, units));
  const here = distinct(legal(focus));
  const elsewhere = SURFACES.filter((surface) => surface !== focus).flatMap((surface) => distinct(legal(surface)).slice(0, 1));
  return distinct([...here.slice(0, MOST_IN_FOCUS), ...elsewhere, ...here.slice(MOST_IN_FOCUS)]).slice(0, MOST_PLACES);
}

/**
 * Centres worth trying on a surface, best first.
 * @param {Scenario} document @param {number} planIndex @param {Laid} piece @param {number|null} exceptIndex @param {SurfaceName} surface
 * @returns {Candidate[]}
 */
function candidates(document, planIndex, piece, exceptIndex, surface) {
  if (piece.place === "stand") return surface === "floor" ? standCandidates(document, planIndex) : [];
  if (piece.place === "curtain") return isWall(surface) ? curtainCandidates(document, piece, surface) : [];
  if (piece.place === "corner") return surface === "left" || surface === "right" ? cornerCandidates(document, piece, surface) : [];
  return surfaceCandidates(document, planIndex, piece, exceptIndex, surface);
}

/** Both ends of a side wall, from the floor up. @param {Scenario} document @param {Laid} piece @param {SurfaceName} side @returns {Candidate[]} */
function cornerCandidates(document, piece, side) {
  const { width_m, height_m } = laidSize(kindById(document, piece.kit), piece);
  const { u_m } = surfaceSize(document.room, side);
  return /** @type {const} */ ([["front", width_m / 2], ["back", u_m - width_m / 2]]).map(([end, middle_m]) => (
    { surface: side, u_m: middle_m, v_m: height_m / 2, why: `${end} ${side} corner` }));
}

/** From the wall to the middle of a screen that stands before a bounce mark. */
const BEFORE_WALL_M = 0.3;

/** Before the bounce marks of the walls, turned along them. @param {Scenario} document @param {number} planIndex @returns {Candidate[]} */
function standCandidates(document, planIndex) {
  const { width_m, length_m } = document.room;
  const marks = bounceMarks(document, planIndex).filter((mark) => isWall(mark.surface)).sort((a, b) => a.extra_m - b.extra_m);
  return marks.map(({ surface, point_m: [x_m, y_m], loudspeaker }) => {
    const why = `before the bounce mark of loudspeaker ${loudspeaker + 1} on the ${surfaceName(surface)}`;
    const inside = (/** @type {number} */ at_m, /** @type {number} */ side_m) => Math.min(side_m - BEFORE_WALL_M, Math.max(BEFORE_WALL_M, at_m));
    return { surface: "floor", u_m: inside(x_m, width_m), v_m: inside(y_m, length_m), why, turn_deg: surface === "left" || surface === "right" ? 90 : 0 };
  });
}

/** Over each window, else the middle, as high as the ceiling lets it. @param {Scenario} document @param {Laid} piece @param {SurfaceName} wall @returns {Candidate[]} */
function curtainCandidates(document, piece, wall) {
  const size = surfaceSize(document.room, wall);
  const { height_m } = laidSize(kindById(document, piece.kit), piece);
  const windows = (document.room.surfaces[wall].parts ?? []).filter((part) => part.role === "window");
  const middles = windows.map((part) => {
    const top_m = Math.min(size.v_m, part.v_m + part.height_m + 0.15);
    return { u_m: part.u_m + part.width_m / 2, v_m: Math.max(height_m / 2, top_m - height_m / 2), why: "over the window" };
  });
  return [...middles, { u_m: size.u_m / 2, v_m: height_m / 2, why: `middle of the ${surfaceName(wall)}` }].map((one) => ({ surface: wall, ...one }));
}

/**
 * @param {Scenario} document @param {number} planIndex @param {Laid} piece @param {number|null} exceptIndex @param {SurfaceName} surface
 * @returns {Candidate[]}
 */
function surfaceCandidates(document, planIndex, piece, exceptIndex, surface) {
  const size = surfaceSize(document.room, surface);
  const own = laidSize(kindById(document, piece.kit), piece);
  const marks = bounceMarks(document, planIndex).filter((mark) => mark.surface === surface).sort((a, b) => a.extra_m - b.extra_m);
  const corners = [own.width_m / 2, size.u_m - own.width_m / 2].map((u_m) => ({ u_m, v_m: size.v_m - own.height_m / 2 }));
  return [
    ...marks.map((mark) => ({ ...mark, why: `bounce mark of loudspeaker ${mark.loudspeaker + 1}` })),
    ...mirrored(document, planIndex, exceptIndex, surface),
    { u_m: size.u_m / 2, v_m: size.v_m / 2, why: `middle of the ${surfaceName(surface)}` },
    ...corners.map((corner) => ({ ...corner, why: `corner of the ${surfaceName(surface)}` })),
  ].map(({ u_m, v_m, why }) => ({ surface, u_m, v_m, why }));
}

/**
 * @param {Scenario} document @param {number} planIndex @param {number|null} exceptIndex @param {SurfaceName} surface
 * @returns {{u_m: number, v_m: number, why: string}[]}
 */
function mirrored(document, planIndex, exceptIndex, surface) {
  const source = isWall(surface) ? opposite(surface) : surface;
  return document.plans[planIndex].pieces.flatMap((other, index) => {
    if (index === exceptIndex || !isSurfacePiece(other) || other.surface !== source) return [];
    const centre = rectCentre(pieceRect(document, other));
    const u_m = isWall(surface) ? centre.u_m : document.room.width_m - centre.u_m;
    return [{ u_m, v_m: centre.v_m, why: `mirrors ${kindName(document, other.kit)}` }];
  });
}

/**
 * @param {Scenario} document @param {number} planIndex @param {Laid} piece @param {number|null} exceptIndex
 * @param {Candidate} centre @param {Units} units
 * @returns {Landing[]}
 */
function land(document, planIndex, piece, exceptIndex, centre, units) {
  const held = piece.place === "stand" ? { ...piece, turn_deg: centre.turn_deg ?? piece.turn_deg } : piece;
  const own = laidSize(kindById(document, piece.kit), held);
  const corner = { u_m: centre.u_m - own.width_m / 2, v_m: centre.v_m - own.height_m / 2 };
  const placed = place(document, planIndex, { ...held, surface: centre.surface }, exceptIndex, corner, { tolerance_m: 0, units });
  return placed.legal ? [{ ...placed.piece, why: centre.why }] : [];
}

/** @param {Landing[]} places @returns {Landing[]} */
function distinct(places) {
  /** @type {Landing[]} */
  const kept = [];
  for (const place of places) {
    const known = kept.some((other) => other.surface === place.surface
      && Math.hypot(other.u_m - place.u_m, other.v_m - place.v_m) < SAME_PLACE_M);
    if (!known) kept.push(place);
  }
  return kept;
}
