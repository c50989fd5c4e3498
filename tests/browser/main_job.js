// The main job as steps that any driver can take whose page has `goto`, `evaluate`, `keyboard` and `mouse`: Playwright's and
// Puppeteer's do, so that the same steps run in Chromium and in Firefox. What is wrong is thrown as a sentence.

/**
 * @typedef {object} Driven  What two drivers have in common.
 * @property {(address: string) => Promise<unknown>} goto
 * @property {<A, R>(work: (given: A) => R, given: A) => Promise<Awaited<R>>} evaluate
 * @property {{press: (key: any) => Promise<void>, type: (text: string) => Promise<void>}} keyboard
 * @property {{move: (x: number, y: number, how?: {steps?: number}) => Promise<void>, down: () => Promise<void>, up: () => Promise<void>}} mouse
 */

/** Patience with a busy machine, ms. */
const PATIENCE_MS = 60_000;
const LOOK_AGAIN_MS = 50;

/** Waits until something on the page holds. @template A @param {Driven} page @param {(given: A) => boolean} holds @param {A} given @param {string} what */
async function until(page, holds, given, what) {
  for (const start = Date.now(); Date.now() - start < PATIENCE_MS; await new Promise((resolve) => setTimeout(resolve, LOOK_AGAIN_MS))) {
    if (await page.evaluate(holds, given)) return;
  }
  throw new Error(`not within ${PATIENCE_MS / 1000} s: ${what}`);
}

/** The answer sentence. @param {Driven} page */
const answer = (page) => page.evaluate(() => (document.querySelector(".answer h1")?.textContent ?? "").replace(/\s+/g, " ").trim(), null);

/** @param {Driven} page @param {string} pattern @param {string} what */
const says = (page, pattern, what) => until(page, (wanted) => new RegExp(wanted).test((document.querySelector(".answer h1")?.textContent ?? "").replace(/\s+/g, " ")), pattern, what);

/** The middle of the first match in the window. @param {Driven} page @param {string} selector */
async function middleOf(page, selector) {
  const spot = await page.evaluate((wanted) => {
    const box = document.querySelector(wanted)?.getBoundingClientRect();
    return box ? { x: box.x + box.width / 2, y: box.y + box.height / 2 } : null;
  }, selector);
  if (!spot) throw new Error(`not on the page: ${selector}`);
  return spot;
}

/** @param {Driven} page */
const pieceCount = (page) => page.evaluate(() => document.querySelectorAll("[data-sheet] g.piece[data-piece]").length, null);

/** @param {unknown} holds @param {string} what */
function expect(holds, what) {
  if (!holds) throw new Error(`wrong: ${what}`);
}

/** Opens on a ready example with its answer. @param {Driven} page @param {string} address */
export async function opensReady(page, address) {
  await page.goto(address);
  await says(page, "die away in \\d\\.\\d\\d–\\d\\.\\d\\d.s", "the example is answered with a range");
  expect((await pieceCount(page)) > 5, "the example has pieces");
}

/** A piece dragged from the shelf changes the answer before it is dropped. @param {Driven} page */
export async function dragsFromShelf(page) {
  const [before, count] = [await answer(page), await pieceCount(page)];
  const from = await middleOf(page, "[data-kind=thick]");
  const wall = await page.evaluate(() => {
    const box = /** @type {Element} */ (document.querySelector('[data-surface="left"] > rect.face')).getBoundingClientRect();
    return { x: box.x + box.width * 0.6, y: box.y + box.height * 0.45 };
  }, null);
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  await page.mouse.move(wall.x, wall.y, { steps: 8 });
  await until(page, (old) => (document.querySelector(".answer h1")?.textContent ?? "").replace(/\s+/g, " ").trim() !== old, before, "the answer follows the drag");
  await page.mouse.up();
  await until(page, (wanted) => document.querySelectorAll("[data-sheet] g.piece[data-piece]").length === wanted, count + 1, "the piece stays where it was dropped");
}

/** A piece moved by keys, placed, and put back by undo. @param {Driven} page */
export async function movesByKeys(page) {
  const label = () => page.evaluate(() => document.activeElement?.getAttribute("aria-label") ?? "", null);
  await page.evaluate(() => /** @type {HTMLElement} */ (document.querySelector('[data-sheet] g.piece[data-piece="6"]')).focus(), null);
  const before = await label();
  await page.keyboard.press("Enter");
  for (let step = 0; step < 3; step += 1) await page.keyboard.press("ArrowRight");
  await page.keyboard.press("Enter");
  await until(page, (old) => document.querySelector('[data-sheet] g.piece[data-piece="6"]')?.getAttribute("aria-label") !== old, before, "the piece was moved by keys");
  await page.evaluate(() => /** @type {HTMLElement} */ ([...document.querySelectorAll(".tools button")].find((one) => one.textContent?.startsWith("Undo"))).click(), null);
  await until(page, (old) => document.querySelector('[data-sheet] g.piece[data-piece="6"]')?.getAttribute("aria-label") === old, before, "undo puts it back");
}

/** The link of the plan opens the same plan and answer. @param {Driven} page @param {string} address */
export async function sharesByLink(page, address) {
  await says(page, "die away in \\d\\.\\d\\d–\\d\\.\\d\\d.s", "the range is there");
  const [before, count] = [await answer(page), await pieceCount(page)];
  await page.evaluate(() => /** @type {HTMLElement} */ ([...document.querySelectorAll("button")].find((one) => one.textContent === "Copy link")).click(), null);
  await until(page, () => location.hash.startsWith("#1."), null, "the link is in the address bar");
  const hash = await page.evaluate(() => location.hash, null);
  await page.evaluate(() => localStorage.clear(), null);
  await page.goto("about:blank");
  await page.goto(`${address}${hash}`);
  await until(page, (wanted) => document.querySelectorAll("[data-sheet] g.piece[data-piece]").length === wanted, count, "the link brings all pieces");
  await until(page, (wanted) => (document.querySelector(".answer h1")?.textContent ?? "").replace(/\s+/g, " ").trim() === wanted, before, "the link brings the same answer");
}

/** Three numbers make an own room. @param {Driven} page */
export async function startsOwnRoom(page) {
  await page.evaluate(() => /** @type {HTMLElement} */ ([...document.querySelectorAll("button")].find((one) => one.textContent === "start with my room")).click(), null);
  await until(page, () => document.activeElement?.matches("#start-dialog input") ?? false, null, "the first side has the focus");
  for (const [value, then] of [["3.10", "Tab"], ["4.30", "Tab"], ["2.45", "Enter"]]) {
    await page.keyboard.type(value);
    await page.keyboard.press(then);
  }
  await until(page, () => document.querySelector(".facts")?.textContent?.includes("32.7") ?? false, null, "the room of 3.10 × 4.30 × 2.45 m has 32.7 m³");
  await says(page, "the same as today", "the empty plan is as today");
}

/** All of it. @param {Driven} page @param {string} address */
export async function mainJob(page, address) {
  await opensReady(page, address);
  await dragsFromShelf(page);
  await movesByKeys(page);
  await sharesByLink(page, address);
  await startsOwnRoom(page);
}
