// Everything that is there to be seen: bounces that light up, the parts that are loaded on request, the picture of the room,
// where figures are from, and the pages to read.
import { expect, test } from "@playwright/test";
import { sideways, violations } from "./axe.js";
import { bassThere, drag, hold, middleOf, middleOfPiece, nextFrame, open, piece, watch } from "./support.js";

/** @import { Page, TestInfo } from "@playwright/test" */

/** @param {Page} page @param {TestInfo} info @param {string} name */
async function picture(page, info, name) {
  await info.attach(name, { body: await page.screenshot({ fullPage: true }), contentType: "image/png" });
}

/** @param {Page} page @param {string} bounce such as "left 0" */
const markOf = (page, bounce) => page.locator(`[data-mark="${bounce}"]`);
/** @param {Page} page @param {string} surface */
const rowOf = (page, surface) => page.locator(`.bounces tr[data-bounce="${surface}"]`);
/** @param {Page} page */
const litWay = (page) => page.locator("[data-sheet] .lit-way");
/** @param {Page} page @param {string} words */
const fold = (page, words) => page.locator("summary", { hasText: words });

test.describe("a bounce that is looked at", () => {
  test("lights its row from its mark and its mark from its row, with path, delay and level", async ({ page }) => {
    await open(page);
    await expect(litWay(page)).toHaveCount(0);
    const mark = await middleOf(markOf(page, "left 0").locator(".hit"));
    await page.mouse.move(mark.x, mark.y);
    await expect(rowOf(page, "left")).toHaveClass(/is-lit/);
    await expect(page.locator(".lit-label")).toHaveText(/1\.9\sms later, −\d+ dB3\.62\sm, straight 2\.97\sm/);
    await expect(page.locator(".lit-words")).toContainText(/Left wall, left loudspeaker: 3\.62\sm instead of 2\.97\sm, so 1\.9\sms later/);
    // Seen from above and square to the wall.
    await expect(litWay(page)).toHaveCount(2);
    await rowOf(page, "ceiling").locator("th").hover();
    await expect(markOf(page, "ceiling 0")).toHaveClass(/is-lit/);
    await expect(markOf(page, "ceiling 1")).toHaveClass(/is-lit/);
    await expect(rowOf(page, "left")).not.toHaveClass(/is-lit/);
    await page.keyboard.press("Escape");
    await expect(litWay(page), "hover content can be dismissed").toHaveCount(0);
  });

  test("is gone to by Tab and arrows, and Enter goes from mark to row and back", async ({ page }) => {
    await open(page);
    await markOf(page, "left 0").focus();
    await expect(rowOf(page, "left")).toHaveClass(/is-lit/);
    await page.keyboard.press("ArrowRight");
    await expect(markOf(page, "left 1")).toBeFocused();
    for (let step = 0; step < 10; step += 1) await page.keyboard.press("ArrowRight");
    await expect(markOf(page, "ceiling 1")).toBeFocused();
    await page.keyboard.press("Enter");
    await expect(rowOf(page, "ceiling")).toBeFocused();
    await page.keyboard.press("ArrowUp");
    await expect(rowOf(page, "floor")).toBeFocused();
    await expect(markOf(page, "floor 0")).toHaveClass(/is-lit/);
    await page.keyboard.press("ArrowRight");
    await expect(markOf(page, "floor 0")).not.toHaveClass(/is-lit/);
    await page.keyboard.press("Enter");
    await expect(markOf(page, "floor 1")).toBeFocused();
  });

  test("has exactly one stop of the Tab key on the marks and one on the rows", async ({ page }) => {
    await open(page);
    await expect(page.locator('[data-mark][tabindex="0"]')).toHaveCount(1);
    await expect(page.locator('tr[data-bounce][tabindex="0"]')).toHaveCount(1);
  });

  test("leaves the piece below it to the pointer", async ({ page }) => {
    await open(page);
    const mark = await middleOf(markOf(page, "left 0").locator(".hit"));
    // Within the mark's own area, on the edge of the piece.
    const at = { x: mark.x, y: mark.y + 4 };
    await hold(page, at, { x: at.x, y: at.y + 20 });
    await expect(piece(page, 0)).toHaveAttribute("aria-pressed", "true");
    await expect(page.locator("[data-sheet] .carried .piece")).toHaveCount(1);
    await page.mouse.up();
  });

  test("has a box that holds its mark, for every mark", async ({ page }) => {
    await open(page);
    const boxes = page.locator("[data-sheet] .wander");
    await expect(boxes).toHaveCount(12);
    const inside = await page.evaluate(() => [...document.querySelectorAll("[data-sheet] .wander")].every((box) => {
      const around = box.getBoundingClientRect();
      const spot = box.nextElementSibling?.querySelector(".cross")?.getBoundingClientRect();
      if (!spot) return false;
      const [x, y] = [spot.x + spot.width / 2, spot.y + spot.height / 2];
      return x >= around.left - 1 && x <= around.right + 1 && y >= around.top - 1 && y <= around.bottom + 1 && around.width > 2 && around.height > 2;
    }));
    expect(inside).toBe(true);
  });
});

