// What comes after the answer: ranges and bass from workers. Never for another document or plan than the one on the sheet.
import { expect, test } from "@playwright/test";
import {
  CATCHING_UP, answerText, bassThere, documentOf, drag, figure, holdWorkers, listen, middleOf, middleOfPiece, nextFrame, open, pointOn, settled, settledText, step,
} from "./support.js";

/** @import { Page } from "@playwright/test" */

/** The 8-in-10 range of a plan, drawn in one go by a session of its own, in the words of the answer. @param {Page} page @param {unknown} document @param {number} plan */
function drawnAtOnce(page, document, plan) {
  return page.evaluate(async ([scenario, index]) => {
    // @ts-ignore: found where the page is served
    const core = await import(new URL("pkg/seatward_later.js", location.href).href);
    await core.default();
    const session = new core.Session();
    session.open(scenario);
    session.start_ranges(index);
    const { mid } = session.more_ranges(100_000).ranges;
    return `${mid.low_s.toFixed(2)}–${mid.high_s.toFixed(2)} s`;
  }, /** @type {const} */ ([document, plan]));
}

/** A press on something and a drop somewhere else, as fast as it goes. @param {Page} page @param {import("./support.js").Spot} from @param {import("./support.js").Spot} to */
async function throwTo(page, from, to) {
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  await page.mouse.move(to.x, to.y, { steps: 3 });
  await page.mouse.up();
}

/**
 * What tells one place of the seat from another, and the ranges of the shares beside it, in every frame from now on.
 * @param {Page} page @returns {Promise<() => Promise<{bounces: string, ranges: string}[]>>}
 */
async function watchFigures(page) {
  await page.evaluate(() => {
    /** Of the first table, which is that of the plan in hand. @param {string} table @param {string} parts */
    const all = (table, parts) => [...document.querySelector(table)?.querySelectorAll(parts) ?? []].map((part) => part.textContent?.trim()).join(" ");
    /** @type {{bounces: string, ranges: string}[]} */
    const seen = [];
    const look = () => {
      const now = { bounces: all(".bounces table", "td"), ranges: all(".share-part table", "small") };
      const last = seen.at(-1);
      if (last?.bounces !== now.bounces || last.ranges !== now.ranges) seen.push(now);
      requestAnimationFrame(look);
    };
    Object.assign(self, { seen });
    look();
  });
  return () => page.evaluate(() => /** @type {{seen: {bounces: string, ranges: string}[]}} */ (/** @type {unknown} */ (self)).seen);
}

test("the middle is there at once and marked, and its range follows", async ({ page }) => {
  const letGo = await holdWorkers(page);
  await open(page);
  expect(await answerText(page)).toMatch(/die away in about 0\.\d\d s, today 0\.\d\d s\. Your goal is 0\.30–0\.50 s: (above|inside|below) it\. The range is catching up\.$/);
  await expect(page.getByRole("region", { name: "Answer" })).toHaveAttribute("aria-busy", "true");
  expect(await page.locator("svg.decay rect.plan.waits, svg.decay path.middle").count()).toBeGreaterThan(0);
  await expect(page.locator(".bass-part").getByText("being computed")).toBeVisible();
  letGo();
  const middle_s = Number((await figure(page).innerText()).slice(0, 4));
  expect(await settledText(page)).toMatch(/die away in 0\.\d\d–0\.\d\d s, today \d\.\d\d–\d\.\d\d s\./);
  const [low_s, high_s] = ((await figure(page).innerText()).match(/\d\.\d\d/g) ?? []).map(Number);
  expect(low_s).toBeLessThan(middle_s);
  expect(high_s).toBeGreaterThan(middle_s);
});

test("ranges are those of this document and of the plan in hand", async ({ page }) => {
  test.slow();
  await open(page);
  await drag(page, await middleOfPiece(page, 6), await pointOn(page, "right", 7.4, 1.6));
  await settled(page);
  const document = await documentOf(page);
  expect((await figure(page).innerText()).replace("\u202f", " ")).toBe(await drawnAtOnce(page, document, 1));
  await page.getByRole("button", { name: "Now", exact: true }).click();
  await settled(page);
  expect((await figure(page).innerText()).replace("\u202f", " ")).toBe(await drawnAtOnce(page, document, 0));
});

