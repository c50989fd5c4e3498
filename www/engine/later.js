// When to ask the workers: for what is on the sheet, once it rests. Nothing while a pointer or a key holds something; at
// once after a drop; the bass only when the ranges are there, so that it never delays them.

/**
 * @import { Dispatch } from "../model/actions.js"
 * @import { Offers, Scenario, State } from "../model/types.js"
 * @import { WorkerPort } from "./errands.js"
 *
 * @typedef {"ranges"|"draws"|"bass"|"checkup"} LaterJob
 *
 * @typedef {object} LaterPort
 * @property {() => State} getState
 * @property {Dispatch} dispatch
 * @property {Offers} offers                              what the core can compute in a worker
 * @property {(job: LaterJob) => WorkerPort} spawn
 * @property {() => boolean} isHeld                       whether a pointer is down on the drawing
 * @property {(act: () => void, rest_ms: number) => number} wait
 * @property {(timer: number) => void} waitNoMore
 */
import { missingBass, missingRanges } from "../model/late.js";
import { beside } from "./beside.js";
import { createErrands } from "./errands.js";

/** Typed numbers and steps of keys rest this long before anything is asked, ms. */
const REST_MS = 60;

/** @param {LaterPort} port */
export function createLater({ getState, dispatch, offers, spawn, isHeld, wait, waitNoMore }) {
  /** @type {{document: Scenario, plan: number, compared: number|null, checkup: boolean}|null} */
  let wanted = null;
  let timer = 0;
  let wasHeld = false;

  const ranges = createErrands(() => spawn("ranges"), (document, plan, result) => {
    dispatch({ type: "ranges-came", document, plan, ranges: result });
    if (missingRanges(getState()).length === 0) askMore();
  });
  // A second worker makes the later draws; without it the first one makes them all.
  const draws = createErrands(() => spawn("draws"), (document, plan, result) => {
    if (result && result !== true) ranges.help(document, plan, result);
  });
  const bass = createErrands(() => spawn("bass"), (document, plan, result) => {
    dispatch({ type: "bass-came", document, plan, bass: result });
  }, { whole: true });

  const checkup = createErrands(() => spawn("checkup"), (document, plan, result) => {
    dispatch({ type: "checkup-came", document, plan, result });
  }, { whole: true });

  function ask() {
    const state = getState();
    const plans = offers.ranges ? missingRanges(state) : [];
    if (plans.length === 0) return askMore();
    ranges.ask(state.document, plans);
    if (offers.draws) draws.ask(state.document, plans);
  }
  function askMore() {
    askBass();
    const { document, shown, shows, checkup: last } = getState();
    if (offers.ranges && shows.checkup && (last?.document !== document || last.plan !== shown)) checkup.ask(document, [shown]);
  }
  function askBass() {
    const state = getState();
    const plans = offers.bass ? missingBass(state) : [];
    if (plans.length > 0) bass.ask(state.document, plans);
  }
  /** What was asked for before is not wanted any more. */
  function stop() {
    waitNoMore(timer);
    wanted = null;
    ranges.cancel();
    draws.cancel();
    bass.cancel();
    checkup.cancel();
  }

  return {
    /** After every change of the state, and when a pointer is lifted. */
    follow() {
      const { document, shown, compared, drag, shows } = getState();
      const isOpen = shows.checkup === true;
      if (drag || isHeld()) {
        wasHeld = true;
        if (wanted) stop();
        return;
      }
      if (wanted?.document === document && wanted.plan === shown && wanted.compared === compared && wanted.checkup === isOpen) return;
      stop();
      wanted = { document, plan: shown, compared, checkup: isOpen };
      // Not even a timer of 0 ms: the drawing of the drop would go before it.
      if (wasHeld) ask();
      else timer = wait(ask, REST_MS);
      wasHeld = false;
    },
  };
}

/**
 * Workers beside the page. Their module is fetched and compiled once for all, when the first of them is wanted.
 * @param {() => Promise<WebAssembly.Module>} compile
 * @returns {(job: LaterJob|"advice") => WorkerPort}
 */
export function workerSpawner(compile) {
  /** @type {Promise<WebAssembly.Module>|null} */
  let core = null;
  return (job) => {
    const worker = new Worker(beside("engine/worker.js"), { type: "module", name: job });
    core ??= compile();
    core.then((compiled) => worker.postMessage(compiled), () => {
      core = null;
      worker.dispatchEvent(new Event("error"));
    });
    return /** @type {WorkerPort} */ (/** @type {unknown} */ (worker));
  };
}
