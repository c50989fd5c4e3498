import assert from "node:assert/strict";
import { describe, it } from "node:test";
import { initialState, reduce } from "../../www/model/reduce.js";
import { awaitsTap } from "../../www/model/spots.js";
import { frozen, piece, sample } from "./support.js";

const first = (changes) => frozen(initialState(sample({ pieces: [piece("left", 1, 1)], ...changes })));
const after = (state, ...actions) => actions.reduce((now, action, index) => frozen(reduce(now, action, index)), state);

describe("loudspeakers and seat", () => {
  it("are selected in place of a piece, and a piece in place of them", () => {
    const state = after(first(), { type: "select", index: 0 }, { type: "select-spot", spot: 1 });
    assert.deepEqual([state.selected, state.spot], [null, 1]);
    const piece_again = after(state, { type: "select", index: 0 });
    assert.deepEqual([piece_again.selected, piece_again.spot], [0, null]);
    assert.equal(after(state, { type: "select-spot", spot: 7 }), state);
  });

  it("are selected by moving them", () => {
    assert.equal(after(first(), { type: "move-seat", to: { y_m: 3 } }).spot, "seat");
    assert.equal(after(first(), { type: "move-loudspeaker", index: 1, to: { x_m: 2.8 } }).spot, 1);
  });

  it("stop at the walls and say so", () => {
    const state = after(first(), { type: "move-loudspeaker", index: 0, to: { x_m: -1, y_m: 0 } });
    assert.deepEqual(state.document.listening.loudspeakers[0], { x_m: 0.1, y_m: 0.1, z_m: 1 });
    assert.equal(state.notice.text, "Left loudspeaker stops 10 cm from the surface, where it touches it. Loudspeakers that are built into a wall are not modelled.");
    assert.equal(after(state, { type: "move-loudspeaker", index: 0, to: { x_m: 1 } }).notice, null);
  });

  it("may be nearer than half a metre, with a word", () => {
    const state = after(first(), { type: "move-seat", to: { x_m: 1.2, y_m: 1.2 } });
    assert.match(state.notice.text, /nearer than half a metre/);
    assert.equal(state.document.listening.seat.x_m, 1.2);
  });

  it("turn and change their kind in one step each, within bounds", () => {
    const document = sample({ assumed: ["listening.loudspeakers[0].directivity", "listening.loudspeakers[0].toe_in_deg"] });
    const start = frozen(initialState(document));
    const kind = after(start, { type: "set-loudspeaker", index: 0, directivity: "narrow" });
    assert.deepEqual(kind.document.listening.loudspeakers[0], { x_m: 1, y_m: 1, z_m: 1, directivity: "narrow" });
    assert.deepEqual(kind.document.assumed, ["listening.loudspeakers[0].toe_in_deg"]);
    const turned = after(kind, { type: "set-loudspeaker", index: 0, toe_in_deg: 400 });
    assert.equal(turned.document.listening.loudspeakers[0].toe_in_deg, 180);
    assert.deepEqual(turned.history.past.map(({ label }) => label), ["kind of loudspeaker 1", "turn of loudspeaker 1"]);
    assert.equal(after(turned, { type: "set-loudspeaker", index: 0, toe_in_deg: 180 }), turned);
    assert.equal(after(turned, { type: "set-loudspeaker", index: 0, toe_in_deg: NaN }), turned);
    assert.deepEqual(after(turned, { type: "undo" }, { type: "undo" }).document, document);
  });

  it("of a plan of its own change only there", () => {
    const own = { loudspeakers: [{ x_m: 1, y_m: 1, z_m: 1 }], seat: { x_m: 2, y_m: 3, z_m: 1 } };
    const state = after(first({ plans: [{ name: "Now", pieces: [] }, { name: "A", pieces: [], listening: own }] }),
      { type: "move-seat", to: { y_m: 3.5 } }, { type: "set-loudspeaker", index: 0, toe_in_deg: 12.34 });
    assert.equal(state.document.listening.seat.y_m, 4);
    assert.equal(state.document.plans[1].listening.seat.y_m, 3.5);
    assert.equal(state.document.plans[1].listening.loudspeakers[0].toe_in_deg, 12.3);
  });

  it("wait for a tap only while they are selected", () => {
    const state = after({ ...first(), surface: "left" }, { type: "await-tap", spot: "seat" });
    assert.deepEqual([state.spot, state.surface, awaitsTap(state)], ["seat", "floor", true]);
    assert.match(state.notice.text, /^Tap the floor where the seat is to stand\.$/);
    for (const other of [{ type: "select", index: 0 }, { type: "select-spot", spot: 1 }, { type: "await-tap", spot: null }]) {
      assert.equal(awaitsTap(after(state, other)), false);
    }
  });
});
