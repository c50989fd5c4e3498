/**
 * The rooms that this browser keeps: the one on the sheet, which opens first next time, and others by an id of their own.
 * A room that was left is never written over; nothing of it goes anywhere else. A browser that keeps nothing is fine.
 *
 * @import { Finding, Home, Scenario, State } from "../model/types.js"
 * @typedef {(document: unknown) => {findings: Finding[], newer: boolean}} Check
 * @typedef {{title: string, findings: Finding[]}} Refusal
 * @typedef {{id: string, title: string, kept_ms: number}} KeptRoom
 */
import { fromText } from "../model/files.js";

const PREFIX = "seatward.";
/** The room that opens first, and which of the kept ones it is. */
const DRAFT_KEY = `${PREFIX}draft`;
const DRAFT_ID_KEY = `${PREFIX}draft-id`;
const ROOM_PREFIX = `${PREFIX}room.`;
/** A draft that this version cannot open. */
const ASIDE_KEY = `${PREFIX}draft-put-aside`;

/** Which kept room a room on the sheet is; undo brings back the same object, and so the same room. @type {WeakMap<Home, string>} */
const ids = new WeakMap();

/** What was on the sheet when everything was forgotten: it is kept again only once it changes. @type {Scenario|null} */
let forgotten = null;

/** @param {Home} home @returns {string} */
function idOf(home) {
  const id = ids.get(home) ?? crypto.randomUUID();
  ids.set(home, id);
  return id;
}

/** @template T @param {() => T} act @param {T} otherwise what to do without where the browser keeps nothing @returns {T} */
function kept(act, otherwise) {
  try {
    return act();
  } catch {
    return otherwise;
  }
}

/**
 * The draft of an earlier visit. One that cannot be opened is put aside under a key of its own, never written over.
 * @param {Check} check
 * @returns {{draft: Scenario|null, home: Home|null, refusal: Refusal|null}}
 */
export function keptDraft(check) {
  const text = kept(() => localStorage.getItem(DRAFT_KEY), null);
  if (text === null) return { draft: null, home: null, refusal: null };
  const read = opened(text, check);
  if ("document" in read) return { draft: read.document, home: homeOf(kept(() => localStorage.getItem(DRAFT_ID_KEY), null)), refusal: null };
  kept(() => localStorage.setItem(ASIDE_KEY, text), undefined);
  const title = "The room kept in this browser cannot be opened by this version. It is put aside here, untouched; this is the example.";
  return { draft: null, home: null, refusal: { title, findings: read.findings } };
}

/** @param {string} text @param {Check} check @returns {{document: Scenario}|{findings: Finding[]}} */
function opened(text, check) {
  const read = fromText(text);
  const checked = read.document ? check(read.document) : { findings: [], newer: true };
  return read.document && !checked.newer && checked.findings.length === 0 ? { document: read.document } : { findings: checked.findings };
}

/** @param {string|null} id @returns {Home} */
function homeOf(id) {
  const home = Object.freeze({});
  if (id) ids.set(home, id);
  return home;
}

/**
 * Keeps what is on the sheet; the example and what only visits are not the person's own.
 * @param {State} state @returns {boolean} false if the browser has no room left for it
 */
export function keepDraft(state) {
  const { document, home } = state;
  if (state.example || state.visiting || state.readOnly || document === forgotten) return true;
  const text = JSON.stringify(document);
  return kept(() => {
    localStorage.setItem(DRAFT_KEY, text);
    localStorage.setItem(DRAFT_ID_KEY, idOf(home));
    localStorage.setItem(ROOM_PREFIX + idOf(home), JSON.stringify({ title: document.title, kept_ms: Date.now(), text }));
    return true;
  }, false);
}

/** All rooms that are kept but the one on the sheet, the last one first. @param {State} state @returns {KeptRoom[]} */
export function otherRooms({ home }) {
  const here = ids.get(home);
  const keys = kept(() => Object.keys(localStorage), []).filter((key) => key.startsWith(ROOM_PREFIX) && key !== ROOM_PREFIX + here);
  return keys.flatMap((key) => {
    const room = readRoom(key);
    return room ? [{ id: key.slice(ROOM_PREFIX.length), title: room.title, kept_ms: room.kept_ms }] : [];
  }).sort((a, b) => b.kept_ms - a.kept_ms);
}

/** @param {string} key @returns {{title: string, kept_ms: number, text: string}|null} */
function readRoom(key) {
  return kept(() => {
    const { title, kept_ms, text } = JSON.parse(localStorage.getItem(key) ?? "null");
    return typeof title === "string" && typeof kept_ms === "number" && typeof text === "string" ? { title, kept_ms, text } : null;
  }, null);
}

/** @param {string} id @param {Check} check @returns {{document: Scenario, home: Home}|{findings: Finding[]}} */
export function openRoom(id, check) {
  const read = opened(readRoom(ROOM_PREFIX + id)?.text ?? "", check);
  return "document" in read ? { document: read.document, home: homeOf(id) } : read;
}

/** @param {string} id */
export function forgetRoom(id) {
  kept(() => localStorage.removeItem(ROOM_PREFIX + id), undefined);
}

/** Everything of this page; what is on the sheet stays there. @param {State} state */
export function forgetAll({ document }) {
  forgotten = document;
  kept(() => {
    for (const key of Object.keys(localStorage).filter((one) => one.startsWith(PREFIX))) localStorage.removeItem(key);
  }, undefined);
}
