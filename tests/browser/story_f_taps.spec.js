// Story F from an empty room with single taps alone: no drag, no key.
import { test } from "@playwright/test";
import { pictures, storyF, tappingHand } from "./story_f.js";
import { open } from "./support.js";

test("story F is completed with single taps alone", async ({ page }, info) => {
  test.setTimeout(900_000);
  page.setDefaultTimeout(40_000);
  await page.addInitScript(() => {
    for (const type of ["keydown", "dragstart"]) addEventListener(type, () => { throw new Error(`${type} in a story of taps`); }, { capture: true });
  });
  /** @type {string[]} */
  const faults = [];
  page.on("pageerror", (error) => faults.push(String(error)));
  await open(page);
  await storyF(page, tappingHand(page, "click"), pictures(page, info, "taps"));
  test.expect(faults).toEqual([]);
});
