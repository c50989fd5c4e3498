// Mouse, keyboard and typed numbers lead to the same place, to the millimetre.
import { expect, test } from "@playwright/test";
import { documentOf, hold, middleOfPiece, nextFrame, open, piece, pointOn } from "./support.js";

/** @import { Page } from "@playwright/test" */

/** Piece 7 of the example hangs at 6.10 m on the left wall; it is to hang 50 cm nearer to the loudspeakers. */
const INDEX = 6;
const GOAL_M = 5.6;

/** @param {Page} page @returns {Promise<{surface: string, u_m: number, v_m: number}>} */
async function placeOf(page) {
  return (await documentOf(page)).plans[1].pieces[INDEX];
}

/** @param {Page} page */
async function byTyping(page) {
  const field = page.getByLabel(`From left or front, piece ${INDEX + 1}`);
  await field.fill(String(GOAL_M));
  await field.press("Enter");
  await nextFrame(page);
  return placeOf(page);
}

/** The arrow that points to the front wall on the drawing, five long steps. @param {Page} page */
async function byKeys(page) {
  const [here, ahead] = [await pointOn(page, "left", 6.1, 0.9), await pointOn(page, "left", 5.1, 0.9)];
  const arrow = ahead.x < here.x - 1 ? "ArrowLeft" : ahead.x > here.x + 1 ? "ArrowRight" : ahead.y < here.y ? "ArrowUp" : "ArrowDown";
  await piece(page, INDEX).focus();
  await page.keyboard.press("Enter");
  for (let press = 0; press < 5; press += 1) await page.keyboard.press(`Shift+${arrow}`);
  await page.keyboard.press("Enter");
  await nextFrame(page);
  return placeOf(page);
}

/** With Control held, so that nothing attracts the piece. @param {Page} page */
async function byMouse(page) {
  const [here, there] = [await pointOn(page, "left", 6.1, 0.9), await pointOn(page, "left", GOAL_M, 0.9)];
  const from = await middleOfPiece(page, INDEX);
  await page.keyboard.down("Control");
  await hold(page, from, { x: from.x + there.x - here.x, y: from.y + there.y - here.y });
  await page.mouse.up();
  await page.keyboard.up("Control");
  await nextFrame(page);
  return placeOf(page);
}

for (const [way, go] of /** @type {const} */ ([["typed number", byTyping], ["keyboard", byKeys], ["mouse", byMouse]])) {
  test(`a ${way} puts the piece where it is wanted`, async ({ page }) => {
    await open(page);
    const { surface, u_m, v_m } = await go(page);
    expect(surface).toBe("left");
    expect(Math.abs(u_m - GOAL_M)).toBeLessThanOrEqual(0.001);
    expect(Math.abs(v_m - 0.9)).toBeLessThanOrEqual(0.001);
  });
}

test("a number that cannot be read stays as typed, with a sentence, and moves nothing", async ({ page }) => {
  await open(page);
  const before = await documentOf(page);
  const field = page.getByLabel(`From left or front, piece ${INDEX + 1}`);
  await field.fill("near the door");
  await field.press("Enter");
  await expect(field).toHaveAttribute("aria-invalid", "true");
  await expect(field).toHaveValue("near the door");
  expect(await documentOf(page)).toEqual(before);
});

test("Escape ends a move by keys where it began", async ({ page }) => {
  await open(page);
  const before = await documentOf(page);
  await piece(page, INDEX).focus();
  await page.keyboard.press("Enter");
  await page.keyboard.press("Shift+ArrowLeft");
  await page.keyboard.press("Shift+ArrowUp");
  await page.keyboard.press("Escape");
  await nextFrame(page);
  expect(await documentOf(page)).toEqual(before);
});
