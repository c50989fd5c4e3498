import assert from "node:assert/strict";
import { describe, it } from "node:test";
import { initialState, onSheet, reduce } from "../../www/model/reduce.js";
import { between, frozen, kind, piece, sample, seeded } from "./support.js";

/** A state that throws when it is changed in place. @param {object} [changes] */
const begin = (changes) => frozen(initialState(sample(changes), { example: false }));
/** Several actions, 10 s apart. @param {object} state @param {...object} actions */
const run = (state, ...actions) => actions.reduce((now, action, index) => frozen(reduce(now, frozen(action), index * 1e4)), state);
const pieces = (state, plan = 1) => state.document.plans[plan].pieces;
const labels = (state) => state.history.past.map(({ label }) => label);

const start = { type: "drag-start", index: 0, by: "pointer" };
const move = (surface, u_m, v_m, tolerance_m = 0) => ({ type: "drag-move", surface, u_m, v_m, tolerance_m });
const end = { type: "drag-end" };
const cancel = { type: "drag-cancel" };
const fresh = (kit = kind()) => ({ type: "drag-new", kit, by: "pointer" });

describe("dragging", () => {
  it("changes only the drag until it ends, then commits once", () => {
    const first = begin({ pieces: [piece("left", 1, 1)] });
    const dragging = run(first, start, move("left", 1.5, 1), move("left", 2, 0.9));
    assert.equal(dragging.document, first.document);
    assert.equal(onSheet(dragging).plans[1].pieces[0].u_m, 2);
    const done = run(dragging, end);
    assert.deepEqual(pieces(done), [piece("left", 2, 0.9)]);
    assert.deepEqual(labels(done), ["move piece 1"]);
    assert.equal(done.drag, null);
  });

  it("leaves no trace when nothing moved or it is given up", () => {
    const first = begin({ pieces: [piece("left", 1, 1)] });
    for (const state of [run(first, start, end), run(first, start, move("left", 1, 1), end), run(first, start, move("left", 2, 1), cancel)]) {
      assert.equal(state.document, first.document);
      assert.deepEqual(labels(state), []);
      assert.equal(state.drag, null);
    }
  });

  it("goes from wall to wall", () => {
    const state = run(begin({ pieces: [piece("left", 1, 1)] }), start, move("back", 1.2, 0.5), end);
    assert.deepEqual(pieces(state), [piece("back", 1.2, 0.5)]);
    assert.equal(state.surface, "back");
  });

  it("goes back from beside the room and from where it may not be, and says so", () => {
    const first = begin({ pieces: [piece("left", 1, 1)], limits: { bare: ["ceiling"] } });
    const beside = run(first, start, move(null, 0, 0), end);
    assert.equal(beside.document, first.document);
    assert.deepEqual(beside.notice, { text: "Put back: it was dropped beside the room.", tone: "problem" });
    const bare = run(first, start, move("ceiling", 1, 1));
    assert.equal(bare.drag.legal, false);
    assert.deepEqual(bare.drag.wanted, { u_m: 1, v_m: 1, width_m: 0.6, height_m: 1.2 });
    assert.equal(run(bare, end).notice.text, "Put back: ceiling kept bare: your limit.");
    assert.equal(run(bare, end).document, first.document);
  });

  it("says what it slid along", () => {
    const state = run(begin({ pieces: [piece("left", 1, 1), piece("left", 3, 1)] }), start, move("left", 2.5, 1), end);
    assert.equal(pieces(state)[0].u_m, 2.4);
    assert.equal(state.notice.text, "Stops at Thick soft, 100 mm.");
  });

  it("snaps within the tolerance unless snapping is off", () => {
    const first = begin({ pieces: [piece("left", 1, 1)] });
    assert.equal(pieces(run(first, start, move("left", 4.813, 1, 0.03), end))[0].u_m, 4.8);
    assert.equal(pieces(run(first, { type: "set-snap", snap: false }, start, move("left", 4.813, 1, 0.03), end))[0].u_m, 4.813);
  });

  it("stays the very same state while the piece holds where it is, so that nothing is computed or drawn anew", () => {
    const held = run(begin({ pieces: [piece("left", 1, 1)] }), start, move("left", 4.813, 1, 0.03));
    assert.equal(run(held, move("left", 4.81, 1, 0.03)), held);
    assert.notEqual(run(held, move("left", 4.813, 1.2, 0.03)).drag.document, held.drag.document);
    const fromShelf = run(begin(), fresh(), move("left", 4.813, 1, 0.03));
    assert.equal(run(fromShelf, move("left", 4.81, 1, 0.03)), fromShelf);
    const refused = run(begin({ pieces: [piece("left", 1, 1)], limits: { bare: ["ceiling"] } }), start, move("ceiling", 1, 1));
    assert.notEqual(run(refused, move("ceiling", 1.1, 1)), refused, "where it is wanted is drawn");
  });

  it("keeps its document while only what stops the piece is another one", () => {
    const stopped = run(begin({ pieces: [piece("left", 1, 1), piece("left", 3, 1)] }), start, move("left", 2.5, 1));
    const further = run(stopped, move("left", 2.6, 1));
    assert.equal(further.drag.document, stopped.drag.document);
    assert.notDeepEqual(further.drag.wanted, stopped.drag.wanted);
  });

  it("is put back by anything else that happens, and undo does only that", () => {
    const first = begin({ pieces: [piece("left", 1, 1)] });
    const moved = run(first, { type: "nudge-piece", index: 0, du_m: 0.1, dv_m: 0 });
    const undone = run(moved, start, move("left", 3, 1), { type: "undo" });
    assert.equal(undone.drag, null);
    assert.equal(undone.document, moved.document);
    assert.equal(pieces(run(moved, start, move("left", 3, 1), { type: "remove-piece", index: 0 })).length, 0);
  });
});

