// A worker with its own instance of the core. Its name says which job it does.

/** @import { Errand, Help, Reply } from "./errands.js" */
import { newWholeSession } from "./core.js";
import { createAdviceRunner } from "./advice_job.js";
import { bass, checkup, createRunner, draws, ranges } from "./jobs.js";

/** A worker's own global, which the types of a page do not have. */
const scope = /** @type {{name: string, onmessage: ((event: {data: WebAssembly.Module|Errand|{serial: number, plan: number, help: Help}}) => void)|null, postMessage: (reply: Reply) => void}} */ (
  /** @type {unknown} */ (self));
const channel = new MessageChannel();
/** @type {(() => void)[]} */
const resting = [];
channel.port1.onmessage = () => resting.shift()?.();

/** Messages that wait are handled before this is over; unlike a timer it costs no minimum time. @returns {Promise<void>} */
function rest() {
  return new Promise((resolve) => {
    resting.push(resolve);
    channel.port2.postMessage(null);
  });
}

/** @type {Readonly<Record<string, import("./jobs.js").Job>>} */
const JOBS = Object.freeze({ ranges, draws, bass, checkup });

/** @param {WebAssembly.Module} core compiled */
async function start(core) {
  const session = /** @type {any} */ (await newWholeSession(core));
  const around = { post: (/** @type {any} */ reply) => scope.postMessage(reply), now: () => performance.now(), rest };
  /** @type {(errand: any) => Promise<void>} */
  const run = scope.name === "advice" ? createAdviceRunner(session, around) : createRunner(JOBS[scope.name] ?? ranges, session, around);
  return run;
}

/** @type {(core: WebAssembly.Module) => void} */
let came;
const started = new Promise((/** @type {(core: WebAssembly.Module) => void} */ resolve) => { came = resolve; }).then(start);
// Only what is thrown outside of a promise reaches the page as the worker's error.
started.catch((error) => setTimeout(() => { throw error; }));

// The page compiles the core and sends it, perhaps after the first errands.
scope.onmessage = ({ data }) => {
  if (data instanceof WebAssembly.Module) came(data);
  else started.then((run) => run(data), () => {});
};
