// Comb filter of one bounce: what direct sound and one later copy of it make of each other, as it is and as ears blend it.

/** @import { Reflection } from "./types.js" */

/** From the middle of a third-octave to its edges. */
const HALF_A_THIRD = 2 ** (1 / 6);

/** Of the curves, Hz. */
export const COMB_FROM_HZ = 50;
export const COMB_TO_HZ = 10000;
const POINTS = 600;

/** Centre of the lowest band, and bands to a decade. */
const FIRST_HZ = 50;
const BANDS_A_DECADE = 10;

/**
 * The bounce's sound pressure beside the direct one, between the bands in straight lines over the logarithm of frequency.
 * @param {ArrayLike<number>} level_db 24 bands @param {number} hz @returns {number} 0 where nothing comes back
 */
export function pressureAt(level_db, hz) {
  const place = Math.min(level_db.length - 1, Math.max(0, BANDS_A_DECADE * Math.log10(hz / FIRST_HZ)));
  const below = Math.floor(place);
  const above = Math.min(level_db.length - 1, below + 1);
  const share = place - below;
  return (1 - share) * 10 ** (level_db[below] / 20) + share * 10 ** (level_db[above] / 20);
}

/**
 * Level of both together beside the direct sound alone. A hard wall sends the pressure back with its sign.
 *
 * L = 10 lg(1 + g² + 2 g cos 2πfΔt)
 *
 * Everest, The Master Handbook of Acoustics, 4th ed. 2001, comb filters.
 * @param {number} hz @param {number} delay_s @param {number} g pressure beside the direct one @returns {number} dB
 */
export function combLevel(hz, delay_s, g) {
  return 10 * Math.log10(Math.max(1e-6, 1 + g * g + 2 * g * Math.cos(2 * Math.PI * hz * delay_s)));
}

/**
 * The same as a mean of energy over one third of an octave round the frequency: the mean of a cosine in closed form.
 * @param {number} hz @param {number} delay_s @param {number} g @returns {number} dB
 */
export function blendedLevel(hz, delay_s, g) {
  const [low, high] = [hz / HALF_A_THIRD, hz * HALF_A_THIRD].map((edge_hz) => 2 * Math.PI * edge_hz * delay_s);
  const mean = high > low ? (Math.sin(high) - Math.sin(low)) / (high - low) : 1;
  return 10 * Math.log10(Math.max(1e-6, 1 + g * g + 2 * g * mean));
}

/**
 * Both curves of a bounce.
 * @param {Pick<Reflection, "delay_s"|"level_db">} bounce
 * @returns {{frequency_hz: Float64Array, raw_db: Float64Array, blended_db: Float64Array}}
 */
export function combOf({ delay_s, level_db }) {
  const frequency_hz = Float64Array.from({ length: POINTS }, (_, index) => COMB_FROM_HZ * (COMB_TO_HZ / COMB_FROM_HZ) ** (index / (POINTS - 1)));
  const g = frequency_hz.map((hz) => pressureAt(level_db, hz));
  return {
    frequency_hz, raw_db: frequency_hz.map((hz, index) => combLevel(hz, delay_s, g[index])),
    blended_db: frequency_hz.map((hz, index) => blendedLevel(hz, delay_s, g[index])),
  };
}
