import assert from "node:assert/strict";
import { describe, it } from "node:test";
import { answerWords } from "../../www/model/answer.js";
import { longestWords } from "../../www/model/longest.js";
import { confidence, differenceOf, differenceWords, isTooClose } from "../../www/model/doubt.js";
import { rangesOf } from "./fixtures.js";
import { piece, sample } from "./support.js";

const between = (from, to, low_s, high_s) => ({ from, to, mid_s: (low_s + high_s) / 2, low_s, high_s });

describe("words of confidence", () => {
  it("have a fixed meaning, bounds included", () => {
    const word = (share) => confidence(share).word;
    assert.deepEqual([0.9, 0.899, 2 / 3, 0.666, 0.5, 0.334, 1 / 3, 0.11, 0.1, 0].map(word), [
      "very likely", "likely", "likely", "could go either way", "could go either way", "could go either way",
      "unlikely", "unlikely", "very unlikely", "very unlikely",
    ]);
  });

  it("take the share of 200 draws as it comes", () => {
    assert.equal(confidence(180 / 200).word, "very likely");
    assert.equal(confidence(20 / 200).word, "very unlikely");
  });
});

describe("the difference of two plans", () => {
  it("is claimed only when its sign is sure", () => {
    assert.equal(differenceWords(between("Now", "A", -0.36, -0.27), "today"), "shorter than today by 0.27–0.36\u202fs");
    assert.equal(differenceWords(between("A", "B", 0.02, 0.05), "Plan A"), "longer than Plan A by 0.02–0.05\u202fs");
    assert.equal(differenceWords(between("A", "B", -0.04, 0.01), "Plan A"), "between 0.04 s shorter and 0.01 s longer than Plan A: too close to call");
  });

  it("is too close as soon as an end is shown as zero", () => {
    assert.ok(isTooClose(between("A", "B", -0.04, -0.004)));
    assert.ok(!isTooClose(between("A", "B", -0.04, -0.006)));
  });

  it("is found whichever way round it was computed", () => {
    const list = [between("A", "Now", 0.27, 0.36)];
    assert.deepEqual(differenceOf(list, "Now", "A"), { from: "Now", to: "A", mid_s: -0.315, low_s: -0.36, high_s: -0.27 });
    assert.equal(differenceOf(list, "A", "B"), null);
  });
});

describe("the answer line with ranges", () => {
  const document = sample({ pieces: [piece("left", 1, 1)] });
  const differences = [between("Now", "A", -0.36, -0.27)];
  const said = (doubt, { plan = 1, shown_s = 0.43, now_s = 0.9 } = {}) => {
    const words = answerWords({ document, plan, kit: [], now: { mid: { t20_s: now_s } }, shown: { mid: { t20_s: shown_s } } }, doubt);
    return { ...words, text: words.text.replaceAll("\u202f", " ") };
  };

  it("says range, today, goal and how likely it is met", () => {
    const { text, parts } = said({ ranges: rangesOf(0.43, 0.72), today: rangesOf(0.9, 0), differences, missing: "coming" });
    assert.equal(text, "Plan A: sound should die away in 0.34–0.52 s, today 0.72–1.08 s. Your goal is 0.30–0.50 s: likely met. Shorter than today by 0.27–0.36 s.");
    assert.deepEqual(parts.filter(({ word }) => word).map((part) => part.text), ["likely"]);
    assert.deepEqual(parts.filter(({ doubt }) => doubt).length, 1);
  });

  it("gives the middle at once and says that its range is on the way", () => {
    const { text } = said({ ranges: null, today: rangesOf(0.9, 0), differences: [], missing: "coming" });
    assert.equal(text, "Plan A: sound should die away in about 0.43 s, today 0.72–1.08 s. Your goal is 0.30–0.50 s: inside it. The range is catching up.");
    assert.match(said({ ranges: null, today: null, differences: [], missing: "failed" }).text, /The range could not be computed here\.$/);
  });

  it("says the plain words where the goal could go either way or is out of reach", () => {
    const goal = (share) => said({ ranges: rangesOf(0.43, share), today: null, differences, missing: "coming" }).text;
    assert.match(goal(0.5), /0\.30–0\.50 s: could go either way\. /);
    assert.match(goal(0.2), /: unlikely to be met\. /);
    assert.match(goal(0.95), /: very likely met\. /);
  });

  it("leaves a good room alone, and is the same as today only where the range is too", () => {
    const today = rangesOf(0.4, 0.8);
    assert.equal(said({ ranges: today, today, differences: [], missing: "coming" }, { plan: 0, shown_s: 0.4, now_s: 0.4 }).text,
      "Leave it alone: today’s 0.32–0.48 s is already inside your goal. It is 0.30–0.50 s: likely met. Panels would mostly make it duller.");
    assert.match(said({ ranges: rangesOf(0.9, 0), today: rangesOf(0.9, 0), differences: [], missing: "coming" }, { shown_s: 0.9 }).text, /, the same as today\. /);
    assert.match(said({ ranges: rangesOf(0.95, 0), today: rangesOf(0.9, 0), differences: [], missing: "coming" }, { shown_s: 0.9 }).text, /, today 0\.72–1\.08 s\. /);
  });

  it("calls no winner between a plan and today when the range straddles zero", () => {
    const close = [between("Now", "A", -0.02, 0.03)];
    assert.match(said({ ranges: rangesOf(0.43, 0.72), today: null, differences: close, missing: "coming" }).text,
      /Between 0\.02 s shorter and 0\.03 s longer than today: too close to call\.$/);
  });

  it("knows the longest that it may become", () => {
    const answer = (plan, shown_s, now_s) => ({ document, plan, kit: [], now: { mid: { t20_s: now_s } }, shown: { mid: { t20_s: shown_s } } });
    const longest = (...figures) => { const { answers, doubts } = longestWords(answer(...figures)); return [answers, doubts].map((forms) => forms.map((form) => form.replaceAll("\u202f", " "))); };
    assert.match(longest(1, 0.43, 0.9)[0][0], /die away in 0\.88–0\.88 s, today 0\.44–0\.88 s\. Your goal is 0\.30–0\.50 s: very unlikely to be met\.$/);
    assert.match(longest(1, 0.9, 0.9)[0][1], /die away in 0\.88–0\.88 s, the same as today\. Your goal is 0\.30–0\.50 s: very unlikely to be met\.$/);
    assert.equal(longest(1, 0.43, 0.9)[1][0], "Between 0.88 s shorter and 0.88 s longer than today: too close to call.");
    assert.match(longest(1, 0.43, 6)[0][0], /in 88\.88–88\.88 s/);
    assert.equal(longest(0, 0.9, 0.9)[1][0], "Panels would mostly make it duller.");
  });
});
