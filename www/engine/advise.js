// The page's side of advice: its tasks, handed to as many workers as there are cores, at most four. What they find does not
// depend on how many they are.

/**
 * @import { About, Told } from "../model/advice_types.js"
 * @import { Scenario } from "../model/types.js"
 * @typedef {{serial: number, document: Scenario|null, plan: number, task: number}} AdviceErrand  no document: stop
 * @typedef {{serial: number, task: number, about?: About, progress?: number, soFar?: any, found?: any, failed?: boolean}} AdviceReply
 * @typedef {object} AdvicePort  A worker, as far as it is used here.
 * @property {(errand: AdviceErrand) => void} postMessage
 * @property {((event: {data: AdviceReply}) => void)|null} onmessage
 * @property {((event: any) => void)|null} onerror
 * @property {() => void} terminate
 */

const MOST_WORKERS = 4;

/** How many workers for so many cores. @param {number|undefined} cores @returns {number} */
export function workersFor(cores) {
  return Math.min(MOST_WORKERS, Math.max(1, cores ?? 2));
}

/**
 * @param {() => AdvicePort} spawn
 * @param {number} count  workers
 * @param {(document: Scenario, told: Told) => void} tell
 */
export function createAdvisers(spawn, count, tell) {
  let serial = 0;
  /** @type {AdvicePort[]} */
  let workers = [];
  /** @type {{document: Scenario, plan: number, next: number, over: number, most: number, about: About|null}|null} */
  let asked = null;

  /** @param {AdvicePort} worker @param {AdviceReply} reply */
  function take(worker, reply) {
    if (!asked || reply.serial !== serial) return;
    const { document } = asked;
    if (reply.about && !asked.about) {
      asked.about = reply.about;
      tell(document, { about: reply.about });
    }
    if (reply.failed) return fail();
    if (reply.soFar) tell(document, { task: reply.task, found: reply.soFar, whole: false });
    if (reply.progress !== undefined) tell(document, { task: reply.task, progress: reply.progress });
    if (!reply.found) return;
    tell(document, { task: reply.task, found: reply.found, whole: true });
    asked.over += 1;
    handOut(worker);
    if (asked.about && asked.over === Math.min(asked.most, asked.about.tasks.length)) tell(document, { status: "done" });
  }
  /** @param {AdvicePort} worker */
  function handOut(worker) {
    if (!asked || asked.next >= Math.min(asked.most, asked.about?.tasks.length ?? Infinity)) return;
    worker.postMessage({ serial, document: asked.document, plan: asked.plan, task: asked.next });
    asked.next += 1;
  }
  function fail() {
    const document = asked?.document;
    end();
    if (document) tell(document, { status: "failed" });
  }
  function end() {
    for (const worker of workers) {
      worker.onmessage = worker.onerror = null;
      worker.terminate();
    }
    workers = [];
    asked = null;
  }
  function start() {
    const worker = spawn();
    worker.onmessage = ({ data }) => take(worker, data);
    worker.onerror = fail;
    return worker;
  }
  return {
    /** @param {Scenario} document @param {number} plan @param {number} [most] of its first tasks */
    ask(document, plan, most = Infinity) {
      serial += 1;
      asked = { document, plan, next: 0, over: 0, most, about: null };
      while (workers.length < count) workers.push(start());
      for (const worker of workers) handOut(worker);
    },
    /** What cannot be cut ends with its worker. */
    cancel: end,
  };
}