describe("a new piece from the shelf", () => {
  it("is on the sheet only while it is over a surface", () => {
    const state = run(begin(), fresh());
    assert.deepEqual([state.drag.over, state.drag.legal], [false, false]);
    assert.equal(onSheet(state).plans[1].pieces.length, 0);
    const over = run(state, move("left", 1, 1));
    assert.deepEqual([over.drag.over, over.drag.legal, onSheet(over).plans[1].pieces.length], [true, true, 1]);
    assert.equal(onSheet(run(over, move(null, 0, 0))).plans[1].pieces.length, 0);
  });

  it("is one entry, named, selected, with its kind in the kit", () => {
    const thin = kind("thin", 0.6, 0.6, { name: "Thin soft" });
    const state = run(begin(), fresh(thin), move("left", 1, 1), end);
    assert.deepEqual(labels(state), ["add Thin soft"]);
    assert.deepEqual(pieces(state), [{ kit: "thin", surface: "left", u_m: 1, v_m: 1 }]);
    assert.equal(state.selected, 0);
    assert.ok(state.document.kit.some(({ id }) => id === "thin"));
  });

  it("does not leave its kind behind when it is not placed", () => {
    const first = begin();
    const state = run(first, fresh(kind("thin")), move("left", 1, 1), move(null, 0, 0), end);
    assert.equal(state.document, first.document);
    assert.match(state.notice.text, /^Not placed/);
  });

  it("goes into plan A while the room as it is is shown", () => {
    const first = run(begin(), { type: "show-plan", index: 0 });
    const state = run(first, fresh(), move("left", 1, 1), end);
    assert.deepEqual([pieces(state, 0).length, pieces(state, 1).length, state.shown], [0, 1, 1]);
    assert.equal(state.notice.text, "“Now” is the room as it is, so this went into Plan A.");
    const back = run(first, fresh(), move("left", 1, 1), cancel);
    assert.deepEqual([back.shown, back.document], [0, first.document]);
    const undone = run(state, { type: "undo" });
    assert.deepEqual([undone.shown, undone.document], [0, first.document]);
  });

  it("makes plan A from the room when there is none", () => {
    const owned = piece("back", 0, 0);
    const first = begin({ plans: [{ name: "Now", pieces: [owned] }] });
    const state = run(first, fresh(), move("left", 1, 1));
    assert.equal(onSheet(state).plans[state.shown].pieces.length, 2);
    const done = run(state, end);
    assert.deepEqual(done.document.plans.map(({ name }) => name), ["Now", "A"]);
    assert.deepEqual(pieces(done), [owned, piece("left", 1, 1)]);
  });
});

