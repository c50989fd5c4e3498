import assert from "node:assert/strict";
import { describe, it } from "node:test";
import { createAdviceRunner } from "../../www/engine/advice_job.js";
import { createAdvisers, workersFor } from "../../www/engine/advise.js";
import { flatFrom, ladder, leavesAlone, nextStep, offers, panelsDoNotFix, progressOf, rankedSurfaces } from "../../www/model/advice.js";
import { SLIDER_PLAN, stillHolds } from "../../www/model/advising.js";
import { boomWords, changeWords, freeWords, nextWords, objectiveWords, placeWords, refusalWords, verdictWords } from "../../www/model/advice_words.js";
import { initialState, reduce } from "../../www/model/reduce.js";
import { adviceBody } from "../../www/view/advice.js";
import { frozen, kind, piece, sample } from "./support.js";
import { wordsOf } from "./support_text.js";

const steps = (decay, effort = 0) => ({ decay, evenness: 1, bounces: 1, likeness: 0, effort });

/** A plan that gains so many steps. */
function planOf(gain, price = 100, pieces = [piece("left", 1, 0.9)]) {
  return { pieces, reasons: [{ piece: 0, purpose: "decay", steps: gain, mark: [0, "left"] }], removed: [], price, before: steps(8), after: steps(8 - gain), middle_s: [0.9, 0.9 - gain / 20], bounces_db: [0, -2] };
}

const levelsOf = (...gains) => Object.fromEntries(gains.map((gain, index) => [index + 1, { level: index + 1, budget: 100 * (index + 1), plan: planOf(gain, 90 * (index + 1), [piece("left", index, 0.9)]) }]));

function asked(found = {}, document = sample({ limits: { budget: 800 } })) {
  const state = reduce(frozen({ ...initialState(document), shown: 0 }), { type: "advice-asked", plan: 0 }, 0);
  return { ...state, advice: { ...state.advice, found: { surfaces: {}, levels: {}, ...found } } };
}

