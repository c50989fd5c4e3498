import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { describe, it } from "node:test";
import { assumedWords } from "../../www/model/assumed_words.js";
import { alsoSeen, surfacesToHang } from "../../www/model/hang.js";
import { initialState } from "../../www/model/reduce.js";
import { sheetsOfBlocks } from "../../www/model/paging.js";
import { toolsFor } from "../../www/model/tools.js";
import { VERSION } from "../../www/model/version.js";
import { sheet } from "../../www/view/hang/sheet.js";
import { LONGEST_LINK, codeSquare } from "../../www/view/hang/square.js";
import { planReport, rangesOf } from "./fixtures.js";
import { kind, piece, sample } from "./support.js";
import { countOf, textOf, wordsOf } from "./support_text.js";

/** A scene of a document with its answer and its ranges. @param {object} document @param {object} [more] */
function scene(document, { units = "metric", plan = 1 } = {}) {
  const [now, shown] = [planReport(0.9), planReport(0.45)];
  const answer = { document, plan, now, shown: plan === 0 ? now : shown, kit: [] };
  const state = { ...initialState(document), shown: plan, units, answer, late: { document, ranges: { [plan]: rangesOf(0.45), 0: rangesOf(0.9) }, carried: null } };
  return {
    state, document, plan: document.plans[plan], listening: document.listening, now, shown: answer.shown, offers: { ranges: true, bass: true },
    viewport: { width: "wide", content_px: 1276 }, dispatch: () => {}, commands: {}, kit: [], library: { finishes: [], furnishings: [] },
  };
}

const around = { link: "https://example.org/#1.abc", date: new Date(2026, 10, 25), close: () => {}, print: () => {} };
const words = (document, more) => wordsOf(sheet(scene(document, more), around));

describe("what hangs where", () => {
  it("is measured to the near edge and the middle, from the floor and from one corner", () => {
    const [left] = surfacesToHang(sample({ pieces: [piece("left", 1.59, 0.9)] }), 1);
    const [item] = left.items;
    assert.deepEqual([item.edge_m, item.centre_m, item.low_m, item.middle_m].map((value) => value.toFixed(2)), ["1.59", "1.89", "0.90", "1.50"]);
    assert.deepEqual(item.fixings.map(({ u_m, v_m }) => [u_m.toFixed(2), v_m.toFixed(2)]), [["1.69", "2.02"], ["2.09", "2.02"]]);
  });

  it("swaps its sides with a turned piece", () => {
    const [{ items: [item] }] = surfacesToHang(sample({ pieces: [piece("left", 1, 1, { turned: true })] }), 1);
    assert.deepEqual([item.centre_m.toFixed(2), item.middle_m.toFixed(2)], ["1.60", "1.30"]);
  });

  it("stands in the order of walls, ceiling and floor, and of the corner", () => {
    const document = sample({ pieces: [piece("floor", 1, 1), piece("ceiling", 1, 1), piece("right", 3, 1), piece("right", 1, 1)] });
    assert.deepEqual(surfacesToHang(document, 1).map(({ surface, items }) => [surface, items.map(({ index }) => index)]),
      [["right", [3, 2]], ["ceiling", [1]], ["floor", [0]]]);
    assert.deepEqual(surfacesToHang(document, 0), []);
  });

  it("is fixed by what it is: overhead by its corners, a rail by brackets, nothing where nothing may be drilled", () => {
    const curtain = { kit: "thick", place: "curtain", surface: "front", u_m: 0.5, v_m: 1, open: 0 };
    const wide = [kind("thick", 2.6, 1.2)];
    const document = sample({ kit: wide, pieces: [piece("ceiling", 1, 1), curtain, { kit: "thick", place: "stand", x_m: 2, y_m: 2, z_m: 0.05, turn_deg: 0 }] });
    const [front, ceiling, floor] = surfacesToHang(document, 1).map(({ items }) => items[0]);
    assert.deepEqual([front.how, front.fixings.length, ceiling.how, ceiling.fixings.length, floor.how, floor.fixings.length], ["rail", 3, "overhead", 4, "stands", 0]);
    for (const { u_m, v_m } of ceiling.fixings) assert.ok(u_m > 1 && u_m < 3.6 && v_m > 1 && v_m < 2.2);
    const bare = surfacesToHang(sample({ pieces: [piece("left", 1, 1)], limits: { no_drilling: true } }), 1);
    assert.deepEqual(bare[0].items[0].fixings, []);
  });

  it("shows a corner piece on both of its walls and lists it once", () => {
    const document = sample({ pieces: [{ kit: "thick", place: "corner", edge: "front-left", z_m: 0 }] });
    assert.deepEqual(surfacesToHang(document, 1).map(({ surface }) => surface), ["left"]);
    assert.deepEqual([alsoSeen(document, 1, "front").length, alsoSeen(document, 1, "left").length, alsoSeen(document, 1, "back").length], [1, 0, 0]);
  });

  it("is fixed by brackets on both walls where it goes across a corner above the floor", () => {
    const at = (edge, z_m) => sample({ pieces: [{ kit: "thick", place: "corner", edge, z_m }] });
    for (const edge of ["front-left", "back-right"]) {
      const document = at(edge, 1);
      const [{ surface, items: [item] }] = surfacesToHang(document, 1);
      const [across] = alsoSeen(document, 1, edge.split("-")[0]);
      assert.deepEqual([item.how, item.fixings.length, across.fixings.length], ["corner", 2, 2], surface);
      for (const { rect, fixings } of [item, across]) for (const { u_m, v_m } of fixings) {
        assert.ok(u_m > rect.u_m && u_m < rect.u_m + rect.width_m && v_m > rect.v_m && v_m < rect.v_m + rect.height_m);
        const fromEdge_m = edge === "front-left" ? u_m : rect.u_m + rect.width_m - u_m;
        assert.ok(fromEdge_m > rect.width_m / 2, "at the side away from the edge of the room");
      }
    }
    assert.deepEqual(surfacesToHang(at("front-left", 0), 1)[0].items[0].fixings, [], "what stands on the floor needs none");
    assert.match(words(at("front-left", 1)), /across the corner, brackets at 0\.37; height 2\.12, 1\.08, and the same on the other wall/);
  });

  it("needs tools by how it is held", () => {
    const tall = { kit: "thick", place: "corner", edge: "front-left", z_m: 1 };
    for (const tool of ["steps and a second person", "detector for cables and pipes", "drill with bits for this wall"]) {
      assert.ok(toolsFor(surfacesToHang(sample({ pieces: [tall] }), 1).flatMap(({ items }) => items)).includes(tool), tool);
    }
    const tools = (pieces, more = {}) => toolsFor(surfacesToHang(sample({ pieces, ...more }), 1).flatMap(({ items }) => items));
    assert.ok(tools([piece("left", 1, 1)]).includes("detector for cables and pipes"));
    assert.ok(!tools([piece("floor", 1, 1)]).includes("spirit level"));
    assert.ok(tools([piece("ceiling", 1, 1)]).includes("steps and a second person"));
    assert.ok(!tools([piece("left", 1, 1)], { limits: { no_drilling: true } }).some((tool) => /drill/.test(tool)));
  });
});

