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
  it("hands over four series of a plan and keeps what has not changed", () => {
    const listener = opened();
    const spent = () => process.cpuUsage().user / 1000;
    const times = [0, 1, 0, 1].map((plan) => {
      const before = spent();
      const series = listener.response(plan);
      assert.ok(series instanceof Float32Array && series.length % 4 === 0 && series.length > 4 * 24000);
      assert.ok(series.every(Number.isFinite));
      return spent() - before;
    });
    console.log(`CPU time of each rendering: ${times.map((ms) => ms.toFixed(0)).join(", ")} ms`);
    assert.deepEqual(listener.response(0), listener.response(0));
    // What is known is compared, not rendered: far less than the first time, whatever the machine.
    assert.ok(times[2] < times[0] / 2, `${times}`);
  });
  it("renders a plan anew when one of its pieces has moved, and no other", () => {
    const listener = opened();
    const [today, plan] = [0, 2].map((number) => listener.response(number));
    const document = scenario("rented-corner-room");
    const [piece] = document.plans[2].pieces.filter(({ place }) => place === "stand");
    piece.y_m += 0.1;
    assert.deepEqual(listener.open(document), { findings: [] });
    assert.deepEqual(listener.response(0), today);
    assert.notDeepEqual(listener.response(2), plan);
  });
  it("tells loudness that follows the level", () => {
    const listener = opened();
    const sound = listener.dry("strings");
    const louder = sound.map((sample) => 2 * sample);
    const [one, other] = [sound, louder].map((dry) => listener.loudness(0, dry, dry));
    assert.ok(Math.abs(other - one - 6.02) < 0.01, `${one} ${other}`);
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
