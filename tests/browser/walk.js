// `npm run walk` takes the newcomer's walk of DEVELOPERS.md on the page that `cargo serve` is serving, and a picture at each stop.
// It fails where a newcomer would be stuck: when what the walk says next is not on the screen.
import { mkdirSync } from "node:fs";
import { env } from "node:process";
import { fileURLToPath } from "node:url";
import { chromium, expect } from "@playwright/test";
import { findChromium } from "./chromium.js";

/** @import { Page } from "@playwright/test" */

const PICTURES = fileURLToPath(new URL("../../.github/walk/", import.meta.url));
/** A newcomer has five minutes from the first load to a printed link. */
const MOST_S = 300;

/** @type {[name: string, go: (page: Page) => Promise<void>][]} */
const STOPS = [
  ["1-ready-example", async (page) => {
    await expect(page.locator(".answer h1 b")).toContainText("–", { timeout: 30_000 });
    await expect(page.getByRole("button", { name: "start with my room" })).toBeVisible();
  }],
  ["2-my-room", async (page) => {
    await page.getByRole("button", { name: "start with my room" }).click();
    const dialog = page.getByRole("dialog", { name: "Your room" });
    for (const [label, value] of [["Width", "3.60"], ["Length", "5.20"], ["Height", "2.50"]]) await dialog.getByLabel(label).fill(value);
    await dialog.getByRole("button", { name: "Draw it" }).click();
    await expect(page.locator(".answer h1")).toContainText("the same as today");
  }],
  ["3-what-differs", async (page) => {
    const row = page.locator("details.fact", { has: page.locator(".fact-label", { hasText: "Floor" }) });
    await row.locator("summary").first().click();
    await row.locator(".fact-fields select").first().selectOption({ label: "Carpet, thin, on a hard floor" });
    await row.locator("summary").first().click();
    await expect(page.getByRole("button", { name: /^Undo ?: finish of the floor/ })).toBeVisible();
  }],
  ["4-first-piece", async (page) => {
    await page.locator(".kit").getByRole("button", { name: /^Pick Thick soft, 100/ }).click();
    await page.locator("[data-landing]").first().click();
    await expect(page.locator(".answer h1")).not.toContainText("the same as today");
  }],
  ["5-other-side", async (page) => {
    await page.locator("[data-item-panel]").getByRole("button", { name: "Mirror", exact: true }).click();
    await expect(page.locator("[data-sheet] g.piece[data-piece]")).toHaveCount(2);
    await expect(page.getByRole("region", { name: "Answer" })).toHaveAttribute("aria-busy", "false", { timeout: 60_000 });
  }],
  ["6-link", async (page) => {
    await page.getByRole("button", { name: "Copy link" }).click();
    await expect(page.locator(".status")).toContainText(/Link copied|address bar/);
    expect(new URL(page.url()).hash).toMatch(/^#1\./);
  }],
];

const browser = await chromium.launch({ executablePath: await findChromium(), args: ["--no-sandbox"] });
const context = await browser.newContext({ viewport: { width: 1280, height: 800 }, locale: "en-US", permissions: ["clipboard-write"] });
const page = await context.newPage();
mkdirSync(PICTURES, { recursive: true });
const started = Date.now();
await page.goto(env.BASE_URL ?? "http://127.0.0.1:8137/");
for (const [name, go] of STOPS) {
  await go(page);
  await page.evaluate(() => scrollTo(0, 0));
  await page.screenshot({ path: `${PICTURES}${name}.png` });
  console.log(`${name}: after ${((Date.now() - started) / 1000).toFixed(0)} s`);
}
await page.emulateMedia({ media: "print" });
await page.pdf({ path: `${PICTURES}7-printed.pdf`, format: "A4" });
await browser.close();
const taken_s = (Date.now() - started) / 1000;
console.log(`7-printed: after ${taken_s.toFixed(0)} s`);
if (taken_s > MOST_S) throw new Error(`the walk took ${taken_s.toFixed(0)} s, longer than a newcomer has`);
