// A server of the built page that can go over to a next version of it, whole or in part.
import { createHash } from "node:crypto";
import { createServer } from "node:http";

/**
 * @typedef {(path: string, text: string) => string} Change  of the text of a file, by its path from the page
 * @typedef {{address: string, change: (next: Change) => void, close: () => Promise<unknown>}} Deployment
 */

/** @param {string} baseURL where the built page is served @returns {Promise<Deployment>} */
export async function deployment(baseURL) {
  /** @type {Change} */
  let change = (_path, text) => text;
  const server = createServer(async (request, response) => {
    const path = (request.url ?? "/").slice(1).split("?")[0];
    const answer = await fetch(new URL(path, baseURL));
    const type = answer.headers.get("content-type") ?? "";
    const isText = /javascript|html/.test(type);
    const body = isText ? change(path, await answer.text()) : Buffer.from(await answer.arrayBuffer());
    response.writeHead(answer.status, { "Content-Type": type, "Cache-Control": "no-store" }).end(body);
  });
  await new Promise((resolve) => server.listen(0, "127.0.0.1", () => resolve(null)));
  const { port } = /** @type {import("node:net").AddressInfo} */ (server.address());
  return {
    address: `http://127.0.0.1:${port}/`,
    change: (next) => { change = next; },
    close: () => new Promise((resolve) => {
      server.closeAllConnections();
      server.close(resolve);
    }),
  };
}

/** As the service worker states it. @param {string} text @returns {string} */
export function digestOf(text) {
  return createHash("sha256").update(text).digest("hex");
}

/**
 * The service worker of a next version, which knows another content of index.html.
 * @param {string} worker @param {string} name of the version @param {string} digest of its index.html @returns {string}
 */
export function nextWorker(worker, name, digest) {
  return worker.replace(/const VERSION = "\w+"/, `const VERSION = "${name}"`).replace(/\["index\.html","\w+"\]/, `["index.html","${digest}"]`);
}
