import assert from "node:assert/strict";
import { describe, it } from "node:test";
import { AWAY, FIRST_LOOK, cameraOf, doorOf, dot, facedSurface, lineSeen, minus, outlineSeen, pictured, seen, turned } from "../../www/model/camera.js";
import { fromBehind, mayHide, prism, solidsOf } from "../../www/model/solids.js";
import { initialState } from "../../www/model/reduce.js";
import { roomView } from "../../www/view/room_view.js";
import { planReport, reflection } from "./fixtures.js";
import { between, kind, piece, sample, seeded } from "./support.js";
import { countOf, textOf, wordsOf } from "./support_text.js";

const frame = { width_px: 600, height_px: 400 };
const { room, listening } = sample();

/** A picture of the sample room. */
function scene({ look, pieces = [piece("left", 1, 1), piece("right", 1, 1)], room: more = {} } = {}) {
  const document = sample({ pieces, room: more });
  const state = initialState(document);
  const shown = planReport(0.5, { reflections: [reflection(), reflection({ loudspeaker: 1, surfaces: ["right"], points_m: [[4, 2.5, 1.05]] })] });
  return { state: { ...state, shows: { ...state.shows, look } }, document, plan: document.plans[1], listening: document.listening, shown, dispatch: () => {} };
}

describe("the camera", () => {
  it("has right at the right and up at the top when it looks at the front wall", () => {
    const camera = cameraOf(room, listening, FIRST_LOOK, frame);
    assert.equal(facedSurface(camera), "front");
    const [left, right, high] = [[1, 1, 1.1], [3, 1, 1.1], [2, 1, 2]].map((at) => pictured(camera, seen(camera, at)));
    assert.ok(left.x < 0 && right.x > 0 && Math.abs(left.x + right.x) < 1e-9);
    assert.ok(high.y < 0 && Math.abs(high.x) < 1e-9);
    assert.equal(facedSurface(cameraOf(room, listening, { ...FIRST_LOOK, turn_deg: 90 }, frame)), "right");
    assert.equal(facedSurface(cameraOf(room, listening, { ...FIRST_LOOK, turn_deg: 180 }, frame)), "back");
    assert.equal(facedSurface(cameraOf(room, listening, { ...FIRST_LOOK, tilt_deg: 80 }, frame)), "ceiling");
  });

  it("has axes square to each other and of length one, whichever way it is turned", () => {
    const random = seeded(3);
    for (let time = 0; time < 200; time += 1) {
      const look = { from: "free", turn_deg: between(random, -180, 180), tilt_deg: between(random, -60, 80), away: 1 };
      const { forward, right, up } = cameraOf(room, listening, look, frame);
      for (const axis of [forward, right, up]) assert.ok(Math.abs(dot(axis, axis) - 1) < 1e-9);
      for (const [a, b] of [[forward, right], [right, up], [up, forward]]) assert.ok(Math.abs(dot(a, b)) < 1e-9);
    }
  });

  it("has the whole room in the picture from outside", () => {
    const random = seeded(4);
    for (let time = 0; time < 200; time += 1) {
      const camera = cameraOf(room, listening, { from: "free", turn_deg: between(random, -180, 180), tilt_deg: between(random, -50, 80), away: 1 }, frame);
      for (const x of [0, 4]) for (const y of [0, 6]) for (const z of [0, 2.5]) {
        const at = pictured(camera, seen(camera, [x, y, z]));
        assert.ok(Math.abs(at.x) <= 300 && Math.abs(at.y) <= 200, JSON.stringify(at));
      }
    }
  });

  it("cuts off what lies behind the eye", () => {
    const camera = cameraOf(room, listening, FIRST_LOOK, frame);
    assert.equal(outlineSeen(camera, [[0, 5, 0], [4, 5, 0], [4, 6, 0], [0, 6, 0]]).length, 0);
    assert.equal(outlineSeen(camera, [[0, 0, 0], [0, 6, 0], [0, 6, 2.5], [0, 0, 2.5]]).length, 4);
    assert.ok(outlineSeen(camera, [[0, 0, 0], [4, 0, 0], [4, 6, 0], [0, 6, 0]]).every(({ x, y }) => Number.isFinite(x + y)));
    assert.equal(lineSeen(camera, [2, 5, 1], [2, 6, 1]).length, 0);
    assert.equal(lineSeen(camera, [1, 1, 1], [2, 6, 1]).length, 2);
  });

  it("is turned round and round, and comes no nearer than it may", () => {
    assert.equal(turned({ ...FIRST_LOOK, turn_deg: 170 }, { turn_deg: 20 }).turn_deg, -170);
    assert.equal(turned({ ...FIRST_LOOK, tilt_deg: 75 }, { tilt_deg: 20 }).tilt_deg, 80);
    assert.equal(turned({ ...FIRST_LOOK, away: 0.41 }, { away: 0.5 }).away, AWAY.least);
  });

  it("looks from the door to the middle of the room", () => {
    const door = { ...room, surfaces: { ...room.surfaces, back: { finish: "plaster-on-brick", parts: [{ role: "door", finish: "door", u_m: 0.5, v_m: 0, width_m: 0.9, height_m: 2 }] } } };
    assert.equal(doorOf(door).wall, "back");
    const camera = cameraOf(door, listening, { ...FIRST_LOOK, from: "door" }, frame);
    assert.ok(Math.abs(camera.eye_m[0] - 0.95) < 1e-9 && camera.eye_m[1] > 5.7 && camera.eye_m[2] === 1.6);
    assert.ok(Math.abs(pictured(camera, seen(camera, [2, 3, 1.2])).x) < 1e-6, "the middle of the room is in the middle");
    assert.equal(doorOf(room), null);
  });
});

