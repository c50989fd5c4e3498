import assert from "node:assert/strict";
import { describe, it } from "node:test";
import { differing } from "../../www/model/compare.js";
import { money } from "../../www/model/format.js";
import { costDifference, costOf, costText, partsOf, priceOfOne } from "../../www/model/money.js";
import { cell, partsCsv } from "../../www/model/parts_csv.js";
import { initialState, reduce } from "../../www/model/reduce.js";
import { plansBar } from "../../www/view/plans.js";
import { frozen, kind, piece, sample } from "./support.js";
import { textOf, wordsOf } from "./support_text.js";

const THIN = "\u202f";

/** Steps of the reducer on a frozen state. @param {object} state @param {...object} actions */
const after = (state, ...actions) => actions.reduce((now, action, index) => frozen(reduce(now, action, 5000 * (index + 1))), frozen(state));

/** Now, A and B; B has one piece more than A. @param {object} [more] */
function three(more = {}) {
  const [one, two] = [piece("left", 1, 1), piece("right", 1, 1)];
  return sample({ plans: [{ name: "Now", pieces: [] }, { name: "A", pieces: [one] }, { name: "B", pieces: [one, two] }], ...more });
}

describe("what a plan costs", () => {
  it("is the price of each piece, or of its face by area", () => {
    assert.equal(priceOfOne(kind()), 45);
    assert.equal(priceOfOne(kind("a", 0.6, 1.2, { price: undefined, price_per_m2: 50 })), 36);
    assert.equal(priceOfOne(kind("a", 0.6, 1.2, { price: 10, price_per_m2: 50 })), 10, "its own price goes first");
    assert.equal(priceOfOne(kind("a", 0.6, 1.2, { price: undefined })), null);
    assert.equal(priceOfOne(kind("a", 0.6, 1.2, { price: 0 })), 0, "what is there already costs nothing");
  });

  it("adds up, and says at least where a price is not known", () => {
    const kit = [kind(), kind("mystery", 0.6, 0.6, { price: undefined, mass_kg: undefined })];
    const document = sample({ kit, pieces: [piece("left", 1, 1), piece("left", 2, 1), { ...piece("left", 3, 1), kit: "mystery" }] });
    const cost = costOf(document, document.plans[1]);
    assert.deepEqual(cost, { pieces: 3, known: 90, unpriced: 1, mass_kg: 10, unweighed: 1, area_m2: cost.area_m2 });
    assert.ok(Math.abs(cost.area_m2 - 1.8) < 1e-9);
    assert.equal(costText(cost), "at least 90");
    assert.equal(costText({ ...cost, unpriced: 3, known: 0 }), "no price yet");
    assert.equal(costText({ ...cost, unpriced: 0 }, "€"), "€90");
    assert.equal(costText(costOf(document, document.plans[0])), "nothing");
    const [first, second] = partsOf(document, document.plans[1]);
    assert.deepEqual([first.indices, first.total, second.indices, second.total, second.price], [[0, 1], 90, [2], null, null]);
  });

  it("has any sign and none by default", () => {
    assert.deepEqual([money(1300), money(12.5), money(5, "$"), money(1300, "kr"), money(5, "CHF")],
      [`1${THIN}300`, "12.50", "$5", `1${THIN}300${THIN}kr`, `5${THIN}CHF`]);
  });

  it("is compared in words only where both are known", () => {
    const cost = (known, unpriced = 0) => ({ pieces: 3, known, unpriced, mass_kg: 0, unweighed: 0, area_m2: 1 });
    assert.equal(costDifference(cost(90), cost(210)), "costs 120 less");
    assert.equal(costDifference(cost(210), cost(90), "€"), "costs €120 more");
    assert.equal(costDifference(cost(90), cost(90)), "costs the same");
    assert.equal(costDifference(cost(90, 1), cost(210)), "");
  });

  it("is set by one price at a time, in one step each", () => {
    const state = initialState(sample({ pieces: [piece("left", 1, 1)] }));
    const byArea = after(state, { type: "set-kind", id: "thick", price_per_m2: 50 });
    assert.deepEqual([byArea.document.kit[0].price, byArea.document.kit[0].price_per_m2], [undefined, 50]);
    assert.equal(byArea.history.past.length, 1);
    const byPiece = after(byArea, { type: "set-kind", id: "thick", price: 30 });
    assert.deepEqual([byPiece.document.kit[0].price, byPiece.document.kit[0].price_per_m2], [30, undefined]);
    assert.equal("price" in after(byPiece, { type: "set-kind", id: "thick", price: null }).document.kit[0], false);
    const renamed = after(byArea, { type: "set-kind", id: "thick", name: "Panel" });
    assert.deepEqual([renamed.document.kit[0].name, renamed.document.kit[0].price_per_m2], ["Panel", 50]);
    for (const price of [-1, Infinity, NaN, 2e6]) assert.equal(after(state, { type: "set-kind", id: "thick", price }).notice.tone, "problem");
  });

  it("keeps a price by area when a piece is resized", () => {
    const state = after(initialState(sample({ pieces: [piece("left", 1, 1)] })), { type: "set-kind", id: "thick", price_per_m2: 50 },
      { type: "set-piece", index: 0, width_m: 1 });
    assert.equal(costOf(state.document, state.document.plans[1]).known, 60);
  });

  it("takes a sign of at most eight characters", () => {
    const state = initialState(sample());
    assert.equal(after(state, { type: "set-currency", sign: " € " }).document.currency, "€");
    assert.equal(after(state, { type: "set-currency", sign: "123456789" }).document.currency, "12345678");
    assert.equal("currency" in after(state, { type: "set-currency", sign: "€" }, { type: "set-currency", sign: "" }).document, false);
  });
});