describe("one function for every route", () => {
  it("gives the same place by drag, by keys and by typed numbers", () => {
    const random = seeded(30);
    for (let round = 0; round < 200; round += 1) {
      const first = begin({ pieces: [piece("left", 1, 1), piece("left", between(random, 2, 4), between(random, 0, 1.3))] });
      const [u_m, v_m] = [between(random, 0, 6), between(random, 0, 2.5)];
      const dragged = run(first, start, move("left", u_m, v_m), end);
      const keyed = run(first, { ...start, by: "keys" }, move("left", u_m, v_m), end);
      const typed = run(first, { type: "set-piece", index: 0, u_m, v_m });
      const nudged = run(first, { type: "nudge-piece", index: 0, du_m: u_m - 1, dv_m: v_m - 1 });
      for (const other of [keyed, typed, nudged]) {
        assert.ok(Math.abs(pieces(other)[0].u_m - pieces(dragged)[0].u_m) < 1e-3);
        assert.ok(Math.abs(pieces(other)[0].v_m - pieces(dragged)[0].v_m) < 1e-3);
      }
    }
  });

  it("lands what was picked like a drop", () => {
    const picked = run(begin(), { type: "pick", kit: kind(), index: null });
    assert.ok(picked.picked.places.length > 0);
    const { surface, u_m, v_m } = picked.picked.places[0];
    const landed = run(picked, { type: "land", surface, u_m, v_m });
    const dropped = run(begin(), fresh(), move(surface, u_m, v_m), end);
    assert.deepEqual(landed.document, dropped.document);
    assert.equal(landed.picked, null);
    assert.deepEqual(labels(landed), ["add Thick soft, 100 mm"]);
  });

  it("moves a picked piece that exists", () => {
    const state = run(begin({ pieces: [piece("left", 1, 1, { turned: true })] }), { type: "pick", kit: kind(), index: 0 }, { type: "land", surface: "right", u_m: 2, v_m: 0.5 });
    assert.deepEqual(pieces(state), [piece("right", 2, 0.5, { turned: true })]);
    assert.equal(state.picked, null);
  });
});

