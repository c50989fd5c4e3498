// How much each thing in the room absorbs, by octave, the greatest first.

/**
 * @import { Absorber_m2, PlanReport } from "./types.js"
 * @typedef {{what: Absorber_m2["what"], name: string, area_m2: number[], thirds_m2: number[], middle_m2: number, before_m2: number[]|null}} AbsorberRow
 *   eight octaves, and the 24 bands that they are the means of; `before_m2` today, null of what is not there today
 */
import { middleMean, octaveMeans } from "./shares.js";

/**
 * Things of one name and sort stand in one row.
 * @param {PlanReport} shown @param {PlanReport} now @returns {AbsorberRow[]}
 */
export function absorberRows(shown, now) {
  const before = merged(now.absorbers ?? []);
  const rows = [...merged(shown.absorbers ?? [])].map(([key, { what, name, area_m2 }]) => {
    const known = before.get(key);
    return { what, name, area_m2: octaveMeans(area_m2), thirds_m2: Array.from(area_m2), middle_m2: middleMean(area_m2), before_m2: known ? octaveMeans(known.area_m2) : null };
  });
  return rows.sort((a, b) => b.middle_m2 - a.middle_m2);
}

/** @param {Absorber_m2[]} absorbers @returns {Map<string, Absorber_m2>} */
function merged(absorbers) {
  /** @type {Map<string, Absorber_m2>} */
  const sums = new Map();
  for (const one of absorbers) {
    const key = `${one.what} ${one.name}`;
    const sum = sums.get(key);
    sums.set(key, sum ? { ...one, area_m2: sum.area_m2.map((area, band) => area + one.area_m2[band]) } : one);
  }
  return sums;
}

/** What all of them come to, by band. @param {AbsorberRow[]} rows @returns {number[]} */
export function totalArea(rows) {
  return rows.reduce((sum, row) => sum.map((area, band) => area + row.thirds_m2[band]), new Array(24).fill(0));
}
