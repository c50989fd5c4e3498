// The core on the page: what follows a drag, computed within the frame.

/**
 * @import { Answer, Finding, KindInfo, Library, Plan, PlanReport, Scenario } from "../model/types.js"
 *
 * @typedef {object} CoreSession  The core's session, as far as it is used here.
 * @property {() => Library} library
 * @property {(document: unknown) => {findings: Finding[], newer: boolean}} open  keeps the document if nothing is wrong with it
 * @property {(planIndex: number, pieceIndex: number, piece: unknown) => {findings: Finding[]}} move_piece  another piece in its
 *   place in the document that is open; answers as open
 * @property {(planIndex: number) => PlanReport} predict  a plan of the document that is open
 * @property {(planIndex: number) => PlanReport} follow   as predict, without what nobody reads while something is dragged
 * @property {() => KindInfo[]} kit
 *
 * @typedef {object} Engine
 * @property {Library} library
 * @property {(document: unknown) => {findings: Finding[], newer: boolean}} check  never throws
 * @property {(document: Scenario, shown: number, compared?: number|null, moving?: boolean) => Answer|null} answer
 *   null if something is wrong with the document; moving: without what nobody reads while something is dragged
 */
import { sameGround, sameRoom } from "../model/late.js";
import { onlyPieceMoved } from "../model/one_moved.js";
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
  /** @type {{document: Scenario, plan: Plan, report: PlanReport}|null} */
  let base = null;
  /** @param {unknown} document @returns {{findings: Finding[], newer: boolean}} */
  function check(document) {
    opened = null;
    try {
      return session.open(document);
    } catch (error) {
      return { findings: [asFinding(error)], newer: false };
    }
  }
  /** Whether the session came to hold a document by one piece of what it held before. @param {Scenario} document @param {number} plan @returns {boolean} */
  function reopens(document, plan) {
    const moved = opened && onlyPieceMoved(opened, document, plan);
    if (moved === null) return false;
    opened = null;
    return session.move_piece(plan, moved, document.plans[plan].pieces[moved]).findings.length === 0;
  }
  /** The plan to compare with; it changes seldom, so its report stays. @param {Scenario} document @param {number|null} plan @returns {PlanReport|null} */
  function reportOf(document, plan) {
    if (plan === null) return null;
    const known = base && base.plan === document.plans[plan] && sameGround(base.document, document);
    if (!known) base = { document, plan: document.plans[plan], report: session.predict(plan) };
    return base?.report ?? null;
  }
  /** @param {Scenario} document @param {number} shown @param {number|null} [compared] @param {boolean} [moving] @returns {Answer|null} */
  function answer(document, shown, compared = null, moving = false) {
    try {
      if (opened !== document && !reopens(document, shown) && check(document).findings.length > 0) return null;
      opened = document;
      if (!now || !sameRoom(now.document, document)) now = { document, report: session.predict(0), kit: session.kit() };
      const other = reportOf(document, compared);
      const inHand = shown === 0 ? now.report : moving ? session.follow(shown) : session.predict(shown);
      return { document, now: now.report, shown: inHand, plan: shown, compared, other, kit: now.kit, moving: moving && shown > 0 };
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
