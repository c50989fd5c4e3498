// Areas round bounce marks at a chosen band, and second bounces on request.
import { expect, test } from "@playwright/test";
import { nextFrame, open } from "./support.js";

/** @import { Page } from "@playwright/test" */

/** Both radii of every outline on the drawing, px. @param {Page} page */
function radii(page) {
  return page.locator("[data-sheet] .zones ellipse").evaluateAll((outlines) => outlines.map((one) => (
    ["rx", "ry"].map((name) => Number(one.getAttribute(name))))));
}

test("the area that a bounce needs is drawn at the chosen band", async ({ page }) => {
  await open(page);
  const words = page.locator(".more-bounces .says");
  const pick = page.getByLabel("Band of the areas round the bounce marks");
  await expect(pick).toHaveValue("1000");
  const at1k = await radii(page);
  expect(at1k.length).toBeGreaterThanOrEqual(10);
  await expect(words).toContainText("at 1\u202fkHz");
  await pick.selectOption("250");
  await nextFrame(page);
  // A Fresnel zone grows as one over the root of the frequency: two octaves, twice the radius.
  const at250 = await radii(page);
  expect(at250).toHaveLength(at1k.length);
  at250.flat().forEach((radius, index) => expect(Math.abs(radius - 2 * at1k.flat()[index])).toBeLessThanOrEqual(0.2));
  await expect(words).toContainText("at 250\u202fHz");
});

test("second bounces are listed and marked on request", async ({ page }) => {
  await open(page);
  const marks = page.locator("[data-sheet] .marks.second .mark");
  await expect(marks).toHaveCount(0);
  await page.getByText("Second bounces, off two surfaces").click();
  const rows = page.locator(".more-bounces table tbody tr");
  expect(await rows.count()).toBeGreaterThanOrEqual(20);
  const [first, last] = await Promise.all([rows.first(), rows.last()].map(async (row) => Number(await row.locator("td").nth(1).innerText())));
  expect(first).toBeGreaterThan(0);
  expect(last).toBeGreaterThan(first);
  await page.getByLabel("mark them on the drawing").check();
  await expect.poll(() => marks.count()).toBeGreaterThanOrEqual(20);
  await page.getByLabel("mark them on the drawing").uncheck();
  await expect(marks).toHaveCount(0);
});
