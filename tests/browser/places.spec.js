// Loudspeakers and the seat: drag, keys, numbers and a tap lead to the same place, to the millimetre, and all that hangs on
// it follows.
import { expect, test } from "@playwright/test";
import { documentOf, drag, middleOf, nextFrame, open, pointOn, settled, step } from "./support.js";

/**
 * @import { Page } from "@playwright/test"
 * @typedef {{name: string, mark: string, x_m: number, y_m: number, to_y_m: number, of: (document: any) => {x_m: number, y_m: number}}} Thing
 */

test.use({ hasTouch: true });

/** Both go half a metre away from the front wall. @type {Thing[]} */
const THINGS = [
  { name: "seat", mark: "[data-sheet] [data-seat]", x_m: 1.65, y_m: 3.9, to_y_m: 4.4, of: ({ listening }) => listening.seat },
  { name: "left loudspeaker", mark: '[data-sheet] [data-loudspeaker="0"]', x_m: 0.65, y_m: 1.1, to_y_m: 1.6, of: ({ listening }) => listening.loudspeakers[0] },
];

/** With Control held, so that nothing attracts. @param {Page} page @param {Thing} thing */
async function byDrag(page, { mark, x_m, y_m, to_y_m }) {
  const [here, there] = [await pointOn(page, "floor", x_m, y_m), await pointOn(page, "floor", x_m, to_y_m)];
  const from = await middleOf(page.locator(mark));
  await drag(page, from, { x: from.x + there.x - here.x, y: from.y + there.y - here.y });
}

/** Five long steps of the arrow that points away from the front wall on the drawing. @param {Page} page @param {Thing} thing */
async function byKeys(page, { mark, x_m, y_m, to_y_m }) {
  const [here, there] = [await pointOn(page, "floor", x_m, y_m), await pointOn(page, "floor", x_m, to_y_m)];
  const arrow = there.x < here.x - 1 ? "ArrowLeft" : there.x > here.x + 1 ? "ArrowRight" : there.y < here.y ? "ArrowUp" : "ArrowDown";
  await page.locator(mark).focus();
  for (let press = 0; press < 5; press += 1) await page.keyboard.press(`Shift+${arrow}`);
}

/** @param {Page} page @param {Thing} thing */
async function byNumbers(page, { mark, to_y_m }) {
  await page.locator(mark).focus();
  await page.keyboard.press("F2");
  const field = page.locator("[data-item-panel]").getByLabel("from the front wall");
  await field.fill(String(to_y_m));
  await field.press("Enter");
}

/** Move, and then a tap on the floor. @param {Page} page @param {Thing} thing */
async function byTap(page, { mark, x_m, to_y_m }) {
  await page.locator(mark).focus();
  await page.keyboard.press("Enter");
  await page.locator(".note-of-piece").getByRole("button", { name: "Move" }).tap();
  await expect(page.locator(".status")).toContainText("Tap the floor");
  const there = await pointOn(page, "floor", x_m, to_y_m);
  await page.touchscreen.tap(there.x, there.y);
  await expect(page.locator(".note-of-piece").getByRole("button", { name: "Move" })).toHaveAttribute("aria-pressed", "false");
}

/** What the page says about the place. @param {Page} page */
async function said(page) {
  await settled(page);
  const text = async (/** @type {string} */ part) => ((await page.locator(part).textContent()) ?? "").replace(/\s+/g, " ");
  return { bounces: await text(".bounces table"), share: await text(".share-part .says") };
}

for (const thing of THINGS) {
  test(`the ${thing.name} moved by drag, keys, numbers and taps is the same, and Bounce table and Seat share follow`, async ({ page }) => {
    test.slow();
    await open(page);
    const before = { document: await documentOf(page), said: await said(page) };
    /** @type {Awaited<ReturnType<typeof said>>[]} */
    const results = [];
    for (const [way, go] of /** @type {const} */ ([["drag", byDrag], ["keys", byKeys], ["numbers", byNumbers], ["taps", byTap]])) {
      await go(page, thing);
      await nextFrame(page);
      const { x_m, y_m } = thing.of(await documentOf(page));
      expect(Math.abs(x_m - thing.x_m), way).toBeLessThanOrEqual(0.001);
      expect(Math.abs(y_m - thing.to_y_m), way).toBeLessThanOrEqual(0.001);
      results.push(await said(page));
      await expect(step(page, "Undo"), way).toHaveText(/move (the seat|loudspeaker 1)/);
      // Keys that rest longer than a second between two steps leave two entries.
      for (let entry = 0; entry < (way === "keys" ? 5 : 1) && (await step(page, "Undo").getAttribute("aria-disabled")) === "false"; entry += 1) {
        await step(page, "Undo").click();
      }
      await expect(step(page, "Undo"), way).toHaveAttribute("aria-disabled", "true");
      expect(await documentOf(page)).toEqual(before.document);
    }
    for (const result of results) expect(result).toEqual(results[0]);
    expect(results[0].bounces).not.toBe(before.said.bounces);
    expect(results[0].share).not.toBe(before.said.share);
  });
}

test("Bounce table and Seat share follow while the seat is still held", async ({ page }) => {
  await open(page);
  await settled(page);
  const parts = async () => [await page.locator(".bounces table").textContent(), await page.locator("svg.shares").innerHTML()];
  const [there, from] = [await pointOn(page, "floor", 1.65, 4.4), await middleOf(page.locator("[data-sheet] [data-seat]"))];
  const before = await parts();
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  await page.mouse.move(there.x, there.y, { steps: 6 });
  await nextFrame(page);
  const during = await parts();
  during.forEach((part, index) => expect(part).not.toBe(before[index]));
  await page.keyboard.press("Escape");
  await page.mouse.up();
  await settled(page);
  expect(await parts()).toEqual(before);
});

test("a loudspeaker's turn and the way it spreads sound change what reaches the seat", async ({ page }) => {
  await open(page);
  const before = await said(page);
  await page.getByRole("button", { name: "left loudspeaker", exact: true }).click();
  const panel = page.locator("[data-item-panel]");
  await panel.getByLabel("how it spreads sound").selectOption("wide");
  const wide = await said(page);
  expect(wide.share).not.toBe(before.share);
  await panel.getByLabel("turned in, degrees").fill("40");
  await panel.getByLabel("turned in, degrees").press("Enter");
  await nextFrame(page);
  expect((await documentOf(page)).listening.loudspeakers[0]).toMatchObject({ directivity: "wide", toe_in_deg: 40 });
  expect((await said(page)).bounces).not.toBe(wide.bounces);
});
