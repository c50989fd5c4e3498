// A piece from the figures of its data sheet: typed or pasted, refused below 0, warned about above 1.2.
import assert from "node:assert/strict";
import { describe, it } from "node:test";
import { OWN_BANDS_HZ } from "../../www/model/household.js";
import { kindDepth, shelfGroup } from "../../www/model/kinds.js";
import { isMany, readShares } from "../../www/model/measured_text.js";
import { doubtedWords } from "../../www/model/own_kind.js";
import { initialState, reduce } from "../../www/model/reduce.js";
import { frozen, sample } from "./support.js";

const VALUES = [0.2, 0.5, 0.9, 1, 1, 0.95];
const SLAB = { type: "add-own-kind", name: " Slab  of  May ", values: VALUES, width_m: 0.6, height_m: 1.2, depth_m: 0.08, price: 30 };
const start = () => frozen(initialState(sample(), { example: false }));
const added = (more = {}) => reduce(start(), frozen({ ...SLAB, ...more }), 0);
const plain = (text) => text?.replaceAll("\u202f", " ");

describe("a piece with own figures", () => {
  it("goes on the shelf in one step, with name, size, depth and price", () => {
    const state = added();
    const made = state.document.kit.at(-1);
    assert.deepEqual(made, { id: "own-kind-1", name: "Slab of May", width_m: 0.6, height_m: 1.2, depth_mm: 80, price: 30, absorber: { bands_hz: [125, 250, 500, 1000, 2000, 4000], absorption: VALUES } });
    assert.deepEqual([kindDepth(made), shelfGroup(made), state.history.past.length, state.notice], [0.08, "soft", 1, null]);
    const second = reduce(state, { ...SLAB, price: null }, 1e4).document.kit.at(-1);
    assert.deepEqual([second.id, "price" in second], ["own-kind-2", false]);
    assert.deepEqual(reduce(state, { type: "undo" }, 1e4).document, start().document);
  });

  it("may say that it looks like a picture", () => {
    assert.equal(added({ looks: "picture" }).document.kit.at(-1).looks, "picture");
    assert.equal("looks" in added({ looks: null }).document.kit.at(-1), false);
  });

  it("is refused with a clear sentence below 0, beyond 1.3, without a name, a size or six figures", () => {
    const refused = (more) => { const state = added(more); assert.deepEqual(state.document, start().document); assert.equal(state.history.past.length, 0); assert.equal(state.notice.tone, "problem"); return plain(state.notice.text); };
    assert.equal(refused({ values: [0.2, -0.1, 0.9, 1, 1, 1] }), "250 Hz: a figure below 0 is none; nothing gives back more sound than meets it.");
    assert.equal(refused({ values: [0.2, 0.5, 0.9, 1, 1, 1.31] }), "4 kHz: 1.31 is more than a data sheet states; the most taken here is 1.3.");
    assert.match(refused({ values: [0.2, NaN, 0.9, 1, 1, 1] }), /^250 Hz/);
    assert.match(refused({ values: VALUES.slice(1) }), /six figures/);
    assert.match(refused({ name: "  " }), /name/);
    assert.match(refused({ width_m: 0 }), /side/);
    assert.match(refused({ depth_m: 1.5 }), /deep/);
    assert.match(refused({ price: -1 }), /price/);
  });

  it("is taken above 1.2 with a warning that names the bands", () => {
    const state = added({ values: [0.2, 0.5, 1.25, 1.3, 1.2, 1] });
    assert.equal(state.history.past.length, 1);
    assert.match(plain(state.notice.text), /^Slab of May is on the shelf\. Above 1\.2 at 500 Hz, 1 kHz: that is more than its face can take\./);
    assert.equal(doubtedWords([1.2, 1.2, 1.2, 1.2, 1.2, 1.2]), null);
  });
});

describe("six figures pasted", () => {
  const values = (text, first = 0) => { const read = readShares(text, OWN_BANDS_HZ, first); assert.equal(read.problem, undefined, text); return [...read.values]; };
  const six = OWN_BANDS_HZ.map((hz, index) => [hz, VALUES[index]]);

  it("are read from rows, columns and pairs, with decimal point or comma", () => {
    for (const text of ["0.2 0.5 0.9 1 1 0.95", "0,2; 0,5; 0,9; 1; 1; 0,95", "0.2\t0.5\t0.9\t1.00\t1.00\t0.95", "125\t250\t500\t1000\t2000\t4000\n0,2\t0,5\t0,9\t1,0\t1,0\t0,95", "125 0.2\n250 0.5\n500 0.9\n1k 1\n2k 1\n4k 0.95"]) {
      assert.deepEqual(values(text), six, text);
      assert.ok(isMany(text));
    }
    assert.deepEqual(values("0.9 1", 2), [[500, 0.9], [1000, 1]]);
  });

  it("are refused below 0 and beyond what a data sheet states, by band", () => {
    const why = (text) => plain(readShares(text, OWN_BANDS_HZ).problem);
    assert.equal(why("0.2 -0.5 0.9 1 1 1"), "250 Hz: −0.50 is below 0: nothing gives back more sound than meets it. Check the sign.");
    assert.match(why("0.2 0.5 0.9 1 1 1.4"), /^4 kHz: 1\.40 is more than a data sheet states; the most taken here is 1\.3\. Percent\?/);
    assert.match(why("a b"), /could not read “a”\. Try 0\.85/);
    assert.match(why("1 1 1 1 1 1 1"), /do not fit/);
  });
});

describe("a finish with own figures", () => {
  it("says why a share is refused, and where figures above 1 belong", () => {
    const why = (value) => reduce(start(), { type: "set-own-finish", id: null, surface: "left", values: [value, 0, 0, 0, 0, 0] }, 0).notice.text;
    assert.match(why(-0.1), /below 0/);
    assert.match(why(1.1), /from 0 to 1\. Figures above 1 are those of a piece/);
  });
});
