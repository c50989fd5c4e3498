// Saving to a file and opening one, good and bad.
import { readFile } from "node:fs/promises";
import { expect, test } from "@playwright/test";
import { documentOf, drag, example, middleOfPiece, open, pointOn, settledText } from "./support.js";

/** @import { Page } from "@playwright/test" */

/** @param {Page} page @param {string} text */
async function openText(page, text) {
  await page.locator("input[type=file]").setInputFiles({ name: "room.json", mimeType: "application/json", buffer: Buffer.from(text) });
}

test("a saved file brings the same room back", async ({ page, browser, baseURL }) => {
  await open(page);
  await drag(page, await middleOfPiece(page, 6), await pointOn(page, "left", 5.0, 1.6));
  const saved = { document: await documentOf(page), answer: await settledText(page) };
  const [download] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: "Save" }).click()]);
  expect(download.suggestedFilename()).toBe("long-terrace-room.json");
  const text = await readFile(await download.path(), "utf8");
  expect(JSON.parse(text)).toEqual(saved.document);
  const context = await browser.newContext({ baseURL, locale: "en-US" });
  const other = await context.newPage();
  await open(other);
  await openText(other, text);
  await expect.poll(() => settledText(other)).toBe(saved.answer);
  expect(await documentOf(other)).toEqual(saved.document);
  await context.close();
});

test("a bad file lists field, value and limit of each finding as text and changes nothing", async ({ page }) => {
  await open(page);
  const before = { document: await documentOf(page), answer: await settledText(page) };
  const bad = await example(page);
  bad.room.width_m = 4000;
  bad.plans[1].pieces[2].u_m = -7;
  bad.goal = { taste: "<i>loud</i>" };
  await openText(page, JSON.stringify(bad));
  const findings = page.locator(".findings");
  await expect(findings).toContainText("This file cannot be opened as it is. Your own room is untouched.");
  await expect(findings).toContainText("room.width_m");
  await expect(findings).toContainText("4000");
  await expect(findings).toContainText("25");
  expect(await findings.locator("li").count()).toBeGreaterThanOrEqual(1);
  await expect(findings.locator("i")).toHaveCount(0);
  expect(await documentOf(page)).toEqual(before.document);
  expect(await settledText(page)).toBe(before.answer);
  await findings.getByRole("button", { name: "Close" }).click();
  await expect(findings).toHaveCount(0);
});

for (const [name, text] of [["no JSON", "{\"format\": 1,"], ["a list", "[]"], ["too deep", `${"[".repeat(200)}${"]".repeat(200)}`], ["too long", `"${"x".repeat(300_000)}"`]]) {
  test(`a file that is ${name} is refused in words`, async ({ page }) => {
    await open(page);
    const before = await documentOf(page);
    await openText(page, text);
    await expect(page.locator(".findings")).toContainText(/not a room saved by this page|more than a room can have/);
    expect(await documentOf(page)).toEqual(before);
  });
}
