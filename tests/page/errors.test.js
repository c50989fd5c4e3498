// Empty, wrong and odd states: each keeps what was there, and says why with the limit.
import assert from "node:assert/strict";
import { describe, it } from "node:test";
import { answerWords } from "../../www/model/answer.js";
import { initialState, reduce } from "../../www/model/reduce.js";
import { planReport, rangesOf } from "./fixtures.js";
import { frozen, piece, sample } from "./support.js";

const first = (more = {}) => frozen(initialState(sample(more), { example: false }));
const run = (state, ...actions) => actions.reduce((one, action, step) => frozen(reduce(one, frozen(action), step * 1e4)), state);
const listening = (state) => state.document.listening;

describe("loudspeakers and seat that are missing", () => {
  it("are removed in one step and put back where they usually stand, marked as assumed", () => {
    const none = run(first(), { type: "remove-spots", what: "loudspeakers" }, { type: "remove-spots", what: "seat" });
    assert.deepEqual(listening(none), { loudspeakers: [] });
    assert.deepEqual(none.history.past.map(({ label }) => label), ["remove the loudspeakers", "remove the seat"]);
    const back = run(none, { type: "put-back-spots" });
    assert.equal(listening(back).loudspeakers.length, 2);
    assert.ok(listening(back).seat.y_m > listening(back).loudspeakers[0].y_m);
    assert.deepEqual(back.document.assumed, ["listening.loudspeakers[0]", "listening.loudspeakers[1]", "listening.seat"]);
    assert.equal(back.history.past.length, 3);
    assert.deepEqual(run(none, { type: "undo" }, { type: "undo" }).document, first().document);
  });

  it("leave alone what is still there", () => {
    const back = run(first(), { type: "remove-spots", what: "seat" }, { type: "put-back-spots" });
    assert.deepEqual(listening(back).loudspeakers, sample().listening.loudspeakers);
    const whole = first();
    assert.equal(run(whole, { type: "put-back-spots" }), whole);
  });

  it("are put back into a plan that has its own", () => {
    const plans = [{ name: "Now", pieces: [] }, { name: "A", pieces: [], listening: { loudspeakers: [] } }];
    const back = run(first({ plans }), { type: "put-back-spots" });
    assert.equal(back.document.plans[1].listening.loudspeakers.length, 2);
    assert.deepEqual(listening(back), sample().listening);
  });
});

describe("a room beyond what was tried", () => {
  it("is taken and said to be outside of what is trusted", () => {
    const long = run(first(), { type: "set-room", length_m: 16 });
    assert.equal(long.document.room.length_m, 16);
    assert.match(long.notice.text, /^Outside the range we trust, sides of 1\.80.m to 15\.00.m: use the order of plans, not the numbers\./);
    const small = run(first(), { type: "set-room", width_m: 1.9, length_m: 1.9, height_m: 2 });
    assert.match(small.notice.text, /^Outside the range we trust, 10\.0.m³ to 500\.0.m³/);
    assert.equal(run(first(), { type: "set-room", length_m: 5.9 }).notice, null);
  });

  it("is marked in the answer where it is no box or absorbs like a booth", () => {
    const odd = run(first(), { type: "set-condition", condition: "not-a-box", on: true });
    assert.equal(odd.history.past[0].label, "shape of the room");
    const answer = (document, more = {}) => ({ document, now: planReport(0.9), shown: planReport(0.5, more), plan: 1, kit: [] });
    const doubt = { ranges: rangesOf(0.5), today: rangesOf(0.9), differences: [], missing: "none" };
    assert.match(answerWords(answer(odd.document), doubt).text, /Ranges are doubled, as the room is no box\./);
    assert.match(answerWords(answer(first().document, { notes: ["More like a recording booth than a room: check the surfaces. Its ranges are doubled."] }), doubt).text,
      /More like a recording booth than a room: check the surfaces\./);
    assert.doesNotMatch(answerWords(answer(first().document), doubt).text, /doubled|booth/);
  });
});

describe("a seat or a loudspeaker where it cannot be", () => {
  const sofa = { furnishings: [{ kind: "sofa-fabric", count: 1, at: { x_m: 1, y_m: 4, width_m: 2, depth_m: 0.9, height_m: 0.8 } }] };

  it("stops at the wall and says so", () => {
    const seat = run(first(), { type: "move-seat", to: { x_m: -2 } });
    assert.equal(listening(seat).seat.x_m, 0.1);
    assert.equal(seat.notice.text, "Seat stops 10 cm from the surface, where it touches it.");
    const loudspeaker = run(first(), { type: "move-loudspeaker", index: 1, to: { y_m: -1 } });
    assert.equal(listening(loudspeaker).loudspeakers[1].y_m, 0.1);
    assert.match(loudspeaker.notice.text, /built into a wall are not modelled\.$/);
  });

  it("is warned of inside a sofa and near a loudspeaker, and all else goes on", () => {
    const inside = run(first({ room: sofa }), { type: "move-seat", to: { x_m: 2, y_m: 4.7, z_m: 0.6 } });
    assert.equal(listening(inside).seat.z_m, 0.6);
    assert.equal(inside.notice.text, "The seat is inside the sofa: the figures there are those of free air.");
    assert.equal(run(first({ room: sofa }), { type: "move-seat", to: { x_m: 2, y_m: 4.7, z_m: 1.1 } }).notice, null, "ears over the back of a sofa");
    const near = run(first(), { type: "move-seat", to: { x_m: 1.2, y_m: 1.2 } });
    assert.match(near.notice.text, /nearer than half a metre/);
    assert.equal(near.notice.tone, "note");
  });
});

describe("parts that do not fit", () => {
  it("are trimmed to their wall, and that is said", () => {
    const state = run(first(), { type: "set-part", surface: "left", index: null, part: { role: "opening", finish: "open-archway", u_m: 0, v_m: 0, width_m: 9, height_m: 2 } });
    assert.equal(state.document.room.surfaces.left.parts[0].width_m, 6);
    assert.match(state.notice.text, /^Trimmed to the left wall\./);
  });
});

describe("numbers and names from anywhere", () => {
  it("never get into a document if they are none", () => {
    const state = first({ pieces: [piece("left", 1, 1)] });
    for (const value of [NaN, Infinity, -Infinity]) {
      const after = run(state, { type: "set-piece", index: 0, u_m: value }, { type: "set-room", width_m: value }, { type: "move-seat", to: { x_m: value } },
        { type: "set-limit", limit: "budget", value }, { type: "set-air", key: "temperature_c", value }, { type: "set-kind", id: "thick", price: value });
      assert.doesNotMatch(JSON.stringify(after.document), /null/);
      assert.deepEqual(after.document, state.document, `${value}`);
    }
  });

  it("are kept as text, at most 60 characters", () => {
    const script = `<script>alert(1)</script>${"x".repeat(100)}`;
    const named = run(first(), { type: "set-title", title: script }, { type: "rename-plan", index: 1, name: script });
    assert.equal(named.document.title, script.slice(0, 60));
    assert.equal(named.document.plans[1].name, script.slice(0, 60));
  });

  it("stop at the wall however large they are", () => {
    const state = run(first({ pieces: [piece("left", 1, 1)] }), { type: "set-piece", index: 0, u_m: 1e12 });
    assert.equal(state.document.plans[1].pieces[0].u_m, 5.4);
    assert.equal(state.notice.text, "Stops at the edge of the left wall.");
  });
});
