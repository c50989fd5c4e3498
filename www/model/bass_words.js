// Words about the bass that the page makes itself: the way a note runs, the wall behind, notes that share a pitch.

/** @import { Bass, Mode } from "./types.js" */
import { frequency, length } from "./format.js";
import { spotName } from "./spots.js";

const WAYS = Object.freeze(["across", "lengthwise", "up and down"]);

/** "across", "across and lengthwise". @param {Mode} mode @returns {string} */
export function wayOf({ n }) {
  const ways = WAYS.filter((_, axis) => n[axis] > 0);
  return ways.length === 3 ? "all three ways" : ways.join(" and ");
}

/** How much a note matters: the loudspeakers must feed it and the seat must hear it. @param {Mode} mode @returns {number} */
export function weightOf({ fed, heard }) {
  return fed * heard;
}

/**
 * Dips by the wall behind each loudspeaker; one sentence where both stand alike.
 * @param {Bass["behind"]} behind @param {"metric"|"imperial"} units @returns {string[]}
 */
export function behindSentences(behind, units) {
  const [first, second] = behind;
  const dip = (/** @type {Bass["behind"][number]} */ { distance_m, dip_hz }) => `${length(distance_m, units)} away, takes out sound near ${frequency(dip_hz)}.`;
  if (first && second && behind.length === 2 && Math.round(first.dip_hz) === Math.round(second.dip_hz)) {
    return [`The wall behind both loudspeakers, ${dip(first)}`];
  }
  return behind.map((one) => `The wall behind the ${spotName(one.loudspeaker).toLowerCase()}, ${dip(one)}`);
}

/** @param {Bass} bass @returns {string[]} */
export function coincidentSentences({ coincident, modes }) {
  return coincident.flatMap(([i, j]) => {
    const [a, b] = [modes[i], modes[j]];
    if (!a || !b) return [];
    const same = frequency(a.frequency_hz) === frequency(b.frequency_hz);
    const pitch = same ? `Two notes share ${frequency(a.frequency_hz)}` : `${frequency(a.frequency_hz)} and ${frequency(b.frequency_hz)} nearly share one pitch`;
    return [`${pitch}, ${wayOf(a)} and ${wayOf(b)}: they pile up.`];
  });
}

/** The values of one layer of a map. @param {Bass["map"]} map @param {number} layer @returns {ArrayLike<number>} */
export function layerOf({ level_db, nx, ny }, layer) {
  return level_db.slice(layer * nx * ny, (layer + 1) * nx * ny);
}

/** From the middle of a third-octave band to its upper edge. */
const HALF_A_THIRD = 2 ** (1 / 6);

/** The core tells notes in sentences up to here, Hz. */
const TOLD_UP_TO_HZ = 120;

/** How long and how strongly a note rings at the seat. @param {Mode} mode @returns {number} */
function ringing(mode) {
  return weightOf(mode) * (mode.decay_s ?? Infinity);
}

/**
 * The layer to show first: the one nearest to the note that the words begin with.
 * @param {Bass} bass @returns {number}
 */
export function firstLayer({ map, modes }) {
  const highest_hz = Math.min(TOLD_UP_TO_HZ, map.frequency_hz[map.frequency_hz.length - 1] * HALF_A_THIRD);
  const mapped = modes.filter((mode) => mode.frequency_hz <= highest_hz);
  const weightiest = mapped.reduce((/** @type {Mode|null} */ best, mode) => (best && ringing(best) >= ringing(mode) ? best : mode), null);
  if (!weightiest) return 0;
  const away = Array.from(map.frequency_hz, (hz) => Math.abs(Math.log(hz / weightiest.frequency_hz)));
  return Math.max(0, away.indexOf(Math.min(...away)));
}
