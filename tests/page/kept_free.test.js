// What must stay free before walls, in corners and under the ceiling, and the limit that allows no holes.
import assert from "node:assert/strict";
import { describe, it } from "node:test";
import { freshPiece } from "../../www/model/laid.js";
import { place } from "../../www/model/placing.js";
import { initialState, reduce } from "../../www/model/reduce.js";
import { kitShelf } from "../../www/view/kit.js";
import { standing } from "../../www/view/floorplan.js";
import { frozen, kind, piece, sample } from "./support.js";
import { textOf, wordsOf } from "./support_text.js";

const screen = kind("screen", 0.8, 1.2, { stands: "stand", name: "Screen" });
const tall = kind("tall", 0.8, 2, { stands: "stand", name: "Tall screen" });
const corner = kind("corner", 0.6, 1.2, { stands: "corner", name: "Corner piece" });
const deep = kind();
const thin = kind("thin", 0.6, 0.6, { absorber: { layers: [{ porous: { thickness_mm: 50, flow_resistivity_pa_s_per_m2: 8000 } }] } });
const KIT = [deep, thin, screen, tall, corner];

/** The sample room with these kinds. @param {object} [changes] */
function room({ parts = {}, zones = [], pieces = [], limits } = {}) {
  const document = sample({ kit: KIT, pieces, ...(limits && { limits }) });
  for (const [surface, list] of Object.entries(parts)) document.room.surfaces[surface] = { ...document.room.surfaces[surface], parts: list };
  if (zones.length > 0) document.room.keep_clear = zones;
  return document;
}

/** Where a new piece of a kind comes to lie. */
function put(document, one, surface, u_m, v_m, more = {}) {
  return place(document, 1, { ...freshPiece(one, surface), ...more }, null, { u_m, v_m }, { tolerance_m: 0, units: "metric" });
}
const corners = (placed) => [placed.piece.u_m, placed.piece.v_m];
const zone = (surface, why, margin_m, rect) => ({ surface, why, margin_m, u_m: rect[0], v_m: rect[1], width_m: rect[2], height_m: rect[3] });

describe("a stand before a wall", () => {
  it("stops at the margin of a radiator, and says so", () => {
    const document = room({ zones: [zone("left", "radiator", 0.5, [2, 0.1, 1, 0.6])] });
    const placed = put(document, screen, "floor", 0.3, 2.1);
    assert.deepEqual(corners(placed), [0.5, 2.1]);
    assert.match(placed.reason, /^stops 0\.50\u202fm from the radiator$/);
    assert.deepEqual(corners(put(document, screen, "floor", 0, 3.5)), [0, 3.5], "beside the margin");
  });

  it("may stand below a vent, not up to it; and not up to a sprinkler", () => {
    const zones = [zone("right", "vent", 0.3, [2, 2, 0.3, 0.2]), zone("ceiling", "sprinkler", 0.6, [1, 3, 0.1, 0.1])];
    const document = room({ zones });
    assert.equal(put(document, screen, "floor", 3.1, 2).reason, null);
    assert.match(put(document, tall, "floor", 3.1, 2).reason, /0\.30\u202fm from the vent/);
    assert.equal(put(document, screen, "floor", 0.4, 2.45).reason, null);
    assert.match(put(document, tall, "floor", 0.4, 2.45).reason, /0\.60\u202fm from the sprinkler/);
  });

  it("is not taller than the room", () => {
    const high = put(room(), tall, "floor", 1, 2, { z_m: 0.51 });
    assert.deepEqual([high.legal, high.reason], [false, "taller than the room"]);
    assert.ok(put(room(), tall, "floor", 1, 2, { z_m: 0.5 }).legal);
  });
});

