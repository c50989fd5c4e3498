// After the first load the page needs no network: everything works that worked, also what is loaded only when it is opened.
// And a page never gets a module of another version.
import { fileURLToPath } from "node:url";
import { expect, test } from "@playwright/test";
import { deployment, digestOf, nextWorker } from "./deployments.js";
import { drag, figure, middleOf, onShelf, open, pieces, pointOn, settledText } from "./support.js";

/** @import { Page } from "@playwright/test" */

test.use({ serviceWorkers: "allow" });

/** Until the service worker has all files and answers for this page. @param {Page} page */
const kept = (page) => page.waitForFunction(() => navigator.serviceWorker.controller !== null, null, { timeout: 30_000 });

/** Names of the caches of the page. @param {Page} page */
const cacheNames = (page) => page.evaluate(() => caches.keys());

test("with the network off the page answers, drags, loads anew and opens examples", async ({ page, context }) => {
  await open(page);
  await kept(page);
  await context.setOffline(true);
  const before = await figure(page).innerText();
  await drag(page, await middleOf(onShelf(page, "thick")), await pointOn(page, "left", 4.9, 1.5));
  await expect(pieces(page)).toHaveCount(12);
  expect(await settledText(page)).not.toContain(before);
  await page.reload();
  await expect(figure(page)).toBeVisible();
  await expect(pieces(page)).toHaveCount(12);
  await page.getByText("Examples", { exact: true }).click();
  await page.getByRole("button", { name: /Rented corner room/ }).click();
  await expect(page.getByLabel("Title of the room")).toHaveValue("Rented corner room");
  expect(await settledText(page)).toMatch(/die away in/);
});

test("with the network off plans are rendered and a recording is read, though neither was opened before", async ({ page, context }) => {
  await open(page);
  await kept(page);
  await context.setOffline(true);
  await page.locator("#fold-listen > summary").click();
  const coming = page.waitForEvent("download", { timeout: 60_000 });
  await page.locator("#fold-listen").getByRole("button", { name: "Save what is heard as WAV" }).click();
  expect((await coming).suggestedFilename()).toMatch(/\.wav$/);
  await page.locator("#fold-recording > summary").click();
  const part = page.locator("#fold-recording .listen");
  await part.getByLabel("Recording, WAV").setInputFiles(fileURLToPath(new URL("../data/furnished_office_binaural/office_a_azimuth_000.wav", import.meta.url)));
  await expect(part.getByRole("row", { name: /^1000/ })).toBeVisible({ timeout: 60_000 });
});

test("every script, style and core that the page can ask for is kept, those of panels that were never opened too", async ({ page, context, baseURL }) => {
  await open(page);
  await kept(page);
  const listed = await page.evaluate(async () => {
    const [name] = await caches.keys();
    return (await (await caches.open(name)).keys()).map(({ url }) => url);
  });
  expect(listed.filter((url) => url.endsWith(".js")).length).toBeGreaterThan(3);
  const scripts = await Promise.all(listed.filter((url) => url.endsWith(".js")).map(async (url) => ({ url, text: await (await page.request.get(url)).text() })));
  const named = scripts.flatMap(({ url, text }) => [...text.matchAll(/["'](\.{1,2}\/[\w./-]*[\w-]+-[A-Z0-9]{8}\.js)["']/g)].map(([, path]) => new URL(path, url).href));
  expect(named.length).toBeGreaterThan(0);
  expect(named.filter((url) => !listed.includes(url))).toEqual([]);
  await context.setOffline(true);
  for (const url of listed) expect(await page.evaluate(async (address) => (await fetch(address)).status, url), url).toBe(200);
  expect(listed.every((url) => url.startsWith(baseURL ?? ""))).toBe(true);
});


test.describe("when a next version is deployed", () => {
  /** @type {import("./deployments.js").Deployment} */
  let site;

  test.beforeEach(async ({ baseURL }) => {
    site = await deployment(baseURL ?? "");
  });
  test.afterEach(() => site.close());

  /** Looks for a newer service worker and says what became of it. @param {Page} page */
  const lookForNewer = (page) => page.evaluate(async () => {
    const registration = await navigator.serviceWorker.ready;
    await registration.update().catch(() => null);
    const arriving = registration.installing ?? registration.waiting;
    if (arriving?.state === "installing") await new Promise((resolve) => arriving.addEventListener("statechange", resolve));
    return arriving?.state ?? "none";
  });

  const mark = (/** @type {string} */ page) => page.replace("<title>Seatward</title>", "<title>Seatward, next</title>");

  test("one that is only half there is not taken at all, and the old page goes on", async ({ page, context }) => {
    await page.goto(site.address);
    await kept(page);
    const before = await cacheNames(page);
    expect(before).toHaveLength(1);
    // The list is there, the page that it names is not.
    site.change((path, text) => (path === "service-worker.js" ? nextWorker(text, "feedfacefeed", digestOf("another page")) : text));
    expect(await lookForNewer(page)).toBe("redundant");
    expect(await cacheNames(page)).toEqual(before);
    await context.setOffline(true);
    await page.reload();
    await expect(figure(page)).toBeVisible();
  });

  test("a whole one waits while the old page is open, serves it nothing, and takes over when it is asked to or the page is closed", async ({ page, context }, info) => {
    test.setTimeout(150_000);
    await page.goto(site.address);
    await kept(page);
    const next = mark(await (await page.request.get(site.address)).text());
    site.change((path, text) => (path === "" ? next : path === "service-worker.js" ? nextWorker(text, "feedfacefeed", digestOf(next)) : text));
    expect(await lookForNewer(page)).toBe("installed");
    expect(await cacheNames(page)).toHaveLength(2);
    await page.reload();
    expect(await page.title(), "a reload still gets the whole old version").toBe("Seatward");
    await page.getByRole("button", { name: "Load it now" }).click();
    // Chromium sometimes keeps the older worker alive, now and then even without a page; then the next version starts, as the
    // words say, once the page is closed and opened again.
    const isNext = (/** @type {Page} */ one) => one.waitForFunction(() => document.title === "Seatward, next", null, { timeout: 4000 }).then(() => true, () => false);
    let fresh = page;
    let openings = 0;
    for (; openings < 8 && !(await isNext(fresh)); openings += 1) {
      await fresh.close();
      fresh = await context.newPage();
      await fresh.goto(site.address);
    }
    info.annotations.push({ type: "next version", description: openings === 0 ? "at once" : `after the page was opened ${openings} times` });
    await expect(fresh).toHaveTitle("Seatward, next");
    await expect(figure(fresh)).toBeVisible();
    expect(await cacheNames(fresh)).toEqual(["seatward feedfacefeed"]);
  });

  test("a page that is open in two tabs is not changed under either of them", async ({ page, context }) => {
    await page.goto(site.address);
    await kept(page);
    const second = await context.newPage();
    await second.goto(site.address);
    const next = mark(await (await page.request.get(site.address)).text());
    site.change((path, text) => (path === "" ? next : path === "service-worker.js" ? nextWorker(text, "feedfacefeed", digestOf(next)) : text));
    expect(await lookForNewer(page)).toBe("installed");
    await page.getByRole("button", { name: "Load it now" }).click();
    await expect(page.getByText("Close the other tabs of this page first")).toBeVisible();
    expect(await page.evaluate(async () => (await navigator.serviceWorker.ready).waiting?.state)).toBe("installed");
    expect(await page.title()).toBe("Seatward");
  });
});