describe("what advice comes to", () => {
  it("leaves a room alone whose goal is met, or where nothing helps; not before both are known", () => {
    const verdict = { mid: { t20_s: 0.4, low_s: 0.34, high_s: 0.48, goal_met: 0.8 } };
    assert.equal(leavesAlone({ verdict }), null);
    assert.equal(leavesAlone({ verdict, best: { plan: planOf(1), order: [], refusals: [] } }), true);
    assert.equal(leavesAlone({ verdict, best: { plan: planOf(4), order: [], refusals: [] } }), false);
    const missed = { mid: { ...verdict.mid, goal_met: 0.1 } };
    assert.equal(leavesAlone({ verdict: missed, best: { plan: planOf(1), order: [], refusals: [] } }), false);
    assert.equal(leavesAlone({ verdict: missed, best: { plan: planOf(0.2), order: [], refusals: [] } }), true);
  });

  it("says that panels do not fix the boom only where the seat does twice as much", () => {
    const boom = { together_hz: 56.3, now_db: 8.1, plan_db: 8.1, seat_db: 3.8, seat_back_m: -0.6 };
    assert.equal(panelsDoNotFix(boom), true);
    assert.match(boomWords(boom, "metric"), /^Panels will not fix the boom\. Two bass notes share 56.Hz/);
    assert.equal(boomWords({ ...boom, plan_db: 5 }, "metric"), null);
    assert.equal(panelsDoNotFix({ ...boom, seat_db: 7.5 }), false);
    assert.equal(panelsDoNotFix(null), false);
  });

  it("makes a ladder on which more money never buys less, and finds its flat part", () => {
    const rungs = ladder({ surfaces: {}, levels: levelsOf(1, 3, 2.5, 4.9, 5, 5) });
    assert.deepEqual(rungs.map(({ gained }) => gained), [1, 3, 3, 4.9, 5, 5].map((gain) => 8 - (8 - gain)));
    assert.equal(flatFrom(rungs), 3);
    assert.equal(flatFrom([]), null);
    assert.equal(flatFrom(ladder({ surfaces: {}, levels: levelsOf(1, 2, 5) })), null);
  });

  it("offers the best plan, one that gains most of it for less, and another way; none twice", () => {
    const best = { plan: planOf(5, 800, [piece("back", 1, 0.9)]), order: [], refusals: [] };
    const found = { best, surfaces: {}, levels: levelsOf(1, 4.2, 5), other: { plan: planOf(3, 500, [piece("right", 2, 1)]) } };
    assert.deepEqual(offers(found).map(({ why }) => why), ["best", "thrifty", "other"]);
    assert.deepEqual(offers({ ...found, other: { plan: best.plan }, levels: {} }).map(({ why }) => why), ["best"]);
    assert.deepEqual(offers({ surfaces: {}, levels: {} }), []);
  });

  it("can say stop: a first step that is hardly heard is none", () => {
    const bite = { pieces: [piece("left", 1, 0.9)], price: 45, gained: 0.8, middle_s: 0.8, bounces_db: -1 };
    assert.equal(nextStep([bite]), bite);
    assert.equal(nextStep([{ ...bite, gained: 0.2 }]), null);
    assert.equal(nextStep([]), null);
    const { advice } = asked({ best: { plan: planOf(1), order: [], refusals: [] } });
    assert.match(nextWords(advice, null, "metric"), /^Stop here/);
    assert.equal(nextWords(advice, bite, "metric"), "Thick soft, 100 mm on the left wall, 1.00\u202fm from the front wall and 0.90\u202fm up: this brings the decay from 0.90 to 0.80\u202fs and calms first bounces by 1.0 dB, for 45.");
  });

  it("ranks surfaces by what half of them buys, those without a place last", () => {
    const one = (surface, gained) => ({ surface, covers: gained === null ? [] : [{}, { gained }] });
    const ranked = rankedSurfaces({ levels: {}, surfaces: { left: one("left", 1), floor: one("floor", null), back: one("back", 2) } });
    assert.deepEqual(ranked.map(({ surface }) => surface), ["back", "left", "floor"]);
  });

  it("says the verdict with range, goal and confidence", () => {
    const { advice } = asked({ verdict: { mid: { t20_s: 0.9, low_s: 0.8, high_s: 1, goal_met: 0 } }, best: { plan: planOf(5), order: [], refusals: [] } });
    assert.match(verdictWords(advice), /^With today's 0\.80–1\.00.s your goal of 0\.30–0\.50.s is very unlikely to be met\. The best plan found brings the decay from 0\.90 to 0\.65.s/);
    assert.equal(verdictWords({ ...advice, found: { surfaces: {}, levels: {} } }), null);
  });

  it("says what is free, where pieces go and why they may not", () => {
    const move = { what: "seat", back_m: -0.4, listening: null, removed: [], bass_db: [10.6, 9.2], before: steps(8), after: steps(8), gained: 1 };
    assert.equal(freeWords(move, sample(), 0, "metric"), "Move the seat 0.40\u202fm forward: the bass spreads over 9.2 dB instead of 10.6 dB.");
    assert.match(placeWords({ kit: "x", place: "corner", edge: "back-left", z_m: 0 }, "metric"), /^in the back left corner/);
    assert.deepEqual(refusalWords([{ kit: "a", surface: "left", loudspeaker: 0, rule: "window", moved: true }, { kit: "b", surface: "left", loudspeaker: 0, rule: "window", moved: true }]),
      ["At the bounce mark of the left loudspeaker on the left wall: a window is there and must open; a place beside it is used."]);
    assert.equal(changeWords({ middle_s: [0.5, 0.5], bounces_db: null }), "leaves the decay as it is");
    const about = { tasks: [], top: 800, stand_ins: [], objective: { weights: { decay: 1, evenness: 1, tilt: 0.5, bounces: 0.6, likeness: 0.6, piece: 0.04, lone: 0.04, money: 1 }, goal_s: [0.3, 0.5], budget: 800 } };
    assert.match(objectiveWords(about).join(" "), /First bounces: 0\.60 for each 3 dB/);
  });
});

describe("taking advice", () => {
  const act = (state, action) => reduce(frozen(state), action, 1000);

  it("opens plans under free letters in one step that undo takes back", () => {
    const before = asked();
    const plans = [{ pieces: [piece("left", 1, 0.9)] }, { pieces: [piece("right", 1, 0.9)] }];
    const after = act(before, { type: "take-advice", plans });
    assert.deepEqual(after.document.plans.map(({ name }) => name), ["Now", "A", "B", "C"]);
    assert.equal(after.shown, 2);
    assert.equal(after.history.past.length, before.history.past.length + 1);
    assert.deepEqual(act(after, { type: "undo" }).document, before.document);
  });

  it("opens no more plans than a document holds, and says when there is no room", () => {
    const plans = Array.from({ length: 7 }, (_, index) => ({ name: index === 0 ? "Now" : `P${index}`, pieces: [] }));
    const before = asked({}, sample({ plans }));
    const two = act(before, { type: "take-advice", plans: [{ pieces: [] }, { pieces: [] }] });
    assert.equal(two.document.plans.length, 8);
    const full = act(two, { type: "take-advice", plans: [{ pieces: [] }] });
    assert.equal(full.document, two.document);
    assert.match(full.notice.text, /at most 8 plans/);
  });

  it("lets one plan follow the slider; all of its way is one step", () => {
    const before = asked();
    const slide = (state, u_m) => act(state, { type: "take-advice", slider: true, plans: [{ pieces: [piece("left", u_m, 0.9)] }] });
    const after = slide(slide(slide(before, 1), 2), 3);
    assert.equal(after.document.plans.filter(({ name }) => name === SLIDER_PLAN).length, 1);
    assert.equal(after.document.plans[after.shown].pieces[0].u_m, 3);
    assert.deepEqual(act(after, { type: "undo" }).document, before.document);
  });

  it("brings the kinds that stood in into the document", () => {
    const before = asked();
    const stand_in = kind("rug", 2, 1.4);
    const told = act(before, { type: "advice-came", document: before.document, told: { about: { tasks: [], top: 1, stand_ins: [stand_in], objective: {} } } });
    const after = act(told, { type: "take-advice", plans: [{ pieces: [] }] });
    assert.ok(after.document.kit.includes(stand_in));
  });

  it("holds as long as room, limits, goal and the plan it started from stay", () => {
    const state = asked();
    const { advice, document } = state;
    assert.ok(stillHolds(advice, act(state, { type: "take-advice", plans: [{ pieces: [] }] }).document));
    assert.ok(!stillHolds(advice, act(state, { type: "set-limit", limit: "budget", value: 3 }).document));
    assert.ok(!stillHolds(advice, { ...document, plans: [{ ...document.plans[0], pieces: [] }, document.plans[1]] }));
    assert.ok(!stillHolds(advice, { ...document, kit: [] }));
  });

  it("drops what comes for another question or after it was stopped", () => {
    const state = asked();
    const found = { task: "other", plan: null };
    const told = { task: 3, found, whole: true };
    assert.equal(act(state, { type: "advice-came", document: sample(), told }).advice.found.other, undefined);
    const stopped = act(state, { type: "advice-stopped" });
    assert.equal(stopped.advice.status, "stopped");

    assert.equal(act(stopped, { type: "advice-came", document: state.document, told }).advice.found.other, undefined);
    assert.deepEqual(act(state, { type: "advice-came", document: state.document, told }).advice.found.other, found);
  });
});

describe("advisers", () => {
  const tasks = ["best", "verdict", "free", "other"];

  function setUp(count) {
    const workers = [];
    const told = [];
    const advisers = createAdvisers(() => {
      const worker = { sent: [], ended: 0, postMessage(errand) { this.sent.push(errand); }, terminate() { this.ended += 1; } };
      workers.push(worker);
      return worker;
    }, count, (_document, what) => told.push(what));
    /** Lets every worker answer what it was sent, in turn. */
    function work() {
      for (let turn = 0; turn < 20; turn += 1) {
        const worker = workers.find((one) => one.sent.length > 0);
        if (!worker) return;
        const { serial, task } = worker.sent.shift();
        worker.onmessage({ data: { serial, task, about: { tasks }, progress: 0 } });
        worker.onmessage({ data: { serial, task, found: { task: tasks[task] } } });
      }
    }
    return { workers, told, advisers, work };
  }

  it("are as many as cores, at most four", () => {
    assert.deepEqual([undefined, 1, 2, 4, 16].map(workersFor), [2, 1, 2, 4, 4]);
  });

  it("hand every task out once and tell when all are over, however many they are", () => {
    for (const count of [1, 2, 4]) {
      const { told, advisers, work } = setUp(count);
      advisers.ask(sample(), 0);
      work();
      const found = told.filter((what) => what.found).map(({ task }) => task).sort();
      assert.deepEqual(found, [0, 1, 2, 3], `${count} workers`);
      assert.deepEqual(told.at(-1), { status: "done" });
      assert.equal(told.filter((what) => what.about).length, 1);
    }
  });

  it("end with what is cancelled, and say when they fail", () => {
    const { workers, told, advisers } = setUp(2);
    advisers.ask(sample(), 0);
    advisers.cancel();
    assert.deepEqual(workers.map(({ ended }) => ended), [1, 1]);
    advisers.ask(sample(), 0);
    assert.equal(workers.length, 4);
    workers[2].onerror(new Error("no"));
    assert.deepEqual(told.at(-1), { status: "failed" });
  });
});

describe("a worker's advice", () => {
  /** A core that needs three slices for a task. */
  function fakeSession() {
    const log = [];
    const advice = {
      about: () => ({ tasks: [] }), free: () => log.push("free"), left: 0,
      start(task) { this.left = 3; log.push(`start ${task}`); },
      more() { this.left -= 1; return { found: this.left === 0 ? { task: "best" } : null, so_far: this.left === 2 ? { task: "best" } : null, progress: 1 - this.left / 3 }; },
    };
    return { log, open: () => ({ findings: [] }), advise: () => { log.push("advise"); return advice; } };
  }

  it("goes slice by slice, tells a first plan, and opens a document once", async () => {
    const session = fakeSession();
    const posted = [];
    const run = createAdviceRunner(session, { post: (reply) => posted.push(reply), now: () => 0, rest: () => Promise.resolve() });
    await run({ serial: 1, document: sample(), plan: 0, task: 0 });
    await run({ serial: 1, document: sample(), plan: 0, task: 1 });
    assert.deepEqual(session.log, ["advise", "start 0", "start 1"]);
    assert.equal(posted.filter((reply) => reply.found).length, 2);
    assert.equal(posted.filter((reply) => reply.soFar).length, 2);
  });

  it("stops at a newer question and says what failed", async () => {
    const session = fakeSession();
    const posted = [];
    let rests = 0;
    const run = createAdviceRunner(session, {
      post: (reply) => posted.push(reply), now: () => 0,
      rest: async () => { rests += 1; if (rests === 2) await run({ serial: 2, document: null, plan: 0, task: 0 }); },
    });
    await run({ serial: 1, document: sample(), plan: 0, task: 0 });
    assert.equal(posted.filter((reply) => reply.found).length, 0);
    const broken = createAdviceRunner({ open: () => ({ findings: [{}] }) }, { post: (reply) => posted.push(reply), now: () => 0, rest: () => Promise.resolve() });
    await broken({ serial: 3, document: sample(), plan: 0, task: 0 });
    assert.deepEqual(posted.at(-1), { serial: 3, task: 0, failed: true });
  });
});

describe("the region of advice", () => {
  const bite = { pieces: [piece("left", 1, 0.9)], price: 45, gained: 0.8, middle_s: 0.8, bounces_db: -1 };
  const cover = (share, gained) => ({ share, pieces: 2, area_m2: 1.44, price: 90, middle_s: 0.8, bounces_db: -1, gained, evenness_gained: -0.3 });
  const surface = { surface: "left", kit: "thick", rule: null, covers: [cover(0.25, 1), cover(0.5, 2)], middle_s: 0.9, bounces_db: 0, range_s: [-0.3, -0.1], absorption: 0.1, carries: 1.4, why: "lingers" };
  const found = {
    best: { plan: planOf(5, 800, [piece("back", 1, 0.9)]), order: [bite], refusals: [{ kit: "thick", surface: "ceiling", loudspeaker: null, rule: "bare", moved: false }] },
    verdict: { mid: { t20_s: 0.9, low_s: 0.8, high_s: 1, goal_met: 0 } }, free: { free: { moves: [], boom: null } }, other: { plan: null },
    surfaces: { left: surface, floor: { ...surface, surface: "floor", kit: null, covers: [], rule: "bare", range_s: null } }, levels: levelsOf(1, 4.2, 4.8, 5),
  };
  const about = { tasks: ["best"], top: 800, stand_ins: [], objective: { weights: { decay: 1, evenness: 1, tilt: 0.5, bounces: 0.6, likeness: 0.6, piece: 0.04, lone: 0.04, money: 1 }, goal_s: [0.3, 0.5], budget: 800 } };

  /** @param {object|null} changes of the advice; null: nobody asked */
  function scene(changes, readOnly = null) {
    const state = asked(found);
    const advice = changes && { ...state.advice, about, ...changes };
    const log = [];
    return { log, state: { ...state, readOnly, advice }, document: state.document, plan: state.document.plans[0], dispatch: (action) => log.push(action), commands: { askAdvice() {}, stopAdvice() {} } };
  }

  it("asks first, and again once the room has changed", () => {
    assert.match(wordsOf(adviceBody(scene(null), 600)), /Starting from the room as it is.*Work it out$/);
    const other = { ...sample(), limits: { budget: 3 } };
    assert.match(wordsOf(adviceBody(scene({ document: other }), 600)), /has changed since.*Work it out again/);
  });

  it("says all of it in order, with the flat part of the money and the rules", () => {
    const words = wordsOf(adviceBody(scene({ status: "done" }), 600));
    const parts = ["Worked out from the room as it is", "Leave it alone?", "very unlikely to be met", "What is free", "Nothing that costs nothing", "What one surface buys", "−0.30 to −0.10 s",
      "dies last here (1.4 times its share)", "nothing may go there: it is kept bare", "0.3 steps worse", "The next best step", "for 45", "Whole plans", "The best within your limits", "Most of it for less money",
      "What the next money buys", "more money changes little here", "up to 400", "From about 270 on, more changes little", "On the ceiling: it is kept bare", "One step is one clear difference"];
    let last = -1;
    for (const part of parts) {
      const place = words.indexOf(part, last + 1);
      assert.ok(place > last, `${part} in: ${words}`);
      last = place;
    }
  });

  it("says so where money buys nothing", () => {
    const levels = { 1: { level: 1, budget: 50, plan: planOf(1, 0) }, 2: { level: 2, budget: 100, plan: planOf(1, 0) } };
    assert.match(wordsOf(adviceBody(scene({ status: "done", found: { ...found, levels } }), 600)), /money changes little\./);
  });

  it("counts pieces where nothing has a price", () => {
    const words = wordsOf(adviceBody(scene({ status: "done", about: { ...about, top: 0 } }), 600));
    assert.match(words, /Pieces up to 1 piece /);
  });

  it("shows how far it is and what it does while it works, and offers nothing to take where nothing may change", () => {
    const working = wordsOf(adviceBody(scene({ status: "working", progress: { 0: 0.5 }, found: { surfaces: {}, levels: {} } }), 600));
    assert.match(working, /50 %: looking for the best plan\. Stop/);
    assert.match(working, /Being worked out/);
    const locked = wordsOf(adviceBody(scene({ status: "done" }, { text: "newer", link: "" }), 600));
    assert.doesNotMatch(locked, /Open as a plan|side by side|up to 400/);
  });
});
