/**
 * The 24 one-third-octave bands on paper: where a band lies and what it is called.
 */
import { number } from "../model/format.js";

export const BAND_COUNT = 24;

/** Nominal centres; the exact ones are base ten, 50 Hz is the first. */
export const NOMINAL_HZ = [50, 63, 80, 100, 125, 160, 200, 250, 315, 400, 500, 630, 800, 1000, 1250, 1600, 2000, 2500, 3150, 4000, 5000, 6300, 8000, 10000];

/** @param {number} hz */
export function bandLabel(hz) {
  return hz < 1000 ? String(hz) : `${number(hz / 1000, hz % 1000 === 0 ? 0 : hz % 100 === 0 ? 1 : 2)}k`;
}

/** Whether the band is the middle of an octave. @param {number} index */
export function isOctave(index) {
  return index % 3 === 1;
}

/**
 * A place along equal steps of one third of an octave, for any frequency; band `i` is centred at i.
 * @param {number} hz
 */
export function bandPlace(hz) {
  return 10 * Math.log10(hz / 50);
}

/** Centres below those of the report, which responses reach down to. */
const LOWER_HZ = [20, 25, 31.5, 40];

/** The value of the band nearest to a frequency. @param {ArrayLike<number>} bands_hz @param {ArrayLike<number>} values @param {number} hz @returns {number} */
export function valueNear(bands_hz, values, hz) {
  const away = Array.from(bands_hz, (band) => Math.abs(Math.log(band / hz)));
  return values[away.indexOf(Math.min(...away))] ?? 0;
}

/** The nominal centre nearest to a frequency. @param {number} hz */
export function nominalHz(hz) {
  const away = (/** @type {number} */ other) => Math.abs(Math.log(other / hz));
  return [...LOWER_HZ, ...NOMINAL_HZ].reduce((best, other) => (away(other) < away(best) ? other : best));
}
