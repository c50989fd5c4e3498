// "What should I do?": worked out on request, in the order in which it is wanted, taken in one step that undo takes back.
import { expect, test } from "@playwright/test";
import { documentOf, open, settled, step } from "./support.js";

/** @import { Page } from "@playwright/test" */

/** The region of advice. @param {Page} page */
const region = (page) => page.getByRole("region", { name: "What should I do?" });

/** Its text with plain blanks. @param {Page} page */
async function text(page) {
  return (await region(page).innerText()).replace(/[\u202f\u00a0]/g, " ");
}

/** Opens a demo room. @param {Page} page @param {RegExp} title */
async function openRoom(page, title) {
  await page.getByText("Examples", { exact: true }).click();
  await page.getByRole("button", { name: title }).click();
}

/** Asks about the room as it is. @param {Page} page */
async function ask(page) {
  await page.getByRole("button", { name: "Now", exact: true }).click();
  await region(page).locator("summary").first().click();
  await region(page).getByRole("button", { name: "Work it out" }).click();
}

/** Until all of it is there. @param {Page} page */
async function worked(page) {
  await expect(region(page).getByText("Worked out from the room as it is.")).toBeVisible({ timeout: 120_000 });
}

test("says in order what to do, and opens plans in one step", async ({ page }) => {
  test.setTimeout(240_000);
  await open(page);
  await ask(page);
  await expect(region(page).getByRole("button", { name: "Stop" })).toBeVisible();
  await worked(page);
  const words = await text(page);
  const headings = ["Leave it alone?", "What is free", "What one surface buys", "How many are needed", "The next best step", "Whole plans", "What the next money buys"];
  const places = headings.map((heading) => words.indexOf(heading));
  expect(places.every((place) => place >= 0)).toBe(true);
  expect([...places].sort((a, b) => a - b)).toEqual(places);
  expect(words).toContain("it is kept bare: your limit");
  const tabs = page.getByRole("navigation", { name: "Plans" }).locator(".tab");
  const before = await tabs.count();
  await region(page).getByRole("button", { name: /^Open (it as a plan|the \d plans side by side)$/ }).click();
  expect(await tabs.count()).toBeGreaterThan(before);
  await expect(step(page, "Undo")).toHaveAccessibleName(/open Plan/);
  await settled(page);
  await step(page, "Undo").click();
  expect(await tabs.count()).toBe(before);
});

test("opens what a window leaves to be done", async ({ page }) => {
  test.setTimeout(240_000);
  await open(page);
  await openRoom(page, /^Rented corner room/);
  await ask(page);
  await worked(page);
  const ways = region(page).getByRole("heading", { name: "Where a bounce meets a window" }).locator("xpath=following-sibling::ol[1]/li");
  await expect(ways.filter({ hasText: "Leave it: it costs nothing" })).toHaveCount(1);
  const curtain = ways.filter({ hasText: "Draw a curtain" });
  await expect(curtain).toHaveText(/this bounce falls to .* in all/);
  const tabs = page.getByRole("navigation", { name: "Plans" }).locator(".tab");
  const before = await tabs.count();
  await curtain.getByRole("button", { name: "Open as a plan" }).click();
  expect(await tabs.count()).toBe(before + 1);
  await settled(page);
  const swap = ways.filter({ hasText: /^Put the (left|right|back) wall behind the loudspeakers/ });
  await swap.getByRole("button", { name: "Open as a plan" }).click();
  expect(await tabs.count()).toBe(before + 2);
  await settled(page);
  const moved = (await documentOf(page)).plans.at(-1)?.listening;
  expect(moved.loudspeakers.every((/** @type {any} */ one) => Math.abs(one.toe_in_deg) >= 80), JSON.stringify(moved)).toBe(true);
  await expect(page.getByRole("alert")).toHaveCount(0);
});

