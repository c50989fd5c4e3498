// The shelf by groups, what absorbs in the room, and bounces off things and behind them, as they are shown.
import assert from "node:assert/strict";
import { describe, it } from "node:test";
import { absorberRows, totalArea } from "../../www/model/absorbers.js";
import { initialState } from "../../www/model/reduce.js";
import { absorbersPart } from "../../www/view/absorbers.js";
import { bouncesTable } from "../../www/view/bounces.js";
import { afterwards } from "../../www/view/afterwards.js";
import { roomFacts } from "../../www/view/facts.js";
import { foldBox } from "../../www/view/fold.js";
import { itemPanel } from "../../www/view/item.js";
import { kitShelf } from "../../www/view/kit.js";
import { partsList } from "../../www/view/partslist.js";
import { thingBounces } from "../../www/view/things.js";
import { planReport, reflection, series } from "./fixtures.js";
import { kind, sample } from "./support.js";
import { countOf, textOf, wordsOf } from "./support_text.js";

const curtain = kind("curtain", 1.5, 2.3, { stands: "curtain", name: "Curtain, heavy" });
const screen = kind("screen", 0.8, 1.8, { stands: "stand", name: "Screen" });
const sofa = { id: "sofa-fabric", name: "Sofa, cloth", absorption_area_m2: [1, 1, 1.4, 1.6, 1.5, 1.3], surface_m2: 4, spread: 2, source: "Common practice, no source.", size_m: [2, 0.9, 0.8] };
const finish = { id: "plaster-on-brick", name: "Plaster", typical: [0.02, 0.02, 0.03, 0.04, 0.05, 0.05], low: [0.01, 0.01, 0.02, 0.02, 0.02, 0.02], high: [0.03, 0.03, 0.04, 0.05, 0.07, 0.09], scattering: 0.1, source: "A handbook.", suits: "wall floor ceiling" };
const note = { id: "curtain", good_for: "Covers glass.", ask_for: "Ask for twice the width.", source: "A build.", absorption: series((band) => band / 30) };

/** A scene of the sample room. @param {object} [more] */
function scene({ now = planReport(0.9), shown = planReport(0.5), pieces = [], room, state = {} } = {}) {
  const document = sample({ pieces, room, kit: [kind()] });
  document.kit = [kind(), ...(pieces.length > 0 ? [curtain, screen, kind("corner", 0.6, 1.2, { stands: "corner", name: "Corner piece" })] : [])];
  return {
    state: { ...initialState(document), ...state }, document, plan: document.plans[1], listening: document.listening, now, shown, offers: { ranges: true, bass: true },
    viewport: { width: "wide", content_px: 1276 }, dispatch: () => {}, kit: [],
    library: { finishes: [finish], furnishings: [sofa], shelf: [kind(), curtain, screen], shelf_notes: [note] },
    fold: foldBox(document.room, { width_px: 760, height_px: 500, ceiling_px: 460 }),
  };
}

describe("the shelf", () => {
  it("shows one group at a time and names the groups that have kinds", () => {
    const shown = kitShelf(scene(), 57);
    assert.equal(countOf(shown, /data-kind=/g), 1);
    assert.match(wordsOf(shown), /soft curtains stands/);
    const cloth = kitShelf(scene({ state: { shows: { zone_hz: 1000, second: false, layer: null, shelf: "cloth" } } }), 57);
    assert.match(textOf(cloth), /data-kind=curtain/);
  });

  it("tells what a kind is good for, what to ask the seller and where its figures come from", () => {
    const words = wordsOf(kitShelf(scene({ state: { shows: { zone_hz: 1000, second: false, layer: null, shelf: "cloth" } } }), 57));
    for (const text of ["Covers glass.", "Ask for twice the width.", "A build."]) assert.ok(words.includes(text), text);
  });
});

