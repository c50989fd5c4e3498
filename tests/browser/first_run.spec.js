// What a person sees who opens the page for the first time, and how they get to their own room.
import { expect, test } from "@playwright/test";
import { figure, linkOf, open, settledText, watch } from "./support.js";

test("the first view is a furnished room with its answer, without a click", async ({ page }) => {
  await open(page);
  await expect(page.getByLabel("Title of the room")).toHaveValue("Long terrace room");
  await expect(page.getByText("This is an example.")).toBeVisible();
  expect(await settledText(page)).toMatch(new RegExp("^Plan A: sound should die away in 0\\.\\d\\d–0\\.\\d\\d s, today \\d\\.\\d\\d–\\d\\.\\d\\d s\\. "
    + "Your goal is 0\\.30–0\\.50 s: ((very )?likely met|could go either way|(very )?unlikely to be met)\\. Shorter than today by 0\\.\\d\\d–0\\.\\d\\d s\\.$", "u"));
});

test("in the example the plan's decay is shorter than today's", async ({ page }) => {
  await open(page);
  const [low_s, high_s, today_low_s, today_high_s] = ((await settledText(page)).match(/\d\.\d\d/g) ?? []).map(Number);
  expect(low_s).toBeGreaterThan(0.1);
  expect(high_s).toBeGreaterThan(low_s);
  expect(low_s).toBeLessThan(today_low_s);
  expect(high_s).toBeLessThan(today_high_s);
});

test("each loudspeaker has bounce marks in view", async ({ page }) => {
  await open(page);
  for (const shape of ["circle", "path:not(.cross)"]) {
    const marks = page.locator(`[data-sheet] .marks .mark > ${shape}`);
    expect(await marks.count()).toBeGreaterThanOrEqual(2);
    await expect(marks.nth(0)).toBeInViewport();
    await expect(marks.nth(1)).toBeInViewport();
  }
});

test("three numbers give an own room and its answer at once", async ({ page }) => {
  await open(page);
  await page.getByRole("button", { name: "start with my room" }).click();
  const dialog = page.getByRole("dialog", { name: "Your room" });
  await expect(dialog.locator("input, select, textarea")).toHaveCount(3);
  for (const [label, value] of [["Width", "3.10"], ["Length", "4.30"], ["Height", "2.45"]]) {
    await dialog.getByLabel(label).fill(value);
  }
  await dialog.getByRole("button", { name: "Draw it" }).click();
  await expect(dialog).toBeHidden();
  await expect(page.getByLabel("Title of the room")).toHaveValue("My room");
  await expect(page.getByText("32.7").first()).toBeVisible();
  await expect(page.getByText("This is an example.")).toHaveCount(0);
  expect(await settledText(page)).toMatch(/should die away in \d\.\d\d–\d\.\d\d s, the same as today\. Your goal is/);
});

test("a number that cannot be a room is refused in words and nothing changes", async ({ page }) => {
  await open(page);
  const before = await settledText(page);
  await page.getByRole("button", { name: "start with my room" }).click();
  const dialog = page.getByRole("dialog", { name: "Your room" });
  await dialog.getByLabel("Width").fill("wide");
  await dialog.getByLabel("Length").fill("400");
  await dialog.getByLabel("Height").fill("2.45");
  await dialog.getByRole("button", { name: "Draw it" }).click();
  await expect(dialog.getByRole("alert").nth(0)).not.toBeEmpty();
  await expect(dialog.getByRole("alert").nth(1)).toHaveText("A side has to lie between 1.20 m and 25.00 m.");
  await dialog.getByRole("button", { name: "Not now" }).click();
  expect(await settledText(page)).toBe(before);
});

test("nothing is complained about, nothing leaves the page's own address, and no request carries the document", async ({ page, baseURL }) => {
  const seen = watch(page);
  await open(page);
  const link = await linkOf(page);
  await page.reload();
  await expect(figure(page)).toBeVisible();
  const own = new URL(baseURL ?? "").origin;
  const addresses = seen.asked.map(({ address }) => new URL(address)).filter(({ protocol }) => protocol !== "data:" && protocol !== "blob:");
  expect(addresses.length).toBeGreaterThan(8);
  expect(addresses.filter(({ origin }) => origin !== own)).toEqual([]);
  const body = link.slice(3, 60);
  expect(seen.asked.filter(({ address, body: sent }) => address.split("#")[0].includes(body) || sent !== "")).toEqual([]);
  expect(seen.complaints).toEqual([]);
});