test("only what looks like a picture: the shelf says why the rest is not shown, and no plan holds anything else", async ({ page }) => {
  test.setTimeout(240_000);
  await open(page);
  const shelf = page.getByRole("region", { name: "Kit shelf" });
  const names = () => shelf.locator(".slot").evaluateAll((slots) => slots.map((slot) => slot.getAttribute("title")));
  expect((await names()).length).toBeGreaterThan(3);
  const limits = page.locator("details.fact", { has: page.locator(".fact-label", { hasText: "Limits" }) });
  await limits.locator("summary").first().click();
  await page.getByRole("group", { name: "Only what looks like" }).getByRole("checkbox", { name: "a picture" }).check();
  await limits.locator("summary").first().click();
  await expect(shelf.getByText(/kinds are not shown: your limit is only what looks like a picture, and they do not/)).toBeVisible();
  expect(await names()).toEqual(["Printed picture panel, 40 mm"]);
  await ask(page);
  await worked(page);
  const before = (await documentOf(page)).plans.length;
  expect(await text(page)).toContain("it does not look like what you allow: your limit");
  expect(await text(page)).toMatch(/Without your limits, but for at most 700, the best plan .*: your limits cost about \d+\.\d steps\./);
  await region(page).getByRole("button", { name: /^Open (it as a plan|the \d plans side by side)$/ }).click();
  await settled(page);
  const { plans } = await documentOf(page);
  const opened = plans.slice(before);
  expect(opened.length).toBeGreaterThan(0);
  for (const plan of opened) expect(new Set(plan.pieces.map((/** @type {any} */ one) => one.kit))).toEqual(new Set(["printed"]));
  await expect(page.getByRole("alert")).toHaveCount(0);
});

test("covers surfaces with a kind that is chosen from the keyboard, and keeps the plans meanwhile", async ({ page }) => {
  test.setTimeout(240_000);
  await open(page);
  await ask(page);
  await worked(page);
  const choice = region(page).getByRole("combobox", { name: "With" });
  expect((await choice.boundingBox())?.height).toBeGreaterThanOrEqual(24);
  const kinds = await choice.locator("option").allTextContents();
  expect(kinds[0]).toBe("what does most on each");
  const rows = region(page).locator(".wide-table").first().locator("tbody tr");
  const cells = () => rows.locator("td:nth-child(2)").allTextContents();
  const best = await cells();
  const plans = await region(page).locator(".advice-plan").allTextContents();
  await choice.focus();
  await page.keyboard.press("ArrowDown");
  expect(await region(page).locator(".advice-plan").allTextContents()).toEqual(plans);
  const refused = region(page).getByText(`${kinds[1]} may not go there: `);
  await expect(refused.first()).toBeVisible({ timeout: 30_000 });
  await worked(page);
  await expect(choice).toHaveValue(/./);
  await expect(choice).toBeFocused();
  await expect(rows).toHaveCount(6);
  for (const cell of await cells()) expect(cell === "–" || cell.endsWith(` × ${kinds[1]}`)).toBe(true);
  await page.keyboard.press("ArrowUp");
  await expect(refused).toHaveCount(0);
  await expect(rows).toHaveCount(6, { timeout: 30_000 });
  expect(await cells()).toEqual(best);
});

