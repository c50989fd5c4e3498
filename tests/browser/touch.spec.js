// A finger does what the mouse does: the same drag, the same answer while it lasts, and giving up.
import { expect, test } from "@playwright/test";
import { answerText, documentOf, figure, holdWorkers, listen, middleOf, middleOfPiece, nextFrame, onShelf, open, pieces, pointOn, settled, step } from "./support.js";

/**
 * @import { CDPSession, Page } from "@playwright/test"
 * @import { Spot } from "./support.js"
 */

test.use({ hasTouch: true });

/** @param {CDPSession} finger @param {"touchStart"|"touchMove"} type @param {Spot[]} spots */
const touch = (finger, type, ...spots) => finger.send("Input.dispatchTouchEvent", { type, touchPoints: spots.map((spot, id) => ({ ...spot, id })) });

/** @param {CDPSession} finger */
const lift = (finger) => finger.send("Input.dispatchTouchEvent", { type: "touchEnd", touchPoints: [] });

/** Presses and moves; the finger stays down. @param {Page} page @param {Spot} from @param {Spot} to */
async function touchHold(page, from, to) {
  const finger = await page.context().newCDPSession(page);
  await touch(finger, "touchStart", from);
  for (let part = 1; part <= 8; part += 1) {
    await touch(finger, "touchMove", { x: from.x + ((to.x - from.x) * part) / 8, y: from.y + ((to.y - from.y) * part) / 8 });
  }
  await nextFrame(page);
  return finger;
}

test("a finger brings a piece from the shelf to a wall, and the answer follows before it is lifted", async ({ page }) => {
  const letGo = await holdWorkers(page);
  await open(page);
  const before = await figure(page).innerText();
  const to = await pointOn(page, "left", 4.9, 1.5);
  const finger = await touchHold(page, await middleOf(onShelf(page, "thick")), to);
  await expect(pieces(page)).toHaveCount(12);
  expect(await figure(page).innerText()).not.toBe(before);
  const during = await answerText(page);
  const heard = await listen(page);
  await lift(finger);
  await expect(step(page, "Undo")).toHaveText(/add/);
  letGo();
  await settled(page);
  expect((await heard())[0]).toBe(during);
  expect((await documentOf(page)).plans[1].pieces[11].surface).toBe("left");
});

test("a second finger gives a drag up", async ({ page }) => {
  await open(page);
  const before = await documentOf(page);
  const from = await middleOfPiece(page, 6);
  const to = await pointOn(page, "left", 5.0, 1.5);
  const finger = await touchHold(page, from, to);
  await expect(page.locator(".page.is-dragging")).toHaveCount(1);
  await touch(finger, "touchStart", to, { x: to.x + 60, y: to.y });
  await lift(finger);
  await nextFrame(page);
  expect(await documentOf(page)).toEqual(before);
  await expect(step(page, "Undo")).toHaveAttribute("aria-disabled", "true");
});
