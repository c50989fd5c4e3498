// Parts below the first screen come one after the other.
import assert from "node:assert/strict";
import { describe, it } from "node:test";
import { nothing } from "../../www/vendor.js";
import { inTurn, nextTurn } from "../../www/view/in_turn.js";

describe("parts below the first screen", () => {
  it("are drawn one more at every turn, in order, until all are there", () => {
    const there = () => Array.from({ length: 20 }, (_, number) => inTurn(number, () => number)).filter((part) => part !== nothing);
    assert.deepEqual(there(), []);
    let turns = 0;
    while (nextTurn()) {
      turns += 1;
      assert.deepEqual(there(), Array.from({ length: turns }, (_, number) => number));
    }
    assert.ok(turns > 1 && turns < 20, `${turns} turns`);
    assert.equal(there().length, turns);
  });
});