describe("steps on pieces", () => {
  const one = { pieces: [piece("left", 1, 1)] };

  it("merges arrow steps until a second of rest", () => {
    const step = { type: "nudge-piece", index: 0, du_m: 0.01, dv_m: 0 };
    let state = begin(one);
    for (const now_ms of [0, 500, 1400, 2300, 3400]) state = reduce(state, step, now_ms);
    assert.equal(state.history.past.length, 2);
    assert.ok(Math.abs(pieces(state)[0].u_m - 1.05) < 1e-9);
    assert.ok(Math.abs(pieces(reduce(state, { type: "undo" }, 9999))[0].u_m - 1.04) < 1e-9);
  });

  it("does not merge steps of different pieces", () => {
    let state = begin({ pieces: [piece("left", 1, 1), piece("left", 3, 1)] });
    for (const index of [0, 1, 0]) state = reduce(state, { type: "nudge-piece", index, du_m: 0.01, dv_m: 0 }, 0);
    assert.equal(state.history.past.length, 3);
  });

  it("tells why an arrow step does nothing, without an entry", () => {
    const state = run(begin({ pieces: [piece("left", 0, 1)] }), { type: "nudge-piece", index: 0, du_m: -0.1, dv_m: 0 });
    assert.equal(state.notice.text, "Stops at the edge of the left wall.");
    assert.deepEqual(labels(state), []);
  });

  it("mirrors to the facing wall, and across the length axis on the ceiling", () => {
    assert.deepEqual(pieces(run(begin(one), { type: "mirror-piece", index: 0 }))[1], piece("right", 1, 1));
    assert.deepEqual(pieces(run(begin({ pieces: [piece("front", 1, 1)] }), { type: "mirror-piece", index: 0 }))[1], piece("back", 1, 1));
    assert.deepEqual(pieces(run(begin({ pieces: [piece("ceiling", 0.5, 2)] }), { type: "mirror-piece", index: 0 }))[1], piece("ceiling", 2.9, 2));
  });

  it("does not mirror onto what is in the way", () => {
    const state = run(begin({ pieces: [piece("left", 1, 0.65), ...[0.3, 0.9, 1.5].map((u_m) => piece("right", u_m, 0.65))] }), { type: "mirror-piece", index: 0 });
    assert.equal(pieces(state).length, 4);
    assert.equal(state.notice.tone, "problem");
  });

  it("duplicates beside, turns about the middle, removes with undo on offer", () => {
    assert.deepEqual(pieces(run(begin(one), { type: "duplicate-piece", index: 0 }))[1], piece("left", 1.6, 1));
    assert.deepEqual(pieces(run(begin({ pieces: [piece("left", 1, 0.5)] }), { type: "turn-piece", index: 0 }))[0], piece("left", 0.7, 0.8, { turned: true }));
    const removed = run(begin(one), { type: "select", index: 0 }, { type: "remove-piece", index: 0 });
    assert.deepEqual([pieces(removed).length, removed.selected, removed.notice.undo], [0, null, true]);
  });

  it("does not add beyond the limit", () => {
    const many = Array.from({ length: 200 }, () => piece("left", 0, 0));
    const state = run(begin({ pieces: many }), { type: "add-piece", piece: piece("right", 1, 1), kit: kind() });
    assert.equal(state.notice.text, "A plan holds at most 200 pieces.");
    assert.equal(run(begin({ pieces: many }), fresh()).drag, null);
  });
});

