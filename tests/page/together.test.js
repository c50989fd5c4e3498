import assert from "node:assert/strict";
import { describe, it } from "node:test";
import { initialState, reduce } from "../../www/model/reduce.js";
import { frozen, kind, piece, sample } from "./support.js";

/** @param {object[]} pieces @param {object} [more] */
const stateWith = (pieces, more = {}) => frozen(initialState(sample({ pieces, ...more }), { example: false }));
/** @param {object} state @param {...object} actions */
const after = (state, ...actions) => actions.reduce((one, action, step) => frozen(reduce(one, frozen(action), step * 1e4)), state);
const piecesOf = (state) => (state.drag?.document ?? state.document).plans[state.shown].pieces;
const three = () => stateWith([piece("left", 0.5, 0.6), piece("left", 2, 0.9), piece("left", 4.5, 0.3)]);
const select = (...indices) => [{ type: "select", index: indices[0] }, ...indices.slice(1).map((index) => ({ type: "select-also", index }))];

describe("several pieces selected", () => {
  it("are taken in one after the other, and out again", () => {
    const both = after(three(), ...select(0, 2));
    assert.deepEqual([both.selected, both.together], [0, [2]]);
    const first = after(both, { type: "select-also", index: 0 });
    assert.deepEqual([first.selected, first.together], [2, []]);
  });

  it("come into line with the first one, in one step", () => {
    const lined = after(three(), ...select(1, 0, 2), { type: "align-pieces", axis: "v", edge: "low" });
    assert.deepEqual(piecesOf(lined).map(({ v_m }) => v_m), [0.9, 0.9, 0.9]);
    assert.equal(lined.history.past.length, 1);
    assert.equal(lined.history.past[0].label, "low edges in line");
    assert.deepEqual([lined.selected, lined.together], [1, [0, 2]]);
  });

  it("come into line by their middles and high edges whatever their size", () => {
    const kit = [kind(), kind("low", 0.6, 0.4)];
    const two = stateWith([piece("left", 0.5, 1), piece("left", 3, 0.2, { kit: "low" })], { kit });
    const at = (edge) => piecesOf(after(two, ...select(0, 1), { type: "align-pieces", axis: "v", edge }))[1].v_m;
    assert.equal(at("middle"), 1.4);
    assert.equal(at("high"), 1.8);
  });

  it("stay all where they are if one has no place, with its reason", () => {
    const window = { role: "window", finish: "window", u_m: 4.4, v_m: 0.9, width_m: 1, height_m: 1 };
    const room = sample().room;
    const state = after(stateWith([piece("left", 0.5, 1.2), piece("left", 4.3, 0)], { room: { surfaces: { ...room.surfaces, left: { finish: "plaster-on-brick", parts: [{ ...window, v_m: 1.3 }] } } } }),
      ...select(0, 1), { type: "align-pieces", axis: "v", edge: "low" });
    assert.match(state.notice.text, /^Nothing moved: Thick soft, 100 mm \(2\): no free place here: the window is in the way\.$/);
    assert.equal(state.notice.tone, "problem");
    assert.equal(state.history.past.length, 0);
  });

  it("get equal gaps between the outer two", () => {
    const spread = after(three(), ...select(0, 1, 2), { type: "spread-pieces", axis: "u" });
    assert.deepEqual(piecesOf(spread).map(({ u_m }) => u_m), [0.5, 2.5, 4.5]);
    assert.equal(spread.history.past.length, 1);
    assert.match(after(three(), ...select(0, 1), { type: "spread-pieces", axis: "u" }).notice.text, /three pieces or more/);
  });

  it("move as one by a drag, and none further than all can", () => {
    const dragged = after(three(), ...select(0, 1), { type: "drag-start", index: 0, by: "pointer" }, { type: "drag-move", surface: "left", u_m: 0.9, v_m: 0.7, tolerance_m: 0 }, { type: "drag-end" });
    assert.deepEqual(piecesOf(dragged).map(({ u_m, v_m }) => [u_m, v_m]), [[0.9, 0.7], [2.4, 1], [4.5, 0.3]]);
    assert.equal(dragged.history.past.length, 1);
    assert.equal(dragged.history.past[0].label, "move 2 pieces");
    const stopped = after(three(), ...select(0, 1), { type: "drag-start", index: 0, by: "pointer" }, { type: "drag-move", surface: "left", u_m: 2.5, v_m: 0.7, tolerance_m: 0 });
    assert.match(stopped.drag.reason, /^all stop: Thick soft, 100 mm \(2\): stops at/);
    assert.deepEqual(piecesOf(stopped).map(({ u_m }) => u_m), [0.5, 2, 4.5]);
  });

  it("move as one by arrow steps and go away as one", () => {
    const nudged = after(three(), ...select(0, 1), { type: "nudge-piece", index: 0, du_m: 0.01, dv_m: 0 });
    assert.deepEqual(piecesOf(nudged).map(({ u_m }) => u_m), [0.51, 2.01, 4.5]);
    const gone = after(nudged, { type: "remove-together" });
    assert.equal(piecesOf(gone).length, 1);
    assert.deepEqual([gone.selected, gone.together], [null, []]);
    assert.equal(piecesOf(after(gone, { type: "undo" })).length, 3);
  });
});