test("where nothing has a price it says first that a limit of money cannot be kept to, and counts pieces", async ({ page }) => {
  test.setTimeout(240_000);
  await open(page);
  await page.getByRole("button", { name: "start with my room" }).click();
  const dialog = page.getByRole("dialog", { name: "Your room" });
  for (const [label, value] of [["Width", "4.2"], ["Length", "5.6"], ["Height", "2.5"]]) await dialog.getByLabel(label).fill(value);
  await dialog.getByRole("button", { name: "Draw it" }).click();
  await expect(dialog).toBeHidden();
  const limits = page.locator("details.fact", { has: page.locator(".fact-label", { hasText: "Limits" }) });
  await limits.locator("summary").first().click();
  const budget = limits.getByLabel("money at most");
  await budget.fill("400");
  await budget.press("Enter");
  await limits.locator("summary").first().click();
  await ask(page);
  await worked(page);
  const words = await text(page);
  expect(words.indexOf("so your 400 cannot be kept to: type prices on the Kit shelf.")).toBeGreaterThan(0);
  expect(words.indexOf("so your 400 cannot be kept to")).toBeLessThan(words.indexOf("Leave it alone?"));
  expect(words).toMatch(/The best found, whatever it costs\. \d+ new pieces: /);
  expect(words).not.toMatch(/your money|less money|next money|costs anything/);
  for (const title of [/^Gain in steps, piece after piece, over pieces/, /^Gain of the best plans in steps over pieces/]) {
    const chart = region(page).getByRole("img", { name: title });
    const across = await chart.locator(".rung").evaluateAll((marks) => marks.map((mark) => Number(mark.getAttribute("cx"))));
    expect(Math.max(...across) - Math.min(...across), String(title)).toBeGreaterThan(100);
  }
  const shelf = page.getByRole("region", { name: "Kit shelf" });
  const prices = shelf.getByLabel(/^Price of one /);
  await prices.first().fill("30");
  await prices.first().press("Enter");
  await region(page).getByRole("button", { name: "Work it out again" }).click();
  await worked(page);
  const some = await text(page);
  expect(some).toMatch(/3 kinds have no price \(.*\), so plans, the next step and “what does most on each” leave them out/);
  expect(some).toMatch(/The best within your limits and your money\. \d+ new pieces?, for \d+: /);
  expect(some).not.toContain("cannot be kept to");
});

test("the money slider puts its plan on the sheet, and one undo takes it back", async ({ page }) => {
  test.setTimeout(240_000);
  await open(page);
  await ask(page);
  await worked(page);
  const slider = region(page).getByRole("slider", { name: "Money" });
  await slider.focus();
  await page.keyboard.press("Home");
  const tab = page.getByRole("button", { name: /By slider/ });
  await expect(tab).toHaveAttribute("aria-current", "page");
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("ArrowRight");
  await expect(tab).toHaveCount(1);
  await expect(region(page).locator("svg.gains .rung.is-chosen")).toBeVisible();
  await step(page, "Undo").click();
  await expect(tab).toHaveCount(0);
});

test("stops when it is told to, and keeps what was found beside other plans", async ({ page }) => {
  test.setTimeout(120_000);
  await open(page);
  await ask(page);
  await region(page).getByRole("button", { name: "Stop" }).click();
  await expect(region(page).getByText("Stopped.")).toBeVisible();
  await page.getByRole("button", { name: "New plan" }).click();
  await expect(region(page).getByText("Stopped.")).toBeVisible();
  await page.getByRole("button", { name: "Plan A", exact: true }).click();
  await expect(region(page).getByText("Stopped.")).toBeVisible();
});

test("in the square study the seat goes before pieces, and foam comes down", async ({ page }) => {
  test.setTimeout(240_000);
  await open(page);
  await openRoom(page, /^Square study/);
  await ask(page);
  await worked(page);
  const words = await text(page);
  expect(words).toMatch(/Panels will not fix the boom\. Two bass notes share 56 Hz in this room\. Moving the seat 0\.\d0 m forward/);
  expect(words).toMatch(/Take down \d+ pieces/);
  expect(words.indexOf("Panels will not fix the boom")).toBeLessThan(words.indexOf("Whole plans"));
});

test("asks from the Plans bar, and names the next step anew after a change", async ({ page }) => {
  test.setTimeout(240_000);
  await open(page);
  await page.getByRole("button", { name: "Now", exact: true }).click();
  await page.getByRole("navigation", { name: "Plans" }).getByRole("button", { name: "What should I do?" }).click();
  await expect(region(page)).toBeInViewport();
  await worked(page);
  const live = region(page).getByRole("heading", { name: /^The next best step from/ });
  await expect(live).toHaveCount(0);
  await region(page).getByRole("button", { name: "Open as a plan" }).last().click();
  await expect(live).toHaveText(/^The next best step from Plan /);
  const words = live.locator("xpath=following-sibling::p[1]");
  await expect(words).toHaveText(/: this .*(decay|bounces)|^Stop here/, { timeout: 60_000 });
  // The answer about the room as it is stays beside it.
  await expect(region(page).getByText("Worked out from the room as it is.")).toBeVisible();
});
