import assert from "node:assert/strict";
import { describe, it } from "node:test";
import { engineOver } from "../../www/engine/live.js";
import { piece, sample } from "./support.js";

/** A session that counts what it is asked; it calls a document bad that has no room. */
function counting() {
  const calls = [];
  const session = {
    calls,
    library: () => ({ finishes: [] }),
    open(document) {
      calls.push("open");
      if (document === "poison") throw new Error("cannot be read");
      return { findings: document.room ? [] : [{ path: "room", code: "missing", message: "The room is missing." }], newer: false };
    },
    move_piece(plan, index, piece) {
      calls.push(`move piece ${index} of plan ${plan}`);
      return { findings: piece.u_m < 0 ? [{ path: `plans[${plan}].pieces[${index}]`, code: "outside", message: "It is outside." }] : [] };
    },
    predict(index) {
      calls.push(`predict ${index}`);
      return { name: `plan ${index}`, call: calls.length };
    },
    follow(index) {
      calls.push(`follow ${index}`);
      return { name: `plan ${index}`, call: calls.length };
    },
    kit: () => [],
  };
  return session;
}

describe("the engine", () => {
  it("opens a document once and keeps today's report while the room stays", () => {
    const session = counting();
    const engine = engineOver(session);
    const first = sample();
    const moved = { ...first, plans: [first.plans[0], { name: "A", pieces: [piece("left", 1, 1)] }] };
    const one = engine.answer(first, 1);
    const two = engine.answer(moved, 1);
    assert.deepEqual(session.calls, ["open", "predict 0", "predict 1", "open", "predict 1"]);
    assert.equal(two.now, one.now);
    assert.deepEqual([two.document, two.plan, two.shown.name], [moved, 1, "plan 1"]);
  });

  it("hands over the one piece that moved, and the whole document where more than that is another one", () => {
    const first = sample({ pieces: [piece("left", 1, 1), piece("left", 3, 1)] });
    const withPieces = (document, pieces) => ({ ...document, plans: [document.plans[0], { ...document.plans[1], pieces }] });
    const [one, other] = first.plans[1].pieces;
    const moved = withPieces(first, [one, { ...other, u_m: 4 }]);
    const session = counting();
    const engine = engineOver(session);
    engine.answer(first, 1, null, true);
    session.calls.length = 0;
    assert.equal(engine.answer(moved, 1, null, true).document, moved);
    assert.deepEqual(session.calls, ["move piece 1 of plan 1", "follow 1"]);
    for (const document of [
      withPieces(moved, [{ ...one }, { ...other }]), withPieces(moved, [one]), { ...moved, goal: { low_s: 0.2, high_s: 0.4 } },
      { ...moved, plans: [moved.plans[0], { ...moved.plans[1], name: "B" }] }, { ...moved, plans: [{ ...moved.plans[0] }, moved.plans[1]] },
    ]) {
      const again = engineOver(session);
      again.answer(moved, 1, null, true);
      session.calls.length = 0;
      again.answer(document, 1, null, true);
      assert.equal(session.calls[0], "open");
    }
  });

  it("reads the whole document where the one piece is at fault, as another one is open then", () => {
    const first = sample({ pieces: [piece("left", 1, 1)] });
    const session = counting();
    const engine = engineOver(session);
    engine.answer(first, 1, null, true);
    session.calls.length = 0;
    engine.answer({ ...first, plans: [first.plans[0], { ...first.plans[1], pieces: [piece("left", -1, 1)] }] }, 1, null, true);
    assert.deepEqual(session.calls.slice(0, 2), ["move piece 0 of plan 1", "open"]);
  });

  it("asks for less while something is dragged, and for all of it afterwards", () => {
    const session = counting();
    const engine = engineOver(session);
    const document = sample();
    assert.equal(engine.answer(document, 1, null, true).moving, true);
    assert.equal(engine.answer(document, 1).moving, false);
    assert.equal(engine.answer(document, 0, null, true).moving, false, "today is always whole");
    assert.deepEqual(session.calls, ["open", "predict 0", "follow 1", "predict 1"]);
  });

  it("computes today anew when what it rests on changes", () => {
    const first = sample();
    for (const change of [{ room: { ...first.room } }, { listening: { ...first.listening } }, { kit: [] }, { plans: [{ ...first.plans[0] }] }, { own_finishes: [] }]) {
      const session = counting();
      const engine = engineOver(session);
      engine.answer(first, 0);
      engine.answer({ ...first, ...change }, 0);
      assert.equal(session.calls.filter((call) => call === "predict 0").length, 2, Object.keys(change)[0]);
    }
  });

  it("answers null for a bad document, and recovers", () => {
    const engine = engineOver(counting());
    assert.equal(engine.answer({}, 0), null);
    assert.equal(engine.answer("poison", 0), null);
    assert.ok(engine.answer(sample(), 0));
    const failing = engineOver({ ...counting(), predict: () => { throw new Error("trap"); } });
    assert.equal(failing.answer(sample(), 0), null);
  });

  it("turns an exception into a finding", () => {
    assert.deepEqual(engineOver(counting()).check("poison").findings.map(({ message }) => message), ["This could not be read: cannot be read."]);
    assert.deepEqual(engineOver(counting()).check({}).findings[0].path, "room");
  });

  it("opens again after another document was checked", () => {
    const session = counting();
    const engine = engineOver(session);
    const first = sample();
    engine.answer(first, 0);
    engine.check({});
    engine.answer(first, 0);
    assert.equal(session.calls.filter((call) => call === "open").length, 3);
  });
});
