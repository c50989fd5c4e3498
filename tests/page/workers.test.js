import assert from "node:assert/strict";
import { describe, it } from "node:test";
import { createErrands } from "../../www/engine/errands.js";
import { bass, checkup, createRunner, draws, nextSlice, ranges } from "../../www/engine/jobs.js";
import { createLater } from "../../www/engine/later.js";
import { initialState, reduce } from "../../www/model/reduce.js";
import { createStore } from "../../www/model/store.js";
import { bassReport, rangesOf } from "./fixtures.js";
import { piece, sample } from "./support.js";

/** A worker that keeps what it is sent. */
function fakeWorker() {
  return { sent: [], ended: 0, onmessage: null, onerror: null, postMessage(errand) { this.sent.push(errand); }, terminate() { this.ended += 1; } };
}

describe("errands", () => {
  function setUp() {
    const worker = fakeWorker();
    const replies = [];
    let spawned = 0;
    const errands = createErrands(() => { spawned += 1; return worker; }, (document, plan, result) => replies.push([document, plan, result]));
    return { worker, replies, errands, spawned: () => spawned, reply: (data) => worker.onmessage({ data }) };
  }

  it("start a worker with the first request and hand back its replies with the very document", () => {
    const { worker, replies, errands, spawned, reply } = setUp();
    assert.equal(spawned(), 0);
    const document = sample();
    errands.ask(document, [1, 0]);
    errands.ask(document, [1, 0]);
    assert.equal(spawned(), 1);
    assert.deepEqual(worker.sent.map(({ serial, plans }) => [serial, plans]), [[1, [1, 0]], [2, [1, 0]]]);
    reply({ serial: 2, plan: 1, result: "r" });
    assert.equal(replies[0][0], document);
    assert.deepEqual(replies[0].slice(1), [1, "r"]);
  });

  it("drop what an older request brings, and anything twice", () => {
    const { replies, errands, reply } = setUp();
    errands.ask(sample(), [1]);
    errands.ask(sample(), [1]);
    reply({ serial: 1, plan: 1, result: "old" });
    reply({ serial: 2, plan: 1, result: "new" });
    reply({ serial: 2, plan: 1, result: "again" });
    assert.deepEqual(replies.map(([, , result]) => result), ["new"]);
  });

  it("tell the worker when nothing is wanted any more, once", () => {
    const { worker, replies, errands, reply } = setUp();
    errands.cancel();
    errands.ask(sample(), [1]);
    errands.cancel();
    errands.cancel();
    assert.deepEqual(worker.sent.map(({ document }) => document === null), [false, true]);
    reply({ serial: 1, plan: 1, result: "late" });
    assert.deepEqual(replies, []);
  });

  it("end a worker whose work cannot be cut, and start another one for the next request", () => {
    const workers = [fakeWorker(), fakeWorker()];
    const replies = [];
    let spawned = 0;
    const errands = createErrands(() => workers[spawned++], (...reply) => replies.push(reply), { whole: true });
    errands.ask(sample(), [1]);
    errands.cancel();
    errands.cancel();
    assert.deepEqual([workers[0].ended, workers[0].sent.length, workers[0].onmessage], [1, 1, null]);
    errands.ask(sample(), [1]);
    workers[1].onmessage({ data: { serial: workers[1].sent[0].serial, plan: 1, result: "new" } });
    errands.cancel();
    assert.deepEqual([spawned, replies.length, workers[1].ended], [2, 1, 0]);
  });

  it("hand on what another worker did as long as it is wanted, and wait on after a part", () => {
    const { worker, replies, errands, reply } = setUp();
    const document = sample();
    errands.ask(document, [1, 0]);
    reply({ serial: 1, plan: 1, result: "a", part: true });
    reply({ serial: 1, plan: 1, result: "b" });
    assert.deepEqual(replies.map(([, , result]) => result), ["a", "b"]);
    const help = { first: 190, packed: Float64Array.of(1) };
    errands.help(document, 1, help);
    errands.help(sample(), 0, help);
    assert.equal(worker.sent.length, 1);
    errands.help(document, 0, help);
    assert.deepEqual(worker.sent[1], { serial: 1, plan: 0, help });
  });

  it("answer null for everything awaited when the worker breaks", () => {
    const { worker, replies, errands } = setUp();
    errands.ask(sample(), [1, 0]);
    worker.onerror(new Error("no module workers here"));
    assert.deepEqual(replies.map(([, plan, result]) => [plan, result]), [[1, null], [0, null]]);
  });
});

