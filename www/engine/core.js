// The built core: fetched and compiled once, for the page and its workers alike. The only importer of the built module.

/** @import { Session } from "../pkg/seatward.js" */

/** @returns {Promise<WebAssembly.Module>} rejects if it does not load or cannot run here */
export async function compileCore() {
  const response = await fetch(new URL("../pkg/seatward_bg.wasm", import.meta.url));
  if (!response.ok) throw new Error(`the core did not load (${response.status})`);
  // Compiling while it loads is refused under any other type.
  const streams = response.headers.get("Content-Type") === "application/wasm";
  return streams ? WebAssembly.compileStreaming(response) : WebAssembly.compile(await response.arrayBuffer());
}

/** An own instance of the compiled core, with nothing open. @param {WebAssembly.Module} module @returns {Promise<Session>} */
export async function newSession(module) {
  const core = await import("../pkg/seatward.js");
  await core.default({ module_or_path: module });
  return new core.Session();
}