test.describe("on a screen 320 px wide", () => {
  test.use({ viewport: { width: 320, height: 700 } });

  test("Previous and Next go round all six surfaces, one at a time", async ({ page }) => {
    await open(page);
    /** @type {string[]} */
    const seen = [];
    for (let turn = 0; turn < 6; turn += 1) {
      await expect(page.locator("[data-sheet] [data-surface]")).toHaveCount(1);
      seen.push(await page.locator(".turn b").innerText());
      await page.getByRole("button", { name: /, next surface/ }).click();
    }
    expect(new Set(seen).size).toBe(6);
    expect(await page.locator(".turn b").innerText()).toBe(seen[0]);
    await page.getByRole("button", { name: /, previous surface/ }).click();
    expect(await page.locator(".turn b").innerText()).toBe(seen[5]);
  });

  test("a tap on a row says its bounce, and one more shows its mark", async ({ page }) => {
    await open(page);
    await rowOf(page, "ceiling").locator("td").first().click();
    await expect(page.locator(".lit-words")).toContainText("Ceiling, left loudspeaker");
    await page.getByRole("button", { name: "show it on the drawing" }).click();
    await expect(page.locator(".turn b")).toHaveText("Ceiling");
    await expect(markOf(page, "ceiling 0")).toBeFocused();
    await expect(markOf(page, "ceiling 0")).toBeInViewport();
    await expect(litWay(page)).toHaveCount(1);
  });
});

test.describe("what is loaded on request", () => {
  test("is not part of the first load, and comes when it is opened", async ({ page }) => {
    const { complaints, asked } = watch(page);
    await open(page);
    await bassThere(page);
    const parts = () => asked.filter(({ address }) => /-[A-Z0-9]{8}\.js$/.test(address)).length;
    const first = parts();
    await fold(page, "Bounces over time").click();
    await expect(page.locator("svg.arrivals .arrival").first()).toBeVisible();
    await fold(page, "Comb of one bounce").click();
    await expect(page.locator(".comb .curve.third")).toBeVisible();
    await fold(page, "Draw it from the seat").click();
    await expect(page.locator("svg.scene .is-piece .flank").first()).toBeVisible();
    await fold(page, "Where is this from? Decay").click();
    await expect(page.locator(".decay-part .origin-body")).toContainText("Sound energy is followed for every direction");
    expect(parts()).toBeGreaterThanOrEqual(first + 4);
    expect(complaints).toEqual([]);
  });

  test("the response shows both in third-octaves, then each and as it is", async ({ page }) => {
    await open(page);
    await bassThere(page);
    const part = page.locator(".response-part");
    await expect(part.locator(".curve")).toHaveCount(1);
    await part.getByLabel("Loudspeakers").selectOption("pair");
    await expect(part.locator(".curve")).toHaveCount(2);
    await part.getByLabel("as it is, too").check();
    await expect(part.locator(".curve")).toHaveCount(4);
    await part.locator("summary", { hasText: "These figures as a table" }).click();
    expect(await part.locator("tbody tr").count()).toBeGreaterThanOrEqual(27);
  });

  test("every fold of Where is this from says formula, inputs, source and limits", async ({ page }) => {
    await open(page);
    await bassThere(page);
    const folds = page.locator("main .charts .origin, main .below .origin");
    const count = await folds.count();
    expect(count).toBeGreaterThanOrEqual(7);
    for (let index = 0; index < count; index += 1) {
      await folds.nth(index).locator("summary").first().click();
      for (const head of ["How it is worked out", "What goes in", "After", "Where it stops"]) await expect(folds.nth(index).locator(".origin-body")).toContainText(head);
    }
  });
});

for (const width of [1440, 1280, 768, 360]) {
  test(`what is told about the kinds closes where it was opened, and by Escape; own figures as well, ${width} px`, async ({ page }) => {
    await page.setViewportSize({ width, height: 900 });
    await open(page);
    for (const part of [page.locator(".kinds-fold:not(.own-kind)"), page.locator(".own-kind")]) {
      const words = part.locator("> summary");
      const body = part.locator(".kinds-body");
      await words.click();
      await expect(body).toBeVisible();
      await expect(body.locator("label").first()).toBeVisible();
      await words.click();
      await expect(body).toBeHidden();
      await words.click();
      await body.locator("select").first().focus();
      await page.keyboard.press("Escape");
      await expect(body).toBeHidden();
      await expect(words).toBeFocused();
    }
  });
}

