import assert from "node:assert/strict";
import { describe, it } from "node:test";
import { attachInput } from "../../www/input/attach.js";
import { arrowStep } from "../../www/input/steps.js";
import { initialState, onSheet, reduce } from "../../www/model/reduce.js";
import { createStore } from "../../www/model/store.js";
import { kind, piece, sample } from "./support.js";
import { fakePage } from "./support_dom.js";

/** A page on which 100 px are a metre of the left wall; the floor lies below y 1000, nothing is right of x 900. */
function setUp(changes = { pieces: [piece("left", 1, 1)] }) {
  const page = fakePage();
  let clock = 0;
  const store = createStore(initialState(sample(changes), { example: false }), reduce, () => (clock += 10000));
  const actions = [];
  const dispatch = (action) => {
    actions.push(action.type);
    store.dispatch(action);
  };
  const locate = ({ clientX, clientY }) => {
    if (clientX > 900) return null;
    return { surface: clientY > 1000 ? "floor" : "left", u_m: clientX / 100, v_m: (clientY % 1000) / 100, metresPerPixel: 0.01 };
  };
  const edited = [];
  const detach = attachInput(page.root, {
    dispatch, getState: store.get, locate, findKind: (id) => (id === "thin" ? kind("thin", 0.4, 0.4) : null),
    now: () => clock, editNumbers: (index) => edited.push(index),
  });
  const pointer = (type, target, clientX, clientY, more = {}) => page.fire(type, target,
    { pointerId: 1, isPrimary: true, button: 0, pointerType: "mouse", clientX, clientY, ctrlKey: false, metaKey: false, ...more });
  const key = (name, target, more = {}) => page.fire("keydown", target, { key: name, shiftKey: false, ctrlKey: false, metaKey: false, altKey: false, ...more });
  return { ...page, store, actions, edited, pointer, key, detach, pieces: () => store.get().document.plans[1].pieces };
}

describe("dragging with a pointer", () => {
  it("keeps the grab offset and snaps within ten pixels", () => {
    const { element, pointer, pieces, root } = setUp();
    const target = element({ "data-piece": "0" });
    pointer("pointerdown", target, 117, 111);
    pointer("pointermove", target, 250, 111, { ctrlKey: true });
    assert.ok(root.hasPointerCapture(1));
    pointer("pointerup", target, 250, 111);
    assert.deepEqual(pieces(), [piece("left", 2.33, 1)]);
    assert.ok(!root.hasPointerCapture(1));
  });

  it("starts after 4 px with a mouse and 8 px with a finger", () => {
    for (const [pointerType, startPx] of [["mouse", 4], ["touch", 8]]) {
      const { element, pointer, store } = setUp();
      const target = element({ "data-piece": "0" });
      pointer("pointerdown", target, 120, 120, { pointerType });
      pointer("pointermove", target, 120 + startPx - 1, 120, { pointerType });
      assert.equal(store.get().drag, null);
      pointer("pointermove", target, 120 + startPx, 120, { pointerType });
      assert.equal(store.get().drag.kind, "move");
    }
  });

  it("only selects when it does not move", () => {
    const { element, pointer, store } = setUp();
    const target = element({ "data-piece": "0" });
    pointer("pointerdown", target, 120, 120);
    pointer("pointerup", target, 121, 120);
    assert.deepEqual([store.get().selected, store.get().history.past.length], [0, 0]);
  });

  const ends = {
    "Escape": ({ key, sheet }) => key("Escape", sheet),
    "a second finger": ({ pointer, sheet }) => pointer("pointerdown", sheet, 1, 1, { pointerId: 2, isPrimary: false }),
    "a cancelled pointer": ({ pointer, sheet }) => pointer("pointercancel", sheet, 1, 1),
    "a lost window": ({ fire, sheet }) => fire("blur", sheet),
  };
  for (const [name, act] of Object.entries(ends)) {
    it(`is put back by ${name}, and later moves do nothing`, () => {
      const page = setUp();
      const before = page.store.get().document;
      const target = page.element({ "data-piece": "0" });
      page.pointer("pointerdown", target, 120, 120);
      page.pointer("pointermove", target, 300, 120);
      assert.ok(page.store.get().drag);
      act(page);
      page.pointer("pointermove", target, 400, 120);
      page.pointer("pointerup", target, 400, 120);
      assert.equal(page.store.get().drag, null);
      assert.equal(page.store.get().document, before);
    });
  }

  it("brings a piece from the shelf, held by its middle, and gives it up beside the room", () => {
    const { element, pointer, pieces, store, root } = setUp({});
    const card = element({ "data-kind": "thin" }, root);
    pointer("pointerdown", card, 950, 10);
    pointer("pointermove", card, 940, 10);
    assert.deepEqual([store.get().drag.kind, store.get().drag.over], ["new", false]);
    pointer("pointermove", card, 300, 100, { ctrlKey: true });
    pointer("pointerup", card, 300, 100);
    assert.deepEqual(pieces(), [{ kit: "thin", surface: "left", u_m: 2.8, v_m: 0.8 }]);
    pointer("pointerdown", card, 950, 10);
    pointer("pointermove", card, 940, 10);
    pointer("pointerup", card, 940, 10);
    assert.equal(pieces().length, 1);
  });

  it("resizes by a grip", () => {
    const { element, pointer, pieces, store } = setUp();
    const grip = element({ "data-grip": "++" }, element({ "data-piece": "0" }));
    pointer("pointerdown", grip, 162, 221);
    pointer("pointermove", grip, 182, 221, { ctrlKey: true });
    pointer("pointerup", grip, 182, 221);
    assert.equal(pieces()[0].kit, "thick~800x1200");
    assert.equal(store.get().history.past.at(-1).label, "resize piece 1");
  });

  it("moves a loudspeaker over the floor as one step, and Escape takes it back", () => {
    const { element, pointer, key, store, sheet } = setUp();
    const target = element({ "data-loudspeaker": "0" });
    const before = store.get().document;
    pointer("pointerdown", target, 105, 1105);
    pointer("pointermove", target, 125, 1105);
    pointer("pointermove", target, 135, 1125);
    assert.deepEqual(store.get().document.listening.loudspeakers[0], { x_m: 1.3, y_m: 1.2, z_m: 1 });
    assert.equal(store.get().history.past.length, 1);
    key("Escape", sheet);
    assert.equal(store.get().document, before);
  });

  it("leaves other buttons and empty places alone, and stops when detached", () => {
    const { element, pointer, sheet, actions, detach } = setUp();
    pointer("pointerdown", element({ "data-piece": "0" }), 120, 120, { button: 2 });
    pointer("pointerdown", sheet, 120, 120);
    pointer("pointermove", sheet, 300, 120);
    detach();
    pointer("pointerdown", element({ "data-piece": "0" }), 120, 120);
    assert.deepEqual(actions, []);
  });
});

