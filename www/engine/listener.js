// The page's side of the worker that renders what is heard and reads recordings: calls with answers, in the order asked.

/**
 * @import { Finding, Scenario } from "../model/types.js"
 * @import { HeardLevel } from "../model/listen.js"
 * @import { Reading } from "../model/recording.js"
 *
 * @typedef {object} ListenerClient
 * @property {(document: Scenario) => Promise<{findings: Finding[]}>} open
 * @property {(plan: number) => Promise<Float32Array<ArrayBuffer>>} response
 * @property {(plan: number, left: Float32Array, right: Float32Array) => Promise<HeardLevel>} level
 * @property {(sound: string) => Promise<Float32Array<ArrayBuffer>>} dry
 * @property {(left: Float32Array, right: Float32Array, sample_rate_hz: number) => Promise<Uint8Array<ArrayBuffer>>} wav
 * @property {(bytes: Uint8Array) => Promise<Reading>} read
 * @property {() => void} close
 */
import { beside } from "./beside.js";
import { compileWhole } from "./core.js";

/** @returns {ListenerClient} a worker is started by this; what it cannot do rejects with a sentence */
export function createListener() {
  const worker = new Worker(beside("engine/listen_worker.js"), { type: "module", name: "listen" });
  /** @type {Map<number, {resolve: (value: any) => void, reject: (error: Error) => void}>} */
  const waiting = new Map();
  let serial = 0;

  /** @param {string} words */
  function failAll(words) {
    for (const { reject } of waiting.values()) reject(new Error(words));
    waiting.clear();
  }
  worker.onmessage = ({ data: { id, result, problem } }) => {
    const asked = waiting.get(id);
    waiting.delete(id);
    if (problem) asked?.reject(new Error(problem));
    else asked?.resolve(result);
  };
  worker.onerror = () => failAll("The part of the page that renders sound could not run.");
  compileWhole().then((core) => worker.postMessage({ core }), () => failAll("The part of the page that renders sound did not load."));

  /** @param {string} call @param {unknown[]} values @returns {Promise<any>} */
  function ask(call, ...values) {
    return new Promise((resolve, reject) => {
      serial += 1;
      waiting.set(serial, { resolve, reject });
      worker.postMessage({ id: serial, call, values });
    });
  }
  return {
    open: (document) => ask("open", document),
    response: (plan) => ask("response", plan),
    level: (plan, left, right) => ask("level", plan, left, right),
    dry: (sound) => ask("dry", sound),
    wav: (left, right, sample_rate_hz) => ask("wav", left, right, sample_rate_hz),
    read: (bytes) => ask("read_recording", bytes),
    close: () => worker.terminate(),
  };
}