describe("the sheet", () => {
  it("has plan, date, room, the sentence with its range, parts, weights, cost and tools on its first page", () => {
    const text = words({ ...sample({ pieces: [piece("left", 1.59, 0.9), piece("left", 3, 0.9)] }), currency: "€" });
    for (const part of ["Sample room, Plan A", "25 November 2026", "sheet 1 of 3", "4.00 × 6.00 × 2.50 m", "0.36–0.54 s", "likely met", "2 Thick soft, 100 mm; 0.60 × 1.20 m, 150 mm deep 1, 2 5 kg €45 €90", "in all, 1.4 m² of faces 10 kg €90", "Tools Tape measure", "This page estimates sound."]) {
      assert.ok(text.includes(part), `${part} in ${text.slice(0, 1500)}`);
    }
  });

  it("has each piece by its measures on the page of its surface, with boxes and lines", () => {
    const text = words(sample({ pieces: [piece("left", 1.59, 0.9)] }));
    assert.match(text, /Left wall As you face it: the loudspeakers stand to your right\. Measures in metres, from the finished floor and from the front corner\..*Look for cables, water and gas before drilling/);
    assert.match(text, /1 Thick soft, 0\.60 × 1\.20 fixing marks at 1\.69, 2\.09; height 2\.02 1\.59 1\.89 0\.90 1\.50 5 kg/);
    for (const part of ["Wall type", "Fixing used", "checked for cables and pipes", "fixing rated above 5 kg"]) assert.ok(text.includes(part), part);
  });

  it("names no weight for the fixings where one is not known", () => {
    const { mass_kg: _, ...unknown } = kind("unknown");
    const text = words(sample({ kit: [kind(), unknown], pieces: [piece("left", 1, 0.9), piece("left", 3, 0.9, { kit: "unknown" })] }));
    assert.ok(text.includes("fixing rated above the weight of each piece, not all known, with room to spare"), text);
    assert.ok(!text.includes("fixing rated above 5 kg"));
  });

  it("measures in feet and eighths of an inch where the reader does", () => {
    const text = words(sample({ pieces: [piece("left", 1.2573, 0.9144)] }), { units: "imperial" });
    assert.match(text, /Measures in feet and inches/);
    assert.match(text, /4' 1 1\/2" 5' 1 1\/4" 3' 4' 11 5\/8" 11 lb/);
  });

  it("ends with the cautions in full, what was assumed, the check and the link", () => {
    const document = { ...sample({ pieces: [piece("ceiling", 1, 1)], assumed: ["room.surfaces.left.finish", "goal"], room: { conditions: ["old-building"], keep_clear: [{ surface: "ceiling", u_m: 3, v_m: 4, width_m: 0.1, height_m: 0.1, margin_m: 0.3, why: "smoke detector" }] } }) };
    const text = words(document).split("Mind, assume, check")[1];
    for (const part of ["This will hang over people", "asbestos or lead", "was set to 0.30 m, less than the 0.60 m that this page plans with", "what the left wall is made of, the goal", "No balloons or bangs near ears.", "measured", "press the link of this plan", `Seatward ${VERSION}`]) assert.ok(text.includes(part), part);
  });

  it("has the room, its bounce marks and nothing to hang where nothing is placed", () => {
    const text = words(sample());
    assert.match(text, /Nothing to hang yet\. .*Bounce marks .*Left wall left, ring the front corner 2\.00 the finished floor 1\.03/s);
    assert.match(text, /sheet 3 of 3/);
  });

  it("draws openings, zones, fixing marks and bounce marks in patterns of its own", () => {
    const room = { surfaces: { ...sample().room.surfaces, left: { finish: "x", parts: [{ role: "window", finish: "w", u_m: 4, v_m: 0.9, width_m: 1, height_m: 1 }] } }, keep_clear: [{ surface: "left", u_m: 3, v_m: 0.3, width_m: 0.1, height_m: 0.1, margin_m: 0.3, why: "socket" }] };
    const drawn = textOf(sheet(scene(sample({ room, pieces: [piece("left", 1, 1)] })), around));
    assert.ok(drawn.includes("url(#p-gap)") && !drawn.includes("url(#k-gap)"), "patterns of the paper");
    assert.equal(countOf(drawn, /class="fixing"/g), 4, "two on the elevation, two on the piece");
    for (const part of [">window<", ">socket<", 'class="bounce-mark"']) assert.ok(drawn.includes(part), part);
    assert.doesNotMatch(drawn, /NaN|undefined/);
  });

  it("breaks a wall that is too long in two, with an overlap", () => {
    const long = sample({ room: { length_m: 25 }, pieces: [piece("left", 1, 1), piece("left", 20, 1)] });
    assert.match(words(long), /part 1 of 2, with an overlap.*part 2 of 2, with an overlap/);
    assert.doesNotMatch(words(sample({ pieces: [piece("left", 1, 1)] })), /with an overlap/);
  });

  it("keeps the version of the crate", () => {
    const crate = readFileSync(new URL("../../Cargo.toml", import.meta.url), "utf8");
    assert.equal(VERSION, /^version = "(.*)"$/m.exec(crate)[1]);
  });
});

