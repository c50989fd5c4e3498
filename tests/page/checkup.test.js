// Check-ups: reading what people type and paste, the steps on the document, and what is said.
import assert from "node:assert/strict";
import { describe, it } from "node:test";

import { answerWords } from "../../www/model/answer.js";
import { checkedAnswer } from "../../www/model/checked.js";
import { narrowerWords, readingOf, surerList } from "../../www/model/checkup_words.js";
import { rangesFor } from "../../www/model/late.js";
import { isMany, readMeasured, readTime } from "../../www/model/measured_text.js";
import { initialState, reduce } from "../../www/model/reduce.js";
import { NOMINAL_HZ } from "../../www/chart/bands.js";
import { planReport, rangesOf, series } from "./fixtures.js";
import { frozen, sample } from "./support.js";

const OCTAVES_HZ = [125, 250, 500, 1000, 2000, 4000];
const read = (text, first = 0) => readMeasured(text, NOMINAL_HZ, first, OCTAVES_HZ);
const timesOf = (text, first) => {
  const got = read(text, first);
  assert.equal(got.problem, undefined, got.problem);
  return [...got.times];
};

describe("reading measured decays", () => {
  const wanted = [[250, 0.62], [500, 0.58], [1000, 0.55]];
  for (const [name, text] of Object.entries({
    "lines with tabs": "250\t0.62\n500\t0.58\n1000\t0.55",
    "lines with semicolons and decimal commas": "250;0,62\n500;0,58\n1000;0,55",
    "lines with commas": "250, 0.62\n500,0.58\n1000,0.55",
    "lines with spaces, units and a colon": "250 Hz: 0.62 s\n500 Hz: 0.58 s\n1 kHz: 550 ms",
    "decimal commas after spaces": "250 0,62\n500 0,58\n1k 0,55",
    "a row of bands over a row of times": "250\t500\t1000\n0,62\t0,58\t0,55",
  })) it(`takes ${name}`, () => assert.deepEqual(timesOf(text), wanted));

  it("takes a row of times from the field that it is pasted into", () => {
    assert.deepEqual(timesOf("0.62; 0.58; 0.55", 1), wanted);
    assert.deepEqual(timesOf("0,62 0,58 0,55", 1), wanted);
    assert.deepEqual(timesOf("0.62, 0.58, 0.55", 1), wanted);
  });
  it("refuses with value and limit what no room does", () => {
    assert.match(read("250 25").problem, /250\s*Hz: 25.* s .*between 0\.05 and 20 s/u);
    assert.match(read("500 0.01").problem, /0\.01 s/u);
    assert.match(readTime("30").problem, /between 0\.05 and 20 s/u);
  });
  it("says what it cannot tell apart or make out", () => {
    assert.match(read("0,62,0,58,0,55").problem, /decimal commas/u);
    assert.match(read("about half").problem, /could not read “about”/u);
    assert.match(read("700 0.5").problem, /700\s*Hz is no band/u);
    assert.match(read("250 0.6\n250 0.7").problem, /twice/u);
    assert.match(read("0.6 0.6 0.6 0.6", 4).problem, /do not fit/u);
    assert.match(read("   ").problem, /Nothing to read/u);
  });
  it("never throws, whatever is pasted", () => {
    for (const text of ["\u0000", "<b>1</b>", "1e999", "-5", ",,,;;;", "Infinity 3", "250", "9".repeat(5000)]) {
      assert.ok(read(text).problem, text.slice(0, 20));
    }
  });
  it("tells one value from several", () => {
    assert.equal(isMany("0,62"), false);
    assert.equal(isMany("0.62\t0.58"), true);
  });
});

const entry = { plan: "Now", bands_hz: [1000, 500], decay_s: [0.55, 0.58] };
const start = () => frozen(initialState(sample()));

describe("steps on check-ups", () => {
  it("enters, changes and removes as one step each, and takes each back", () => {
    const entered = reduce(start(), { type: "add-measured", entry }, 0);
    assert.deepEqual(entered.document.measured, [{ plan: "Now", bands_hz: [500, 1000], decay_s: [0.58, 0.55] }]);
    const changed = reduce(entered, { type: "set-measured", index: 0, entry: { ...entry, plan: "A" } }, 5000);
    assert.equal(changed.document.measured[0].plan, "A");
    const removed = reduce(changed, { type: "remove-measured", index: 0 }, 9000);
    assert.equal("measured" in removed.document, false);
    assert.equal(removed.history.past.length, 3);
    assert.deepEqual(reduce(removed, { type: "undo" }, 9999).document.measured, changed.document.measured);
    const back = [1, 2, 3].reduce((state) => reduce(state, { type: "undo" }, 9999), removed);
    assert.deepEqual(back.document, start().document);
  });
  it("changes nothing for an entry that is absurd, and says so with value and limit", () => {
    for (const decay_s of [[25, 0.5], [Number.NaN, 0.5], [0.01, 0.5], [-1, 0.5], []]) {
      const state = start();
      const after = reduce(state, { type: "add-measured", entry: { ...entry, decay_s } }, 0);
      assert.equal(after.document, state.document);
      assert.equal(after.notice.tone, "problem");
    }
    const after = reduce(start(), { type: "add-measured", entry: { ...entry, decay_s: [25, 0.5] } }, 0);
    assert.match(after.notice.text, /1\s*kHz: 25\.00 s/u);
    assert.match(after.notice.text, /between 0\.05 and 20 s/u);
  });
  it("follows a plan that is renamed and goes with one that is removed", () => {
    const entered = reduce(start(), { type: "add-measured", entry: { ...entry, plan: "A" } }, 0);
    assert.equal(reduce(entered, { type: "rename-plan", index: 1, name: "Best" }, 1).document.measured[0].plan, "Best");
    assert.deepEqual(reduce(entered, { type: "remove-plan", index: 1 }, 1).document.measured, []);
  });
});

