import assert from "node:assert/strict";
import { readFileSync, readdirSync } from "node:fs";
import { describe, it } from "node:test";
import { EXAMPLES } from "../../www/model/examples.js";
import { obstacles } from "../../www/model/obstacles.js";
import { kindById, pieceRect, rectOverlap } from "../../www/model/geometry.js";

const SCENARIOS = new URL("../../scenarios/", import.meta.url);
const room = (file) => JSON.parse(readFileSync(new URL(`${file}.json`, SCENARIOS), "utf8"));

/** Pieces of a document that lie where the page would not let them be dropped: "plan 1, piece 3 stops at the door". */
function misplaced(document) {
  return document.plans.flatMap((plan, number) => plan.pieces.flatMap((piece, index) => {
    if (piece.place !== "surface") return [];
    const inTheWay = obstacles(document, number, piece.surface, index, kindById(document, piece.kit))
      .filter(({ rect }) => rectOverlap(pieceRect(document, piece), rect));
    return inTheWay.map(({ reason }) => `plan ${number}, piece ${index} ${reason}`);
  }));
}

describe("the examples", () => {
  it("are all the rooms that lie beside the page, each with its own words", () => {
    const files = readdirSync(SCENARIOS).filter((name) => name.endsWith(".json")).map((name) => name.replace(".json", ""));
    assert.deepEqual(EXAMPLES.map(({ file }) => file).toSorted(), files.toSorted());
    assert.equal(files.length, 6);
    for (const { file, name, about } of EXAMPLES) {
      assert.ok(name.startsWith(room(file).title), `${name} opens ${room(file).title}`);
      assert.match(about, /^[A-Z][^.]{10,58}\.$/);
    }
    assert.equal(new Set(EXAMPLES.map(({ about }) => about)).size, EXAMPLES.length);
  });

  for (const { file } of EXAMPLES) {
    it(`hold nothing that could not be dropped there: ${file}`, () => assert.deepEqual(misplaced(room(file)), []));
  }

  it("would show a piece that lies on the escape window's margin", () => {
    const document = room("basement-den");
    document.plans[1].pieces[0].u_m = 1.3;
    assert.ok(misplaced(document).some((words) => words.startsWith("plan 1, piece 0 stops 0.05")));
  });
});
