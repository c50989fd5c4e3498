// Under a finger every target is 44 px up to 1200 px of width, and what has the focus is never under what is fixed.
import { expect, test } from "@playwright/test";
import { open, piece } from "./support.js";

/** @import { Page } from "@playwright/test" */

const TARGET_PX = 44;

/** Opens every fold, so that all there is to press is there. @param {Page} page */
async function unfoldAll(page) {
  await expect(page.locator(".listen-part")).toBeAttached();
  await page.evaluate(() => { for (const fold of document.querySelectorAll("details")) { fold.removeAttribute("name"); fold.open = true; } });
  for (const part of [".costs-body", ".checkup-form", ".advice .ask", ".room-view svg"]) await expect(page.locator(part).first()).toBeAttached({ timeout: 30_000 });
  await page.evaluate(() => { for (const fold of document.querySelectorAll("details")) fold.open = true; });
}

/** All that is pressed, and what is smaller than a finger; a box to tick counts with its label. @param {Page} page */
const measured = (page) => page.evaluate((least_px) => {
  const all = [...document.querySelectorAll("button, summary, select, textarea, input:not(.unseen), .foot a, .hit")].filter((one) => {
    const { width, height } = one.getBoundingClientRect();
    return width > 1 && height > 1 && getComputedStyle(one).visibility !== "hidden";
  });
  const small = all.flatMap((one) => {
    const box = (one.matches("input[type=checkbox], input[type=radio], input[type=file]") ? one.closest("label") ?? one : one).getBoundingClientRect();
    const words = `${one.tagName.toLowerCase()}.${one.getAttribute("class") ?? ""} in ${one.parentElement?.getAttribute("class") ?? one.parentElement?.tagName}, ${(one.textContent ?? "").trim().slice(0, 20)}`;
    return box.width < least_px - 0.5 || box.height < least_px - 0.5 ? [`${words}: ${box.width.toFixed(0)} x ${box.height.toFixed(0)}`] : [];
  });
  return { count: all.length, small: [...new Set(small)] };
}, TARGET_PX);

for (const viewport of [{ width: 360, height: 740 }, { width: 820, height: 1180 }]) {
  test.describe(`under a finger, ${viewport.width} × ${viewport.height}`, () => {
    test.use({ viewport, hasTouch: true, isMobile: true });

    test("every button, field, fold and hit area is 44 px each way", async ({ page }) => {
      await open(page);
      expect(await page.evaluate(() => matchMedia("(pointer: coarse)").matches)).toBe(true);
      await page.locator(".parts tbody .word-button").first().evaluate((one) => /** @type {HTMLElement} */ (one).click());
      await unfoldAll(page);
      await expect(page.locator(".grip-group .hit").first()).toBeAttached();
      const { count, small } = await measured(page);
      expect(count).toBeGreaterThan(150);
      expect(small).toEqual([]);
    });
  });
}

/** Steps of the walk by Tab, each way. */
const WALK = 45;

/** What has the focus, if something fixed lies over it or it is out of view; null otherwise. */
function covered() {
  const one = document.activeElement;
  if (!one || one === document.body) return null;
  const FIXED = ".foot, .status, .short-answer, .lead";
  const { x, y, width, height } = one.getBoundingClientRect();
  const inside = (/** @type {number} */ value, /** @type {number} */ most) => Math.min(most - 1, Math.max(0, value));
  const tops = [0.25, 0.5, 0.75].map((share) => document.elementFromPoint(inside(x + width / 2, innerWidth), inside(y + height * share, innerHeight)));
  const under = tops.filter((top) => { const over = top?.closest(FIXED); return over && !over.contains(one); });
  const isHidden = y >= innerHeight || y + height <= 0 || (height < innerHeight / 2 ? under.length > 0 : under.length === tops.length);
  return isHidden ? `${one.tagName} ${(one.getAttribute("aria-label") ?? one.textContent ?? "").trim().slice(0, 40)}` : null;
}

for (const viewport of [{ width: 360, height: 740 }, { width: 320, height: 568 }, { width: 320, height: 256 }]) {
  test.describe(`the focus, ${viewport.width} × ${viewport.height}`, () => {
    test.use({ viewport });

    test("is never under what is fixed, forward and back, with a word on the status line", async ({ page }) => {
      test.setTimeout(240_000);
      await open(page);
      await expect(page.locator(".listen-part")).toBeAttached();
      // A notice stands above the foot while one walks.
      await page.locator(".parts tbody .word-button").first().focus();
      await page.keyboard.press("Control+z");
      await expect(page.locator(".status p")).not.toBeEmpty();
      await page.evaluate(() => { scrollTo(0, 0); /** @type {HTMLElement} */ (document.activeElement)?.blur(); });
      const hidden = [];
      for (const key of ["Tab", "Shift+Tab"]) {
        for (let walked = 0; walked < WALK; walked += 1) {
          await page.keyboard.press(key);
          const words = await page.evaluate(covered);
          if (words) hidden.push(`${key}: ${words}`);
        }
      }
      // The rest of the page by the same scrolling, without the keys between.
      const { count, rest } = await page.evaluate((source) => {
        const covered = new Function(`return (${source})()`);
        const all = /** @type {HTMLElement[]} */ ([...document.querySelectorAll("main button, main summary, main select, main input, main a")]).filter((one) => one.checkVisibility() && one.tabIndex >= 0);
        return { count: all.length, rest: all.flatMap((one) => { one.focus(); return document.activeElement === one ? covered() ?? [] : []; }) };
      }, covered.toString());
      expect(count).toBeGreaterThan(60);
      expect([...hidden, ...rest]).toEqual([]);
    });

    test("the short answer stays in view", async ({ page }) => {
      test.skip(viewport.height < 480, "nothing is fixed on so low a screen");
      await open(page);
      await page.evaluate(() => scrollTo(0, document.body.scrollHeight / 2));
      await expect(page.locator(".short-answer")).toBeInViewport({ ratio: 1 });
      await expect(page.locator(".short-answer")).toHaveText(/^Plan A: .*\d/);
      const { height } = /** @type {{height: number}} */ (await page.locator(".short-answer").boundingBox());
      expect(height).toBeLessThan(40);
    });
  });
}
