// The next step after every change, by a worker of its own, once nothing has changed for a while. A change cancels it.

/**
 * @import { Dispatch } from "../model/actions.js"
 * @import { Told } from "../model/advice_types.js"
 * @import { Scenario, State } from "../model/types.js"
 *
 * @typedef {object} StepPort
 * @property {() => State} getState
 * @property {Dispatch} dispatch
 * @property {(tell: (document: Scenario, told: Told) => void) => {ask: (document: Scenario, plan: number, most: number) => void, cancel: () => void}} advisers
 * @property {(act: () => void, rest_ms: number) => number} wait
 * @property {(timer: number) => void} waitNoMore
 */
import { wantsStep } from "../model/live_step.js";

/** Nothing is asked before the sheet has rested so long, ms. */
const REST_MS = 1000;
/** The first task alone: the best plan, and the best order with it. */
const TASKS = 1;

/** @param {StepPort} port */
export function createLiveStep({ getState, dispatch, advisers, wait, waitNoMore }) {
  /** @type {{document: Scenario, plan: number}|null} */
  let wanted = null;
  let timer = 0;
  const worker = advisers((document, told) => dispatch({ type: "step-came", document, told }));

  function ask() {
    if (!wanted) return;
    dispatch({ type: "step-asked", plan: wanted.plan });
    worker.ask(wanted.document, wanted.plan, TASKS);
  }
  function stop() {
    if (!wanted) return;
    wanted = null;
    waitNoMore(timer);
    worker.cancel();
  }

  return {
    /** After every change of the state. */
    follow() {
      const state = getState();
      const { document, shown, drag } = state;
      if (drag || !wantsStep(state)) return stop();
      if (wanted?.document === document && wanted.plan === shown) return;
      stop();
      wanted = { document, plan: shown };
      timer = wait(ask, REST_MS);
    },
  };
}
