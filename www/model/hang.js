// The Hang sheet as figures: what hangs on which surface, measured from the floor and from one named corner, and where it is
// suggested to be fixed. Fixing marks are common practice, no source; the wall decides.

/**
 * @import { Kind, Piece, Rect, Scenario, SurfaceName } from "./types.js"
 * @import { Laid } from "./laid.js"
 *
 * @typedef {object} HangItem  One piece with its two measures each way.
 * @property {number} index      in the plan
 * @property {Kind} kind
 * @property {Laid} piece
 * @property {Rect} rect         what it covers of its surface
 * @property {number} edge_m     from the corner, or the left wall, to the near edge
 * @property {number} centre_m   the same to its middle
 * @property {number} low_m      from the floor, or the front wall, to the lower edge
 * @property {number} middle_m
 * @property {{u_m: number, v_m: number}[]} fixings   suggested marks on the surface
 * @property {"hangs"|"overhead"|"stands"|"lies"|"rail"|"corner"} how
 * @typedef {{surface: SurfaceName, items: HangItem[]}} HangSurface
 */
import { hungSize, isSurfacePiece, kindById } from "./geometry.js";
import { edgeWalls, lay, laidRect, lyingOn, standsInCorner } from "./laid.js";

/** In the order of the sheets. @type {readonly SurfaceName[]} */
const ORDER = Object.freeze(["left", "right", "front", "back", "ceiling", "floor"]);

/** Fixing marks lie this far below the top of a piece, or inside of a corner of an overhead one. */
const BELOW_TOP_M = 0.08;
/** From the sides, as a share of the width. */
const FROM_SIDE = 1 / 6;
/** Brackets of a rail: this far from its ends, and no farther apart than this. */
const RAIL_END_M = 0.1;
const RAIL_STEP_M = 1.2;
/** Brackets of a corner piece: this far inside of its outer edge on each wall. */
const BRACKET_IN_M = 0.05;

/** Every surface that carries something, with its pieces. @param {Scenario} document @param {number} planIndex @returns {HangSurface[]} */
export function surfacesToHang(document, planIndex) {
  const pieces = document.plans[planIndex]?.pieces ?? [];
  const items = pieces.flatMap((piece, index) => itemOf(document, piece, index) ?? []);
  return ORDER.flatMap((surface) => {
    const on = items.filter((item) => item.piece.surface === surface);
    return on.length > 0 ? [{ surface, items: on.sort((a, b) => a.edge_m - b.edge_m || a.low_m - b.low_m) }] : [];
  });
}

/** @param {Scenario} document @param {Piece} piece @param {number} index @returns {HangItem|null} */
function itemOf(document, piece, index) {
  const kind = kindById(document, piece.kit);
  if (!kind) return null;
  const laid = lay(document, piece);
  const rect = laidRect(document, laid);
  const how = howOf(laid);
  return {
    index, kind, piece: laid, rect, how, fixings: document.limits?.no_drilling ? [] : fixingsOf(how, rect, laid),
    edge_m: rect.u_m, centre_m: rect.u_m + rect.width_m / 2, low_m: rect.v_m, middle_m: rect.v_m + rect.height_m / 2,
  };
}

/** @param {Laid} piece @returns {HangItem["how"]} */
function howOf(piece) {
  if (piece.place === "stand") return "stands";
  if (piece.place === "corner") return standsInCorner(piece) ? "stands" : "corner";
  if (piece.place === "curtain") return "rail";
  if (piece.surface === "floor") return "lies";
  return piece.surface === "ceiling" ? "overhead" : "hangs";
}