test("two quick drags never show the range of another document", async ({ page }) => {
  test.slow();
  await open(page);
  await settled(page);
  const seat = page.locator("[data-sheet] [data-seat]");
  const [first, second] = [await pointOn(page, "floor", 1.65, 4.6), await pointOn(page, "floor", 1.2, 3.0)];
  const home = await middleOf(seat);
  // A closed fold holds no figures.
  await page.locator(".share-part .figures > summary").click();
  await page.evaluate(() => scrollTo(0, 0));
  const figures = await watchFigures(page);
  /** Ranges by the bounces that belong to the same document. @type {Map<string, string>} */
  const honest = new Map();
  const learn = async () => {
    await settled(page);
    const { bounces, ranges } = /** @type {{bounces: string, ranges: string}} */ ((await figures()).at(-1));
    honest.set(bounces, ranges);
  };
  await learn();
  await throwTo(page, home, first);
  await learn();
  await step(page, "Undo").click();
  await settled(page);
  const known = (await figures()).length;
  await throwTo(page, home, first);
  await nextFrame(page);
  await throwTo(page, await middleOf(seat), second);
  await learn();
  expect(new Set(honest.values()).size, "three documents, three ranges").toBe(3);
  const quick = (await figures()).slice(known);
  expect(quick.length).toBeGreaterThan(2);
  const foreign = quick.filter(({ bounces, ranges }) => /\d/.test(ranges) && honest.get(bounces) !== ranges);
  expect(foreign).toEqual([]);
});

test("while something is held nothing is drawn, and it starts with the drop", async ({ page }) => {
  await open(page);
  await settled(page);
  const heard = await listen(page);
  const from = await middleOfPiece(page, 6);
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  await page.mouse.move(from.x - 30, from.y, { steps: 4 });
  await page.waitForTimeout(1500);
  expect(await answerText(page)).toContain(CATCHING_UP);
  await page.mouse.up();
  await settled(page);
  const said = await heard();
  expect(said.at(-1)).not.toContain(CATCHING_UP);
  expect(said.slice(1, -2).every((words) => words.includes(CATCHING_UP))).toBe(true);
});

test("workers that cannot be loaded cost the range and nothing else", async ({ page }) => {
  await page.route("**/worker.js", (route) => route.abort());
  await open(page);
  await expect(page.getByText("The range could not be computed here.")).toBeVisible();
  await expect(figure(page)).toHaveText(/^0\.\d\d\u202fs$/);
  await drag(page, await middleOfPiece(page, 6), await pointOn(page, "left", 5.0, 1.6));
  await expect(page.getByText("The range could not be computed here.")).toBeVisible();
  await expect(figure(page)).toHaveText(/^0\.\d\d\u202fs$/);
});

test("the bass follows in words, as a map and as a curve, and is marked while it is old", async ({ page }) => {
  await open(page);
  await bassThere(page);
  const bass = page.getByRole("region", { name: "Bass, note by note" });
  await expect(bass.locator(".lead-words")).toHaveText(/^\d+(\.\d+)?\sHz, /);
  await expect(bass.getByRole("img", { name: /Bass level over the floor/ })).toBeVisible();
  await expect(bass.getByRole("img", { name: /Level at the seat from 20 to 300 Hz/ })).toBeVisible();
  const before = await bass.locator(".bassmap").innerHTML();
  await page.locator("[data-sheet] [data-seat]").focus();
  await page.keyboard.press("Shift+ArrowRight");
  await expect(bass).toHaveAttribute("aria-busy", "true");
  await expect(bass).toContainText("catching up");
  await expect(bass.locator(".lead-words"), "old figures stay until the new ones come").toBeVisible();
  await bassThere(page);
  expect(await bass.locator(".bassmap").innerHTML()).not.toBe(before);
  await bass.getByText("The notes as a table").click();
  expect(await bass.locator("table tbody tr").count()).toBeGreaterThan(5);
});
