// Story F from an empty room with single taps alone: no drag, no key. Letters come from the device's own on-screen keyboard,
// which gives them to the field as text.
import { test } from "@playwright/test";
import { pictures, storyF } from "./story_f.js";
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
  await storyF(page, {
    press: (what) => what.click(),
    type: async (what, text) => {
      await what.click();
      await what.evaluate((field) => /** @type {HTMLInputElement} */ (field).select());
      await page.keyboard.insertText(text);
      // A tap beside the field takes it.
      await what.evaluate((field) => /** @type {HTMLInputElement} */ (field).blur());
    },
    choose: async (what, words) => {
      await what.selectOption({ label: words });
    },
    toEnd: async (what) => {
      const box = await what.boundingBox();
      await what.click({ position: { x: (box?.width ?? 0) - 2, y: (box?.height ?? 0) / 2 } });
    },
  }, pictures(page, info, "taps"));
  test.expect(faults).toEqual([]);
});