test.describe("the picture of the room", () => {
  /** @param {Page} page */
  async function openPicture(page) {
    await open(page);
    await fold(page, "Draw it from the seat").click();
    await expect(page.locator("svg.scene")).toBeVisible();
  }
  /** @param {Page} page */
  const drawn = (page) => page.locator("svg.scene").evaluate((scene) => scene.innerHTML.replace(/<!--.*?-->/g, ""));

  test("is looked at from the seat, the door and outside, and turned by buttons, keys and drag", async ({ page }) => {
    await openPicture(page);
    const words = page.locator(".room-view .says");
    await expect(words).toContainText("From the seat, towards the front wall");
    for (const turn of ["right", "right", "right", "right", "right", "right"]) await page.locator(".view-buttons").getByRole("button", { name: turn, exact: true }).click();
    await expect(words).toContainText("towards the right wall");
    await page.locator(".room-view").getByLabel("Look").selectOption("door");
    await expect(words).toContainText("From the door");
    await page.locator(".room-view").getByLabel("Look").selectOption("free");
    await expect(words).toContainText("all 11 pieces are in view");
    const scene = page.locator("svg.scene");
    await scene.focus();
    const before = await drawn(page);
    await page.keyboard.press("ArrowLeft");
    await nextFrame(page);
    const after = await drawn(page);
    expect(after).not.toBe(before);
    await scene.scrollIntoViewIfNeeded();
    const middle = await middleOf(scene);
    await drag(page, middle, { x: middle.x + 80, y: middle.y + 20 });
    expect(await drawn(page)).not.toBe(after);
    await page.keyboard.press("Home");
    await nextFrame(page);
    expect(await drawn(page)).toBe(before);
  });

  test("stays as it is while a piece is dragged, and follows the drop", async ({ page }) => {
    await openPicture(page);
    await page.locator(".room-view").getByLabel("Look").selectOption("free");
    const before = await drawn(page);
    await piece(page, 6).scrollIntoViewIfNeeded();
    const from = await middleOfPiece(page, 6);
    await hold(page, from, { x: from.x - 40, y: from.y });
    expect(await drawn(page)).toBe(before);
    await page.mouse.up();
    await nextFrame(page);
    expect(await drawn(page)).not.toBe(before);
  });
});

test.describe("the pages to read", () => {
  test("open from Help beside the page", async ({ page }) => {
    await open(page);
    await page.locator(".help summary").click();
    const [how] = await Promise.all([page.waitForEvent("popup"), page.getByRole("link", { name: /^How it works/ }).click()]);
    await expect(how.getByRole("heading", { level: 1 })).toHaveText("How it works and where it stops");
    await expect(how.locator("h2").first()).toHaveText("Where it stops");
  });

  for (const name of ["how", "ask", "measure"]) {
    for (const [width, scheme] of /** @type {const} */ ([[1280, "light"], [320, "dark"]])) {
      test(`${name}.html breaks no rule and nothing lies sideways, ${width} px, ${scheme}`, async ({ page }, info) => {
        await page.setViewportSize({ width, height: 800 });
        await page.emulateMedia({ colorScheme: scheme });
        const { complaints } = watch(page);
        await page.goto(`./${name}.html`);
        await picture(page, info, `${name} ${width} ${scheme}`);
        expect(await violations(page)).toEqual([]);
        expect(await sideways(page)).toBeLessThanOrEqual(0);
        expect(complaints).toEqual([]);
      });
    }
  }
});

/** Opens what is there to be seen, all of it. @param {Page} page */
async function openAll(page) {
  await open(page);
  await bassThere(page);
  for (const words of ["Bounces over time", "Comb of one bounce", "Draw it from the seat"]) await fold(page, words).click();
  await expect(page.locator("svg.scene .is-piece .flank").first()).toBeVisible();
  await expect(page.locator(".comb .curve.third")).toBeVisible();
  await page.locator(".response-part select").selectOption("pair");
  for (const box of await page.getByLabel("as it is, too").all()) await box.check();
}

const STATES = /** @type {const} */ ([
  { width: 1280, height: 800, colorScheme: "light", forcedColors: "none" },
  { width: 1280, height: 800, colorScheme: "dark", forcedColors: "none" },
  { width: 1280, height: 800, colorScheme: "light", forcedColors: "active" },
  { width: 360, height: 740, colorScheme: "light", forcedColors: "none" },
  { width: 320, height: 700, colorScheme: "dark", forcedColors: "none" },
  { width: 320, height: 700, colorScheme: "light", forcedColors: "active" },
]);

for (const { width, height, colorScheme, forcedColors } of STATES) {
  test(`with everything open no rule is broken, ${width} × ${height}, ${colorScheme}, forced colours ${forcedColors}`, async ({ page }, info) => {
    test.setTimeout(180_000);
    await page.setViewportSize({ width, height });
    await page.emulateMedia({ colorScheme, forcedColors });
    await openAll(page);
    await rowOf(page, "left").locator("td").first().click();
    await expect(rowOf(page, "left")).toHaveClass(/is-lit/);
    await picture(page, info, "everything open");
    expect(await sideways(page)).toBeLessThanOrEqual(0);
    expect(await violations(page)).toEqual([]);
    for (const words of ["Where is this from? Decay", "Where is this from? Bounces", "Where is this from? Bass"]) await fold(page, words).click();
    await expect(page.locator(".bass-part .origin-body")).toContainText("Where it stops");
    await page.locator(".help summary").click();
    expect(await sideways(page)).toBeLessThanOrEqual(0);
    expect(await violations(page)).toEqual([]);
  });
}
