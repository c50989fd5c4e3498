/**
 * What reaches outside of the page: the address bar, the clipboard, files, the demo rooms, the rooms that this
 * browser keeps. A document that comes in is checked by the core before anything else sees it.
 *
 * @import { Finding, Scenario, State } from "../model/types.js"
 * @import { Refusal } from "./kept.js"
 * @import { Dispatch } from "../model/actions.js"
 * @import { Unpacked } from "../model/files.js"
 *
 * @typedef {object} Port
 * @property {Dispatch} dispatch
 * @property {() => State} getState
 * @property {(document: unknown) => {findings: Finding[], newer: boolean}} check
 * @property {(refusal: Refusal|null) => void} refuse  shows what is wrong with a document that stays outside
 */
import { fileName, pack, readFile, toText, unpack } from "../model/files.js";
import { forgetAll, forgetRoom, keepDraft, openRoom, otherRooms } from "./kept.js";

/** @param {Port} port */
export function createOutside(port) {
  /** The fragment of a link that could not be opened: it stays in the address bar as it came. */
  const refused = { fragment: "" };
  return {
    copyLink: () => copyLink(port),
    copyText: (/** @type {string} */ text, /** @type {string} */ what) => copyText(port, text, what),
    saveText,
    saveFile: () => saveText(toText(port.getState().document), fileName(port.getState().document), "application/json"),
    openFile: (/** @type {File} */ file) => openFile(port, file),
    openExample: (/** @type {string} */ name) => openExample(port, name),
    openLink: (/** @type {string} */ fragment) => openLink(port, fragment, refused),
    followAddress: () => followAddress(port, refused.fragment),
    forgetDraft: () => forgetDraft(port),
    rooms: () => otherRooms(port.getState()),
    openRoom: (/** @type {string} */ id) => openKept(port, id),
    forgetRoom,
  };
}

/** @param {Port} port */
async function copyLink(port) {
  const { document, shown } = port.getState();
  const fragment = await pack(document, shown);
  history.replaceState(null, "", `#${fragment}`);
  try {
    await navigator.clipboard.writeText(location.href);
    note(port, `Link copied, ${location.href.length} characters. Anyone who has it sees this room.`);
  } catch {
    note(port, "The link is in the address bar now; this browser did not let the page copy it.");
  }
}

/**
 * @param {Port} port
 * @param {string} text
 */
function note(port, text) {
  port.dispatch({ type: "notify", notice: { text, tone: "note" } });
}

/**
 * @param {Port} port
 * @param {string} text
 * @param {string} what
 */
async function copyText(port, text, what) {
  try {
    await navigator.clipboard.writeText(text);
    note(port, `${what} is copied.`);
  } catch {
    note(port, `This browser did not let the page copy it. ${what} can be selected and copied by hand.`);
  }
}

/**
 * @param {string} text
 * @param {string} name
 * @param {string} type
 */
function saveText(text, name, type) {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([text], { type }));
  link.download = name;
  link.click();
  URL.revokeObjectURL(link.href);
}

/**
 * @param {Port} port
 * @param {File} file
 */
async function openFile(port, file) {
  take(port, await readFile(file), "file", "");
}

/**
 * @param {Port} port
 * @param {string} name
 */
async function openExample(port, name) {
  const document = await fetchExample(name);
  if (document) take(port, { document }, "example", "");
}

/**
 * One of the demo rooms that lie beside the page.
 * @param {string} name
 * @returns {Promise<Scenario|null>}
 */
export async function fetchExample(name) {
  const answer = await fetch(new URL(`scenarios/${name}.json`, document.baseURI));
  return answer.ok ? answer.json() : null;
}

/**
 * A link in the address bar keeps up with the document, so that a reload shows what was seen last.
 * @param {Port} port
 * @param {string} refused  the fragment of a link that could not be opened, which is left alone
 */
async function followAddress(port, refused) {
  const { document, shown, visiting, readOnly } = port.getState();
  if (location.hash.length < 2 || location.hash === refused || visiting || readOnly) return;
  history.replaceState(null, "", `#${await pack(document, shown)}`);
}

/**
 * A link to what is on the sheet already changes nothing but the plan that is shown.
 * @param {Port} port
 * @param {string} fragment
 * @param {{fragment: string}} refused
 */
async function openLink(port, fragment, refused) {
  const unpacked = await unpack(fragment);
  if (unpacked.document && toText(unpacked.document) === toText(port.getState().document)) return showPlan(port, unpacked.shown);
  const taken = take(port, unpacked, "link", `${location.href.split("#")[0]}#${fragment.replace(/^#/, "")}`);
  refused.fragment = taken ? "" : location.hash;
}

/** @param {Port} port @param {number} [index] */
function showPlan({ dispatch, getState }, index = getState().shown) {
  if (index !== getState().shown && getState().document.plans[index]) dispatch({ type: "show-plan", index });
}

/**
 * @param {Port} port
 * @param {Unpacked} unpacked
 * @param {"link"|"file"|"example"} from
 * @param {string} link
 * @returns {boolean} whether it was opened
 */
function take(port, unpacked, from, link) {
  if (unpacked.problem) {
    port.refuse({ title: `${unpacked.problem.message} Your own room is untouched.`, findings: [] });
    return false;
  }
  const { findings, newer } = port.check(unpacked.document);
  if (findings.length > 0) {
    port.refuse({ title: `This ${from === "link" ? "link" : "file"} cannot be opened as it is. Your own room is untouched.`, findings });
    return false;
  }
  port.refuse(null);
  const document = /** @type {Scenario} */ (unpacked.document);
  port.dispatch(newer ? { type: "open-newer", document, link } : { type: "open-document", document, shown: unpacked.shown, from, link });
  return true;
}

/**
 * One of the rooms that this browser keeps; the one on the sheet is kept first.
 * @param {Port} port
 * @param {string} id
 */
function openKept(port, id) {
  keepDraft(port.getState());
  const read = openRoom(id, port.check);
  if ("findings" in read) port.refuse({ title: "This kept room cannot be opened by this version. It stays kept.", findings: read.findings });
  else port.dispatch({ type: "open-document", document: read.document, from: "room", home: read.home });
}

/** @param {Port} port */
function forgetDraft(port) {
  forgetAll(port.getState());
  note(port, "Forgotten: nothing is kept in this browser now. The next change keeps a draft again.");
}
