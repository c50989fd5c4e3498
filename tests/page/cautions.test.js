// Every caution, its words, and the condition that brings it: one test for each row of the list.
import assert from "node:assert/strict";
import { describe, it } from "node:test";
import { cautions, kindCautions } from "../../www/model/cautions.js";
import { CAUTION_TEXTS, CLAP, FOOT, SHELF } from "../../www/model/caution_texts.js";
import { initialState } from "../../www/model/reduce.js";
import { defaultMargin } from "../../www/model/parts.js";
import { itemPanel } from "../../www/view/item.js";
import { kitShelf } from "../../www/view/kit.js";
import { footLine } from "../../www/view/notes.js";
import { kind, piece, sample } from "./support.js";
import { wordsOf } from "./support_text.js";

/** Ids for the first piece of a sample. @param {object} changes */
function ids(changes) {
  const document = sample(changes);
  const [, plan] = document.plans;
  return cautions(document, plan, plan.pieces[0]).map(({ id }) => id);
}
const wall = (more) => ({ pieces: [piece("left", 1, 0.6)], ...more });
const withParts = (parts) => ({ surfaces: { ...sample().room.surfaces, left: { finish: "x", parts } } });
const zone = (why, surface = "left") => ({ keep_clear: [{ surface, u_m: 1.8, v_m: 0.8, width_m: 0.1, height_m: 0.1, margin_m: 0.1, why }] });
const stand = (more) => ({ kit: "thick", place: "stand", x_m: 2, y_m: 2, z_m: 0.05, turn_deg: 0, ...more });

