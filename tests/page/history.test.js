import assert from "node:assert/strict";
import { describe, it } from "node:test";
import { initialState, reduce } from "../../www/model/reduce.js";
import { createStore } from "../../www/model/store.js";
import { between, frozen, kind, piece, sample, seeded } from "./support.js";

/** A step at random that a person could take. @param {() => number} random @param {object} state */
function anyStep(random, state) {
  const index = Math.floor(random() * Math.max(1, state.document.plans[state.shown].pieces.length));
  const steps = [
    () => ({ type: "add-piece", piece: piece(["left", "right", "back", "ceiling"][Math.floor(random() * 4)], between(random, 0, 5), between(random, 0, 1)), kit: kind(random() < 0.5 ? "thick" : "thin") }),
    () => ({ type: "set-piece", index, u_m: between(random, 0, 5), v_m: between(random, 0, 1.3) }),
    () => ({ type: "set-piece", index, width_m: between(random, 0.2, 1) }),
    () => ({ type: "nudge-piece", index, du_m: 0.01, dv_m: 0 }),
    () => ({ type: "remove-piece", index }),
    () => ({ type: "mirror-piece", index }),
    () => ({ type: "set-finish", surface: "back", finish: ["brick", "concrete", "carpet"][Math.floor(random() * 3)] }),
    () => ({ type: "set-room", width_m: between(random, 2, 6) }),
    () => ({ type: "move-seat", to: { y_m: between(random, 2, 5) } }),
    () => (state.document.plans.length < 4 ? { type: "add-plan" } : { type: "remove-plan", index: 2 }),
  ];
  return steps[Math.floor(random() * steps.length)]();
}

describe("undo and redo", () => {
  it("restores every one of a hundred steps exactly, back and forth", () => {
    const random = seeded(40);
    let state = frozen(initialState(sample(), { example: false }));
    const seen = [{ document: structuredClone(state.document), shown: state.shown }];
    for (let tries = 0; seen.length <= 100 && tries < 2000; tries += 1) {
      const next = frozen(reduce(state, frozen(anyStep(random, state)), tries * 1e4));
      if (next.history.past.length > state.history.past.length) seen.push({ document: structuredClone(next.document), shown: next.shown });
      state = next;
    }
    assert.equal(seen.length, 101);
    for (let back = 99; back >= 0; back -= 1) {
      state = frozen(reduce(state, { type: "undo" }, 0));
      assert.deepEqual({ document: state.document, shown: state.shown }, seen[back], `step ${back}`);
    }
    assert.equal(reduce(state, { type: "undo" }, 0).notice.text, "Nothing to undo.");
    for (let on = 1; on <= 100; on += 1) {
      state = frozen(reduce(state, { type: "redo" }, 0));
      assert.deepEqual({ document: state.document, shown: state.shown }, seen[on], `step ${on}`);
    }
    assert.equal(reduce(state, { type: "redo" }, 0).notice.text, "Nothing to redo.");
  });

  it("keeps at most 200 steps, dropping the oldest", () => {
    let state = initialState(sample(), { example: false });
    for (let i = 0; i < 250; i += 1) state = reduce(state, { type: "move-seat", to: { x_m: 1 + i / 200 } }, i * 1e4);
    assert.equal(state.history.past.length, 200);
  });

  it("forgets what could be redone after a new step, and names what it undid", () => {
    const step = (finish) => ({ type: "set-finish", surface: "back", finish });
    let state = reduce(initialState(sample()), step("brick"), 0);
    state = reduce(state, { type: "undo" }, 1);
    assert.equal(state.notice.text, "Undone: finish of the back wall.");
    state = reduce(state, step("concrete"), 2);
    assert.equal(state.history.future.length, 0);
  });

  it("does not record what is looked at", () => {
    let state = initialState(sample({ pieces: [piece("left", 1, 1)] }));
    for (const action of [{ type: "select", index: 0 }, { type: "face", surface: "back" }, { type: "show-plan", index: 0 }, { type: "set-units", units: "imperial" }, { type: "set-snap", snap: false }]) {
      state = reduce(state, action, 0);
    }
    assert.equal(state.history.past.length, 0);
    assert.equal(state.example, true);
  });
});