describe("the code square", () => {
  it("takes links as long as ours, and says when one is too long", () => {
    assert.ok(codeSquare(`https://example.org/#1.${"a".repeat(2000)}`));
    assert.ok(codeSquare("x".repeat(LONGEST_LINK)));
    assert.equal(codeSquare("x".repeat(LONGEST_LINK + 1)), null);
    const long = wordsOf(sheet(scene(sample()), { ...around, link: "x".repeat(4000) }));
    assert.match(long, /too long for a code square, so paper cannot hold it/);
    assert.ok(textOf(sheet(scene(sample()), { ...around, link: "x".repeat(4000) })).includes(`href=${"x".repeat(4000)}`));
  });
});

describe("what stands on which sheet", () => {
  const whole = (px) => ({ before_px: 0, rows_px: [px] });

  it("fills each from the top and keeps a block whole", () => {
    assert.deepEqual(sheetsOfBlocks([whole(60), whole(40), whole(30)], 100), [[{ block: 0, from: 0, to: 1 }, { block: 1, from: 0, to: 1 }], [{ block: 2, from: 0, to: 1 }]]);
  });

  it("goes on with the rows of a table, under its head again", () => {
    const table = { before_px: 20, rows_px: [30, 30, 30, 30, 30, 30] };
    assert.deepEqual(sheetsOfBlocks([whole(40), table], 100), [
      [{ block: 0, from: 0, to: 1 }, { block: 1, from: 0, to: 1 }], [{ block: 1, from: 1, to: 3 }], [{ block: 1, from: 3, to: 5 }], [{ block: 1, from: 5, to: 6 }],
    ]);
  });

  it("leaves no sheet empty before what is taller than one", () => {
    assert.deepEqual(sheetsOfBlocks([whole(300), whole(10)], 100), [[{ block: 0, from: 0, to: 1 }], [{ block: 1, from: 0, to: 1 }]]);
  });
});

describe("what was assumed", () => {
  it("is said in words, each once", () => {
    assert.deepEqual(assumedWords({ assumed: ["listening.loudspeakers[0]", "listening.loudspeakers[1]", "room.surfaces.floor.finish", "room.height_m", "else.where"] }),
      ["where the loudspeakers stand", "what the floor is made of", "the size of the room", "else.where"]);
  });
});
