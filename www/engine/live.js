// The core on the page: what follows a drag, computed within the frame.

/**
 * @import { Answer, Finding, KindInfo, Library, PlanReport, Scenario } from "../model/types.js"
 *
 * @typedef {object} CoreSession  The core's session, as far as it is used here.
 * @property {() => Library} library
 * @property {(document: unknown) => {findings: Finding[], newer: boolean}} open  keeps the document if nothing is wrong with it
 * @property {(planIndex: number) => PlanReport} predict  a plan of the document that is open
 * @property {() => KindInfo[]} kit
 *
 * @typedef {object} Engine
 * @property {Library} library
 * @property {(document: unknown) => {findings: Finding[], newer: boolean}} check  never throws
 * @property {(document: Scenario, shown: number) => Answer|null} answer  null if something is wrong with the document
 */
import { sameRoom } from "../model/late.js";
import { newSession } from "./core.js";

/** @returns {Promise<Engine>} */
export async function createEngine() {
  return engineOver(await newSession());
}

/**
 * An engine over a session. The report of the room as it is stays while what it rests on is the same.
 * @param {CoreSession} session @returns {Engine}
 */
export function engineOver(session) {
  /** @type {Scenario|null} */
  let opened = null;
  /** @type {{document: Scenario, report: PlanReport, kit: KindInfo[]}|null} */
  let now = null;
  /** @param {unknown} document @returns {{findings: Finding[], newer: boolean}} */
  function check(document) {
    opened = null;
    try {
      return session.open(document);
    } catch (error) {
      return { findings: [asFinding(error)], newer: false };
    }
  }
  /** @param {Scenario} document @param {number} shown @returns {Answer|null} */
  function answer(document, shown) {
    try {
      if (opened !== document && check(document).findings.length > 0) return null;
      opened = document;
      if (!now || !sameRoom(now.document, document)) now = { document, report: session.predict(0), kit: session.kit() };
      return { document, now: now.report, shown: shown === 0 ? now.report : session.predict(shown), plan: shown, kit: now.kit };
    } catch {
      opened = null;
      return null;
    }
  }
  return { library: session.library(), check, answer };
}

/** @param {unknown} error @returns {Finding} */
function asFinding(error) {
  const message = error instanceof Error ? error.message : String(error);
  return { path: "", code: "unreadable", message: `This could not be read: ${message}.` };
}
