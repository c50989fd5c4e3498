// Dragging with the mouse: pieces from the shelf, between surfaces, by their corners; and what follows while it lasts.
import { expect, test } from "@playwright/test";
import {
  answerText, decayDrawing, documentOf, drag, figure, hold, holdWorkers, listen, middleOf, middleOfPiece, nextFrame, onShelf, open, piece, pieces, pointOn,
  settled, settledText, step,
} from "./support.js";

/** @import { Page } from "@playwright/test" */

/** Free wall between two pieces of the example. @param {Page} page */
const freePlace = (page) => pointOn(page, "left", 4.9, 1.5);

/** A piece that hangs from the shelf over the free place, the button still down. @param {Page} page */
async function holdNewPiece(page) {
  const to = await freePlace(page);
  await hold(page, await middleOf(onShelf(page, "thick")), to);
}

test.beforeEach(({ page }) => open(page));

test("answer, decay and distances follow a new piece before it is dropped", async ({ page }) => {
  // Without ranges, the middle before can be held against the middle during the drag.
  const letGo = await holdWorkers(page);
  await open(page);
  const before = { figure: await figure(page).innerText(), decay: await decayDrawing(page) };
  await holdNewPiece(page);
  await expect(pieces(page)).toHaveCount(12);
  expect(await figure(page).innerText()).not.toBe(before.figure);
  expect(await decayDrawing(page)).not.toBe(before.decay);
  await expect(page.locator(".dim.is-live text", { hasText: /^\d\.\d\d$/ })).toHaveCount(4);
  const during = await answerText(page);
  const heard = await listen(page);
  await page.mouse.up();
  await expect(step(page, "Undo")).toHaveText(/add/);
  letGo();
  await settled(page);
  const [first, ...later] = await heard();
  expect(first).toBe(during);
  expect(later.filter((words) => !/die away in 0\.\d\d–0\.\d\d s/.test(words)), "the middle stays until its range is there").toEqual([]);
});

test("the distances are those of the piece to the ends of its wall", async ({ page }) => {
  const at = await freePlace(page);
  await hold(page, await middleOf(onShelf(page, "thick")), at);
  const figures = (await page.locator(".dim.is-live text", { hasText: /\d/ }).allTextContents()).map(Number);
  await page.mouse.up();
  const { u_m, v_m } = (await documentOf(page)).plans[1].pieces[11];
  const toEnds = [u_m, 8.4 - 0.6 - u_m, v_m, 2.7 - 1.2 - v_m];
  expect(figures).toHaveLength(4);
  figures.forEach((shown, index) => expect(Math.abs(shown - toEnds[index])).toBeLessThanOrEqual(0.0051));
});

test("a drag takes the caret out of the text that was clicked before", async ({ page }) => {
  const kind = () => page.evaluate(() => getSelection()?.type);
  await page.locator("#decay-title").click();
  expect(await kind(), "or there is nothing to take away").toBe("Caret");
  await holdNewPiece(page);
  expect(await kind()).toBe("None");
  await page.mouse.up();
});

test("Escape during a drag puts everything back and leaves no step", async ({ page }) => {
  const before = { answer: await settledText(page), decay: await decayDrawing(page), document: await documentOf(page) };
  await holdNewPiece(page);
  await page.keyboard.press("Escape");
  await page.mouse.up();
  await nextFrame(page);
  expect(await settledText(page)).toBe(before.answer);
  expect(await decayDrawing(page)).toBe(before.decay);
  expect(await documentOf(page)).toEqual(before.document);
  await expect(step(page, "Undo")).toHaveAttribute("aria-disabled", "true");
});

test("a drop is one step, and undo and redo bring back both answers word for word", async ({ page }) => {
  const before = { answer: await settledText(page), document: await documentOf(page) };
  await holdNewPiece(page);
  await page.mouse.up();
  const after = { answer: await settledText(page), document: await documentOf(page) };
  expect(after.answer).not.toBe(before.answer);
  await step(page, "Undo").click();
  expect(await settledText(page)).toBe(before.answer);
  await expect(step(page, "Undo")).toHaveAttribute("aria-disabled", "true");
  expect(await documentOf(page)).toEqual(before.document);
  await step(page, "Redo").click();
  expect(await settledText(page)).toBe(after.answer);
  expect(await documentOf(page)).toEqual(after.document);
});

