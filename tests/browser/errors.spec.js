// Empty, wrong and odd states of the page: nothing is lost, and a sentence says what is wrong with which limit.
import { expect, test } from "@playwright/test";
import { documentOf, figure, middleOf, middleOfPiece, nextFrame, open, packed, pieces, pointOn, settledText, step } from "./support.js";

/** @import { Page } from "@playwright/test" */

/** The demo room changed by hand, opened from a link. @param {Page} page @param {(document: any) => void} change */
async function openChanged(page, change) {
  const document = await (await page.request.get("scenarios/long-terrace-room.json")).json();
  change(document);
  await open(page, packed(document));
}

/** Opens one row of the room facts. @param {Page} page @param {string} label */
async function openFact(page, label) {
  const row = page.locator("details.fact", { has: page.locator(".fact-label", { hasText: label }) });
  if (!(await row.evaluate((one) => /** @type {HTMLDetailsElement} */ (one).open))) await row.locator("summary").first().click();
  return row;
}

const status = (/** @type {Page} */ page) => page.locator(".status p");

test("no kit yet: the decay of today is drawn, and the words say what to do", async ({ page }) => {
  await openChanged(page, (document) => { document.plans[1].pieces = []; });
  await expect(page.locator("svg.decay")).toBeVisible();
  await expect(page.locator(".parts")).toContainText("Put one thing where the mark is and watch the strip.");
  await expect(page.locator(".answer")).toContainText("the same as today");
});

test("no loudspeakers and no seat: decay still works, the rest explains and puts them back", async ({ page }) => {
  await openChanged(page, (document) => { document.listening = { loudspeakers: [] }; });
  await expect(page.locator("svg.decay")).toBeVisible();
  for (const part of [".bounces", ".share-part", ".bass-part"]) await expect(page.locator(part).first()).toContainText("this plan is without loudspeakers and a seat");
  await page.locator(".share-part").getByRole("button", { name: "Put them back" }).click();
  await expect(page.locator(".bounces table")).toBeVisible();
  const { listening } = await documentOf(page);
  expect(listening.loudspeakers).toHaveLength(2);
  expect(listening.seat).toBeTruthy();
  await expect(step(page, "Undo")).toHaveText(/put back what is missing/);
});

test("loudspeakers and seat can be removed on the page, one step each", async ({ page }) => {
  await open(page);
  await page.getByRole("button", { name: "seat", exact: true }).click();
  await page.getByRole("button", { name: "Remove the seat" }).click();
  await expect(page.locator(".bounces").first()).toContainText("this plan is without a seat");
  await step(page, "Undo").click();
  await expect(page.locator(".bounces table")).toBeVisible();
});

for (const typed of ["", "0", "-3", "abt 3", "1e9", "400", "2,400"]) {
  test(`a size typed as “${typed}” keeps the last one, says why, and dims what follows from it`, async ({ page }) => {
    await open(page);
    const before = await documentOf(page);
    const row = await openFact(page, "Size");
    await row.locator(".three input").nth(0).fill(typed);
    await row.locator(".three input").nth(0).press("Enter");
    await expect(row.getByRole("alert").first()).toHaveText(/\S.*[.?]$/);
    await expect(page.locator(".charts.is-dimmed")).toHaveCount(1);
    await expect(page.locator(".wrong-size")).toContainText("Until then these figures are those of the last size.");
    expect(await documentOf(page)).toEqual(before);
    await row.locator(".three input").nth(0).press("Escape");
    await expect(page.locator(".charts.is-dimmed")).toHaveCount(0);
    await expect(step(page, "Undo")).toHaveAttribute("aria-disabled", "true");
  });
}

