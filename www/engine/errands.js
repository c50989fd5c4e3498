// The page's side of a worker: the newest request wins, and what an older one brings is dropped.

/**
 * @import { Scenario } from "../model/types.js"
 * @typedef {{serial: number, document: Scenario|null, plans: number[]}} Errand  no document: nothing is wanted any more
 * @typedef {{serial: number, plan: number, result: any, part?: boolean}} Reply
 *   result null: it could not be computed; part: more of it follows
 * @typedef {{first: number, packed: Float64Array}} Help  draws that another worker made, from that number on
 *
 * @typedef {object} WorkerPort  A worker, as far as it is used here.
 * @property {(errand: Errand|{serial: number, plan: number, help: Help}) => void} postMessage
 * @property {((event: {data: Reply}) => void)|null} onmessage
 * @property {((event: any) => void)|null} onerror
 * @property {() => void} terminate
 *
 * @typedef {object} Errands
 * @property {(document: Scenario, plans: number[]) => void} ask  one reply for each plan, in this order
 * @property {(document: Scenario, plan: number, help: Help) => void} help  hands on what another worker did, if it is still wanted
 * @property {() => void} cancel
 */

/**
 * A worker is started by the first request.
 * @param {() => WorkerPort} spawn
 * @param {(document: Scenario, plan: number, result: any) => void} replied  result null: it could not be computed
 * @param {{whole?: boolean}} [work]  whole: it cannot be cut, so what is not wanted any more ends with its worker
 * @returns {Errands}
 */
export function createErrands(spawn, replied, { whole = false } = {}) {
  let serial = 0;
  /** @type {WorkerPort|null} */
  let worker = null;
  /** @type {Scenario|null} */
  let document = null;
  /** @type {number[]} */
  let awaited = [];

  /** @param {Reply} reply */
  function take(reply) {
    if (reply.serial !== serial || !document || !awaited.includes(reply.plan)) return;
    if (!reply.part) awaited = awaited.filter((plan) => plan !== reply.plan);
    replied(document, reply.plan, reply.result);
  }
  /** A worker that cannot run leaves nothing to wait for; the next request tries another one. */
  function fail() {
    end();
    for (const plan of awaited) take({ serial, plan, result: null });
  }
  function start() {
    worker = spawn();
    worker.onmessage = ({ data }) => take(data);
    worker.onerror = fail;
    return worker;
  }
  function end() {
    if (worker) worker.onmessage = worker.onerror = null;
    worker?.terminate();
    worker = null;
  }
  return {
    ask(next, plans) {
      serial += 1;
      document = next;
      awaited = [...plans];
      (worker ?? start()).postMessage({ serial, document: next, plans });
    },
    help(of, plan, help) {
      if (of === document && awaited.includes(plan)) worker?.postMessage({ serial, plan, help });
    },
    cancel() {
      if (awaited.length === 0) return;
      serial += 1;
      document = null;
      awaited = [];
      if (!whole) worker?.postMessage({ serial, document: null, plans: [] });
      else end();
    },
  };
}