describe("solids", () => {
  it("have sides that look outward", () => {
    const box = prism([[0, 0], [0, 1], [1, 1], [1, 0]], 0, 2, () => false);
    assert.equal(box.sides.length, 6);
    for (const { corners_m, normal } of box.sides) assert.ok(dot(normal, minus(corners_m[0], [0.5, 0.5, 1])) > 0);
  });

  it("are the pieces, the furniture and the loudspeakers, each where it stands", () => {
    const corner = kind("corner", 0.6, 1.2, { stands: "corner" });
    const stand = kind("stand", 0.6, 1.2, { stands: "stand" });
    const document = sample({ kit: [kind(), corner, stand], room: { furnishings: [{ kind: "sofa-fabric", count: 1, at: { x_m: 1, y_m: 4, width_m: 2, depth_m: 0.9, height_m: 0.8 } }, { kind: "bookcase-filled", count: 1 }] },
      pieces: [piece("left", 1, 1), { kit: "corner", place: "corner", edge: "back-right", z_m: 0 }, { kit: "stand", place: "stand", x_m: 1, y_m: 2, z_m: 0.05, turn_deg: 90 }] });
    const [left, prismatic, screen, sofa, ...speakers] = solidsOf(document, document.plans[1], document.listening);
    assert.deepEqual([left.least_m, left.most_m], [[0, 1, 1], [0.15, 1.6, 2.2]]);
    assert.equal(left.sides.filter(({ isFront }) => isFront).length, 1);
    assert.equal(prismatic.sides.length, 5);
    assert.deepEqual(prismatic.most_m, [4, 6, 1.2]);
    assert.ok(Math.abs(screen.most_m[1] - 2.3) < 1e-9 && Math.abs(screen.most_m[0] - 1.075) < 1e-9, "turned by a quarter");
    assert.deepEqual(sofa.most_m, [3, 4.9, 0.8]);
    assert.equal(speakers.length, 2, "the bookcase says no place");
  });

  it("are drawn from behind: none covers one that is nearer to the eye", () => {
    const random = seeded(7);
    for (let time = 0; time < 60; time += 1) {
      const grid = Array.from({ length: 12 }, (_, index) => {
        const [x, y] = [(index % 4) + between(random, 0, 0.3), Math.floor(index / 4) + between(random, 0, 0.3)];
        return { what: "furniture", index, name: "", surface: null, ...prism([[x, y], [x + 0.6, y], [x + 0.6, y + 0.6], [x, y + 0.6]], 0, between(random, 0.3, 2), () => false) };
      });
      const eye_m = [between(random, -3, 6), between(random, -3, 6), between(random, 0.5, 3)];
      const order = fromBehind(grid, eye_m);
      assert.equal(order.length, 12);
      order.forEach((one, at) => order.slice(at + 1).forEach((later) => assert.ok(!mayHide(one, later, eye_m), "drawn before what it may hide")));
    }
  });
});

describe("the picture of the room", () => {
  it("shows pieces with their hatch and number, ways and marks, and says what is in view", () => {
    const drawn = roomView(scene({ look: { ...FIRST_LOOK, from: "free" } }), 600);
    assert.equal(countOf(drawn, /class="solid is-piece/g), 2);
    assert.match(textOf(drawn), /url\(#k-gap\)/);
    assert.equal(countOf(drawn, /class="path /g), 2);
    assert.match(wordsOf(drawn), /From outside, towards the right wall: all 2 pieces are in view\./);
    assert.match(wordsOf(roomView(scene({ look: { ...FIRST_LOOK, turn_deg: 180 } }), 600)), /From the seat, towards the back wall: 0 of 2 pieces are in view\./);
    assert.match(wordsOf(roomView(scene({ pieces: [] }), 600)), /no piece is in the plan/);
  });

  it("has a button for every way of turning, and offers the door only where there is one", () => {
    const words = wordsOf(roomView(scene(), 600));
    for (const name of ["left", "right", "up", "down", "nearer", "farther", "start anew"]) assert.ok(words.includes(name), name);
    assert.ok(!words.includes("from the door"));
  });
});
