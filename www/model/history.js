// Undo and redo: snapshots of the whole document, one named entry per completed step.

/**
 * @import { HistoryEntry, Notice, Scenario, State } from "./types.js"
 * @typedef {object} Step
 * @property {string} label             "move piece 2", as in "Undo: move piece 2"
 * @property {Scenario} document        after the step
 * @property {number} [shown]           the plan in hand after it
 * @property {number|null} [selected]
 * @property {number[]} [together]     selected beside it; without it, they stay if none came or went
 * @property {Notice|null} [notice]
 * @property {string} [mergeKey]        steps of one key are one entry while they follow closely
 * @property {boolean} [gesture]        they are one entry however long it rests
 */
import { withoutUnusedVariants } from "./kinds.js";
import { HISTORY_STEPS, MERGE_REST_MS } from "./limits.js";
import { group } from "./sheet.js";

/**
 * The state after a step. A step that changes nothing leaves the history alone.
 * @param {State} state @param {Step} step @param {number} now_ms @returns {State}
 */
export function commit(state, step, now_ms) {
  const { notice = null, shown = state.shown, selected = state.selected } = step;
  if (step.document === state.document) return { ...state, notice, shown, selected };
  const document = withoutUnusedVariants(step.document);
  const past = merges(state, step, now_ms) ? refreshed(state.history.past, now_ms) : extended(state, step, now_ms);
  const spot = selected === null ? state.spot : null;
  const together = step.together ?? (isSameSelection(state, document, shown, selected) ? group(state).filter((one) => one !== selected) : []);
  return keepInside({ ...state, document, shown, selected, together, spot, notice, picked: null, example: false, history: { past, future: [] } });
}

/** Whether a piece of the selection is still the one selected, of a plan with as many pieces. @param {State} state @param {Scenario} document @param {number} shown @param {number|null} selected @returns {boolean} */
function isSameSelection(state, document, shown, selected) {
  return selected !== null && shown === state.shown && group(state).includes(selected)
    && document.plans[shown]?.pieces.length === state.document.plans[shown].pieces.length;
}

/** @param {State} state @param {Step} step @param {number} now_ms @returns {boolean} */
function merges(state, { mergeKey, gesture }, now_ms) {
  const last = state.history.past.at(-1);
  if (!mergeKey || !last || last.mergeKey !== mergeKey || state.history.future.length > 0) return false;
  return gesture === true || now_ms - last.at_ms < MERGE_REST_MS;
}

/** @param {HistoryEntry[]} past @param {number} now_ms @returns {HistoryEntry[]} */
function refreshed(past, now_ms) {
  return past.map((entry, index) => (index === past.length - 1 ? { ...entry, at_ms: now_ms } : entry));
}

/** Whose document is on the sheet: it comes back with the document, or a visit would end as the reader's own. @param {State} state @returns {HistoryEntry["whose"]} */
function whose({ visiting, readOnly, example, home }) {
  return { visiting, readOnly, example, home };
}

/** @param {State} state @param {Step} step @param {number} now_ms @returns {HistoryEntry[]} */
function extended(state, step, now_ms) {
  const entry = { label: step.label, document: state.document, shown: state.shown, mergeKey: step.mergeKey ?? null, at_ms: now_ms, whose: whose(state) };
  return [...state.history.past, entry].slice(-HISTORY_STEPS);
}

/** One step back. @param {State} state @returns {State} */
export function undo(state) {
  const last = state.history.past.at(-1);
  if (!last) return { ...state, notice: { text: "Nothing to undo.", tone: "note" } };
  const past = state.history.past.slice(0, -1);
  // A document of a newer version cannot be edited, so there is nothing of it to redo.
  const future = state.readOnly ? [] : [{ ...last, document: state.document, shown: state.shown, whose: whose(state) }, ...state.history.future];
  return restored(state, last, { past, future }, `Undone: ${last.label}.`);
}

/** One step forward again. @param {State} state @returns {State} */
export function redo(state) {
  const [next, ...future] = state.history.future;
  if (!next) return { ...state, notice: { text: "Nothing to redo.", tone: "note" } };
  const past = [...state.history.past, { ...next, document: state.document, shown: state.shown, whose: whose(state) }];
  return restored(state, next, { past, future }, `Redone: ${next.label}.`);
}

/** @param {State} state @param {HistoryEntry} entry @param {State["history"]} history @param {string} text @returns {State} */
function restored(state, entry, history, text) {
  return keepInside({
    ...state, document: entry.document, shown: entry.shown, together: [], ...entry.whose, history, picked: null,
    notice: { text, tone: "note" },
  });
}

/** Plans and selection that exist. @param {State} state @returns {State} */
export function keepInside(state) {
  const shown = Math.min(Math.max(0, state.shown), state.document.plans.length - 1);
  const count = state.document.plans[shown].pieces.length;
  const selected = state.selected !== null && state.selected < count ? state.selected : null;
  const together = selected === null ? [] : state.together.filter((one) => one < count && one !== selected);
  const compared = state.compared !== null && state.compared !== shown && state.document.plans[state.compared] ? state.compared : null;
  const same = shown === state.shown && selected === state.selected && together.length === state.together.length && compared === state.compared;
  return same ? state : { ...state, shown, selected, together, compared };
}
