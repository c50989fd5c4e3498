// The built core: a small module for the page, with what must answer within a frame, and a whole one for the workers. The only
// importer of the built modules.

/**
 * @import { Session } from "../pkg/seatward.js"
 * @import { Listener, Session as WholeSession } from "../pkg/seatward_later.js"
 */

import { beside } from "./beside.js";

/** The bindings of the page's module, which load beside it. */
const bindings = () => import("../pkg/seatward.js");

/** @returns {Promise<Session>} with nothing open; rejects if the module does not load or cannot run here */
export async function newSession() {
  const [core, { default: init, Session }] = await Promise.all([compile("seatward_bg.wasm"), bindings()]);
  await init({ module_or_path: core });
  return new Session();
}

/** The workers' module, compiled once for all of them. @returns {Promise<WebAssembly.Module>} */
export function compileWhole() {
  return compile("seatward_later_bg.wasm");
}

/** An own instance of the workers' module, with nothing open. @param {WebAssembly.Module} whole compiled @returns {Promise<WholeSession>} */
export async function newWholeSession(whole) {
  const { default: init, Session } = await import("../pkg/seatward_later.js");
  await init({ module_or_path: whole });
  return new Session();
}

/** What renders sound and reads recordings, with nothing open. @param {WebAssembly.Module} whole compiled @returns {Promise<Listener>} */
export async function newListener(whole) {
  const { default: init, Listener } = await import("../pkg/seatward_later.js");
  await init({ module_or_path: whole });
  return new Listener();
}

/** @param {string} name @returns {Promise<WebAssembly.Module>} */
async function compile(name) {
  const response = await fetch(beside(`pkg/${name}`));
  if (!response.ok) throw new Error(`the core did not load (${response.status})`);
  // Compiling while it loads is refused under any other type.
  const streams = response.headers.get("Content-Type") === "application/wasm";
  return streams ? WebAssembly.compileStreaming(response) : WebAssembly.compile(await response.arrayBuffer());
}