describe("resizing", () => {
  const grab = { type: "resize-start", index: 0 };
  const size = (corner, u_m, v_m, tolerance_m = 0) => ({ type: "resize-move", corner, u_m, v_m, tolerance_m });
  const first = () => begin({ pieces: [piece("left", 1, 1)] });
  const kindOf = (state) => state.document.kit.find(({ id }) => id === pieces(state)[0].kit);

  it("makes a variant without a price, its weight by area", () => {
    const state = run(first(), grab, size("+-", 1.9, 1.3), end);
    const variant = kindOf(state);
    assert.deepEqual([variant.id, variant.width_m, variant.height_m, variant.price, variant.mass_kg], ["thick~900x900", 0.9, 0.9, undefined, 5.6]);
    assert.equal(variant.name, "Thick soft, 100 mm, 0.90 × 0.90 m");
    assert.deepEqual([pieces(state)[0].u_m, pieces(state)[0].v_m], [1, 1.3]);
    assert.deepEqual(labels(state), ["resize piece 1"]);
  });

  it("keeps the opposite corner with every grip, also when turned", () => {
    for (const turned of [false, true]) {
      for (const [corner, u_m, v_m] of [["--", 0.5, 0.2], ["+-", 2.5, 0.2], ["-+", 0.5, 2.4], ["++", 2.5, 2.4]]) {
        const begun = begin({ pieces: [piece("left", 1, 1, { turned })] });
        const before = turned ? { width: 1.2, height: 0.6 } : { width: 0.6, height: 1.2 };
        const state = run(begun, grab, size(corner, u_m, v_m), end);
        const after = pieces(state)[0];
        const { width_m, height_m } = kindOf(state);
        const [width, height] = turned ? [height_m, width_m] : [width_m, height_m];
        const close = (a, b) => assert.ok(Math.abs(a - b) < 1e-9, `${corner} ${turned}: ${a} ${b}`);
        if (corner[0] === "+") close(after.u_m, 1); else close(after.u_m + width, 1 + before.width);
        if (corner[1] === "+") close(after.v_m, 1); else close(after.v_m + height, 1 + before.height);
        close(corner[0] === "+" ? after.u_m + width : after.u_m, u_m);
        close(corner[1] === "+" ? after.v_m + height : after.v_m, v_m);
      }
    }
  });

  it("stops at neighbours, at the surface and at 0.1 and 4 m", () => {
    const crowded = begin({ pieces: [piece("left", 1, 1), piece("left", 2, 0.8)] });
    const stopped = run(crowded, grab, size("++", 2.3, 2.2));
    assert.equal(stopped.drag.reason, "stops at Thick soft, 100 mm");
    assert.equal(kindOf(run(stopped, end)).width_m, 1);
    assert.equal(kindOf(run(first(), grab, size("++", 0, 0), end)).width_m, 0.1);
    const huge = kindOf(run(first(), grab, size("++", 9, 9), end));
    assert.deepEqual([huge.width_m, huge.height_m], [4, 1.5]);
  });

  it("is not held by what lies behind the corner that stays", () => {
    const state = run(begin({ pieces: [piece("left", 1, 1), piece("left", 0.3, 0.9)] }), grab, size("++", 2.5, 2.4), end);
    assert.deepEqual([kindOf(state).width_m, kindOf(state).height_m], [1.5, 1.4]);
  });

  it("comes back to the base kind at its size, and drops variants that nothing uses", () => {
    const state = run(first(), grab, size("++", 2, 2), end, grab, size("++", 1.6, 2.2), end);
    assert.equal(pieces(state)[0].kit, "thick");
    assert.deepEqual(state.document.kit.map(({ id }) => id), ["thick"]);
  });

  it("shares a variant of the same size between pieces", () => {
    const state = run(begin({ pieces: [piece("left", 0, 0), piece("left", 2, 0)] }),
      ...[0, 1].map((index) => ({ type: "set-piece", index, width_m: 0.8 })));
    assert.deepEqual(pieces(state).map(({ kit }) => kit), ["thick~800x1200", "thick~800x1200"]);
    assert.equal(state.document.kit.length, 2);
  });

  it("never overlaps and never leaves the surface, at random", () => {
    const random = seeded(31);
    for (let round = 0; round < 500; round += 1) {
      const begun = begin({ pieces: [piece("left", 2.4, 0.6), piece("left", between(random, 0, 1.8), 0.3), piece("left", between(random, 3, 5.4), 0.9)] });
      const corner = ["--", "+-", "-+", "++"][round % 4];
      const state = run(begun, grab, size(corner, between(random, -1, 7), between(random, -1, 3.5), round % 3 === 0 ? 0.05 : 0), end);
      const rects = pieces(state).map((one) => ({ ...one, ...kindSize(state, one) }));
      const [own, ...others] = rects;
      assert.ok(own.u_m >= 0 && own.v_m >= 0 && own.u_m + own.w <= 6 + 1e-9 && own.v_m + own.h <= 2.5 + 1e-9);
      for (const other of others) {
        const apart = own.u_m + own.w <= other.u_m + 1e-9 || other.u_m + other.w <= own.u_m + 1e-9 || own.v_m + own.h <= other.v_m + 1e-9 || other.v_m + other.h <= own.v_m + 1e-9;
        assert.ok(apart, JSON.stringify({ round, own, other }));
      }
    }
  });
});