const checked = { t20_s: series(() => 0.4), mid_s: 0.4, factor: series(() => 0.8), mid_factor: 0.8 };

describe("what a check-up does to the page", () => {
  const document = frozen({ ...sample(), measured: [entry] });
  const ranges = rangesOf(0.4, 0.9, { checked });
  const late = { document, ranges: { 0: ranges, 1: ranges }, carried: null };
  const answer = { document, plan: 1, now: planReport(0.5), shown: planReport(0.45), kit: [] };

  it("moves what is predicted between answers, and keeps what was predicted", () => {
    const moved = checkedAnswer(answer, late);
    assert.ok(Math.abs(moved.now.mid.t20_s - 0.4) < 1e-12);
    assert.ok(Math.abs(moved.shown.decay.t20_s[5] - 0.36) < 1e-12);
    assert.equal(checkedAnswer(moved, late).now, moved.now);
    const dragged = { ...document, plans: [document.plans[0], { name: "A", pieces: [] }] };
    assert.ok(Math.abs(checkedAnswer({ ...answer, document: dragged }, late).shown.mid.t20_s - 0.36) < 1e-12);
  });
  it("leaves alone what rests on another check-up", () => {
    const other = { ...document, measured: [{ ...entry, decay_s: [0.5, 0.5] }] };
    assert.equal(checkedAnswer({ ...answer, document: other }, late).now, answer.now);
    assert.equal(rangesFor(late, other, 0), undefined);
  });
  it("gives up the range of today when a measured plan is changed", () => {
    const withA = { ...document, measured: [{ ...entry, plan: "A" }] };
    const changed = { ...withA, plans: [withA.plans[0], { name: "A", pieces: [] }] };
    assert.equal(rangesFor({ ...late, document: withA }, changed, 0), undefined);
    assert.equal(rangesFor({ ...late, document: withA }, { ...withA, title: "Other" }, 0), ranges);
  });
  it("is named in the answer", () => {
    const words = answerWords({ ...answer, plan: 0, shown: answer.now }, { ranges, today: ranges, differences: [], missing: "none" });
    assert.match(words.text, /after your check-up/u);
    const without = answerWords({ ...answer, plan: 0, shown: answer.now }, { ranges: rangesOf(), today: rangesOf(), differences: [], missing: "none" });
    assert.doesNotMatch(without.text, /check-up/u);
  });
});

describe("the words of the check-up", () => {
  const said = {
    plan: "Now", used: true, sentence: "", bands_hz: [125, 500, 1000], measured_s: [0.9, 0.7, 0.4], counted: [false, true, true],
    before: { t20_s: [0.6, 0.6, 0.6], low_s: [0.5, 0.5, 0.5], high_s: [0.65, 0.65, 0.65] }, after: null,
  };
  it("names the bands outside of the range, but none that does not count", () => {
    assert.match(readingOf(said), /longer than the range at 500\s*Hz; shorter at 1\s*kHz/u);
    assert.match(readingOf({ ...said, measured_s: [0.9, 0.6, 0.6] }), /every band that counts/u);
    assert.match(readingOf({ ...said, counted: [false, false, false] }), /single notes/u);
  });
  it("previews what knowing one thing would do", () => {
    const now = { low_s: 0.4, high_s: 0.6, goal_met: 0.5 };
    const known = { low_s: 0.45, high_s: 0.55, goal_met: 0.8 };
    const input = { name: "finish x", words: "Plaster (floor)", advice: "Ask.", share: 0.4, goal_share: 0.1, known };
    const list = surerList({ now, inputs: [input, input, input], measured: { plan: "Now", known } });
    assert.equal(list.length, 4);
    assert.match(list[0].what, /One measured decay/u);
    assert.equal(list[1].what, "Plaster (floor)");
    assert.match(list[1].then, /0\.45.*0\.55.*likely met/u);
    assert.match(list[1].narrower, /50\s*% narrower/u);
    assert.equal(narrowerWords(now, now), "hardly narrower");
  });
  it("says one figure of each, that of the range, and puts the narrowest first", () => {
    const now = { low_s: 0.4, high_s: 0.6, goal_met: 0.5 };
    const input = (words, share, low_s) => ({ name: words, words, advice: "Ask.", share, goal_share: 0.1, known: { low_s, high_s: 0.6, goal_met: 0.5 } });
    const list = surerList({ now, inputs: [input("carpet", 0.54, 0.4), input("plaster", 0.2, 0.45)], measured: null });
    assert.deepEqual(list.map(({ what, narrower }) => [what, narrower.replace(/\s/u, " ")]), [["plaster", "25 % narrower"], ["carpet", "hardly narrower"]]);
    for (const said of list) assert.doesNotMatch(Object.values(said).join(" "), /doubt|54/);
  });
});
