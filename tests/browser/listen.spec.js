// Fair listen: the graph that plays, run offline on what the built core renders (levels, decay, match, no step at a switch), and
// the region by keyboard; a recording read by the page.
import { readFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { expect, test } from "@playwright/test";
import { open } from "./support.js";

/** @import { Page } from "@playwright/test" */

/** Rendering shares the machine with the other tests. */
test.setTimeout(180_000);

const WWW = fileURLToPath(new URL("../../www/", import.meta.url));

/** The page's own sources under a path of its own, so that the tests run the graph that the page runs. @param {Page} page */
async function serveSources(page) {
  await page.route("**/under-test/**", async (route) => {
    const path = new URL(route.request().url()).pathname.split("/under-test/")[1];
    await route.fulfill({ contentType: "text/javascript", body: await readFile(WWW + path, "utf8") });
  });
}

/**
 * Runs `measure` in the page with the graph, the built core's renderings of the terrace's first two plans, and tools.
 * @template T
 * @param {Page} page @param {string} sound @param {(port: any) => Promise<T>} measure @returns {Promise<T>}
 */
async function offline(page, sound, measure) {
  await serveSources(page);
  await open(page);
  return page.evaluate(async ([source, name]) => {
    const at = (/** @type {string} */ path) => new URL(path, document.baseURI).href;
    const script = /** @type {HTMLScriptElement} */ (document.querySelector('script[type="module"][src]')).src;
    const pkg = (/** @type {string} */ file) => new URL(`pkg/${file}`, script).href;
    const { createGraph, FADE_S } = await import(at("under-test/view/listen/graph.js"));
    const { matchedGains, targetLkfs, LEVEL_DB, STRAIGHT_TO } = await import(at("under-test/model/listen.js"));
    const core = await import(pkg("seatward_later.js"));
    await core.default({ module_or_path: pkg("seatward_later_bg.wasm") });
    const listener = new core.Listener();
    listener.open(await (await fetch(at("scenarios/long-terrace-room.json"))).json());
    const dry = listener.dry(name);
    const began = performance.now();
    const series = [0, 1].map((plan) => listener.response(plan));
    const took_ms = performance.now() - began;
    const levels = [0, 1].map((plan) => listener.level(plan, dry, dry));
    const gains = matchedGains(levels);
    const buffer = (/** @type {Float32Array<ArrayBuffer>[]} */ channels) => {
      const made = new AudioBuffer({ numberOfChannels: channels.length, length: channels[0].length, sampleRate: 48000 });
      channels.forEach((channel, index) => made.copyToChannel(channel, index));
      return made;
    };
    const rooms = series.map((all, index) => {
      const length = all.length / 4;
      return { response: buffer([0, 1, 2, 3].map((way) => all.subarray(way * length, (way + 1) * length))), gain: gains[index] };
    });
    /** @param {number} seconds @param {(graph: any, context: OfflineAudioContext) => void} act @param {{chosen?: number, level_db?: number, sound?: AudioBuffer}} [how] */
    const run = async (seconds, act, { chosen = 0, level_db = 0, sound: own = buffer([dry, dry]) } = {}) => {
      const context = new OfflineAudioContext(2, seconds * 48000, 48000);
      const graph = createGraph(context, rooms, { chosen, level_db });
      graph.play(own, 0);
      act(graph, context);
      const rendered = await context.startRendering();
      return [rendered.getChannelData(0), rendered.getChannelData(1)];
    };
    const measure = new Function(`return ${source}`)();
    return measure({ run, rooms, series, gains, dry, buffer, listener, took_ms, matchedGains, targetLkfs, LEVEL_DB, STRAIGHT_TO, FADE_S });
  }, /** @type {[string, string]} */ ([measure.toString(), sound]));
}

test.describe("the graph", () => {
  test.use({ bypassCSP: true });

  test("plays every plan at the same loudness, within 0.5 dB, for every sound", async ({ page }) => {
    const found = await offline(page, "strings", async ({ run, rooms, listener, buffer, matchedGains, targetLkfs, LEVEL_DB, STRAIGHT_TO }) => {
      const K = [[1.53512485958697, -2.69169619938640, 1.19839281085285, -1.69065929318241, 0.73248077421585], [1, -2, 1, -1.99004745483398, 0.99007225036621]];
      /** @param {Float32Array[]} ears @param {number} from */
      const lkfs = (ears, from) => -0.691 + 10 * Math.log10(ears.reduce((sum, ear) => {
        let samples = Float64Array.from(ear);
        for (const [b0, b1, b2, a1, a2] of K) {
          let [x1, x2, y1, y2] = [0, 0, 0, 0];
          samples = samples.map((x) => {
            const y = b0 * x + b1 * x1 + b2 * x2 - a1 * y1 - a2 * y2;
            [x2, x1, y2, y1] = [x1, x, y1, y];
            return y;
          });
        }
        return sum + samples.subarray(from).reduce((energy, y) => energy + y * y, 0) / (samples.length - from);
      }, 0));
      const found = [];
      for (const name of ["strings", "drum", "vowels", "click", "burst"]) {
        const dry = listener.dry(name);
        const levels = [0, 1].map((plan) => listener.level(plan, dry, dry));
        matchedGains(levels).forEach((/** @type {number} */ gain, /** @type {number} */ plan) => { rooms[plan].gain = gain; });
        for (const chosen of [0, 1]) {
          // At the top of the slider; the second and third round, when the tail of the round before is there.
          const ears = await run(12, () => {}, { chosen, level_db: LEVEL_DB.most, sound: buffer([dry, dry]) });
          const peak = Math.max(...ears.map((/** @type {Float32Array} */ ear) => ear.reduce((most, x) => Math.max(most, Math.abs(x)), 0)));
          found.push({ name, chosen, off_db: lkfs(ears, 4 * 48000) - targetLkfs(levels) - LEVEL_DB.most, peak, straight: STRAIGHT_TO });
        }
      }
      return found;
    });
    console.log(found.map(({ name, chosen, off_db, peak }) => `${name} ${chosen}: ${off_db.toFixed(2)} dB, peak ${peak.toFixed(3)}`).join("\n"));
    expect(found.length).toBe(10);
    for (const { off_db, peak, straight } of found) {
      expect(Math.abs(off_db)).toBeLessThan(0.1);
      // The limiter has touched nothing.
      expect(peak).toBeLessThan(straight);
    }
  });

  test("lets a click decay as the core rendered it", async ({ page }) => {
    const { worst, level } = await offline(page, "click", async ({ run, rooms, gains, dry, buffer }) => {
      // Quiet enough that the limiter stays straight.
      rooms[1].gain = 0.1;
      const ears = await run(2, () => {}, { chosen: 1, sound: buffer([dry, new Float32Array(dry.length)]) });
      let worst = 0;
      let level = 0;
      for (const ear of [0, 1]) {
        const expected = rooms[1].response.getChannelData(ear);
        for (let n = 0; n < Math.min(expected.length, ears[ear].length); n += 1) {
          worst = Math.max(worst, Math.abs(ears[ear][n] - 0.1 * dry[0] * expected[n]));
          level = Math.max(level, Math.abs(ears[ear][n]));
        }
      }
      return { worst, level, gains };
    });
    // The limiter's table goes straight between points 2⁻⁸ apart; what is left is rounding.
    expect(level).toBeGreaterThan(0.003);
    expect(worst).toBeLessThan(1e-5);
  });

  test("switches as one fade of the length that is said, and loses no place", async ({ page }) => {
    const { off_db, step_db, after_db } = await offline(page, "strings", async ({ run, FADE_S }) => {
      const at_s = 1.37;
      const [stay, other, switched] = [await run(4, () => {}, { chosen: 0 }), await run(4, () => {}, { chosen: 1 }), await run(4, (/** @type {any} */ graph) => graph.choose(1, at_s), { chosen: 0 })];
      const peak = Math.max(...stay.map((/** @type {Float32Array} */ ear) => ear.reduce((most, x) => Math.max(most, Math.abs(x)), 0)));
      let [off, step, after] = [1e-12, 1e-12, 1e-12];
      for (const ear of [0, 1]) {
        let before = 0;
        for (let n = 0; n < 4 * 48000; n += 1) {
          // The fade that is meant, sample by sample: a fifth of its length is the time constant (Web Audio API, setTargetAtTime).
          const left = Math.exp(-Math.max(0, n / 48000 - at_s) / (FADE_S / 5));
          const error = switched[ear][n] - (left * stay[ear][n] + (1 - left) * other[ear][n]);
          off = Math.max(off, Math.abs(error));
          step = Math.max(step, Math.abs(error - before));
          before = error;
          if (n > 2 * 48000) after = Math.max(after, Math.abs(switched[ear][n] - other[ear][n]));
        }
      }
      const db = (/** @type {number} */ x) => 20 * Math.log10(x / peak);
      return { off_db: db(off), step_db: db(step), after_db: db(after) };
    });
    console.log(`off ${off_db.toFixed(0)} dB, step ${step_db.toFixed(0)} dB, after ${after_db.toFixed(0)} dB`);
    expect(off_db).toBeLessThan(-60);
    expect(step_db).toBeLessThan(-60);
    // From then on it is the other plan at the same place of the sound, to the sample.
    expect(after_db).toBeLessThan(-60);
  });

  test("goes on at the same place of the sound, without a step, when other plans are heard", async ({ page }) => {
    const { kept_db, after_db, before_db } = await offline(page, "strings", async ({ run, rooms }) => {
      const at_s = 1.37;
      const [stay, other] = [await run(4, () => {}, { chosen: 0 }), await run(4, () => {}, { chosen: 1 })];
      // The plan that is heard stays, beside another; and: it goes, and another comes, with buffers of its own.
      const anew = { ...rooms[1], response: new AudioBuffer({ numberOfChannels: 4, length: rooms[1].response.length, sampleRate: 48000 }) };
      [0, 1, 2, 3].forEach((way) => anew.response.copyToChannel(rooms[1].response.getChannelData(way), way));
      const kept = await run(4, (/** @type {any} */ graph) => graph.arrange([anew, rooms[0]], 1, at_s), { chosen: 0 });
      const went = await run(4, (/** @type {any} */ graph) => graph.arrange([anew], 0, at_s), { chosen: 0 });
      const peak = Math.max(...stay.map((/** @type {Float32Array} */ ear) => ear.reduce((most, x) => Math.max(most, Math.abs(x)), 0)));
      /** @param {Float32Array[]} a @param {Float32Array[]} b @param {number} from_s @param {number} to_s */
      const apart_db = (a, b, from_s, to_s) => {
        let most = 1e-12;
        for (const ear of [0, 1]) for (let n = Math.round(from_s * 48000); n < to_s * 48000; n += 1) most = Math.max(most, Math.abs(a[ear][n] - b[ear][n]));
        return 20 * Math.log10(most / peak);
      };
      const filled_s = at_s + 0.2 + rooms[1].response.length / 48000;
      return { kept_db: apart_db(kept, stay, 0, 4), before_db: apart_db(went, stay, 0, at_s), after_db: apart_db(went, other, filled_s, 4) };
    });
    console.log(`kept ${kept_db.toFixed(0)} dB, before ${before_db.toFixed(0)} dB, after ${after_db.toFixed(0)} dB`);
    expect(kept_db).toBeLessThan(-60);
    expect(before_db).toBeLessThan(-60);
    expect(after_db).toBeLessThan(-60);
  });

  test("starts low, and never passes full scale at any level", async ({ page }) => {
    const { low, high } = await offline(page, "drum", async ({ run, LEVEL_DB }) => {
      const most = (/** @type {Float32Array[]} */ ears) => Math.max(...ears.map((ear) => ear.reduce((peak, x) => Math.max(peak, Math.abs(x)), 0)));
      return { low: most(await run(4, () => {}, { level_db: LEVEL_DB.first })), high: most(await run(4, () => {}, { level_db: 60 })) };
    });
    console.log(`peaks ${low.toFixed(4)} and ${high.toFixed(4)}`);
    expect(low).toBeLessThan(0.05);
    expect(low).toBeGreaterThan(0.0003);
    expect(high).toBeLessThanOrEqual(1);
  });
});

/** @param {Page} page */
async function openFold(page) {
  await page.locator("#fold-listen > summary").focus();
  await page.keyboard.press("Enter");
  const region = page.locator("#fold-listen .listen");
  await expect(region).toBeVisible();
  return region;
}

test("is played, switched and compared blind by keyboard alone", async ({ page }) => {
  await open(page);
  const region = await openFold(page);
  await expect(region).toContainText("not how your room will sound");
  await expect(region).toContainText("This page cannot measure your level.");
  await expect(region.getByRole("status").first()).toHaveText("Nothing plays until you press Play.");
  await region.getByRole("button", { name: "Play" }).focus();
  await page.keyboard.press("Enter");
  await expect(region.getByRole("status").first()).toHaveText("You hear Today.", { timeout: 30_000 });
  const plan = region.getByRole("group", { name: "What you hear" }).getByRole("button").nth(1);
  await plan.focus();
  await page.keyboard.press("Space");
  await expect(plan).toHaveAttribute("aria-pressed", "true");
  await region.getByText("Do you really hear it?").focus();
  await page.keyboard.press("Enter");
  await region.getByRole("button", { name: /^Today against/ }).first().focus();
  await page.keyboard.press("Enter");
  for (let round = 1; round <= 10; round += 1) {
    await expect(region).toContainText(`Round ${round} of 10.`);
    await region.getByRole("button", { name: "X is Today" }).focus();
    await page.keyboard.press("Enter");
  }
  await expect(region).toContainText(/\d+ of 10 right\. You (did not hear it|may have heard it|heard the difference)/);
  await region.getByRole("button", { name: "Stop" }).click();
  await expect(region.getByRole("status").first()).toHaveText("Nothing plays until you press Play.");
});

test("saves a click as a WAV file with its peak whole", async ({ page }) => {
  await open(page);
  const region = await openFold(page);
  await region.locator("select").first().selectOption("click");
  const coming = page.waitForEvent("download");
  await region.getByRole("button", { name: "Save what is heard as WAV" }).click();
  const bytes = await readFile(await (await coming).path());
  expect(bytes.subarray(0, 4).toString()).toBe("RIFF");
  expect(bytes.readUInt32LE(24)).toBe(48000);
  // 4 s of sound and its tail, two channels of 3 bytes.
  expect(bytes.length).toBeGreaterThan(4 * 48000 * 6);
  // Behind the head; the direct sound of a click is its peak, and the limiter would have let it come to 0.7 and more.
  const from = bytes.indexOf("data") + 8;
  let peak = 0;
  for (let at = from; at + 3 <= bytes.length; at += 3) peak = Math.max(peak, Math.abs(bytes.readIntLE(at, 3)) / 2 ** 23);
  expect(peak).toBeLessThan(0.7);
  expect(peak).toBeGreaterThan(0.3);
});

test("explains itself where the browser lets no sound out", async ({ page }) => {
  await page.addInitScript(() => {
    AudioContext.prototype.resume = () => new Promise(() => {});
    Object.defineProperty(AudioContext.prototype, "state", { get: () => "suspended" });
  });
  await open(page);
  const region = await openFold(page);
  await region.getByRole("button", { name: "Play" }).click();
  await expect(region.getByRole("status").first()).toContainText("No sound can be played: the browser blocks it", { timeout: 10_000 });
});

test("reads a recording, and refuses what is none in a sentence", async ({ page }) => {
  await open(page);
  await page.locator("#fold-recording > summary").click();
  const part = page.locator("#fold-recording .listen");
  const office = fileURLToPath(new URL("../data/furnished_office_binaural/office_a_azimuth_000.wav", import.meta.url));
  await part.getByLabel("Recording, WAV").setInputFiles(office);
  // 0.27 s over all seven files by another program; this one differs by a hundredth.
  await expect(part.getByRole("row", { name: /^1000/ })).toContainText(/0\.2[678]/, { timeout: 30_000 });
  await expect(part).toContainText("No balloons or bangs near ears.");
  await expect(part.getByRole("row", { name: /^8000/ })).toContainText("16000 samples a second hold too little of this band.");
  await part.getByLabel("Recording, WAV").setInputFiles({ name: "song.wav", mimeType: "audio/wav", buffer: Buffer.from("not a recording at all, only words") });
  await expect(part.getByRole("status")).toContainText("This is not a WAV file");
});
