import assert from "node:assert/strict";
import { describe, it } from "node:test";
import { SURFACES, edgeDistances, freeDistances, rectOverlap, surfaceAxes, surfaceSize, toPoint, toSurface } from "../../www/model/geometry.js";
import { landingPlaces } from "../../www/model/landing.js";
import { bounceMarks, listeningOf } from "../../www/model/marks.js";
import { place } from "../../www/model/placing.js";
import { between, piece, sample, seeded } from "./support.js";

describe("surfaces", () => {
  it("have the axes of the scenario", () => {
    const { room } = sample();
    assert.deepEqual(surfaceAxes("right"), { u: "y", v: "z" });
    assert.deepEqual(surfaceAxes("back"), { u: "x", v: "z" });
    assert.deepEqual(surfaceSize(room, "ceiling"), { u_m: 4, v_m: 6 });
    assert.deepEqual(toPoint("right", 2, 1, room), [4, 2, 1]);
    assert.deepEqual(toPoint("back", 2, 1, room), [2, 6, 1]);
    assert.deepEqual(toPoint("ceiling", 1, 2, room), [1, 2, 2.5]);
  });

  it("give a point back from room axes", () => {
    const { room } = sample();
    const random = seeded(3);
    for (let i = 0; i < 300; i += 1) {
      const surface = SURFACES[i % 6];
      const [u_m, v_m] = [between(random, 0, 4), between(random, 0, 2)];
      assert.deepEqual(toSurface(surface, toPoint(surface, u_m, v_m, room)), { u_m, v_m });
    }
  });

  it("tell touching from overlapping", () => {
    const one = { u_m: 0.1, v_m: 0, width_m: 0.2, height_m: 1 };
    assert.equal(rectOverlap(one, { u_m: 0.1 + 0.2, v_m: 0, width_m: 1, height_m: 1 }), false);
    assert.equal(rectOverlap(one, { u_m: 0.2999, v_m: 0, width_m: 1, height_m: 1 }), true);
  });

  it("measure to the ends and to neighbours", () => {
    const document = sample({ pieces: [piece("left", 1, 0.5), piece("left", 3, 0.6), piece("left", 1.2, 1.9, { kit: "none" })] });
    assert.deepEqual(edgeDistances(document.room, "left", { u_m: 1, v_m: 0.5, width_m: 0.6, height_m: 1.2 }), { low_u_m: 1, high_u_m: 4.4, low_v_m: 0.5, high_v_m: 0.8 });
    const free = freeDistances(document, 1, 0);
    assert.ok(Math.abs(free.high_u_m - 1.4) < 1e-9 && free.low_u_m === 1 && free.low_v_m === 0.5);
  });
});

describe("bounce marks", () => {
  // First-order image points worked out by hand for five rooms: width, length, height, left loudspeaker, ear, marks, delay in ms
  // at 343.2 m/s. To ±1 cm and ±0.05 ms.
  const oracles = [
    ["corner room", [3.1, 4.3, 2.45], [0.75, 0.55, 0.95], [1.55, 3.45, 1.05], "left", [0, 1.5, 0.98], 2.02],
    ["corner room", [3.1, 4.3, 2.45], [0.75, 0.55, 0.95], [1.55, 3.45, 1.05], "floor", [1.13, 1.93, 0], 1.76],
    ["corner room", [3.1, 4.3, 2.45], [0.75, 0.55, 0.95], [1.55, 3.45, 1.05], "ceiling", [1.16, 2.05, 2.45], 3.4],
    ["terrace room", [3.3, 8.4, 2.7], [0.65, 1.1, 0.9], [1.65, 3.9, 1.0], "left", [0, 1.89, 0.93], 1.89],
    ["terrace room", [3.3, 8.4, 2.7], [0.65, 1.1, 0.9], [1.65, 3.9, 1.0], "back", [1.27, 8.4, 0.96], 25.84],
    ["loft", [9.2, 7.1, 3.4], [3.3, 1, 1], [4.6, 4.3, 1.05], "left", [0, 2.38, 1.02], 14.61],
    ["loft", [9.2, 7.1, 3.4], [3.3, 1, 1], [4.6, 4.3, 1.05], "ceiling", [3.96, 2.67, 3.4], 6.94],
    ["study", [3.05, 3.05, 2.5], [0.85, 0.45, 1], [1.525, 1.85, 1.15], "left", [0, 0.95, 1.05], 3.5],
    ["tall room", [5.35, 4.05, 3.6], [1.55, 0.7, 0.95], [2.675, 3.15, 1.05], "right", [5.35, 2.14, 1.01], 12.31],
  ];
  for (const [name, [width_m, length_m, height_m], from, seat, surface, point, delay_ms] of oracles) {
    it(`${name}: ${surface}`, () => {
      const document = sample({ room: { width_m, length_m, height_m } });
      const at = ([x_m, y_m, z_m]) => ({ x_m, y_m, z_m });
      document.listening = { loudspeakers: [at(from)], seat: at(seat) };
      const mark = bounceMarks(document, 0).find((one) => one.surface === surface);
      mark.point_m.forEach((value, axis) => assert.ok(Math.abs(value - point[axis]) <= 0.01, `${mark.point_m}`));
      assert.ok(Math.abs((mark.extra_m / 343.2) * 1000 - delay_ms) <= 0.05, `${(mark.extra_m / 343.2) * 1000} ms`);
    });
  }

  it("use the plan's own listening in place of the document's", () => {
    const own = { loudspeakers: [{ x_m: 2, y_m: 2, z_m: 1 }], seat: { x_m: 2, y_m: 5, z_m: 1 } };
    const document = sample({ plans: [{ name: "Now", pieces: [] }, { name: "A", pieces: [], listening: own }] });
    assert.equal(listeningOf(document, 0).loudspeakers.length, 2);
    assert.equal(bounceMarks(document, 1).length, 6);
    assert.ok(Math.abs(bounceMarks(document, 1)[0].v_m - 1) < 1e-9);
  });

  it("need a seat", () => {
    const document = sample();
    delete document.listening.seat;
    assert.deepEqual(bounceMarks(document, 0), []);
  });
});

describe("landing places", () => {
  const places = (document, focus) => landingPlaces(document, 1, piece("left", 0, 0), null, focus, "metric");

  it("are at most six, legal, and start at a bounce mark of the surface in focus", () => {
    const document = sample({ pieces: [piece("left", 0.2, 0.2)] });
    const found = places(document, "right");
    assert.ok(found.length <= 6 && found.length >= 4);
    assert.equal(found[0].surface, "right");
    assert.match(found[0].why, /^bounce mark of loudspeaker 2$/);
    const mark = bounceMarks(document, 1).find((one) => one.surface === "right" && one.loudspeaker === 1);
    assert.ok(Math.abs(found[0].v_m + 0.6 - mark.v_m) <= 5e-5, "stored to 0.1 mm");
    for (const one of found) {
      const again = place(document, 1, one, null, one, { tolerance_m: 0 });
      assert.deepEqual([again.legal, again.piece.u_m, again.piece.v_m], [true, one.u_m, one.v_m]);
    }
  });

  it("leave out surfaces that are kept bare", () => {
    const found = places(sample({ limits: { bare: ["left", "right", "ceiling", "floor"] } }), "left");
    assert.deepEqual([...new Set(found.map((one) => one.surface))].sort(), ["back", "front"]);
  });
});
