// The Hang sheet as it comes out of a printer: every piece by its measures, legible, with cautions and a way back to the plan.
import { readFile } from "node:fs/promises";
import { expect, test } from "@playwright/test";
import { cautions } from "../../www/model/cautions.js";
import { violations } from "./axe.js";
import { pictureOf, sheetsOf, squareOf } from "./paper.js";
import { bassThere, documentOf, open, packed, settled, unpacked } from "./support.js";

/**
 * @import { Page } from "@playwright/test"
 * @import { Sheet } from "./paper.js"
 * @typedef {{plan: number, units?: "imperial"}} Shown
 */

/** @param {Page} page @param {string} room @returns {Promise<any>} */
const scenario = async (page, room) => (await page.request.get(`scenarios/${room}.json`)).json();

/** Opens a document with one of its plans in hand, ranges there, and its sheet. @param {Page} page @param {any} document @param {Shown} shown */
async function openSheet(page, document, { plan, units }) {
  await open(page, packed(document));
  await expect(page.getByLabel("Title of the room")).toHaveValue(document.title);
  await page.locator(".plans .tab").nth(plan).click();
  if (units === "imperial") await page.getByRole("button", { name: /^Units/ }).click();
  await settled(page);
  await page.getByRole("button", { name: "Hang sheet" }).click();
  await expect(page.locator(".paper .link")).toBeVisible();
}

/** Width and height as a piece covers its surface. @param {any} kind @param {any} piece */
function covered(kind, piece) {
  const depth_m = (kind.absorber.layers ?? []).reduce((/** @type {number} */ sum, /** @type {any} */ layer) => sum + (Object.values(layer)[0].thickness_mm ?? 0), 0) / 1000 || (kind.depth_mm ?? 0) / 1000;
  if (piece.place === "corner") return [kind.width_m / Math.SQRT2, kind.height_m];
  if (piece.place !== "stand") return piece.turned ? [kind.height_m, kind.width_m] : [kind.width_m, kind.height_m];
  const turn = (piece.turn_deg * Math.PI) / 180;
  const [sine, cosine] = [Math.abs(Math.sin(turn)), Math.abs(Math.cos(turn))];
  return [kind.width_m * cosine + depth_m * sine, kind.width_m * sine + depth_m * cosine];
}

/** Near edge, centre, lower edge, centre of every piece, out of the document alone, metres. @param {any} document @param {number} plan @returns {number[][]} */
function wanted(document, plan) {
  return document.plans[plan].pieces.map((/** @type {any} */ piece) => {
    const [width_m, height_m] = covered(document.kit.find((/** @type {any} */ kind) => kind.id === piece.kit), piece);
    if (piece.place === "stand") return [piece.x_m - width_m / 2, piece.x_m, piece.y_m - height_m / 2, piece.y_m];
    const far = /^back/.test(piece.edge ?? "") ? document.room.length_m - width_m : 0;
    const [u_m, v_m] = piece.place === "corner" ? [far, piece.z_m] : [piece.u_m, piece.v_m];
    return [u_m, u_m + width_m / 2, v_m, v_m + height_m / 2];
  });
}

const METRES = String.raw`(\d+\.\d\d)`;
const FEET = String.raw`(\d+'(?: (?:\d+ )?\d+(?:\/\d)?")?|(?:\d+ )?\d+(?:\/\d)?")`;