describe("copy and paste", () => {
  it("puts a copy beside the piece on its own surface, and at its place on another one", () => {
    const copied = after(three(), { type: "copy-pieces", index: 1 });
    assert.equal(copied.history.past.length, 0);
    const beside = after(copied, { type: "select", index: 1 }, { type: "paste-pieces" });
    assert.deepEqual(piecesOf(beside)[3], { ...piece("left", 2.6, 0.9) });
    const there = after(copied, { type: "paste-pieces", surface: "right" });
    assert.deepEqual(piecesOf(there)[3], piece("right", 2, 0.9));
    assert.equal(there.history.past[0].label, "paste Thick soft, 100 mm");
  });

  it("takes all that is selected, in one step, and into another room with its kind", () => {
    const copied = after(three(), ...select(0, 2), { type: "copy-pieces" });
    const pasted = after(copied, { type: "paste-pieces", surface: "back" });
    assert.equal(piecesOf(pasted).length, 5);
    assert.equal(pasted.history.past.length, 1);
    assert.deepEqual([pasted.selected, pasted.together], [3, [4]]);
    const elsewhere = after(copied, { type: "open-document", document: { ...sample({ kit: [kind("other")] }) }, from: "file" }, { type: "paste-pieces", surface: "left" });
    assert.deepEqual(elsewhere.document.kit.map(({ id }) => id), ["other", "thick"]);
    assert.equal(piecesOf(elsewhere).length, 2);
  });

  it("says so when nothing was copied", () => {
    assert.equal(after(three(), { type: "paste-pieces" }).notice.text, "Nothing is copied yet.");
  });
});

