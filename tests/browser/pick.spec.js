// Pick, then place: the way without a drag. What is picked up has its places within reach, and what is held stays under the pointer.
import { expect, test } from "@playwright/test";
import { hold, middleOf, middleOfPiece, nextFrame, open, piece, pieces, settled } from "./support.js";

/** @import { Page } from "@playwright/test" */

/** @param {Page} page */
const pick = (page) => page.getByRole("button", { name: /^Pick Thick soft, 100 mm/ });
/** @param {Page} page */
const places = (page) => page.locator("[data-landing]");

test("by keys the focus goes to the first place, from there to the piece that was placed", async ({ page }) => {
  await open(page);
  const before = await pieces(page).count();
  await pick(page).focus();
  await page.keyboard.press("Enter");
  await expect(places(page).first()).toBeFocused();
  await page.keyboard.press("Enter");
  await expect(pieces(page)).toHaveCount(before + 1);
  await expect(piece(page, before)).toBeFocused();
  await page.keyboard.press("Enter");
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("Enter");
  await expect(piece(page, before)).toBeFocused();
});

test("Escape on a place puts the kind back, and the focus where it was picked up", async ({ page }) => {
  await open(page);
  await pick(page).focus();
  await page.keyboard.press("Enter");
  await expect(places(page).first()).toBeFocused();
  await page.keyboard.press("Escape");
  await expect(places(page)).toHaveCount(0);
  await expect(pick(page)).toBeFocused();
});

test("a piece that is picked up again goes from place to place by keys, too", async ({ page }) => {
  await open(page);
  await piece(page, 6).locator("rect.ground").click();
  await page.locator(".note-of-piece").getByRole("button", { name: "Move", exact: true }).focus();
  await page.keyboard.press("Enter");
  await expect(places(page).first()).toBeFocused();
  await page.keyboard.press("Escape");
  await expect(piece(page, 6)).toBeFocused();
});

for (const viewport of [{ width: 390, height: 844 }, { width: 360, height: 740 }, { width: 768, height: 1024 }]) {
  test.describe(`on a touch screen of ${viewport.width} px`, () => {
    test.use({ hasTouch: true, viewport });

    test("the drawing comes into view once something is picked on the shelf", async ({ page }) => {
      await open(page);
      await page.locator(".kit").evaluate((kit) => kit.scrollIntoView({ block: "start" }));
      await pick(page).tap();
      await nextFrame(page);
      const before = await pieces(page).count();
      const place = await middleOf(places(page).first().locator(".number"));
      expect(place.y, "below the top of the window").toBeGreaterThan(0);
      expect(place.y, "above its lower end").toBeLessThan(viewport.height);
      // Nothing scrolls it there: the finger goes where it is seen.
      await page.touchscreen.tap(place.x, place.y);
      await expect(pieces(page)).toHaveCount(before + 1);
    });
  });
}

for (const width of [1440, 1280, 1000]) {
  test(`the drawing stays under the pointer while the words above it grow, ${width} px`, async ({ page }) => {
    await page.setViewportSize({ width, height: 900 });
    await open(page);
    await settled(page);
    const at = () => page.locator("[data-sheet=box]").evaluate((sheet) => sheet.getBoundingClientRect().top);
    const from = await middleOfPiece(page, 0);
    const before = await at();
    const words = await page.locator(".doubt").first().innerText();
    await hold(page, from, { x: from.x - 48, y: from.y });
    expect(await page.locator(".doubt").first().innerText(), "or nothing could grow").not.toBe(words);
    expect(await at()).toBe(before);
    await page.mouse.up();
    await nextFrame(page);
    const rests = await page.locator(".lead").evaluate((lead) => lead.getAttribute("style") ?? "");
    expect(rests).toBe("");
    expect(await page.locator(".lead").evaluate((lead) => lead.scrollHeight - lead.clientHeight), "all words are seen again").toBe(0);
    expect(await middleOf(piece(page, 0).locator("rect.ground"))).toBeTruthy();
  });
}