test("a room beyond what was tried is computed and marked; beyond 25 m it is refused with the limits", async ({ page }) => {
  await open(page);
  const row = await openFact(page, "Size");
  await row.locator(".three input").nth(1).fill("16");
  await row.locator(".three input").nth(1).press("Enter");
  await expect(status(page)).toContainText("Outside the range we trust");
  await expect(page.locator(".notes")).toContainText("outside the range we trust");
  await row.locator(".three input").nth(1).fill("26");
  await row.locator(".three input").nth(1).press("Enter");
  await expect(row.getByRole("alert").first()).toHaveText(/between 1\.20.m and 25\.00.m/);
  expect((await documentOf(page)).room.length_m).toBe(16);
});

test("a seat dragged out of the room stops at the wall and says so", async ({ page }) => {
  await open(page);
  const seat = await middleOf(page.locator("[data-seat] .hit"));
  const wall = await pointOn(page, "left", 3.9, 1.2);
  await page.mouse.move(seat.x, seat.y);
  await page.mouse.down();
  await page.mouse.move(wall.x, wall.y, { steps: 8 });
  await page.mouse.up();
  await expect(status(page)).toContainText("Seat stops 10 cm from the surface");
  expect((await documentOf(page)).listening.seat.x_m).toBe(0.1);
});

test("a seat near a loudspeaker or inside the sofa is warned of, and the answer goes on", async ({ page }) => {
  await open(page);
  await page.getByRole("button", { name: "seat", exact: true }).click();
  const panel = page.locator("[data-item-panel]");
  for (const [label, value] of [["from the left wall", "0.9"], ["from the front wall", "1.3"]]) {
    await panel.getByLabel(label).fill(value);
    await panel.getByLabel(label).press("Enter");
  }
  await expect(status(page)).toContainText("nearer than half a metre to a loudspeaker");
  await expect(figure(page)).toBeVisible();
  const { at } = (await documentOf(page)).room.furnishings.find((/** @type {any} */ one) => one.at && one.kind.startsWith("sofa"));
  for (const [label, value] of [["from the left wall", at.x_m + at.width_m / 2], ["from the front wall", at.y_m + at.depth_m - 0.1], ["above the floor", at.height_m - 0.1]]) {
    await panel.getByLabel(`${label}`).fill(`${value} m`);
    await panel.getByLabel(`${label}`).press("Enter");
  }
  await expect(status(page)).toContainText("The seat is inside the sofa");
});

test("a loudspeaker typed into the wall slides to touching and names what is not modelled", async ({ page }) => {
  await open(page);
  await page.getByRole("button", { name: "left loudspeaker", exact: true }).click();
  await page.locator("[data-item-panel]").getByLabel("from the front wall").fill("0");
  await page.locator("[data-item-panel]").getByLabel("from the front wall").press("Enter");
  await expect(status(page)).toContainText("Loudspeakers that are built into a wall are not modelled.");
  expect((await documentOf(page)).listening.loudspeakers[0].y_m).toBe(0.1);
});

test("an opening wider than its wall is trimmed to it, and that is said", async ({ page }) => {
  await open(page);
  const row = await openFact(page, "Openings");
  const opening = row.locator("details.one-fact").first();
  await opening.locator("summary").first().click();
  await opening.getByLabel(/^width/i).first().fill("20");
  await opening.getByLabel(/^width/i).first().press("Enter");
  await expect(status(page)).toContainText(/Trimmed to the .* wall\./);
});

test("a room that absorbs like a booth is called one, and its ranges are doubled", async ({ page }) => {
  await openChanged(page, (document) => {
    document.own_finishes = [{ id: "own", name: "Own", bands_hz: [1000], absorption: [0.8] }];
    for (const surface of Object.values(document.room.surfaces)) surface.finish = "own";
    document.plans[1].pieces = [];
  });
  expect(await settledText(page)).toContain("More like a recording booth than a room: check the surfaces.");
  await expect(page.locator(".notes")).toContainText("Its ranges are doubled.");
});

