// Story F as steps that know nothing of how they are done: keyboard, single taps, a finger on a small screen. A tall room with
// a protected ceiling: three windows, a door, a built-in bookcase; two visible pictures at most, curtains welcome; curtains
// drawn against curtains open.
import { writeFileSync } from "node:fs";
import { env } from "node:process";
import { expect } from "@playwright/test";
import { documentOf, settledText } from "./support.js";

/**
 * @import { Locator, Page, TestInfo } from "@playwright/test"
 * @typedef {object} Hand  One way to use the page.
 * @property {(what: Locator) => Promise<void>} press
 * @property {(what: Locator, text: string) => Promise<void>} type     into a field, which takes it
 * @property {(what: Locator, words: string) => Promise<void>} choose  from a list
 * @property {(what: Locator) => Promise<void>} toEnd                  a slider, to its right end
 */

/**
 * A hand that taps or clicks, without drag or key: letters come from the device's own keyboard, which gives them to the field
 * as text, and a tap beside the field takes them.
 * @param {Page} page
 * @param {"click"|"tap"} way
 * @returns {Hand}
 */
export function tappingHand(page, way) {
  return {
    press: (what) => what[way](),
    type: async (what, text) => {
      await what[way]();
      await what.evaluate((field) => /** @type {HTMLInputElement} */ (field).select());
      await page.keyboard.insertText(text);
      await what.evaluate((field) => /** @type {HTMLInputElement} */ (field).blur());
    },
    choose: async (what, words) => {
      await what.selectOption({ label: words });
    },
    toEnd: async (what) => {
      const box = await what.boundingBox();
      await what[way]({ position: { x: (box?.width ?? 0) - 2, y: (box?.height ?? 0) / 2 } });
    },
  };
}

/** A row of the room facts. @param {Page} page @param {string} label */
const fact = (page, label) => page.locator("details.fact", { has: page.locator(".fact-label", { hasText: label }) });

/** Opens a row that is closed. @param {Hand} hand @param {Locator} row */
async function unfold(hand, row) {
  if (!(await row.evaluate((one) => /** @type {HTMLDetailsElement} */ (one).open))) await hand.press(row.locator("summary").first());
  await expect(row).toHaveAttribute("open");
}

/** Closes a row again: on a roomy page its fields lie over the rows that follow. @param {Hand} hand @param {Locator} row */
async function foldUp(hand, row) {
  if (await row.evaluate((one) => /** @type {HTMLDetailsElement} */ (one).open)) await hand.press(row.locator("summary").first());
}

/** Three numbers. @param {Page} page @param {Hand} hand */
export async function startRoom(page, hand) {
  await hand.press(page.getByRole("button", { name: "start with my room" }));
  const dialog = page.getByRole("dialog", { name: "Your room" });
  for (const [label, value] of [["Width", "5.35"], ["Length", "4.05"], ["Height", "3.60"]]) await hand.type(dialog.getByLabel(label), value);
  await hand.press(dialog.getByRole("button", { name: "Draw it" }));
  await expect(page.getByText("78.0").first()).toBeVisible();
}

/** @param {Page} page @param {Hand} hand @param {string} wall @param {string} thing @param {[key: string, value: string][]} measures */
async function addPart(page, hand, wall, thing, measures) {
  const row = fact(page, "Openings");
  await unfold(hand, row);
  const before = await row.locator("details.one-fact").count();
  await hand.choose(row.locator("select.add-to"), wall);
  await hand.press(row.getByRole("button", { name: thing, exact: true }));
  await expect(row.locator("details.one-fact")).toHaveCount(before + 1);
  // The new one is the last of its wall.
  const made = row.locator("details.one-fact", { has: page.locator("summary", { hasText: `, ${wall},` }) }).last();
  await unfold(hand, made);
  for (const [label, value] of measures) await hand.type(made.getByRole("textbox", { name: new RegExp(`^${label}`, "i") }).first(), value);
}