describe("what absorbs", () => {
  const area = (value) => series(() => value);
  const now = planReport(0.9, { absorbers: [{ what: "surface", name: "left wall", area_m2: area(1) }, { what: "air", name: "Air", area_m2: area(0.2) }] });
  const shown = planReport(0.5, { absorbers: [...now.absorbers, { what: "piece", name: "Thick soft", area_m2: area(3) }, { what: "furnishing", name: "Chair", area_m2: area(0.3) }, { what: "furnishing", name: "Chair", area_m2: area(0.4) }] });

  it("is sorted by the middle of the range, adds up like things, and sums to the whole", () => {
    const rows = absorberRows(shown, now);
    assert.deepEqual(rows.map(({ name }) => name), ["Thick soft", "left wall", "Chair", "Air"]);
    assert.ok(Math.abs(rows[2].middle_m2 - 0.7) < 1e-9);
    assert.equal(rows[0].before_m2, null);
    assert.equal(totalArea(rows).length, 24);
    for (const sum of totalArea(rows)) assert.ok(Math.abs(sum - 4.9) < 1e-9);
  });

  it("is shown as bars for each thing and as a table with the sum", () => {
    const part = absorbersPart(scene({ now, shown }));
    assert.equal(countOf(part, /absorber-bars/g), 4);
    assert.match(wordsOf(part), /Thick soft 61 %; Left wall 20 %/);
    assert.match(wordsOf(part), /All together 4\.90/);
    assert.match(wordsOf(part), /by third of an octave from 50 Hz to 10 kHz Thing 50 63 80 100 125 160 .* 8k 10k /);
  });

  it("has each third of an octave in the table, the mean of three in the drawing", () => {
    const uneven = planReport(0.5, { absorbers: [{ what: "piece", name: "Peak", area_m2: series((band) => (band === 4 ? 3 : 0)) }] });
    const [row] = absorberRows(uneven, now);
    assert.deepEqual(row.thirds_m2.slice(3, 6), [0, 3, 0]);
    assert.equal(row.area_m2[1], 1);
    assert.match(wordsOf(absorbersPart(scene({ now, shown: uneven }))), /Peak 0\.00 0\.00 0\.00 0\.00 3\.00 0\.00/);
  });
});

describe("bounces and things", () => {
  const at = { x_m: 1, y_m: 2, width_m: 2, depth_m: 0.9, height_m: 0.8 };
  const room = { furnishings: [{ kind: "sofa-fabric", count: 1, at }] };

  it("off furniture stand in a list of their own, with today's level beside", () => {
    const off = reflection({ surfaces: [], points_m: [], furnishing: 0, zones: undefined });
    const words = wordsOf(thingBounces(scene({ room, now: planReport(0.9, { reflections: [off] }), shown: planReport(0.5, { reflections: [{ ...off, level_db: series(() => -9) }] }) })));
    assert.match(words, /1 bounce off furniture and screens/);
    assert.match(words, /Sofa left 4\.0 −6 −9/);
  });

  it("name what stands in their way", () => {
    const reflections = [reflection({ blocked_by: [0] }), reflection({ loudspeaker: 1, screened_by: [3] })];
    const words = wordsOf(bouncesTable(scene({ room, now: planReport(0.9, { reflections }), shown: planReport(0.5, { reflections }) })));
    assert.match(words, /behind sofa/);
    assert.match(words, /behind 4/);
  });
});

describe("fields of pieces by their place", () => {
  const pieces = [
    { kit: "corner", place: "corner", edge: "back-left", z_m: 0.3 }, { kit: "screen", place: "stand", x_m: 1, y_m: 2, z_m: 0.05, turn_deg: 45 },
    { kit: "curtain", place: "curtain", surface: "right", u_m: 1, v_m: 0.1, open: 0.4 },
  ];
  const panel = (selected) => wordsOf(itemPanel(scene({ pieces, state: { selected } })));

  it("stand in the item panel", () => {
    assert.match(panel(0), /in the back left corner/);
    assert.match(panel(1), /turned, degrees/);
    assert.match(panel(2), /drawn aside: 40 %/);
  });

  it("and in the parts list, where each has its row", () => {
    const list = partsList(scene({ pieces }));
    assert.equal(countOf(list, /rowheader/g), 3);
    assert.doesNotMatch(wordsOf(list), /not computed/);
  });
});

describe("room facts", () => {
  it("show the values of finishes and things with spread and source, and fields for all that is there", async () => {
    const keep_clear = [{ surface: "ceiling", u_m: 1, v_m: 1, width_m: 0.1, height_m: 0.1, margin_m: 0.6, why: "detector" }];
    const door = { role: "door", finish: "plaster-on-brick", u_m: 1, v_m: 0, width_m: 0.8, height_m: 2, swing_m: 0.7 };
    const made = scene({ room: { keep_clear, furnishings: [{ kind: "sofa-fabric", count: 1, at: { x_m: 1, y_m: 2, width_m: 2, depth_m: 0.9, height_m: 0.8 } }] } });
    made.document.room.surfaces = { ...made.document.room.surfaces, left: { finish: "plaster-on-brick", parts: [door] } };
    assert.match(wordsOf(roomFacts(made)), /Size .* Being loaded\. Walls/, "words stand at once, fields after the first answer");
    await afterwards.want(() => {});
    const words = wordsOf(roomFacts(made));
    for (const text of ["A handbook.", "published from 0.01", "a factor of 2.0 either way", "leaf swings in by", "Detector, ceiling, 0.60 m kept free", "in the plan", "type own values", "or from, s"]) {
      assert.ok(words.includes(text), text);
    }
  });
});
