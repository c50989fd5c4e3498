// No accessibility rule is broken in any state of the page: first run, each part open, something picked or chosen, wrong
// numbers, what is missing, visits, dialogs; wide and narrow, light and dark.
import { expect, test } from "@playwright/test";
import { violations } from "./axe.js";
import { example, open, packed } from "./support.js";

/** @import { Page } from "@playwright/test" */

// The runner's trace keeps a copy of the page around each of some thousand calls, which takes longer than looking at it.
test.use({ trace: "off", actionTimeout: 60_000 });

/** Opens what is folded and closes what was open before in the same group. @param {Page} page @param {string} selector */
const unfold = (page, selector) => page.locator(selector).evaluate((one) => { /** @type {HTMLDetailsElement} */ (one).open = true; });

/** Opens a row of the room facts. @param {Page} page @param {string} label */
const unfoldFact = (page, label) => page.locator("details.fact", { has: page.locator(".fact-label", { hasText: label }) }).evaluate((one) => { /** @type {HTMLDetailsElement} */ (one).open = true; });

/** Clicks without asking where it lies: what is looked at is the state, not the way there. @param {Page} page @param {string} selector @param {RegExp} [text] */
const press = (page, selector, text = /./) => page.locator(selector, { hasText: text }).first().evaluate((one) => /** @type {HTMLElement} */ (one).click());

/** States one after the other, and how to get there. @type {[name: string, go: (page: Page) => Promise<unknown>][]} */
const STATES = [
  ["first run", async () => {}],
  ...["Size", "Walls", "Floor", "Openings", "In it", "Goal", "Limits"].map((label) => /** @type {[string, (page: Page) => Promise<unknown>]} */ ([
    `room facts, ${label}`, (page) => unfoldFact(page, label),
  ])),
  ["a size that is not taken", async (page) => {
    await page.locator("details.fact .three input").first().evaluate((field) => {
      /** @type {HTMLInputElement} */ (field).value = "400";
      field.dispatchEvent(new Event("change"));
    });
    await expect(page.locator(".wrong-size")).toBeVisible();
  }],
  ["a thing with own values", async (page) => {
    await unfoldFact(page, "In it");
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
    // On a narrow page they lie in a menu of their own.
    for (const one of await page.locator("details", { has: page.locator("[data-rooms]") }).all()) await one.evaluate((fold) => { /** @type {HTMLDetailsElement} */ (fold).open = true; });
    await expect(page.getByRole("button", { name: "Start over with a new room" })).toBeAttached();
  }],
  ["the costs, unfolded", async (page) => {
    await unfold(page, ".costs details");
    await expect(page.locator(".costs-body")).toBeVisible();
  }],
  ["own figures for a piece, refused", async (page) => {
    await unfold(page, ".own-kind");
    await press(page, ".own-kind button[type=submit]");
    await expect(page.locator(".own-kind .wrong")).toHaveText(/There is no figure for 125/);
  }],
  // On a narrow page both are one menu.
  ...[0, -1].map((which) => /** @type {[string, (page: Page) => Promise<unknown>]} */ ([`the ${which === 0 ? "first" : "last"} menu of the plans`, async (page) => {
    await page.locator(".plans details.menu").nth(which).evaluate((one) => { /** @type {HTMLDetailsElement} */ (one).open = true; });
    await expect(page.locator(".plans .menu-body").nth(which)).toBeVisible();
  }])),
  ["two plans compared", async (page) => {
    await press(page, ".plans .tab.new");
    await page.locator(".plans .menu-body .choice", { hasText: "Plan A" }).first().evaluate((one) => /** @type {HTMLElement} */ (one).click());
    await expect(page.locator(".answer h1")).toContainText(/(than|of) Plan A/, { timeout: 60_000 });
  }],
  ["the check-up, with a measured decay", async (page) => {
    await unfold(page, ".checkup-part details.figures");
    await expect(page.locator(".checkup .surer li").first()).toBeAttached({ timeout: 60_000 });
    await page.locator(".checkup-form textarea").evaluate((field) => { /** @type {HTMLTextAreaElement} */ (field).value = "500 0.9\n1000 0.8"; });
    await press(page, ".checkup-form button[type=submit]");
    await expect(page.locator(".checkup .measured")).toBeAttached();
  }],
  ["what should I do, answered", async (page) => {
    await unfold(page, "#fold-advice");
    await page.locator(".advice .ask").evaluate((one) => /** @type {HTMLElement} */ (one).click());
    await expect(page.locator(".advice-plan").first()).toBeAttached({ timeout: 240_000 });
    await page.locator(".advice-plan").first().evaluate((one) => { /** @type {HTMLDetailsElement} */ (one).open = true; });
  }],
  ["the Hang sheet on the screen", async (page) => {
    // On a narrow page it lies in the menu, which may be closed.
    await press(page, ".plans button", /Hang sheet/);
    await expect(page.locator(".paper .link")).toBeVisible();
  }],
  ["back from it, a broken link", async (page) => {
    await page.keyboard.press("Escape");
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
      // Each state is looked at by some ninety rules; on a machine that is used by others too that takes its time.
      test.setTimeout(1_800_000);
      await open(page);
      for (const [state, go] of STATES) {
        await test.step(state, async () => {
          await go(page);
          expect.soft(await violations(page), state).toEqual([]);
          await info.attach(state, { body: await page.screenshot(), contentType: "image/png" });
        });
      }
    });
  });
}
