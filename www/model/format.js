// Numbers to text with units: the only place that rounds what is shown. Reading typed lengths is in `lengths.js`.

/** @typedef {"metric"|"imperial"} Units */

/** Goes between a number and its unit: narrow, and never a line break. */
export const THIN = "\u202f";
const MINUS = "\u2212";
const DASH = "\u2013";
const METRES_PER_INCH = 0.0254;
const METRES_PER_FOOT = 0.3048;
const POUNDS_PER_KG = 2.2046226218;

/**
 * A plain number with a true minus; a value that rounds to zero has no sign.
 * @param {number} value @param {number} [decimals] @returns {string}
 */
export function number(value, decimals = 0) {
  const text = Math.abs(value).toFixed(decimals);
  return value < 0 && Number(text) !== 0 ? MINUS + text : text;
}

/** Thousands apart by a thin space: "1 300". @param {number} value @returns {string} */
export function count(value) {
  return number(value).replace(/\B(?=(\d{3})+$)/g, THIN);
}

/** A length: "1.30 m", or feet and inches to 1/8 inch: 4' 3 1/8". @param {number} value_m @param {Units} units @returns {string} */
export function length(value_m, units) {
  return units === "imperial" ? feetAndInches(value_m) : `${number(value_m, 2)}${THIN}m`;
}

/** @param {number} value_m @returns {string} */
function feetAndInches(value_m) {
  const eighths = Math.round(Math.abs(value_m) / METRES_PER_INCH * 8);
  const sign = value_m < 0 && eighths > 0 ? MINUS : "";
  const feet = Math.floor(eighths / 96);
  const inches = inchText(eighths - feet * 96);
  if (feet === 0) return `${sign}${inches}"`;
  return inches === "0" ? `${sign}${feet}'` : `${sign}${feet}' ${inches}"`;
}

/** Eighths of an inch, under a foot, as "7 1/2". @param {number} eighths @returns {string} */
function inchText(eighths) {
  const whole = Math.floor(eighths / 8);
  let above = eighths - whole * 8;
  let below = 8;
  while (above > 0 && above % 2 === 0) {
    above /= 2;
    below /= 2;
  }
  if (above === 0) return String(whole);
  return whole === 0 ? `${above}/${below}` : `${whole} ${above}/${below}`;
}

/** A thin length, such as a depth: "150 mm" or 5 7/8". @param {number} value_m @param {Units} units @returns {string} */
export function depth(value_m, units) {
  return units === "imperial" ? feetAndInches(value_m) : `${number(value_m * 1000)}${THIN}mm`;
}

/** Width by height: "0.60 × 1.20 m". @param {{width_m: number, height_m: number}} size @param {Units} units @returns {string} */
export function size(size, units) {
  if (units === "imperial") return `${feetAndInches(size.width_m)} × ${feetAndInches(size.height_m)}`;
  return `${number(size.width_m, 2)} × ${number(size.height_m, 2)}${THIN}m`;
}

/** An area: "7.2 m²" or "78 ft²". @param {number} value_m2 @param {Units} units @returns {string} */
export function area(value_m2, units) {
  return units === "imperial" ? `${count(value_m2 / METRES_PER_FOOT ** 2)}${THIN}ft²` : `${number(value_m2, 1)}${THIN}m²`;
}

/** A volume: "74.8 m³" or "2 642 ft³". @param {number} value_m3 @param {Units} units @returns {string} */
export function volume(value_m3, units) {
  return units === "imperial" ? `${count(value_m3 / METRES_PER_FOOT ** 3)}${THIN}ft³` : `${number(value_m3, 1)}${THIN}m³`;
}

/** A time: "0.45 s". @param {number} value_s @returns {string} */
export function seconds(value_s) {
  return `${number(value_s, 2)}${THIN}s`;
}

/** A range of times: "0.30–0.50 s". @param {number} low_s @param {number} high_s @returns {string} */
export function secondsRange(low_s, high_s) {
  return `${number(low_s, 2)}${DASH}${number(high_s, 2)}${THIN}s`;
}

/** A short time: "2.0 ms". @param {number} value_s @returns {string} */
export function milliseconds(value_s) {
  return `${number(value_s * 1000, 1)}${THIN}ms`;
}

/** A level: "−2 dB". @param {number} value_db @returns {string} */
export function decibels(value_db) {
  return `${number(value_db)}${THIN}dB`;
}

/** A frequency: "63 Hz", "1.25 kHz". @param {number} value_hz @returns {string} */
export function frequency(value_hz) {
  if (value_hz < 1000) return `${number(value_hz)}${THIN}Hz`;
  return `${String(Number((value_hz / 1000).toFixed(2)))}${THIN}kHz`;
}

/** A share of one as percent: "35 %". @param {number} share @returns {string} */
export function percent(share) {
  return `${number(share * 100)}${THIN}%`;
}

/** A weight: "5 kg" or "11 lb". @param {number} value_kg @param {Units} units @returns {string} */
export function mass(value_kg, units) {
  if (units === "imperial") return `${number(value_kg * POUNDS_PER_KG)}${THIN}lb`;
  return `${number(value_kg, value_kg < 10 && value_kg % 1 !== 0 ? 1 : 0)}${THIN}kg`;
}

/**
 * A sum of money with cents only where there are some, and the reader's own sign: a mark goes before it, letters after it.
 * @param {number} value @param {string} [sign] none: a bare number @returns {string}
 */
export function money(value, sign = "") {
  const text = Number.isInteger(value) ? count(value) : number(value, 2);
  if (sign === "") return text;
  return /^\p{L}|\p{L}$/u.test(sign) ? `${text}${THIN}${sign}` : `${sign}${text}`;
}