/** A session that draws at a fixed cost, and a clock that moves with it. */
function slowSession({ of = 200, ms_per_draw = 1 } = {}) {
  const calls = [];
  const clock = { ms: 0 };
  let done = 0;
  return {
    calls, clock,
    open(document) {
      calls.push("open");
      if (document === "poison") throw new Error("trap");
      return { findings: document.room ? [] : [{ path: "room" }] };
    },
    start_ranges(plan) { calls.push(`start ${plan}`); done = 0; },
    more_ranges(draws) {
      calls.push(draws);
      clock.ms += draws * ms_per_draw;
      done += draws;
      return { ranges: done >= of ? rangesOf() : null };
    },
    bass(plan) { calls.push(`bass ${plan}`); return bassReport(); },
  };
}

/** A runner with its replies; `rest` lets each promise that waits go on. */
function running(job, session) {
  const posted = [];
  const run = createRunner(job, session, { post: (reply) => posted.push(reply), now: () => session.clock.ms, rest: () => new Promise(setImmediate) });
  return { run, posted };
}

describe("the ranges of a plan", () => {
  it("come in slices of about 22 ms", async () => {
    const session = slowSession();
    const { run, posted } = running(ranges, session);
    await run({ serial: 1, document: sample(), plans: [1] });
    const slices = session.calls.filter((call) => typeof call === "number");
    assert.equal(slices[0], 8);
    assert.ok(slices.slice(1, -1).every((draws) => draws >= 20 && draws <= 25), String(slices));
    assert.deepEqual(posted.map(({ serial, plan }) => [serial, plan]), [[1, 1]]);
  });

  it("adapt to a slow machine and never stop making progress", () => {
    assert.equal(nextSlice(8, 80), 2);
    assert.equal(nextSlice(1, 500), 1);
    assert.equal(nextSlice(8, 0.1), 32);
    assert.equal(nextSlice(100, 0), 200);
  });

  it("are given up within a slice when a newer errand comes", async () => {
    const session = slowSession({ of: 100000 });
    const { run, posted } = running(ranges, session);
    const old = run({ serial: 1, document: sample(), plans: [1, 0] });
    for (let turn = 0; turn < 6; turn += 1) await new Promise(setImmediate);
    const before = session.calls.length;
    const next = run({ serial: 2, document: null, plans: [] });
    await Promise.all([old, next]);
    assert.ok(session.calls.length - before <= 1, session.calls.join());
    assert.deepEqual(posted, []);
  });

  it("of several errands in one burst are computed for the newest only", async () => {
    const session = slowSession();
    const { run, posted } = running(ranges, session);
    await Promise.all([1, 2, 3].map((serial) => run({ serial, document: sample(), plans: [serial] })));
    assert.deepEqual(posted.map(({ serial, plan }) => [serial, plan]), [[3, 3]]);
    assert.equal(session.calls.filter((call) => call === "open").length, 1);
  });

  it("are null where the document or the core fails", async () => {
    const failing = slowSession();
    failing.more_ranges = () => { throw new Error("trap"); };
    for (const [session, document] of [[slowSession(), {}], [slowSession(), "poison"], [failing, sample()]]) {
      const { run, posted } = running(ranges, session);
      await run({ serial: 1, document, plans: [1, 0] });
      assert.deepEqual(posted.map(({ plan, result }) => [plan, result]), [[1, null], [0, null]]);
    }
  });

  it("and the bass use the same errands", async () => {
    const session = slowSession();
    const { run, posted } = running(bass, session);
    await run({ serial: 4, document: sample(), plans: [1] });
    assert.deepEqual(session.calls, ["open", "bass 1"]);
    assert.equal(posted[0].result.stops_at_hz, 200);
  });
});

