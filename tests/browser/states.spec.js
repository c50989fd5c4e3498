// No accessibility rule is broken in any state of the page: first run, each part open, something picked or chosen, wrong
// numbers, what is missing, visits, dialogs; wide and narrow, light and dark.
import { AxeBuilder } from "@axe-core/playwright";
import { expect, test } from "@playwright/test";
import { example, open, packed } from "./support.js";

/** @import { Page } from "@playwright/test" */

const STANDARDS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];

/** What the rules find, as short lines. @param {Page} page */
async function violations(page) {
  const { violations: found, passes } = await new AxeBuilder({ page }).withTags(STANDARDS).analyze();
  expect(passes.length).toBeGreaterThan(10);
  return found.flatMap(({ id, nodes }) => nodes.map((node) => `${id}: ${node.target.join(" ")} ${node.failureSummary ?? ""}`));
}

/** Opens what is folded and closes what was open before in the same group. @param {Page} page @param {string} selector */
const unfold = (page, selector) => page.locator(selector).evaluate((one) => { /** @type {HTMLDetailsElement} */ (one).open = true; });

/** Clicks without asking where it lies: what is looked at is the state, not the way there. @param {Page} page @param {string} selector @param {RegExp} [text] */
const press = (page, selector, text = /./) => page.locator(selector, { hasText: text }).first().evaluate((one) => /** @type {HTMLElement} */ (one).click());

/** States one after the other, and how to get there. @type {[name: string, go: (page: Page) => Promise<unknown>][]} */
const STATES = [
  ["first run", async () => {}],
  ...["Size", "Walls", "Floor", "Openings", "In it", "Goal", "Limits"].map((label) => /** @type {[string, (page: Page) => Promise<unknown>]} */ ([
    `room facts, ${label}`, (page) => page.locator("details.fact", { has: page.locator(".fact-label", { hasText: label }) }).evaluate((one) => { /** @type {HTMLDetailsElement} */ (one).open = true; }),
  ])),
  ["a size that is not taken", async (page) => {
    await page.locator("details.fact .three input").first().evaluate((field) => {
      /** @type {HTMLInputElement} */ (field).value = "400";
      field.dispatchEvent(new Event("change"));
    });
    await expect(page.locator(".wrong-size")).toBeVisible();
  }],
  ["a thing with own values", async (page) => {
    await press(page, "button", /add a thing with own values/);
    await unfold(page, "details[name=own-things]");
  }],
  ["a piece chosen", (page) => press(page, ".parts tbody .word-button")],
  ["several pieces chosen", async (page) => {
    for (const index of [1, 2]) await page.locator(".also-box input").nth(index).evaluate((box) => /** @type {HTMLElement} */ (box).click());
    await expect(page.locator("#item-title")).toHaveText(/3 pieces/);
  }],
  ["copied, to be pasted", (page) => press(page, ".item button", /^Copy$/)],
  ["a piece picked from the shelf", async (page) => {
    await press(page, ".item button", /Select none/);
    await press(page, ".kit .pick");
    await expect(page.locator("[data-landing]").first()).toBeAttached();
  }],
  ["the seat waiting for a tap", async (page) => {
    await press(page, ".kit .pick");
    await press(page, ".item button", /^seat$/);
    await press(page, ".item button, .note-of-piece button", /^Move$/);
  }],
  ["no loudspeakers and no seat", async (page) => {
    await press(page, ".item button", /Remove the seat/);
    await press(page, ".item button", /left loudspeaker/);
    await press(page, ".item button", /Remove the loudspeakers/);
    await expect(page.locator(".share-part")).toContainText("Put them back");
  }],
  ["the rooms that are kept", async (page) => {
    await page.locator("details", { has: page.locator("[data-rooms]") }).last().evaluate((one) => { /** @type {HTMLDetailsElement} */ (one).open = true; });
    await expect(page.getByRole("button", { name: "Start over with a new room" })).toBeAttached();
  }],
  ["a broken link", async (page) => {
    await page.evaluate(() => { location.hash = "#1.broken"; });
    await expect(page.locator(".findings")).toBeVisible();
  }],
  ["a visit", async (page) => {
    await press(page, ".findings button");
    await page.evaluate((hash) => { location.hash = hash; }, packed({ ...(await example(page)), title: "Somebody else" }));
    await expect(page.getByLabel("Shared plan")).toBeVisible();
  }],
  ["a document of a newer version", async (page) => {
    await page.evaluate((hash) => { location.hash = hash; }, packed({ ...(await example(page)), format: 2 }));
    await expect(page.getByLabel("Newer version")).toBeVisible();
  }],
  ["the dialog for an own room, with a wrong number", async (page) => {
    await press(page, "button", /start with my room/);
    await press(page, "dialog button", /Draw it/);
    await expect(page.locator("#start-dialog [role=alert]").first()).not.toBeEmpty();
  }],
];

for (const { name, viewport, colorScheme } of [
  { name: "wide and light", viewport: { width: 1280, height: 800 }, colorScheme: /** @type {const} */ ("light") },
  { name: "narrow and dark", viewport: { width: 360, height: 740 }, colorScheme: /** @type {const} */ ("dark") },
]) {
  test.describe(name, () => {
    test.use({ viewport, colorScheme });

    test("no accessibility rule is broken in any state", async ({ page }, info) => {
      test.setTimeout(400_000);
      await open(page);
      for (const [state, go] of STATES) {
        await go(page);
        expect.soft(await violations(page), state).toEqual([]);
        await info.attach(state, { body: await page.screenshot(), contentType: "image/png" });
      }
    });
  });
}
