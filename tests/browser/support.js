// What the browser tests share: opening the page, reading what it says, points on the drawing, documents in links.
import { deflateRawSync, inflateRawSync } from "node:zlib";
import { expect } from "@playwright/test";

/**
 * @import { Locator, Page } from "@playwright/test"
 * @typedef {{x: number, y: number}} Spot
 * @typedef {"left"|"right"|"front"|"back"|"floor"|"ceiling"} Surface
 */

/**
 * Opens the page and waits for its answer.
 * @param {Page} page
 * @param {string} [fragment] with "#"
 */
export async function open(page, fragment = "") {
  await page.goto(`./${fragment}`);
  await expect(figure(page)).toBeVisible();
}

/** The decay time of the plan in hand, in the answer sentence. @param {Page} page */
export function figure(page) {
  return page.locator(".answer h1 b");
}

/** The answer sentence and what it says about how sure it is. @param {Page} page */
export async function answerText(page) {
  const sentence = await page.locator(".answer h1").innerText();
  const doubt = await page.locator(".doubt").innerText();
  return `${sentence} ${doubt}`.replace(/[\u202f\u00a0]/g, " ");
}

/** Until the ranges of what is on the sheet are there. @param {Page} page */
export async function settled(page) {
  await nextFrame(page);
  await expect(page.getByRole("region", { name: "Answer" })).toHaveAttribute("aria-busy", "false", { timeout: 30_000 });
}

/** The answer once its ranges are there. @param {Page} page */
export async function settledText(page) {
  await settled(page);
  return answerText(page);
}

/** Until the bass of what is on the sheet is there. @param {Page} page */
export async function bassThere(page) {
  await settled(page);
  await expect(page.locator(".bass-part")).toHaveAttribute("aria-busy", "false", { timeout: 30_000 });
}

/**
 * Notes every wording of the answer from now on, frame by frame.
 * @param {Page} page @returns {Promise<() => Promise<string[]>>}
 */
export async function listen(page) {
  await page.evaluate(() => {
    /** @type {string[]} */
    const heard = [];
    const words = () => [".answer h1", ".doubt"].map((part) => /** @type {HTMLElement|null} */ (document.querySelector(part))?.innerText ?? "").join(" ");
    const note = () => {
      const now = words().replace(/[\u202f\u00a0]/g, " ");
      if (now !== heard.at(-1)) heard.push(now);
      requestAnimationFrame(note);
    };
    Object.assign(self, { heard });
    note();
  });
  return () => page.evaluate(() => /** @type {{heard: string[]}} */ (/** @type {unknown} */ (self)).heard);
}

/**
 * Keeps the workers from starting until they are let go.
 * @param {Page} page @returns {Promise<() => void>}
 */
export async function holdWorkers(page) {
  /** @type {() => void} */
  let letGo = () => {};
  const gone = new Promise((resolve) => { letGo = () => resolve(null); });
  await page.route("**/worker.js", async (route) => {
    await gone;
    await route.continue();
  });
  return () => letGo();
}

/** What the answer says while ranges are on their way. */
export const CATCHING_UP = "The range is catching up.";

/** The marks of the decay drawing, as they are drawn. @param {Page} page */
export function decayDrawing(page) {
  return page.locator("svg.decay").evaluate((chart) => chart.innerHTML.replace(/<!--.*?-->/g, ""));
}

/** Pieces of the plan in hand on the drawing. @param {Page} page */
export function pieces(page) {
  return page.locator("[data-sheet] g.piece[data-piece]");
}

/** @param {Page} page @param {number} index */
export function piece(page, index) {
  return page.locator(`[data-sheet] g.piece[data-piece="${index}"]`);
}

/** @param {Page} page @param {string} kind */
export function onShelf(page, kind) {
  return page.locator(`[data-kind="${kind}"]`);
}

/** @param {Page} page @param {"Undo"|"Redo"} word */
export function step(page, word) {
  return page.getByRole("navigation", { name: "Document" }).getByRole("button", { name: new RegExp(`^${word}`) });
}

/** @param {Locator} locator @returns {Promise<Spot>} */
export async function middleOf(locator) {
  const box = await locator.boundingBox();
  if (!box) throw new Error("not on the screen");
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}

/** @param {Page} page @param {number} index */
export function middleOfPiece(page, index) {
  return middleOf(piece(page, index).locator("rect.ground"));
}

/**
 * A place on a surface as a point of the screen, read off the drawn faces of the opened box: walls stand on the floor,
 * u runs from the front wall on the side walls and from the left wall everywhere else.
 * @param {Page} page @param {Surface} surface @param {number} u_m @param {number} v_m
 * @returns {Promise<Spot>}
 */
