// Documents that come from outside, and the reader's own draft that must survive them.

/**
 * @import { OpenDocument, OpenNewer } from "./actions.js"
 * @import { Scenario, State } from "./types.js"
 */
import { commit } from "./history.js";

const LABEL = Object.freeze({ link: "open a link", file: "open a file", example: "open the example", room: "go to another room" });

/** Another room than any before. @returns {State["home"]} */
export function newHome() {
  return Object.freeze({});
}

/**
 * The state with the reader's own draft on the sheet: what a visit goes back to before anything replaces it.
 * @param {State} state @returns {State}
 */
export function atHome(state) {
  return state.visiting ? { ...state, document: state.visiting.draft, home: state.visiting.home, visiting: null, readOnly: null, example: false } : state;
}

/**
 * A link opened over a draft is a visit until the reader chooses. A file or the example is the reader's own choice already;
 * one undo brings the draft back in any case.
 * @param {State} state @param {OpenDocument} action @param {number} now_ms @returns {State}
 */
export function openDocument(state, { document, shown, from, link = "", home = newHome() }, now_ms) {
  const visiting = from === "link" ? visit(state, link) : null;
  const opened = shownAnew(from === "link" ? state : atHome(state), document, LABEL[from], now_ms, shown);
  return { ...opened, visiting, readOnly: null, example: from === "example", home };
}

/** @param {State} state @param {OpenNewer} action @param {number} now_ms @returns {State} */
export function openNewer(state, { document, link }, now_ms) {
  const opened = shownAnew(state, document, LABEL.link, now_ms);
  const text = "Made with a newer version: shown as far as it is understood, and not changed.";
  return { ...opened, visiting: visit(state, link), readOnly: { text, link }, home: newHome() };
}

/** The draft to come back to; the example on first run is nobody's. @param {State} state @param {string} link @returns {State["visiting"]} */
function visit(state, link) {
  if (state.visiting) return { ...state.visiting, link };
  return state.example ? null : { draft: state.document, home: state.home, link };
}

/** @param {State} state @param {Scenario} document @param {string} label @param {number} now_ms @param {number} [plan] @returns {State} */
function shownAnew(state, document, label, now_ms, plan = 1) {
  const shown = document.plans[plan] ? plan : Math.min(1, document.plans.length - 1);
  return commit({ ...state, compared: null }, { label, document, shown, selected: null, notice: null }, now_ms);
}

/** @param {State} state @param {unknown} _action @param {number} now_ms @returns {State} */
export function keepMine(state, _action, now_ms) {
  if (!state.visiting) return state;
  const back = shownAnew(state, state.visiting.draft, "go back to my room", now_ms);
  return { ...back, home: state.visiting.home, visiting: null, readOnly: null, notice: { text: "Your own room again.", tone: "note" } };
}

/** @param {State} state @returns {State} */
export function useThis(state) {
  if (!state.visiting || state.readOnly) return state;
  return { ...state, visiting: null, notice: { text: "This is your room now. Undo leads back to the other one.", tone: "note" } };
}