/** Windows, door, bookcase. @param {Page} page @param {Hand} hand */
export async function addParts(page, hand) {
  for (const from of ["0.30", "1.35", "2.70"]) {
    await addPart(page, hand, "right wall", "a window", [["width", "0.70"], ["height", "2.40"], ["above", "0.60"], ["from the front", from]]);
  }
  await addPart(page, hand, "back wall", "a door", [["width", "0.90"], ["height", "2.10"], ["from the left", "0.30"]]);
  await addPart(page, hand, "left wall", "a built-in", [["width", "1.70"], ["height", "2.40"], ["from the front", "0.90"]]);
  await foldUp(hand, fact(page, "Openings"));
}

/** What the household allows. @param {Page} page @param {Hand} hand */
export async function setLimits(page, hand) {
  const row = fact(page, "Limits");
  await unfold(hand, row);
  await hand.press(row.getByRole("button", { name: /^nothing above/ }));
  await hand.type(row.getByRole("textbox", { name: /^nothing above/ }), "2.80");
  await hand.type(row.getByRole("textbox", { name: /^money at most/ }), "1500");
  await hand.type(row.getByRole("textbox", { name: /^visible pieces/ }), "2");
  await hand.press(row.getByRole("checkbox", { name: "ceiling bare" }));
  await foldUp(hand, row);
}

/** @param {Page} page @param {Hand} hand */
export async function placeListening(page, hand) {
  const panel = page.locator("[data-item-panel]");
  for (const [name, places] of /** @type {[string, string[]][]} */ ([
    ["left loudspeaker", ["1.55", "0.70", "0.95"]], ["right loudspeaker", ["3.80", "0.70", "0.95"]], ["seat", ["2.675", "3.15", "1.05"]],
  ])) {
    await hand.press(panel.getByRole("button", { name, exact: true }));
    const labels = ["from the left wall", "from the front wall", "above the floor"];
    for (const [index, value] of places.entries()) await hand.type(panel.getByLabel(labels[index]), value);
    await selectNone(page, hand);
  }
}

/** Back to the panel that names loudspeakers and seat. @param {Page} page @param {Hand} hand */
async function selectNone(page, hand) {
  await hand.press(page.locator("[data-item-panel]").getByRole("button", { name: "Done", exact: true }));
}

/** @param {Page} page @param {Hand} hand @param {string} group @param {RegExp} kind @param {string} surface @param {[label: string, value: string][]} measures */
async function addPiece(page, hand, group, kind, surface, measures) {
  await hand.press(page.locator(".kit-groups").getByRole("button", { name: group, exact: true }));
  await hand.press(page.locator(".kit").getByRole("button", { name: kind }).first());
  await hand.press(page.getByRole("group", { name: "Numbered places on" }).getByRole("button", { name: surface, exact: true }));
  await hand.press(page.locator("[data-landing]").and(page.getByRole("button", { name: new RegExp(`: ${surface},`) })).last());
  const panel = page.locator("[data-item-panel]");
  for (const [label, value] of measures) await hand.type(panel.getByLabel(label, { exact: true }), value);
}

/** Curtain over the windows, a rug, and a pair of pictures on the back wall. @param {Page} page @param {Hand} hand */
export async function addPieces(page, hand) {
  await addPiece(page, hand, "curtains", /^Pick Curtain, heavy/, "right wall", [["width", "3.40"], ["height", "2.60"], ["from the front wall", "0.15"], ["above the floor", "0.10"]]);
  await addPiece(page, hand, "rugs", /^Pick /, "floor", []);
  await addPiece(page, hand, "soft", /^Pick Thick soft/, "back wall", [["width", "1.20"], ["height", "1.80"], ["above the floor", "0.80"], ["from the left wall", "1.60"]]);
  await hand.press(page.locator("[data-item-panel]").getByRole("button", { name: "Duplicate", exact: true }));
}

/** The same with the curtains open, as a plan of its own. @param {Page} page @param {Hand} hand */
export async function comparePlans(page, hand) {
  await rename(page, hand, "Curtains drawn");
  await hand.press(page.getByRole("navigation", { name: "Plans" }).getByRole("button", { name: "New plan" }));
  await rename(page, hand, "Curtains open");
  await hand.press(page.locator(".parts").getByRole("button", { name: "Curtain", exact: true }));
  await hand.toEnd(page.locator("[data-item-panel]").getByRole("slider"));
}

