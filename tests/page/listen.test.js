// Fair listening as rules, and a reading as an entry of the document.
import assert from "node:assert/strict";
import { describe, it } from "node:test";

import { LEVEL_DB, LIMITED_TO, MOST_LKFS, ROUNDS, STRAIGHT_TO, byChance, guessed, hiddenPlan, limiterCurve, matchedGains, plansToHear, rightGuesses, startBlind, stillChosen, targetLkfs, verdict } from "../../www/model/listen.js";
import { measuredOf, readingInWords } from "../../www/model/recording.js";

const documentOf = (/** @type {number} */ count) => /** @type {any} */ ({ plans: Array.from({ length: count }, (_, index) => ({ name: String(index) })) });

describe("plans that are heard", () => {
  it("are today, the one in hand and the one it is compared with", () => {
    assert.deepEqual(plansToHear(documentOf(5), 4, 2), [0, 2, 4]);
    assert.deepEqual(plansToHear(documentOf(5), 3, null), [0, 1, 3]);
    assert.deepEqual(plansToHear(documentOf(5), 0, null), [0, 1, 2]);
    assert.deepEqual(plansToHear(documentOf(2), 0, null), [0, 1]);
    assert.deepEqual(plansToHear(documentOf(1), 0, null), [0]);
  });
});

describe("matched loudness", () => {
  const soft = [-12.3, -20, -7.7].map((loudness_lkfs) => ({ loudness_lkfs, peak: 0.2 }));
  const loudnessAfter = (/** @type {{loudness_lkfs: number}[]} */ levels, /** @type {number[]} */ gains) => gains.map((gain, index) => levels[index].loudness_lkfs + 20 * Math.log10(gain));
  it("brings every plan to the same", () => {
    for (const lkfs of loudnessAfter(soft, matchedGains(soft))) assert.ok(Math.abs(lkfs - MOST_LKFS) < 1e-9);
  });
  it("is so low that no plan's peak meets the limiter at the top of the slider", () => {
    const sharp = [{ loudness_lkfs: -40, peak: 0.9 }, { loudness_lkfs: -43, peak: 1.4 }];
    const gains = matchedGains(sharp);
    const [one, other] = loudnessAfter(sharp, gains);
    assert.ok(Math.abs(one - other) < 1e-9 && Math.abs(one - targetLkfs(sharp)) < 1e-9 && one < MOST_LKFS);
    const peaks = gains.map((gain, index) => 10 ** (LEVEL_DB.most / 20) * gain * sharp[index].peak);
    assert.ok(Math.max(...peaks) < STRAIGHT_TO && Math.max(...peaks) > 0.8 * STRAIGHT_TO, `${peaks}`);
  });
  it("mutes what has no loudness", () => {
    assert.deepEqual(matchedGains([{ loudness_lkfs: -Infinity, peak: 0 }, { loudness_lkfs: NaN, peak: NaN }]), [0, 0]);
  });
});

describe("the switch", () => {
  it("stays on its plan when others are heard, and goes to one that is there if it has gone", () => {
    assert.equal(stillChosen([0, 1, 3], [0, 2, 3], 2), 2);
    assert.equal(stillChosen([0, 1, 2], [0, 2, 4], 2), 1);
    assert.equal(stillChosen([0, 1, 3], [0, 2], 2), 1);
    assert.equal(stillChosen([0, 1], [0, 2], -1), 0);
  });
});

describe("the limiter", () => {
  const curve = limiterCurve();
  const at = (/** @type {number} */ x) => curve[Math.round(((x / LIMITED_TO + 1) / 2) * (curve.length - 1))];
  it("leaves ordinary levels alone and never passes full scale", () => {
    assert.equal(at(0), 0);
    for (const x of [-0.65, -0.2, 0.1, 0.5]) assert.ok(Math.abs(at(x) - x) < LIMITED_TO / (curve.length - 1));
    assert.ok(curve.every((y) => Math.abs(y) <= 1));
  });
  it("rises all the way", () => {
    for (let n = 1; n < curve.length; n += 1) assert.ok(curve[n] >= curve[n - 1]);
  });
});

describe("blind rounds", () => {
  it("hide one of the pair in every round and end after ten", () => {
    const draws = [0.1, 0.9, 0.4, 0.6, 0.2, 0.7, 0.3, 0.8, 0.49, 0.5];
    let blind = startBlind([0, 2], () => draws.shift() ?? 0);
    assert.deepEqual(blind.hidden, [0, 1, 0, 1, 0, 1, 0, 1, 0, 1]);
    for (let round = 0; round < ROUNDS; round += 1) {
      assert.equal(hiddenPlan(blind), round % 2 === 0 ? 0 : 2);
      blind = guessed(blind, 0);
    }
    assert.equal(hiddenPlan(blind), null);
    assert.equal(rightGuesses(blind), 5);
    assert.equal(guessed(blind, 1), blind);
  });
  // Binomial law, n = 10, p = ½: tables of any textbook.
  it("know what guessing alone gives", () => {
    for (const [right, share] of [[0, 1], [5, 0.623], [7, 0.1719], [8, 0.0547], [9, 0.0107], [10, 0.00098]]) {
      assert.ok(Math.abs(byChance(right) - share) < 0.0005, `${right}: ${byChance(right)}`);
    }
  });
  const told = (/** @type {number} */ right) => {
    let blind = startBlind([0, 1], () => 0);
    for (let round = 0; round < ROUNDS; round += 1) blind = guessed(blind, round < right ? 0 : 1);
    return verdict(blind, ["Today", "Plan A"]);
  };
  it("say that it was heard, that it may have been, or that it was not", () => {
    assert.match(told(10), /^10 of 10 right\. You heard the difference between Today and Plan A\. Guessing alone gives that in 1 of 1024 tries\.$/);
    assert.match(told(9), /You heard the difference.* 1 of 100 tries|You heard the difference/);
    assert.match(told(8), /may have heard it, but not surely/);
    for (const right of [2, 5, 7]) assert.match(told(right), /You did not hear it: .*With this sound, the two are alike to you\.$/);
    assert.match(told(1), /took the one for the other/);
  });
});

describe("a reading", () => {
  const band = (/** @type {number} */ center_hz, /** @type {number|null} */ t20_s) => ({ center_hz, t20_s, above_noise_db: 50, edt_s: 0.4, t30_s: null, c50_db: 3, c80_db: 6, refused: [] });
  const reading = { problem: null, sample_rate_hz: 48000, channels: 2, duration_s: 1.234, thirds: [], octaves: [band(63, 0.9), band(125, null), band(250, 0.61234), band(1000, 0.5), band(8000, 0.3)] };
  it("becomes a measured decay of its plan", () => {
    assert.deepEqual(measuredOf(reading, "Now"), { plan: "Now", bands_hz: [250, 1000], decay_s: [0.612, 0.5] });
  });
  it("becomes none where no octave is told", () => {
    assert.equal(measuredOf({ ...reading, octaves: [band(125, null), band(63, 0.5)] }, "Now"), null);
  });
  it("is told in a sentence", () => {
    assert.equal(readingInWords(reading), "Decay read in 4 of 5 octaves (1.2 s, two channels, 48000 samples a second). Where a figure is missing, the table says why.");
  });
});
