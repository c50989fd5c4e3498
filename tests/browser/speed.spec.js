// What a move of a drag costs the browser's main thread, beside a page that only reads the pointer; how soon after a drop
// its range is there; what is left of the frames while workers draw; and how much the main job loads. Times are printed and not asserted: they belong to the machine that
// ran the test.
import { expect, test } from "@playwright/test";
import {
  answerText, bassThere, decayDrawing, documentOf, drag, example, hold, linkOf, listen, middleOf, middleOfPiece, onShelf, open, packed, pieces, pointOn, settled,
  unpacked,
} from "./support.js";

/**
 * @import { CDPSession, Page } from "@playwright/test"
 * @import { Spot } from "./support.js"
 * @typedef {{name: string, ph: string, ts: number, dur?: number, tdur?: number, tid: number, pid: number, args?: any}} TraceEvent
 * @typedef {{elapsed_ms: number[], work_ms: number[]}} PerMove  by the clock, and as processor time of the thread
 */

const MOVES = 120;
const MOVE_EVERY_MS = 1000 / 60;
const BIGGEST_BYTES = 300_000;
/** The workers' script and module, the part of the page below the first screen, and the fonts, without which it has others. */
const AFTERWARDS = /seatward_later|\/worker\.js$|\/below-[^/]*\.js$|\.woff2$/;
const DROPS = 10;
/** Of 600 draws each. */
const SETS = 4;

// The runner's own trace photographs the page after every move, which would cost ten times what the page does.
test.use({ trace: "off" });

/** Forty pieces that hang legally: four rows on both long walls, between front wall and archway. @param {Page} page */
async function fortyPieces(page) {
  const document = await example(page);
  const kit = document.kit[1].id;
  document.kit[1] = { ...document.kit[1], width_m: 0.3, height_m: 0.3 };
  document.limits = {};
  document.plans[1].pieces = ["left", "right"].flatMap((surface) => Array.from({ length: 20 }, (_, index) => (
    { kit, place: "surface", surface, u_m: 0.4 + 0.36 * (index % 10), v_m: index < 10 ? 0.5 : 1.0, turned: false })));
  return document;
}

/**
 * Moves on a circle at 60 a second for two seconds, past the driver: its own moves ask the page at every one of them whether
 * something is dragged, which would be measured along.
 * @param {CDPSession} session @param {Spot} middle @param {boolean} held
 */
async function circle(session, middle, held) {
  const button = held ? /** @type {const} */ ({ button: "left", buttons: 1 }) : /** @type {const} */ ({ button: "none", buttons: 0 });
  const started = performance.now();
  for (let move = 0; move < MOVES; move += 1) {
    const turn = (4 * Math.PI * move) / MOVES;
    await session.send("Input.dispatchMouseEvent", { type: "mouseMoved", x: middle.x + 40 * Math.cos(turn), y: middle.y + 12 * Math.sin(turn), ...button });
    const wait_ms = started + (move + 1) * MOVE_EVERY_MS - performance.now();
    if (wait_ms > 0) await new Promise((resolve) => { setTimeout(resolve, wait_ms); });
  }
}

/**
 * Records what the main thread did while something went on.
 * @param {Page} page @param {CDPSession} session @param {() => Promise<void>} work
 * @returns {Promise<TraceEvent[]>}
 */
async function traced(page, session, work) {
  /** @type {TraceEvent[]} */
  const events = [];
  session.on("Tracing.dataCollected", ({ value }) => events.push(.../** @type {any[]} */ (value)));
  const complete = new Promise((resolve) => { session.once("Tracing.tracingComplete", resolve); });
  await session.send("Tracing.start", { transferMode: "ReportEvents", traceConfig: { includedCategories: ["devtools.timeline", "disabled-by-default-devtools.timeline", "blink.user_timing"] } });
  await page.evaluate(() => performance.mark("page under test"));
  await work();
  await session.send("Tracing.end");
  await complete;
  return events;
}

/**
 * Main-thread milliseconds from one pointer move to the next, all tasks together. On few cores the clock goes on while the
 * browser's other processes and the driver have the core; the thread's own time does not.
 * @param {TraceEvent[]} events @returns {PerMove}
 */
