// Story F from an empty room with a finger on a screen of 360 × 740: taps, one surface at a time, nothing sideways.
import { expect, test } from "@playwright/test";
import { pictures, storyF, tappingHand } from "./story_f.js";
import { open } from "./support.js";

test.use({ viewport: { width: 360, height: 740 }, hasTouch: true });

test("story F is completed with a finger on a small screen", async ({ page }, info) => {
  test.setTimeout(900_000);
  page.setDefaultTimeout(40_000);
  await page.addInitScript(() => {
    addEventListener("keydown", () => { throw new Error("keydown in a story of a finger"); }, { capture: true });
  });
  /** @type {string[]} */
  const faults = [];
  page.on("pageerror", (error) => faults.push(String(error)));
  const picture = pictures(page, info, "touch");
  await open(page);
  await storyF(page, tappingHand(page, "tap"), async (name) => {
    expect(await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth), name).toBeLessThanOrEqual(0);
    await picture(name);
  });
  expect(faults).toEqual([]);
});
