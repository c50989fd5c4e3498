// Nothing moves when ranges, shares and bass arrive: what they need is kept free from the start.
import { expect, test } from "@playwright/test";
import { bassThere, holdWorkers, nextFrame, open } from "./support.js";

/** @import { Page } from "@playwright/test" */

const WIDTHS = [1440, 1280, 1000, 390, 320];
/** Whatever follows after something that grew would be found by one of these. */
const PARTS = ["section", "h2", ".stage", ".plans", "svg.chart", "table", ".figures > summary", "[data-sheet]", ".kit"].map((part) => `main ${part}`).join();

/**
 * Notes where every part of the page stands and how high it is, frame by frame from now on, each arrangement once.
 * @param {Page} page @returns {Promise<() => Promise<string[]>>}
 */
async function arrangements(page) {
  await page.evaluate((parts) => {
    /** @type {Set<string>} */
    const found = new Set();
    const inView = (/** @type {Element} */ part) => !part.matches("details:not([open]) :not(summary)");
    const look = () => {
      found.add([...document.querySelectorAll(parts)].filter(inView).map((part) => {
        const { top, height } = part.getBoundingClientRect();
        return `${part.tagName} ${Math.round(top + scrollY)} + ${Math.round(height)}`;
      }).join("\n"));
      requestAnimationFrame(look);
    };
    Object.assign(self, { found });
    look();
  }, PARTS);
  return () => page.evaluate(() => [.../** @type {{found: Set<string>}} */ (/** @type {unknown} */ (self)).found]);
}

for (const width of WIDTHS) {
  for (const units of /** @type {const} */ (["metric", "imperial"])) {
    for (const colorScheme of /** @type {const} */ (["light", "dark"])) {
      test.describe(`${width} px, ${units}, ${colorScheme}`, () => {
        test.use({ viewport: { width, height: 900 }, colorScheme });

        test("nothing moves when what is computed later arrives", async ({ page }) => {
          const letGo = await holdWorkers(page);
          await open(page);
          await page.evaluate(() => document.fonts.ready);
          // What stands below the first screen is drawn part by part; this is its last.
          await expect(page.getByRole("button", { name: "Print the figures" })).toBeAttached();
          if (units === "imperial") await page.getByRole("button", { name: /^Units/ }).click();
          await nextFrame(page);
          const onLoad = await arrangements(page);
          letGo();
          await bassThere(page);
          const [first, ...others] = await onLoad();
          expect(first.split("\n").length).toBeGreaterThan(25);
          for (const other of others) expect(other).toBe(first);
          const field = page.getByLabel("From left or front, piece 7");
          await field.fill("5.60 m");
          await field.press("Enter");
          await nextFrame(page);
          const afterMove = await arrangements(page);
          await bassThere(page);
          const [again, ...moved] = await afterMove();
          for (const other of moved) expect(other).toBe(again);
        });
      });
    }
  }
}