test("a room that is no box gets advice, doubled ranges and a mark", async ({ page }) => {
  await open(page);
  const range = (/** @type {string} */ text) => (text.match(/in (\d\.\d\d)–(\d\.\d\d) s/) ?? []).slice(1).map(Number);
  const [low, high] = range(await settledText(page));
  const row = await openFact(page, "Size");
  await row.getByLabel("it is no box").check();
  await expect(row).toContainText("L-shape: type the part in which you listen, and add an opening where the other part begins.");
  const text = await settledText(page);
  const [wideLow, wideHigh] = range(text);
  expect(text).toContain("Ranges are doubled, as the room is no box.");
  expect(Math.log(wideHigh / wideLow) / Math.log(high / low)).toBeGreaterThan(1.8);
});

test("script text in every name is shown as text", async ({ page }) => {
  const script = "<img src=x onerror=alert(1)>";
  await openChanged(page, (document) => {
    document.title = script;
    document.plans[1].name = script;
    document.kit[0].name = script;
    document.room.keep_clear = [{ surface: "ceiling", u_m: 1, v_m: 1, width_m: 0.1, height_m: 0.1, margin_m: 0, why: script }];
    document.own_finishes = [{ id: "own", name: script, bands_hz: [1000], absorption: [0.3] }];
    document.room.surfaces.back.finish = "own";
    document.own_furnishings = [{ id: "thing", name: script, bands_hz: [1000], absorption_area_m2: [0.3], surface_m2: 2 }];
    document.room.furnishings.push({ kind: "thing", count: 1 });
  });
  await expect(page.locator("#app img, #app script, #app [onerror]")).toHaveCount(0);
  await expect(page.getByText(script).first()).toBeVisible();
});

test("a number pasted into a piece's field that no wall holds goes to its end, nonsense is refused in words", async ({ page }) => {
  await open(page);
  const field = page.getByLabel("From left or front, piece 2");
  await field.fill("9".repeat(30));
  await field.press("Enter");
  await expect(status(page)).toContainText("Stops at the edge of");
  const before = await documentOf(page);
  for (const typed of ["NaN", "-1", "<b>1</b>", "9".repeat(400)]) {
    await field.fill(typed);
    await field.press("Enter");
    await expect(page.locator(".parts [role=alert]:not(:empty)").first()).toContainText("I could not read");
    await field.press("Escape");
  }
  expect(await documentOf(page)).toEqual(before);
});

for (const { name, spoil } of [
  { name: "does not arrive", spoil: (/** @type {import("@playwright/test").Route} */ route) => route.fulfill({ status: 404, body: "" }) },
  { name: "is cut off", spoil: (/** @type {import("@playwright/test").Route} */ route) => route.fulfill({ status: 200, contentType: "application/wasm", body: Buffer.from([0, 97, 115, 109, 1, 0]) }) },
  { name: "is blocked", spoil: (/** @type {import("@playwright/test").Route} */ route) => route.abort() },
]) {
  test(`a core that ${name} leaves no blank page: what failed, which browsers work, the draft untouched`, async ({ page }) => {
    await open(page);
    await page.evaluate(() => localStorage.setItem("seatward.draft", "{\"mine\": 1}"));
    await page.route("**/*.wasm", spoil);
    await page.reload();
    await expect(page.getByRole("heading", { level: 1 })).toHaveText("The part that computes could not be started.");
    await expect(page.locator("main")).toContainText("It works in Firefox 121");
    await expect(page.locator("main")).toContainText("What failed:");
    expect(await page.evaluate(() => localStorage.getItem("seatward.draft"))).toBe("{\"mine\": 1}");
  });
}

test("Escape, a piece let go beside the room, and an impossible size leave no step behind", async ({ page }) => {
  await open(page);
  const from = await middleOfPiece(page, 6);
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  await page.mouse.move(from.x - 60, from.y, { steps: 4 });
  await page.keyboard.press("Escape");
  await page.mouse.up();
  await nextFrame(page);
  await expect(pieces(page)).toHaveCount(11);
  await expect(step(page, "Undo")).toHaveAttribute("aria-disabled", "true");
});