function workPerMove(events) {
  const main = events.find(({ name }) => name === "page under test");
  if (!main) throw new Error("the trace has no mark of the page");
  const own = events.filter(({ pid, tid }) => pid === main.pid && tid === main.tid);
  const tasks = topLevel(own.filter(({ name, dur }) => /RunTask$/.test(name) && dur !== undefined));
  if (tasks.length < MOVES / 3) throw new Error(`only ${tasks.length} tasks of the main thread in the trace`);
  const moves = own.filter(({ name, args }) => name === "EventDispatch" && args?.data?.type === "pointermove").map(({ ts }) => ts).sort((a, b) => a - b);
  const perMove = (/** @type {(task: Task) => number} */ cost) => moves.slice(0, -1).map((from, index) => tasks.reduce((sum, task) => {
    const inside = Math.max(0, Math.min(task.end, moves[index + 1]) - Math.max(task.start, from));
    return sum + (inside > 0 ? (cost(task) * inside) / (task.end - task.start) : 0);
  }, 0) / 1000);
  return { elapsed_ms: perMove(({ start, end }) => end - start), work_ms: perMove(({ work }) => work) };
}

/** @typedef {{start: number, end: number, work: number}} Task  microseconds */

/** Tasks as stretches of time; one may hold another. @param {TraceEvent[]} tasks */
function topLevel(tasks) {
  /** @type {Task[]} */
  const stretches = [];
  for (const { ts, dur = 0, tdur = dur } of [...tasks].sort((a, b) => a.ts - b.ts || (b.dur ?? 0) - (a.dur ?? 0))) {
    const last = stretches.at(-1);
    if (!last || ts >= last.end) stretches.push({ start: ts, end: ts + dur, work: tdur });
  }
  return stretches;
}

/** @param {string} name @param {PerMove} perMove */
function tell(name, { elapsed_ms, work_ms }) {
  for (const [kind, all_ms] of /** @type {const} */ ([["work   ", work_ms], ["elapsed", elapsed_ms]])) {
    const sorted = [...all_ms].sort((a, b) => a - b);
    const at = (/** @type {number} */ share) => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))].toFixed(2);
    console.log(`${name}: ${sorted.length} moves, main thread per move, ${kind}: median ${at(0.5)} ms, 95th percentile ${at(0.95)} ms, most ${at(1)} ms`);
  }
}

test("a drag in a plan of forty pieces, beside a page that only reads the pointer", async ({ page }) => {
  test.setTimeout(90_000);
  const session = await page.context().newCDPSession(page);
  await page.goto("about:blank");
  await page.setContent("<p>0</p><script>addEventListener('pointermove', (event) => { self.last = [event.clientX, event.clientY]; })</script>");
  const bare = workPerMove(await traced(page, session, () => circle(session, { x: 400, y: 300 }, false)));
  await open(page, packed(await fortyPieces(page)));
  await expect(pieces(page)).toHaveCount(40);
  const middle = await pointOn(page, "left", 5.4, 1.4);
  await hold(page, await middleOfPiece(page, 9), middle);
  const dragged = workPerMove(await traced(page, session, () => circle(session, middle, true)));
  await page.mouse.up();
  tell("page that only reads the pointer", bare);
  tell("drag, forty pieces            ", dragged);
  expect(bare.work_ms.length).toBeGreaterThan(MOVES / 3);
  expect(dragged.work_ms.length).toBeGreaterThan(10);
});

/** The concrete loft with forty pieces, and room for one of them to be moved about on the back wall. @param {Page} page */
async function fullLoft(page) {
  const document = await (await page.request.get("scenarios/concrete-loft.json")).json();
  const { pieces: hung } = document.plans[3];
  const above = (/** @type {number} */ u_m) => ({ ...hung[13], surface: "right", u_m, v_m: 2.7, turned: true });
  hung.splice(13, 1, above(4.0), above(5.4));
  return { ...document, plans: [document.plans[0], document.plans[3]], listening: document.listening };
}

/** What may be folded away and draws. */
const FOLDED = [/^Bounces over time/, /^Comb of one bounce/, /^Draw it/];

