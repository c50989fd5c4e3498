// The page's side of advice: its tasks, handed to as many workers as there are cores, at most four. What they find does not
// depend on how many they are.

/**
 * @import { About, Told } from "../model/advice_types.js"
 * @import { Scenario } from "../model/types.js"
 * @typedef {{serial: number, document: Scenario|null, plan: number, task: number, kit: string|null}} AdviceErrand
 *   no document: stop; no kit: surfaces with what does most on each
 * @typedef {{serial: number, task: number, about?: About, progress?: number, soFar?: any, found?: any, failed?: boolean}} AdviceReply
 * @typedef {object} AdvicePort  A worker, as far as it is used here.
 * @property {(errand: AdviceErrand) => void} postMessage
 * @property {((event: {data: AdviceReply}) => void)|null} onmessage
 * @property {((event: any) => void)|null} onerror
 * @property {() => void} terminate
 */
import { isOfKind } from "../model/advising.js";

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
  /** @type {{document: Scenario, plan: number, kit: string|null, next: number, again: number[], most: number, about: About|null}|null} */
  let asked = null;
  /** What each worker that is not idle does. @type {Map<AdvicePort, AdviceErrand>} */
  const doing = new Map();

  /** Whether what a worker does is a surface with a kind that is not asked for any more. @param {AdvicePort} worker @returns {boolean} */
  function isOutdated(worker) {
    const errand = doing.get(worker);
    return !!asked && !!errand && errand.kit !== asked.kit && isOfKind(asked.about?.tasks[errand.task]);
  }

  /** @param {AdvicePort} worker @param {AdviceReply} reply */
  function take(worker, reply) {
    if (!asked || reply.serial !== serial) return;
    const { document } = asked;
    if (reply.about && !asked.about) {
      asked.about = reply.about;
      tell(document, { about: reply.about });
    }
    if (reply.failed) return fail();
    if (isOutdated(worker)) {
      if (reply.found) goOn(worker);
      return;
    }
    if (reply.soFar) tell(document, { task: reply.task, found: reply.soFar, whole: false });
    if (reply.progress !== undefined) tell(document, { task: reply.task, progress: reply.progress });
    if (!reply.found) return;
    tell(document, { task: reply.task, found: reply.found, whole: true });
    goOn(worker);
  }
  /** @param {AdvicePort} worker */
  function goOn(worker) {
    doing.delete(worker);
    handOut(worker);
    if (asked && doing.size === 0) tell(asked.document, { status: "done" });
  }
  /** @param {AdvicePort} worker */
  function handOut(worker) {
    if (!asked) return;
    const { document, plan, kit } = asked;
    const isOver = asked.next >= Math.min(asked.most, asked.about?.tasks.length ?? Infinity);
    const task = asked.again.shift() ?? (isOver ? null : asked.next++);
    if (task === null) return;
    const errand = { serial, document, plan, task, kit };
    doing.set(worker, errand);
    worker.postMessage(errand);
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
    doing.clear();
    asked = null;
  }
  function start() {
    const worker = spawn();
    worker.onmessage = ({ data }) => take(worker, data);
    worker.onerror = fail;
    return worker;
  }
  return {
    /** @param {Scenario} document @param {number} plan @param {number} [most] of its first tasks @param {string|null} [kit] to cover surfaces with */
    ask(document, plan, most = Infinity, kit = null) {
      serial += 1;
      asked = { document, plan, kit, next: 0, again: [], most, about: null };
      doing.clear();
      while (workers.length < count) workers.push(start());
      for (const worker of workers) handOut(worker);
    },
    /**
     * Surfaces anew with another kind, beside all else that was asked; false if there is nothing that this could be beside.
     * @param {Scenario} document @param {number} plan @param {string|null} kit
     * @returns {boolean}
     */
    cover(document, plan, kit) {
      if (!asked?.about || asked.document !== document || asked.plan !== plan) return false;
      const { tasks } = asked.about;
      asked.kit = kit;
      asked.again = tasks.flatMap((task, index) => (index < (asked?.next ?? 0) && isOfKind(task) ? index : []));
      for (const worker of workers.filter((one) => !doing.has(one))) handOut(worker);
      return true;
    },
    /** What cannot be cut ends with its worker. */
    cancel: end,
  };
}
