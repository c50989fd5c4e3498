// Snapping to neighbours on the same surface: edge to edge, edges in line, equal gaps.

/**
 * @import { Rect, Scenario } from "./types.js"
 * @import { Laid } from "./laid.js"
 * @typedef {object} Hold   One line on which a piece may hold.
 * @property {"u"|"v"} axis
 * @property {number} low_m   the piece's low edge then
 * @property {number} at_m    where the guide is drawn
 * @property {string} text    empty: no guide
 * @property {number} rank    lower wins
 * @typedef {{low: number, high: number, across_low: number, across_high: number, name: string}} Span  metres, along one axis and across
 */
import { surfaceSize } from "./geometry.js";
import { lay, laidRect, lyingOn } from "./laid.js";
import { kindName } from "./words.js";

/**
 * @param {Scenario} document @param {number} planIndex @param {Laid} piece @param {number|null} exceptIndex
 * @param {Rect} rect @param {number} tolerance_m @param {{edge: number, gap: number}} rank
 * @returns {Hold[]}
 */
export function rowHolds(document, planIndex, piece, exceptIndex, rect, tolerance_m, rank) {
  const others = document.plans[planIndex].pieces.flatMap((other, index) => (
    index !== exceptIndex && lyingOn(document, other, piece.surface)
      ? [{ rect: laidRect(document, lay(document, other, piece.surface)), name: kindName(document, other.kit) }] : []));
  if (others.length === 0) return [];
  const size = surfaceSize(document.room, piece.surface);
  return /** @type {const} */ (["u", "v"]).flatMap((axis) => {
    const own = span(rect, axis, "");
    const spans = others.map((other) => span(other.rect, axis, other.name));
    const row = spans.filter((s) => s.across_high > own.across_low - tolerance_m && s.across_low < own.across_high + tolerance_m);
    return [
      ...row.flatMap((s) => edgeHolds(axis, own, s, rank.edge)),
      ...spans.flatMap((s) => lineHolds(axis, own, s, rank.edge)),
      ...gapHolds(axis, own, row, axis === "u" ? size.u_m : size.v_m, rank.gap),
    ];
  });
}

/** @param {Rect} rect @param {"u"|"v"} axis @param {string} name @returns {Span} */
function span(rect, axis, name) {
  const u = { low: rect.u_m, high: rect.u_m + rect.width_m };
  const v = { low: rect.v_m, high: rect.v_m + rect.height_m };
  const [along, across] = axis === "u" ? [u, v] : [v, u];
  return { ...along, across_low: across.low, across_high: across.high, name };
}

/** @param {"u"|"v"} axis @param {Span} own @param {Span} other @param {number} rank @returns {Hold[]} */
function edgeHolds(axis, own, other, rank) {
  const text = `touches ${other.name}`;
  return [
    { axis, low_m: other.high, at_m: other.high, text, rank },
    { axis, low_m: other.low - (own.high - own.low), at_m: other.low, text, rank },
  ];
}

/** @param {"u"|"v"} axis @param {Span} own @param {Span} other @param {number} rank @returns {Hold[]} */
function lineHolds(axis, own, other, rank) {
  const text = `in line with ${other.name}`;
  return [
    { axis, low_m: other.low, at_m: other.low, text, rank },
    { axis, low_m: other.high - (own.high - own.low), at_m: other.high, text, rank },
  ];
}

/**
 * Half way between two neighbours (or a neighbour and the end of the surface), and the gap of the next pair again.
 * @param {"u"|"v"} axis @param {Span} own @param {Span[]} row @param {number} end_m @param {number} rank @returns {Hold[]}
 */
function gapHolds(axis, own, row, end_m, rank) {
  const middle = (own.low + own.high) / 2;
  const width = own.high - own.low;
  const below = row.filter((s) => (s.low + s.high) / 2 <= middle).sort((a, b) => b.high - a.high);
  const above = row.filter((s) => (s.low + s.high) / 2 > middle).sort((a, b) => a.low - b.low);
  const from = below[0]?.high ?? 0;
  const to = above[0]?.low ?? end_m;
  const lows = [(from + to - width) / 2];
  if (below.length > 1) lows.push(from + below[0].low - below[1].high);
  if (above.length > 1) lows.push(to - (above[1].low - above[0].high) - width);
  if (row.length === 0) return [];
  return lows.map((low_m) => ({ axis, low_m, at_m: low_m + width / 2, text: "equal gaps", rank }));
}