test("a drag in the concrete loft with forty pieces and every drawing on the screen", async ({ page }) => {
  test.setTimeout(90_000);
  await page.setViewportSize({ width: 1440, height: 4800 });
  await open(page, packed(await fullLoft(page)));
  await expect(pieces(page)).toHaveCount(40);
  await expect(page.getByRole("button", { name: "Print the figures" })).toBeInViewport();
  for (const words of FOLDED) await page.locator("summary", { hasText: words }).click();
  // So that hardly a move moves nothing.
  await page.getByLabel("Snap").uncheck();
  await bassThere(page);
  const charts = page.locator(".charts svg[role=img]");
  const drawn = await charts.count();
  expect(drawn, "decay, shares, bass map, bass, response, and those in folds").toBeGreaterThan(7);
  for (let index = 0; index < drawn; index += 1) await expect(charts.nth(index)).toBeInViewport({ ratio: 1 });
  const session = await page.context().newCDPSession(page);
  const middle = await pointOn(page, "back", 7.9, 2.55);
  await hold(page, await middleOfPiece(page, 12), middle);
  const dragged = workPerMove(await traced(page, session, () => circle(session, middle, true)));
  await page.mouse.up();
  tell("drag, loft, every drawing     ", dragged);
  expect(dragged.work_ms.length).toBeGreaterThan(10);
});

test("one frame after the last move the figures are those of the last place", async ({ page }) => {
  test.setTimeout(90_000);
  await open(page, packed(await fortyPieces(page)));
  const middle = await pointOn(page, "left", 5.4, 1.4);
  await hold(page, await middleOfPiece(page, 9), middle);
  await circle(await page.context().newCDPSession(page), middle, true);
  const seen = await page.evaluate(() => new Promise((resolve) => {
    const read = () => [document.querySelector(".answer h1")?.textContent, document.querySelector("svg.decay")?.innerHTML, document.querySelector(".bounces table")?.textContent];
    requestAnimationFrame(() => requestAnimationFrame(() => {
      const first = read();
      setTimeout(() => resolve({ first, later: read() }), 500);
    }));
  }));
  const { first, later } = /** @type {{first: string[], later: string[]}} */ (seen);
  expect(later).toEqual(first);
  const during = await answerText(page);
  const heard = await listen(page);
  await page.mouse.up();
  await settled(page);
  expect((await heard())[0]).toBe(during);
});

test("the range of the plan in hand follows a drop", async ({ page }) => {
  test.setTimeout(120_000);
  await open(page);
  await settled(page);
  await page.evaluate(() => {
    /** @type {number[]} */
    const waits = [];
    let dropped_ms = 0;
    const look = () => {
      if (dropped_ms && document.querySelector(".answer h1 b")?.textContent?.includes("–")) {
        waits.push(performance.now() - dropped_ms);
        dropped_ms = 0;
      }
      requestAnimationFrame(look);
    };
    addEventListener("pointerup", () => { dropped_ms = performance.now(); }, { capture: true });
    Object.assign(self, { waits });
    look();
  });
  for (let time = 0; time < DROPS; time += 1) {
    const from = await middleOfPiece(page, 6);
    await drag(page, from, { x: from.x + (time % 2 === 0 ? -24 : 24), y: from.y });
    // Whatever else asks the page meanwhile takes its time.
    await page.evaluate((count) => new Promise((resolve) => {
      const look = () => (/** @type {{waits: number[]}} */ (/** @type {unknown} */ (self)).waits.length > count ? resolve(null) : setTimeout(look, 50));
      look();
    }), time);
    await settled(page);
  }
  const waits = await page.evaluate(() => /** @type {{waits: number[]}} */ (/** @type {unknown} */ (self)).waits);
  expect(waits).toHaveLength(DROPS);
  const sorted = [...waits].sort((a, b) => a - b);
  console.log(`from a drop to its range, ${DROPS} times: least ${sorted[0].toFixed(0)} ms, median ${sorted[DROPS / 2].toFixed(0)} ms, most ${sorted[DROPS - 1].toFixed(0)} ms`);
});

/**
 * Notes when a worker hands the ranges of a plan over, and every frame; of two workers that draw, the second may be left out.
 * @param {{both: boolean}} kept
 */
function noteDraws({ both }) {
  const Real = Worker;
  /** @type {number[]} */
  const replies = [];
  /** @type {number[]} */
  const frames = [];
  const note = () => { frames.push(performance.now()); requestAnimationFrame(note); };
  class Noted extends Real {
    /** @param {string|URL} script @param {WorkerOptions} options */
    constructor(script, options) {
      super(script, options);
      if (options.name === "draws" && !both) this.terminate();
      if (options.name === "ranges") this.addEventListener("message", ({ data }) => { if (data.result && !data.part) replies.push(performance.now()); });
    }
  }
  Object.assign(self, { Worker: Noted, noted: { replies, frames } });
  note();
}

