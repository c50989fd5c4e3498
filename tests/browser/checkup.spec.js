// The check-up by keyboard: decays are typed and pasted, compared, changed, removed, taken back, and travel in the link.
import { expect, test } from "@playwright/test";
import { documentOf, linkOf, open, settled, settledText } from "./support.js";

/** @import { Page } from "@playwright/test" */

/** A check-up answers after ranges and bass, and shares the machine with the other tests. */
const LATE = Object.freeze({ timeout: 30_000 });
test.setTimeout(150_000);

/** Opens the fold with the keyboard and waits for what it holds. @param {Page} page */
async function openCheckup(page) {
  const summary = page.locator("#checkup summary").first();
  await summary.focus();
  await page.keyboard.press("Enter");
  await expect(page.getByRole("heading", { name: "What would make this surer?" })).toBeVisible(LATE);
}

/** Until the check-up has answered for what is on the sheet. @param {Page} page */
async function checkupThere(page) {
  await expect(page.locator(".checkup")).toHaveAttribute("aria-busy", "false", { timeout: 60_000 });
}

/** Low and high of the range of the answer, s. @param {string} text */
function rangeOf(text) {
  const found = /(\d\.\d\d)–(\d\.\d\d)/.exec(text);
  return found ? [Number(found[1]), Number(found[2])] : [];
}

/** Types times into the fields of the form, one after the other by Tab, and enters them. @param {Page} page @param {string[]} times */
async function typeTimes(page, times) {
  await page.locator(".checkup-form input[data-hz]").first().focus();
  for (const time of times) {
    await page.keyboard.type(time);
    await page.keyboard.press("Tab");
  }
  await page.getByRole("button", { name: "Enter this check-up" }).focus();
  await page.keyboard.press("Enter");
}

test("a measured decay typed by keyboard narrows the range, says so, and is taken back by undo", async ({ page }) => {
  await open(page);
  const before = rangeOf(await settledText(page));
  await openCheckup(page);
  await checkupThere(page);
  await expect(page.locator(".surer li")).toHaveCount(4);
  await expect(page.locator(".surer li").first()).toContainText("One measured decay");
  await expect(page.locator(".checkup .caution")).toContainText("No balloons or bangs near ears.");
  await page.getByLabel("Measured plan").selectOption("Now");
  await typeTimes(page, ["", "0,80", "0.82", "0.80", "0.75", "0.66"]);
  const text = await settledText(page);
  expect(text).toContain("after your check-up");
  const after = rangeOf(text);
  expect(after[1] - after[0]).toBeLessThan(before[1] - before[0]);
  expect((await documentOf(page)).measured).toEqual([{ plan: "Now", bands_hz: [250, 500, 1000, 2000, 4000], decay_s: [0.8, 0.82, 0.8, 0.75, 0.66] }]);
  await checkupThere(page);
  const entry = page.getByRole("region", { name: "Check-up 1" });
  await expect(entry.getByRole("img")).toHaveAccessibleName(/measured and predicted decay by band/);
  await expect(entry.locator("tbody tr")).toHaveCount(5);
  await expect(entry.locator(".says")).toContainText(/range/);
  await expect(page.locator("#decay-title")).toContainText("after your check-up");
  await page.keyboard.press("Control+z");
  await settled(page);
  expect((await documentOf(page)).measured).toBeUndefined();
  expect(rangeOf(await settledText(page))).toEqual(before);
});

test("several bands are pasted at once, changed in the table, and removed", async ({ page, context }) => {
  await context.grantPermissions(["clipboard-read", "clipboard-write"]);
  await open(page);
  await openCheckup(page);
  await page.evaluate(() => navigator.clipboard.writeText("250\t0,80\n500\t0,82\n1000\t0,80"));
  await page.locator(".checkup-form input[data-hz='125']").focus();
  await page.keyboard.press("Control+v");
  await expect(page.locator(".checkup-form input[data-hz='1000']")).toHaveValue("0.80");
  await page.getByRole("button", { name: "Enter this check-up" }).press("Enter");
  await expect(page.getByRole("region", { name: "Check-up 1" })).toBeVisible(LATE);
  const field = page.getByRole("textbox", { name: /Measured at 500/ });
  await field.fill("25");
  await field.press("Enter");
  await expect(page.locator(".time-field .wrong").filter({ hasText: "between 0.05 and 20 s" })).toBeVisible();
  await field.press("Escape");
  await expect(field).toHaveValue("0.82");
  await field.fill("0.84");
  await field.press("Enter");
  await expect.poll(async () => (await documentOf(page)).measured?.[0].decay_s, LATE).toEqual([0.8, 0.84, 0.8]);
  await page.getByRole("button", { name: "Remove this check-up" }).press("Enter");
  await expect.poll(async () => (await documentOf(page)).measured, LATE).toBeUndefined();
});

test("figures that no such room can have change nothing, and three likely causes are named", async ({ page }) => {
  await open(page);
  const before = rangeOf(await settledText(page));
  await openCheckup(page);
  await page.getByLabel("Measured plan").selectOption("Now");
  await page.locator(".checkup-form textarea").fill("250 2.8; 500 2.9; 1000 2.8; 2000 2.5; 4000 2.0".replaceAll("; ", "\n"));
  await page.getByRole("button", { name: "Enter this check-up" }).press("Enter");
  await settled(page);
  await checkupThere(page);
  await expect(page.locator(".checkup")).toContainText("Check the room description");
  await expect(page.locator(".checkup")).toContainText("Nothing was changed");
  await expect(page.locator(".checkup [role=status] ol li")).toHaveCount(3);
  const text = await settledText(page);
  expect(rangeOf(text)).toEqual(before);
  expect(text).not.toContain("after your check-up");
});

test("a check-up travels in the link", async ({ page, browser }) => {
  await open(page);
  await openCheckup(page);
  await page.locator(".checkup-form textarea").fill("500 0.50");
  await page.getByRole("button", { name: "Enter this check-up" }).press("Enter");
  await expect.poll(async () => (await documentOf(page)).measured?.length, LATE).toBe(1);
  const text = await settledText(page);
  const other = await (await browser.newContext()).newPage();
  await open(other, await linkOf(page));
  expect(await settledText(other)).toBe(text);
  await expect(other.locator("#checkup header")).toContainText("1 measured decay entered");
});
