// Keeps the page for use without a network. A version of the page is one cache: all of its files, each with the content that
// the build gave it, or none. A page always gets its modules from the version that it came from: a newer one takes over
// only when no page of the old one is open any more, and the files of a version lie in a folder that is named by their content.

/**
 * @typedef {Event & {waitUntil: (promise: Promise<unknown>) => void}} LifeEvent
 * @typedef {Event & {request: Request, respondWith: (answer: Promise<Response>) => void}} AskEvent
 * @typedef {Event & {data: unknown, waitUntil: (promise: Promise<unknown>) => void}} Message
 * @typedef {object} Scope  A worker's own global, which the types of a page do not have.
 * @property {{scope: string}} registration
 * @property {{claim: () => Promise<void>, matchAll: (options: {includeUncontrolled: boolean, type: string}) => Promise<unknown[]>}} clients
 * @property {() => Promise<void>} skipWaiting
 * @property {(type: string, listener: (event: any) => void) => void} addEventListener
 */
const scope = /** @type {Scope} */ (/** @type {unknown} */ (self));

/** Name of this version. The build writes it here. */
const VERSION = "";
/** Path and SHA-256 of every file of it. The build writes them here. @type {[path: string, digest: string][]} */
const FILES = [];

const PREFIX = "seatward ";
const CACHE = PREFIX + VERSION;

/** Where a file of the page lies. @param {string} path */
const address = (path) => new URL(path === "index.html" ? "./" : path, scope.registration.scope).href;

const known = new Set(FILES.map(([path]) => address(path)));

scope.addEventListener("install", (/** @type {LifeEvent} */ event) => event.waitUntil(fill()));
scope.addEventListener("activate", (/** @type {LifeEvent} */ event) => event.waitUntil(takeOver()));
scope.addEventListener("fetch", (/** @type {AskEvent} */ event) => {
  const wanted = wantedOf(event.request);
  if (event.request.method === "GET" && known.has(wanted)) event.respondWith(kept(wanted, event.request));
});
// The page asks for this once a person wants the newer version; with a second page open it would change that one's modules.
scope.addEventListener("message", (/** @type {Message} */ event) => {
  if (event.data === "take over") event.waitUntil(takeOverIfAlone());
});

/** Fetches every file past the browser's own store and checks it; a single wrong one leaves nothing behind. */
async function fill() {
  const cache = await caches.open(CACHE);
  try {
    await Promise.all(FILES.map(async ([path, digest]) => {
      const response = await fetch(address(path), { cache: "reload" });
      if (!response.ok || (await digestOf(response.clone())) !== digest) throw new Error(`${path} is not that of version ${VERSION}`);
      await cache.put(address(path), response);
    }));
  } catch (error) {
    await caches.delete(CACHE);
    throw error;
  }
}

/** @param {Response} response */
async function digestOf(response) {
  const digest = await crypto.subtle.digest("SHA-256", await response.arrayBuffer());
  return Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, "0")).join("");
}

/** No page of an older version is open now, so its cache goes. A page that is not kept yet is from now on. */
async function takeOver() {
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name.startsWith(PREFIX) && name !== CACHE).map((name) => caches.delete(name)));
  await scope.clients.claim();
}

async function takeOverIfAlone() {
  const pages = await scope.clients.matchAll({ includeUncontrolled: true, type: "window" });
  if (pages.length <= 1) await scope.skipWaiting();
}

/** The address that a request stands for: what follows "?" or "#" changes nothing, and index.html is the folder. @param {Request} request */
function wantedOf(request) {
  const { origin, pathname } = new URL(request.url);
  return `${origin}${pathname.replace(/\/index\.html$/, "/")}`;
}

/** @param {string} wanted @param {Request} request */
async function kept(wanted, request) {
  const cache = await caches.open(CACHE);
  return (await cache.match(wanted)) ?? fetch(request);
}