for (const both of [false, true]) {
  test(`frames go on while ${both ? "two workers draw" : "one worker draws"} 600 times for three plans of the concrete loft`, async ({ page }) => {
    test.setTimeout(120_000);
    await page.addInitScript(noteDraws, { both });
    const document = await (await page.request.get("scenarios/concrete-loft.json")).json();
    document.plans.length = 3;
    await open(page, packed(document));
    await page.locator(".plans .tab:not(.new)").nth(2).click();
    await page.locator(".menu > summary", { hasText: "Compare" }).click();
    await page.locator(".menu[open] button", { hasText: document.plans[1].name }).first().click();
    await settled(page);
    await page.evaluate(() => {
      const { noted } = /** @type {{noted: {replies: number[], frames: number[]}}} */ (/** @type {unknown} */ (self));
      addEventListener("pointerup", () => {
        noted.replies.length = 0;
        noted.frames.splice(0, noted.frames.length, performance.now());
      }, { capture: true });
    });
    const read = () => page.evaluate(() => /** @type {{noted: {replies: number[], frames: number[]}}} */ (/** @type {unknown} */ (self)).noted);
    let count = 0;
    // On a quick machine one set of draws takes the time of eight frames.
    for (let time = 0; time < SETS; time += 1) {
      const seat = await middleOf(page.locator("[data-sheet] [data-seat]"));
      await hold(page, seat, { x: seat.x + (time % 2 === 0 ? 20 : -20), y: seat.y });
      await page.mouse.up();
      await expect.poll(async () => (await read()).replies.length, { timeout: 60_000 }).toBe(3);
      const { replies, frames } = await read();
      const during = frames.filter((at_ms) => at_ms <= replies[2]);
      const took_ms = replies[2] - frames[0];
      const gaps = during.slice(1).map((at_ms, index) => at_ms - during[index]);
      count += gaps.length;
      console.log(`600 draws, ${both ? "two workers" : "one worker"}: ${took_ms.toFixed(0)} ms, ${((1000 * gaps.length) / took_ms).toFixed(0)} frames a second, longest gap ${Math.max(...gaps).toFixed(0)} ms`);
      await settled(page);
    }
    expect(count, "frames while they draw").toBeGreaterThan(5);
  });
}

test("the main job needs under 300 KB as it is sent, and no fonts", async ({ page }) => {
  // What is said to come after the first answer is kept from the page: so the main job is shown to need nothing of it.
  await page.route(AFTERWARDS, (route) => route.abort());
  /** @type {{name: string, bytes: number, coding: string}[]} */
  const sent = [];
  page.on("response", (response) => {
    const { pathname, protocol } = new URL(response.url());
    if (protocol === "data:") return;
    const headers = response.headers();
    sent.push({ name: pathname, bytes: Number(headers["content-length"]), coding: headers["content-encoding"] ?? "" });
  });
  await open(page);
  const before = await decayDrawing(page);
  const marks = page.locator("[data-sheet] g.mark");
  await drag(page, await middleOfPiece(page, 6), await pointOn(page, "right", 7.4, 1.6));
  await expect.poll(() => decayDrawing(page), "the decay follows").not.toBe(before);
  const hanging = await pieces(page).count();
  await drag(page, await middleOf(onShelf(page, "thin")), await pointOn(page, "left", 4.9, 1.5));
  await expect(pieces(page), "one more from the shelf").toHaveCount(hanging + 1);
  expect(await marks.count(), "bounce marks").toBeGreaterThan(0);
  const bytes = sent.reduce((sum, file) => sum + file.bytes, 0);
  for (const { name, bytes: size } of sent.toSorted((a, b) => b.bytes - a.bytes).slice(0, 12)) console.log(`${String(size).padStart(9)}  ${name}`);
  console.log(`main job: ${sent.length} files, ${bytes} bytes as sent`);
  for (const { name, coding } of sent) expect(coding, name).toBe("br");
  expect(sent.filter(({ name }) => name.endsWith(".wasm")), "one module on the page").toHaveLength(1);
  expect(sent.some(({ name }) => name.endsWith(".css"))).toBe(true);
  expect(bytes).toBeLessThan(BIGGEST_BYTES);
  const names = new Set(sent.map(({ name }) => name));
  const link = await linkOf(page);
  await page.goto("about:blank");
  await open(page, link);
  await expect(pieces(page), "the link holds all of them").toHaveCount(hanging + 1);
  expect(await documentOf(page)).toEqual(unpacked(link));
  expect(sent.filter(({ name }) => !names.has(name)), "opening a link needs no more").toEqual([]);
});
