// Steps on measured decays: each is one entry of the document, for a plan by its name.

/**
 * @import { AddMeasured, CheckupCame, RemoveMeasured, SetMeasured } from "./actions.js"
 * @import { Measured, State } from "./types.js"
 */
import { frequency, number } from "./format.js";
import { commit } from "./history.js";
import { DECAY, MOST } from "./limits.js";
import { problem } from "./plans.js";
import { planName } from "./words.js";

/**
 * What is wrong with an entry, as a sentence with field, value and limit; none if nothing is.
 * @param {State} state @param {Measured} entry @returns {string|null}
 */
export function measuredProblem({ document }, { plan, bands_hz, decay_s }) {
  if (!document.plans.some((one) => one.name === plan)) return `There is no plan called “${plan}”.`;
  if (decay_s.length === 0) return "A check-up needs one decay time at the least.";
  if (decay_s.length !== bands_hz.length || bands_hz.length > MOST.bands) return `A check-up has one time for each band, at most ${MOST.bands}.`;
  const wrong = decay_s.findIndex((time_s) => !(time_s >= DECAY.least_s && time_s <= DECAY.most_s));
  if (wrong >= 0) return `${frequency(bands_hz[wrong])}: ${number(decay_s[wrong], 2)} s is no decay time of a room; it must lie between ${DECAY.least_s} and ${DECAY.most_s} s. Nothing was changed.`;
  return null;
}

/** From low to high, as every row of bands in a document. @param {Measured} entry @returns {Measured} */
function inOrder({ plan, bands_hz, decay_s }) {
  const order = [...bands_hz.keys()].sort((a, b) => bands_hz[a] - bands_hz[b]);
  return { plan, bands_hz: order.map((index) => bands_hz[index]), decay_s: order.map((index) => decay_s[index]) };
}

/** @param {State} state @param {Measured[]} measured @param {string} label @param {string} text @param {number} now_ms @returns {State} */
function withMeasured(state, measured, label, text, now_ms) {
  const { measured: _, ...rest } = state.document;
  const document = measured.length > 0 ? { ...rest, measured } : rest;
  return commit(state, { label, document, notice: { text, tone: "note", undo: true } }, now_ms);
}

/** @param {State} state @param {AddMeasured} action @param {number} now_ms @returns {State} */
export function addMeasured(state, { entry }, now_ms) {
  const wrong = measuredProblem(state, entry);
  if (wrong) return problem(state, wrong);
  const known = state.document.measured ?? [];
  if (known.length >= MOST.measured) return problem(state, `A document holds at most ${MOST.measured} check-ups.`);
  const name = planName(entry.plan);
  return withMeasured(state, [...known, inOrder(entry)], `enter check-up of ${name}`, `Entered a check-up of ${name}.`, now_ms);
}

/** @param {State} state @param {SetMeasured} action @param {number} now_ms @returns {State} */
export function setMeasured(state, { index, entry }, now_ms) {
  const known = state.document.measured ?? [];
  if (!known[index]) return state;
  const wrong = measuredProblem(state, entry);
  if (wrong) return problem(state, wrong);
  const name = planName(entry.plan);
  const measured = known.map((one, place) => (place === index ? inOrder(entry) : one));
  return withMeasured(state, measured, `change check-up of ${name}`, `Changed the check-up of ${name}.`, now_ms);
}

/** @param {State} state @param {RemoveMeasured} action @param {number} now_ms @returns {State} */
export function removeMeasured(state, { index }, now_ms) {
  const known = state.document.measured ?? [];
  if (!known[index]) return state;
  const name = planName(known[index].plan);
  return withMeasured(state, known.filter((_, place) => place !== index), `remove check-up of ${name}`, `Removed the check-up of ${name}.`, now_ms);
}

/** Dropped if it is of a document that is no longer the state's own. @param {State} state @param {CheckupCame} action @returns {State} */
export function checkupCame(state, { document, plan, result }) {
  return document === state.document ? { ...state, checkup: { document, plan, result } } : state;
}