describe("the mirror lock", () => {
  const pair = (more = {}) => after(stateWith([piece("left", 2, 0.6), piece("right", 2, 0.6)], more), { type: "set-mirror-lock", on: true });
  const drag = (u_m, v_m) => [{ type: "drag-start", index: 0, by: "pointer" }, { type: "drag-move", surface: "left", u_m, v_m, tolerance_m: 0 }];

  it("moves the right one with the left one, as one step", () => {
    const moved = after(pair(), ...drag(3, 0.9), { type: "drag-end" });
    assert.deepEqual(piecesOf(moved), [piece("left", 3, 0.9), piece("right", 3, 0.9)]);
    assert.equal(moved.history.past.length, 1);
    assert.equal(moved.history.past[0].label, "move piece 1 and its mirror");
    assert.deepEqual(piecesOf(after(moved, { type: "undo" })), [piece("left", 2, 0.6), piece("right", 2, 0.6)]);
  });

  it("follows typed numbers and arrow steps", () => {
    assert.equal(piecesOf(after(pair(), { type: "set-piece", index: 1, u_m: 4 }))[0].u_m, 4);
    assert.equal(piecesOf(after(pair(), { type: "nudge-piece", index: 0, du_m: 0.01, dv_m: 0 }))[1].u_m, 2.01);
  });

  it("stops both where the right one is blocked, and says so", () => {
    const door = { role: "door", finish: "wooden-door", u_m: 3.5, v_m: 0, width_m: 0.9, height_m: 2 };
    const room = { surfaces: { ...sample().room.surfaces, right: { finish: "plaster-on-brick", parts: [door] } } };
    const stopped = after(pair({ room }), ...drag(3.2, 0.9));
    assert.match(stopped.drag.reason, /\(2\): stops at the door/);
    assert.deepEqual(piecesOf(stopped).map(({ u_m, v_m }) => [u_m, v_m]), [[2, 0.9], [2, 0.9]], "they still go up and down");
    assert.match(after(pair({ room }), { type: "set-piece", index: 0, u_m: 3.2 }).notice.text, /^All stay where they are: .*door/);
  });

  it("leaves a piece alone that has no twin, and does nothing while it is off", () => {
    const alone = after(stateWith([piece("left", 2, 0.6), piece("right", 2.5, 0.6)]), { type: "set-mirror-lock", on: true }, ...drag(3, 0.9), { type: "drag-end" });
    assert.deepEqual(piecesOf(alone).map(({ u_m }) => u_m), [3, 2.5]);
    const off = after(pair(), { type: "set-mirror-lock", on: false }, ...drag(3, 0.9), { type: "drag-end" });
    assert.deepEqual(piecesOf(off).map(({ u_m }) => u_m), [3, 2]);
  });

  it("knows the other side on the ceiling, in corners and on feet", () => {
    const kit = [kind(), kind("column", 0.4, 1.2, { stands: "corner" }), kind("screen", 0.8, 1.5, { stands: "stand" })];
    const pieces = [
      piece("ceiling", 0.5, 2), piece("ceiling", 2.9, 2),
      { kit: "column", place: "corner", edge: "front-left", z_m: 0 }, { kit: "column", place: "corner", edge: "front-right", z_m: 0 },
      { kit: "screen", place: "stand", x_m: 0.8, y_m: 4, z_m: 0.05, turn_deg: 30 }, { kit: "screen", place: "stand", x_m: 3.2, y_m: 4, z_m: 0.05, turn_deg: -30 },
    ];
    const state = after(stateWith(pieces, { kit }), { type: "set-mirror-lock", on: true });
    assert.equal(piecesOf(after(state, { type: "set-piece", index: 0, u_m: 0.7 }))[1].u_m, 2.7);
    assert.equal(piecesOf(after(state, { type: "set-piece", index: 2, v_m: 0.3 }))[3].z_m, 0.3);
    const moved = piecesOf(after(state, { type: "set-piece", index: 4, x_m: 1 }))[5];
    assert.ok(Math.abs(moved.x_m - 3) < 1e-3, `${moved.x_m}`);
  });
});

describe("typed numbers and steps", () => {
  it("say what a piece is in line with, and do not hold at it", () => {
    const said = after(three(), { type: "set-piece", index: 0, v_m: 0.9 });
    assert.match(said.notice.text, /^In line with Thick soft, 100 mm/);
    assert.equal(piecesOf(after(three(), { type: "set-piece", index: 0, v_m: 0.896 }))[0].v_m, 0.896);
  });
});

