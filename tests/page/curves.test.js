import assert from "node:assert/strict";
import { describe, it } from "node:test";
import { arrivalsChart } from "../../www/chart/arrivals.js";
import { nominalHz } from "../../www/chart/bands.js";
import { blendedLevel, combLevel, combOf, pressureAt } from "../../www/model/comb.js";
import { evenWords, loudWords, sampled } from "../../www/model/map_words.js";
import { initialState } from "../../www/model/reduce.js";
import { responseSentence } from "../../www/model/response_words.js";
import { arrivalsBody } from "../../www/view/arrivals.js";
import { combBody } from "../../www/view/comb.js";
import { responsePart } from "../../www/view/response.js";
import { bassReport, planReport, reflection, series } from "./fixtures.js";
import { between, sample, seeded } from "./support.js";
import { countOf, textOf, wordsOf } from "./support_text.js";

const bounces = [
  reflection({ dips: [{ frequency_hz: 125, depth_db: 9.5 }, { frequency_hz: 375, depth_db: 9.5 }] }),
  reflection({ loudspeaker: 1, surfaces: ["floor"], level_db: series(() => -3), delay_s: 0.002 }),
  reflection({ order: 2, surfaces: ["left", "back"], delay_s: 0.03, level_db: series(() => -18) }),
];

function scene({ shows = {}, bass = bassReport(), reflections = bounces } = {}) {
  const document = sample();
  const state = { ...initialState(document), bass: { document, plan: 1, bass } };
  const shown = planReport(0.5, { reflections });
  return {
    state: { ...state, shows: { ...state.shows, ...shows } }, document, plan: document.plans[1], listening: document.listening, shown, now: shown,
    offers: { ranges: true, bass: true }, dispatch: () => {},
  };
}