describe("a piece up a corner", () => {
  it("keeps out of a zone of the floor at any height", () => {
    const document = room({ zones: [zone("floor", "boiler", 0.5, [0, 0, 0.5, 0.5])] });
    for (const z_m of [0, 1.2]) {
      const placed = put(document, corner, "left", 0, z_m);
      assert.deepEqual([placed.legal, placed.reason], [false, "no free place here: the boiler is in the way"]);
    }
    assert.ok(put(document, corner, "right", 0, 0).legal, "another corner");
  });

  it("stays above a stand in the corner, and a stand stays out from under what reaches down", () => {
    const stood = { kit: "screen", place: "stand", x_m: 0.4, y_m: 0.1, z_m: 0, turn_deg: 0 };
    assert.deepEqual(corners(put(room({ pieces: [stood] }), corner, "left", 0, 1)), [0, 1.2]);
    const up = (z_m) => room({ pieces: [{ kit: "corner", place: "corner", edge: "front-left", z_m }] });
    assert.deepEqual(corners(put(up(1.25), screen, "floor", 0.1, 0)), [0.1, 0]);
    assert.equal(put(up(1), screen, "floor", 0.3, 0).reason, "stops at Corner piece");
  });
});

describe("a panel beside a door", () => {
  it("keeps out of the swing of the leaf if it is deeper than the gap, and says so", () => {
    const door = { role: "door", finish: "d", u_m: 0.1, v_m: 0, width_m: 0.8, height_m: 2, swing_m: 0.8 };
    const document = room({ parts: { left: [door] } });
    const placed = put(document, deep, "front", 0.7, 0.4);
    assert.deepEqual(corners(placed), [0.9, 0.4]);
    assert.match(placed.reason, /^keeps 0\.90\u202fm free before the door$/);
    assert.deepEqual(corners(put(document, thin, "front", 0.2, 0.4)), [0.2, 0.4], "0.05 m deep, 0.1 m from the leaf");
    const still = room({ parts: { left: [{ ...door, swing_m: undefined }] } });
    assert.deepEqual(corners(put(still, deep, "front", 0.2, 0.4)), [0.2, 0.4], "no leaf");
  });
});

describe("what is in the way of a change of the room", () => {
  const act = (document, action) => reduce(initialState(frozen(document)), action, 0);
  const stood = { kit: "screen", place: "stand", x_m: 3, y_m: 3, z_m: 0.05, turn_deg: 90 };
  const first = (state) => state.document.plans[1].pieces[0];

  it("is moved out of the way before a new door, and off the swing of its leaf", () => {
    const part = { role: "door", finish: "d", u_m: 2.6, v_m: 0, width_m: 0.8, height_m: 2, swing_m: 0.95 };
    const after = first(act(room({ pieces: [stood] }), { type: "set-part", surface: "right", index: null, part }));
    assert.ok(after.x_m + 0.075 <= 4 - 1.05 + 1e-6, JSON.stringify(after));
    const low = { ...part, u_m: 0.1 };
    const hung = first(act(room({ pieces: [piece("front", 2.6, 0.4)] }), { type: "set-part", surface: "right", index: null, part: low }));
    assert.equal(hung.u_m, 2.35);
  });

  it("makes way for a new zone of the floor, also up a corner", () => {
    const state = act(room({ pieces: [{ kit: "corner", place: "corner", edge: "front-left", z_m: 0.5 }] }),
      { type: "set-zone", index: null, zone: zone("floor", "boiler", 0.5, [0, 0, 0.5, 0.5]) });
    assert.deepEqual(state.document.plans[1].pieces, []);
    assert.match(state.notice.text, /1 thing removed/);
  });

  it("comes inside with its whole foot and its top when the room gets smaller", () => {
    const narrow = first(act(room({ pieces: [{ ...stood, turn_deg: 0 }] }), { type: "set-room", width_m: 3.2 }));
    assert.equal(narrow.x_m, 2.8);
    assert.deepEqual(act(room({ pieces: [{ ...stood, kit: "tall" }] }), { type: "set-room", height_m: 2 }).document.plans[1].pieces, []);
    const door = { role: "door", finish: "d", u_m: 2.6, v_m: 0, width_m: 0.8, height_m: 2, swing_m: 0.8 };
    const nearer = first(act(room({ parts: { right: [door] }, pieces: [{ ...stood, x_m: 2.9 }] }), { type: "set-room", width_m: 3.8 }));
    assert.ok(nearer.x_m + 0.075 <= 3.8 - 0.9 + 1e-6, JSON.stringify(nearer));
  });
});