describe("cautions, row by row", () => {
  it("foot of the first screen and of the sheet", () => {
    assert.equal(FOOT, "This page estimates sound. It is not structural, fire, electrical or health advice. Local rules, your lease and qualified people decide what may go where.");
    assert.ok(wordsOf(footLine({ state: initialState(sample()), commands: {} })).includes(FOOT));
    assert.ok(cautions(sample(), sample().plans[1], null).some(({ text }) => text === FOOT));
  });

  it("anything overhead: on the ceiling, over a doorway, a seat or a bed, with its weight", () => {
    const over = (room, at) => ids({ room, pieces: [at] })[0] === "overhead";
    assert.ok(over({}, piece("ceiling", 1, 1)));
    assert.ok(over(withParts([{ role: "door", finish: "d", u_m: 1, v_m: 0, width_m: 0.9, height_m: 1.2 }]), piece("left", 1.1, 1.25)));
    for (const seat of ["sofa-fabric", "daybed", "dining-chair-upholstered"]) {
      const furnishings = [{ kind: seat, count: 1, at: { x_m: 0.1, y_m: 1, width_m: 0.9, depth_m: 2, height_m: 0.8 } }];
      assert.ok(over({ furnishings }, piece("left", 1.2, 1)), seat);
      assert.ok(!over({ furnishings }, piece("left", 4, 1)), `${seat} elsewhere`);
    }
    assert.ok(!over({}, piece("left", 1, 1)));
    const document = sample({ pieces: [piece("ceiling", 1, 1)] });
    assert.match(cautions(document, document.plans[1], document.plans[1].pieces[0])[0].text, /Fix into structure, not into board alone, with a second independent hold, and know the weight: about 5 kg\./);
  });

  it("overhead too: over the listening seat of the plan, on a rail, or across a corner over a doorway or a seat", () => {
    const atWall = { loudspeakers: [], seat: { x_m: 0.5, y_m: 4, z_m: 1.1 } };
    const first = (document) => cautions(document, document.plans[1], document.plans[1].pieces[0])[0].id;
    const seated = { ...sample({ pieces: [piece("left", 3.9, 1)] }), listening: atWall };
    assert.equal(first(seated), "overhead");
    assert.notEqual(first({ ...seated, listening: sample().listening }), "overhead", "the seat is far from the wall");
    const moved = structuredClone({ ...seated, listening: sample().listening });
    moved.plans[1].listening = atWall;
    assert.equal(first(moved), "overhead", "the plan's own seat");
    const [low, elsewhere] = [piece("left", 3.9, 0), piece("left", 0.2, 1)].map((at) => ({ ...seated, kit: [kind("thick", 0.6, 1)], plans: [seated.plans[0], { name: "A", pieces: [at] }] }));
    for (const document of [low, elsewhere]) assert.notEqual(first(document), "overhead");
    const furnishings = [{ kind: "sofa-fabric", count: 1, at: { x_m: 0.1, y_m: 0.1, width_m: 0.9, depth_m: 2, height_m: 0.8 } }];
    const over = (room, at) => ids({ room, pieces: [at] })[0] === "overhead";
    assert.ok(over({ furnishings }, { kit: "thick", place: "curtain", surface: "left", u_m: 1, v_m: 0.9, open: 0 }), "a rail over a sofa");
    assert.ok(over({ furnishings }, { kit: "thick", place: "corner", edge: "front-left", z_m: 1 }), "across the corner over a sofa");
    const door = withParts([{ role: "door", finish: "d", u_m: 0.1, v_m: 0, width_m: 0.9, height_m: 1.2 }]);
    assert.ok(over(door, { kit: "thick", place: "corner", edge: "front-left", z_m: 1.25 }), "over a doorway");
    assert.ok(!over(door, { kit: "thick", place: "corner", edge: "front-right", z_m: 1.25 }));
  });

  it("any wall fixing, also of a corner piece on brackets, and none for what stands or lies", () => {
    assert.ok(ids(wall()).includes("fixing"));
    const corner = (z_m) => ({ kit: "thick", place: "corner", edge: "front-left", z_m });
    assert.ok(ids({ pieces: [corner(1)] }).includes("fixing"));
    for (const at of [piece("floor", 1, 1), stand(), corner(0)]) assert.ok(!ids({ pieces: [at] }).includes("fixing"));
  });

  it("before drilling, where something is fixed", () => {
    assert.ok(ids(wall()).includes("drilling"));
    assert.ok(!ids(wall({ limits: { no_drilling: true } })).includes("drilling"));
    assert.match(CAUTION_TEXTS.drilling, /Use a detector, and do not take silence from it as proof\. Switch off the circuit if in doubt\.$/);
  });

  it("old building ticked, or ceiling textured", () => {
    for (const condition of ["old-building", "textured-ceiling"]) assert.ok(ids(wall({ room: { conditions: [condition] } })).includes("old-building"));
    assert.ok(!ids(wall()).includes("old-building"));
  });

  it("foam or cloth", () => {
    assert.ok(ids(wall()).includes("fire"));
    assert.ok(ids({ pieces: [{ kit: "thick", place: "curtain", surface: "left", u_m: 1, v_m: 0.2, open: 0 }] }).includes("fire"));
    assert.match(CAUTION_TEXTS.fire, /EN 13501-1, ASTM E84/);
  });

  it("mineral or glass fibre, made oneself", () => {
    assert.ok(ids(wall({ room: { conditions: ["own-build"] } })).includes("fibre"));
    for (const name of ["Mineral wool, 50 mm", "Glass fibre board", "Wood fiber board"]) assert.ok(ids(wall({ kit: [kind("thick", 0.6, 1.2, { name })] })).includes("fibre"), name);
    assert.ok(!ids(wall()).includes("fibre"));
    assert.match(CAUTION_TEXTS.fibre, /Wrap the core fully before it goes in the room\. If someone has a lung condition, ask first\.$/);
  });

  it("near a sprinkler or detector, planned with 0.6 m", () => {
    for (const why of ["sprinkler", "smoke detector", "alarm"]) {
      assert.ok(ids(wall({ room: zone(why) })).includes("sprinkler"), why);
      assert.equal(defaultMargin(why), 0.6, why);
    }
    assert.ok(!ids({ pieces: [piece("left", 4, 0.6)], room: zone("sprinkler") }).includes("sprinkler"), "far from it");
  });

  it("near a vent or air grille, planned with 0.3 m", () => {
    for (const why of ["vent", "air grille"]) {
      assert.ok(ids(wall({ room: zone(why) })).includes("vent"), why);
      assert.equal(defaultMargin(why), 0.3, why);
    }
  });

  it("heat: 0.5 m from heaters, 1.0 m from an open flame, 0.3 m from lamps", () => {
    for (const [why, margin_m] of [["heater", 0.5], ["radiator", 0.5], ["stove", 0.5], ["open flame", 1], ["lamp", 0.3]]) {
      assert.ok(ids(wall({ room: zone(why) })).includes("heat"), why);
      assert.equal(defaultMargin(why), margin_m, why);
    }
  });

  it("door, window and the way out", () => {
    for (const role of ["door", "window", "opening"]) {
      const room = withParts([{ role, finish: "x", u_m: 1.8, v_m: 0, width_m: 1, height_m: 2 }]);
      assert.ok(ids(wall({ room })).includes("way-out"), role);
      assert.ok(!ids({ room, pieces: [piece("left", 4, 0.6)] }).includes("way-out"), `${role} elsewhere`);
    }
    for (const why of ["door swing", "escape window", "way out"]) assert.ok(ids(wall({ room: zone(why) })).includes("way-out"), why);
  });

  it("what stands, on feet or in a corner", () => {
    assert.ok(ids({ pieces: [stand()] }).includes("tipping"));
    assert.ok(ids({ pieces: [{ kit: "thick", place: "corner", edge: "front-left", z_m: 0 }] }).includes("tipping"));
    assert.ok(!ids({ pieces: [{ kit: "thick", place: "corner", edge: "front-left", z_m: 1 }] }).includes("tipping"));
    assert.ok(!ids(wall()).includes("tipping"));
  });

  it("an outer or a cold wall", () => {
    assert.ok(ids({ pieces: [piece("left", 4, 0.6)], room: withParts([{ role: "window", finish: "x", u_m: 1, v_m: 1, width_m: 1, height_m: 1 }]) }).includes("damp"));
    assert.ok(ids(wall({ room: { conditions: ["cold-walls"] } })).includes("damp"));
    assert.ok(!ids(wall()).includes("damp"));
  });

  it("reach what stands and what goes across a corner", () => {
    const corner = (edge, z_m = 0.5) => ({ kit: "thick", place: "corner", edge, z_m });
    const near = [["heater", "heat"], ["vent", "vent"], ["sprinkler", "sprinkler"], ["escape window", "way-out"]];
    for (const [why, id] of near) {
      const onFront = { keep_clear: [{ surface: "front", u_m: 0.6, v_m: 0.6, width_m: 0.1, height_m: 0.1, margin_m: 0.1, why }] };
      assert.ok(ids({ room: onFront, pieces: [corner("front-left")] }).includes(id), `${why}, its end wall`);
      assert.ok(!ids({ room: onFront, pieces: [corner("back-right")] }).includes(id), `${why}, another corner`);
      assert.ok(ids({ room: zone(why), pieces: [stand({ x_m: 0.6 })] }).includes(id), `${why}, a stand before it`);
      assert.ok(!ids({ room: zone(why), pieces: [stand()] }).includes(id), `${why}, a stand far from it`);
      const onFloor = { keep_clear: [{ surface: "floor", u_m: 0, v_m: 0, width_m: 0.3, height_m: 0.3, margin_m: 0.1, why }] };
      assert.ok(ids({ room: onFloor, pieces: [corner("front-left", 1.2)] }).includes(id), `${why} on the floor below`);
    }
    for (const role of ["door", "window", "opening"]) {
      const room = withParts([{ role, finish: "x", u_m: 0.5, v_m: 0, width_m: 1, height_m: 2 }]);
      assert.ok(ids({ room, pieces: [corner("front-left")] }).includes("way-out"), `${role} beside a corner`);
      assert.ok(!ids({ room, pieces: [corner("front-right")] }).includes("way-out"), role);
      assert.ok(ids({ room, pieces: [stand({ x_m: 0.5, y_m: 1 })] }).includes("way-out"), `a stand before the ${role}`);
      assert.ok(!ids({ room, pieces: [stand({ y_m: 4 })] }).includes("way-out"), role);
    }
    const window = withParts([{ role: "window", finish: "x", u_m: 4, v_m: 1, width_m: 1, height_m: 1 }]);
    assert.ok(ids({ room: window, pieces: [corner("front-left")] }).includes("damp"));
    assert.ok(!ids({ room: window, pieces: [corner("front-right")] }).includes("damp"));
    assert.ok(ids({ room: window, pieces: [stand({ x_m: 0.5 })] }).includes("damp"), "a stand close before it");
    assert.ok(!ids({ room: window, pieces: [stand()] }).includes("damp"), "a stand in the room");
    for (const at of [corner("front-left"), stand({ x_m: 0.5 })]) assert.ok(ids({ room: { conditions: ["cold-walls"] }, pieces: [at] }).includes("damp"));
  });

  it("rented, listed, shared", () => {
    for (const condition of ["rented", "listed", "shared-house"]) assert.ok(ids(wall({ room: { conditions: [condition] } })).includes("rented"), condition);
    assert.ok(!ids({ pieces: [stand()], room: { conditions: ["rented"] } }).includes("rented"), "a stand is not fixed");
  });

  it("ladder work, on the sheet", () => {
    const whole = (at, kit) => { const document = sample({ pieces: [at], ...(kit && { kit }) }); return cautions(document, document.plans[1], null).map(({ id }) => id); };
    assert.ok(whole(piece("left", 1, 1)).includes("ladder"), "over 2 m");
    assert.ok(whole(piece("left", 1, 0.2), [kind("thick", 2, 0.6)]).includes("ladder"), "wider than a reach");
    assert.ok(whole({ kit: "thick", place: "corner", edge: "front-left", z_m: 1 }).includes("ladder"), "across a corner, over 2 m");
    assert.ok(!whole(piece("left", 1, 0.2)).includes("ladder"));
  });

  it("earthquake region", () => {
    for (const at of [piece("left", 1, 1), stand()]) assert.ok(ids({ pieces: [at], room: { conditions: ["earthquake-region"] } }).includes("earthquake"));
  });

  it("a check-up by clap or burst", () => {
    assert.equal(CLAP, "No balloons or bangs near ears.");
  });

  it("the shelf, in one line", () => {
    const document = sample();
    const scene = { document, state: initialState(document), kit: [], library: { shelf: [] }, dispatch: () => {} };
    assert.ok(wordsOf(kitShelf(scene, 50)).includes(SHELF.replace(/ +/g, " ")));
  });

  it("come for a kind as soon as it is picked up", () => {
    const own = sample({ room: { conditions: ["own-build", "rented"] } });
    const of = (...facts) => kindCautions(own, kind(...facts)).map(({ id }) => id);
    assert.deepEqual(of("new"), ["fixing", "fire", "fibre", "rented"]);
    assert.deepEqual(of("new", 0.6, 1.2, { stands: "stand" }), ["fire", "fibre", "tipping"]);
    assert.deepEqual(of("new", 2, 3, { stands: "floor" }), ["fire", "fibre"]);
    const picked = { ...initialState(own), picked: { kit: "new", kind: kind("new"), index: null, places: [] } };
    const scene = { document: own, plan: own.plans[1], state: picked, kit: [], library: { shelf: [] }, dispatch: () => {} };
    assert.ok(wordsOf(itemPanel(scene)).includes(CAUTION_TEXTS.fibre));
  });
});
