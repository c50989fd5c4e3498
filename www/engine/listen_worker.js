// A worker that renders what is heard and reads recordings, with its own instance of the workers' core.

/** @typedef {{core: WebAssembly.Module}|{id: number, call: "open"|"response"|"level"|"dry"|"wav"|"read_recording", values: any[]}} Message */
import { newListener } from "./core.js";

/** A worker's own global, which the types of a page do not have. */
const scope = /** @type {{onmessage: ((event: {data: Message}) => void)|null, postMessage: (reply: object, transfer?: ArrayBuffer[]) => void}} */ (
  /** @type {unknown} */ (self));

/** @type {(core: WebAssembly.Module) => void} */
let came;
const started = new Promise((/** @type {(core: WebAssembly.Module) => void} */ resolve) => { came = resolve; }).then(newListener);
// Only what is thrown outside of a promise reaches the page as the worker's error.
started.catch((error) => setTimeout(() => { throw error; }));

/** Bands of the noise that every response is made of. */
const BANDS = 24;
const rest = () => new Promise((go) => { setTimeout(go); });
// Made while nothing is asked for yet, so that the first response does not wait for all of it.
started.then(async (listener) => {
  for (let band = 0; band < BANDS; band += 1) {
    listener.make_noise(band);
    await rest();
  }
}, () => {});

scope.onmessage = ({ data }) => {
  if ("core" in data) came(data.core);
  else started.then((listener) => answer(listener, data), () => {});
};

/**
 * @param {import("../pkg/seatward_later.js").Listener} listener
 * @param {Exclude<Message, {core: WebAssembly.Module}>} asked
 */
function answer(listener, { id, call, values }) {
  try {
    const ask = /** @type {(...values: any[]) => any} */ (listener[call]);
    const result = ask.apply(listener, values);
    const series = result instanceof Float32Array || result instanceof Uint8Array;
    scope.postMessage({ id, result }, series ? [/** @type {ArrayBuffer} */ (result.buffer)] : []);
  } catch (error) {
    scope.postMessage({ id, problem: error instanceof Error ? error.message : "This could not be rendered." });
  }
}
