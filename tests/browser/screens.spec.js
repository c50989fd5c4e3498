// How the page stands on screens of four sizes, light and dark: nothing cut, nothing sideways, readable for all.
import { expect, test } from "@playwright/test";
import { sideways, violations } from "./axe.js";
import { bassThere, open, piece } from "./support.js";

/** @import { Page, TestInfo } from "@playwright/test" */

const SCREENS = [
  { width: 1440, height: 900 },
  { width: 1000, height: 900 },
  { width: 390, height: 844 },
  { width: 320, height: 700 },
];

/** @param {Page} page @param {TestInfo} info @param {string} name */
async function picture(page, info, name) {
  await info.attach(name, { body: await page.screenshot({ fullPage: true }), contentType: "image/png" });
}

for (const colorScheme of /** @type {const} */ (["light", "dark"])) {
  for (const viewport of SCREENS) {
    test.describe(`${viewport.width} × ${viewport.height}, ${colorScheme}`, () => {
      test.use({ viewport, colorScheme });

      test("the answer is in view and the page does not scroll sideways", async ({ page }, info) => {
        await open(page);
        await expect(page.locator(".answer h1")).toBeInViewport({ ratio: 1 });
        expect(await sideways(page)).toBeLessThanOrEqual(0);
        await picture(page, info, "first view");
      });

      test("no accessibility rule is broken, at first and with a piece chosen", async ({ page }, info) => {
        test.slow();
        await open(page);
        expect(await violations(page)).toEqual([]);
        await piece(page, 2).focus();
        await page.keyboard.press("ArrowRight");
        await expect(page.locator("[data-item-panel] h2")).not.toHaveText("The selected piece");
        await picture(page, info, "piece chosen");
        expect(await sideways(page)).toBeLessThanOrEqual(0);
        expect(await violations(page)).toEqual([]);
      });
    });
  }
}

for (const colorScheme of /** @type {const} */ (["light", "dark"])) {
  for (const viewport of [SCREENS[0], SCREENS[2]]) {
    test.describe(`what comes later, ${viewport.width} × ${viewport.height}, ${colorScheme}`, () => {
      test.use({ viewport, colorScheme });

      test("breaks no accessibility rule, folded and unfolded, fresh and old", async ({ page }, info) => {
        test.setTimeout(180_000);
        await open(page);
        await bassThere(page);
        await page.getByText("Second bounces, off two surfaces").click();
        await page.getByLabel("mark them on the drawing").check();
        await page.locator(".share-part details.figures > summary").first().click();
        await page.getByRole("button", { name: "left loudspeaker", exact: true }).click();
        await expect(page.locator("[data-item-panel] h2")).toHaveText("Left loudspeaker");
        await picture(page, info, "what comes later");
        expect(await sideways(page)).toBeLessThanOrEqual(0);
        expect(await violations(page)).toEqual([]);
        await page.locator(".share-part details.figures > summary").first().click();
        await page.getByText("Why?").click();
        await expect(page.getByText("The range holds 8 times in 10")).toBeVisible();
        // With its workers held back the page keeps old figures for as long as this looks at them.
        await page.evaluate(() => { Worker.prototype.postMessage = () => {}; });
        await page.locator("[data-item-panel]").getByLabel("turned in, degrees").fill("30");
        await page.locator("[data-item-panel]").getByLabel("turned in, degrees").press("Enter");
        await expect(page.locator(".bass-part")).toHaveAttribute("aria-busy", "true");
        await picture(page, info, "old figures");
        expect(await violations(page)).toEqual([]);
      });
    });
  }
}

test.describe("with the dialog for an own room open", () => {
  test("no accessibility rule is broken", async ({ page }) => {
    await open(page);
    await page.getByRole("button", { name: "start with my room" }).click();
    expect(await violations(page)).toEqual([]);
  });
});

test.describe("a screen of 1440 × 900", () => {
  test.use({ viewport: { width: 1440, height: 900 } });

  test("shows room, shelf, decay and bounces without scrolling", async ({ page }) => {
    await open(page);
    for (const part of ["[data-sheet=box]", ".kit", "svg.decay", ".bounces table"]) {
      await expect(page.locator(part), part).toBeInViewport({ ratio: 1 });
    }
  });
});

for (const width of [1200, 1280]) {
  test(`the groups of the Kit shelf stand on one line at ${width} px`, async ({ page }) => {
    await page.setViewportSize({ width, height: 800 });
    await open(page);
    const tops = await page.locator(".kit-groups button").evaluateAll((buttons) => buttons.map((button) => Math.round(button.getBoundingClientRect().top)));
    expect(tops.length).toBeGreaterThan(5);
    expect(new Set(tops).size).toBe(1);
  });
}