describe("the comb of one bounce", () => {
  it("has its first dip within 2 % of one over twice the delay", () => {
    const random = seeded(2);
    for (let time = 0; time < 50; time += 1) {
      const delay_s = between(random, 1, 9) / 1000;
      const { frequency_hz, raw_db } = combOf({ delay_s, level_db: series(() => -4) });
      const first = frequency_hz.findIndex((_, index) => index > 0 && raw_db[index] < raw_db[index - 1] && raw_db[index] < raw_db[index + 1]);
      assert.ok(Math.abs(frequency_hz[first] * 2 * delay_s - 1) < 0.02, `${frequency_hz[first]} Hz, ${delay_s} s`);
    }
  });

  it("is as deep as the levels say", () => {
    const g = 0.5;
    assert.ok(Math.abs(combLevel(100, 0.005, g) - 20 * Math.log10(1 - g)) < 1e-9, "half a wave late");
    assert.ok(Math.abs(combLevel(200, 0.005, g) - 20 * Math.log10(1 + g)) < 1e-9, "a whole wave late");
  });

  it("blends over a third of an octave to the mean of the energy, as summed finely", () => {
    const random = seeded(9);
    for (let time = 0; time < 40; time += 1) {
      const [hz, delay_s, g] = [between(random, 60, 8000), between(random, 0.5, 25) / 1000, between(random, 0.05, 0.9)];
      const [low, high] = [hz / 2 ** (1 / 6), hz * 2 ** (1 / 6)];
      const steps = 20000;
      let sum = 0;
      for (let step = 0; step < steps; step += 1) sum += 10 ** (combLevel(low + ((high - low) * (step + 0.5)) / steps, delay_s, g) / 10);
      assert.ok(Math.abs(blendedLevel(hz, delay_s, g) - 10 * Math.log10(sum / steps)) < 0.01);
    }
  });

  it("takes the level between two bands from both", () => {
    const level_db = series((band) => -band);
    assert.ok(Math.abs(pressureAt(level_db, 50) - 1) < 1e-12);
    const between_bands = pressureAt(level_db, 50 * 10 ** 0.05);
    assert.ok(between_bands < 1 && between_bands > 10 ** (-1 / 20));
  });

  it("shows the blended curve first and the raw one on request, of the bounce that is chosen, looked at, or strongest", () => {
    const plain = combBody(scene(), 460);
    assert.equal(countOf(plain, /class="curve raw/g), 0);
    assert.equal(countOf(plain, /class="curve third/g), 1);
    assert.match(wordsOf(plain), /This bounce comes so close|2\.0 ms late/, "the floor is strongest");
    const raw = combBody(scene({ shows: { comb: "left 0", comb_raw: true } }), 460);
    assert.equal(countOf(raw, /class="curve raw/g), 1);
    assert.match(wordsOf(raw), /4\.0 ms late, it would make its first dips at 125, 375 Hz, 10 dB deep at the first\. Ears blend them/);
    assert.match(wordsOf(combBody(scene({ shows: { lit: { surface: "left", loudspeaker: 0, by: "hover" } } }), 460)), /4\.0 ms late/);
  });
});

describe("bounces over time", () => {
  it("are one stem each, first ones by name, and say how many blend with the direct sound", () => {
    const drawn = arrivalsBody(scene(), 460);
    assert.equal(countOf(drawn, /class="arrival /g), 3);
    assert.match(wordsOf(drawn), /^2 of 3 come within 20 ms/);
    for (const words of ["left", "floor", "milliseconds after the direct sound", "direct sound, 0 dB"]) assert.ok(wordsOf(drawn).includes(words), words);
  });

  it("stand farther right the later they are, and higher the stronger", () => {
    const at = (delay_ms, level_db) => {
      const chart = arrivalsChart({ arrivals: [{ loudspeaker: 0, delay_ms, level_db, name: "a", second: false }, { loudspeaker: 1, delay_ms: 30, level_db: -20, name: "b", second: false }], width_px: 460, height_px: 200 });
      return /translate\(([\d.]+) ([\d.]+)\)/.exec(textOf(chart)).slice(1).map(Number);
    };
    assert.ok(at(10, -6)[0] > at(5, -6)[0]);
    assert.ok(at(5, -3)[1] < at(5, -12)[1]);
  });
});

describe("the response at the seat", () => {
  it("shows both in third-octaves first; each alone, both side by side and the raw one on request", () => {
    const curves = (shows) => [...textOf(responsePart(scene({ shows }), 700)).matchAll(/class="curve ([\w ]+)"/g)].map(([, look]) => look);
    assert.deepEqual(curves({}), ["third"]);
    assert.deepEqual(curves({ response_raw: true }), ["raw", "third"]);
    assert.deepEqual(curves({ response: "left" }), ["left"]);
    assert.deepEqual(curves({ response: "pair", response_raw: true }), ["raw", "raw right", "left", "right"]);
  });

  it("says how even it is and where it leaves its mean by most", () => {
    const third = { frequency_hz: Float64Array.of(40, 80, 250, 500, 1000, 4000), both_db: Float64Array.of(12, -10, 1, -1, 1, -1) };
    const words = responseSentence(third, "both_db", nominalHz).replaceAll("\u202f", " ");
    assert.match(words, /stays within 1 dB of its mean from 200 Hz to 10 kHz; over all it is loudest, 12 dB above that mean at 40 Hz, and quietest, 10 dB below that mean at 80 Hz\./);
    assert.equal(responseSentence({ ...third, both_db: Float64Array.of(NaN, NaN, NaN, NaN, NaN, NaN) }, "both_db", nominalHz), "");
  });

  it("is marked as old until the new one is there, and has its place before it comes", () => {
    const old = scene();
    assert.match(textOf(responsePart({ ...old, document: { ...old.document } }, 700)), /is-stale/);
    const coming = responsePart(scene({ bass: null }), 700);
    assert.match(textOf(coming), /<svg class="chart" width=700 height=200/);
    assert.equal(countOf(coming, /class="curve/g), 0);
    const { listening, ...lonely } = scene();
    assert.equal(wordsOf(responsePart({ ...lonely, listening: { ...listening, seat: undefined } }, 700)), "");
  });
});

describe("the bass map in words", () => {
  const map = {
    nx: 3, ny: 2, x_m: [0.1, 2, 3], y_m: [1, 4], frequency_hz: [40], level_db: Float64Array.of(20, 6, 1, -3, 0, 2),
    unevenness_db: Float64Array.of(1, 6, 5, 9, 4, 7),
  };

  it("names the evenest and the least even place, away from the walls, and the seat", () => {
    const [words] = evenWords(map, sample().room, { x_m: 2.1, y_m: 3.8, z_m: 1 }, "metric");
    assert.equal(words.replaceAll("\u202f", " "), "The bass is evenest 2.00 m from the left wall and 4.00 m from the front wall: its bands differ by 4.0 dB there. It is least even 3.00 m from the left wall and 4.00 m from the front wall, by 7.0; at your seat by 4.0.");
    assert.deepEqual(evenWords({ ...map, unevenness_db: undefined }, sample().room, undefined, "metric"), []);
  });

  it("names the loudest and the quietest place of a band", () => {
    assert.equal(loudWords(map, map.level_db, 40, sample().room, "metric").replaceAll("\u202f", " "),
      "Round 40 Hz it is loudest 2.00 m from the left wall and 1.00 m from the front wall and quietest 2.00 m from the left wall and 4.00 m from the front wall, 6 dB apart.");
  });

  it("is a table of not more rows than asked for", () => {
    assert.deepEqual(sampled([1, 2, 3, 4, 5, 6, 7], 3), [0, 3, 6]);
    assert.deepEqual(sampled([1, 2], 3), [0, 1]);
  });
});