/** @param {string} text "4' 1 1/2\"" or "1.59" @returns {number} metres */
function inMetres(text) {
  const [, feet = "0", whole = "0", fraction = "0"] = /^(?:(\d+)')? ?(?:(\d+)(?= \d+\/|"))? ?(\d+\/\d)?"?$/.exec(text) ?? [];
  if (/^\d+\.\d\d$/.test(text)) return Number(text);
  const [above, below = "1"] = fraction.split("/");
  return Number(feet) * 0.3048 + (Number(whole) + Number(above) / Number(below)) * 0.0254;
}

/** The measures that the sheets give each piece, by its number. @param {Sheet[]} sheets @param {string} figure @returns {Map<number, number[]>} */
function printed(sheets, figure) {
  const row = new RegExp(String.raw`^(\d+) \D.*? ${figure} ${figure} ${figure} ${figure} (?:\d+(?:\.\d)? ?(?:kg|lb)|not known)$`);
  /** @type {Map<number, number[]>} */
  const found = new Map();
  for (const { text } of sheets.flatMap(({ lines }) => lines)) {
    const match = row.exec(text);
    if (!match) continue;
    const number = Number(match[1]);
    expect(found.has(number), `piece ${number} stands on one sheet only: ${text}`).toBe(false);
    found.set(number, match.slice(2, 6).map(inMetres));
  }
  return found;
}

/** As a PDF gives it back. @param {string} text */
const inPrint = (text) => text.replace(/[\u202f\u00a0]/g, " ").replace(/\s+/g, " ").trim();

/** Openings and zones on the surfaces that carry a piece, as their elevations name them. @param {any} document @param {number} plan @returns {string[]} */
function named(document, plan) {
  const surfaces = new Set(document.plans[plan].pieces.map((/** @type {any} */ piece) => piece.surface).filter(Boolean));
  const parts = [...surfaces].flatMap((surface) => document.room.surfaces[surface].parts ?? []);
  const roles = parts.flatMap(({ role }) => (role === "door" || role === "window" ? [role] : []));
  const zones = (document.room.keep_clear ?? []).filter((/** @type {any} */ zone) => surfaces.has(zone.surface)).map((/** @type {any} */ zone) => zone.why);
  return [...new Set([...roles, ...zones])];
}

for (const format of /** @type {const} */ (["A4", "Letter"])) {
  for (const { room, plan, units } of [
    { room: "long-terrace-room", plan: 1 }, { room: "concrete-loft", plan: 3 }, { room: "rented-corner-room", plan: 2 },
    { room: "square-study", plan: 3 }, { room: "tall-room", plan: 1 }, { room: "basement-den", plan: 1, units: /** @type {const} */ ("imperial") },
  ]) {
    test(`every piece of the ${room} stands on ${format} with the document's own measures`, async ({ page }) => {
      const document = await scenario(page, room);
      await openSheet(page, document, { plan, units });
      const sheets = await sheetsOf(await page.pdf({ format }));
      const found = printed(sheets, units === "imperial" ? FEET : METRES);
      const expected = wanted(document, plan);
      expect([...found.keys()].sort((a, b) => a - b)).toEqual(expected.map((_, index) => index + 1));
      expected.forEach((measures, index) => measures.forEach((value_m, which) => {
        const off_m = Math.abs((found.get(index + 1) ?? [])[which] - value_m);
        // To 1 cm, or to 1/8 inch: half a step of rounding, and what is not exact in binary.
        expect(off_m, `piece ${index + 1}, measure ${which}: ${found.get(index + 1)} for ${measures}`).toBeLessThan(units === "imperial" ? 0.0254 / 16 + 1e-4 : 0.005 + 1e-4);
      }));
      const small = sheets.flatMap(({ lines }) => lines).filter(({ sizes_pt }) => Math.min(...sizes_pt) < 10);
      expect(small.map(({ text }) => text), "10 points at least").toEqual([]);
      const all = sheets.map(({ text }) => text).join(" ").replace(/\s+/g, " ");
      for (const { id, text } of cautions(document, document.plans[plan], null)) expect(all, id).toContain(inPrint(text));
      for (const word of named(document, plan)) expect(all, `what is drawn: ${word}`).toContain(word);
      expect(sheets.map(({ text }) => text).join(" ")).not.toMatch(/Kit shelf|Decay, band by band|NaN|undefined/);
    });
  }
}

/** The plan with the most pieces. @param {any} document @returns {number} */
function fullest({ plans }) {
  const counts = plans.map((/** @type {any} */ plan) => plan.pieces.length);
  return counts.indexOf(Math.max(...counts));
}

/** Every page of the PDF has its number of as many as there are, and a title. @param {Page} page @param {"A4"|"Letter"} format */
async function eachNumbered(page, format) {
  const count = await page.locator(".paper").count();
  const sheets = await sheetsOf(await page.pdf({ format }));
  expect(sheets.map(({ lines }) => /sheet \d+ of \d+$/.exec(lines[0].text)?.[0]), format).toEqual(Array.from({ length: count }, (_, index) => `sheet ${index + 1} of ${count}`));
  const titles = await page.locator(".paper h1").allInnerTexts();
  expect(sheets.map(({ lines }) => lines[1].text), format).toEqual(titles.map(inPrint));
}

for (const room of ["long-terrace-room", "concrete-loft", "rented-corner-room", "square-study", "tall-room", "basement-den"]) {
  test(`every printed page of the fullest plan of the ${room} carries its heading and a true number`, async ({ page }) => {
    const document = await scenario(page, room);
    await openSheet(page, document, { plan: fullest(document), ...(room === "basement-den" ? { units: /** @type {const} */ ("imperial") } : {}) });
    await eachNumbered(page, "A4");
    await eachNumbered(page, "Letter");
  });
}

test("lists longer than a page, and a narrow screen, leave no page without its number", async ({ page }) => {
  const document = await scenario(page, "concrete-loft");
  const [first] = document.plans[3].pieces.filter((/** @type {any} */ piece) => piece.surface === "back");
  delete document.room.surfaces.back.parts;
  document.room.keep_clear = [];
  document.plans[3].pieces = Array.from({ length: 26 }, (_, index) => ({ ...first, turned: false, u_m: 0.1 + 0.65 * (index % 13), v_m: index < 13 ? 0.2 : 1.6 }));
  await openSheet(page, document, { plan: 3 });
  await expect(page.getByRole("heading", { name: "Back wall, continued" }).first()).toBeVisible();
  await eachNumbered(page, "Letter");
  await page.setViewportSize({ width: 360, height: 740 });
  await eachNumbered(page, "A4");
});

test("no piece is split between two pages, and heads of tables come again", async ({ page }) => {
  const document = await scenario(page, "concrete-loft");
  await openSheet(page, document, { plan: 3 });
  const sheets = await sheetsOf(await page.pdf({ format: "Letter" }));
  const rows = sheets.map(({ lines }) => lines.filter(({ text }) => /^\d+ Thick soft with gap, \d\.\d\d × /.test(text)).length);
  const marks = sheets.map(({ lines }) => lines.filter(({ text }) => /^(fixing marks|brackets) at /.test(text)).length);
  expect(rows.reduce((sum, count) => sum + count)).toBe(35);
  rows.forEach((count, index) => {
    expect(marks[index], `sheet ${index + 1}: the marks of a piece stand under it`).toBeGreaterThanOrEqual(count);
    if (count > 0) expect(sheets[index].text).toMatch(/near edge centre .* weight/);
  });
});

test("the first page says what it is for, the last what to mind in full", async ({ page }) => {
  const document = await scenario(page, "basement-den");
  document.room.conditions.push("textured-ceiling", "earthquake-region");
  await openSheet(page, document, { plan: 1, units: "imperial" });
  const sheets = await sheetsOf(await page.pdf({ format: "A4" }));
  const flat = (/** @type {string} */ text) => text.replace(/\s+/g, " ");
  const [first] = sheets;
  for (const part of ["Basement den, Plan A", String(new Date().getFullYear()), "11' 2\" × 16' 10\" × 6' 11\"", "Plan A: sound should die away in", "Tools", "100 mm: measure me; trust the written numbers."]) {
    expect(flat(first.text)).toContain(part);
  }
  expect(flat(first.text)).toMatch(/die away in 0\.\d\d–0\.\d\d ?s, today/);
  const last = flat(sheets.slice(sheets.findIndex(({ text }) => text.includes("Mind, assume, check"))).map(({ text }) => text).join(" "));
  for (const part of ["This will hang over people.", "asbestos or lead", "Follow the product’s safety sheet".replace("’", "'"), "Ask locally about restraint", "Heat and cloth do not mix.", "Ask for the reaction-to-fire class",
    "Leave the way out", "Leave air behind", "Two people for anything over your head", "It is not structural, fire, electrical or health advice.", "No balloons or bangs near ears.", "Nobody has looked at these yet"]) {
    expect(last, part).toContain(part);
  }
  for (const { text } of sheets.filter((sheet) => /^(Left|Right|Front|Back) wall$|^Ceiling$/m.test(sheet.text))) expect(flat(text)).toContain("Look for cables, water and gas before drilling");
});

test("the code square opens the same plan", async ({ page }) => {
  const document = await scenario(page, "concrete-loft");
  await openSheet(page, document, { plan: 1 });
  const bytes = await page.pdf({ format: "A4" });
  const sheets = await sheetsOf(bytes);
  const number = sheets.findIndex(({ text }) => text.includes("The plan again")) + 1;
  const read = await squareOf(bytes, number);
  expect(unpacked(new URL(read ?? "").hash)).toEqual(document);
  expect(await page.locator(".paper .link").getAttribute("href")).toBe(read);
});

test("paper is black on white in the dark too, and patterns tell pieces apart", async ({ page }) => {
  await page.emulateMedia({ colorScheme: "dark" });
  const document = await scenario(page, "long-terrace-room");
  await openSheet(page, document, { plan: 1 });
  const { data } = await pictureOf(await page.pdf({ format: "A4" }), 2, 1);
  let [coloured, dark] = [0, 0];
  for (let at = 0; at < data.length; at += 4) {
    const [red, green, blue] = data.subarray(at, at + 3);
    if (Math.max(red, green, blue) - Math.min(red, green, blue) > 12) coloured += 1;
    if (red < 80) dark += 1;
  }
  expect(coloured).toBe(0);
  const share = dark / (data.length / 4);
  expect(share, "drawn, and not on a black ground").toBeGreaterThan(0.01);
  expect(share).toBeLessThan(0.2);
  const hatches = await page.locator(".paper .piece .fill").evaluateAll((fills) => fills.map((fill) => fill.getAttribute("fill")));
  expect(new Set(hatches).size).toBeGreaterThan(2);
});

test("with nothing placed it has the room, its bounce marks, and says so", async ({ page }) => {
  const document = await scenario(page, "long-terrace-room");
  document.plans[1].pieces = [];
  await openSheet(page, document, { plan: 1 });
  const text = (await sheetsOf(await page.pdf({ format: "Letter" }))).map((sheet) => sheet.text).join("\n");
  expect(text).toContain("Nothing to hang yet.");
  expect(text).toMatch(/Left wall left, ring the front corner 1\.89 the finished floor 0\.9\d/);
});

test("the figures print by themselves, black on white, after the Hang sheet too", async ({ page }, info) => {
  test.setTimeout(180_000);
  await page.emulateMedia({ colorScheme: "dark" });
  await open(page, packed(await scenario(page, "long-terrace-room")));
  await bassThere(page);
  await settled(page);
  await page.getByRole("button", { name: "Hang sheet" }).click();
  await expect(page.locator(".paper .link")).toBeVisible();
  await page.keyboard.press("Escape");
  // What the browser's own dialog would do comes from the test: it prints what stands there when it is asked to.
  await page.evaluate(() => { window.print = () => {}; });
  await page.getByRole("button", { name: "Print the figures" }).click();
  await expect(page.locator("html.prints-figures")).toHaveCount(1);
  const pdf = await page.pdf({ format: "A4" });
  const sheets = await sheetsOf(pdf);
  const text = sheets.map((sheet) => sheet.text).join(" ").replace(/\s+/g, " ");
  for (const part of ["Decay, band by band", "Bounces at the seat", "Seat share", "Response", "Bass"]) expect(text).toContain(part);
  expect(text).not.toMatch(/Mind, assume, check|Print the figures/);
  for (let number = 1; number <= sheets.length; number += 1) {
    const { data, width, height } = await pictureOf(pdf, number, 1);
    let dark = 0;
    for (let at = 0; at < data.length; at += 4) if (Math.max(data[at], data[at + 1], data[at + 2]) < 80) dark += 1;
    expect(dark / (width * height), `page ${number}: not on a black ground`).toBeLessThan(0.25);
  }
  await info.attach("figures.pdf", { body: pdf, contentType: "application/pdf" });
  // Once it has printed, the Hang sheet is what prints again.
  await expect(page.locator("html.prints-figures")).toHaveCount(0);
  const after = (await sheetsOf(await page.pdf({ format: "A4" }))).map((sheet) => sheet.text).join(" ");
  expect(after).toContain("Mind, assume, check");
});

test("on the screen it breaks no accessibility rule, and nothing on it can be taken hold of", async ({ page }) => {
  // Plan A has a rug, so that the floor is drawn with loudspeakers, seat and furniture.
  await openSheet(page, await scenario(page, "long-terrace-room"), { plan: 1 });
  await expect(page.locator(".paper [data-seat]")).toHaveCount(1);
  await expect(page.locator(".paper :is([role=button], [tabindex])")).toHaveCount(0);
  expect(await violations(page)).toEqual([]);
});

test("Ctrl+P prints the sheet, and Escape leads back to the room", async ({ page }) => {
  await open(page);
  await page.evaluate(() => Object.assign(window, { printed: 0, print: () => { Object.assign(window, { printed: /** @type {any} */ (window).printed + 1 }); } }));
  await page.keyboard.press("Control+p");
  await expect.poll(() => page.evaluate(() => /** @type {any} */ (window).printed)).toBe(1);
  await expect(page.locator(".paper").last()).toHaveAttribute("aria-label", /^Sheet (\d+) of \1$/);
  expect(await page.locator(".paper").count(), "front, four surfaces, last, and what goes on on another").toBeGreaterThanOrEqual(6);
  await expect(page.locator(".paper").first()).toBeHidden();
  await page.getByRole("button", { name: "Hang sheet" }).click();
  await expect(page.locator(".paper").first()).toBeVisible();
  const bar = await page.locator(".check-bar svg").first().boundingBox();
  expect(bar?.width).toBeCloseTo((100 * 96) / 25.4, 0);
  await page.keyboard.press("Escape");
  await expect(page.locator(".paper").first()).toBeHidden();
  await expect(page.locator("[data-sheet=box]")).toBeVisible();
});

test("the sheet follows the plan, and its parts are saved as a table without formulas", async ({ page }) => {
  const document = await scenario(page, "long-terrace-room");
  document.kit[1].name = "=cmd|' /C calc'!A0";
  await openSheet(page, document, { plan: 1 });
  const [download] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: "Save the parts as a table" }).click()]);
  expect(download.suggestedFilename()).toBe("long-terrace-room-parts.csv");
  const text = await readFile(await download.path(), "utf8");
  expect(text).toMatch(/^count,pieces,kind,/);
  for (const line of text.trim().split("\r\n")) for (const cell of line.split(",")) expect(cell).not.toMatch(/^"?[=+\-@]/);
  await page.getByRole("button", { name: "Back to the room" }).click();
  await page.locator(".plans .tab").nth(0).click();
  await page.getByRole("button", { name: "Hang sheet" }).click();
  await expect(page.locator(".paper").first()).toContainText("Nothing to hang yet");
  expect((await documentOf(page)).plans[1].pieces).toHaveLength(11);
});
