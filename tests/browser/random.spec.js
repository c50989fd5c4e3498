// Gestures at random, the same for the same seed: drags, resizes, undo, redo, given-up drags, links. Nothing complains, nothing
// is left behind in memory, and the document is what its own history makes of it. SEATWARD_GESTURES says how many (60),
// SEATWARD_SEED which (1).
import { env } from "node:process";
import { expect, test } from "@playwright/test";
import { seeded } from "../page/seeded.js";
import { bassThere, documentOf, linkOf, nextFrame, open, packed, step, watch } from "./support.js";

/**
 * @import { CDPSession, Page } from "@playwright/test"
 * @import { Spot } from "./support.js"
 */

const GESTURES = Number(env.SEATWARD_GESTURES ?? 60);
const SEED = Number(env.SEATWARD_SEED ?? 1);
/** After so many the history is gone through from end to end. */
const REPLAY_AFTER = 100;
/** Gestures before the heap is measured first: what they need is loaded and compiled by then, once and for all. */
const WARM_UP = 40;
/** JavaScript's heap after a forced collection, against that at the start. */
const MOST_GROWTH = 1.2;

// The runner's trace copies the page before and after every key and question, which takes longer than the gesture.
test.use({ trace: "off" });

/** JavaScript's heap once nothing is left that can be collected, bytes. @param {CDPSession} session */
async function heap(session) {
  for (let round = 0; round < 3; round += 1) await session.send("HeapProfiler.collectGarbage");
  return (await session.send("Runtime.getHeapUsage")).usedSize;
}

/** Middles of all that can be taken hold of, and the box of the drawing. @param {Page} page */
const grabbable = (page) => page.evaluate(() => {
  const middles = (/** @type {string} */ selector) => [...document.querySelectorAll(selector)].map((one) => {
    const { x, y, width, height } = one.getBoundingClientRect();
    return { x: x + width / 2, y: y + height / 2 };
  }).filter(({ x, y }) => x > 0 && y > 0 && x < innerWidth && y < innerHeight);
  const sheet = /** @type {Element} */ (document.querySelector("[data-sheet=box]")).getBoundingClientRect();
  return {
    pieces: middles("[data-sheet] g.piece[data-piece]:not(.is-away) rect.ground, [data-sheet] g.piece[data-piece] path.ground"), grips: middles("[data-grip] rect.grip"), shelf: middles("[data-kind]"),
    spots: middles("[data-loudspeaker] .hit, [data-seat] .hit"), sheet: { x: sheet.x, y: sheet.y, width: sheet.width, height: Math.min(sheet.height, innerHeight - sheet.y) },
  };
});

/** @template T @param {() => number} random @param {T[]} list @returns {T|undefined} */
const anyOf = (random, list) => list[Math.floor(random() * list.length)];

/** @param {{page: Page, session: CDPSession}} tab @param {() => number} random @param {boolean} givenUp */
async function dragSomething({ page, session }, random, givenUp) {
  const { pieces, grips, shelf, spots, sheet } = await grabbable(page);
  const kind = random();
  const from = anyOf(random, kind < 0.5 ? pieces : kind < 0.65 ? grips : kind < 0.85 ? shelf : spots) ?? anyOf(random, pieces);
  if (!from) return;
  // The runner's own mouse asks the page at every move whether it drags a link: several times what the move takes.
  const mouse = (/** @type {"mouseMoved"|"mousePressed"|"mouseReleased"} */ type, /** @type {Spot} */ { x, y }, /** @type {0|1} */ buttons) => (
    session.send("Input.dispatchMouseEvent", { type, x, y, buttons, button: type === "mouseMoved" && buttons === 0 ? "none" : "left", clickCount: type === "mouseMoved" ? 0 : 1 }));
  // Now and then beside the drawing.
  const to = { x: sheet.x + (random() * 1.1 - 0.05) * sheet.width, y: sheet.y + (random() * 1.1 - 0.05) * sheet.height };
  await mouse("mouseMoved", from, 0);
  await mouse("mousePressed", from, 1);
  for (const part of [1 / 3, 2 / 3, 1]) await mouse("mouseMoved", { x: from.x + part * (to.x - from.x), y: from.y + part * (to.y - from.y) }, 1);
  if (givenUp) await page.keyboard.press("Escape");
  await mouse("mouseReleased", to, 0);
}

/** Follows a link in the same tab and takes what it brings. @param {Page} page @param {string} fragment */
async function load(page, fragment) {
  await page.evaluate((hash) => { location.hash = hash; }, fragment);
  await nextFrame(page);
  const use = page.getByRole("button", { name: "Use this" });
  if (await use.isVisible()) await use.click();
}

/** @param {{page: Page, session: CDPSession}} tab @param {() => number} random @param {string[]} links */
async function anyGesture(tab, random, links) {
  const { page } = tab;
  const kind = random();
  if (kind < 0.62) await dragSomething(tab, random, false);
  else if (kind < 0.7) await dragSomething(tab, random, true);
  else if (kind < 0.84) await page.keyboard.press("Control+z");
  else if (kind < 0.94) await page.keyboard.press("Control+y");
  else await load(page, anyOf(random, links) ?? "");
}

/** All the way back and forth again leads to the same document. @param {Page} page */
async function expectReplayable(page) {
  const before = await documentOf(page);
  let steps = 0;
  for (; (await step(page, "Undo").getAttribute("aria-disabled")) === "false"; steps += 1) {
    await page.keyboard.press("Control+z");
    await nextFrame(page);
  }
  for (let back = 0; back < steps; back += 1) await page.keyboard.press("Control+y");
  await nextFrame(page);
  expect(await documentOf(page)).toEqual(before);
  return steps;
}

test(`${GESTURES} gestures at random leave no error, no memory and no doubt about the document (seed ${SEED})`, async ({ page }, info) => {
  test.setTimeout(180_000 + GESTURES * 4000);
  const seen = watch(page);
  const random = seeded(SEED);
  await open(page);
  const document = await documentOf(page);
  const links = [packed(document), packed({ ...document, title: "Fewer pieces", plans: [document.plans[0], { ...document.plans[1], pieces: document.plans[1].pieces.slice(0, 5) }] })];
  await page.evaluate(() => history.replaceState(null, "", location.pathname));
  const session = await page.context().newCDPSession(page);
  for (let count = 0; count < WARM_UP; count += 1) await anyGesture({ page, session }, random, links);
  await bassThere(page);
  const start = await heap(session);
  let replayed = 0;
  for (let count = 1; count <= GESTURES; count += 1) {
    await anyGesture({ page, session }, random, links);
    if (count % REPLAY_AFTER === 0 || count === GESTURES) replayed += await expectReplayable(page);
  }
  expect(replayed).toBeGreaterThan(GESTURES / 20);
  await bassThere(page);
  const end = await heap(session);
  info.annotations.push({ type: "heap", description: `${start} bytes before, ${end} after, ${replayed} steps gone through` });
  console.log(`heap ${(start / 1e6).toFixed(2)} MB before, ${(end / 1e6).toFixed(2)} MB after; ${replayed} steps gone back and forth`);
  expect(seen.complaints).toEqual([]);
  expect(end / start).toBeLessThan(MOST_GROWTH);
  expect(await linkOf(page)).toMatch(/^#1\./);
});
