// What is heard and what is read off a recording, across the door.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { describe, it } from "node:test";
import { Listener, scenario } from "./support.js";

/** A listener with a room open. */
function opened() {
  const listener = new Listener();
  assert.deepEqual(listener.open(scenario("rented-corner-room")), { findings: [] });
  return listener;
}

describe("a listener", () => {
  it("hands over four series of a plan and renders no plan twice", () => {
    const listener = opened();
    [0, 1, 0, 1].forEach((plan) => {
      const series = listener.response(plan);
      assert.ok(series instanceof Float32Array && series.length % 4 === 0 && series.length > 4 * 24000);
      assert.ok(series.every(Number.isFinite));
    });
    assert.equal(listener.renderings(), 2);
    assert.deepEqual(listener.response(0), listener.response(0));
    assert.equal(listener.renderings(), 2);
  });
  it("renders the same, and sooner, once the noise is made", () => {
    const [cold, warm] = [opened(), opened()];
    for (let band = 0; band < 25; band += 1) warm.make_noise(band);
    const [first, second] = [cold, warm].map((listener) => {
      const start = performance.now();
      return { series: listener.response(1), took_ms: performance.now() - start };
    });
    assert.deepEqual(second.series, first.series);
    // Several times as long; the noise is most of what a first response takes.
    assert.ok(second.took_ms < first.took_ms, `${second.took_ms.toFixed(0)} ms after ${first.took_ms.toFixed(0)} ms`);
    console.log(`first response ${first.took_ms.toFixed(0)} ms, with the noise there ${second.took_ms.toFixed(0)} ms`);
  });
  it("renders a plan anew when one of its pieces has moved, and no other", () => {
    const listener = opened();
    const [today, plan] = [0, 2].map((number) => listener.response(number));
    const document = scenario("rented-corner-room");
    const [piece] = document.plans[2].pieces.filter(({ place }) => place === "stand");
    piece.y_m += 0.1;
    assert.deepEqual(listener.open(document), { findings: [] });
    assert.deepEqual(listener.response(0), today);
    assert.equal(listener.renderings(), 2);
    assert.notDeepEqual(listener.response(2), plan);
    assert.equal(listener.renderings(), 3);
    const sound = listener.dry("click");
    listener.level(0, sound, sound);
    listener.level(2, sound, sound);
    assert.equal(listener.renderings(), 3);
  });
  it("tells loudness and peak that follow the level", () => {
    const listener = opened();
    const sound = listener.dry("strings");
    const louder = sound.map((sample) => 2 * sample);
    const [one, other] = [sound, louder].map((dry) => listener.level(0, dry, dry));
    assert.ok(Math.abs(other.loudness_lkfs - one.loudness_lkfs - 6.02) < 0.01, `${one.loudness_lkfs} ${other.loudness_lkfs}`);
    assert.ok(one.peak > 0 && Math.abs(other.peak / one.peak - 2) < 1e-4, `${one.peak} ${other.peak}`);
  });
  it("refuses what is not there with a code and a sentence", () => {
    assert.throws(() => new Listener().response(0), { code: "missing" });
    assert.throws(() => opened().response(9), { code: "nothing-to-hear", message: "There is no such plan." });
    assert.throws(() => opened().dry("trumpet"), { code: "no-such-name" });
    const wrong = scenario("rented-corner-room");
    wrong.room.width_m = -1;
    assert.ok(new Listener().open(wrong).findings.length > 0);
  });
});

describe("a recording", () => {
  const office = new URL("../data/furnished_office_binaural/office_a_azimuth_000.wav", import.meta.url);
  it("is read into bands", () => {
    const reading = new Listener().read_recording(readFileSync(office));
    assert.equal(reading.problem, null);
    assert.deepEqual(reading.octaves.map(({ center_hz }) => center_hz), [63, 125, 250, 500, 1000, 2000, 4000, 8000]);
    assert.equal(reading.thirds.length, 24);
    const at1k = reading.octaves[4];
    assert.deepEqual(Object.keys(at1k).sort(), ["above_noise_db", "c50_db", "c80_db", "center_hz", "edt_s", "refused", "t20_s", "t30_s"]);
    assert.ok(Math.abs(at1k.t20_s - 0.27) < 0.02);
    assert.equal(reading.octaves[7].t20_s, null);
  });
  it("that is none is refused in a sentence", () => {
    const { problem } = new Listener().read_recording(new Uint8Array(1000));
    assert.match(problem, /^This is not a WAV file/);
  });
  it("is what a written file is", () => {
    const bytes = new Listener().wav(new Float32Array(100).fill(0.5), new Float32Array(100), 48000);
    assert.equal(Buffer.from(bytes.subarray(0, 4)).toString(), "RIFF");
    // Head, then 100 samples of two channels in 3 bytes each.
    assert.ok(bytes.length >= 644 && bytes.length < 700, `${bytes.length}`);
  });
});
