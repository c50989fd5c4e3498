// The worker's side of advice: one task at a time, in slices short enough that a newer question soon takes its place.

/**
 * @import { About } from "../model/advice_types.js"
 * @import { Finding } from "../model/types.js"
 * @import { AdviceErrand, AdviceReply } from "./advise.js"
 *
 * @typedef {object} CoreAdvice  The core's advice, as far as it is used here.
 * @property {() => About} about
 * @property {(kit: string|null) => void} cover_with  null: what does most on each surface
 * @property {(task: number) => void} start
 * @property {(steps: number) => {found: any, so_far: any, progress: number}} more
 * @property {() => void} free
 * @typedef {{open: (document: unknown) => {findings: Finding[]}, advise: (plan: number) => CoreAdvice}} AdviceSession
 */
import { nextSlice } from "./jobs.js";

/**
 * @param {AdviceSession} session
 * @param {{post: (reply: AdviceReply) => void, now: () => number, rest: () => Promise<void>}} around
 * @returns {(errand: AdviceErrand) => Promise<void>}
 */
export function createAdviceRunner(session, { post, now, rest }) {
  let newest = 0;
  /** @type {{serial: number, advice: CoreAdvice}|null} */
  let open = null;

  /** @param {AdviceErrand} errand @returns {CoreAdvice} */
  function opened({ serial, document, plan }) {
    if (open?.serial === serial) return open.advice;
    open?.advice.free();
    open = null;
    if (session.open(document).findings.length > 0) throw new Error("the document does not open");
    open = { serial, advice: session.advise(plan) };
    return open.advice;
  }
  /** @param {CoreAdvice} advice @param {AdviceErrand} errand */
  async function work(advice, { serial, task, kit }) {
    advice.cover_with(kit);
    advice.start(task);
    for (let steps = 1; serial === newest;) {
      const started_ms = now();
      const { found, so_far, progress } = advice.more(steps);
      if (found) return post({ serial, task, found });
      post({ serial, task, progress, ...(so_far && { soFar: so_far }) });
      steps = nextSlice(steps, now() - started_ms);
      await rest();
    }
  }
  return async (errand) => {
    newest = errand.serial;
    await rest();
    if (errand.serial !== newest || !errand.document) return;
    try {
      const advice = opened(errand);
      post({ serial: errand.serial, task: errand.task, about: advice.about(), progress: 0 });
      await work(advice, errand);
    } catch {
      post({ serial: errand.serial, task: errand.task, failed: true });
    }
  };
}