/** A page with two fake workers, a pointer that can be held, and timers run by hand. */
function laterPage(offers = { ranges: true, bass: true }) {
  const store = createStore(initialState(sample({ pieces: [piece("left", 1, 1)] })), reduce, () => 0);
  const workers = { ranges: fakeWorker(), bass: fakeWorker() };
  const timers = new Map();
  let held = false;
  let number = 0;
  const later = createLater({
    getState: store.get, dispatch: store.dispatch, offers, spawn: (job) => workers[job], isHeld: () => held,
    wait: (act, rest_ms) => { number += 1; timers.set(number, { act, rest_ms }); return number; },
    waitNoMore: (timer) => timers.delete(timer),
  });
  store.subscribe(later.follow);
  const fire = () => {
    const waiting = [...timers.values()];
    timers.clear();
    for (const { act } of waiting) act();
    return waiting.map(({ rest_ms }) => rest_ms);
  };
  const hold = (next) => { held = next; if (!next) later.follow(); };
  const reply = (job, plan, result) => workers[job].onmessage({ data: { serial: workers[job].sent.at(-1).serial, plan, result } });
  const asked = (job) => workers[job].sent.filter(({ document }) => document).map(({ plans }) => plans);
  return { store, workers, later, fire, hold, reply, asked, dispatch: store.dispatch };
}

describe("what is asked, and when", () => {
  it("asks for the shown plan, then today; then for the bass", () => {
    const page = laterPage();
    page.later.follow();
    assert.deepEqual(page.fire(), [60]);
    assert.deepEqual(page.asked("ranges"), [[1, 0]]);
    page.reply("ranges", 1, rangesOf());
    assert.deepEqual(page.asked("bass"), []);
    page.reply("ranges", 0, rangesOf());
    assert.deepEqual(page.asked("bass"), [[1]]);
    page.reply("bass", 1, bassReport());
    assert.deepEqual(page.fire(), [], "nothing more to ask");
    assert.ok(page.store.get().bass.bass);
  });

  it("asks nothing while a pointer is down, and at once after the drop", () => {
    const page = laterPage();
    page.later.follow();
    page.fire();
    page.hold(true);
    page.dispatch({ type: "drag-start", index: 0, by: "pointer" });
    page.dispatch({ type: "drag-move", surface: "left", u_m: 2, v_m: 1, tolerance_m: 0 });
    assert.deepEqual(page.fire(), []);
    assert.equal(page.workers.ranges.sent.at(-1).document, null, "what ran is cancelled");
    page.dispatch({ type: "drag-end" });
    assert.deepEqual(page.fire(), [], "the pointer is still down");
    page.hold(false);
    assert.deepEqual(page.fire(), [], "without a timer, which the drawing of the drop would go before");
    assert.equal(page.workers.ranges.sent.at(-1).document, page.store.get().document);
  });

  it("waits until keys have placed a piece", () => {
    const page = laterPage();
    page.dispatch({ type: "drag-start", index: 0, by: "keys" });
    page.dispatch({ type: "drag-move", surface: "left", u_m: 2, v_m: 1, tolerance_m: 0 });
    assert.deepEqual(page.fire(), []);
    assert.deepEqual(page.asked("ranges"), []);
    page.dispatch({ type: "drag-end" });
    assert.deepEqual(page.asked("ranges"), [[1, 0]]);
  });

  it("lets steps of keys come to rest, and asks once", () => {
    const page = laterPage();
    for (let step = 0; step < 5; step += 1) page.dispatch({ type: "nudge-piece", index: 0, du_m: 0.01, dv_m: 0 });
    assert.deepEqual(page.fire(), [60]);
    assert.equal(page.asked("ranges").length, 1);
  });

  it("cancels what runs with the next change, and drops what still comes of it", () => {
    const page = laterPage();
    page.later.follow();
    page.fire();
    const { serial } = page.workers.ranges.sent.at(-1);
    page.dispatch({ type: "nudge-piece", index: 0, du_m: 0.01, dv_m: 0 });
    assert.equal(page.workers.ranges.sent.at(-1).document, null);
    page.workers.ranges.onmessage({ data: { serial, plan: 1, result: rangesOf() } });
    assert.equal(page.store.get().late, null);
  });

  it("asks only for what is missing after a look at another plan and back", () => {
    const page = laterPage();
    page.later.follow();
    page.fire();
    page.reply("ranges", 1, rangesOf());
    page.reply("ranges", 0, rangesOf());
    page.dispatch({ type: "show-plan", index: 0 });
    page.fire();
    assert.equal(page.asked("ranges").length, 1);
    assert.deepEqual(page.asked("bass"), [[1], [0]]);
  });

  it("asks for the bass where the core has no ranges, and for nothing where it has neither", () => {
    const bassOnly = laterPage({ ranges: false, bass: true });
    bassOnly.later.follow();
    bassOnly.fire();
    assert.deepEqual([bassOnly.asked("ranges"), bassOnly.asked("bass")], [[], [[1]]]);
    const neither = laterPage({ ranges: false, bass: false });
    neither.later.follow();
    neither.fire();
    assert.deepEqual([neither.workers.ranges.sent, neither.workers.bass.sent], [[], []]);
  });

  it("goes on to the bass when the ranges fail", () => {
    const page = laterPage();
    page.later.follow();
    page.fire();
    page.workers.ranges.onerror(new Error("no"));
    assert.deepEqual(page.asked("bass"), [[1]]);
    assert.equal(page.store.get().late.ranges[1], null);
  });
});

