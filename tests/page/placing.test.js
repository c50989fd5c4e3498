import assert from "node:assert/strict";
import { describe, it } from "node:test";
import { pieceRect, rectOverlap, surfaceSize } from "../../www/model/geometry.js";
import { bounceMarks } from "../../www/model/marks.js";
import { obstacles } from "../../www/model/obstacles.js";
import { place } from "../../www/model/placing.js";
import { between, kind, piece, sample, seeded } from "./support.js";

const EXACT = { tolerance_m: 0 };
/** @param {object} document @param {object} one @param {number} u_m @param {number} v_m */
const put = (document, one, u_m, v_m, options = EXACT, except = null) => place(document, 1, one, except, { u_m, v_m }, options);
/** @param {{piece: {u_m: number, v_m: number}}} placed */
const corner = (placed) => [placed.piece.u_m, placed.piece.v_m];

describe("placing without snapping", () => {
  it("leaves a free place alone, to 0.1 mm", () => {
    const placed = put(sample(), piece("left", 0, 0), 1.23456, 0.5);
    assert.deepEqual(corner(placed), [1.2346, 0.5]);
    assert.equal(placed.reason, null);
    assert.equal(placed.wanted, null);
  });

  it("keeps a piece on its surface and says so", () => {
    const placed = put(sample(), piece("left", 0, 0), 9, -1);
    assert.deepEqual(corner(placed), [5.4, 0]);
    assert.equal(placed.reason, "stops at the edge of the left wall");
  });

  it("swaps the sides of a turned piece", () => {
    assert.deepEqual(corner(put(sample(), piece("left", 0, 0, { turned: true }), 9, 9)), [4.8, 1.9]);
  });

  it("slides along an archway and names it", () => {
    const parts = [{ role: "opening", finish: "open-archway", u_m: 3, v_m: 0, width_m: 0.9, height_m: 2.0 }];
    const document = sample({ room: { surfaces: { ...sample().room.surfaces, left: { finish: "plaster-on-brick", parts } } } });
    const placed = put(document, piece("left", 0, 0), 2.6, 0.7);
    assert.deepEqual(corner(placed), [2.4, 0.7]);
    assert.equal(placed.reason, "stops at the archway");
    assert.deepEqual(placed.wanted, { u_m: 2.6, v_m: 0.7, width_m: 0.6, height_m: 1.2 });
  });

  it("goes into the corner between two pieces", () => {
    const document = sample({ pieces: [piece("back", 0, 0), piece("back", 0.6, 1.2)] });
    const placed = put(document, piece("back", 0, 0), 0.5, 0.1);
    assert.deepEqual(corner(placed), [0.6, 0]);
    assert.equal(placed.reason, "stops at Thick soft, 100 mm");
  });

  it("stops an upright piece 5 cm from an escape window", () => {
    // The basement: marks at 1.60 m, window from 1.90 m; the piece must end at 1.85 m.
    const parts = [{ role: "window", finish: "glass", u_m: 1.9, v_m: 0.94, width_m: 0.9, height_m: 0.6 }];
    const surfaces = { ...sample().room.surfaces, left: { finish: "concrete", parts } };
    const document = sample({ room: { width_m: 3.404, length_m: 5.131, height_m: 2.108, surfaces } });
    const placed = put(document, piece("left", 0, 0), 1.3, 0.33);
    assert.deepEqual(corner(placed), [1.25, 0.33]);
    assert.match(placed.reason, /^stops 0\.05\u202fm from the window$/);
    assert.match(put(document, piece("left", 0, 0), 1.3, 0.33, { tolerance_m: 0, units: "imperial" }).reason, /^stops 2" from the window$/);
  });

  it("gives up beyond 30 cm and tells why", () => {
    const parts = [{ role: "opening", finish: "open-archway", u_m: 1, v_m: 0, width_m: 3, height_m: 2.5 }];
    const document = sample({ room: { surfaces: { ...sample().room.surfaces, left: { finish: "plaster-on-brick", parts } } } });
    const placed = put(document, piece("left", 0, 0), 2.2, 0.5);
    assert.equal(placed.legal, false);
    assert.equal(placed.reason, "no free place here: the archway is in the way");
    assert.deepEqual(placed.wanted, { u_m: 2.2, v_m: 0.5, width_m: 0.6, height_m: 1.2 });
  });

  it("refuses what is larger than the surface", () => {
    const document = sample({ kit: [kind("thick", 3, 3)] });
    const placed = put(document, piece("left", 0, 0), 0, 0);
    assert.equal(placed.legal, false);
    assert.equal(placed.reason, "larger than the left wall");
  });
});

describe("limits of the home", () => {
  it("keeps a bare surface bare, but lets a piece move that hangs there", () => {
    const document = sample({ limits: { bare: ["ceiling"] }, pieces: [piece("ceiling", 1, 1)] });
    const refused = put(document, piece("ceiling", 0, 0), 2, 3);
    assert.equal(refused.legal, false);
    assert.equal(refused.reason, "ceiling kept bare: your limit");
    assert.equal(put(document, piece("ceiling", 1, 1), 2, 3, EXACT, 0).legal, true);
  });

  it("holds heights on walls, not on the floor", () => {
    const document = sample({ limits: { min_height_m: 0.9, max_height_m: 2.3 } });
    assert.deepEqual(corner(put(document, piece("left", 0, 0), 1, 0.7)), [1, 0.9]);
    assert.match(put(document, piece("left", 0, 0), 1, 0.7).reason, /^nothing below 0\.90\u202fm: your limit$/);
    assert.deepEqual(corner(put(document, piece("left", 0, 0), 1, 1.3)), [1, 1.1]);
    assert.deepEqual(corner(put(document, piece("floor", 0, 0), 1, 0)), [1, 0]);
  });

  it("refuses a piece deeper than the limit", () => {
    const placed = put(sample({ limits: { max_depth_m: 0.12 } }), piece("left", 0, 0), 1, 1);
    assert.equal(placed.legal, false);
    assert.match(placed.reason, /^150\u202fmm deep: your limit is 120\u202fmm$/);
    assert.equal(put(sample({ limits: { max_depth_m: 0.15 } }), piece("left", 0, 0), 1, 1).legal, true);
  });

  it("does not hang a deep piece behind furniture", () => {
    const at = { x_m: 1, y_m: 5.05, width_m: 2, depth_m: 0.9, height_m: 0.8 };
    const document = sample({ room: { furnishings: [{ kind: "sofa-fabric", count: 1, at }] } });
    assert.deepEqual(corner(put(document, piece("back", 0, 0), 1.5, 0.6)), [1.5, 0.8]);
    assert.equal(put(document, piece("back", 0, 0), 1.5, 0.6).reason, "stops at the furniture");
  });
});

describe("the concrete loft: sprinklers and a detector", () => {
  const zone = (x_m, y_m, why) => ({ surface: "ceiling", u_m: x_m, v_m: y_m, width_m: 0, height_m: 0, margin_m: 0.6, why });
  const sprinklers = [1.6, 4.6, 7.6].flatMap((x_m) => [1.8, 5.3].map((y_m) => zone(x_m, y_m, "sprinkler")));
  const document = sample({
    room: { width_m: 9.2, length_m: 7.1, height_m: 3.4, keep_clear: [...sprinklers, zone(4.6, 3.6, "detector")] },
    kit: [kind("thick", 1.2, 0.6)],
  });
  document.listening = { loudspeakers: [{ x_m: 3.3, y_m: 1, z_m: 1 }, { x_m: 5.9, y_m: 1, z_m: 1 }], seat: { x_m: 4.6, y_m: 4.3, z_m: 1.05 } };

  it("stops at the sprinkler's zone and slides 3 cm away, where exactly 0.6 m to the detector's zone is left", () => {
    const mark = bounceMarks(document, 1).find(({ surface, loudspeaker }) => surface === "ceiling" && loudspeaker === 0);
    assert.ok(Math.abs(mark.u_m - 3.96) < 0.01 && Math.abs(mark.v_m - 2.67) < 0.01, `mark at ${mark.u_m}, ${mark.v_m}`);
    const placed = put(document, piece("ceiling", 0, 0), 3.96 - 0.6, 2.67 - 0.3);
    assert.deepEqual(corner(placed), [3.36, 2.4]);
    assert.match(placed.reason, /^stops 0\.60\u202fm from the sprinkler$/);
    const detectorEdge = 3.6 - 0.6;
    assert.ok(Math.abs(detectorEdge - (placed.piece.v_m + 0.6)) < 1e-9, "touches the detector's zone on the other side");
  });

  it("has one legal line between the two zones, 0.1 mm either side of it is not legal", () => {
    for (const v_m of [2.3999, 2.4001]) {
      const placed = put(document, piece("ceiling", 0, 0), 3.6, v_m);
      assert.equal(placed.piece.v_m, 2.4);
      assert.ok(placed.reason);
    }
    assert.equal(put(document, piece("ceiling", 0, 0), 3.6, 2.4).reason, null);
  });
});

describe("snapping", () => {
  const options = (document) => ({ tolerance_m: 0.08, marks: bounceMarks(document, 1) });

  it("holds on the bounce mark before anything else", () => {
    const document = sample();
    const mark = bounceMarks(document, 1).find(({ surface }) => surface === "left");
    const placed = put(document, piece("left", 0, 0), mark.u_m - 0.3 + 0.04, mark.v_m - 0.6 - 0.03, options(document));
    assert.ok(Math.abs(placed.piece.u_m + 0.3 - mark.u_m) < 1e-4);
    assert.ok(Math.abs(placed.piece.v_m + 0.6 - mark.v_m) < 1e-4);
    assert.deepEqual(placed.guides.map(({ text }) => text), ["centred on bounce mark", "centred on bounce mark"]);
  });

  it("mirrors the piece on the facing wall", () => {
    const document = sample({ pieces: [piece("left", 4.337, 1.013)] });
    const placed = put(document, piece("right", 0, 0), 4.3, 1.0, options(document));
    assert.deepEqual(corner(placed), [4.337, 1.013]);
    assert.equal(placed.guides[0].text, "mirrors Thick soft, 100 mm");
  });

  it("mirrors across the room's length axis on the ceiling", () => {
    const document = sample({ pieces: [piece("ceiling", 0.337, 4.013)] });
    const placed = put(document, piece("ceiling", 0, 0), 3.0, 4.0, options(document));
    assert.deepEqual(corner(placed), [3.063, 4.013]);
  });

  it("sets edge to edge and in line", () => {
    const document = sample({ pieces: [piece("back", 1.013, 0.717)] });
    const placed = put(document, piece("back", 0, 0), 1.65, 0.7, options(document));
    assert.deepEqual(corner(placed), [1.613, 0.717]);
    assert.deepEqual(placed.guides.map(({ text }) => text), ["touches Thick soft, 100 mm", "in line with Thick soft, 100 mm"]);
  });

  it("makes equal gaps", () => {
    const document = sample({ pieces: [piece("back", 0.111, 1.117), piece("back", 3.127, 0.131)] });
    const placed = put(document, piece("back", 0, 0), 1.6, 0.6, { tolerance_m: 0.05 });
    assert.equal(placed.piece.u_m, 1.619);
    assert.equal(placed.guides.find(({ axis }) => axis === "u").text, "equal gaps");
  });

  it("falls back to the grid of 5 cm, or 2 in", () => {
    assert.deepEqual(corner(put(sample(), piece("back", 0, 0), 0.517, 0.333, { tolerance_m: 0.08 })), [0.5, 0.35]);
    const imperial = put(sample(), piece("back", 0, 0), 0.517, 0.333, { tolerance_m: 0.08, units: "imperial" });
    assert.deepEqual(corner(imperial), [0.508, 0.3556]);
  });

  it("shows no guide for a line that an obstacle kept it from", () => {
    const document = sample({ pieces: [piece("left", 2.2, 0)] });
    const mark = bounceMarks(document, 1).find(({ surface, loudspeaker }) => surface === "left" && loudspeaker === 0);
    const placed = put(document, piece("left", 0, 0), mark.u_m - 0.3, 0.3, options(document));
    for (const guide of placed.guides) {
      const centre = guide.axis === "u" ? placed.piece.u_m + 0.3 : placed.piece.v_m + 0.6;
      if (guide.text.startsWith("centred")) assert.ok(Math.abs(centre - guide.at_m) < 1e-3);
    }
    assert.equal(document.plans[1].pieces.some((other) => rectOverlap(pieceRect(document, other), pieceRect(document, placed.piece))), false);
  });

  it("does not snap with tolerance 0", () => {
    const document = sample();
    assert.deepEqual(corner(put(document, piece("left", 0, 0), 2.0123, 0.4567, { tolerance_m: 0, marks: bounceMarks(document, 1) })), [2.0123, 0.4567]);
  });
});

/** A wall with parts, zones and pieces at random, some touching. @param {() => number} random */
function crowded(random) {
  const room = { width_m: between(random, 2, 6), length_m: between(random, 2, 8), height_m: between(random, 2, 3.5) };
  const size = { u: room.length_m, v: room.height_m };
  const rect = (least, most) => ({
    u_m: between(random, 0, size.u - most), v_m: between(random, 0, size.v - most),
    width_m: between(random, least, most), height_m: between(random, least, most),
  });
  const parts = Array.from({ length: Math.floor(random() * 3) }, () => ({ role: random() < 0.5 ? "opening" : "window", finish: "x", ...rect(0.3, 1.2) }));
  const keep_clear = Array.from({ length: Math.floor(random() * 3) }, () => ({ surface: "left", margin_m: between(random, 0, 0.6), why: "detector", ...rect(0, 0.3) }));
  const small = kind("small", between(random, 0.2, 0.8), between(random, 0.2, 0.8));
  const pieces = Array.from({ length: Math.floor(random() * 6) }, () => ({ kit: "small", surface: "left", ...pick(rect(0.2, 0.8)) }));
  const surfaces = { ...sample().room.surfaces, left: { finish: "x", parts } };
  return sample({ room: { ...room, surfaces, keep_clear }, kit: [small, kind("thick", between(random, 0.2, 1.2), between(random, 0.2, 1.2))], pieces });
}
const pick = ({ u_m, v_m }) => ({ u_m, v_m });

describe("a thousand crowded walls", () => {
  it("never overlaps, never leaves the surface, and is nearest", () => {
    const random = seeded(20);
    let moved = 0;
    let refused = 0;
    for (let round = 0; round < 1000; round += 1) {
      const document = crowded(random);
      const one = piece("left", 0, 0, { turned: random() < 0.5 });
      const size = surfaceSize(document.room, "left");
      const wanted = { u_m: between(random, -0.5, size.u_m + 0.5), v_m: between(random, -0.5, size.v_m + 0.5) };
      const snapping = random() < 0.3;
      const options = snapping ? { tolerance_m: 0.1, marks: bounceMarks(document, 1) } : EXACT;
      const placed = put(document, one, wanted.u_m, wanted.v_m, options);
      const rects = obstacles(document, 1, "left", null, document.kit[1]).map((obstacle) => obstacle.rect);
      const context = () => `round ${round}: ${JSON.stringify({ wanted, placed })}`;
      const { width_m, height_m } = pieceRect(document, one);
      const free = (u_m, v_m) => !rects.some((rect) => rectOverlap(rect, { u_m, v_m, width_m, height_m }));
      if (placed.legal) {
        const { u_m, v_m } = placed.piece;
        assert.ok(u_m >= 0 && v_m >= 0 && u_m + width_m <= size.u_m + 1e-9 && v_m + height_m <= size.v_m + 1e-9, context());
        assert.ok(free(u_m, v_m), context());
      }
      if (snapping) continue;
      const start = { u_m: clamp(wanted.u_m, size.u_m - width_m), v_m: clamp(wanted.v_m, size.v_m - height_m) };
      const best_m = placed.legal ? Math.hypot(placed.piece.u_m - start.u_m, placed.piece.v_m - start.v_m) : 0.3;
      if (placed.legal && best_m > 1e-4) moved += 1;
      if (!placed.legal) refused += 1;
      assert.ok(best_m <= 0.3 + 2e-4, context());
      assert.equal(nearerOnGrid(start, best_m, { u_m: size.u_m - width_m, v_m: size.v_m - height_m }, free), null, context());
    }
    assert.ok(moved > 60 && refused > 60, `the cases must bite: ${moved} moved, ${refused} refused`);
  });
});

/** @param {number} value_m @param {number} most_m */
const clamp = (value_m, most_m) => Math.max(0, Math.min(most_m, value_m));

/**
 * A free point of a 1 cm grid that is clearly nearer than the place found.
 * @param {{u_m: number, v_m: number}} start @param {number} best_m @param {{u_m: number, v_m: number}} most @param {(u: number, v: number) => boolean} free
 */
function nearerOnGrid(start, best_m, most, free) {
  const reach = Math.floor(best_m / 0.01);
  for (let i = -reach; i <= reach; i += 1) {
    for (let j = -reach; j <= reach; j += 1) {
      const [u_m, v_m] = [start.u_m + i * 0.01, start.v_m + j * 0.01];
      if (u_m < 0 || v_m < 0 || u_m > most.u_m || v_m > most.v_m || Math.hypot(i, j) * 0.01 >= best_m - 2e-4) continue;
      if (free(u_m, v_m)) return { u_m, v_m };
    }
  }
  return null;
}
