// Several rooms are kept in one browser: each by itself, none lost by starting over, and all forgotten at a word.
import { expect, test } from "@playwright/test";
import { documentOf, drag, figure, middleOf, onShelf, open, packed, pieces, pointOn, step } from "./support.js";

/** @import { Page } from "@playwright/test" */

/** Everything that the browser keeps for the page. @param {Page} page */
const stored = (page) => page.evaluate(() => Object.keys(localStorage).sort());

/** The room that opens first. @param {Page} page @returns {Promise<any>} */
const draft = (page) => page.evaluate(() => JSON.parse(localStorage.getItem("seatward.draft") ?? "null"));

/** The example with one piece more, as an own room. @param {Page} page */
async function makeDraft(page) {
  await open(page);
  await drag(page, await middleOf(onShelf(page, "thin")), await pointOn(page, "left", 4.9, 1.5));
  const document = await documentOf(page);
  await expect.poll(() => draft(page)).toEqual(document);
  return document;
}

/** @param {Page} page @param {string} [title] a name for it */
async function startOver(page, title) {
  await page.getByText("Rooms", { exact: true }).click();
  await page.getByRole("button", { name: "Start over with a new room" }).click();
  const dialog = page.getByRole("dialog", { name: "Your room" });
  for (const [label, value] of [["Width", "3.10"], ["Length", "4.30"], ["Height", "2.45"]]) await dialog.getByLabel(label).fill(value);
  await dialog.getByRole("button", { name: "Draw it" }).click();
  if (title) {
    await page.getByLabel("Title of the room").fill(title);
    await page.getByLabel("Title of the room").press("Enter");
  }
  await expect.poll(async () => (await draft(page))?.title).toBe(title ?? "My room");
}

test("starting over keeps the room before, and each opens again as it was left", async ({ page }) => {
  const first = await makeDraft(page);
  await startOver(page, "Second room");
  await startOver(page, "Third room");
  await page.getByText("Rooms", { exact: true }).click();
  const kept = page.getByRole("list", { name: "Kept rooms" }).getByRole("listitem");
  await expect(kept).toHaveCount(2);
  await expect(kept.nth(0)).toContainText("Second room");
  await kept.nth(1).getByRole("button").first().click();
  await expect(pieces(page)).toHaveCount(12);
  expect(await documentOf(page)).toEqual(first);
  await expect.poll(() => draft(page)).toEqual(first);
  await page.getByText("Rooms", { exact: true }).click();
  await expect(kept).toHaveCount(2);
  await expect(kept.nth(0)).toContainText("Third room");
});

test("undo leads back to the room before, and changes go into that one", async ({ page }) => {
  const first = await makeDraft(page);
  await startOver(page);
  await step(page, "Undo").click();
  expect(await documentOf(page)).toEqual(first);
  await expect.poll(() => draft(page)).toEqual(first);
  await page.getByText("Rooms", { exact: true }).click();
  const kept = page.getByRole("list", { name: "Kept rooms" }).getByRole("listitem");
  await expect(kept).toHaveCount(1);
  await expect(kept).toContainText("My room");
});

test("a link that only visits is not kept, nor does it change what is", async ({ page }) => {
  const first = await makeDraft(page);
  const before = await stored(page);
  await page.evaluate((hash) => { location.hash = hash; }, packed({ ...first, title: "Somebody else" }));
  await expect(page.getByLabel("Shared plan")).toBeVisible();
  await page.waitForTimeout(700);
  expect(await stored(page)).toEqual(before);
  expect(await draft(page)).toEqual(first);
});

test("one room is forgotten, the others stay", async ({ page }) => {
  await makeDraft(page);
  await startOver(page, "Second room");
  await page.getByText("Rooms", { exact: true }).click();
  await page.getByRole("button", { name: "Forget Long terrace room" }).click();
  await expect(page.getByText("No other room is kept yet.")).toBeVisible();
  expect((await draft(page)).title).toBe("Second room");
});

test("after “forget it” nothing is stored, also once the page is left, and there are no cookies", async ({ page, context }) => {
  await makeDraft(page);
  await startOver(page, "Second room");
  expect((await stored(page)).length).toBeGreaterThan(2);
  await page.getByRole("button", { name: "Forget it" }).click();
  await expect(page.locator(".status")).toContainText("nothing is kept in this browser now");
  expect(await stored(page)).toEqual([]);
  await page.goto("about:blank");
  await open(page);
  expect(await stored(page)).toEqual([]);
  await expect(page.getByText("This is an example.")).toBeVisible();
  expect(await page.evaluate(() => sessionStorage.length)).toBe(0);
  expect(await page.evaluate(async () => (await indexedDB.databases()).length)).toBe(0);
  expect(await context.cookies()).toEqual([]);
});

test("a browser that keeps nothing does not stop the page, and a full one says so", async ({ page }) => {
  await page.addInitScript(() => { Storage.prototype.setItem = () => { throw new DOMException("full", "QuotaExceededError"); }; });
  await open(page);
  await drag(page, await middleOf(onShelf(page, "thin")), await pointOn(page, "left", 4.9, 1.5));
  await expect(page.locator(".status")).toContainText("This browser has no room left to keep this");
  await expect(figure(page)).toBeVisible();
});