/** A session whose draws are single numbers; it counts what it makes itself. */
function countingSession() {
  const there = new Set();
  let [first, end, made] = [0, 200, 0];
  const done = () => ({ ranges: there.size === 200 ? { draws: 200 } : null });
  return {
    made: () => made,
    open: () => ({ findings: [] }),
    start_ranges() { [first, end] = [0, 200]; there.clear(); },
    start_part(_plan, from, to) { [first, end] = [from, to]; there.clear(); },
    more_ranges(count) {
      for (let number = first; number < end && count > 0; number += 1) {
        if (there.has(number)) continue;
        there.add(number);
        made += 1;
        count -= 1;
      }
      return done();
    },
    packed: () => Float64Array.from(there),
    join(from, packed) { packed.forEach((_, index) => there.add(from + index)); return done(); },
    checkup: () => null,
    surer: (plan) => ({ plan }),
  };
}

describe("draws of two workers", () => {
  it("come as parts, the last ones first, and only the later half", async () => {
    const parts = [];
    const run = createRunner(draws, countingSession(), { post: (reply) => parts.push(reply), now: () => 0, rest: async () => {} });
    await run({ serial: 1, document: sample(), plans: [1] });
    const given = parts.filter(({ part }) => part).map(({ result }) => result.first);
    assert.deepEqual(given, [190, 180, 170, 160, 150, 140, 130, 120, 110, 100]);
    assert.equal(parts.at(-1).part, undefined);
  });

  it("spare the first worker what the second one made, for the same request and plan only", async () => {
    const session = countingSession();
    const replies = [];
    const help = { first: 100, packed: new Float64Array(100) };
    let run = async () => {};
    let rests = 0;
    const rest = async () => {
      rests += 1;
      if (rests !== 3) return;
      await run({ serial: 7, plan: 1, help: { first: 0, packed: new Float64Array(200) } });
      await run({ serial: 8, plan: 0, help: { first: 0, packed: new Float64Array(200) } });
      await run({ serial: 8, plan: 1, help });
    };
    let ms = 0;
    run = createRunner(ranges, session, { post: (reply) => replies.push(reply), now: () => { ms += 11; return ms; }, rest });
    await run({ serial: 8, document: sample(), plans: [1] });
    assert.deepEqual(replies.map(({ plan, result }) => [plan, result.draws]), [[1, 200]]);
    assert.equal(session.made(), 100);
  });
});

describe("the check-up's worker", () => {
  it("answers with what was measured and with what would make the plan surer", async () => {
    const replies = [];
    const run = createRunner(checkup, countingSession(), { post: (reply) => replies.push(reply), now: () => 0, rest: async () => {} });
    await run({ serial: 1, document: sample(), plans: [1] });
    assert.deepEqual(replies, [{ serial: 1, plan: 1, result: { checkup: null, surer: { plan: 1 } } }]);
  });
});
