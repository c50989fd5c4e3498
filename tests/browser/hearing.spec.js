// A sound and a recording of one's own: what becomes of them, and that they stay on the machine; and the accessibility rules in every
// state of Fair listen and of reading a recording.
import { readFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { expect, test } from "@playwright/test";
import { violations } from "./axe.js";
import { documentOf, open, settled } from "./support.js";

/** @import { Page } from "@playwright/test" */

const OFFICE = fileURLToPath(new URL("../data/furnished_office_binaural/office_a_azimuth_000.wav", import.meta.url));

/** Rendering shares the machine with the other tests. */
const LATE = Object.freeze({ timeout: 60_000 });
test.setTimeout(300_000);

/** A tone as a WAV file of one channel in 16 bits. @param {number} seconds @returns {Buffer} */
function tone(seconds) {
  const rate = 8000;
  const bytes = Buffer.alloc(44 + 2 * rate * seconds);
  bytes.write("RIFF");
  bytes.writeUInt32LE(bytes.length - 8, 4);
  bytes.write("WAVEfmt ", 8);
  bytes.writeUInt32LE(16, 16);
  bytes.writeUInt16LE(1, 20);
  bytes.writeUInt16LE(1, 22);
  bytes.writeUInt32LE(rate, 24);
  bytes.writeUInt32LE(2 * rate, 28);
  bytes.writeUInt16LE(2, 32);
  bytes.writeUInt16LE(16, 34);
  bytes.write("data", 36);
  bytes.writeUInt32LE(bytes.length - 44, 40);
  for (let n = 0; n < rate * seconds; n += 1) bytes.writeInt16LE(Math.round(8000 * Math.sin((2 * Math.PI * 500 * n) / rate)), 44 + 2 * n);
  return bytes;
}

/** Every request from now on that goes beyond the page. @param {Page} page */
function requests(page) {
  /** @type {string[]} */
  const sent = [];
  page.context().on("request", (request) => { if (!request.url().startsWith("blob:")) sent.push(request.url()); });
  return sent;
}

/** @param {Page} page */
async function listening(page) {
  await page.locator("#fold-listen > summary").click();
  const region = page.locator("#fold-listen .listen");
  await expect(region).toBeVisible();
  return region;
}

/** @param {Page} page */
async function recording(page) {
  await page.locator("#fold-recording > summary").click();
  const part = page.locator("#fold-recording .listen");
  await expect(part).toBeVisible();
  return part;
}

test("a sound of one's own is cut at half a minute, goes through the room, and is sent nowhere", async ({ page }) => {
  await open(page);
  await settled(page);
  const region = await listening(page);
  // All that rendering needs is there before the file is.
  const first = page.waitForEvent("download");
  await region.getByRole("button", { name: "Save what is heard as WAV" }).click();
  await first;
  // So is the Hang sheet, which the page fetches once it has time; its squares come last.
  await page.waitForFunction(() => performance.getEntriesByType("resource").some(({ name }) => /\/qrcode-[^/]*\.js$/.test(name)));
  const sent = requests(page);
  const chooser = region.getByLabel(/A sound of your own/);
  await chooser.setInputFiles({ name: "tone.wav", mimeType: "audio/wav", buffer: tone(40) });
  await expect(region.locator("select").first()).toHaveValue("own");
  const coming = page.waitForEvent("download", LATE);
  await region.getByRole("button", { name: "Save what is heard as WAV" }).click();
  const bytes = await readFile(await (await coming).path());
  const from = bytes.indexOf("data") + 8;
  const seconds = (bytes.length - from) / 6 / 48000;
  expect(seconds).toBeGreaterThan(30.2);
  expect(seconds).toBeLessThan(36);
  // It is the tone: from the tenth second on its left ear goes up through zero 500 times a second.
  const at = (/** @type {number} */ n) => bytes.readIntLE(from + 6 * n, 3);
  let rises = 0;
  for (let n = 10 * 48000; n < 12 * 48000; n += 1) if (at(n) < 0 && at(n + 1) >= 0) rises += 1;
  expect(Math.abs(rises - 1000)).toBeLessThan(3);
  expect(sent).toEqual([]);
  await chooser.setInputFiles({ name: "words.mp3", mimeType: "audio/mpeg", buffer: Buffer.from("no sound at all") });
  await expect(region.getByRole("status").first()).toContainText("words.mp3 is no sound that this browser can play.");
});

test("the decay of a recording becomes the measured decay of its plan", async ({ page }) => {
  await open(page);
  await settled(page);
  const part = await recording(page);
  await part.getByLabel("Recording, WAV").setInputFiles(OFFICE);
  await expect(part.getByRole("row", { name: /^1000/ })).toBeVisible(LATE);
  const sent = requests(page);
  await part.getByRole("button", { name: "Use T20 of the octaves for the check-up" }).click();
  await expect(page.locator("#checkup")).toContainText("1 measured decay entered", LATE);
  const { measured, plans } = await documentOf(page);
  expect(measured.length).toBe(1);
  expect(measured[0].plan).toBe(plans[0].name);
  const at1k = measured[0].decay_s[measured[0].bands_hz.indexOf(1000)];
  await expect(part.getByRole("row", { name: /^1000/ }).getByRole("cell").nth(1)).toHaveText(at1k.toFixed(2));
  expect(sent.filter((url) => url.includes("office"))).toEqual([]);
});

test("no rule of accessibility is broken in any state of Fair listen", async ({ page }) => {
  await open(page);
  await settled(page);
  const region = await listening(page);
  expect(await violations(page)).toEqual([]);
  await region.getByRole("button", { name: "Play" }).click();
  await expect(region.getByRole("button", { name: "Stop" })).toBeVisible(LATE);
  await region.getByText("What you hear, and what is left out").click();
  await region.getByText("Do you really hear it?").click();
  expect(await violations(page)).toEqual([]);
  await region.getByRole("button", { name: /^Today against/ }).first().click();
  expect(await violations(page)).toEqual([]);
  for (let round = 1; round <= 10; round += 1) await region.getByRole("button", { name: "X is Today" }).click();
  await expect(region).toContainText("of 10 right.");
  expect(await violations(page)).toEqual([]);
});

test("no rule of accessibility is broken in any state of reading a recording", async ({ page }) => {
  await open(page);
  await settled(page);
  const part = await recording(page);
  expect(await violations(page)).toEqual([]);
  await part.getByLabel("Recording, WAV").setInputFiles(OFFICE);
  await expect(part.getByRole("row", { name: /^1000/ })).toBeVisible(LATE);
  expect(await violations(page)).toEqual([]);
  await part.getByLabel("Recording, WAV").setInputFiles({ name: "song.wav", mimeType: "audio/wav", buffer: Buffer.from("only words") });
  await expect(part.getByRole("status")).toContainText("This is not a WAV file");
  expect(await violations(page)).toEqual([]);
});