/** @param {object} state @param {object} one */
function kindSize(state, one) {
  const { width_m, height_m } = state.document.kit.find(({ id }) => id === one.kit);
  return { w: width_m, h: height_m };
}

describe("the room", () => {
  it("trims and moves what no longer fits, and says so", () => {
    const parts = [{ role: "window", finish: "glass", u_m: 4, v_m: 1, width_m: 1.5, height_m: 1 }, { role: "door", finish: "door", u_m: 5.5, v_m: 0, width_m: 0.5, height_m: 2 }];
    const surfaces = { ...sample().room.surfaces, left: { finish: "x", parts } };
    const state = run(begin({ room: { surfaces }, pieces: [piece("right", 5, 0.5), piece("right", 1, 0.5)] }), { type: "set-room", length_m: 5 });
    assert.deepEqual(state.document.room.surfaces.left.parts, [{ ...parts[0], width_m: 1 }]);
    assert.deepEqual(pieces(state).map(({ u_m }) => u_m).sort(), [1, 4.4]);
    assert.equal(state.notice.text, "To fit the new size: 1 thing trimmed, 1 thing moved inside, 1 thing removed, as no place is left.");
    assert.deepEqual(labels(state), ["size of the room"]);
  });

  it("refuses sides beyond 1.2 to 25 m with the limits, and keeps the last good ones", () => {
    const first = begin();
    for (const width_m of [0, -3, 1.1, 25.1, 1e9, NaN, Infinity]) {
      const state = run(first, { type: "set-room", width_m });
      assert.equal(state.document, first.document, `${width_m}`);
      assert.equal(state.notice.tone, "problem");
      if (Number.isFinite(width_m)) assert.match(state.notice.text, /^A side has to lie between 1\.20.m and 25\.00.m\.$/);
    }
    assert.match(run({ ...first, units: "imperial" }, { type: "set-room", width_m: 40 }).notice.text, /between 3' 11 1\/4" and 82' 1\/4"\.$/);
    assert.equal(run(begin(), { type: "set-room", width_m: NaN }).notice.tone, "problem");
  });

  it("takes a field that was touched off the list of assumptions", () => {
    const assumed = ["room.surfaces.left.finish", "room.surfaces.right.finish", "room.furnishings[0].count", "listening.loudspeakers[0]", "listening.loudspeakers[1]", "listening.seat", "goal", "room.width_m"];
    const state = run(begin({ assumed }),
      { type: "set-finish", surface: "left", finish: "brick" }, { type: "set-furnishing", kind: "sofa-fabric", count: 1 },
      { type: "move-loudspeaker", index: 0, to: { x_m: 1.2 } }, { type: "move-seat", to: { y_m: 3 } },
      { type: "set-goal", goal: { taste: "spacious" } }, { type: "set-room", width_m: 4.1 });
    assert.deepEqual(state.document.assumed, ["room.surfaces.right.finish", "listening.loudspeakers[1]"]);
    assert.equal(state.history.past.length, 6);
  });

  it("keeps loudspeakers and seat inside, in the plan's own places if it has some", () => {
    const moved = run(begin(), { type: "move-seat", to: { x_m: -5, y_m: 99 } });
    assert.deepEqual(moved.document.listening.seat, { x_m: 0.1, y_m: 5.9, z_m: 1.1 });
    const own = { loudspeakers: [], seat: { x_m: 1, y_m: 1, z_m: 1 } };
    const first = begin({ plans: [{ name: "Now", pieces: [] }, { name: "A", pieces: [], listening: own }] });
    const state = run(first, { type: "move-seat", to: { x_m: 3 } });
    assert.equal(state.document.plans[1].listening.seat.x_m, 3);
    assert.equal(state.document.listening, first.document.listening);
  });

  it("makes one entry of one gesture, however long it rests, and can give it up", () => {
    const go = (x_m) => ({ type: "move-loudspeaker", index: 0, to: { x_m }, gesture: "g1" });
    const first = begin();
    const state = run(first, go(1.1), go(1.2), go(1.3));
    assert.deepEqual(labels(state), ["move loudspeaker 1"]);
    assert.equal(run(state, { type: "undo" }).document, first.document);
    const given = run(state, { type: "cancel-gesture", gesture: "g1" });
    assert.deepEqual([given.document, labels(given)], [first.document, []]);
    assert.equal(run(state, { type: "cancel-gesture", gesture: "g2" }), state);
  });

  it("sets and clears prices, and takes kinds of the shelf", () => {
    const priced = run(begin(), { type: "set-kind", id: "thick", price: null });
    assert.equal("price" in priced.document.kit[0], false);
    assert.equal(run(begin(), { type: "set-kind", id: "thin", price: 20, kind: kind("thin") }).document.kit[1].price, 20);
    assert.equal(run(begin(), { type: "set-kind", id: "thick", price: -1 }).notice.tone, "problem");
  });
});

describe("plans", () => {
  it("copies the shown plan under the next free letter, up to eight", () => {
    let state = begin({ pieces: [piece("left", 1, 1)] });
    for (let i = 0; i < 8; i += 1) state = run(state, { type: "add-plan" });
    assert.deepEqual(state.document.plans.map(({ name }) => name), ["Now", "A", "B", "C", "D", "E", "F", "G"]);
    assert.deepEqual(pieces(state, 7), pieces(state, 1));
    assert.equal(state.notice.text, "A document holds at most 8 plans.");
  });

  it("removes and renames, but not the room as it is and not to a name that is taken", () => {
    const state = run(begin(), { type: "add-plan" });
    assert.equal(run(state, { type: "remove-plan", index: 0 }).notice.tone, "problem");
    assert.equal(run(state, { type: "remove-plan", index: 2 }).shown, 1);
    assert.equal(run(state, { type: "rename-plan", index: 2, name: " A " }).notice.tone, "problem");
    assert.equal(run(state, { type: "rename-plan", index: 2, name: "x".repeat(99) }).document.plans[2].name.length, 60);
  });
});

describe("a room of one's own", () => {
  it("starts from three numbers with everything else assumed", () => {
    const state = run(frozen(initialState(sample())), { type: "start-room", width_m: 3.1, length_m: 4.3, height_m: 2.45 });
    const { document } = state;
    assert.equal(document.room.surfaces.floor.finish, "boards-on-joists");
    assert.ok(document.assumed.includes("room.surfaces.ceiling.finish") && document.assumed.includes("goal"));
    assert.deepEqual(document.plans, [{ name: "Now", pieces: [] }, { name: "A", pieces: [] }]);
    assert.equal(document.kit[0].price, undefined, "prices of the example are invented");
    assert.equal(state.example, false);
    assert.deepEqual(labels(state), ["start a new room"]);
  });

  it("puts loudspeakers and seat inside every room that may be", () => {
    const random = seeded(32);
    for (let round = 0; round < 300; round += 1) {
      const [width_m, length_m, height_m] = [0, 1, 2].map(() => between(random, 1.2, round % 2 ? 25 : 3));
      const { listening } = run(begin(), { type: "start-room", width_m, length_m, height_m }).document;
      for (const { x_m, y_m, z_m } of [...listening.loudspeakers, listening.seat]) {
        assert.ok(x_m > 0 && x_m < width_m && y_m > 0 && y_m < length_m && z_m > 0 && z_m < height_m);
      }
      assert.ok(listening.seat.y_m > listening.loudspeakers[0].y_m + 0.2);
    }
  });

  it("refuses sides beyond the limits", () => {
    const first = begin();
    const state = run(first, { type: "start-room", width_m: 1, length_m: 4, height_m: 2 });
    assert.deepEqual([state.document, state.notice.text], [first.document, "A side has to lie between 1.20\u202fm and 25.00\u202fm."]);
  });
});