describe("taps", () => {
  it("land what was picked on a numbered place or anywhere", () => {
    const page = setUp({});
    page.store.dispatch({ type: "pick", kit: kind("thin", 0.4, 0.4), index: null });
    const [place] = page.store.get().picked.places;
    page.fire("click", page.element({ "data-landing": "0" }), { clientX: 0, clientY: 0 });
    assert.deepEqual(page.pieces(), [{ kit: "thin", surface: place.surface, u_m: place.u_m, v_m: place.v_m }]);
    page.store.dispatch({ type: "pick", kit: kind("thin", 0.4, 0.4), index: null });
    page.fire("click", page.sheet, { clientX: 520, clientY: 120 });
    assert.deepEqual(page.pieces()[1], { kit: "thin", surface: "left", u_m: 5, v_m: 1 });
  });

  it("mean nothing when nothing is picked", () => {
    const page = setUp();
    page.fire("click", page.sheet, { clientX: 520, clientY: 120 });
    assert.deepEqual(page.actions, []);
  });
});

describe("keys", () => {
  it("move a piece in steps of 1 and 10 cm and place it", () => {
    const { element, key, pieces, store } = setUp();
    const target = element({ "data-piece": "0" });
    key("Enter", target);
    assert.equal(store.get().drag.by, "keys");
    key("ArrowRight", target);
    key("ArrowRight", target, { shiftKey: true });
    key("ArrowUp", target);
    assert.equal(store.get().history.past.length, 0);
    key("Enter", target);
    assert.deepEqual(pieces(), [piece("left", 1.11, 1.01)]);
    assert.equal(store.get().history.past.length, 1);
  });

  it("give the same place as the pointer to 1 mm", () => {
    const byKeys = setUp();
    const target = byKeys.element({ "data-piece": "0" });
    byKeys.key(" ", target);
    for (let i = 0; i < 12; i += 1) byKeys.key("ArrowRight", target, { shiftKey: true });
    byKeys.key("Enter", target);
    const byPointer = setUp();
    byPointer.pointer("pointerdown", byPointer.element({ "data-piece": "0" }), 120, 120);
    byPointer.pointer("pointermove", byPointer.sheet, 240, 120, { ctrlKey: true });
    byPointer.pointer("pointerup", byPointer.sheet, 240, 120);
    assert.ok(Math.abs(byKeys.pieces()[0].u_m - byPointer.pieces()[0].u_m) < 1e-3);
  });

  it("put a piece back with Escape", () => {
    const { element, key, store } = setUp();
    const before = store.get().document;
    const target = element({ "data-piece": "0" });
    for (const name of ["Enter", "ArrowRight", "Escape"]) key(name, target);
    assert.deepEqual([store.get().document, store.get().drag], [before, null]);
  });

  it("lead past an obstacle with enough steps, and turn back at once", () => {
    const { element, key, store } = setUp({ pieces: [piece("left", 1, 1), piece("left", 1.7, 1)] });
    const target = element({ "data-piece": "0" });
    const at = () => onSheet(store.get()).plans[1].pieces[0].u_m;
    key("Enter", target);
    key("ArrowRight", target, { shiftKey: true });
    key("ArrowRight", target, { shiftKey: true });
    assert.equal(at(), 1.1);
    key("ArrowLeft", target);
    assert.ok(Math.abs(at() - 1.09) < 1e-9);
    for (let i = 0; i < 13; i += 1) key("ArrowRight", target, { shiftKey: true });
    assert.ok(at() >= 2.3, `at ${at()}`);
  });

  it("carry a piece to the next surface", () => {
    const { element, key, pieces } = setUp();
    const target = element({ "data-piece": "0" });
    for (const name of ["Enter", "PageDown", "Enter"]) key(name, target);
    assert.equal(pieces()[0].surface, "right");
  });

  it("walk through items and surfaces", () => {
    const { element, key, store } = setUp({ pieces: [piece("left", 1, 1), piece("back", 1, 1), piece("left", 3, 1)] });
    const press = (name, index) => {
      key(name, element({ "data-piece": String(index) }));
      return [store.get().surface, store.get().selected];
    };
    assert.deepEqual(press("ArrowRight", 0), ["left", 2]);
    assert.deepEqual(press("ArrowRight", 2), ["left", 2]);
    assert.deepEqual(press("Home", 2), ["left", 0]);
    assert.deepEqual(press("End", 0), ["left", 2]);
    assert.deepEqual(press("PageUp", 2), ["ceiling", null]);
    store.dispatch({ type: "face", surface: "front" });
    assert.deepEqual(press("PageDown", 2), ["back", 1]);
  });

  it("delete, open the numbers, copy and paste", () => {
    const { element, key, pieces, edited, store } = setUp();
    const target = element({ "data-piece": "0" });
    key("F2", target);
    key("c", target, { ctrlKey: true });
    store.dispatch({ type: "face", surface: "right" });
    key("v", target, { ctrlKey: true });
    assert.deepEqual([edited, pieces()], [[0], [piece("left", 1, 1), piece("right", 1, 1)]]);
    key("Delete", target);
    assert.deepEqual(pieces(), [piece("right", 1, 1)]);
  });

  it("undo and redo anywhere but where one types", () => {
    const { element, key, actions, root } = setUp();
    const field = element({ type: "text" }, root, "input");
    assert.equal(key("z", field, { ctrlKey: true }).defaultPrevented, false);
    const box = element({ type: "checkbox" }, root, "input");
    key("z", box, { ctrlKey: true });
    key("Z", root, { metaKey: true, shiftKey: true });
    key("y", root, { ctrlKey: true });
    assert.deepEqual(actions, ["undo", "redo", "redo"]);
  });

  it("leave single letters, browser keys and other regions alone", () => {
    const { element, key, actions, root } = setUp();
    const target = element({ "data-piece": "0" });
    const left = [key("a", target), key("ArrowLeft", target, { altKey: true }), key("ArrowLeft", target, { ctrlKey: true }), key("d", target, { ctrlKey: true }),
      key("Delete", element({ "data-piece": "0" }, root)), key("Tab", target)];
    assert.deepEqual(left.map((event) => event.defaultPrevented), left.map(() => false));
    assert.deepEqual(actions, []);
  });

  it("take half inches in imperial, and the axis that lies in the arrow's direction", () => {
    assert.deepEqual(arrowStep("ArrowRight", false, "imperial", "left"), { du_m: 0.0127, dv_m: 0 });
    assert.deepEqual(arrowStep("ArrowUp", true, "imperial", "left"), { du_m: 0, dv_m: 0.1016 });
    assert.deepEqual(arrowStep("ArrowDown", false, "metric", "floor"), { du_m: 0, dv_m: 0.01 });
    // A wall folded flat beside the plan: u runs down the screen, v to the left.
    const folded = { ux: 0, uy: 80, vx: -80, vy: 0 };
    assert.deepEqual(arrowStep("ArrowDown", false, "metric", "left", folded), { du_m: 0.01, dv_m: 0 });
    assert.deepEqual(arrowStep("ArrowRight", false, "metric", "left", folded), { du_m: 0, dv_m: -0.01 });
    assert.equal(arrowStep("a", false, "metric", "left"), null);
  });
});
