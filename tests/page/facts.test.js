// Room facts: doors, windows, zones, own finishes, furniture, limits and conditions, each change one step of the history.
import assert from "node:assert/strict";
import { describe, it } from "node:test";
import { initialState, reduce } from "../../www/model/reduce.js";
import { defaultMargin } from "../../www/model/parts.js";
import { frozen, piece, sample } from "./support.js";

const DOOR = { role: "door", finish: "wooden-door", u_m: 1, v_m: 0, width_m: 0.8, height_m: 2, swing_m: 0.8 };

/** @param {object} [changes] */
const start = (changes) => initialState(frozen(sample(changes)));
/** @param {object} state @param {...object} actions */
const after = (state, ...actions) => actions.reduce((next, action, index) => reduce(next, action, index * 5000), state);
const parts = (state, surface = "left") => state.document.room.surfaces[surface].parts;

describe("doors, windows and other parts", () => {
  it("are added, changed by numbers and taken away, one step each", () => {
    const added = after(start(), { type: "set-part", surface: "left", index: null, part: DOOR });
    assert.deepEqual(parts(added), [DOOR]);
    const moved = after(added, { type: "set-part", surface: "left", index: 0, part: { u_m: 3.5 } });
    assert.deepEqual(parts(moved), [{ ...DOOR, u_m: 3.5 }]);
    assert.equal(moved.history.past.length, 2);
    const gone = after(moved, { type: "remove-part", surface: "left", index: 0 });
    assert.equal(parts(gone), undefined);
    assert.deepEqual(parts(after(gone, { type: "undo" })), [{ ...DOOR, u_m: 3.5 }]);
  });

  it("are trimmed to their wall, which is said", () => {
    const wide = after(start(), { type: "set-part", surface: "front", index: null, part: { ...DOOR, width_m: 9 } });
    assert.deepEqual([parts(wide, "front")[0].u_m, parts(wide, "front")[0].width_m], [0, 4]);
    assert.match(wide.notice.text, /Trimmed to the front wall/);
  });

  it("lie side by side: a second one goes to the nearest free place, or nowhere", () => {
    const two = after(start(), { type: "set-part", surface: "left", index: null, part: DOOR }, { type: "set-part", surface: "left", index: null, part: { ...DOOR, u_m: 1.5 } });
    assert.equal(parts(two)[1].u_m, 1.8);
    const whole = { ...DOOR, role: "wall", u_m: 0, width_m: 6, height_m: 2.5 };
    const full = after(start(), { type: "set-part", surface: "left", index: null, part: whole }, { type: "set-part", surface: "left", index: null, part: DOOR });
    assert.equal(parts(full).length, 1);
    assert.equal(full.notice.tone, "problem");
  });

  it("make pieces of every plan go aside, or away where there is no place", () => {
    const near = after(start({ pieces: [piece("left", 1.7, 0.5)] }), { type: "set-part", surface: "left", index: null, part: DOOR });
    assert.equal(near.document.plans[1].pieces[0].u_m, 1.8);
    assert.match(near.notice.text, /1 thing moved inside/);
    const under = after(start({ pieces: [piece("left", 1.1, 0.5)] }), { type: "set-part", surface: "left", index: null, part: { ...DOOR, u_m: 0.5, width_m: 2, height_m: 2.5 } });
    assert.equal(under.document.plans[1].pieces.length, 0);
    assert.match(under.notice.text, /1 thing removed/);
  });

  it("keep a swing only as doors and a depth only as built-ins", () => {
    const asWindow = after(start(), { type: "set-part", surface: "left", index: null, part: { ...DOOR, role: "window", depth_m: 0.3 } });
    assert.deepEqual(Object.keys(parts(asWindow)[0]).sort(), ["finish", "height_m", "role", "u_m", "v_m", "width_m"]);
  });
});

describe("zones that stay clear", () => {
  const zone = { surface: "ceiling", u_m: 2, v_m: 3, width_m: 0.12, height_m: 0.12, margin_m: 0.6, why: "smoke detector" };

  it("have default margins by what is there", () => {
    assert.deepEqual(["smoke detector", "sprinkler", "heater", "air grille", "lamp", "open flame", "door swing", "socket"].map(defaultMargin), [0.6, 0.6, 0.5, 0.3, 0.3, 1, 0.1, 0]);
  });

  it("are added, enlarged, shrunk with a word, and taken away", () => {
    const added = after(start(), { type: "set-zone", index: null, zone });
    assert.deepEqual(added.document.room.keep_clear, [zone]);
    const low = after(added, { type: "set-zone", index: 0, zone: { margin_m: 0.2 } });
    assert.equal(low.document.room.keep_clear[0].margin_m, 0.2);
    assert.match(low.notice.text, /below the 0.6 m/);
    assert.equal(after(low, { type: "remove-zone", index: 0 }).document.room.keep_clear, undefined);
    assert.equal(after(added, { type: "set-zone", index: 0, zone: { why: "  " } }).notice.tone, "problem");
  });

  it("move a piece out of their margin", () => {
    const state = after(start({ pieces: [piece("ceiling", 2.3, 3.3)] }), { type: "set-zone", index: null, zone });
    const [moved] = state.document.plans[1].pieces;
    assert.ok(moved === undefined || moved.u_m >= 2.72 || moved.v_m >= 3.72);
  });
});

