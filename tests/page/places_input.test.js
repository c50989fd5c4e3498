// Corner pieces, stands, curtains and furniture under pointer, touch and keys.
import assert from "node:assert/strict";
import { describe, it } from "node:test";
import { attachInput } from "../../www/input/attach.js";
import { initialState, reduce } from "../../www/model/reduce.js";
import { createStore } from "../../www/model/store.js";
import { kind, sample } from "./support.js";
import { fakePage } from "./support_dom.js";

const KINDS = [kind("corner", 0.6, 1.2, { stands: "corner" }), kind("screen", 0.8, 1.8, { stands: "stand" }), kind("curtain", 1.5, 2.3, { stands: "curtain" })];
const SOFA = { kind: "sofa-fabric", count: 1, at: { x_m: 1, y_m: 4.5, width_m: 2, depth_m: 0.9, height_m: 0.8 } };

/** The left wall stands left of x = 0 with its height to the left, the floor right of it; a hundred pixels to the metre. */
function locate({ clientX, clientY }) {
  if (clientX < 0) return { surface: "left", u_m: clientY / 100, v_m: -clientX / 100, metresPerPixel: 0.01 };
  return { surface: "floor", u_m: clientX / 100, v_m: clientY / 100, metresPerPixel: 0.01 };
}

/** @param {object[]} pieces @param {"mouse"|"touch"} pointerType */
function setUp(pieces = [], pointerType = "mouse") {
  const page = fakePage();
  const document = sample({ kit: [kind(), ...KINDS], pieces, room: { furnishings: [SOFA] } });
  const store = createStore({ ...initialState(document), snap: false }, reduce, () => 0);
  attachInput(page.root, { dispatch: store.dispatch, getState: store.get, locate, findKind: (id) => KINDS.find((one) => one.id === id) ?? null, now: () => 1 });
  const pointer = (type, target, clientX, clientY) => page.fire(type, target,
    { pointerId: 1, isPrimary: true, button: 0, buttons: type === "pointerup" ? 0 : 1, pointerType, clientX, clientY, ctrlKey: false, metaKey: false });
  const key = (name, target, more = {}) => page.fire("keydown", target, { key: name, shiftKey: false, ctrlKey: false, metaKey: false, altKey: false, ...more });
  const pulled = (target, from, to) => {
    pointer("pointerdown", target, ...from);
    for (const share of [0.3, 0.6, 1]) pointer("pointermove", target, from[0] + share * (to[0] - from[0]), from[1] + share * (to[1] - from[1]));
    pointer("pointerup", target, ...to);
  };
  return { ...page, store, pulled, key, pieces: () => store.get().document.plans[1].pieces, steps: () => store.get().history.past.length };
}

for (const pointerType of /** @type {const} */ (["mouse", "touch"])) {
  describe(`pieces of every place by ${pointerType}`, () => {
    it("come from the shelf and are held by their middle", () => {
      const { element, root, pulled, pieces } = setUp([], pointerType);
      pulled(element({ "data-kind": "screen" }, root), [500, 700], [250, 250]);
      pulled(element({ "data-kind": "corner" }, root), [500, 700], [-60, 590]);
      pulled(element({ "data-kind": "curtain" }, root), [500, 700], [-115, 200]);
      assert.deepEqual(pieces(), [
        { kit: "screen", place: "stand", x_m: 2.5, y_m: 2.5, z_m: 0.05, turn_deg: 0 },
        { kit: "corner", place: "corner", edge: "back-left", z_m: 0 },
        { kit: "curtain", place: "curtain", surface: "left", u_m: 1.25, v_m: 0, open: 0 },
      ]);
    });

    it("are moved from where they were taken hold of", () => {
      const { element, pulled, pieces, steps } = setUp([{ kit: "screen", place: "stand", x_m: 2, y_m: 2, z_m: 0.05, turn_deg: 90 }], pointerType);
      pulled(element({ "data-piece": "0" }), [205, 230], [305, 280]);
      assert.deepEqual(pieces(), [{ kit: "screen", place: "stand", x_m: 3, y_m: 2.5, z_m: 0.05, turn_deg: 90 }]);
      assert.equal(steps(), 1);
    });

    it("and furniture is moved over the floor in one step, up to what stands there", () => {
      const { element, pulled, store, steps } = setUp([], pointerType);
      pulled(element({ "data-furnishing": "0" }), [150, 480], [200, 530]);
      assert.deepEqual(store.get().document.room.furnishings[0].at, { ...SOFA.at, x_m: 1.5, y_m: 5 });
      assert.equal(steps(), 1);
    });
  });
}

describe("pieces of every place by keys", () => {
  it("move in steps after Enter and are put back by Escape", () => {
    const stand = { kit: "screen", place: "stand", x_m: 2, y_m: 2, z_m: 0.05, turn_deg: 0 };
    const { element, key, pieces } = setUp([stand]);
    const target = element({ "data-piece": "0" });
    for (const name of ["Enter", "ArrowRight", "ArrowRight", "Enter"]) key(name, target);
    assert.equal(pieces()[0].x_m, 2.02);
    for (const name of ["Enter", "ArrowRight", "Escape"]) key(name, target);
    assert.equal(pieces()[0].x_m, 2.02);
  });

  it("go up and down their corner", () => {
    const { element, key, pieces } = setUp([{ kit: "corner", place: "corner", edge: "front-left", z_m: 0.5 }]);
    const target = element({ "data-piece": "0" });
    key("Enter", target);
    key("ArrowUp", target, { shiftKey: true });
    key("Enter", target);
    assert.equal(pieces()[0].z_m, 0.6);
  });

  it("and furniture moves by arrows", () => {
    const { element, key, store } = setUp();
    key("ArrowRight", element({ "data-furnishing": "0" }), { shiftKey: true });
    assert.equal(store.get().document.room.furnishings[0].at.x_m, 1.1);
  });
});
