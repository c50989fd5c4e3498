// What of the sound at the seat is direct, early and late, by octave and for the middle of the range.

/**
 * @import { Ranges, SeatReport, Span } from "./types.js"
 * @typedef {{direct: number, early: number, late: number}} Shares  sum to one
 * @typedef {{low: number, high: number}} Range
 * @typedef {Shares & {hz: number, directRange: Range|null, lateRange: Range|null}} OctaveShares
 */

/** Middles of the octaves that the 24 thirds make up. */
export const OCTAVES_HZ = Object.freeze([63, 125, 250, 500, 1000, 2000, 4000, 8000]);
/** The octaves 500 Hz … 4 kHz, as indices: where direct and reflected sound are told apart best. */
const MIDDLE = Object.freeze([3, 4, 5, 6]);

/** The mean over the three thirds of each octave. @param {ArrayLike<number>} thirds 24 bands @returns {number[]} eight octaves */
export function octaveMeans(thirds) {
  return OCTAVES_HZ.map((_, index) => (thirds[3 * index] + thirds[3 * index + 1] + thirds[3 * index + 2]) / 3);
}

/** The mean over the middle octaves. @param {ArrayLike<number>} thirds @returns {number} */
export function middleMean(thirds) {
  const octaves = octaveMeans(thirds);
  return MIDDLE.reduce((sum, index) => sum + octaves[index], 0) / MIDDLE.length;
}

/** @param {SeatReport} seat @param {Ranges|null} ranges @returns {OctaveShares[]} */
export function octaveShares(seat, ranges) {
  const [direct, early, late] = [octaveMeans(seat.direct_share), octaveMeans(seat.early_share), octaveMeans(seat.late_share)];
  const directRange = octaveSpan(ranges?.seat?.direct_share);
  const lateRange = octaveSpan(ranges?.seat?.late_share);
  return OCTAVES_HZ.map((hz, index) => ({
    hz, direct: direct[index], early: early[index], late: late[index],
    directRange: directRange?.[index] ?? null, lateRange: lateRange?.[index] ?? null,
  }));
}

/** @param {Span|undefined} span @returns {Range[]|null} */
function octaveSpan(span) {
  if (!span) return null;
  const [low, high] = [octaveMeans(span.low), octaveMeans(span.high)];
  return low.map((value, index) => ({ low: value, high: high[index] }));
}

/** @param {SeatReport} seat @returns {Shares} */
export function middleShares(seat) {
  return { direct: middleMean(seat.direct_share), early: middleMean(seat.early_share), late: middleMean(seat.late_share) };
}

/** The share of all that is reflected, in the middle of the range, with its range. @param {SeatReport} seat @param {Ranges|null} ranges @returns {Range & {middle: number, known: boolean}} */
export function roomShare(seat, ranges) {
  const middle = 1 - middleMean(seat.direct_share);
  const span = ranges?.seat?.direct_share;
  if (!span) return { middle, low: middle, high: middle, known: false };
  return { middle, low: 1 - middleMean(span.high), high: 1 - middleMean(span.low), known: true };
}
