// `npm run lighthouse` audits the page that `cargo serve` is serving, without a network, beside a bare page of the same run:
// accessibility and best practices have to be whole, hardly anything may shift, and loading may cost few points more. Once as on
// a desk, once as on a phone with a quarter of the machine's speed.
import { createServer } from "node:http";
import { env, exit } from "node:process";
import { brotliCompressSync } from "node:zlib";
import { chromium } from "@playwright/test";
import lighthouse, { desktopConfig } from "lighthouse";
import { findChromium } from "./chromium.js";

/** @typedef {{accessibility: number, practices: number, performance: number, shift: number, faults: string[]}} Marks */

const BARS = Object.freeze({ accessibility: 100, practices: 100, shift: 0.05, below: 8 });
/** Fewer runs and a busy machine decides; the middle one of each figure counts. */
const RUNS = Number(env.SEATWARD_LIGHTHOUSE_RUNS ?? 3);

/** The least that a page can be. */
const BARE = `<!doctype html><html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="description" content="A bare page."><title>Bare</title></head><body><main><h1>A bare page</h1><p>With a paragraph.</p></main></body></html>`;

/** What the page is looked at with; nothing said is Lighthouse's phone. @type {Record<string, import("lighthouse").Config|undefined>} */
const FORMS = Object.freeze({ desk: desktopConfig, phone: undefined });

/** @typedef {{port: number, form: string}} Way */

/** @param {string} url @param {Way} way @returns {Promise<Marks>} */
async function audit(url, { port, form }) {
  const result = await lighthouse(url, { port, output: "json", logLevel: "error", onlyCategories: ["performance", "accessibility", "best-practices"] }, FORMS[form]);
  if (!result || result.lhr.runtimeError) throw new Error(`no audit of ${url}: ${result?.lhr.runtimeError?.message ?? "no result"}`);
  const { categories, audits } = result.lhr;
  const times = ["first-contentful-paint", "largest-contentful-paint", "total-blocking-time", "speed-index"].map((name) => `${audits[name].title} ${audits[name].displayValue}`).join(", ");
  console.log(`${form}, ${new URL(url).pathname}: ${times}`);
  const mark = (/** @type {string} */ name) => Math.round((categories[name].score ?? 0) * 100);
  const faults = ["accessibility", "best-practices"].flatMap((name) => categories[name].auditRefs
    .filter(({ id, weight }) => weight > 0 && audits[id].score !== null && Number(audits[id].score) < 1).map(({ id }) => `${id}: ${audits[id].title}`));
  return { accessibility: mark("accessibility"), practices: mark("best-practices"), performance: mark("performance"), shift: audits["cumulative-layout-shift"].numericValue ?? 1, faults };
}

/** @param {number[]} values */
const middle = (values) => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)];

/** The middle of several audits, and every fault of any. @param {string} url @param {Way} way @returns {Promise<Marks>} */
async function audits(url, way) {
  /** @type {Marks[]} */
  const runs = [];
  for (let run = 0; run < RUNS; run += 1) runs.push(await audit(url, way));
  const of = (/** @type {"accessibility"|"practices"|"performance"|"shift"} */ key) => middle(runs.map((one) => one[key]));
  return { accessibility: of("accessibility"), practices: of("practices"), performance: of("performance"), shift: of("shift"), faults: [...new Set(runs.flatMap(({ faults }) => faults))] };
}

/** @param {Marks} page @param {Marks} bare @returns {string[]} */
function failures(page, bare) {
  return [
    page.accessibility < BARS.accessibility ? `accessibility ${page.accessibility}, wanted ${BARS.accessibility}` : "",
    page.practices < BARS.practices ? `best practices ${page.practices}, wanted ${BARS.practices}` : "",
    page.shift >= BARS.shift ? `layout shift ${page.shift.toFixed(3)}, wanted under ${BARS.shift}` : "",
    page.performance < bare.performance - BARS.below ? `performance ${page.performance}, at most ${BARS.below} below the bare page's ${bare.performance}` : "",
  ].filter(Boolean);
}

/** What the host of a page does: compress, and say what may be kept. The bare page comes from here too. @type {Map<string, {status: number, headers: Record<string, string>, body: Buffer}>} */
const packed = new Map();

/** @param {string} path @param {string} site */
async function answerOf(path, site) {
  const known = packed.get(path);
  if (known) return known;
  const answer = path === "bare.html" ? new Response(BARE, { headers: { "Content-Type": "text/html; charset=utf-8" } }) : await fetch(new URL(path, site));
  const made = {
    status: answer.status, body: brotliCompressSync(Buffer.from(await answer.arrayBuffer())),
    headers: { "Content-Type": answer.headers.get("content-type") ?? "text/plain", "Content-Encoding": "br", "Cache-Control": /^[0-9a-f]{12}\//.test(path) ? "max-age=31536000, immutable" : "no-cache" },
  };
  packed.set(path, made);
  return made;
}

/** A free port. @param {import("node:http").Server} server @returns {Promise<number>} */
const listening = (server) => new Promise((resolve) => server.listen(0, "127.0.0.1", () => resolve(/** @type {import("node:net").AddressInfo} */ (server.address()).port)));

const server = createServer(async (request, response) => {
  const { status, headers, body } = await answerOf((request.url ?? "/").slice(1).split("?")[0], env.BASE_URL ?? "http://127.0.0.1:8137/");
  response.writeHead(status, headers).end(body);
});
const host = `http://127.0.0.1:${await listening(server)}/`;
const spare = createServer();
const debugPort = await listening(spare);
await new Promise((resolve) => spare.close(resolve));
const browser = await chromium.launch({ executablePath: await findChromium(), args: ["--no-sandbox", `--remote-debugging-port=${debugPort}`] });
/** @type {{form: string, bare: Marks, page: Marks}[]} */
const all = [];
for (const form of Object.keys(FORMS)) {
  const way = { port: debugPort, form };
  all.push({ form, bare: await audits(`${host}bare.html`, way), page: await audits(host, way) });
}
await browser.close();
server.closeAllConnections();
server.close();
for (const { form, bare, page } of all) {
  for (const [name, marks] of Object.entries({ "bare page": bare, "the page": page })) {
    console.log(`${form}, ${name}: accessibility ${marks.accessibility}, best practices ${marks.practices}, performance ${marks.performance}, layout shift ${marks.shift.toFixed(3)}`);
  }
  for (const fault of page.faults) console.log(`  ${fault}`);
}
const missed = all.flatMap(({ form, bare, page }) => failures(page, bare).map((one) => `${form}: ${one}`));
for (const one of missed) console.log(`missed: ${one}`);
exit(missed.length === 0 ? 0 : 1);
