// What is read off a recording, as figures of the document and in words.

/**
 * @import { Measured } from "./types.js"
 *
 * @typedef {object} BandRead  Figures that the recording does not carry are null.
 * @property {number} center_hz
 * @property {number|null} above_noise_db
 * @property {number|null} edt_s
 * @property {number|null} t20_s
 * @property {number|null} t30_s
 * @property {number|null} c50_db
 * @property {number|null} c80_db
 * @property {string[]} refused
 *
 * @typedef {object} Reading
 * @property {string|null} problem  a sentence, if nothing could be read
 * @property {number} sample_rate_hz
 * @property {number} channels
 * @property {number} duration_s
 * @property {BandRead[]} octaves
 * @property {BandRead[]} thirds
 */
import { DECAY } from "./limits.js";

/** Octaves that a check-up compares, Hz. */
const COMPARED_HZ = Object.freeze({ least: 125, most: 4000 });

/**
 * The reading as a measured decay of a plan: T20 of the octaves 125 Hz to 4 kHz that carry it, to a millisecond; null if none
 * does.
 * @param {Reading} reading @param {string} plan by its name @returns {Measured|null}
 */
export function measuredOf(reading, plan) {
  const told = reading.octaves.filter(({ center_hz, t20_s }) => center_hz >= COMPARED_HZ.least && center_hz <= COMPARED_HZ.most
    && t20_s !== null && t20_s >= DECAY.least_s && t20_s <= DECAY.most_s);
  if (told.length === 0) return null;
  return {
    plan,
    bands_hz: told.map(({ center_hz }) => center_hz),
    decay_s: told.map(({ t20_s }) => Math.round(1000 * /** @type {number} */ (t20_s)) / 1000),
  };
}

/** What was read, in a sentence. @param {Reading} reading @returns {string} */
export function readingInWords({ octaves, channels, sample_rate_hz, duration_s }) {
  const told = octaves.filter(({ t20_s }) => t20_s !== null).length;
  const form = `${duration_s.toFixed(1)} s, ${channels === 1 ? "one channel" : "two channels"}, ${sample_rate_hz} samples a second`;
  if (told === octaves.length) return `Read in every octave (${form}).`;
  return `Decay read in ${told} of ${octaves.length} octaves (${form}). Where a figure is missing, the table says why.`;
}
