import assert from "node:assert/strict";
import { existsSync, readFileSync, readdirSync } from "node:fs";
import { describe, it } from "node:test";
import { deflateRawSync } from "node:zlib";
import { fileName, pack, readFile, toText, unpack, withStoredLengths } from "../../www/model/files.js";
import { piece, sample, seeded } from "./support.js";

const GOLDEN = new URL("./golden_links.json", import.meta.url);
const SCENARIOS = new URL("../../scenarios/", import.meta.url);
/** @param {string|Buffer} text */
const packed = (text) => `1.${deflateRawSync(text).toString("base64url")}`;
const scenarios = existsSync(SCENARIOS) ? readdirSync(SCENARIOS).filter((name) => name.endsWith(".json")) : [];

/** Either a document or a problem with a sentence. @param {object} unpacked */
function assertAnswered({ document, problem }) {
  if (problem) assert.match(problem.message, /\.$/);
  else assert.ok(typeof document === "object" && document !== null);
}

describe("links", () => {
  it("come back as they went, lengths to 0.1 mm", async () => {
    const document = sample({ pieces: [piece("left", 1.23456789, 0.5)] });
    const fragment = await pack(document);
    assert.match(fragment, /^1\.[\w-]+$/);
    const expected = structuredClone(document);
    expected.plans[1].pieces[0].u_m = 1.2346;
    assert.deepEqual((await unpack(fragment)).document, expected);
    assert.deepEqual((await unpack(`#${fragment}`)).document, expected);
  });

  it("name the plan that was shown, unless it is the one with which a document opens", async () => {
    const document = sample();
    const shown = async (/** @type {number} */ plan) => (await unpack(await pack(document, plan))).shown;
    assert.deepEqual([await shown(0), await shown(1), await shown(7)], [0, undefined, 7]);
    assert.deepEqual((await unpack(await pack(document, 0))).document, withStoredLengths(document));
    assert.equal((await unpack(`${await pack(document)}.`)).problem?.code, "incomplete");
  });

  for (const name of scenarios) {
    it(`carry ${name} in under 2,000 characters`, async () => {
      const document = JSON.parse(readFileSync(new URL(name, SCENARIOS), "utf8"));
      const fragment = await pack(document);
      assert.ok(fragment.length < 2000, `${fragment.length} characters`);
      assert.deepEqual((await unpack(fragment)).document, withStoredLengths(document));
    });
  }

  it("of the first version open for good", async () => {
    const golden = JSON.parse(readFileSync(GOLDEN, "utf8"));
    assert.ok(golden.length >= 2);
    for (const { link, document } of golden) assert.deepEqual((await unpack(link)).document, document);
  });

  it("that are cut anywhere give a sentence", async () => {
    const fragment = await pack(sample({ pieces: [piece("left", 1, 1), piece("back", 2, 1)] }));
    for (let end = 0; end < fragment.length; end += 7) {
      const { problem } = await unpack(fragment.slice(0, end));
      assert.match(problem.message, /^This link (is incomplete \(often cut by a mail program\)|holds no room)\.$/, `cut at ${end}`);
    }
  });

  it("survive a thousand mutations without an exception", async () => {
    const random = seeded(50);
    const fragment = await pack(sample({ pieces: [piece("left", 1, 1)] }));
    const signs = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_.#%=+/ \u00e9";
    let problems = 0;
    for (let round = 0; round < 1000; round += 1) {
      const text = [...fragment];
      for (let edits = 1 + Math.floor(random() * 4); edits > 0; edits -= 1) {
        const at = Math.floor(random() * text.length);
        text.splice(at, Math.floor(random() * 3), signs[Math.floor(random() * signs.length)]);
      }
      const unpacked = await unpack(text.join(""));
      assertAnswered(unpacked);
      if (unpacked.problem) problems += 1;
    }
    assert.ok(problems > 500, `${problems} problems`);
  });

  it("that unpack to more than 256 KiB are refused", async () => {
    const bomb = packed(`{"title":"${"a".repeat(300 * 1024)}"}`);
    assert.ok(bomb.length < 2000);
    assert.equal((await unpack(bomb)).problem.code, "too-large");
    const huge = packed(Buffer.alloc(64 * 1024 * 1024));
    assert.ok(huge.length > 16 * 1024 * 4 / 3 && (await unpack(huge)).problem.code === "too-large");
    const just = `{"title":"${"a".repeat(256 * 1024 - 12)}"}`;
    assert.equal(just.length, 256 * 1024);
    assert.equal((await unpack(packed(just))).document.title.length, 256 * 1024 - 12);
    assert.equal((await unpack(packed(`${just} `))).problem.code, "too-large");
  });

  it("of just 16 KiB packed are taken", async () => {
    const [random, most_bytes] = [seeded(3), 16 * 1024];
    const text = Array.from({ length: 1.5 * most_bytes }, () => String.fromCharCode(48 + Math.floor(random() * 64))).join("").replaceAll("\\", "~");
    const link = (/** @type {number} */ letters) => packed(JSON.stringify({ title: text.slice(0, letters) }));
    const fits = (/** @type {number} */ letters) => (link(letters).length - 2) * 0.75 <= most_bytes;
    let letters = text.length;
    while (!fits(letters)) letters -= 64;
    while (fits(letters + 1)) letters += 1;
    assert.ok((link(letters).length - 2) * 0.75 > most_bytes - 3);
    assert.equal((await unpack(link(letters))).document?.title.length, letters);
    assert.equal((await unpack(link(letters + 1))).problem?.code, "too-large");
  });

  it("longer than 16 KiB are refused before they are unpacked", async () => {
    assert.equal((await unpack(`1.${"A".repeat(16 * 1024 * 4 / 3 + 4)}`)).problem.code, "too-large");
  });

  const odd = [
    ["", "no-link"], ["#", "no-link"], ["hello", "incomplete"], ["1.", "incomplete"], ["2.AAAA", "newer-packing"], ["0.AAAA", "incomplete"],
    ["1.!!!!", "incomplete"], ["1.A", "incomplete"], [packed("[1]"), "not-json"], [packed("null"), "not-json"], [packed("{\"a\":"), "not-json"],
    [packed(Buffer.from([0xff, 0xfe, 0x00])), "incomplete"], [packed("[".repeat(100000)), "not-json"], [packed(`{"a":${"[".repeat(33)}${"]".repeat(33)}}`), "not-json"],
  ];
  for (const [fragment, code] of odd) {
    it(`answers ${JSON.stringify(fragment.slice(0, 12))} with ${code}`, async () => assert.equal((await unpack(fragment)).problem.code, code));
  }

  it("take brackets in texts for texts", async () => {
    const title = `${"[".repeat(50)} "\\" ${"{".repeat(50)}`;
    assert.equal((await unpack(packed(JSON.stringify({ title })))).document.title, title);
  });
});

describe("files", () => {
  it("are named after the room", () => {
    const named = (title) => fileName({ ...sample(), title });
    assert.equal(named("Long terrace room"), "long-terrace-room.json");
    assert.equal(named("Küche / Höhle"), "kuche-hohle.json");
    assert.equal(named("<script>"), "script.json");
    assert.equal(named("音楽室"), "room.json");
    assert.ok(named("a".repeat(60)).length <= 53);
  });

  it("open as they were saved", async () => {
    assert.deepEqual((await readFile(new Blob([toText(sample())]))).document, sample());
    assert.deepEqual((await readFile(new Blob(["\ufeff", toText(sample())]))).document, sample());
  });

  it("that are no rooms give a sentence", async () => {
    assert.equal((await readFile(new Blob(["<html>"]))).problem.code, "not-json");
    assert.equal((await readFile(new Blob(["7"]))).problem.code, "not-json");
    assert.equal((await readFile(new Blob([new Uint8Array(256 * 1024 + 1)]))).problem.code, "too-large");
  });
});