describe("visits", () => {
  const mine = sample();
  const theirs = { ...sample(), title: "Another room" };
  const open = { type: "open-document", document: theirs, from: "link", link: "1.abc" };

  it("shows the plan that the link names, or the first where there is none such", () => {
    const shown = (/** @type {number|undefined} */ plan) => reduce(initialState(mine, { example: false }), { ...open, shown: plan }, 0).shown;
    assert.deepEqual([shown(0), shown(1), shown(undefined), shown(9)], [0, 1, 1, 1]);
  });

  it("keeps the draft aside, and one undo restores it", () => {
    const own = initialState(mine, { example: false });
    const visiting = reduce(own, open, 0);
    assert.deepEqual([visiting.document.title, visiting.visiting], ["Another room", { draft: mine, home: own.home, link: "1.abc" }]);
    const undone = reduce(visiting, { type: "undo" }, 1);
    assert.deepEqual([undone.document, undone.visiting], [mine, null]);
    assert.equal(undone.home, own.home);
  });

  it("is another room than the one before, and undo leads back to that very room", () => {
    const own = initialState(mine, { example: false });
    const steps = [
      open, { ...open, from: "file" }, { ...open, from: "example" }, { type: "start-room", width_m: 3, length_m: 4, height_m: 2.5 },
    ];
    for (const step of steps) {
      const other = reduce(own, step, 0);
      assert.notEqual(other.home, own.home, step.from);
      const back = reduce(other, { type: "undo" }, 1);
      assert.equal(back.home, own.home, step.from);
      assert.equal(reduce(back, { type: "redo" }, 2).home, other.home, step.from);
    }
    const visiting = reduce(own, open, 0);
    assert.equal(reduce(visiting, { type: "keep-mine" }, 1).home, own.home);
    assert.notEqual(reduce(visiting, { type: "use-this" }, 1).home, own.home);
    assert.equal(reduce(own, { type: "set-title", title: "Changed" }, 1).home, own.home);
    const home = {};
    assert.equal(reduce(own, { ...open, from: "room", home }, 1).home, home);
  });

  it("keeps mine, or uses this with one undo back", () => {
    const visiting = reduce(initialState(mine, { example: false }), open, 0);
    const kept = reduce(reduce(visiting, { type: "set-title", title: "Changed" }, 1), { type: "keep-mine" }, 2);
    assert.deepEqual([kept.document, kept.visiting], [mine, null]);
    const used = reduce(visiting, { type: "use-this" }, 1);
    assert.deepEqual([used.document, used.visiting], [theirs, null]);
    assert.equal(reduce(used, { type: "undo" }, 2).document, mine);
  });

  it("is no visit when only the untouched example is there, or when a file was chosen", () => {
    assert.equal(reduce(initialState(mine), open, 0).visiting, null);
    const filed = reduce(initialState(mine, { example: false }), { ...open, from: "file" }, 0);
    assert.equal(filed.visiting, null);
    assert.equal(reduce(filed, { type: "undo" }, 1).document, mine);
  });

  it("keeps the first draft through a second link", () => {
    const second = reduce(reduce(initialState(mine, { example: false }), open, 0), { ...open, document: { ...theirs, title: "Third" } }, 1);
    assert.equal(second.visiting.draft, mine);
  });

  it("shows a newer document without letting it be changed", () => {
    const newer = reduce(initialState(mine, { example: false }), { type: "open-newer", document: theirs, link: "2.x" }, 0);
    assert.equal(newer.readOnly.link, "2.x");
    const tried = reduce(newer, { type: "set-finish", surface: "back", finish: "brick" }, 1);
    assert.deepEqual([tried.document, tried.notice.tone], [theirs, "problem"]);
    assert.equal(reduce(newer, { type: "drag-new", kit: kind(), by: "pointer" }, 1).drag, null);
    const back = reduce(newer, { type: "undo" }, 1);
    assert.deepEqual([back.document, back.readOnly, back.visiting, back.history.future.length], [mine, null, null, 0]);
  });
});

describe("the store", () => {
  it("tells listeners the next and the previous state, and nothing when nothing changed", () => {
    const store = createStore(initialState(sample()), reduce, () => 0);
    const seen = [];
    const stop = store.subscribe((next, previous) => seen.push([next.units, previous.units]));
    store.dispatch({ type: "set-units", units: "imperial" });
    store.dispatch({ type: "set-units", units: "imperial" });
    stop();
    store.dispatch({ type: "set-units", units: "metric" });
    assert.deepEqual(seen, [["imperial", "metric"]]);
  });

  it("refuses a dispatch inside a dispatch and works on afterwards", () => {
    const store = createStore(initialState(sample()), reduce, () => 0);
    const stop = store.subscribe(() => store.dispatch({ type: "undo" }));
    assert.throws(() => store.dispatch({ type: "set-snap", snap: false }), /"undo" inside a dispatch/);
    stop();
    store.dispatch({ type: "set-units", units: "imperial" });
    assert.deepEqual([store.get().snap, store.get().units], [false, "imperial"]);
  });
});
