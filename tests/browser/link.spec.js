// A plan goes to someone else as a link, arrives whole, and never harms the draft that is there already.
import { expect, test } from "@playwright/test";
import { documentOf, drag, example, linkOf, middleOf, middleOfPiece, onShelf, open, packed, pointOn, settledText, step } from "./support.js";

/** @import { Page } from "@playwright/test" */

/** What is shown over the sheet about a link or file that stays outside. @param {Page} page */
const refusal = (page) => page.locator(".findings");

/** An own draft: the example with one piece more, kept by the browser. @param {Page} page */
async function makeDraft(page) {
  await open(page);
  await drag(page, await middleOf(onShelf(page, "thin")), await pointOn(page, "left", 4.9, 1.5));
  const draft = await documentOf(page);
  await expect.poll(() => kept(page)).toEqual(draft);
  return draft;
}

/** @param {Page} page @returns {Promise<any>} */
const kept = (page) => page.evaluate(() => JSON.parse(localStorage.getItem("seatward.draft") ?? "null"));

/** Another room than the example, with a title of its own. @param {Page} page @param {string} title */
async function another(page, title) {
  const document = await example(page);
  document.title = title;
  document.plans[1].pieces.splice(0, 4);
  return document;
}

/** As if the link was followed in the same tab. @param {Page} page @param {string} fragment */
const follow = (page, fragment) => page.evaluate((hash) => { location.hash = hash; }, fragment);

test("a copied link opens the same room, plan and answer somewhere else", async ({ page, browser, baseURL }) => {
  const draft = await makeDraft(page);
  await drag(page, await middleOfPiece(page, 6), await pointOn(page, "left", 6.4, 1.8));
  const sent = { document: await documentOf(page), answer: await settledText(page), link: await linkOf(page) };
  expect(sent.document).not.toEqual(draft);
  const context = await browser.newContext({ baseURL, locale: "en-US" });
  const other = await context.newPage();
  await open(other, sent.link);
  await expect.poll(() => settledText(other)).toBe(sent.answer);
  expect(await documentOf(other)).toEqual(sent.document);
  await context.close();
});

for (const { name, damage, says } of [
  { name: "cut at its end", damage: (/** @type {string} */ link) => link.slice(0, -40), says: "This link is incomplete (often cut by a mail program)." },
  { name: "of a newer packing", damage: (/** @type {string} */ link) => link.replace("#1.", "#2."), says: "Made with a newer version: this page cannot unpack it." },
  { name: "of something else", damage: () => packed([1, 2, 3]), says: "This is not a room saved by this page." },
]) {
  test(`a link ${name} says so, shows the example, and leaves the draft alone`, async ({ page, browser, baseURL }) => {
    const draft = await makeDraft(page);
    const link = damage(packed(draft));
    await follow(page, link);
    await expect(refusal(page)).toContainText(says);
    expect(await kept(page)).toEqual(draft);
    expect(await documentOf(page)).toEqual(draft);
    const context = await browser.newContext({ baseURL, locale: "en-US" });
    const fresh = await context.newPage();
    await open(fresh, link);
    await expect(refusal(fresh)).toContainText(says);
    await expect(fresh.getByLabel("Title of the room")).toHaveValue("Long terrace room");
    await context.close();
  });
}

test("a link opens the plan that was on the sheet when it was copied", async ({ page, browser, baseURL }) => {
  const tab = (/** @type {Page} */ on, /** @type {number} */ index) => on.locator(".plans .tab:not(.new)").nth(index);
  await open(page, packed(await (await page.request.get("scenarios/concrete-loft.json")).json()));
  await tab(page, 3).click();
  const link = await linkOf(page);
  const other = await (await browser.newContext({ baseURL, locale: "en-US" })).newPage();
  await open(other, link);
  await expect(tab(other, 3)).toHaveAttribute("aria-current", "page");
  await expect(other.locator(".answer h1")).toContainText("Thirty-five panels");
  await tab(other, 0).click();
  const today = await linkOf(other);
  expect(today).not.toBe(link);
  await follow(other, link);
  await expect(tab(other, 3), "the same room, another plan").toHaveAttribute("aria-current", "page");
  await other.context().close();
});

test("a document of a newer format is shown, not changed, and its link kept", async ({ page }) => {
  const newer = { ...(await another(page, "From tomorrow")), format: 2, curtains: ["velvet"] };
  const link = packed(newer);
  await open(page, link);
  await expect(page.getByLabel("Newer version")).toContainText("Made with a newer version: shown as far as it is understood, and not changed.");
  await expect(page.getByLabel("the original link")).toHaveValue(new RegExp(`${link.slice(0, 80)}`));
  await expect(page.getByLabel("From left or front, piece 1")).toHaveAttribute("readonly");
  expect(await kept(page)).toBeNull();
});

test("a link over a draft is a visit: mine can be kept", async ({ page }) => {
  const draft = await makeDraft(page);
  const before = await settledText(page);
  await follow(page, packed(await another(page, "Somebody else")));
  await expect(page.getByLabel("Shared plan")).toContainText("your own draft is kept aside");
  await expect(page.getByLabel("Title of the room")).toHaveValue("Somebody else");
  expect(await kept(page)).toEqual(draft);
  await page.getByRole("button", { name: "Keep mine" }).click();
  await expect.poll(() => settledText(page)).toBe(before);
  expect(await documentOf(page)).toEqual(draft);
  expect(await kept(page)).toEqual(draft);
});

test("a link over a draft can be used, and undo brings the draft back", async ({ page }) => {
  const draft = await makeDraft(page);
  const shared = await another(page, "Somebody else");
  await follow(page, packed(shared));
  await page.getByRole("button", { name: "Use this" }).click();
  await expect(page.getByLabel("Shared plan")).toHaveCount(0);
  await expect.poll(() => kept(page)).toEqual(shared);
  await step(page, "Undo").click();
  await expect.poll(() => kept(page)).toEqual(draft);
  expect(await documentOf(page)).toEqual(draft);
});

test("a reload finds the draft, a link opened first leaves it kept", async ({ page }) => {
  const draft = await makeDraft(page);
  await page.goto("about:blank");
  await open(page, packed(await another(page, "Somebody else")));
  await expect(page.getByLabel("Title of the room")).toHaveValue("Somebody else");
  await expect(page.getByLabel("Shared plan")).toBeVisible();
  expect(await kept(page)).toEqual(draft);
  await page.getByRole("button", { name: "Keep mine" }).click();
  await expect.poll(() => documentOf(page)).toEqual(draft);
});

test("a title with markup in it is text", async ({ page }) => {
  const title = "<img src=x onerror=\"document.title='owned'\">";
  const document = await another(page, title);
  document.plans[1].name = "<b onclick=1>A</b>";
  document.kit[1].name = "<script>alert(1)</script>";
  await open(page, packed(document));
  await expect(page.getByLabel("Title of the room")).toHaveValue(title);
  await expect(page.locator(".answer h1")).toContainText("<b onclick=1>A</b>");
  await expect(page.locator(".parts")).toContainText("<script>alert(1)</script>");
  await expect(page.locator("#app img, #app script, #app [onclick], #app [onerror]")).toHaveCount(0);
  expect(await page.title()).toBe("Seatward");
});