describe("finishes with own values", () => {
  it("are made from what is there, put on the surface, typed per octave, and kept while used", () => {
    const values = [0.1, 0.2, 0.3, 0.4, 0.5, 0.6];
    const made = after(start(), { type: "set-own-finish", id: null, surface: "left", values });
    const [own] = made.document.own_finishes;
    assert.deepEqual([own.absorption, own.bands_hz], [values, [125, 250, 500, 1000, 2000, 4000]]);
    assert.equal(made.document.room.surfaces.left.finish, own.id);
    assert.equal(made.history.past.length, 1);
    const typed = after(made, { type: "set-own-finish", id: own.id, values: [...values.slice(0, 5), 0.9], name: "Old panelling" });
    assert.deepEqual([typed.document.own_finishes[0].absorption[5], typed.document.own_finishes[0].name], [0.9, "Old panelling"]);
    assert.match(after(typed, { type: "remove-own-finish", id: own.id }).notice.text, /still on a surface/);
    const freed = after(typed, { type: "set-finish", surface: "left", finish: "brick" }, { type: "remove-own-finish", id: own.id });
    assert.equal(freed.document.own_finishes, undefined);
  });

  it("are refused with shares beyond 0 to 1", () => {
    const state = after(start(), { type: "set-own-finish", id: null, surface: "left", values: [0.1, 0.2, 0.3, 0.4, 0.5, 1.2] });
    assert.equal(state.document.own_finishes, undefined);
    assert.equal(state.notice.tone, "problem");
  });
});

describe("furniture", () => {
  const sofa = { kind: "sofa-fabric", size_m: [2, 0.9, 0.8] };

  it("is counted in all, whether placed or not", () => {
    const at = { x_m: 1, y_m: 4.5, width_m: 2, depth_m: 0.9, height_m: 0.8 };
    const state = start({ room: { furnishings: [{ kind: "sofa-fabric", count: 1, at }, { kind: "sofa-fabric", count: 2 }] } });
    const more = after(state, { type: "set-furnishing", kind: "sofa-fabric", count: 4 });
    assert.deepEqual(more.document.room.furnishings.map(({ count }) => count), [1, 3]);
    const fewer = after(more, { type: "set-furnishing", kind: "sofa-fabric", count: 1 });
    assert.deepEqual(fewer.document.room.furnishings, [{ kind: "sofa-fabric", count: 1, at }]);
    assert.deepEqual(after(fewer, { type: "set-furnishing", kind: "sofa-fabric", count: 0 }).document.room.furnishings, []);
  });

  it("is placed where it is free, moved round what stands there, and only counted again", () => {
    const two = after(start(), { type: "place-furnishing", ...sofa }, { type: "place-furnishing", ...sofa });
    const [first, second] = two.document.room.furnishings.map(({ at }) => at);
    assert.ok(Math.abs(first.y_m - second.y_m) >= 0.8999 || Math.abs(first.x_m - second.x_m) >= 2);
    const moved = after(two, { type: "move-furnishing", index: 1, at: { x_m: first.x_m, y_m: first.y_m + 0.2 }, gesture: "g" });
    assert.ok(Math.abs(moved.document.room.furnishings[1].at.y_m - first.y_m - 0.9) < 1e-9);
    const dragged = after(two, ...[0.1, 0.2, 0.3].map((x_m) => ({ type: "move-furnishing", index: 1, at: { x_m }, gesture: "drag 1" })));
    assert.equal(dragged.history.past.length, two.history.past.length + 1);
    assert.equal(reduce(dragged, { type: "cancel-gesture", gesture: "drag 1" }, 0).document, two.document);
    const counted = after(two, { type: "move-furnishing", index: 0, at: null });
    assert.deepEqual(counted.document.room.furnishings.map(({ at, count }) => [at !== undefined, count]), [[true, 1], [false, 1]]);
  });

  it("takes one that was only counted into the plan", () => {
    const state = start({ room: { furnishings: [{ kind: "sofa-fabric", count: 2 }] } });
    const placed = after(state, { type: "place-furnishing", ...sofa }).document.room.furnishings;
    assert.deepEqual(placed.map(({ at, count }) => [at !== undefined, count]), [[false, 1], [true, 1]]);
  });
});

describe("limits and conditions", () => {
  it("are set and lifted, one step each, and refused if they are no numbers", () => {
    const set = after(start(), { type: "set-limit", limit: "budget", value: 500 }, { type: "set-limit", limit: "bare", value: ["ceiling"] });
    assert.deepEqual(set.document.limits, { budget: 500, bare: ["ceiling"] });
    const lifted = after(set, { type: "set-limit", limit: "budget", value: null }, { type: "set-limit", limit: "bare", value: [] });
    assert.equal(lifted.document.limits, undefined);
    assert.equal(lifted.history.past.length, 4);
    assert.equal(after(start(), { type: "set-limit", limit: "max_depth_m", value: -1 }).notice.tone, "problem");
  });

  it("are ticked and unticked", () => {
    const on = after(start(), { type: "set-condition", condition: "rented", on: true });
    assert.deepEqual(on.document.room.conditions, ["rented"]);
    assert.equal(after(on, { type: "set-condition", condition: "rented", on: true }), on);
    assert.equal(after(on, { type: "set-condition", condition: "rented", on: false }).document.room.conditions, undefined);
  });
});
