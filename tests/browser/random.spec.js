// Gestures at random, the same for the same seed: drags, resizes, undo, redo, given-up drags, links. Nothing complains, nothing
// is left behind in memory, and the document is what its own history makes of it. SEATWARD_GESTURES says how many (500),
// SEATWARD_SEED which (1).
import { env } from "node:process";
import { expect, test } from "@playwright/test";
import { seeded } from "../page/seeded.js";
import { HISTORY_STEPS } from "../../www/model/limits.js";
import { bassThere, documentOf, linkOf, nextFrame, open, packed, piece, step, watch } from "./support.js";

/**
 * @import { CDPSession, Page } from "@playwright/test"
 * @import { Spot } from "./support.js"
 */

const GESTURES = Number(env.SEATWARD_GESTURES ?? 500);
const SEED = Number(env.SEATWARD_SEED ?? 1);
/** After so many the history is gone through from end to end. */
const REPLAY_AFTER = 100;
/** Gestures before the heap is measured first: what they need is loaded and compiled by then, once and for all. */
const WARM_UP = 200;
/** JavaScript's heap after a forced collection, against that at the start; what is added is compiled code. */
const MOST_GROWTH = 1.2;
/** Presses of a key that are sent without waiting for each other; the page draws once after them, as under a held key. */
const BURST = 20;
const KEYS = Object.freeze({
  undo: { key: "z", code: "KeyZ", windowsVirtualKeyCode: 90, modifiers: 2 },
  redo: { key: "y", code: "KeyY", windowsVirtualKeyCode: 89, modifiers: 2 },
  enter: { key: "Enter", code: "Enter", windowsVirtualKeyCode: 13, text: "\r" },
});

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

/** @param {{page: Page, session: CDPSession}} tab @param {typeof KEYS[keyof typeof KEYS]} key */
async function pressOften({ page, session }, key) {
  await Promise.all(Array.from({ length: BURST }, () => [
    session.send("Input.dispatchKeyEvent", { type: "text" in key ? "keyDown" : "rawKeyDown", ...key }), session.send("Input.dispatchKeyEvent", { type: "keyUp", ...key, text: "" }),
  ]).flat());
  await nextFrame(page);
}

/** Undo or redo as often as it goes. @param {{page: Page, session: CDPSession}} tab @param {"Undo"|"Redo"} word @returns {Promise<number>} presses, the last few perhaps in vain */
async function allTheWay(tab, word) {
  let presses = 0;
  await nextFrame(tab.page);
  for (; (await step(tab.page, word).getAttribute("aria-disabled")) === "false"; presses += BURST) await pressOften(tab, word === "Undo" ? KEYS.undo : KEYS.redo);
  return presses;
}

/** From the end of its history all the way back, and forth again, leads to the same document. @param {{page: Page, session: CDPSession}} tab */
async function expectReplayable(tab) {
  await allTheWay(tab, "Redo");
  const before = await documentOf(tab.page);
  const steps = await allTheWay(tab, "Undo");
  await allTheWay(tab, "Redo");
  expect(await documentOf(tab.page)).toEqual(before);
  return steps;
}

/** As many steps as the history holds, so that it does not grow while the heap is compared. @param {{page: Page, session: CDPSession}} tab */
async function fillHistory(tab) {
  await piece(tab.page, 6).locator("rect.ground").click();
  await tab.page.locator(".below").getByRole("button", { name: "Turn", exact: true }).focus();
  for (let turns = 0; turns < HISTORY_STEPS; turns += BURST) await pressOften(tab, KEYS.enter);
  expect(await expectReplayable(tab), "steps in the history").toBe(HISTORY_STEPS);
}

test(`${GESTURES} gestures at random leave no error, no memory and no doubt about the document (seed ${SEED})`, async ({ page }, info) => {
  test.setTimeout(300_000 + GESTURES * 4000);
  const seen = watch(page);
  const random = seeded(SEED);
  await open(page);
  const document = await documentOf(page);
  const links = [packed(document), packed({ ...document, title: "Fewer pieces", plans: [document.plans[0], { ...document.plans[1], pieces: document.plans[1].pieces.slice(0, 5) }] })];
  await page.evaluate(() => history.replaceState(null, "", location.pathname));
  const tab = { page, session: await page.context().newCDPSession(page) };
  await fillHistory(tab);
  for (let count = 0; count < WARM_UP; count += 1) await anyGesture(tab, random, links);
  await bassThere(page);
  const start = await heap(tab.session);
  let replayed = 0;
  for (let count = 1; count <= GESTURES; count += 1) {
    await anyGesture(tab, random, links);
    if (count % REPLAY_AFTER === 0 || count === GESTURES) replayed += await expectReplayable(tab);
  }
  expect(replayed).toBeGreaterThan((GESTURES / REPLAY_AFTER) * (HISTORY_STEPS / 2));
  await bassThere(page);
  const end = await heap(tab.session);
  info.annotations.push({ type: "heap", description: `${start} bytes before, ${end} after, ${replayed} steps gone through` });
  console.log(`heap ${(start / 1e6).toFixed(2)} MB before, ${(end / 1e6).toFixed(2)} MB after; ${replayed} steps gone back and forth`);
  expect(seen.complaints).toEqual([]);
  expect(end / start).toBeLessThan(MOST_GROWTH);
  expect(await linkOf(page)).toMatch(/^#1\./);
});
