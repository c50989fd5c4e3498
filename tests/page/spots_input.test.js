import assert from "node:assert/strict";
import { describe, it } from "node:test";
import { attachInput } from "../../www/input/attach.js";
import { watchHeld } from "../../www/input/held.js";
import { initialState, reduce } from "../../www/model/reduce.js";
import { createStore } from "../../www/model/store.js";
import { sample } from "./support.js";
import { fakePage } from "./support_dom.js";

/** The floor lies from x = 0 to 400 px, the front wall above y = 0; a hundred pixels to the metre. */
function locate({ clientX, clientY }) {
  if (clientY < 0) return { surface: "front", u_m: clientX / 100, v_m: -clientY / 100, metresPerPixel: 0.01 };
  return clientY > 600 ? null : { surface: "floor", u_m: clientX / 100, v_m: clientY / 100, metresPerPixel: 0.01 };
}

function setUp() {
  const page = fakePage();
  const store = createStore(initialState(sample()), reduce, () => 0);
  const edited = [];
  attachInput(page.root, { dispatch: store.dispatch, getState: store.get, locate, findKind: () => null, now: () => 1, editNumbers: (index) => edited.push(index) });
  const pointer = (type, target, clientX, clientY) => page.fire(type, target,
    { pointerId: 1, isPrimary: true, button: 0, buttons: type === "pointerup" ? 0 : 1, pointerType: "mouse", clientX, clientY, ctrlKey: false, metaKey: false });
  const key = (name, target) => page.fire("keydown", target, { key: name, shiftKey: false, ctrlKey: false, metaKey: false, altKey: false });
  return { ...page, store, edited, pointer, key };
}

describe("loudspeakers and seat on the drawing", () => {
  it("are selected by a press and moved by a drag, in one step", () => {
    const { element, pointer, store } = setUp();
    const target = element({ "data-loudspeaker": "1" });
    pointer("pointerdown", target, 300, 100);
    assert.deepEqual([store.get().spot, store.get().history.past.length], [1, 0]);
    for (const x of [310, 330, 350]) pointer("pointermove", target, x, 120);
    pointer("pointerup", target, 350, 120);
    assert.deepEqual(store.get().document.listening.loudspeakers[1], { x_m: 3.5, y_m: 1.2, z_m: 1 });
    assert.deepEqual(store.get().history.past.map(({ label }) => label), ["move loudspeaker 2"]);
  });

  it("go to the foot of a wall when the pointer leaves the floor over it, and stay when it leaves the room", () => {
    const { element, pointer, store } = setUp();
    const target = element({ "data-seat": "" });
    pointer("pointerdown", target, 200, 400);
    pointer("pointermove", target, 150, -80);
    assert.deepEqual(store.get().document.listening.seat, { x_m: 1.5, y_m: 0.1, z_m: 1.1 });
    pointer("pointermove", target, 150, 900);
    assert.equal(store.get().document.listening.seat.y_m, 0.1);
  });

  it("are put back by Escape", () => {
    const { element, pointer, key, store } = setUp();
    const before = store.get().document;
    const target = element({ "data-seat": "" });
    pointer("pointerdown", target, 200, 400);
    pointer("pointermove", target, 200, 300);
    key("Escape", target);
    assert.equal(store.get().document, before);
  });

  it("stand where the floor is tapped after Move, to 5 cm, in one step", () => {
    const { root, element, fire, store } = setUp();
    const floor = element({});
    fire("pointerup", floor, { clientX: 123, clientY: 321 });
    assert.equal(store.get().history.past.length, 0);
    store.dispatch({ type: "await-tap", spot: 1 });
    fire("pointerup", root, { clientX: 123, clientY: 321 });
    fire("pointerup", floor, { clientX: 123, clientY: -20 });
    assert.equal(store.get().history.past.length, 0, "only on the floor");
    fire("pointerup", floor, { clientX: 123, clientY: 321 });
    fire("pointerup", floor, { clientX: 200, clientY: 200 });
    const { x_m, y_m } = store.get().document.listening.loudspeakers[1];
    assert.deepEqual([x_m.toFixed(6), y_m.toFixed(6)], ["1.250000", "3.200000"]);
    assert.deepEqual(store.get().history.past.map(({ label }) => label), ["move loudspeaker 2"]);
  });

  it("are selected by Enter, and F2 goes to their numbers", () => {
    const { element, key, store, edited } = setUp();
    assert.ok(key("Enter", element({ "data-seat": "" })).defaultPrevented);
    assert.equal(store.get().spot, "seat");
    key("F2", element({ "data-loudspeaker": "0" }));
    assert.deepEqual([store.get().spot, edited], [0, [null]]);
  });
});

describe("a pointer that is held", () => {
  function held() {
    const page = fakePage();
    const told = { pressed: 0, released: 0 };
    const isHeld = watchHeld(page.root, { pressed: () => { told.pressed += 1; }, released: () => { told.released += 1; } });
    return { ...page, isHeld, told };
  }

  it("is held from a press on the drawing until it is lifted, and says so once", () => {
    const { element, fire, isHeld, told, sheet } = held();
    fire("pointerdown", element({ "data-piece": "0" }));
    fire("pointerdown", sheet);
    assert.ok(isHeld());
    fire("pointermove", sheet, { buttons: 1 });
    assert.ok(isHeld());
    fire("pointerup", sheet);
    fire("pointerup", sheet);
    assert.ok(!isHeld());
    assert.deepEqual(told, { pressed: 1, released: 1 });
  });

  it("is not held by a press elsewhere, nor after a release that the browser swallowed", () => {
    const { element, fire, isHeld, told, root, sheet } = held();
    fire("pointerdown", element({}, root, "select"));
    assert.ok(!isHeld());
    fire("pointerdown", sheet);
    fire("pointermove", sheet, { buttons: 0 });
    assert.ok(!isHeld());
    assert.deepEqual(told, { pressed: 1, released: 1 });
  });

  it("is let go by a press elsewhere, whose end may come to nobody", () => {
    const { element, fire, isHeld, told, root, sheet } = held();
    fire("pointerdown", sheet);
    fire("pointerdown", element({}, root, "select"));
    assert.ok(!isHeld());
    assert.deepEqual(told, { pressed: 1, released: 1 });
  });
});
