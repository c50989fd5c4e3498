// Gestures at random, as they are dispatched: what was recorded, told again as plain text, leads to the same state.
import assert from "node:assert/strict";
import { describe, it } from "node:test";
import { initialState, reduce } from "../../www/model/reduce.js";
import { createStore } from "../../www/model/store.js";
import { between, frozen, kind, piece, sample, seeded } from "./support.js";

const SURFACES = ["left", "right", "front", "back", "ceiling"];
const GESTURES = 600;

/** One gesture: the actions that a hand makes, given up now and then. @param {() => number} random @param {object} state */
function anyGesture(random, state) {
  const some = (list) => list[Math.floor(random() * list.length)];
  const index = Math.floor(random() * Math.max(1, state.document.plans[state.shown].pieces.length));
  const end = { type: random() < 0.2 ? "drag-cancel" : "drag-end" };
  const moves = (type, more) => Array.from({ length: 1 + Math.floor(random() * 4) }, () => ({ type, ...more() }));
  const place = () => ({ surface: some(SURFACES), u_m: between(random, -0.5, 6), v_m: between(random, -0.5, 2.5), tolerance_m: some([0, 0.1]) });
  return some([
    () => [{ type: "drag-new", kit: kind(some(["thick", "thin"])), by: "pointer" }, ...moves("drag-move", place), end],
    () => [{ type: "drag-start", index, by: "pointer" }, ...moves("drag-move", place), end],
    () => [{ type: "resize-start", index }, ...moves("resize-move", () => ({ corner: some(["--", "+-", "-+", "++"]), u_m: between(random, 0, 5), v_m: between(random, 0, 2.5), tolerance_m: 0 })), end],
    () => [{ type: "nudge-piece", index, du_m: 0.01, dv_m: 0 }, { type: "nudge-piece", index, du_m: 0.01, dv_m: 0 }],
    () => [{ type: some(["mirror-piece", "duplicate-piece", "remove-piece"]), index }],
    () => [{ type: "move-seat", to: { y_m: between(random, 2, 5) }, gesture: "g" }, { type: "move-seat", to: { x_m: between(random, 1, 3) }, gesture: "g" }],
    () => [{ type: "set-room", width_m: between(random, 3, 6) }],
    () => [{ type: "undo" }], () => [{ type: "undo" }], () => [{ type: "redo" }],
    () => [{ type: "open-document", document: { ...sample({ pieces: [piece("left", 1, 1)] }), title: some(["One", "Two"]) }, from: "link", link: "1.abc" }, { type: some(["use-this", "keep-mine"]) }],
    () => [{ type: "show-plan", index: some([0, 1]) }, { type: "show-plan", index: 1 }],
  ])();
}

/** All but the identities of rooms, which are objects of their own. */
const told = ({ document, shown, history, drag, selected, visiting, readOnly }) => structuredClone({ document, shown, history: bare(history), drag, selected, visiting: visiting && { ...visiting, home: null }, readOnly });
const bare = ({ past, future }) => [past, future].map((steps) => steps.map(({ label, document, shown }) => ({ label, document, shown })));

describe("random gestures", () => {
  for (const seed of [1, 2, 3]) {
    it(`lead to the same state when their actions are played again (seed ${seed})`, () => {
      const random = seeded(seed);
      const start = () => initialState(sample({ pieces: [piece("left", 1, 1), piece("right", 2, 1)], kit: [kind(), kind("thin")] }), { example: false });
      const recorded = [];
      let now_ms = 0;
      const store = createStore(start(), (state, action, at_ms) => {
        recorded.push({ at_ms, action: JSON.stringify(action) });
        return reduce(state, action, at_ms);
      }, () => now_ms);
      for (let count = 0; count < GESTURES; count += 1) {
        for (const action of anyGesture(random, store.get())) {
          now_ms += Math.floor(random() * 1500);
          store.dispatch(action);
        }
      }
      let state = frozen(start());
      for (const { at_ms, action } of recorded) state = reduce(state, frozen(JSON.parse(action)), at_ms);
      assert.ok(recorded.length > GESTURES && store.get().history.past.length > 10, `${recorded.length} actions, ${store.get().history.past.length} steps`);
      assert.deepEqual(told(state), told(store.get()));
      const steps = state.history.past.length;
      for (let back = 0; back < steps; back += 1) state = reduce(state, { type: "undo" }, now_ms);
      assert.equal(state.history.past.length, 0);
      for (let on = 0; on < steps; on += 1) state = reduce(state, { type: "redo" }, now_ms);
      assert.deepEqual(state.document, store.get().document, "back to the start and on again");
    });
  }
});
