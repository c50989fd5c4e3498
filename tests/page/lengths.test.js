import assert from "node:assert/strict";
import { describe, it } from "node:test";
import { length } from "../../www/model/format.js";
import { readLength } from "../../www/model/lengths.js";
import { initialState, reduce } from "../../www/model/reduce.js";
import { between, piece, sample, seeded } from "./support.js";

const INCH = 0.0254;

describe("reading lengths", () => {
  const spellings = [
    ["2.4", 2.4], ["2,4", 2.4], ["2.4 m", 2.4], ["3,1 m", 3.1], ["240 cm", 2.4], ["310cm", 3.1], ["2400mm", 2.4], ["2 400 mm", null],
    [".5", 0.5], ["2.", 2], ["1,2345", 1.2345], ["2 metres", 2],
    ["7' 10 1/2\"", 94.5 * INCH], ["7'10 1/2\"", 94.5 * INCH], ["7ft 10in", 94 * INCH], ["7 feet 10 inches", 94 * INCH],
    ["94 1/2 in", 94.5 * INCH], ["94½ in", 94.5 * INCH], ["7' 10½\"", 94.5 * INCH], ["7′ 10½″", 94.5 * INCH], ["7’ 10”", 94 * INCH],
    ["10' 2\"", 122 * INCH], ["10'", 120 * INCH], ["10 ft", 120 * INCH], ["3/4 in", 0.75 * INCH], ["¾\"", 0.75 * INCH],
    ["7' 10-1/2\"", 94.5 * INCH], ["7' 10.5\"", 94.5 * INCH], ["7' 10", 94 * INCH], ["5\u202fm", 5], ["5\u00a0m", 5],
  ];
  for (const [text, expected_m] of spellings) {
    it(`reads ${JSON.stringify(text)} as ${expected_m}`, () => {
      const { value_m, problem } = readLength(text);
      if (expected_m === null) assert.ok(problem);
      else assert.ok(Math.abs(value_m - expected_m) <= 5e-5, `${value_m} is not ${expected_m}`);
    });
  }

  it("asks about three digits after a comma instead of guessing", () => {
    const { problem } = readLength("2,400");
    assert.match(problem, /decimals or thousands\? Write 2\.400 or 2400\./);
    assert.match(readLength("2,400 mm").problem, /2\.400 mm or 2400 mm/);
  });

  it("names the format when it cannot read", () => {
    assert.equal(readLength("abt 3").problem, "I could not read “abt 3”. Try 3.1 m or 10' 2\".");
    assert.match(readLength("").problem, /Type a length/);
  });

  const nonsense = ["abt 3", "", "  ", "m", "ft", "'", "\"", "-2", "1e9", "NaN", "Infinity", "2.4.5", "2 m 3", "1/0 in", "<b>2</b>", "9".repeat(400), "2;", "0x10"];
  for (const text of nonsense) {
    it(`answers ${JSON.stringify(text.slice(0, 20))} with a sentence`, () => {
      const { value_m, problem } = readLength(text);
      assert.equal(value_m, undefined);
      assert.match(problem, /[.?]$/);
    });
  }

  it("asks for a unit in imperial", () => assert.match(readLength("24", "imperial").problem, /Feet or inches/));
  it("takes a stray unit of the other system", () => assert.equal(readLength("0.6 m", "imperial").value_m, 0.6));

  it("gives the very value back when the shown text is retyped", () => {
    const random = seeded(11);
    for (let i = 0; i < 1000; i += 1) {
      const value_m = between(random, 0, 25);
      for (const units of ["metric", "imperial"]) {
        assert.equal(readLength(length(value_m, units), units, value_m).value_m, value_m);
      }
    }
  });

  it("reads every shown text to within its rounding", () => {
    const random = seeded(12);
    for (let i = 0; i < 1000; i += 1) {
      const value_m = between(random, 0, 25);
      assert.ok(Math.abs(readLength(length(value_m, "metric")).value_m - value_m) <= 0.005 + 1e-9);
      const imperial = length(value_m, "imperial");
      assert.ok(Math.abs(readLength(imperial, "imperial").value_m - value_m) <= INCH / 16 + 1e-4, imperial);
    }
  });

  it("never throws, whatever is typed", () => {
    const random = seeded(13);
    const signs = [..."0123456789.,'\" /-mcftin½⅛eE+()<&%\u202f"];
    for (let i = 0; i < 5000; i += 1) {
      const text = Array.from({ length: Math.floor(random() * 12) }, () => signs[Math.floor(random() * signs.length)]).join("");
      const { value_m, problem } = readLength(text, random() < 0.5 ? "metric" : "imperial");
      assert.ok(problem === undefined ? Number.isFinite(value_m) && value_m >= 0 : problem.length > 10, text);
    }
  });
});

describe("twenty changes of units", () => {
  it("leave every length of a document as it was, though each is left and typed again as it is shown", () => {
    let state = initialState(sample({ pieces: [piece("left", 1.2345, 0.6789), piece("right", 2.3333, 1.0001)] }), { example: false });
    const { document } = state;
    for (let toggle = 0; toggle < 20; toggle += 1) {
      state = reduce(state, { type: "set-units", units: toggle % 2 === 0 ? "imperial" : "metric" }, toggle);
      for (const [index, { u_m, v_m }] of document.plans[1].pieces.entries()) {
        const typed = (value_m) => readLength(length(value_m, state.units), state.units, value_m).value_m;
        state = reduce(state, { type: "set-piece", index, u_m: typed(u_m), v_m: typed(v_m) }, toggle);
      }
      const { width_m, length_m, height_m } = document.room;
      const [width, long, height] = [width_m, length_m, height_m].map((value_m) => readLength(length(value_m, state.units), state.units, value_m).value_m);
      state = reduce(state, { type: "set-room", width_m: width, length_m: long, height_m: height }, toggle);
    }
    assert.equal(state.document, document);
    assert.equal(state.history.past.length, 0);
  });
});
