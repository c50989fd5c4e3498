// Story F from an empty room with the keyboard alone: Tab finds everything, focus is always seen, nothing needs a pointer.
import { expect, test } from "@playwright/test";
import { pictures, storyF } from "./story_f.js";
import { open } from "./support.js";

/** @import { Locator, Page } from "@playwright/test" */

/** More stops than the page has. */
const MOST_STOPS = 400;

/**
 * Goes by Tab, or back by Shift+Tab, whichever way it lies, until the focus is there.
 * @param {Page} page @param {Locator} what
 */
async function reach(page, what) {
  const target = await what.elementHandle();
  if (!target) throw new Error("nothing to reach");
  for (let stops = 0; stops < MOST_STOPS; stops += 1) {
    const way = await target.evaluate((element) => {
      const { activeElement: active } = document;
      if (active === element) return "there";
      const isBefore = active && (element.compareDocumentPosition(active) & Node.DOCUMENT_POSITION_FOLLOWING) !== 0;
      return isBefore ? "Shift+Tab" : "Tab";
    });
    if (way === "there") return expectSeen(page);
    await page.keyboard.press(way);
  }
  throw new Error(`not reached by Tab: ${await what.innerText().catch(() => "")}`);
}

/** The focused element has a ring or frame, is in the window, and nothing lies over it. @param {Page} page */
async function expectSeen(page) {
  const seen = await page.evaluate(() => {
    const active = document.activeElement;
    if (!active || active === document.body) return { focus: "lost" };
    const box = active.getBoundingClientRect();
    const [x, y] = [box.x + box.width / 2, box.y + Math.min(box.height / 2, 12)];
    const top = document.elementFromPoint(x, y);
    const style = getComputedStyle(active);
    const isFramed = [...active.querySelectorAll(".focus-frame, .hit, .place")].some((frame) => {
      const { stroke, strokeWidth } = getComputedStyle(frame);
      return stroke !== "none" && parseFloat(strokeWidth) >= 2;
    });
    const ring = (style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 1) || isFramed
      || (active instanceof HTMLInputElement && active.matches(".open-file input"));
    const over = top !== null && !active.contains(top) && !top.contains(active) && top.closest("label") !== active.closest("label");
    return { inWindow: y >= 0 && y <= innerHeight, ring, over: over ? top.outerHTML.slice(0, 120) : "" };
  });
  expect(seen).toEqual({ inWindow: true, ring: true, over: "" });
}

test("story F is completed with the keyboard alone", async ({ page }, info) => {
  test.setTimeout(900_000);
  await page.addInitScript(() => {
    for (const type of ["pointerdown", "mousedown", "touchstart"]) {
      addEventListener(type, () => { throw new Error(`${type} in a story of keys`); }, { capture: true });
    }
  });
  /** @type {string[]} */
  const faults = [];
  page.on("pageerror", (error) => faults.push(String(error)));
  await open(page);
  await storyF(page, {
    press: async (what) => {
      await reach(page, what);
      const isBox = await what.evaluate((element) => element.matches("input[type=checkbox], input[type=radio]"));
      await page.keyboard.press(isBox ? "Space" : "Enter");
    },
    type: async (what, text) => {
      await reach(page, what);
      await page.keyboard.press("Control+A");
      await page.keyboard.type(text);
      if (!(await what.evaluate((element) => element.closest("dialog") !== null))) await page.keyboard.press("Enter");
    },
    choose: async (what, words) => {
      await reach(page, what);
      await page.keyboard.type(words.slice(0, 4));
      await expect(what.locator("option:checked")).toHaveText(words);
    },
    toEnd: async (what) => {
      await reach(page, what);
      await page.keyboard.press("End");
    },
  }, pictures(page, info, "keyboard"));
  expect(faults).toEqual([]);
});
