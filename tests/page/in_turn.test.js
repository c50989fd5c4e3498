// Portions of the first drawing come one after the other; those below the first screen only once they are loaded.
import assert from "node:assert/strict";
import { describe, it } from "node:test";
import { nothing } from "../../www/vendor.js";
import { inTurn, nextTurn } from "../../www/view/in_turn.js";

const PORTIONS = /** @type {const} */ (["side", "charts", "lists", "bounces", "shares", "bass", "response", "absorbers", "checkup", "last"]);

describe("portions of the first drawing", () => {
  const there = () => PORTIONS.filter((portion) => inTurn(portion, () => portion) !== nothing);

  /** @param {boolean} loaded */
  const rest = (loaded) => {
    let turns = there().length;
    while (nextTurn(loaded)) {
      turns += 1;
      assert.deepEqual(there(), PORTIONS.slice(0, turns));
    }
    return turns;
  };

  it("are drawn one more at every turn, in order, what is below the first screen once it is there", () => {
    assert.deepEqual(there(), []);
    assert.equal(rest(false), 2);
    assert.equal(rest(true), PORTIONS.length);
    assert.equal(nextTurn(true), false);
  });
});