describe("corners to drag", () => {
  const kit = [kind("column", 0.4, 1.2, { stands: "corner" }), kind("screen", 0.8, 1.5, { stands: "stand" }), kind("cloth", 2, 2.2, { stands: "curtain" })];
  const resized = (one, corner, u_m, v_m) => after(stateWith([one], { kit }), { type: "resize-start", index: 0 }, { type: "resize-move", corner, u_m, v_m, tolerance_m: 0 }, { type: "drag-end" });
  const kindIn = (state) => state.document.kit.find(({ id }) => id === piecesOf(state)[0].kit);

  it("make a corner piece taller and wider", () => {
    const column = { kit: "column", place: "corner", edge: "front-left", z_m: 0.2 };
    const taller = resized(column, "++", 0.28284271, 2);
    assert.equal(kindIn(taller).height_m, 1.8);
    assert.equal(piecesOf(taller)[0].z_m, 0.2);
    assert.equal(taller.history.past[0].label, "resize piece 1");
    const lower = resized(column, "+-", 0.28284271, 0.5);
    assert.equal(kindIn(lower).height_m, 0.9);
    assert.equal(piecesOf(lower)[0].z_m, 0.5);
    assert.ok(Math.abs(kindIn(resized(column, "++", 0.4, 1.4)).width_m - 0.566) < 1e-9);
  });

  it("make a screen longer at one end while the other stays", () => {
    const longer = resized({ kit: "screen", place: "stand", x_m: 2, y_m: 3, z_m: 0.05, turn_deg: 0 }, "++", 2.8, 3);
    assert.equal(kindIn(longer).width_m, 1.2);
    assert.equal(piecesOf(longer)[0].x_m, 2.2);
  });

  it("make a curtain wider", () => {
    const wider = resized({ kit: "cloth", place: "curtain", surface: "back", u_m: 0.5, v_m: 0.1, open: 0 }, "++", 3.2, 2.3);
    assert.equal(kindIn(wider).width_m, 2.7);
    assert.equal(piecesOf(wider)[0].place, "curtain");
  });

  it("stop a corner piece at a door on its other wall", () => {
    const door = { role: "door", finish: "wooden-door", u_m: 0.35, v_m: 0, width_m: 0.9, height_m: 2 };
    const room = { surfaces: { ...sample().room.surfaces, front: { finish: "plaster-on-brick", parts: [door] } } };
    const state = after(stateWith([{ kit: "column", place: "corner", edge: "front-left", z_m: 0.2 }], { kit, room }), { type: "resize-start", index: 0 },
      { type: "resize-move", corner: "++", u_m: 0.6, v_m: 1.4, tolerance_m: 0 });
    assert.match(state.drag.reason, /door/);
    assert.equal(after(state, { type: "drag-end" }).history.past.length, 0);
  });
});

describe("air and own things", () => {
  it("takes temperature and humidity within what the core takes", () => {
    const warm = after(three(), { type: "set-air", key: "temperature_c", value: 26 });
    assert.equal(warm.document.room.temperature_c, 26);
    assert.equal(after(warm, { type: "set-air", key: "temperature_c", value: null }).document.room.temperature_c, undefined);
    assert.match(after(three(), { type: "set-air", key: "humidity_percent", value: 2 }).notice.text, /from 5 to 100 %/);
    assert.match(after(three(), { type: "set-air", key: "temperature_c", value: Number.NaN }).notice.text, /from -10 to 45/);
  });

  it("adds a thing with own values, changes and removes it with what stands of it", () => {
    const added = after(three(), { type: "set-own-furnishing", id: null });
    assert.equal(added.history.past.length, 1);
    assert.deepEqual(added.document.room.furnishings, [{ kind: "own-thing-1", count: 1 }]);
    const typed = after(added, { type: "set-own-furnishing", id: "own-thing-1", name: "Piano", values: [0.1, 0.2, 0.3, 0.4, 0.5, 0.6] });
    assert.deepEqual(typed.document.own_furnishings[0].absorption_area_m2, [0.1, 0.2, 0.3, 0.4, 0.5, 0.6]);
    assert.match(after(typed, { type: "set-own-furnishing", id: "own-thing-1", values: [-1, 0, 0, 0, 0, 0] }).notice.text, /from 0 to 50/);
    assert.match(after(typed, { type: "set-own-furnishing", id: "own-thing-1", surface_m2: 0 }).notice.text, /from 0.1 to 100/);
    const gone = after(typed, { type: "remove-own-furnishing", id: "own-thing-1" });
    assert.equal(gone.document.own_furnishings, undefined);
    assert.deepEqual(gone.document.room.furnishings, []);
  });
});