/** @param {Page} page @param {Hand} hand @param {string} name */
async function rename(page, hand, name) {
  const menu = page.locator("details.menu", { has: page.getByLabel("Name of this plan") });
  await unfold(hand, menu);
  await hand.type(menu.getByLabel("Name of this plan"), name);
  await hand.press(menu.locator("summary").first());
}

/** Both plans are answered, and the document is the room of the story. @param {Page} page @param {Hand} hand */
export async function finish(page, hand) {
  const open = await settledText(page);
  await hand.press(page.getByRole("navigation", { name: "Plans" }).getByRole("button", { name: "Curtains drawn", exact: true }));
  const drawn = await settledText(page);
  expect(open).toMatch(/^“Curtains open”: sound should die away in \d\.\d\d–\d\.\d\d s/);
  expect(drawn).toMatch(/^“Curtains drawn”: sound should die away in \d\.\d\d–\d\.\d\d s/);
  const [drawnHigh, openHigh] = [drawn, open].map((text) => Number(/–(\d\.\d\d) s/.exec(text)?.[1]));
  expect(drawnHigh, "drawn curtains take more").toBeLessThan(openHigh);
  expectRoom(await documentOf(page));
}

/** @param {any} document */
function expectRoom({ room, listening, limits, plans }) {
  expect([room.width_m, room.length_m, room.height_m]).toEqual([5.35, 4.05, 3.6]);
  expect(room.surfaces.right.parts.map((/** @type {any} */ part) => [part.role, part.u_m, part.v_m, part.width_m, part.height_m])).toEqual(
    [["window", 0.3, 0.6, 0.7, 2.4], ["window", 1.35, 0.6, 0.7, 2.4], ["window", 2.7, 0.6, 0.7, 2.4]]);
  expect(room.surfaces.back.parts[0]).toMatchObject({ role: "door", u_m: 0.3, v_m: 0, width_m: 0.9, height_m: 2.1 });
  expect(room.surfaces.left.parts[0]).toMatchObject({ role: "built-in", u_m: 0.9, width_m: 1.7, height_m: 2.4, depth_m: 0.3 });
  expect(limits).toEqual({ max_height_m: 2.8, budget: 1500, max_visible: 2, bare: ["ceiling"] });
  expect(listening.loudspeakers).toMatchObject([{ x_m: 1.55, y_m: 0.7, z_m: 0.95 }, { x_m: 3.8, y_m: 0.7, z_m: 0.95 }]);
  expect(listening.seat).toEqual({ x_m: 2.675, y_m: 3.15, z_m: 1.05 });
  expect(plans.map((/** @type {any} */ { name }) => name)).toEqual(["Now", "Curtains drawn", "Curtains open"]);
  const [curtain, rug, ...pictures] = plans[1].pieces;
  expect(curtain).toMatchObject({ place: "curtain", surface: "right", u_m: 0.15, v_m: 0.1 });
  expect(rug.surface).toBe("floor");
  expect(pictures.map((/** @type {any} */ one) => one.surface)).toEqual(["back", "back"]);
  expect(plans[2].pieces[0].open).toBe(1);
}

/** The whole story, with a picture after each part. @param {Page} page @param {Hand} hand @param {(name: string) => Promise<void>} picture */
export async function storyF(page, hand, picture) {
  for (const part of [startRoom, addParts, setLimits, placeListening, addPieces, comparePlans, finish]) {
    await part(page, hand);
    await picture(part.name);
  }
}

/**
 * A picture after each part, with the results of the test; and in the folder that STORY_PICTURES names, to be looked at.
 * @param {Page} page @param {TestInfo} info @param {string} how
 */
export function pictures(page, info, how) {
  return async (/** @type {string} */ name) => {
    const body = await page.screenshot();
    await info.attach(name, { body, contentType: "image/png" });
    if (env.STORY_PICTURES) writeFileSync(`${env.STORY_PICTURES}/${how}-${name}.png`, body);
  };
}
