import assert from "node:assert/strict";
import { describe, it } from "node:test";
import { toSurface } from "../../www/model/geometry.js";
import { isLit, litBounces, litFrom, litText, nextLit } from "../../www/model/lit.js";
import { bounce } from "../../www/model/marks.js";
import { DRIVERS_M, HEAD_M, SEAT_HALF_WIDTH_M, spreadOf, spreads } from "../../www/model/spread.js";
import { foldBox } from "../../www/view/fold.js";
import { bouncesTable } from "../../www/view/bounces.js";
import { litDrawing, litSentence, litWords } from "../../www/view/lit.js";
import { bounceMarks } from "../../www/view/marks.js";
import { initialState } from "../../www/model/reduce.js";
import { planReport, reflection } from "./fixtures.js";
import { between, sample, seeded } from "./support.js";
import { countOf, textOf, wordsOf } from "./support_text.js";

const room = sample().room;
const [left] = sample().listening.loudspeakers;
const { seat } = sample().listening;

/** A scene of the sample room with one first bounce. @param {object} [lit] @param {object[]} [reflections] */
function scene(lit, reflections = [reflection({ dips: [{ frequency_hz: 125, depth_db: 9 }] })]) {
  const document = sample();
  const state = { ...initialState(document) };
  state.shows = { ...state.shows, lit };
  const report = planReport(0.5, { reflections });
  return {
    state, document, plan: document.plans[1], listening: document.listening, now: report, shown: report, dispatch: () => {},
    viewport: { width: "wide", content_px: 1276 }, library: { finishes: [], furnishings: [] },
    fold: foldBox(document.room, { width_px: 760, height_px: 500, ceiling_px: 460 }),
  };
}

describe("the spread of a bounce mark", () => {
  it("holds the marks of every head and driver within its limits", () => {
    const random = seeded(5);
    for (let time = 0; time < 300; time += 1) {
      const from = { x_m: between(random, 0.3, 3.7), y_m: between(random, 0.3, 2.5), z_m: between(random, 0.5, 1.4) };
      const ear = { x_m: between(random, 0.5, 3.5), y_m: between(random, 2.6, 5.5), z_m: between(random, 0.9, 1.4) };
      const head = [between(random, ear.x_m - SEAT_HALF_WIDTH_M, ear.x_m + SEAT_HALF_WIDTH_M), ear.y_m, between(random, ear.z_m - HEAD_M, ear.z_m + HEAD_M)];
      const driver = [from.x_m, from.y_m, between(random, from.z_m - DRIVERS_M, from.z_m)];
      for (const surface of ["left", "right", "front", "back", "floor", "ceiling"]) {
        const rect = spreadOf(room, surface, from, ear);
        const { u_m, v_m } = toSurface(surface, bounce(room, surface, driver, head).point_m);
        assert.ok(u_m >= rect.u_m - 1e-9 && u_m <= rect.u_m + rect.width_m + 1e-9, `${surface} u ${u_m} ${JSON.stringify(rect)}`);
        assert.ok(v_m >= rect.v_m - 1e-9 && v_m <= rect.v_m + rect.height_m + 1e-9, `${surface} v ${v_m} ${JSON.stringify(rect)}`);
      }
    }
  });

  it("is on the ceiling what similar triangles say: 1.6 of 2.9 parts of the seat's width", () => {
    // Widest for the lowest driver, 1.6 m below the ceiling, and the highest head, 1.3 m below it.
    const rect = spreadOf(room, "ceiling", { x_m: 2, y_m: 1, z_m: 1.1 }, { x_m: 2, y_m: 4, z_m: 1.1 });
    const near = (0.25 * 1.6) / 2.9;
    assert.ok(Math.abs(rect.width_m - 2 * near) < 1e-9, `${rect.width_m} ${2 * near}`);
  });

  it("stays on the surface, and needs a seat", () => {
    const low = spreadOf(room, "floor", { ...left, z_m: 0.1 }, seat);
    assert.ok(low.v_m >= 0 && low.v_m + low.height_m <= room.length_m);
    assert.equal(spreads(room, { loudspeakers: [left] }).length, 0);
    assert.equal(spreads(room, { loudspeakers: [left], seat }).length, 6);
  });
});

describe("the bounce that is looked at", () => {
  it("has a short text that reads back", () => {
    for (const lit of [{ surface: "left", loudspeaker: 1, by: "tap" }, { surface: "ceiling", loudspeaker: null, by: "tap" }]) {
      assert.deepEqual(litFrom(litText(lit), "tap"), lit);
    }
    assert.equal(litFrom("nowhere 1", "hover"), null);
    assert.equal(litFrom(null, "hover"), null);
  });

  it("is one bounce, or those of all loudspeakers off its surface", () => {
    assert.ok(isLit({ surface: "left", loudspeaker: null, by: "hover" }, "left", 1));
    assert.ok(!isLit({ surface: "left", loudspeaker: 0, by: "hover" }, "left", 1));
    const both = planReport(0.5, { reflections: [reflection(), reflection({ loudspeaker: 1 }), reflection({ order: 2 })] });
    assert.equal(litBounces(both, { surface: "left", loudspeaker: null, by: "hover" }).length, 2);
    assert.equal(litBounces(both, null).length, 0);
  });

  it("goes round all of them by keys", () => {
    let lit = { surface: "left", loudspeaker: 0, by: "focus" };
    const seen = new Set();
    for (let time = 0; time < 12; time += 1) {
      seen.add(litText(lit));
      lit = nextLit(lit, 1, 2);
    }
    assert.equal(seen.size, 12);
    assert.equal(litText(lit), "left 0");
    assert.equal(litText(nextLit(lit, -1, 2)), "ceiling 1");
  });

  it("lights its row and its mark, with path, delay and level", () => {
    const lit = scene({ surface: "left", loudspeaker: 0, by: "hover" });
    assert.match(textOf(bouncesTable(lit)), /<tr class=is-lit data-bounce=left/);
    assert.equal(countOf(bouncesTable(scene()), /is-lit/g), 0);
    const face = lit.fold.faces.left;
    assert.match(textOf(bounceMarks(face, lit, true)), /class="mark is-lit"/);
    assert.match(wordsOf(litDrawing(lit, face)), /4\.0 ms later, −6 dB 4\.20 m, straight 3\.16 m/);
    assert.match(textOf(litDrawing(lit, lit.fold.faces.floor)), /lit-way/, "its way over the floor");
    assert.match(wordsOf(litSentence(lit, lit.shown.reflections[0], true)), /^Left wall, left loudspeaker: 4\.20 m instead of 3\.16 m, so 4\.0 ms later; −6 dB with Plan A, −6 dB today\. Alone it would make its first dip at 125 Hz\. Heads and drivers move it within 0\.\d\d × 0\.\d\d m\.$/);
    assert.match(wordsOf(litWords(scene())), /Point at a mark or a row/);
  });

  it("gives every mark a box for its spread and a name that says path, delay and level", () => {
    const plain = scene();
    const drawn = bounceMarks(plain.fold.faces.left, plain, true);
    assert.equal(countOf(drawn, /class="wander"/g), 1);
    assert.match(textOf(drawn), /role="button" tabindex=0\s+aria-label=left wall, left loudspeaker: 4\.0 milliseconds later, −6 decibels/);
  });
});
