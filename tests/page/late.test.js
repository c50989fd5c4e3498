import assert from "node:assert/strict";
import { describe, it } from "node:test";
import { differencesFor, missingRanges, rangesFor, sameRoom } from "../../www/model/late.js";
import { initialState, reduce } from "../../www/model/reduce.js";
import { bassReport, rangesOf } from "./fixtures.js";
import { frozen, piece, sample } from "./support.js";

const first = () => frozen(initialState(sample({ pieces: [piece("left", 1, 1)] })));
const came = (state, plan, ranges, document = state.document) => frozen(reduce(state, { type: "ranges-came", document, plan, ranges }, 0));
const moved = (state) => frozen(reduce(state, { type: "nudge-piece", index: 0, du_m: 0.1, dv_m: 0 }, 0));

describe("ranges that come late", () => {
  it("are kept with their document and plan", () => {
    const ranges = rangesOf();
    const state = came(first(), 1, ranges);
    assert.equal(rangesFor(state.late, state.document, 1), ranges);
    assert.equal(rangesFor(state.late, state.document, 0), undefined);
    assert.deepEqual(missingRanges(state), [0]);
    assert.deepEqual(missingRanges(came(state, 0, rangesOf())), []);
  });

  it("are never shown with another document, even one that is undone back to", () => {
    const state = came(first(), 1, rangesOf());
    const next = moved(state);
    assert.notEqual(next.document, state.document);
    assert.equal(rangesFor(next.late, next.document, 1), undefined);
    assert.deepEqual(missingRanges(next), [1, 0]);
    const over = came(next, 1, rangesOf(0.4));
    const back = frozen(reduce(over, { type: "undo" }, 0));
    assert.equal(rangesFor(back.late, back.document, 1), undefined);
  });

  it("are dropped if the document has changed since", () => {
    const state = first();
    const next = moved(state);
    assert.equal(came(next, 1, rangesOf(), state.document), next);
  });

  it("of the room as it is stay while all that it rests on stays", () => {
    const today = rangesOf(0.9, 0, { differences: [{ from: "A", to: "Now", mid_s: 0.4, low_s: 0.3, high_s: 0.5 }] });
    const state = came(came(first(), 1, rangesOf()), 0, today);
    const next = moved(state);
    assert.equal(rangesFor(next.late, next.document, 0), today, "a piece moved in plan A");
    const again = came(next, 1, rangesOf(0.45));
    assert.equal(rangesFor(again.late, again.document, 0), today);
    assert.deepEqual(differencesFor(again.late, again.document), [], "the difference is of the earlier plan A");
    assert.deepEqual(missingRanges(again), [0]);
    for (const change of [{ type: "move-seat", to: { y_m: 3 } }, { type: "set-goal", goal: { taste: "focused" } }, { type: "set-finish", surface: "left", finish: "window" }]) {
      const other = reduce(state, change, 0);
      assert.equal(rangesFor(other.late, other.document, 0), undefined, change.type);
    }
  });

  it("that failed are known as failed", () => {
    const state = came(first(), 1, null);
    assert.equal(rangesFor(state.late, state.document, 1), null);
    assert.deepEqual(missingRanges(state), [0]);
  });

  it("neither end a drag nor enter the history", () => {
    const dragging = frozen(reduce(first(), { type: "drag-start", index: 0, by: "keys" }, 0));
    const state = came(dragging, 1, rangesOf());
    assert.ok(state.drag);
    assert.equal(state.history, dragging.history);
    const bass = reduce(dragging, { type: "bass-came", document: dragging.document, plan: 1, bass: bassReport() }, 0);
    assert.ok(bass.drag && bass.bass?.bass);
  });
});

describe("bass that comes late", () => {
  it("carries the document it belongs to, and is dropped for another", () => {
    const state = first();
    const bass = bassReport();
    const with_bass = reduce(state, { type: "bass-came", document: state.document, plan: 1, bass }, 0);
    assert.deepEqual([with_bass.bass.document === state.document, with_bass.bass.plan, with_bass.bass.bass === bass], [true, 1, true]);
    assert.equal(reduce(state, { type: "bass-came", document: sample(), plan: 1, bass }, 0), state);
  });
});

describe("the same room", () => {
  it("is told by what the report of the first plan rests on", () => {
    const a = sample();
    assert.ok(sameRoom(a, { ...a, plans: [a.plans[0], { name: "B", pieces: [] }], title: "x" }));
    assert.ok(!sameRoom(a, { ...a, room: { ...a.room } }));
  });
});