/** @param {HangItem["how"]} how @param {Rect} rect @param {Laid} laid @returns {{u_m: number, v_m: number}[]} */
function fixingsOf(how, rect, laid) {
  const { u_m, v_m, width_m, height_m } = rect;
  if (how === "hangs") return [FROM_SIDE, 1 - FROM_SIDE].map((share) => ({ u_m: u_m + share * width_m, v_m: v_m + height_m - Math.min(BELOW_TOP_M, height_m / 2) }));
  if (how === "rail") return railBrackets(rect);
  if (how === "corner" && laid.place === "corner") return cornerBrackets(rect, laid);
  if (how !== "overhead") return [];
  const [along_m, across_m] = [Math.min(BELOW_TOP_M, width_m / 3), Math.min(BELOW_TOP_M, height_m / 3)];
  return [u_m + along_m, u_m + width_m - along_m].flatMap((u) => [v_m + across_m, v_m + height_m - across_m].map((v) => ({ u_m: u, v_m: v })));
}

/** At the top, near both ends and evenly between. @param {Rect} rect @returns {{u_m: number, v_m: number}[]} */
function railBrackets({ u_m, v_m, width_m, height_m }) {
  const end_m = Math.min(RAIL_END_M, width_m / 4);
  const spans = Math.max(1, Math.ceil((width_m - 2 * end_m) / RAIL_STEP_M));
  return Array.from({ length: spans + 1 }, (_, step) => ({ u_m: u_m + end_m + ((width_m - 2 * end_m) * step) / spans, v_m: v_m + height_m }));
}

/** On one of its two walls, near the top and the bottom of the piece; the other wall has the same. @param {Rect} rect @param {Laid & {edge: string}} piece @returns {{u_m: number, v_m: number}[]} */
function cornerBrackets({ u_m, v_m, width_m, height_m }, piece) {
  const other = edgeWalls(piece.edge).find((wall) => wall !== piece.surface);
  const in_m = Math.min(BRACKET_IN_M, width_m / 2);
  const at_m = other === "right" || other === "back" ? u_m + in_m : u_m + width_m - in_m;
  const end_m = Math.min(BELOW_TOP_M, height_m / 3);
  return [v_m + height_m - end_m, v_m + end_m].map((v) => ({ u_m: at_m, v_m: v }));
}

/** Pieces of other surfaces that are seen on this one too: corner pieces lie on two walls. @param {Scenario} document @param {number} planIndex @param {SurfaceName} surface @returns {Pick<HangItem, "index"|"kind"|"piece"|"rect"|"fixings">[]} */
export function alsoSeen(document, planIndex, surface) {
  return (document.plans[planIndex]?.pieces ?? []).flatMap((piece, index) => {
    const kind = kindById(document, piece.kit);
    const laid = lyingOn(document, piece, surface);
    if (!kind || !laid || lay(document, piece).surface === surface) return [];
    const rect = laidRect(document, laid);
    return [{ index, kind, piece: laid, rect, fixings: document.limits?.no_drilling ? [] : fixingsOf(howOf(laid), rect, laid) }];
  });
}

/** What the measures along a surface begin at, and those away from it. @param {SurfaceName} surface @returns {{along: string, away: string, low: string}} */
export function measuredFrom(surface) {
  if (surface === "floor" || surface === "ceiling") return { along: "the left wall", away: "the front wall", low: "near edge" };
  const along = surface === "left" || surface === "right" ? "the front corner" : "the left corner";
  return { along, away: "the finished floor", low: "lower edge" };
}

/** Which way one looks at it. @param {SurfaceName} surface @returns {string} */
export function seenFrom(surface) {
  switch (surface) {
    case "left": return "As you face it: the loudspeakers stand to your right.";
    case "right": return "As you face it: the loudspeakers stand to your left.";
    case "front": return "As you face it, the loudspeakers before you: the left wall is to your left.";
    case "back": return "As you face it, the loudspeakers behind you: the left wall is to your right.";
    case "floor": return "Seen from above, the front wall on top.";
    case "ceiling": return "As if seen through the roof, the front wall on top; left stays left.";
  }
}

/** The size of a piece as it hangs, whatever it covers of its surface. @param {HangItem} item @returns {{width_m: number, height_m: number}} */
export function hangSize({ kind, piece }) {
  return hungSize(kind, isSurfacePiece(piece) && piece.turned);
}