export async function pointOn(page, surface, u_m, v_m) {
  const { own, u, v } = await facesRound(page, surface);
  const wall = surface !== "floor";
  const upright = wall ? Math.abs(v.y - own.y) > Math.abs(v.x - own.x) : Math.abs(u.x - own.x) > Math.abs(u.y - own.y);
  const scale = await scaleOf(page);
  const alongX = upright ? { from: u, m: u_m } : { from: v, m: v_m };
  const alongY = upright ? { from: v, m: v_m } : { from: u, m: u_m };
  const x = alongX.from.x < own.x ? own.left + alongX.m * scale : own.right - alongX.m * scale;
  const y = alongY.from.y < own.y ? own.top + alongY.m * scale : own.bottom - alongY.m * scale;
  return { x, y };
}

/** The face itself, the face where its u begins and the one where its v begins. @param {Page} page @param {Surface} surface */
async function facesRound(page, surface) {
  const side = surface === "left" || surface === "right";
  const uFrom = side ? "front" : "left";
  const vFrom = surface === "floor" ? "front" : "floor";
  return { own: await faceBox(page, surface), u: await faceBox(page, uFrom), v: await faceBox(page, vFrom) };
}

/** @param {Page} page @param {string} surface */
async function faceBox(page, surface) {
  const box = await page.locator(`[data-surface="${surface}"] > rect.face`).first().evaluate((face) => {
    const { left, right, top, bottom } = face.getBoundingClientRect();
    return { left, right, top, bottom };
  });
  return { ...box, x: (box.left + box.right) / 2, y: (box.top + box.bottom) / 2 };
}

/** Pixels per metre of the opened box, by the longer side of the floor. @param {Page} page */
async function scaleOf(page) {
  const floor = await faceBox(page, "floor");
  const { room } = await documentOf(page);
  return Math.max(floor.right - floor.left, floor.bottom - floor.top) / Math.max(room.length_m, room.width_m);
}

/**
 * Presses on one place and moves to another in steps; the button stays down.
 * @param {Page} page @param {Spot} from @param {Spot} to @param {number} [steps]
 */
export async function hold(page, from, to, steps = 8) {
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  await page.mouse.move(to.x, to.y, { steps });
  await nextFrame(page);
}

/** @param {Page} page @param {Spot} from @param {Spot} to */
export async function drag(page, from, to) {
  await hold(page, from, to);
  await page.mouse.up();
  await nextFrame(page);
}

/** Until what was asked for last is drawn. @param {Page} page */
export function nextFrame(page) {
  return page.evaluate(() => new Promise((resolve) => {
    requestAnimationFrame(() => requestAnimationFrame(() => resolve(null)));
  }));
}

/** The document in hand, out of its link. @param {Page} page @returns {Promise<any>} */
export async function documentOf(page) {
  return unpacked(await linkOf(page));
}

/** The fragment that "Copy link" puts into the address bar. @param {Page} page */
export async function linkOf(page) {
  await page.evaluate(() => history.replaceState(null, "", location.pathname));
  await page.locator("button", { hasText: "Copy link" }).evaluate((/** @type {HTMLElement} */ button) => button.click());
  await expect.poll(() => new URL(page.url()).hash).toMatch(/^#1\../);
  return new URL(page.url()).hash;
}

/** @param {string} fragment @returns {any} */
export function unpacked(fragment) {
  return JSON.parse(inflateRawSync(Buffer.from(fragment.replace(/^#1\.|\.\d$/g, ""), "base64url")).toString("utf8"));
}

/** @param {unknown} document */
export function packed(document) {
  return `#1.${deflateRawSync(JSON.stringify(document)).toString("base64url")}`;
}

/** The demo room that stands beside the page. @param {Page} page @returns {Promise<any>} */
export async function example(page) {
  return (await page.request.get("scenarios/long-terrace-room.json")).json();
}

/**
 * Everything that a browser complains about and everything that it asks for, from now on.
 * @param {Page} page
 */
export function watch(page) {
  /** @type {string[]} */
  const complaints = [];
  /** @type {{address: string, body: string}[]} */
  const asked = [];
  page.on("console", (message) => {
    // Said by the browser's driver, which these tests ask to keep the service worker out.
    if (message.text() === "Service Worker registration blocked by Playwright") return;
    if (message.type() === "error" || message.type() === "warning") complaints.push(message.text());
  });
  page.on("pageerror", (error) => complaints.push(String(error)));
  page.on("request", (request) => asked.push({ address: request.url(), body: request.postData() ?? "" }));
  return { complaints, asked };
}
