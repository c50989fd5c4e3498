// The built core: fetched and compiled once, for the page and its workers alike. The only importer of the built module.

/** @import { Session } from "../pkg/seatward.js" */

import { beside } from "./beside.js";

/** The bindings, which load beside the core. */
const bindings = () => import("../pkg/seatward.js");

/** @returns {Promise<WebAssembly.Module>} rejects if it does not load or cannot run here */
export async function compileCore() {
  const [core] = await Promise.all([compile(), bindings()]);
  return core;
}

async function compile() {
  const response = await fetch(beside("pkg/seatward_bg.wasm"));
  if (!response.ok) throw new Error(`the core did not load (${response.status})`);
  // Compiling while it loads is refused under any other type.
  const streams = response.headers.get("Content-Type") === "application/wasm";
  return streams ? WebAssembly.compileStreaming(response) : WebAssembly.compile(await response.arrayBuffer());
}

/** An own instance of the compiled core, with nothing open. @param {WebAssembly.Module} core @returns {Promise<Session>} */
export async function newSession(core) {
  const { default: init, Session } = await bindings();
  await init({ module_or_path: core });
  return new Session();
}
