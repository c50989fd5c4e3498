// The main job in two engines by the same steps: in Chromium, and in Firefox where one is installed.
import { accessSync, constants } from "node:fs";
import { delimiter, join } from "node:path";
import { env } from "node:process";
import { expect, test } from "@playwright/test";
import puppeteer from "puppeteer-core";
import { mainJob } from "./main_job.js";

/** @import { Driven } from "./main_job.js" */

const NAMES = ["firefox-esr", "firefox"];

/** The path in FIREFOX, or an installed one. @returns {string|undefined} */
function findFirefox() {
  if (env.FIREFOX) return env.FIREFOX;
  return NAMES.flatMap((name) => (env.PATH ?? "").split(delimiter).map((folder) => join(folder, name))).find((path) => {
    try {
      accessSync(path, constants.X_OK);
      return true;
    } catch {
      return false;
    }
  });
}

test("the main job is done in Chromium", async ({ page, baseURL }) => {
  test.setTimeout(180_000);
  /** @type {string[]} */
  const faults = [];
  page.on("pageerror", (error) => faults.push(String(error)));
  await mainJob(/** @type {Driven} */ (/** @type {unknown} */ (page)), baseURL ?? "");
  expect(faults).toEqual([]);
});

test("the main job is done in Firefox", async ({ baseURL }, info) => {
  const executablePath = findFirefox();
  const reason = "no Firefox is installed here; put one on the path, or name it in FIREFOX";
  if (!executablePath) console.log(`skipped: ${reason}`);
  test.skip(!executablePath, reason);
  test.setTimeout(240_000);
  const browser = await puppeteer.launch({ browser: "firefox", executablePath, headless: true, defaultViewport: null, args: ["--width=1280", "--height=900"] });
  const page = await browser.newPage();
  /** @type {string[]} */
  const faults = [];
  page.on("pageerror", (error) => {
    // What Firefox says of a worker that is ended in the midst of its work: with `terminate` doing nothing, it is not said.
    if (!String(error).includes("uncaught exception: undefined")) faults.push(String(error));
  });
  try {
    await mainJob(/** @type {Driven} */ (/** @type {unknown} */ (page)), baseURL ?? "");
    expect(faults).toEqual([]);
    info.annotations.push({ type: "browser", description: await browser.version() });
    console.log(`ran in ${await browser.version()}`);
  } finally {
    await browser.close();
  }
});