test("a piece goes from one surface to another", async ({ page }) => {
  await drag(page, await middleOfPiece(page, 6), await pointOn(page, "right", 7.4, 1.6));
  const moved = (await documentOf(page)).plans[1].pieces[6];
  expect(moved.surface).toBe("right");
  expect(Math.abs(moved.u_m + 0.3 - 7.4)).toBeLessThan(0.2);
  await expect(step(page, "Undo")).toHaveText(/move piece 7/);
});

test("a piece dropped beside the room stays where it was", async ({ page }) => {
  const before = await documentOf(page);
  await drag(page, await middleOfPiece(page, 6), await middleOf(page.getByRole("heading", { level: 1 })));
  expect(await documentOf(page)).toEqual(before);
  await expect(step(page, "Undo")).toHaveAttribute("aria-disabled", "true");
});

test("a corner makes a piece larger, and the answer follows", async ({ page }) => {
  const [low, high] = [await pointOn(page, "left", 6.1, 0.9), await pointOn(page, "left", 5.7, 0.9)];
  await piece(page, 6).locator("rect.ground").click();
  const corner = await middleOf(page.locator('[data-grip="--"][data-piece="6"] rect.grip'));
  await hold(page, corner, { x: corner.x + 5, y: corner.y + 5 });
  const before = await figure(page).innerText();
  await page.mouse.move(corner.x + high.x - low.x, corner.y + high.y - low.y, { steps: 8 });
  await nextFrame(page);
  expect(await figure(page).innerText()).not.toBe(before);
  await page.mouse.up();
  const document = await documentOf(page);
  const { kit, u_m } = document.plans[1].pieces[6];
  const kind = document.kit.find((/** @type {{id: string}} */ one) => one.id === kit);
  expect(Math.abs(kind.width_m - 1.0)).toBeLessThan(0.15);
  expect(u_m + kind.width_m).toBeCloseTo(6.7, 3);
  await expect(step(page, "Undo")).toHaveText(/resize piece 7/);
});

test("a removed piece comes back with undo", async ({ page }) => {
  const before = { answer: await settledText(page), document: await documentOf(page) };
  await piece(page, 6).focus();
  await page.keyboard.press("Delete");
  await expect(pieces(page)).toHaveCount(10);
  expect(await settledText(page)).not.toBe(before.answer);
  await page.locator(".status").getByRole("button", { name: "Undo" }).click();
  await expect(pieces(page)).toHaveCount(11);
  expect(await documentOf(page)).toEqual(before.document);
  expect(await settledText(page)).toBe(before.answer);
});

test("an archway stops a piece, with the reason in words", async ({ page }) => {
  const to = await pointOn(page, "left", 7.1, 1.6);
  await page.keyboard.down("Control");
  await hold(page, await middleOfPiece(page, 6), to);
  await expect(page.locator(".hand .reason", { hasText: "archway" })).toBeVisible();
  await page.mouse.up();
  await page.keyboard.up("Control");
  const { surface, u_m } = (await documentOf(page)).plans[1].pieces[6];
  expect({ surface, u_m }).toEqual({ surface: "left", u_m: 6.6 });
});

test("a move along a wall draws only what moves and what is computed from it", async ({ page }) => {
  const from = await middleOfPiece(page, 6);
  await hold(page, from, { x: from.x - 20, y: from.y });
  const still = ".layer:not(.carried, .in-hand), .note-of-piece, .item, .parts, .facts, .kit";
  await page.evaluate(() => {
    const changed = /** @type {Element[]} */ ([]);
    const watcher = new MutationObserver((records) => {
      for (const { target } of records) changed.push(/** @type {Element} */ (target instanceof Element ? target : target.parentElement));
    });
    watcher.observe(document.body, { subtree: true, childList: true, attributes: true, characterData: true });
    Object.assign(self, { changed });
  });
  await page.mouse.move(from.x - 32, from.y);
  await nextFrame(page);
  const seen = await page.evaluate((quiet) => {
    const { changed } = /** @type {{changed: Element[]}} */ (/** @type {unknown} */ (self));
    return { moved: changed.filter((one) => one.closest(".carried")).length, quiet: changed.filter((one) => one.closest(quiet)).map((one) => one.outerHTML) };
  }, still);
  expect(seen.moved).toBeGreaterThan(0);
  expect(seen.quiet).toEqual([]);
  await page.mouse.up();
});

test("a piece that was dragged keeps the focus", async ({ page }) => {
  const from = await middleOfPiece(page, 6);
  await drag(page, from, { x: from.x - 20, y: from.y });
  await page.keyboard.press("Delete");
  await expect(pieces(page)).toHaveCount(10);
});