describe("limits", () => {
  it("take the ceiling for higher than the highest fixing", () => {
    const placed = put(room({ limits: { max_height_m: 2 } }), thin, "ceiling", 1, 1);
    assert.equal(placed.legal, false);
    assert.match(placed.reason, /^nothing above 2\.00\u202fm: your limit$/);
    assert.ok(put(room({ limits: { max_height_m: 2.5 } }), thin, "ceiling", 1, 1).legal);
  });

  it("without drilling refuse what needs holes, in words, and leave what is there", () => {
    const limits = { no_drilling: true };
    for (const [one, surface] of [[deep, "left"], [deep, "ceiling"], [corner, "left"]]) {
      const placed = put(room({ limits }), one, surface, 1, 0.2);
      assert.deepEqual([placed.legal, placed.reason], [false, "needs holes: your limit is no drilling"], surface);
    }
    assert.ok(put(room({ limits }), screen, "floor", 1, 2).legal);
    assert.ok(put(room({ limits }), kind("thick", 1.5, 2, { stands: "curtain" }), "left", 1, 0.2).legal);
    const there = room({ limits, pieces: [piece("left", 1, 0.5)] });
    assert.ok(place(there, 1, there.plans[1].pieces[0], 0, { u_m: 1.2, v_m: 0.5 }, { tolerance_m: 0 }).legal);
  });

  it("without drilling leave on the shelf what stands, lies or hangs from a rail, and say how many kinds are hidden and why", () => {
    const rug = kind("rug", 2, 1.4, { stands: "floor", name: "Rug of wool" });
    const curtain = kind("curtain", 1.5, 2, { stands: "curtain", name: "Heavy curtain" });
    const shelf = (limits, group) => {
      const document = { ...sample({ kit: [deep, thin, corner, screen], ...(limits && { limits }) }) };
      const state = { ...initialState(document), shows: { ...initialState(document).shows, shelf: group } };
      return wordsOf(kitShelf({ document, state, kit: [], library: { shelf: [rug, curtain] }, dispatch: () => {} }, 50));
    };
    const allowed = shelf({ no_drilling: true });
    assert.match(allowed, /3 kinds are not shown: your limit is no drilling, and they need holes\. What stands, lies or hangs from a rail that is there needs none\./);
    for (const group of ["curtains", "rugs", "stands"]) assert.match(allowed, new RegExp(`\\b${group}\\b`));
    assert.doesNotMatch(allowed, /Thick soft|Corner piece/);
    assert.doesNotMatch(shelf(), /not shown/);
    assert.match(shelf(undefined, "bass"), /Corner piece/);
  });
});

describe("furniture in the plan", () => {
  it("is spoken of in the reader's units", () => {
    const document = sample({ room: { furnishings: [{ kind: "desk", count: 1, at: { x_m: 1.2192, y_m: 2, width_m: 1, depth_m: 0.6, height_m: 0.7 } }] } });
    const face = { surface: "floor", side: "floor", sheet: "box", width_m: 4, height_m: 6, x_px: 0, ux: 50, vx: 0, y_px: 0, uy: 0, vy: 50 };
    const spoken = (units) => textOf(standing(face, document, { finishes: [], furnishings: [] }, units));
    assert.match(spoken("imperial"), /4' from the left wall/);
    assert.match(spoken("metric"), /1\.22\u202fm from the left wall/);
  });
});