describe("the parts as a table for a spreadsheet", () => {
  it("have one line for each kind", () => {
    const document = sample({ pieces: [piece("left", 1, 1), piece("left", 2, 1)] });
    assert.equal(partsCsv({ ...document, currency: "€" }, document.plans[1]), [
      "count,pieces,kind,width_m,height_m,depth_m,mass_kg_each,price_each,price_total,currency",
      '2,1 2,"Thick soft, 100 mm",0.6,1.2,0.15,5,45,90,€', ""].join("\r\n"));
  });

  it("never hold a formula", () => {
    for (const evil of ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", "  =1", "\n@x"]) {
      assert.match(cell(evil), /^"?'/, JSON.stringify(evil));
    }
    assert.equal(cell('a "b", c'), '"a ""b"", c"');
    assert.equal(cell("plain"), "plain");
    const document = sample({ kit: [kind("thick", 0.6, 1.2, { name: '=HYPERLINK("http://x")' })], pieces: [piece("left", 1, 1)] });
    assert.ok(partsCsv(document, document.plans[1]).includes(`"'=HYPERLINK(""http://x"")"`));
  });
});

describe("plans", () => {
  it("change places, but the room as it is stays first", () => {
    const state = { ...initialState(three()), shown: 2 };
    const moved = after(state, { type: "move-plan", index: 2, by: -1 });
    assert.deepEqual([moved.document.plans.map(({ name }) => name), moved.shown], [["Now", "B", "A"], 1]);
    assert.equal(moved.history.past.at(-1).label, "move Plan B");
    for (const step of [{ index: 1, by: -1 }, { index: 2, by: 1 }, { index: 0, by: 1 }]) {
      assert.equal(after(state, { type: "move-plan", ...step }).document, state.document);
    }
  });

  it("are compared by two, and what is compared stays the same plan", () => {
    const state = after({ ...initialState(three()), shown: 2 }, { type: "compare", index: 1 });
    assert.equal(state.compared, 1);
    assert.deepEqual([after(state, { type: "show-plan", index: 1 }).compared, after(state, { type: "show-plan", index: 0 }).compared], [2, null], "today stands beside every plan anyway");
    assert.equal(after({ ...state, shown: 0, compared: null }, { type: "compare", index: 2 }).shown, 2);
    assert.equal(after(state, { type: "compare", index: 0 }).compared, null, "today is what every plan is compared with");
    assert.equal(after(state, { type: "compare", index: 2 }).compared, null, "not with itself");
    assert.equal(after(state, { type: "compare", index: 7 }).compared, null);
    assert.equal(after(state, { type: "move-plan", index: 2, by: -1 }).compared, 2);
    assert.equal(after(state, { type: "remove-plan", index: 1 }).compared, null);
    assert.equal(after(state, { type: "open-document", document: sample(), from: "file" }).compared, null);
    assert.equal(state.history.past.length, 0, "looking is no step");
  });

  it("differ by the pieces that only one of them has", () => {
    const document = three();
    assert.deepEqual(differing(document, 2, 1), { here: [1], there: [], moved: false });
    assert.deepEqual(differing(document, 1, 2), { here: [], there: [1], moved: false });
    const twice = three({ plans: [{ name: "Now", pieces: [] }, { name: "A", pieces: [piece("left", 1, 1)] },
      { name: "B", pieces: [piece("left", 1.00001, 1), piece("left", 2, 1)], listening: { ...sample().listening, seat: { x_m: 2, y_m: 3, z_m: 1 } } }] });
    assert.deepEqual(differing(twice, 1, 2), { here: [], there: [1], moved: true });
  });

  it("stand in the tab row with a name of any length", () => {
    const name = "A very long name of a plan that somebody typed in the evening";
    const document = sample({ plans: [{ name: "Now", pieces: [] }, { name, pieces: [] }] });
    const scene = { document, state: initialState(document), plan: document.plans[1], viewport: { width: "wide" }, commands: {}, dispatch: () => {} };
    assert.match(textOf(plansBar(scene)), new RegExp(`title=Plan ${name} `));
    assert.match(wordsOf(plansBar(scene)), /Name of this plan Duplicate Remove Plan A very/);
    assert.match(wordsOf(plansBar({ ...scene, document: three(), state: { ...initialState(three()), shown: 2 } })), /compared with: Today Plan A/);
  });
});
